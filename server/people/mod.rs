//! People: organizations, accounts, memberships, crews, and how somebody signs in.

pub mod act;
mod api;
pub mod store;

use crate::web::routes::Route;

/// The routes of people.
#[must_use]
pub fn routes() -> Vec<Route> {
    api::routes()
}
