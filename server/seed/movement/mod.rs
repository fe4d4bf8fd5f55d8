//! Movements: what changed a lot's stock besides sowing it.

pub mod act;
mod api;
mod page;
pub mod store;

use crate::web::routes::Route;

/// The routes of movements.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}
