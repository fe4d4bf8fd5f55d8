//! How long the board's computation takes: one metering unit with a long history, and a fleet of them.
//!
//! `cargo bench`. Nothing here asserts a time: a slow machine is no fault of the code.

#![allow(clippy::expect_used)]

use divan::{Bencher, black_box};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use sowmark_core::basis::{Configuration, Setup};
use sowmark_core::ids::{LotId, MeteringUnitId, RollerId, SeederId};
use sowmark_core::moment::{Dated, Moment};
use sowmark_core::quantity::DriveRatio;
use sowmark_core::readiness::{
    CalibrationFacts, Fill, JobFacts, LotFacts, SeedUsedBasis, Standing, Surroundings, UnitHistory, readiness,
};
use std::collections::HashMap;
use uuid::Uuid;

fn main() {
    divan::main();
}

/// A unit with `jobs` jobs, a catch every ten of them, and a roller changed every fifty.
#[divan::bench(args = [10, 100, 1000])]
fn one_unit(bencher: Bencher, jobs: u32) {
    let (history, around, at) = season(jobs);
    bencher.bench(|| readiness(black_box(&history), black_box(&around), black_box(at)));
}

/// Forty such units, as a contractor's board shows them.
#[divan::bench(args = [100])]
fn forty_units(bencher: Bencher, jobs: u32) {
    let (history, around, at) = season(jobs);
    bencher.bench(|| (0..40).filter(|_| readiness(black_box(&history), &around, at).in_force.is_some()).count());
}

/// Moments an hour apart, each with an id of its own.
fn at(hours: u32, number: u32) -> Moment {
    let start: Timestamp = "2027-03-01T06:00:00Z".parse().expect("a time");
    let occurred_at = start + SignedDuration::from_hours(i64::from(hours));
    Moment { occurred_at, recorded_at: occurred_at, id: id(1000 + u128::from(number)) }
}

fn id(number: u128) -> Uuid {
    Uuid::from_u128(number)
}

fn season(jobs: u32) -> (UnitHistory, Surroundings, Timestamp) {
    let (lot, rollers) = (LotId(id(1)), [RollerId(id(2)), RollerId(id(3))]);
    let setup = |number: u32| Setup {
        roller: rollers[number as usize % 2],
        drive_ratio: DriveRatio::parse("5:2").expect("a ratio"),
        gate: None,
        runs: 8,
    };
    let catch = CalibrationFacts {
        lot,
        standing: Standing::Accepted,
        factor: 0.0049,
        roller_speed_rpm: Some(42.0),
        scale: None,
    };
    let job = |number: u32| JobFacts {
        lot,
        area_m2: 50_000.0,
        seed_used_kg: 700.0 + f64::from(number % 7),
        seed_used_basis: SeedUsedBasis::Weighed,
        target_rate: 0.014,
        speed: Some(2.5),
    };
    let history = UnitHistory {
        seeder: SeederId(id(4)),
        unit: MeteringUnitId(id(5)),
        commissioned_on: "2027-03-01".parse().expect("a date"),
        laid_up: Vec::new(),
        configurations: vec![Dated::new(at(0, 0), Configuration { working_width_m: 6.0, row_spacing_m: 0.125 })],
        setups: (0..=jobs / 50).map(|n| Dated::new(at(1 + n * 50, 10_000 + n), setup(n))).collect(),
        services: Vec::new(),
        fills: vec![Dated::new(at(1, 20_000), Fill { lot })],
        emptyings: Vec::new(),
        calibrations: (0..=jobs / 10).map(|n| Dated::new(at(2 + n * 10, 30_000 + n), catch)).collect(),
        jobs: (0..jobs).map(|n| Dated::new(at(3 + n, 40_000 + n), job(n))).collect(),
        waivers: Vec::new(),
    };
    let around = Surroundings {
        time_zone: TimeZone::UTC,
        lots: HashMap::from([(lot, LotFacts { crop: "wheat".into(), tests: Vec::new() })]),
        seasons: Vec::new(),
        scales: HashMap::new(),
        policies: Vec::new(),
    };
    (history, around, at(24 * 300, 0).occurred_at)
}
