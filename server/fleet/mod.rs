//! The fleet: machines, what is fitted to them and was replaced, the scales that weigh for them, and its seasons.

pub mod configuration;
pub mod label;
pub mod lay_up;
mod page;
pub mod roller;
pub mod scale;
pub mod season;
pub mod seeder;
pub mod service;
pub mod setup;

use crate::web::routes::Route;

/// The routes of the fleet.
#[must_use]
pub fn routes() -> Vec<Route> {
    [
        configuration::routes(),
        label::routes(),
        lay_up::routes(),
        roller::routes(),
        scale::routes(),
        season::routes(),
        page::routes(),
        seeder::routes(),
        service::routes(),
        setup::routes(),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The queries of the fleet.
pub const QUERIES: &[&[(&str, &str)]] = &[
    configuration::store::ALL,
    lay_up::store::ALL,
    roller::store::ALL,
    scale::store::ALL,
    season::store::ALL,
    seeder::store::ALL,
    service::store::ALL,
    setup::store::ALL,
];
