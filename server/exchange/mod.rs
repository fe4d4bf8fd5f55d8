//! Records leaving and entering as files: lists for spreadsheets out, and lists of other programs in.
//!
//! What leaves is what its reader sees in the API. What enters goes through the acts of its kind, so that every rule holds.

pub mod lists;
mod page;

use crate::web::routes::Route;

/// The routes of the exchange.
#[must_use]
pub fn routes() -> Vec<Route> {
    [page::routes(), lists::routes()].into_iter().flatten().collect()
}
