//! The feeds themselves, and the page on which somebody makes, renews and ends the address of theirs.

use super::known::Known;
use super::{act, atom, calendar};
use crate::access::Permission;
use crate::readiness::ahead::{self, Matter};
use crate::records::head::{moment, said};
use crate::web::door::{App, Signed};
use crate::web::error::Error;
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::say;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/feeds/{code}/due.ics", Need::Anyone, read_calendar),
        crate::route!(page GET "/feeds/{code}/due.atom", Need::Anyone, read_news),
        crate::route!(page GET "/notices", Need::SignedIn, notices_page),
        crate::route!(page POST "/notices/feed", Need::SignedIn, post_feed),
        crate::route!(page POST "/notices/feed/end", Need::SignedIn, post_end_feed),
    ]
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

async fn read_calendar(State(app): State<App>, headers: HeaderMap, Code(code): Code) -> Result<Response, Error> {
    let told = act::read(&app.db, &app.clock, &code).await?;
    let base = app.base(&headers);
    let known = Known::new("calendar", told.hash, &base, told.since);
    answered(&known, &headers, "text/calendar; charset=utf-8", || Ok(calendar::written(&told, &base)?.into_bytes()))
}

async fn read_news(State(app): State<App>, headers: HeaderMap, Code(code): Code) -> Result<Response, Error> {
    let told = act::read(&app.db, &app.clock, &code).await?;
    let base = app.base(&headers);
    let known = Known::new("news", told.hash, &base, told.since);
    answered(&known, &headers, "application/atom+xml; charset=utf-8", || atom::written(&told, &base))
}

fn answered(
    known: &Known,
    asked: &HeaderMap,
    kind: &'static str,
    body: impl FnOnce() -> Result<Vec<u8>, Error>,
) -> Result<Response, Error> {
    let mut response = if known.is_known(asked) {
        StatusCode::NOT_MODIFIED.into_response()
    } else {
        ([(header::CONTENT_TYPE, kind)], body()?).into_response()
    };
    known.put_on(response.headers_mut());
    Ok(response)
}

/// A line of what is due.
struct Line {
    title: String,
    says: String,
    href: String,
}

#[derive(Template)]
#[template(path = "feeds/notices.html")]
struct NoticesPage {
    page: Page,
    /// Since when there is an address, and when it was last read; none without one.
    address: Option<(String, String)>,
    due: Vec<Line>,
    coming: Vec<Line>,
}

#[derive(Template)]
#[template(path = "feeds/once.html")]
struct OncePage {
    page: Page,
    calendar: String,
    news: String,
}

async fn notices_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let (actor, words) = (&signed.actor, signed.actor.words());
    let mut conn = signed.app.read().await?;
    let address = act::of(&mut conn.cx(), actor.organization(), actor.account).await?;
    let matters = ahead::matters(&mut conn.cx(), actor, signed.app.clock.now()).await?;
    drop(conn);
    let when = |micros: i64| said(moment(micros), &actor.time_zone, words);
    let (coming, due): (Vec<Matter>, Vec<Matter>) = matters.into_iter().partition(|matter| matter.is_coming);
    let lines = |matters: Vec<Matter>| {
        matters.into_iter().map(|matter| Line { title: matter.title, says: matter.says, href: matter.path }).collect()
    };
    show(&NoticesPage {
        page: Page::new(&signed, &cookies, say!(words, "notices-title"), "/account"),
        address: address.map(|address| {
            let read = address.last_read_at.map_or_else(|| say!(words, "opened-never"), when);
            (when(address.created_at), read)
        }),
        due: lines(due),
        coming: lines(coming),
    })
}

async fn post_feed(signed: Signed, cookies: Cookies, headers: HeaderMap) -> Result<Response, Error> {
    signed.session()?;
    let grant = signed.grant(Permission::ReadFleet)?;
    let (app, actor) = (&signed.app, &signed.actor);
    let secret = act::make(&app.db, &app.clock, &grant, actor.account, actor.language).await?;
    let base = app.base(&headers);
    show(&OncePage {
        page: Page::new(&signed, &cookies, say!(actor.words(), "feed-once-title"), "/account"),
        calendar: format!("{base}/feeds/{secret}/due.ics"),
        news: format!("{base}/feeds/{secret}/due.atom"),
    })
}

async fn post_end_feed(signed: Signed) -> Result<Response, Error> {
    signed.session()?;
    let grant = signed.grant(Permission::ReadFleet)?;
    act::end(&signed.app.db, &signed.app.clock, &grant, signed.actor.account).await?;
    Ok(Redirect::to("/notices").into_response())
}
