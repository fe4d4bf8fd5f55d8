//! Light, dark, or as the device says: a cookie for a year.

use super::text_of;
use crate::web::door::App;
use crate::web::error::Error;
use crate::web::form::Posted;
use crate::web::page::local;
use crate::web::routes::{Need, Route};
use axum::extract::State;
use axum::http::{HeaderMap, HeaderValue, Uri, header};
use axum::response::{IntoResponse, Redirect, Response};

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page POST "/theme", Need::Anyone, post_theme)]
}

async fn post_theme(State(app): State<App>, headers: HeaderMap, posted: Posted) -> Result<Response, Error> {
    let theme = match posted.text("theme") {
        known @ ("light" | "dark") => known,
        _ => "",
    };
    let secure = if app.config.is_https() { "; Secure" } else { "" };
    let cookie = format!("theme={theme}; Path=/; Max-Age=31536000; SameSite=Lax; HttpOnly{secure}");
    let mut response = Redirect::to(&referring_path(&headers)).into_response();
    response.headers_mut().append(header::SET_COOKIE, HeaderValue::try_from(cookie).map_err(Error::broken)?);
    Ok(response)
}

/// The path of the page that the switch was on, whatever host it names.
fn referring_path(headers: &HeaderMap) -> String {
    let referer: Option<Uri> = text_of(headers, header::REFERER).parse().ok();
    let path = referer.and_then(|uri| uri.path_and_query().map(ToString::to_string)).unwrap_or_default();
    local(&path).to_owned()
}
