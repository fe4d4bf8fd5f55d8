//! How long readiness takes: the board's question to one metering unit with a long history and to a fleet of them, and the reports'
//! questions to a unit's whole past.
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
    CalibrationFacts, Emptying, Fill, JobFacts, LotFacts, LotTest, Past, Season, SeedUsedBasis, Service, Standing,
    Surroundings, UnitHistory, readiness, stood,
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

/// What stood over all the seasons of a unit, 60 records each: a seeder's book of all time.
#[divan::bench(args = [1, 10, 40])]
fn all_that_stood(bencher: Bencher, seasons: u32) {
    let (history, around, until) = past(seasons);
    bencher.bench(|| stood(black_box(&history), black_box(&around), None, until));
}

/// What stood in the last of them: a season report.
#[divan::bench(args = [1, 10, 40])]
fn the_last_season(bencher: Bencher, seasons: u32) {
    let (history, around, until) = past(seasons);
    let from = at(SEASON * (seasons - 1), 0).occurred_at;
    bencher.bench(|| stood(black_box(&history), black_box(&around), Some(from), until));
}

/// Every job of all of them judged: the usage audit of all time.
#[divan::bench(args = [1, 10, 40])]
fn every_job_judged(bencher: Bencher, seasons: u32) {
    let (history, around, until) = past(seasons);
    bencher.bench(|| {
        let past = Past::new(black_box(&history), black_box(&around), until);
        history.jobs.iter().filter(|job| past.at(job.moment.occurred_at).in_force.is_some()).count()
    });
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

/// Hours from one season to the next.
const SEASON: u32 = 24 * 182;

/// A unit's seasons of 60 records: 36 jobs with two lots, 6 catches, 8 fills, 3 emptyings, 5 setups, 2 services; each lot is tested.
/// The lots are new each season; in the midst of each lot the roller is changed, and changed back for the next.
fn past(seasons: u32) -> (UnitHistory, Surroundings, Timestamp) {
    let (mut history, mut around, _) = season(0);
    history.setups.clear();
    history.fills.clear();
    history.calibrations.clear();
    for season in 0..seasons {
        sow(&mut history, &mut around, season);
    }
    (history, around, at(SEASON * seasons, 0).occurred_at)
}

fn sow(history: &mut UnitHistory, around: &mut Surroundings, season: u32) {
    let mut number = season * 1000;
    let mut when = |hour: u32| {
        number += 1;
        at(SEASON * season + hour, number)
    };
    let lots = [0, 1].map(|lot| LotId(id(1_000_000 + u128::from(season * 2 + lot))));
    let setup = |roller: u128| Setup {
        roller: RollerId(id(roller)),
        drive_ratio: DriveRatio::parse("5:2").expect("a ratio"),
        gate: Some("12".into()),
        runs: 8,
    };
    around.seasons.push(Season {
        id: id(2_000_000 + u128::from(season)).into(),
        starts_on: TimeZone::UTC.to_datetime(at(SEASON * season, 0).occurred_at).date(),
        crops: None,
    });
    for lot in lots {
        let found = LotTest { bulk_density: Some(780.0), thousand_seed_weight: Some(0.045) };
        around.lots.insert(lot, LotFacts { crop: "wheat".into(), tests: vec![Dated::new(when(1), found)] });
    }
    for (half, lot) in lots.into_iter().enumerate() {
        let begins = 10 + 200 * u32::try_from(half).expect("a half");
        let catch = CalibrationFacts {
            lot,
            standing: Standing::Accepted,
            factor: 0.0049,
            roller_speed_rpm: Some(42.0),
            scale: None,
        };
        for (hour, roller) in [(0, 2), (70, 3)] {
            history.setups.push(Dated::new(when(begins + hour), setup(roller)));
        }
        for hour in [1, 40, 80, 120] {
            history.fills.push(Dated::new(when(begins + hour), Fill { lot }));
        }
        for hour in [2, 60, 71] {
            history.calibrations.push(Dated::new(when(begins + hour), catch));
        }
        history.services.push(Dated::new(when(begins + 50), Service { affects_metering: true }));
        for job in 0..18 {
            let sown = JobFacts {
                lot,
                area_m2: 50_000.0,
                seed_used_kg: 700.0 + f64::from(job % 7),
                seed_used_basis: SeedUsedBasis::Weighed,
                target_rate: 0.014,
                speed: Some(2.5),
            };
            history.jobs.push(Dated::new(when(begins + 3 + job * 8), sown));
        }
        history.emptyings.push(Dated::new(when(begins + 190), Emptying { lot, to_empty: true }));
    }
    history.setups.push(Dated::new(when(420), setup(2)));
    history.emptyings.push(Dated::new(when(430), Emptying { lot: lots[1], to_empty: true }));
}
