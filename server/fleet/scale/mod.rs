//! The scales that catches are weighed on, and how they were checked.

pub mod act;
mod api;
pub mod change;
mod change_page;
mod page;
pub mod store;

use crate::web::routes::Route;

/// The routes of scales.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes(), change_page::routes()].into_iter().flatten().collect()
}
