//! Seeders that are laid up, and taken back into use.

pub mod act;
mod api;
pub mod store;

use crate::web::routes::Route;

/// The routes of laying up.
#[must_use]
pub fn routes() -> Vec<Route> {
    api::routes()
}
