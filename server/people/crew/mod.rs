//! Crews: who sees and logs for which seeders.

pub mod act;
mod api;
mod page;
pub mod store;

use crate::web::routes::Route;

/// The routes of crews.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}
