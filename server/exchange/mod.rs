//! What comes from other programs and goes to them.

pub mod task_data;

use crate::web::routes::Route;

/// The routes of exchange.
#[must_use]
pub fn routes() -> Vec<Route> {
    task_data::routes()
}

/// The queries of exchange.
pub const QUERIES: &[&[(&str, &str)]] = &[task_data::store::ALL];
