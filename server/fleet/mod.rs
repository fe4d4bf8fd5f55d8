//! The fleet: machines, what is fitted to them and was replaced, the scales that weigh for them, and its seasons.

pub mod roller;

use crate::web::routes::Route;

/// The routes of the fleet.
#[must_use]
pub fn routes() -> Vec<Route> {
    [roller::routes()].into_iter().flatten().collect()
}

/// The queries of the fleet.
pub const QUERIES: &[&[(&str, &str)]] = &[roller::store::ALL];
