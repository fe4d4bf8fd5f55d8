//! What a running server counts, for whoever watches it: in Prometheus' text format, on a listener of its own.
//!
//! Nothing names an organization, a person or a record: a label has few values, all known beforehand.

use crate::clock::Stopwatch;
use crate::db::Db;
use crate::queries;
use crate::web::door::App;
use axum::Router;
use axum::extract::{MatchedPath, Request, State};
use axum::http::{Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use prometheus::{Gauge, GaugeVec, HistogramOpts, HistogramVec, IntCounterVec, IntGauge, Opts, Registry, TextEncoder};

queries! {
    KEPT = "select cast(coalesce(sum(seq), 0) as bigint), count(*) from organization";
    REFUSED = "select count(*) from refused where ended is null";
}

/// From a page out of memory to the longest that a request may take, seconds.
const BUCKETS: [f64; 9] = [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 1.0, 5.0, 30.0];
/// The route of what has none.
const NO_ROUTE: &str = "none";

/// The counters of one server.
#[derive(Clone, Debug)]
pub struct Metrics {
    registry: Registry,
    requests: IntCounterVec,
    durations: HistogramVec,
    connections: GaugeVec,
    ready: IntGauge,
    organizations: IntGauge,
    audit_lines: IntGauge,
    refused: IntGauge,
}

impl Metrics {
    /// All at zero.
    ///
    /// # Errors
    /// None with the names that stand here.
    pub fn new() -> prometheus::Result<Self> {
        let gauge = |name: &str, help: &str| IntGauge::with_opts(Opts::new(name, help));
        let metrics = Self {
            registry: Registry::new(),
            requests: IntCounterVec::new(
                Opts::new("sowmark_http_requests_total", "Requests answered."),
                &["method", "route", "code"],
            )?,
            durations: HistogramVec::new(
                HistogramOpts::new("sowmark_http_request_duration_seconds", "Until the head of the answer.")
                    .buckets(BUCKETS.to_vec()),
                &["method", "route"],
            )?,
            connections: GaugeVec::new(
                Opts::new("sowmark_database_connections", "Connections to the database."),
                &["pool", "state"],
            )?,
            ready: gauge("sowmark_ready", "1 while the database answers and has this program's tables.")?,
            organizations: gauge("sowmark_organizations", "Organizations in the database.")?,
            audit_lines: gauge("sowmark_audit_lines", "Lines of all audit trails together: every act writes one.")?,
            refused: gauge("sowmark_refused_entries", "Entries of phones that wait to be mended or dropped.")?,
        };
        let version = Gauge::with_opts(
            Opts::new("sowmark_build_info", "1, with the program's version.")
                .const_label("version", env!("CARGO_PKG_VERSION")),
        )?;
        version.set(1.0);
        let registry = &metrics.registry;
        registry.register(Box::new(version))?;
        registry.register(Box::new(metrics.requests.clone()))?;
        registry.register(Box::new(metrics.durations.clone()))?;
        registry.register(Box::new(metrics.connections.clone()))?;
        for gauge in [&metrics.ready, &metrics.organizations, &metrics.audit_lines, &metrics.refused] {
            registry.register(Box::new(gauge.clone()))?;
        }
        Ok(metrics)
    }

    fn answered(&self, method: &str, route: &str, code: StatusCode, began: Stopwatch) {
        self.requests.with_label_values(&[method, route, code.as_str()]).inc();
        self.durations.with_label_values(&[method, route]).observe(began.elapsed().as_secs_f64());
    }

    /// Everything, with what the database says now.
    async fn text(&self, db: &Db) -> prometheus::Result<String> {
        for (pool, open, idle) in db.connections() {
            self.connections.with_label_values(&[pool, "open"]).set(f64::from(open));
            self.connections.with_label_values(&[pool, "idle"]).set(f64::from(idle));
        }
        let is_ready = matches!(db.is_ready().await, Ok(true));
        self.ready.set(i64::from(is_ready));
        // What cannot be asked stays as it was; that it cannot be asked is told above.
        if let (true, Ok((lines, organizations, refused))) = (is_ready, kept(db).await) {
            self.audit_lines.set(lines);
            self.organizations.set(organizations);
            self.refused.set(refused);
        }
        TextEncoder::new().encode_to_string(&self.registry.gather())
    }
}

async fn kept(db: &Db) -> crate::db::Result<(i64, i64, i64)> {
    let mut conn = db.read().await?;
    let (lines, organizations): (i64, i64) = conn.cx().fetch_one(KEPT, &[]).await?;
    let (refused,): (i64,) = conn.cx().fetch_one(REFUSED, &[]).await?;
    Ok((lines, organizations, refused))
}

/// Counts a request and how long its answer took, where anything is counted.
pub async fn counted(State(app): State<App>, request: Request, next: Next) -> Response {
    let Some(metrics) = &app.config.metrics else { return next.run(request).await };
    let began = Stopwatch::start();
    let method = known(request.method());
    let route = request.extensions().get::<MatchedPath>().cloned();
    let answer = next.run(request).await;
    metrics.answered(method, route.as_ref().map_or(NO_ROUTE, MatchedPath::as_str), answer.status(), began);
    answer
}

/// Anybody may make up methods.
fn known(method: &Method) -> &'static str {
    match *method {
        Method::GET => "GET",
        Method::HEAD => "HEAD",
        Method::POST => "POST",
        Method::PUT => "PUT",
        Method::PATCH => "PATCH",
        Method::DELETE => "DELETE",
        _ => "other",
    }
}

/// What the second listener answers. It is no route of the application: nobody signs in there.
#[allow(clippy::disallowed_methods)]
pub fn router(app: App) -> Router {
    Router::new().route("/metrics", get(show)).with_state(app)
}

async fn show(State(app): State<App>) -> Response {
    let Some(metrics) = &app.config.metrics else { return StatusCode::NOT_FOUND.into_response() };
    match metrics.text(&app.db).await {
        Ok(text) => ([(header::CONTENT_TYPE, prometheus::TEXT_FORMAT)], text).into_response(),
        Err(error) => {
            tracing::error!(%error, "the metrics cannot be written");
            StatusCode::INTERNAL_SERVER_ERROR.into_response()
        }
    }
}
