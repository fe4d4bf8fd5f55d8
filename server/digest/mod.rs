//! An e-mail digest of what came due since the last one, for those who asked for it; off unless whoever runs the server
//! gives it a mail server.
//!
//! Each person's digest of a period is a row that one process puts in (`act.rs`), so however many servers run on a
//! database, one sends it. `when.rs` says which period it is.

pub mod act;
mod draft;
mod letter;
mod page;
pub mod store;
mod when;

pub use draft::{DigestDraft, EveryWord};

use crate::web::routes::Route;

/// The routes of digests.
#[must_use]
pub fn routes() -> Vec<Route> {
    page::routes()
}

/// The queries of digests.
pub const QUERIES: &[&[(&str, &str)]] = &[store::ALL];
