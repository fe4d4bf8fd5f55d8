//! The pages of people: the way in and out, one's own account, and the members that the office keeps.

mod account;
mod device;
mod entrance;
mod member;
mod members;
mod set_up;
mod theme;

use crate::records::head::{moment, said};
use crate::web::door::App;
use crate::web::error::Error;
use crate::web::page::session_cookie;
use crate::web::routes::Route;
use axum::http::{HeaderMap, HeaderValue, header};
use axum::response::Response;
use jiff::tz::TimeZone;
use sowmark_core::say;
use sowmark_core::words::Words;

pub(super) fn routes() -> Vec<Route> {
    [set_up::routes(), entrance::routes(), theme::routes(), account::routes(), members::routes(), member::routes()]
        .into_iter()
        .flatten()
        .collect()
}

/// The code in a path, as it stands there.
struct Code(String);

impl axum::extract::FromRequestParts<App> for Code {
    type Rejection = Error;

    async fn from_request_parts(parts: &mut axum::http::request::Parts, app: &App) -> Result<Self, Error> {
        let code = axum::extract::Path::<String>::from_request_parts(parts, app).await;
        code.map(|axum::extract::Path(code)| Self(code)).map_err(|_| super::sign_in::not_a_link())
    }
}

/// The same answer with the session's cookie set, or, without a secret, taken away.
fn with_session(app: &App, mut response: Response, secret: Option<String>) -> Result<Response, Error> {
    let cookie = session_cookie(&app.config, secret).to_string();
    response.headers_mut().append(header::SET_COOKIE, HeaderValue::try_from(cookie).map_err(Error::broken)?);
    Ok(response)
}

fn text_of(headers: &HeaderMap, name: header::HeaderName) -> &str {
    headers.get(name).and_then(|value| value.to_str().ok()).unwrap_or_default()
}

/// What a member is, by its word.
pub(super) fn role_in_words(role: &str, words: Words) -> String {
    say!(words, "role-name", role = role)
}

fn when(micros: i64, zone: &TimeZone, words: Words) -> String {
    said(moment(micros), zone, words)
}

/// A session or token, as a page lists it.
#[derive(Clone, Debug)]
struct Opened {
    id: uuid::Uuid,
    what: String,
    /// When it began, and when it was last used.
    since: String,
    used: String,
    is_this_one: bool,
}

fn opened_sessions(
    rows: Vec<crate::access::session::SessionRow>,
    zone: &TimeZone,
    words: Words,
    own: Option<uuid::Uuid>,
) -> Vec<Opened> {
    let opened = |row: crate::access::session::SessionRow| Opened {
        id: row.id,
        what: device::name(&row.device, words),
        since: when(row.created_at, zone, words),
        used: when(row.last_seen_at, zone, words),
        is_this_one: own == Some(row.id),
    };
    rows.into_iter().map(opened).collect()
}

fn opened_tokens(rows: Vec<crate::access::token::TokenRow>, zone: &TimeZone, words: Words) -> Vec<Opened> {
    let opened = |row: crate::access::token::TokenRow| Opened {
        id: row.id,
        what: row.label,
        since: when(row.created_at, zone, words),
        used: row.last_used_at.map_or_else(|| say!(words, "opened-never"), |at| when(at, zone, words)),
        is_this_one: false,
    };
    rows.into_iter().map(opened).collect()
}
