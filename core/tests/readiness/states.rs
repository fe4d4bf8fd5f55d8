//! The states, what is in the tank, the order of records, and what was in force at a moment.

use jiff::SignedDuration;
use sowmark_core::{
    basis::basis_at,
    moment::Moment,
    readiness::{CauseKind, JobFacts, Standing, State, Tank, Trigger, latest_known_tests, season_in_force, tank_at},
};
use uuid::Uuid;

use crate::fleet::{BARLEY, Fleet, OTHER_WHEAT, WHEAT, at, caught, roller, setup, sown};

#[test]
fn a_unit_just_caught_is_ready_with_its_own_factor() {
    let (fleet, calibration) = Fleet::caught_with_wheat();
    let now = fleet.readiness("04-06 08:00");
    assert_eq!(now.state, State::Ready);
    let factor = now.in_force.expect("a factor");
    assert_eq!((factor.calibration.0, factor.factor, factor.recalled), (calibration, 0.05, false));
    assert_eq!((factor.factor_unit_total, factor.since), (0.4, at("04-06 08:00")));
    assert_eq!((now.lot, now.compared_with), (Some(WHEAT), Some(calibration.into())));
    assert_eq!(now.setup.map(|setup| setup.what), Some(crate::fleet::setup()));
    assert_eq!(now.configuration.map(|configuration| configuration.what.working_width_m), Some(6.0));
    // A moment before, the unit had no calibration.
    assert_eq!(fleet.readiness("04-06 07:59").due[0].trigger, Trigger::NeverCalibrated);
}

#[test]
fn laid_up_comes_before_every_other_state_and_ends_with_the_next_record() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.emptying("06-01 08:00", WHEAT, true);
    fleet.lay_up("06-01 09:00", true);
    fleet.lay_up("09-01 09:00", false);
    for (when, state) in [
        ("06-01 07:59", State::Ready),
        ("06-01 08:00", State::Empty),
        ("06-01 09:00", State::LaidUp),
        ("08-31 09:00", State::LaidUp),
        ("09-01 09:00", State::Empty),
    ] {
        assert_eq!(fleet.readiness(when).state, state, "at {when}");
    }
}

#[test]
fn an_empty_tank_has_no_factor_but_the_machines_triggers_are_listed() {
    let (mut fleet, calibration) = Fleet::caught_with_wheat();
    fleet.emptying("04-07 08:00", WHEAT, false);
    assert_eq!(fleet.readiness("04-07 08:00").state, State::Ready);
    fleet.emptying("04-07 09:00", WHEAT, true);
    let now = fleet.readiness("04-07 09:00");
    assert_eq!((now.state, now.lot, now.in_force), (State::Empty, None, None));
    assert_eq!(now.compared_with, Some(calibration.into()));
    let service = fleet.service("04-07 10:00", true);
    let due = [(Trigger::ComponentReplaced, "04-07 10:00", CauseKind::Service, service)];
    fleet.assert_due("04-07 10:00", &due);
    assert_eq!(fleet.readiness("04-07 10:00").state, State::Empty);
    assert_eq!(Fleet::new().readiness("04-06 08:00").state, State::Empty);
}

#[test]
fn a_fill_on_top_of_another_lot_is_a_mix_until_the_tank_is_emptied() {
    let mut fleet = Fleet::new();
    let tank = |fleet: &Fleet, when| {
        let Tank { lot, mixed_with } = tank_at(&fleet.history, at(when));
        let now = fleet.readiness(when);
        assert_eq!((now.lot, &now.mixed_with), (lot, &mixed_with), "at {when}");
        (lot, mixed_with)
    };
    fleet.fill("04-01 08:00", WHEAT);
    assert_eq!(tank(&fleet, "04-01 08:00"), (Some(WHEAT), vec![]));
    fleet.fill("04-01 09:00", WHEAT);
    assert_eq!(tank(&fleet, "04-01 09:00"), (Some(WHEAT), vec![]));
    fleet.fill("04-02 08:00", BARLEY);
    assert_eq!(tank(&fleet, "04-02 08:00"), (Some(BARLEY), vec![WHEAT]));
    fleet.fill("04-03 08:00", OTHER_WHEAT);
    assert_eq!(tank(&fleet, "04-03 08:00"), (Some(OTHER_WHEAT), vec![WHEAT, BARLEY]));
    // Wheat once more: it was in before, and now it counts.
    fleet.fill("04-04 08:00", WHEAT);
    assert_eq!(tank(&fleet, "04-04 08:00"), (Some(WHEAT), vec![BARLEY, OTHER_WHEAT]));
    // Taking some out leaves the mix; a job that names one of its lots too.
    fleet.emptying("04-05 08:00", WHEAT, false);
    fleet.job("04-05 09:00", sown(BARLEY));
    assert_eq!(tank(&fleet, "04-05 09:00"), (Some(BARLEY), vec![OTHER_WHEAT, WHEAT]));
    fleet.emptying("04-06 08:00", WHEAT, true);
    assert_eq!(tank(&fleet, "04-06 08:00"), (None, vec![]));
    fleet.fill("04-06 09:00", WHEAT);
    assert_eq!(tank(&fleet, "04-06 09:00"), (Some(WHEAT), vec![]));
}

#[test]
fn a_lot_named_by_a_calibration_or_job_replaces_what_was_in_without_a_claim_of_mixing() {
    let mut fleet = Fleet::new();
    fleet.fill("04-01 08:00", WHEAT);
    fleet.calibration("04-02 08:00", caught(OTHER_WHEAT));
    assert_eq!(tank_at(&fleet.history, at("04-02 08:00")), Tank { lot: Some(OTHER_WHEAT), mixed_with: vec![] });
    fleet.fill("04-03 08:00", WHEAT);
    fleet.job("04-03 09:00", JobFacts { lot: BARLEY, ..sown(BARLEY) });
    assert_eq!(tank_at(&fleet.history, at("04-03 09:00")), Tank { lot: Some(BARLEY), mixed_with: vec![] });
}

#[test]
fn records_at_the_same_instant_are_ordered_by_their_recording_and_then_by_their_id() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    let emptied = fleet.emptying("04-07 08:00", WHEAT, true);
    let filled = fleet.fill("04-07 08:00", WHEAT);
    assert!(emptied < filled);
    assert_eq!(fleet.readiness("04-07 08:00").lot, Some(WHEAT));
    // Recorded a second earlier, the fill comes first, whatever its id.
    fleet.history.fills.last_mut().expect("a fill").moment.recorded_at -= SignedDuration::from_secs(1);
    assert_eq!(fleet.readiness("04-07 08:00").lot, None);

    // A setup recorded before the calibration of the same minute is its basis; one recorded after it is a change.
    let (mut fleet, _) = Fleet::caught_with_wheat();
    let other = sowmark_core::basis::Setup { roller: roller(2), ..setup() };
    fleet.setup("04-07 08:00", other);
    fleet.calibration("04-07 08:00", caught(WHEAT));
    fleet.assert_due("04-07 08:00", &[]);
    fleet.history.setups.last_mut().expect("a setup").moment.recorded_at += SignedDuration::from_secs(1);
    // The calibration was then made with roller 1, and roller 2 went in after it.
    assert_eq!(fleet.readiness("04-07 08:00").due[0].trigger, Trigger::RollerChanged);
}

#[test]
fn a_basis_needs_a_setup_from_before_the_record() {
    let mut fleet = Fleet::new();
    let moment = |when: &str| Moment { occurred_at: at(when), recorded_at: at(when), id: Uuid::from_u128(0xfff) };
    let set_up = fleet.setup("03-01 08:00", setup());
    assert_eq!(basis_at(&fleet.history, moment("03-01 07:59")), None);
    // Recorded a minute after it happened, and so after a record that the server took at once.
    assert_eq!(basis_at(&fleet.history, moment("03-01 08:00")), None);
    let basis = basis_at(&fleet.history, moment("03-01 08:01")).expect("a basis");
    assert_eq!((basis.setup.moment.id, basis.configuration.what.working_width_m), (set_up, 6.0));
    fleet.configuration("03-02 08:00", 8.0, 0.125);
    let width = |fleet: &Fleet, when| {
        basis_at(&fleet.history, moment(when)).map(|basis| basis.configuration.what.working_width_m)
    };
    assert_eq!(width(&fleet, "03-03 08:00"), Some(8.0));
    // Before the first configuration there was a width too.
    fleet.history.configurations.remove(0);
    assert_eq!(width(&fleet, "03-01 09:00"), Some(8.0));
}

#[test]
fn each_seed_weight_is_known_from_the_latest_test_that_measured_it() {
    let mut fleet = Fleet::new();
    fleet.lot_test("03-03 08:00", WHEAT, None, Some(41.0));
    fleet.lot_test("03-01 08:00", WHEAT, Some(780.0), Some(40.0));
    fleet.lot_test("03-02 08:00", WHEAT, Some(790.0), None);
    let known = |when| {
        let known = latest_known_tests(&fleet.around.lots[&WHEAT], at(when));
        (known.bulk_density, known.thousand_seed_weight)
    };
    assert_eq!(known("02-28 08:00"), (None, None));
    assert_eq!(known("03-01 08:00"), (Some(780.0), Some(40.0)));
    assert_eq!(known("03-02 08:00"), (Some(790.0), Some(40.0)));
    assert_eq!(known("03-03 08:00"), (Some(790.0), Some(41.0)));
}

#[test]
fn the_season_in_force_is_the_last_that_began_for_the_crop() {
    let mut fleet = Fleet::new();
    let spring = fleet.season("2027-03-01", None);
    let barley = fleet.season("2027-04-01", Some(&["Barley"]));
    let in_force = |when, crop| {
        season_in_force(&fleet.around.seasons, &fleet.around.time_zone, at(when), crop).map(|season| season.id.0)
    };
    assert_eq!(in_force("02-28 23:59", Some("barley")), None);
    assert_eq!(in_force("03-01 00:00", Some("barley")), Some(spring));
    assert_eq!(in_force("04-01 00:00", Some("barley")), Some(barley));
    assert_eq!(in_force("04-01 00:00", Some("wheat")), Some(spring));
    assert_eq!(in_force("04-01 00:00", None), Some(spring));
}

#[test]
fn a_held_calibration_alone_is_none() {
    let mut fleet = Fleet::new();
    fleet.setup("03-01 08:00", setup());
    let mut held = caught(WHEAT);
    held.standing = Standing::Held;
    fleet.calibration("04-06 08:00", held);
    let now = fleet.readiness("04-06 09:00");
    assert_eq!((now.state, now.in_force, now.compared_with), (State::Calibrate, None, None));
}

#[test]
fn names_are_those_of_the_interface() {
    for trigger in Trigger::ALL {
        assert_eq!(serde_json::to_string(&trigger).expect("JSON"), format!("\"{trigger}\""));
    }
    let kinds = [CauseKind::Seeder, CauseKind::LotTest, CauseKind::ScaleCheck, CauseKind::Emptying];
    for kind in kinds {
        assert_eq!(serde_json::to_string(&kind).expect("JSON"), format!("\"{}\"", kind.as_str()));
    }
    let states = [State::LaidUp, State::Empty, State::Calibrate, State::Check, State::Ready];
    for state in states {
        assert_eq!(serde_json::to_string(&state).expect("JSON"), format!("\"{}\"", state.as_str()));
    }
}

#[test]
fn every_trigger_is_read_by_its_name_and_no_other() {
    for trigger in Trigger::ALL {
        assert_eq!(trigger.as_str().parse(), Ok(trigger));
        assert_eq!(trigger.to_string(), trigger.as_str());
        assert_eq!(trigger.can_be_waived(), trigger != Trigger::NeverCalibrated);
    }
    let error = "lot".parse::<Trigger>().expect_err("no trigger").to_string();
    assert!(error.starts_with("“lot” is no trigger; use one of never_calibrated, new_season,"), "{error}");
    assert!(error.ends_with(", interval, scale_unchecked"), "{error}");
}
