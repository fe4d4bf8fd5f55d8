//! Setups: what is fitted to a metering unit, from a moment on.

pub mod act;
pub(in crate::fleet) mod api;
mod page;
pub mod store;

use crate::web::routes::Route;

/// The routes of setups.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}
