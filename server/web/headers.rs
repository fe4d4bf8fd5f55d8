//! What holds for every answer and every request: security headers, and that a write which rides on a cookie comes from
//! Sowmark's own pages.

use super::door::App;
use super::error::Error;
use super::page;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

/// Nothing inline, nothing from elsewhere.
const CONTENT_SECURITY_POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; \
    connect-src 'self'; worker-src 'self'; manifest-src 'self'; font-src 'self'; form-action 'self'; base-uri 'none'; \
    frame-ancestors 'none'";

/// Adds the security headers.
pub async fn secure(State(app): State<App>, request: Request, next: Next) -> Response {
    let mut response = next.run(request).await;
    let headers = response.headers_mut();
    let mut set = |name: HeaderName, value: &'static str| {
        headers.entry(name).or_insert(HeaderValue::from_static(value));
    };
    set(header::CONTENT_SECURITY_POLICY, CONTENT_SECURITY_POLICY);
    set(header::X_CONTENT_TYPE_OPTIONS, "nosniff");
    // Not `no-referrer`: it would turn the Origin of our own forms into "null".
    set(header::REFERRER_POLICY, "same-origin");
    set(HeaderName::from_static("cross-origin-opener-policy"), "same-origin");
    set(header::CACHE_CONTROL, "no-store");
    if app.config.is_https() {
        set(header::STRICT_TRANSPORT_SECURITY, "max-age=31536000; includeSubDomains");
    }
    response
}

/// Refuses a write that another site's page could have caused: by `Sec-Fetch-Site`, else by `Origin`; with neither, it
/// comes from no browser and may not ride on a cookie. No token in the form: a page kept for use off line would hold a
/// stale one.
pub async fn same_site(State(app): State<App>, request: Request, next: Next) -> Response {
    if is_safe(request.method()) || comes_from_here(request.headers(), &app) {
        next.run(request).await
    } else {
        Error::CrossSite.into_response()
    }
}

fn is_safe(method: &Method) -> bool {
    matches!(*method, Method::GET | Method::HEAD | Method::OPTIONS)
}

fn comes_from_here(headers: &HeaderMap, app: &App) -> bool {
    if headers.contains_key(header::AUTHORIZATION) {
        // A bearer token is put there by a program: no other site's page can make a browser send it.
        return true;
    }
    if let Some(site) = headers.get("sec-fetch-site") {
        return matches!(site.as_bytes(), b"same-origin" | b"none");
    }
    if let Some(origin) = headers.get(header::ORIGIN).and_then(|origin| origin.to_str().ok()) {
        let host = origin.split_once("://").map(|(_, host)| host);
        let own = headers.get(header::HOST).and_then(|host| host.to_str().ok());
        let public = app
            .config
            .public_url
            .as_deref()
            .and_then(|url| url.split_once("://"))
            .map(|(_, host)| host.trim_end_matches('/'));
        return host.is_some() && (host == own || host == public);
    }
    page::session_secret(headers, &app.config).is_none()
}
