//! Meter rollers: what turns under a tank.

pub mod act;
mod api;
pub mod change;
mod change_page;
mod page;
pub mod store;

use crate::web::routes::Route;

/// The routes of rollers.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes(), change_page::routes()].into_iter().flatten().collect()
}
