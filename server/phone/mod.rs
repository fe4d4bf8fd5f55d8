//! What a phone needs for when there is no signal: the service worker, which pages to keep, and the page of its outbox.
//!
//! The work is done by the scripts in `static/`; entries come back through `sync`. Nothing here stores anything.

mod page;
mod pages;
mod worker;

use crate::web::routes::Route;

/// The routes of the phone.
#[must_use]
pub fn routes() -> Vec<Route> {
    [page::routes(), pages::routes(), worker::routes()].into_iter().flatten().collect()
}
