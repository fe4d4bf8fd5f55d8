//! Signing in and out, and setting a password by a one-time link.

use super::set_up::new_password_field;
use super::{Code, text_of, with_session};
use crate::access::{Via, session};
use crate::people::draft::{NewPasswordDraft, SignInAsked};
use crate::people::sign_in::{self, find_password_link};
use crate::web::api::Asked;
use crate::web::door::{App, Whoever};
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, FormPage, Page, local, show, show_with};
use crate::web::routes::{Need, Route};
use axum::extract::State;
use axum::http::{HeaderMap, HeaderName, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use jiff::tz::TimeZone;
use sowmark_core::say;
use sowmark_core::words::Words;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/sign-in", Need::Anyone, sign_in_page),
        crate::route!(page POST "/sign-in", Need::Anyone, post_sign_in),
        crate::route!(page POST "/sign-out", Need::Anyone, post_sign_out),
        crate::route!(page GET "/set-password/{code}", Need::Anyone, set_password_page),
        crate::route!(page POST "/set-password/{code}", Need::Anyone, post_set_password),
    ]
}

async fn sign_in_page(
    Whoever(actor): Whoever,
    cookies: Cookies,
    Asked(asked): Asked<SignInAsked>,
) -> Result<Response, Error> {
    let back = asked.back.map(|back| back.0).unwrap_or_default();
    if actor.is_some() {
        return Ok(Redirect::to(local(&back)).into_response());
    }
    let words = cookies.words();
    let notice = asked.done.filter(|done| done.0 == "password").map(|_| say!(words, "password-is-set"));
    show(&FormPage::new(Page::open(&cookies, say!(words, "sign-in")).notice(notice), sign_in_form(&back, words)))
}

async fn post_sign_in(
    State(app): State<App>,
    Whoever(actor): Whoever,
    cookies: Cookies,
    headers: HeaderMap,
    posted: Posted,
) -> Result<Response, Error> {
    let (email, password) = (posted.text("email"), posted.text("password"));
    let back = posted.text("back");
    let device = text_of(&headers, header::USER_AGENT);
    match sign_in::sign_in(&app.db, &app.clock, &app.hasher, email, password.to_owned(), device).await {
        Ok(signed_in) => {
            // A session never outlives a new sign-in in the same browser.
            if let Some((account, Via::Session(old))) = actor.map(|actor| (actor.account, actor.via)) {
                session::end(&app.db, account, old).await?;
            }
            with_session(&app, Redirect::to(local(back)).into_response(), Some(signed_in.secret))
        }
        Err(error @ Error::Faults(_)) => {
            let words = cookies.words();
            let page = Page::open(&cookies, say!(words, "sign-in"));
            let form = sign_in_form(back, words).again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &FormPage::new(page, form))
        }
        Err(error) => Err(error),
    }
}

fn sign_in_form(back: &str, words: Words) -> Form {
    let mut fields = vec![
        FormField::new("email", say!(words, "email-address")).kind(Kind::Email).autocomplete("username"),
        FormField::new("password", say!(words, "password")).kind(Kind::Password).autocomplete("current-password"),
    ];
    if local(back) != "/" {
        fields.push(FormField::hidden("back", back));
    }
    Form::new("/sign-in", say!(words, "sign-in"), fields)
}

async fn post_sign_out(State(app): State<App>, Whoever(actor): Whoever) -> Result<Response, Error> {
    if let Some((account, Via::Session(id))) = actor.map(|actor| (actor.account, actor.via)) {
        session::end(&app.db, account, id).await?;
    }
    let mut response = Redirect::to("/sign-in").into_response();
    // What a page kept of this person must not be there for the next one at the same machine.
    response.headers_mut().insert(HeaderName::from_static("clear-site-data"), HeaderValue::from_static("\"cache\""));
    with_session(&app, response, None)
}

async fn set_password_page(State(app): State<App>, cookies: Cookies, Code(code): Code) -> Result<Response, Error> {
    find_password_link(&app.db, &app.clock, &code).await?;
    show(&set_password_form_page(&cookies, set_password_form(&code, cookies.words())))
}

async fn post_set_password(
    State(app): State<App>,
    cookies: Cookies,
    Code(code): Code,
    posted: Posted,
) -> Result<Response, Error> {
    find_password_link(&app.db, &app.clock, &code).await?;
    let set = match input::read::<NewPasswordDraft>(&posted.tree(&TimeZone::UTC)) {
        Ok(draft) => sign_in::set_password(&app.db, &app.clock, &app.hasher, &code, draft.password.0).await,
        Err(error) => Err(error),
    };
    match set {
        // Not signed in at once: who holds the link should show that the password is known.
        Ok(()) => Ok(Redirect::to("/sign-in?done=password").into_response()),
        Err(error @ Error::Faults(_)) => {
            let form = set_password_form(&code, cookies.words()).again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &set_password_form_page(&cookies, form))
        }
        Err(error) => Err(error),
    }
}

fn set_password_form_page(cookies: &Cookies, form: Form) -> FormPage {
    let words = cookies.words();
    let page = Page::open(cookies, say!(words, "password-set-title"));
    FormPage::new(page, form).intro(say!(words, "password-set-intro"))
}

fn set_password_form(code: &str, words: Words) -> Form {
    let field = new_password_field(say!(words, "password-new"), words);
    Form::new(format!("/set-password/{code}"), say!(words, "password-set"), vec![field])
}
