//! The feeds themselves, and making, renewing and ending the address of one's own on the page of notices.

use super::known::Known;
use super::{act, atom, calendar};
use crate::access::Permission;
use crate::seed::client;
use crate::web::door::{App, Signed};
use crate::web::error::Error;
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::ClientId;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/feeds/{code}/due.ics", Need::Anyone, read_calendar),
        crate::route!(page GET "/feeds/{code}/due.atom", Need::Anyone, read_news),
        crate::route!(page POST "/notices/feed", Need::SignedIn, post_feed),
        crate::route!(page POST "/notices/feed/end", Need::SignedIn, post_end_feed),
    ]
}

/// The secret in a path, and the one client that is asked about, if one is. What is no text or no id is as wrong as any
/// other that leads nowhere.
struct Code {
    secret: String,
    client: Option<ClientId>,
}

/// `client_id` of the query.
#[derive(serde::Deserialize)]
struct OfClient {
    client_id: Option<Uuid>,
}

impl axum::extract::FromRequestParts<App> for Code {
    type Rejection = Error;

    async fn from_request_parts(parts: &mut axum::http::request::Parts, app: &App) -> Result<Self, Error> {
        let nothing = || Error::not_there("page");
        let Path(secret) = Path::<String>::from_request_parts(parts, app).await.map_err(|_| nothing())?;
        let Query(asked) = Query::<OfClient>::from_request_parts(parts, app).await.map_err(|_| nothing())?;
        Ok(Self { secret, client: asked.client_id.map(ClientId) })
    }
}

async fn read_calendar(State(app): State<App>, headers: HeaderMap, code: Code) -> Result<Response, Error> {
    let told = act::read(&app.db, &app.clock, &code.secret, code.client).await?;
    let base = app.base(&headers);
    let known = Known::new("calendar", told.hash, &base, told.since);
    answered(&known, &headers, "text/calendar; charset=utf-8", || Ok(calendar::written(&told, &base)?.into_bytes()))
}

async fn read_news(State(app): State<App>, headers: HeaderMap, code: Code) -> Result<Response, Error> {
    let told = act::read(&app.db, &app.clock, &code.secret, code.client).await?;
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

#[derive(Template)]
#[template(path = "feeds/once.html")]
struct OncePage {
    page: Page,
    calendar: String,
    news: String,
    /// What is added for each client alone: name and query.
    clients: Vec<(String, String)>,
}

async fn post_feed(signed: Signed, cookies: Cookies, headers: HeaderMap) -> Result<Response, Error> {
    signed.session()?;
    let grant = signed.grant(Permission::ReadFleet)?;
    let (app, actor) = (&signed.app, &signed.actor);
    let secret = act::make(&app.db, &app.clock, &grant, actor.account, actor.language).await?;
    let base = app.base(&headers);
    let mut conn = app.read().await?;
    let clients = client::act::clients(&mut conn.cx(), &actor.scope).await?;
    drop(conn);
    show(&OncePage {
        clients: clients.into_iter().map(|client| (client.name, format!("?client_id={}", client.id))).collect(),
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
