//! What a waiver lets pass, and for how long.

use sowmark_core::readiness::{CalibrationFacts, State, Trigger, Waived};

use crate::fleet::{BARLEY, Fleet, OTHER_WHEAT, WHEAT, at, caught, setup};

#[test]
fn a_waiver_takes_its_trigger_out_of_the_state_from_when_it_was_given_until_it_expires() {
    let (mut fleet, calibration) = Fleet::caught_with_wheat();
    fleet.fill("04-07 08:00", OTHER_WHEAT);
    let waiver = fleet.waiver("04-07 09:00", Trigger::LotChanged, "04-09 00:00");
    for (when, waived) in [("04-07 08:59", false), ("04-07 09:00", true), ("04-08 23:59", true), ("04-09 00:00", false)]
    {
        let now = fleet.readiness(when);
        assert_eq!(now.state, if waived { State::Ready } else { State::Calibrate }, "at {when}");
        // The trigger stays listed, with who and why to be found by the waiver.
        assert_eq!(now.due.len(), 1);
        let until = at("04-09 00:00");
        let expected = Waived { waiver, until, reason: Some("the seam of two lots of one field".into()) };
        assert_eq!(now.due[0].waived, waived.then_some(expected), "at {when}");
        let factor = now.in_force.map(|factor| (factor.calibration.0, factor.recalled));
        assert_eq!(factor, waived.then_some((calibration, false)), "at {when}");
    }
}

#[test]
fn every_stop_trigger_must_be_waived() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.fill("04-07 08:00", OTHER_WHEAT);
    fleet.service("04-07 08:30", true);
    fleet.waiver("04-07 09:00", Trigger::LotChanged, "04-09 00:00");
    let now = fleet.readiness("04-07 10:00");
    assert_eq!((now.state, now.in_force), (State::Calibrate, None));
    assert_eq!(now.due.iter().map(|due| due.waived.is_some()).collect::<Vec<_>>(), [true, false]);
    fleet.waiver("04-07 11:00", Trigger::ComponentReplaced, "04-09 00:00");
    assert_eq!(fleet.readiness("04-07 11:00").state, State::Ready);
}

#[test]
fn a_check_trigger_can_be_waived_too() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.calibration("04-07 08:00", CalibrationFacts { scale: None, ..caught(WHEAT) });
    assert_eq!(fleet.readiness("04-07 09:00").state, State::Check);
    fleet.waiver("04-07 09:00", Trigger::ScaleUnchecked, "04-09 00:00");
    assert_eq!(fleet.readiness("04-07 09:00").state, State::Ready);
}

#[test]
fn a_calibration_that_fits_without_waivers_comes_before_a_newer_one_that_needs_them() {
    let (mut fleet, wheat) = Fleet::caught_with_wheat();
    fleet.calibration("04-07 08:00", caught(BARLEY));
    fleet.fill("04-08 08:00", WHEAT);
    fleet.waiver("04-08 09:00", Trigger::CropChanged, "04-20 00:00");
    let now = fleet.readiness("04-08 10:00");
    assert_eq!(now.in_force.map(|factor| (factor.calibration.0, factor.recalled)), Some((wheat, true)));
    assert_eq!(now.due, []);
}

#[test]
fn what_was_never_calibrated_cannot_be_waived() {
    let mut fleet = Fleet::new();
    fleet.setup("03-01 08:00", setup());
    fleet.fill("04-06 08:00", WHEAT);
    fleet.waiver("04-06 08:00", Trigger::NeverCalibrated, "04-20 00:00");
    let now = fleet.readiness("04-06 09:00");
    assert_eq!((now.state, &now.due[0].waived, now.in_force), (State::Calibrate, &None, None));
}

#[test]
fn a_waiver_gives_no_factor_while_no_setup_is_known() {
    let mut fleet = Fleet::new();
    fleet.scale_check("04-06 06:00", 10.0, 10.0);
    fleet.calibration("04-06 08:00", caught(WHEAT));
    fleet.waiver("04-06 08:30", Trigger::RollerChanged, "04-20 00:00");
    assert_eq!(fleet.readiness("04-06 09:00").in_force, None);
}

#[test]
fn of_several_waivers_the_latest_given_is_named_and_a_shorter_one_does_not_end_a_longer() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.fill("04-07 08:00", OTHER_WHEAT);
    let long = fleet.waiver("04-07 09:00", Trigger::LotChanged, "04-20 00:00");
    let short = fleet.waiver("04-07 10:00", Trigger::LotChanged, "04-08 00:00");
    let waived = |when| fleet.readiness(when).due[0].waived.as_ref().map(|waived| waived.waiver);
    assert_eq!(waived("04-07 11:00"), Some(short));
    assert_eq!(waived("04-08 00:00"), Some(long));
}
