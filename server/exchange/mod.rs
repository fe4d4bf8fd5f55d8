//! Records leaving and entering as files: what leaves is what its reader sees in the API, what enters goes through the acts of its
//! kind, so that every rule holds.

pub mod import;
pub mod lists;
mod page;

use crate::web::routes::Route;

/// The routes of the exchange.
#[must_use]
pub fn routes() -> Vec<Route> {
    [page::routes(), lists::routes(), import::page::routes()].into_iter().flatten().collect()
}

/// The queries of the exchange.
pub const QUERIES: &[&[(&str, &str)]] = &[import::store::ALL];
