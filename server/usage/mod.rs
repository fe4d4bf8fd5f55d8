//! Where the seed went: what of each lot should be left, what each job came to, which of them were sown under a number
//! that was not true, and how the machines drift.
//!
//! The balances and the judgement are `core`'s, from the same records as everywhere. A crew member is shown the own jobs.

pub mod act;
mod api;
pub mod asked;
pub mod chart;
pub mod judging;
pub mod lines;
mod page;
pub mod question;
mod report;
pub mod signing;
pub mod store;
mod sums;

pub(crate) use chart::{figure as drift_figure, signed_percent};
pub(crate) use lines::{basis, number_stands};

use crate::web::routes::Route;

/// The routes of usage.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes(), signing::routes()].into_iter().flatten().collect()
}

/// The queries of usage.
pub const QUERIES: &[&[(&str, &str)]] = &[store::ALL, signing::store::ALL];
