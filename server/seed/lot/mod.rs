//! Seed lots: what the label says, what was measured since, how much should be there, where it went.

pub mod act;
pub mod age;
mod api;
pub mod change;
mod change_page;
pub mod label;
mod page;
mod sheet;
pub mod stock;
pub mod store;

use crate::web::routes::Route;

/// The routes of lots.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes(), change_page::routes(), sheet::routes()].into_iter().flatten().collect()
}
