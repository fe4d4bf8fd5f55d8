//! Entries logged off line: taken in one by one (`act.rs`), each through the act of its own kind; what is refused is kept
//! (`refused.rs`) until somebody mends or drops it.
//!
//! Nothing here decides whether a record is right: that is its kind's act's business, as for every other way in.

pub mod act;
mod api;
pub mod entry;
pub mod kind;
pub mod refused;
pub mod store;

use crate::web::routes::Route;

/// The routes of entries logged off line.
#[must_use]
pub fn routes() -> Vec<Route> {
    api::routes()
}

/// The queries of entries logged off line.
pub const QUERIES: &[&[(&str, &str)]] = &[store::ALL];
