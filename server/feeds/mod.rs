//! What is due, brought to people where they already look: a calendar (RFC 5545) and news (RFC 4287), at an address that is
//! secret and each person's own.
//!
//! The address is all that a calendar program sends, so it is a key: 32 random bytes, of which only the hash is kept. What
//! is read there is what its owner would see when signed in, in their language; it ends with the membership.

pub mod act;
mod atom;
mod calendar;
mod known;
mod page;
pub mod store;

use crate::web::routes::Route;

/// The routes of feeds.
#[must_use]
pub fn routes() -> Vec<Route> {
    page::routes()
}

/// The queries of feeds.
pub const QUERIES: &[&[(&str, &str)]] = &[store::ALL];
