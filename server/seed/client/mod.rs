//! Clients: whose fields and seed they are, where an organization sows for others.

pub mod act;
mod api;
pub mod change;
mod change_page;
mod page;
pub mod store;

use crate::web::routes::Route;

/// The routes of clients.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes(), change_page::routes()].into_iter().flatten().collect()
}
