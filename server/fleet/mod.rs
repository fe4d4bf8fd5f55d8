//! The fleet: machines, what is fitted to them and was replaced, the scales that weigh for them, and its seasons.

pub mod configuration;
pub mod roller;
pub mod scale;
pub mod season;
pub mod seeder;
pub mod setup;

use crate::web::routes::Route;

/// The routes of the fleet.
#[must_use]
pub fn routes() -> Vec<Route> {
    [roller::routes()].into_iter().flatten().collect()
}

/// The queries of the fleet.
pub const QUERIES: &[&[(&str, &str)]] = &[
    configuration::store::ALL,
    roller::store::ALL,
    scale::store::ALL,
    season::store::ALL,
    seeder::store::ALL,
    setup::store::ALL,
];
