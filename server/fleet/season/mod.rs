//! Seasons: after the first day of one, every unit is caught again.

pub mod act;
mod api;
pub mod change;
mod change_page;
mod page;
pub mod store;

use crate::web::routes::Route;

/// The routes of seasons.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes(), change_page::routes()].into_iter().flatten().collect()
}
