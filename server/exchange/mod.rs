//! How an organization's records leave the server and come to another.

pub mod whole;

use crate::web::routes::Route;

/// The routes of the exchange.
#[must_use]
pub fn routes() -> Vec<Route> {
    whole::routes()
}
