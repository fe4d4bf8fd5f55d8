//! Which of several calibrations is in force.

use sowmark_core::{
    basis::Setup,
    readiness::{CalibrationFacts, CauseKind, Detail, State, Trigger},
};
use uuid::Uuid;

use crate::fleet::{BARLEY, Fleet, OTHER_WHEAT, WHEAT, at, caught, roller, setup};

/// Wheat caught on 6 April, barley on 7 April, wheat in the tank again on 8 April.
fn wheat_barley_wheat() -> (Fleet, Uuid, Uuid) {
    let (mut fleet, wheat) = Fleet::caught_with_wheat();
    fleet.emptying("04-07 06:00", WHEAT, true);
    fleet.fill("04-07 07:00", BARLEY);
    let barley = fleet.calibration("04-07 08:00", CalibrationFacts { factor: 0.04, ..caught(BARLEY) });
    fleet.emptying("04-08 06:00", BARLEY, true);
    fleet.fill("04-08 07:00", WHEAT);
    (fleet, wheat, barley)
}

#[test]
fn an_older_factor_is_recalled_when_its_basis_is_there_again() {
    let (fleet, wheat, barley) = wheat_barley_wheat();
    let then = fleet.readiness("04-07 09:00").in_force.expect("a factor");
    assert_eq!((then.calibration.0, then.recalled), (barley, false));
    let now = fleet.readiness("04-08 08:00");
    let factor = now.in_force.expect("a factor");
    assert_eq!((factor.calibration.0, factor.factor, factor.recalled), (wheat, 0.05, true));
    assert_eq!((factor.since, now.state), (at("04-06 08:00"), State::Ready));
    assert_eq!(now.compared_with, Some(wheat.into()));
}

#[test]
fn a_policy_that_forbids_recall_compares_only_with_the_newest() {
    let (mut fleet, _, barley) = wheat_barley_wheat();
    fleet.policy("04-01 00:00", |policy| policy.recall_allowed = false);
    let now = fleet.readiness("04-08 08:00");
    assert_eq!((now.state, now.in_force, now.compared_with), (State::Calibrate, None, Some(barley.into())));
    let fill = fleet.history.fills[2].moment.id;
    fleet.assert_due("04-08 08:00", &[(Trigger::CropChanged, "04-08 07:00", CauseKind::Fill, fill)]);
}

#[test]
fn where_none_fits_the_triggers_are_against_the_newest_accepted_one() {
    let (mut fleet, _, barley) = wheat_barley_wheat();
    let fill = fleet.fill("04-09 07:00", OTHER_WHEAT);
    let now = fleet.readiness("04-09 08:00");
    assert_eq!((now.in_force, now.compared_with), (None, Some(barley.into())));
    // The crop has differed from barley since the wheat of the day before.
    let wheat_fill = fleet.history.fills[2].moment.id;
    assert_ne!(fill, wheat_fill);
    fleet.assert_due("04-09 08:00", &[(Trigger::CropChanged, "04-08 07:00", CauseKind::Fill, wheat_fill)]);
}

#[test]
fn of_several_that_fit_the_newest_is_in_force_and_check_triggers_do_not_send_it_away() {
    let (mut fleet, _, _) = wheat_barley_wheat();
    let unchecked = fleet.calibration("04-08 08:00", CalibrationFacts { scale: None, ..caught(WHEAT) });
    let now = fleet.readiness("04-08 09:00");
    assert_eq!(now.state, State::Check);
    assert_eq!(now.in_force.map(|factor| (factor.calibration.0, factor.recalled)), Some((unchecked, false)));
}

#[test]
fn a_service_sends_the_older_ones_away_too() {
    let (mut fleet, _, barley) = wheat_barley_wheat();
    fleet.service("04-07 07:30", true);
    let now = fleet.readiness("04-08 08:00");
    assert_eq!((now.in_force, now.compared_with), (None, Some(barley.into())));
}

#[test]
fn a_doubt_about_the_older_one_keeps_it_from_being_recalled() {
    let (mut fleet, _, barley) = wheat_barley_wheat();
    let failed = CalibrationFacts { standing: sowmark_core::readiness::Standing::Held, ..caught(WHEAT) };
    fleet.calibration("04-08 08:00", failed);
    let now = fleet.readiness("04-08 09:00");
    assert_eq!((now.in_force, now.compared_with), (None, Some(barley.into())));
}

#[test]
fn an_empty_tank_is_compared_with_the_newest_that_fits_the_machine() {
    let (mut fleet, wheat, barley) = wheat_barley_wheat();
    fleet.emptying("04-09 08:00", WHEAT, true);
    assert_eq!(fleet.readiness("04-09 09:00").compared_with, Some(barley.into()));
    // On another roller for barley only: with the first roller back and nothing in the tank, wheat's basis is nearest.
    let other = Setup { roller: roller(2), ..setup() };
    fleet.setup("04-07 07:30", other);
    fleet.setup("04-08 07:30", setup());
    let now = fleet.readiness("04-09 09:00");
    assert_eq!((now.compared_with, now.in_force, now.state), (Some(wheat.into()), None, State::Empty));
    assert_eq!(now.due, []);
}

#[test]
fn the_detail_names_what_it_is_compared_with() {
    let (mut fleet, _, _) = wheat_barley_wheat();
    fleet.setup("04-08 09:00", Setup { roller: roller(3), ..setup() });
    let due = fleet.readiness("04-08 10:00").due;
    let crop = due.iter().find(|due| due.trigger == Trigger::CropChanged).expect("compared with barley");
    assert!(matches!(&crop.detail, Detail::CropChanged { crop, .. } if crop.from == "barley" && crop.to == "Wheat"));
}
