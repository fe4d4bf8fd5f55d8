//! Routes as data. A feature declares a table; this module alone mounts it, puts the guard before each handler, and
//! gives the same table to the OpenAPI document and to the test that walks every route as everybody.

use super::door::App;
use super::guard;
use super::input::Input;
use crate::access::Permission;
use axum::Router;
use axum::http::Method;
use axum::routing::MethodRouter;
use utoipa::ToSchema;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::Schema;

/// Who may call a route at all. What they then see is the scope's matter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// Anybody: a short list.
    Anyone,
    /// Any member.
    SignedIn,
    /// Members whose role has the permission.
    May(Permission),
}

/// Whether a route answers with pages or with JSON.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Surface {
    Page,
    Api,
}

/// One route.
#[derive(Debug)]
pub struct Route {
    pub method: Method,
    pub path: String,
    pub need: Need,
    pub surface: Surface,
    pub about: About,
    handler: MethodRouter<App>,
}

/// What the OpenAPI document says of a route.
#[derive(Default)]
pub struct About {
    /// The handler's name.
    pub operation: &'static str,
    pub summary: &'static str,
    pub takes: Option<RefOr<Schema>>,
    /// The kinds of bytes that it takes as they are.
    pub takes_bytes: &'static [&'static str],
    pub asks: Option<RefOr<Schema>>,
    pub answers: Option<Answer>,
    pub creates: bool,
}

/// The shape of an answer, with the shapes it is made of.
pub struct Answer {
    pub schema: RefOr<Schema>,
    pub parts: Vec<(String, RefOr<Schema>)>,
}

impl std::fmt::Debug for About {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("About").field("operation", &self.operation).finish_non_exhaustive()
    }
}

impl std::fmt::Debug for Answer {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Answer").finish_non_exhaustive()
    }
}

impl Answer {
    fn of<T: ToSchema>() -> Self {
        let mut parts = Vec::new();
        T::schemas(&mut parts);
        Self { schema: T::schema(), parts }
    }
}

/// Where the API stands. Its version is part of the path.
pub const API: &str = "/api/v1";

/// `route!(api post "/rollers", May(KeepFleet), add_roller, "Add a meter roller.")`: the handler's name becomes the
/// operation's id.
#[macro_export]
macro_rules! route {
    (api $method:ident $path:literal, $need:expr, $handler:ident, $summary:literal) => {
        $crate::web::routes::Route::new(
            axum::http::Method::$method,
            format!("{}{}", $crate::web::routes::API, $path),
            $need,
            $crate::web::routes::Surface::Api,
            axum::routing::on($crate::web::routes::filter(&axum::http::Method::$method), $handler),
        )
        .named(stringify!($handler), $summary)
    };
    (page $method:ident $path:literal, $need:expr, $handler:ident) => {
        $crate::web::routes::Route::new(
            axum::http::Method::$method,
            $path.to_owned(),
            $need,
            $crate::web::routes::Surface::Page,
            axum::routing::on($crate::web::routes::filter(&axum::http::Method::$method), $handler),
        )
        .named(stringify!($handler), "")
    };
}

/// The filter of the methods in use.
#[must_use]
pub fn filter(method: &Method) -> axum::routing::MethodFilter {
    use axum::routing::MethodFilter as Filter;
    match *method {
        Method::POST => Filter::POST,
        Method::PUT => Filter::PUT,
        Method::PATCH => Filter::PATCH,
        Method::DELETE => Filter::DELETE,
        _ => Filter::GET,
    }
}

impl Route {
    #[must_use]
    pub fn new(method: Method, path: String, need: Need, surface: Surface, handler: MethodRouter<App>) -> Self {
        Self { method, path, need, surface, about: About::default(), handler }
    }

    #[must_use]
    pub fn named(mut self, operation: &'static str, summary: &'static str) -> Self {
        self.about.operation = operation;
        self.about.summary = summary;
        self
    }

    /// The body that it takes.
    #[must_use]
    pub fn takes<D: Input>(mut self) -> Self {
        self.about.takes = Some(D::schema());
        self
    }

    /// Bytes that it takes as they are, by their content types.
    #[must_use]
    pub fn takes_bytes(mut self, kinds: &'static [&'static str]) -> Self {
        self.about.takes_bytes = kinds;
        self
    }

    /// The query that it takes.
    #[must_use]
    pub fn asks<D: Input>(mut self) -> Self {
        self.about.asks = Some(D::schema());
        self
    }

    /// What it answers with 200.
    #[must_use]
    pub fn answers<T: ToSchema>(mut self) -> Self {
        self.about.answers = Some(Answer::of::<T>());
        self
    }

    /// What it answers with 201, or with 200 when the same was there already.
    #[must_use]
    pub fn creates<T: ToSchema>(mut self) -> Self {
        self.about.creates = true;
        self.answers::<T>()
    }
}

/// Mounts the routes, each behind its guard.
#[allow(clippy::disallowed_methods)]
pub fn mount(routes: Vec<Route>, app: &App) -> Router<App> {
    routes.into_iter().fold(Router::new(), |router, route| {
        let gate = guard::Gate { app: app.clone(), need: route.need, surface: route.surface };
        let guarded = route.handler.route_layer(axum::middleware::from_fn_with_state(gate, guard::guard));
        router.route(&route.path, guarded)
    })
}
