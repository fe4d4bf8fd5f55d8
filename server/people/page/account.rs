//! One's own account: where one is signed in, tokens, organizations, the password.

use super::set_up::new_password_field;
use super::{Opened, opened_sessions, opened_tokens, role_in_words};
use crate::access::{Actor, Permission, Units, session, token};
use crate::db::kind::Kind as Entry;
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
use sowmark_core::say;
use sowmark_core::texts::Language;
use sowmark_core::words::{DecimalSign, Words};
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
    role: String,
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

pub(super) fn token_form(action: &str, words: Words) -> Form {
    let label = FormField::new("label", say!(words, "token-label")).hint(say!(words, "token-label-hint"));
    Form::new(action, say!(words, "token-make"), vec![label])
}

fn reading_form(actor: &Actor) -> Form {
    let words = actor.words();
    let as_organization = units_in_words(actor.organization_units, words);
    let organization =
        say!(words, "reading-units-organization", organization = &actor.organization_name, units = as_organization);
    let units = [
        (OwnUnitsWord::Organization, organization),
        (OwnUnitsWord::Metric, units_in_words(Units::Metric, words)),
        (OwnUnitsWord::Us, units_in_words(Units::Us, words)),
    ];
    let own = actor.own_units.map_or(OwnUnitsWord::Organization.word(), Units::word);
    let sign = match actor.decimal_sign {
        DecimalSign::Point => DecimalWord::Point,
        DecimalSign::Comma => DecimalWord::Comma,
    };
    let as_asked = std::iter::once(("", say!(words, "reading-language-browser")));
    let languages = as_asked.chain(texts::languages().map(|language| (language.tag(), language.name())));
    let fields = vec![
        FormField::new("units", say!(words, "reading-units"))
            .choice(units.map(|(word, says)| (word.word(), says)))
            .value(own),
        FormField::new("decimal_sign", say!(words, "reading-decimal"))
            .choice([
                (DecimalWord::Point.word(), say!(words, "reading-decimal-point")),
                (DecimalWord::Comma.word(), say!(words, "reading-decimal-comma")),
            ])
            .value(sign.word())
            .hint(say!(words, "reading-decimal-hint")),
        FormField::new("language", say!(words, "reading-language"))
            .choice(languages)
            .value(actor.own_language.map_or("", Language::tag))
            .optional(),
    ];
    Form::new("/account/reading", say!(words, "reading-submit"), fields).showing(&[])
}

fn units_in_words(units: Units, words: Words) -> String {
    match units {
        Units::Metric => say!(words, "reading-units-metric"),
        Units::Us => say!(words, "reading-units-us"),
    }
}

async fn post_reading(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    signed.session()?;
    let form = reading_form(&signed.actor);
    let mine = form.mine(&signed, (Entry::Account, Some(signed.actor.account.0)), &posted).await?;
    let tree = mine.posted.tree(&signed.actor.time_zone);
    match mine.may_be_stored().and_then(|()| input::read::<ReadingDraft>(&tree)) {
        Ok(draft) => {
            act::set_reading(&signed.app.db, signed.actor.account, &draft).await?;
            Ok(Redirect::to("/account").into_response())
        }
        Err(error) => {
            let mut page = drawn(&signed, &cookies, own_token_form(&signed)).await?;
            page.reading_form = form.again(&mine.posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &page)
        }
    }
}

async fn drawn(signed: &Signed, cookies: &Cookies, token_form: Form) -> Result<AccountPage, Error> {
    let actor = &signed.actor;
    let words = actor.words();
    let own = signed.session()?;
    let mut conn = signed.app.read().await?;
    let sessions = session::list(&mut conn.cx(), actor.account, signed.app.clock.now()).await?;
    let tokens = token::list(&mut conn.cx(), actor.organization(), actor.account).await?;
    let memberships = act::memberships(&mut conn.cx(), actor.account).await?;
    Ok(AccountPage {
        page: Page::new(signed, cookies, actor.name.clone(), "/account"),
        email: actor.email.clone(),
        role: role_in_words(actor.role.word(), words),
        sessions: opened_sessions(sessions, &actor.time_zone, words, Some(own)),
        tokens: opened_tokens(tokens, &actor.time_zone, words),
        reading_form: reading_form(actor),
        token_form,
        organizations: memberships
            .into_iter()
            .map(|membership| Organization {
                current: membership.organization_id == actor.organization().0,
                id: membership.organization_id,
                name: membership.name,
                role: role_in_words(&membership.role, words),
            })
            .collect(),
    })
}

async fn account_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    show(&drawn(&signed, &cookies, own_token_form(&signed)).await?)
}

fn own_token_form(signed: &Signed) -> Form {
    token_form("/account/tokens", signed.actor.words())
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
            let form = own_token_form(&signed).again(&posted, &error);
            return show_with(StatusCode::UNPROCESSABLE_ENTITY, &drawn(&signed, &cookies, form).await?);
        }
    };
    let (app, words) = (&signed.app, signed.actor.words());
    let secret = token::add(&app.db, &app.clock, &grant, signed.actor.account, &draft.label.0).await?;
    show(&OncePage {
        page: Page::new(&signed, &cookies, say!(words, "token-new-title"), "/account"),
        says: say!(words, "token-once", label = &draft.label.0),
        secret,
        back: "/account".to_owned(),
    })
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

fn password_form(words: Words) -> Form {
    let old = FormField::new("old_password", say!(words, "password-in-use"));
    let old = old.kind(Kind::Password).autocomplete("current-password");
    let new = new_password_field(say!(words, "password-new"), words);
    Form::new("/account/password", say!(words, "password-change"), vec![old, new])
}

fn password_form_page(signed: &Signed, cookies: &Cookies, form: Form) -> FormPage {
    let words = signed.actor.words();
    let page = Page::new(signed, cookies, say!(words, "password-change-title"), "/account");
    FormPage::new(page, form).intro(say!(words, "password-change-intro"))
}

async fn password_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    signed.session()?;
    show(&password_form_page(&signed, &cookies, password_form(signed.actor.words())))
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
            let form = password_form(signed.actor.words()).again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &password_form_page(&signed, &cookies, form))
        }
        Err(error) => Err(error),
    }
}
