//! Services: parts replaced or repaired.

pub mod act;
mod api;
pub mod store;

use crate::web::routes::Route;

/// The routes of services.
#[must_use]
pub fn routes() -> Vec<Route> {
    api::routes()
}
