//! Seeders that are laid up, and taken back into use.

pub mod act;
mod api;
mod page;
pub mod store;

use crate::web::routes::Route;

/// The routes of laying up.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}
