//! The page on which somebody sees what is due and has it brought to them, and the one that stops it again.

use super::act;
use super::draft::{DigestDraft, EveryWord};
use super::store::{ChoiceRow, RecipientRow};
use crate::access::{Actor, Permission};
use crate::db::kind::Kind;
use crate::feeds;
use crate::readiness::ahead::{self, Matter};
use crate::records::head::{moment, said};
use crate::web::door::{App, Signed};
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::say;
use sowmark_core::words::Words;

/// What is offered to whoever has not chosen: before the day's work.
const EARLY: i64 = 6;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/notices", Need::SignedIn, notices_page),
        crate::route!(page POST "/notices/digest", Need::SignedIn, post_digest),
        crate::route!(page GET "/digest/stop/{code}", Need::Anyone, stop_page),
        crate::route!(page POST "/digest/stop/{code}", Need::Anyone, post_stop),
    ]
}

/// A line of what is due.
struct Line {
    title: String,
    says: String,
    href: String,
}

fn line(matter: &Matter) -> Line {
    Line { title: matter.title.clone(), says: matter.says.clone(), href: matter.path.clone() }
}

/// Somebody who gets digests, for the office.
struct Recipient {
    name: String,
    email: String,
    gets: String,
    last: String,
    is_failing: bool,
}

#[derive(Template)]
#[template(path = "digest/notices.html")]
struct NoticesPage {
    page: Page,
    /// Since when there is a secret address, and when it was last read; none without one.
    address: Option<(String, String)>,
    due: Vec<Line>,
    coming: Vec<Line>,
    /// Whether this server sends e-mail at all.
    sends: bool,
    form: Form,
    /// When the next digest goes out and what it will tell; none for whoever gets none.
    next: Option<(String, Vec<String>)>,
    /// For the office.
    recipients: Vec<Recipient>,
}

async fn drawn(signed: &Signed, cookies: &Cookies, form: Option<Form>) -> Result<NoticesPage, Error> {
    let (actor, words, now) = (&signed.actor, signed.actor.words(), signed.app.clock.now());
    let sends = signed.app.config.mail.is_some();
    let mut conn = signed.app.read().await?;
    let address = feeds::act::of(&mut conn.cx(), actor.organization(), actor.account).await?;
    let choice = act::choice(&mut conn.cx(), actor).await?;
    let matters = ahead::matters(&mut conn.cx(), actor, now).await?;
    let next = match choice.as_ref().and_then(|choice| act::next_at(choice, actor, now)) {
        Some(at) if sends => {
            let untold = act::untold(&mut conn.cx(), actor, &matters).await?;
            let when = said(at, &actor.time_zone, words);
            Some((when, untold.into_iter().map(|matter| matter.title.clone()).collect()))
        }
        _ => None,
    };
    let recipients = if sends && actor.may(Permission::KeepPeople) {
        act::recipients(&mut conn.cx(), actor.organization()).await?
    } else {
        Vec::new()
    };
    drop(conn);
    let when = |micros: i64| said(moment(micros), &actor.time_zone, words);
    Ok(NoticesPage {
        page: Page::new(signed, cookies, say!(words, "notices-title"), "/account"),
        address: address.map(|address| {
            let read = address.last_read_at.map_or_else(|| say!(words, "opened-never"), when);
            (when(address.created_at), read)
        }),
        due: matters.iter().filter(|matter| !matter.is_coming).map(line).collect(),
        coming: matters.iter().filter(|matter| matter.is_coming).map(line).collect(),
        sends,
        form: form.unwrap_or_else(|| choice_form(choice.as_ref(), words)),
        next,
        recipients: recipients.into_iter().map(|row| recipient(row, actor)).collect(),
    })
}

fn choice_form(choice: Option<&ChoiceRow>, words: Words) -> Form {
    let every = choice.map_or(EveryWord::Never.word(), |choice| choice.every.as_str());
    let hour = choice.map_or(EARLY, |choice| choice.hour);
    let fields = vec![
        FormField::new("every", say!(words, "digest-every"))
            .choice([
                (EveryWord::Never.word(), say!(words, "digest-every-none")),
                (EveryWord::Daily.word(), say!(words, "digest-every-daily")),
                (EveryWord::Weekly.word(), say!(words, "digest-every-weekly")),
            ])
            .value(every),
        FormField::new("hour", say!(words, "digest-hour"))
            .choice((0..24).map(|hour| (hour.to_string(), format!("{hour:02}:00"))))
            .value(hour.to_string())
            .hint(say!(words, "digest-hour-hint")),
    ];
    Form::new("/notices/digest", say!(words, "digest-submit"), fields).showing(&[])
}

fn recipient(row: RecipientRow, actor: &Actor) -> Recipient {
    let words = actor.words();
    let when = |at: Option<i64>| at.map(|at| said(moment(at), &actor.time_zone, words)).unwrap_or_default();
    let is_failing = row.problem.is_some() || row.state.as_deref() == Some("failed");
    let (state, attempts) = (row.state.as_deref().unwrap_or("none"), row.attempts.unwrap_or_default());
    let problem = row.problem.as_deref().unwrap_or_default();
    Recipient {
        gets: say!(words, "digest-gets", every = &row.every, hour = format!("{:02}:00", row.hour)),
        last: if state == "waiting" && is_failing {
            let attempts = u32::try_from(attempts).unwrap_or(u32::MAX);
            say!(words, "digest-retried", attempts = attempts, problem = problem, again = when(row.held_until))
        } else {
            say!(words, "digest-last", state = state, when = when(row.ended_at), problem = problem)
        },
        name: row.name,
        email: row.email,
        is_failing,
    }
}

async fn notices_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    show(&drawn(&signed, &cookies, None).await?)
}

async fn post_digest(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    signed.session()?;
    let choice = act::choice(&mut signed.app.read().await?.cx(), &signed.actor).await?;
    let form = choice_form(choice.as_ref(), signed.actor.words());
    let mine = form.mine(&signed, (Kind::Account, Some(signed.actor.account.0)), &posted).await?;
    let tree = mine.posted.tree(&signed.actor.time_zone);
    match mine.may_be_stored().and_then(|()| input::read::<DigestDraft>(&tree)) {
        Ok(draft) => {
            act::choose(&signed.app.db, &signed.app.clock, &signed.actor, &draft).await?;
            Ok(Redirect::to("/notices").into_response())
        }
        Err(error) => {
            let form = form.again(&mine.posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &drawn(&signed, &cookies, Some(form)).await?)
        }
    }
}

/// The secret in a path. One that is no text is as wrong as any other.
struct Code(String);

impl axum::extract::FromRequestParts<App> for Code {
    type Rejection = Error;

    async fn from_request_parts(parts: &mut axum::http::request::Parts, app: &App) -> Result<Self, Error> {
        let code = Path::<String>::from_request_parts(parts, app).await;
        code.map(|Path(code)| Self(code)).map_err(|_| Error::not_there("page"))
    }
}

#[derive(Template)]
#[template(path = "digest/stop.html")]
struct StopPage {
    page: Page,
    /// Where to, until it is done.
    action: Option<String>,
}

/// Opening it stops nothing: programs that look for harm open every link of a letter.
async fn stop_page(State(app): State<App>, cookies: Cookies, Code(code): Code) -> Result<Response, Error> {
    let mut conn = app.read().await?;
    act::whose_link(&mut conn.cx(), &code).await?;
    drop(conn);
    let page = Page::open(&cookies, say!(cookies.words(), "digest-stop-title"));
    show(&StopPage { page, action: Some(format!("/digest/stop/{code}")) })
}

/// RFC 8058: whatever the body, without cookies, and asking nothing back.
async fn post_stop(State(app): State<App>, cookies: Cookies, Code(code): Code) -> Result<Response, Error> {
    act::stop(&app.db, &code).await?;
    let page = Page::open(&cookies, say!(cookies.words(), "digest-stopped-title"));
    show(&StopPage { page, action: None })
}
