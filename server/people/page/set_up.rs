//! The first visit, by the one-time link that the server prints: an organization and its first office account.

use super::{Code, text_of, with_session};
use crate::access::{Role, password, session};
use crate::people::act;
use crate::people::draft::{SetUpDraft, UnitsWord};
use crate::people::sign_in::find_set_up_link;
use crate::web::door::App;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, FormPage, Page, show, show_with};
use crate::web::routes::{Need, Route};
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use jiff::tz::TimeZone;
use sowmark_core::say;
use sowmark_core::words::Words;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/set-up/{code}", Need::Anyone, set_up_page),
        crate::route!(page POST "/set-up/{code}", Need::Anyone, post_set_up),
    ]
}

async fn set_up_page(State(app): State<App>, cookies: Cookies, Code(code): Code) -> Result<Response, Error> {
    find_set_up_link(&app.db, &app.clock, &code).await?;
    show(&drawn(&cookies, form(&code, cookies.words())))
}

async fn post_set_up(
    State(app): State<App>,
    cookies: Cookies,
    Code(code): Code,
    headers: HeaderMap,
    posted: Posted,
) -> Result<Response, Error> {
    find_set_up_link(&app.db, &app.clock, &code).await?;
    let made = match input::read::<SetUpDraft>(&posted.tree(&TimeZone::UTC)) {
        Ok(draft) => act::set_up(&app.db, &app.clock, &app.hasher, &code, draft).await,
        Err(error) => Err(error),
    };
    match made {
        Ok((account, organization)) => {
            let device = text_of(&headers, header::USER_AGENT);
            let secret = session::open(&app.db, &app.clock, account, organization, Role::Office, device).await?;
            with_session(&app, Redirect::to("/").into_response(), Some(secret))
        }
        Err(error @ Error::Faults(_)) => {
            let form = form(&code, cookies.words()).again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &drawn(&cookies, form))
        }
        Err(error) => Err(error),
    }
}

fn drawn(cookies: &Cookies, form: Form) -> FormPage {
    let words = cookies.words();
    FormPage::new(Page::open(cookies, say!(words, "set-up-title")), form).intro(say!(words, "set-up-intro"))
}

fn form(code: &str, words: Words) -> Form {
    let none = std::iter::once((String::new(), say!(words, "set-up-zone-none")));
    let zones = none.chain(zones().map(|zone| (zone.clone(), zone)));
    Form::new(
        format!("/set-up/{code}"),
        say!(words, "set-up-submit"),
        vec![
            FormField::new("organization", say!(words, "set-up-organization"))
                .hint(say!(words, "set-up-organization-hint"))
                .autocomplete("organization"),
            FormField::new("time_zone", say!(words, "set-up-zone")).hint(say!(words, "set-up-zone-hint")).choice(zones),
            FormField::new("units", say!(words, "set-up-units"))
                .choice(UnitsWord::ALL.iter().map(|units| (units.word(), units_in_words(*units, words))))
                .value(UnitsWord::Metric.word()),
            FormField::new("name", say!(words, "set-up-name")).autocomplete("name"),
            FormField::new("email", say!(words, "set-up-email"))
                .hint(say!(words, "set-up-email-hint"))
                .kind(Kind::Email)
                .autocomplete("username"),
            new_password_field(say!(words, "password"), words),
        ],
    )
}

fn units_in_words(units: UnitsWord, words: Words) -> String {
    match units {
        UnitsWord::Metric => say!(words, "set-up-units-metric"),
        UnitsWord::Us => say!(words, "set-up-units-us"),
    }
}

pub(super) fn new_password_field(label: String, words: Words) -> FormField {
    FormField::new("password", label)
        .hint(say!(words, "password-hint", least = password::SHORTEST))
        .kind(Kind::Password)
        .autocomplete("new-password")
}

/// The zones that are named after places.
fn zones() -> impl Iterator<Item = String> {
    let named = jiff::tz::db().available().map(|zone| zone.to_string());
    named.filter(|zone| zone == "UTC" || zone.contains('/') && !zone.starts_with("Etc/"))
}
