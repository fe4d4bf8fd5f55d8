//! The seed and where it goes: clients and their fields, lots, what was measured of them, what moved, what was filled
//! into which tank and sown where.

pub mod client;
pub mod field;
pub mod job;
mod log;
pub mod lot;
pub mod lot_test;
pub mod movement;
pub mod percent;
pub mod tank;
pub mod unlikely;

use crate::web::routes::Route;

/// The routes of the seed.
#[must_use]
pub fn routes() -> Vec<Route> {
    [
        client::routes(),
        field::routes(),
        lot::routes(),
        lot_test::routes(),
        movement::routes(),
        tank::routes(),
        job::routes(),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The queries of the seed.
pub const QUERIES: &[&[(&str, &str)]] = &[
    client::store::ALL,
    field::store::ALL,
    lot::store::ALL,
    lot::stock::ALL,
    lot_test::store::ALL,
    movement::store::ALL,
    tank::store::ALL,
    job::store::ALL,
];
