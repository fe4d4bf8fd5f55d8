//! The first visit, by the one-time link that the server prints: an organization and its first office account.

use super::{Code, text_of, with_session};
use crate::access::{Role, session};
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

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/set-up/{code}", Need::Anyone, set_up_page),
        crate::route!(page POST "/set-up/{code}", Need::Anyone, post_set_up),
    ]
}

async fn set_up_page(State(app): State<App>, cookies: Cookies, Code(code): Code) -> Result<Response, Error> {
    find_set_up_link(&app.db, &app.clock, &code).await?;
    show(&drawn(&cookies, form(&code)))
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
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &drawn(&cookies, form(&code).again(&posted, &error)))
        }
        Err(error) => Err(error),
    }
}

fn drawn(cookies: &Cookies, form: Form) -> FormPage {
    FormPage::new(Page::open(cookies, "Set up Sowmark"), form).intro(
        "Nobody has an account here yet. This makes your organization and your own office account, and signs you in. The \
         link works once.",
    )
}

fn form(code: &str) -> Form {
    let zones =
        std::iter::once((String::new(), "Choose one".to_owned())).chain(zones().map(|zone| (zone.clone(), zone)));
    Form::new(
        format!("/set-up/{code}"),
        "Set up and sign in",
        vec![
            FormField::new("organization", "Organization")
                .hint("The farm or contractor whose records these are.")
                .autocomplete("organization"),
            FormField::new("time_zone", "Time zone")
                .hint("Its days and seasons begin at midnight there.")
                .choice(zones),
            FormField::new("units", "Units that your people read")
                .choice(UnitsWord::ALL.iter().map(|units| (units.word(), units_in_words(*units))))
                .value(UnitsWord::Metric.word()),
            FormField::new("name", "Your name").autocomplete("name"),
            FormField::new("email", "Your e-mail address")
                .hint("You sign in with it. Nothing is ever sent to it.")
                .kind(Kind::Email)
                .autocomplete("username"),
            new_password_field("Password"),
        ],
    )
}

fn units_in_words(units: UnitsWord) -> &'static str {
    match units {
        UnitsWord::Metric => "metric (g, kg, m, ha)",
        UnitsWord::Us => "US (oz, lb, ft, ac)",
    }
}

pub(super) fn new_password_field(label: &str) -> FormField {
    FormField::new("password", label)
        .hint("At least 12 characters. A few words of your own are easy to remember and hard to guess.")
        .kind(Kind::Password)
        .autocomplete("new-password")
}

/// The zones that are named after places.
fn zones() -> impl Iterator<Item = String> {
    let named = jiff::tz::db().available().map(|zone| zone.to_string());
    named.filter(|zone| zone == "UTC" || zone.contains('/') && !zone.starts_with("Etc/"))
}
