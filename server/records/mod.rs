//! Append-only records of every kind: what they have in common, how one is voided or entered again, and a seeder's timeline.

pub mod act;
mod api;
pub mod correct;
pub mod free_text;
pub mod head;
mod page;
pub mod store;
pub mod timeline;

use crate::web::routes::Route;

/// The routes of records of any kind.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}

/// The queries of records of any kind.
pub const QUERIES: &[&[(&str, &str)]] = &[store::ALL];
