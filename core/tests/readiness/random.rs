//! Random records on a few days, close together so that they meet: same instants, late recordings, differences that come and go.

use jiff::{SignedDuration, Timestamp, civil::date, tz::TimeZone};
use proptest::prelude::*;
use sowmark_core::{
    basis::{Configuration, Setup},
    ids::{LotId, SeasonId},
    moment::{Dated, Moment},
    policy::Policy,
    quantity::DriveRatio,
    readiness::{
        CalibrationFacts, Emptying, Fill, JobFacts, LotTest, ScaleCheck, Season, SeedUsedBasis, Service, Standing,
        Trigger, Waiver,
    },
};
use uuid::Uuid;

use crate::fleet::{BARLEY, Fleet, OTHER_WHEAT, SCALE, WHEAT, at, caught, roller, setup, sown};

/// How many hours the records are spread over.
pub(crate) const HOURS: i64 = 72;

/// One random record: its kind, its hour, how many hours later it came in, and what it says.
type Draw = (u8, i64, i64, [usize; 4]);

pub(crate) fn hour(hour: i64) -> Timestamp {
    at("04-06 00:00") + SignedDuration::from_hours(hour)
}

/// A unit with random records, and what surrounds it.
pub(crate) fn fleets() -> impl Strategy<Value = Fleet> {
    let digits = [0..3_usize, 0..3, 0..3, 0..15];
    let draw = (0..22_u8, 0..HOURS, 0..4_i64, digits);
    let zone = prop::sample::select(vec!["UTC", "Pacific/Auckland", "America/Regina", "Pacific/Kiritimati"]);
    (zone, any::<bool>(), prop::collection::vec(draw, 0..32)).prop_map(|(zone, set_up, draws)| {
        let mut fleet = Fleet::new();
        fleet.around.time_zone = TimeZone::get(zone).expect("a zone");
        if set_up {
            fleet.setup("04-01 00:00", setup());
            fleet.scale_check("04-01 00:00", 10.0, 10.0);
            fleet.lot_test("04-01 00:00", WHEAT, Some(780.0), Some(40.0));
            fleet.calibration("04-01 01:00", caught(WHEAT));
        }
        for (index, draw) in draws.into_iter().enumerate() {
            record(&mut fleet, index, draw);
        }
        fleet
    })
}

fn record(fleet: &mut Fleet, index: usize, (kind, occurred, late, [a, b, c, d]): Draw) {
    let id = Uuid::from_u128(0x10_0000 + index as u128);
    let moment = Moment { occurred_at: hour(occurred), recorded_at: hour(occurred + late), id };
    // Mostly the same lot, so that what is left behind is often come back to.
    let lot = [WHEAT, WHEAT, WHEAT, OTHER_WHEAT, BARLEY][d % 5];
    let history = &mut fleet.history;
    match kind {
        0 => history.configurations.push(Dated::new(moment, configuration(a, b))),
        1 | 2 => history.setups.push(Dated::new(moment, some_setup(b, c, d))),
        3 => history.services.push(Dated::new(moment, Service { affects_metering: a == 0 })),
        4 | 5 => history.fills.push(Dated::new(moment, Fill { lot })),
        6 => history.emptyings.push(Dated::new(moment, Emptying { lot, to_empty: b > 0 })),
        7..=10 => history.calibrations.push(Dated::new(moment, calibration(lot, a, b, c))),
        11..=13 => history.jobs.push(Dated::new(moment, job(lot, a, b, c))),
        14..=16 => {
            let test = LotTest {
                bulk_density: [None, Some(780.0), Some(850.0)][b],
                thousand_seed_weight: [None, Some(40.0), Some(41.0)][c],
            };
            fleet.around.lots.get_mut(&lot).expect("a lot").tests.push(Dated::new(moment, test));
        }
        17 => {
            let check = ScaleCheck { reference_kg: 10.0, reading_kg: [10.0, 10.05, 10.2][b] };
            fleet.around.scales.get_mut(&SCALE).expect("the scale").checks.push(Dated::new(moment, check));
        }
        18 => history.laid_up.push(Dated::new(moment, a == 0)),
        19 => {
            let until = hour(occurred + 24);
            history
                .waivers
                .push(Dated::new(moment, Waiver { trigger: Trigger::ALL[d], until, reason: Some("a reason".into()) }));
        }
        20 => fleet.around.policies.push(Dated::new(moment, policy(a, b, c))),
        _ => fleet.around.seasons.push(season(id, occurred, b)),
    }
}

fn configuration(a: usize, b: usize) -> Configuration {
    Configuration { working_width_m: [6.0, 6.0, 8.0][a], row_spacing_m: [0.125, 0.125, 0.15][b] }
}

fn some_setup(b: usize, c: usize, d: usize) -> Setup {
    Setup {
        roller: roller(if d < 3 { 2 } else { 1 }),
        drive_ratio: DriveRatio::parse(if d == 3 { "3" } else { ["5:2", "10:4", "2.5"][b] }).expect("a ratio"),
        gate: if d == 4 { None } else { Some(["12", " 12", "12 "][c].to_owned()) },
        runs: if d == 0 { 7 } else { 8 },
    }
}

fn calibration(lot: LotId, a: usize, b: usize, c: usize) -> CalibrationFacts {
    CalibrationFacts {
        standing: [Standing::Accepted, Standing::Accepted, [Standing::Held, Standing::Rejected][a % 2]][b],
        roller_speed_rpm: [Some(42.0), Some(60.0), None][c],
        scale: (a > 0).then_some(SCALE),
        ..caught(lot)
    }
}

fn job(lot: LotId, a: usize, b: usize, c: usize) -> JobFacts {
    JobFacts {
        seed_used_kg: 1400.0 * [1.0, 1.07, 0.9][b],
        seed_used_basis: [SeedUsedBasis::Weighed, SeedUsedBasis::Bags, SeedUsedBasis::MachineTotal][a],
        speed: [Some(10.0 / 3.6), Some(16.0 / 3.6), None][c],
        ..sown(lot)
    }
}

fn policy(a: usize, b: usize, c: usize) -> Policy {
    Policy {
        recall_allowed: a > 0,
        seed_weight_tolerance_percent: [2.0, 3.0, 10.0][a],
        interval_area_ha: [None, Some(15.0), Some(25.0)][b],
        interval_days: [None, Some(0.7), Some(1.5)][c],
        drift_sigma_percent: [1.0, 2.0, 3.0][b],
        scale_check_interval_days: [1.0, 5.0, 30.0][c],
        ..Policy::default()
    }
}

fn season(id: Uuid, occurred: i64, b: usize) -> Season {
    let day = i8::try_from(6 + occurred / 24).expect("a day");
    let crops = [None, Some(vec!["WHEAT".to_owned()]), Some(vec!["barley".to_owned(), "rye".to_owned()])];
    Season { id: SeasonId(id), starts_on: date(2027, 4, day), crops: crops[b].clone() }
}
