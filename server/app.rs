//! Builds the application from the features' tables: the only place that knows all features.

use crate::web::door::App;
use crate::web::error::Error;
use crate::web::routes::{Need, Route, mount};
use crate::web::{assets, headers, openapi};
use crate::{
    access, audit, calibration, db, digest, exchange, feeds, fleet, metrics, people, phone, plan, readiness, records,
    reports, seed, sync, usage,
};
use axum::Router;
use axum::extract::State;
use axum::http::{HeaderValue, Method, StatusCode, header};
use axum::response::{IntoResponse, Response};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::compression::CompressionLayer;
use tower_http::request_id::{MakeRequestId, PropagateRequestIdLayer, SetRequestIdLayer};
use tower_http::timeout::{RequestBodyTimeoutLayer, TimeoutLayer};
use tower_http::trace::TraceLayer;

/// Every route that there is.
#[must_use]
pub fn routes() -> Vec<Route> {
    let mut routes = vec![
        crate::route!(page GET "/health/live", Need::Anyone, show_live),
        crate::route!(page GET "/health/ready", Need::Anyone, show_ready),
        crate::route!(page GET "/static/{hash}/{name}", Need::Anyone, show_asset),
        crate::route!(api GET "/openapi.json", Need::Anyone, show_openapi, "This document."),
    ];
    routes.extend(audit::routes());
    routes.extend(people::routes());
    routes.extend(fleet::routes());
    routes.extend(records::routes());
    routes.extend(seed::routes());
    routes.extend(readiness::routes());
    routes.extend(plan::routes());
    routes.extend(calibration::routes());
    routes.extend(usage::routes());
    routes.extend(reports::routes());
    routes.extend(exchange::routes());
    routes.extend(sync::routes());
    routes.extend(phone::routes());
    routes.extend(feeds::routes());
    routes.extend(digest::routes());
    routes
}

/// Every query that there is, for the test that prepares each on both databases.
#[must_use]
pub fn queries() -> Vec<(&'static str, &'static str)> {
    let house = [
        access::ALL,
        access::link::ALL,
        access::session::ALL,
        access::token::ALL,
        db::copy::ALL,
        db::work::ALL,
        metrics::ALL,
        people::store::ALL,
        people::crew::store::ALL,
    ];
    let features = [
        audit::QUERIES,
        fleet::QUERIES,
        records::QUERIES,
        seed::QUERIES,
        readiness::QUERIES,
        calibration::QUERIES,
        usage::QUERIES,
        exchange::QUERIES,
        sync::QUERIES,
        feeds::QUERIES,
        digest::QUERIES,
    ];
    let listed = house.into_iter().chain(features.into_iter().flatten().copied()).flatten().copied();
    listed.chain(exchange::whole::queries()).collect()
}

/// The application, ready to serve.
pub fn router(app: App) -> Router {
    // The last layer is the outermost.
    mount(routes(), &app)
        .fallback(nothing_here)
        .method_not_allowed_fallback(wrong_method)
        .layer(axum::middleware::from_fn_with_state(app.clone(), sync::again::after))
        .layer(axum::middleware::from_fn_with_state(app.clone(), headers::same_site))
        .layer(RequestBodyTimeoutLayer::new(Duration::from_secs(10)))
        .layer(TimeoutLayer::with_status_code(StatusCode::REQUEST_TIMEOUT, Duration::from_secs(30)))
        .layer(CatchPanicLayer::custom(|_: Box<dyn std::any::Any + Send>| {
            Error::broken("a handler panicked").into_response()
        }))
        .layer(CompressionLayer::new())
        .layer(axum::middleware::from_fn_with_state(app.clone(), headers::secure))
        .layer(PropagateRequestIdLayer::x_request_id())
        .layer(axum::middleware::from_fn_with_state(app.clone(), metrics::counted))
        .layer(TraceLayer::new_for_http().make_span_with(span))
        .layer(SetRequestIdLayer::x_request_id(RequestId))
        .with_state(app)
}

/// Numbers the requests of this process in the log. What a caller sends as an id is kept.
#[derive(Clone, Copy, Debug)]
struct RequestId;

impl MakeRequestId for RequestId {
    fn make_request_id<B>(&mut self, _: &axum::http::Request<B>) -> Option<tower_http::request_id::RequestId> {
        static NEXT: AtomicU64 = AtomicU64::new(1);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        HeaderValue::from_str(&number.to_string()).ok().map(tower_http::request_id::RequestId::new)
    }
}

/// One span per request: the route's pattern, never its ids, query or body.
fn span<B>(request: &axum::http::Request<B>) -> tracing::Span {
    let route = request.extensions().get::<axum::extract::MatchedPath>().map_or("", |path| path.as_str());
    let id = request.headers().get("x-request-id").and_then(|id| id.to_str().ok()).unwrap_or_default();
    tracing::info_span!("request", method = %request.method(), route, id)
}

use assets::show_asset;

async fn show_live() -> &'static str {
    "live\n"
}

async fn show_ready(State(app): State<App>) -> Response {
    match app.db.is_ready().await {
        Ok(true) => "ready\n".into_response(),
        Ok(false) | Err(_) => (StatusCode::SERVICE_UNAVAILABLE, "not ready\n").into_response(),
    }
}

async fn show_openapi() -> Result<Response, Error> {
    let document = openapi::document(&routes()).to_json().map_err(Error::broken)?;
    Ok(([(header::CONTENT_TYPE, "application/json")], document).into_response())
}

async fn nothing_here(State(app): State<App>, request: axum::extract::Request) -> Response {
    lost(&app, &request, Error::not_there("page"))
}

async fn wrong_method(State(app): State<App>, request: axum::extract::Request) -> Response {
    lost(&app, &request, Error::WrongMethod)
}

fn lost(app: &App, request: &axum::extract::Request, error: Error) -> Response {
    if request.uri().path().starts_with("/api/") || *request.method() != Method::GET {
        return error.into_response();
    }
    let cookies = crate::web::page::Cookies::of(request.headers());
    crate::web::page::problem(app, None, &cookies, &error)
}
