//! People: organizations, accounts, memberships, crews, and how somebody signs in.

pub mod act;
mod api;
pub mod crew;
pub mod draft;
mod page;
pub mod sign_in;
pub mod store;

use crate::web::routes::Route;

/// The routes of people.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes(), crew::routes()].into_iter().flatten().collect()
}
