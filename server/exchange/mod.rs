//! Records leaving as files: what leaves is what its reader sees in the API.

pub mod lists;
mod page;

use crate::web::routes::Route;

/// The routes of the exchange.
#[must_use]
pub fn routes() -> Vec<Route> {
    [page::routes(), lists::routes()].into_iter().flatten().collect()
}
