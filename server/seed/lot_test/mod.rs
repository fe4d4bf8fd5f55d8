//! Lot tests: dated measurements of a lot.

pub mod act;
pub mod api;
mod page;
pub mod store;

use crate::web::routes::Route;

/// The routes of lot tests.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}
