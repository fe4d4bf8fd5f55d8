//! Strange but possible records: nothing panics, nothing takes long.

use std::time::{Duration, Instant};

use jiff::SignedDuration;
use sowmark_core::readiness::{CalibrationFacts, JobFacts, Standing, State, readiness};

use crate::fleet::{BARLEY, Fleet, OTHER_WHEAT, WHEAT, at, caught, setup, sown};

#[test]
fn the_ends_of_the_calendar_are_only_far_away() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.policy("04-01 00:00", |policy| policy.interval_days = Some(1e15));
    fleet.season("9999-12-31", None);
    fleet.season("-009999-01-01", None);
    for zone in ["Pacific/Kiritimati", "Pacific/Pago_Pago", "UTC"] {
        fleet.around.time_zone = jiff::tz::TimeZone::get(zone).expect("a zone");
        assert_eq!(fleet.readiness("04-07 08:00").state, State::Ready, "in {zone}");
    }
}

#[test]
fn zeros_raise_nothing_and_do_not_panic() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.lot_test("04-01 08:00", WHEAT, Some(0.0), None);
    fleet.lot_test("04-07 08:00", WHEAT, Some(0.0), None);
    fleet.job("04-07 08:00", JobFacts { area_m2: 0.0, seed_used_kg: 0.0, speed: Some(0.0), ..sown(WHEAT) });
    let now = fleet.readiness("04-07 09:00");
    assert!(now.in_force.is_some());
}

/// The time that one question about the unit takes.
#[expect(clippy::disallowed_methods, reason = "a test may take the time")]
fn time_of_one(fleet: &Fleet, when: &str, expected: State) -> Duration {
    let began = Instant::now();
    for _ in 0..10 {
        assert_eq!(readiness(&fleet.history, &fleet.around, at(when)).state, expected);
    }
    began.elapsed() / 10
}

#[test]
fn a_thousand_records_of_every_kind_are_answered_in_well_under_a_tenth_of_a_second() {
    let mut fleet = Fleet::new();
    fleet.setup("01-01 00:00", setup());
    let start = at("01-02 00:00");
    for hour in 0..1000 {
        let when = (start + SignedDuration::from_hours(hour)).to_string();
        let lot = [WHEAT, OTHER_WHEAT, BARLEY][usize::try_from(hour / 40 % 3).expect("small")];
        let standing = if hour % 8 == 0 { Standing::Held } else { Standing::Accepted };
        match hour % 4 {
            0 => drop(fleet.calibration(&when, CalibrationFacts { standing, ..caught(lot) })),
            1 => drop(fleet.fill(&when, lot)),
            2 => drop(fleet.lot_test(&when, lot, Some(780.0), None)),
            _ => drop(fleet.job(&when, sown(lot))),
        }
    }
    fleet.service("03-01 00:00", true);
    let each = time_of_one(&fleet, "03-02 00:00", State::Calibrate);
    assert!(each < Duration::from_millis(100), "{each:?}");
}

/// The worst case for the choice, far beyond any farm: five hundred calibrations would fit but for a doubt, behind five hundred of
/// another lot. Unoptimized and on a busy machine it takes a tenth of a second.
#[test]
fn a_doubt_behind_a_thousand_calibrations_is_found_within_a_second() {
    let mut fleet = Fleet::new();
    fleet.setup("01-01 00:00", setup());
    let start = at("01-02 00:00");
    for hour in 0..1000 {
        let when = (start + SignedDuration::from_hours(hour)).to_string();
        let lot = if hour <= 500 { WHEAT } else { BARLEY };
        let standing = if hour == 500 { Standing::Rejected } else { Standing::Accepted };
        fleet.calibration(&when, CalibrationFacts { standing, ..caught(lot) });
    }
    fleet.fill("03-01 00:00", WHEAT);
    let each = time_of_one(&fleet, "03-02 00:00", State::Calibrate);
    assert!(each < Duration::from_secs(1), "{each:?}");
}
