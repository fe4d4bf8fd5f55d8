//! Configurations: a seeder's working width and row spacing over time.

pub mod act;
pub(crate) mod api;
pub mod store;

use crate::web::routes::Route;

/// The routes of this part.
#[must_use]
pub fn routes() -> Vec<Route> {
    api::routes()
}
