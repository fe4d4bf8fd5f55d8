//! One's own account: where one is signed in, tokens, organizations, the password.

use super::set_up::new_password_field;
use super::{Opened, opened_sessions, opened_tokens};
use crate::access::{Actor, Permission, Units, session, token};
use crate::people::draft::{ChangePasswordDraft, DecimalWord, OwnUnitsWord, ReadingDraft, TokenDraft};
use crate::people::{act, sign_in};
use crate::texts;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, FormPage, Page, show, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::OrganizationId;
use sowmark_core::texts::Language;
use sowmark_core::words::DecimalSign;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/account", Need::SignedIn, account_page),
        crate::route!(page GET "/account/password", Need::SignedIn, password_page),
        crate::route!(page POST "/account/password", Need::SignedIn, post_password),
        crate::route!(page POST "/account/reading", Need::SignedIn, post_reading),
        crate::route!(page POST "/account/sessions/end-others", Need::SignedIn, post_end_other_sessions),
        crate::route!(page POST "/account/sessions/{id}/end", Need::SignedIn, post_end_session),
        crate::route!(page POST "/account/tokens", Need::SignedIn, post_token),
        crate::route!(page POST "/account/tokens/{id}/end", Need::SignedIn, post_end_token),
        crate::route!(page POST "/account/organizations/{id}", Need::SignedIn, post_switch),
    ]
}

#[derive(Template)]
#[template(path = "people/account.html")]
struct AccountPage {
    page: Page,
    email: String,
    role: &'static str,
    sessions: Vec<Opened>,
    tokens: Vec<Opened>,
    reading_form: Form,
    token_form: Form,
    organizations: Vec<Organization>,
}

struct Organization {
    id: Uuid,
    name: String,
    role: String,
    current: bool,
}

#[derive(Template)]
#[template(path = "people/once.html")]
pub(super) struct OncePage {
    pub page: Page,
    /// What it is and what to do with it.
    pub says: String,
    pub secret: String,
    pub back: String,
}

pub(super) fn token_form(action: &str) -> Form {
    let label = FormField::new("label", "What it is for").hint("To know it by when it must be ended.");
    Form::new(action, "Make a token", vec![label])
}

fn reading_form(actor: &Actor) -> Form {
    let organization = format!("As {} does ({})", actor.organization_name, units_in_words(actor.organization_units));
    let units = [
        (OwnUnitsWord::Organization, organization),
        (OwnUnitsWord::Metric, units_in_words(Units::Metric).to_owned()),
        (OwnUnitsWord::Us, units_in_words(Units::Us).to_owned()),
    ];
    let own = actor.own_units.map_or(OwnUnitsWord::Organization.word(), Units::word);
    let sign = match actor.decimal_sign {
        DecimalSign::Point => DecimalWord::Point,
        DecimalSign::Comma => DecimalWord::Comma,
    };
    let as_asked = std::iter::once(("", "As your browser asks".to_owned()));
    let languages = as_asked.chain(texts::languages().map(|language| (language.tag(), language.name())));
    let fields = vec![
        FormField::new("units", "Units").choice(units.map(|(word, says)| (word.word(), says))).value(own),
        FormField::new("decimal_sign", "Decimal sign")
            .choice([(DecimalWord::Point.word(), "A point: 12.5"), (DecimalWord::Comma.word(), "A comma: 12,5")])
            .value(sign.word())
            .hint("How numbers are shown to you. When you type, both are taken."),
        FormField::new("language", "Language")
            .choice(languages)
            .value(actor.own_language.map_or("", Language::tag))
            .optional(),
    ];
    Form::new("/account/reading", "Show it so", fields)
}

fn units_in_words(units: Units) -> &'static str {
    match units {
        Units::Metric => "metric: kg, ha, km/h",
        Units::Us => "US: lb, ac, mph",
    }
}

async fn post_reading(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    signed.session()?;
    match input::read::<ReadingDraft>(&posted.tree(&signed.actor.time_zone)) {
        Ok(draft) => {
            act::set_reading(&signed.app.db, signed.actor.account, &draft).await?;
            Ok(Redirect::to("/account").into_response())
        }
        Err(error) => {
            let mut page = drawn(&signed, &cookies, token_form("/account/tokens")).await?;
            page.reading_form = page.reading_form.again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &page)
        }
    }
}

async fn drawn(signed: &Signed, cookies: &Cookies, token_form: Form) -> Result<AccountPage, Error> {
    let actor = &signed.actor;
    let own = signed.session()?;
    let mut conn = signed.app.read().await?;
    let sessions = session::list(&mut conn.cx(), actor.account, signed.app.clock.now()).await?;
    let tokens = token::list(&mut conn.cx(), actor.organization(), actor.account).await?;
    let memberships = act::memberships(&mut conn.cx(), actor.account).await?;
    Ok(AccountPage {
        page: Page::new(signed, cookies, actor.name.clone(), "/account"),
        email: actor.email.clone(),
        role: actor.role.word(),
        sessions: opened_sessions(sessions, &actor.time_zone, actor.words(), Some(own)),
        tokens: opened_tokens(tokens, &actor.time_zone, actor.words()),
        reading_form: reading_form(actor),
        token_form,
        organizations: memberships
            .into_iter()
            .map(|membership| Organization {
                current: membership.organization_id == actor.organization().0,
                id: membership.organization_id,
                name: membership.name,
                role: membership.role,
            })
            .collect(),
    })
}

async fn account_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    show(&drawn(&signed, &cookies, token_form("/account/tokens")).await?)
}

async fn post_end_session(signed: Signed, PathId(id): PathId) -> Result<Response, Error> {
    signed.session()?;
    if session::end(&signed.app.db, signed.actor.account, id).await? {
        Ok(Redirect::to("/account").into_response())
    } else {
        Err(Error::not_there("session"))
    }
}

async fn post_end_other_sessions(signed: Signed) -> Result<Response, Error> {
    let own = signed.session()?;
    let mut tx = signed.app.db.begin().await?;
    session::end_others(&mut tx.cx(), signed.actor.account, own).await?;
    tx.commit().await?;
    Ok(Redirect::to("/account").into_response())
}

async fn post_token(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    signed.session()?;
    let grant = signed.grant(Permission::ReadFleet)?;
    let draft = match input::read::<TokenDraft>(&posted.tree(&signed.actor.time_zone)) {
        Ok(draft) => draft,
        Err(error) => {
            let form = token_form("/account/tokens").again(&posted, &error);
            return show_with(StatusCode::UNPROCESSABLE_ENTITY, &drawn(&signed, &cookies, form).await?);
        }
    };
    let app = &signed.app;
    let secret = token::add(&app.db, &app.clock, &grant, signed.actor.account, &draft.label.0).await?;
    show(&OncePage {
        page: Page::new(&signed, &cookies, "Your new token", "/account"),
        says: token_says(&draft.label.0),
        secret,
        back: "/account".to_owned(),
    })
}

pub(super) fn token_says(label: &str) -> String {
    format!(
        "This is the token for \u{201c}{label}\u{201d}. It is shown this once: copy it now. Whoever has it can do what its \
         owner may do here, for a year or until it is ended."
    )
}

async fn post_end_token(signed: Signed, PathId(id): PathId) -> Result<Response, Error> {
    signed.session()?;
    let grant = signed.grant(Permission::ReadFleet)?;
    token::end(&signed.app.db, &signed.app.clock, &grant, signed.actor.account, id).await?;
    Ok(Redirect::to("/account").into_response())
}

async fn post_switch(signed: Signed, PathId(id): PathId) -> Result<Response, Error> {
    let own = signed.session()?;
    act::switch_organization(&signed.app.db, signed.actor.account, own, OrganizationId(id)).await?;
    Ok(Redirect::to("/").into_response())
}

fn password_form() -> Form {
    let old = FormField::new("old_password", "Password in use").kind(Kind::Password).autocomplete("current-password");
    Form::new("/account/password", "Change the password", vec![old, new_password_field("New password")])
}

fn password_form_page(signed: &Signed, cookies: &Cookies, form: Form) -> FormPage {
    FormPage::new(Page::new(signed, cookies, "Change your password", "/account"), form)
        .intro("You stay signed in here; everywhere else you will have to sign in again.")
}

async fn password_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    signed.session()?;
    show(&password_form_page(&signed, &cookies, password_form()))
}

async fn post_password(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    let own = signed.session()?;
    let app = &signed.app;
    let changed = match input::read::<ChangePasswordDraft>(&posted.tree(&signed.actor.time_zone)) {
        Ok(draft) => {
            let passwords = (draft.old_password.0, draft.password.0);
            sign_in::change_password(&app.db, &app.clock, &app.hasher, signed.actor.account, passwords, own).await
        }
        Err(error) => Err(error),
    };
    match changed {
        Ok(()) => Ok(Redirect::to("/account").into_response()),
        Err(error @ Error::Faults(_)) => {
            let page = password_form_page(&signed, &cookies, password_form().again(&posted, &error));
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &page)
        }
        Err(error) => Err(error),
    }
}
