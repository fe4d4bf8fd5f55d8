//! Services: parts replaced or repaired.

pub mod act;
mod api;
mod page;
pub mod store;

use crate::web::routes::Route;

/// The routes of services.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}
