//! Which number is true for which unit, and why a unit must be caught again: the board, waivers, tolerances, and the way
//! from a number to a roller speed.
//!
//! The judgement is `core`'s. Here the records are gathered (`store.rs`, `gather.rs`), put into sentences
//! (`sentence.rs`) and shown. Nothing computed is stored: a record that arrives late changes every answer it should.

pub mod act;
pub mod ahead;
mod api;
pub mod board;
mod gather;
mod let_pass;
mod names;
pub mod policy;
pub mod rate;
mod sentence;
pub mod store;
pub mod waiver;

pub use api::{DueView, due_views, stamped};
pub use names::Names;
pub use sentence::Teller;
pub(crate) use sentence::in_words as trigger_in_words;

use crate::web::routes::Route;

/// The routes of readiness.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), board::routes(), policy::routes(), rate::routes(), waiver::routes()].into_iter().flatten().collect()
}

/// The queries of readiness.
pub const QUERIES: &[&[(&str, &str)]] = &[store::ALL, board::ALL, policy::ALL, waiver::ALL];
