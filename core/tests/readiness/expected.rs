//! The factor that a unit's own past leads one to expect.

use sowmark_core::{
    basis::Setup,
    moment::Moment,
    readiness::{CalibrationFacts, Expected, Standing, expected_from_history},
};
use uuid::Uuid;

use crate::fleet::{BARLEY, Fleet, OTHER_WHEAT, WHEAT, at, caught, roller, setup};

fn expected(fleet: &Fleet, when: &str, number: u128, lot: sowmark_core::ids::LotId) -> Option<Expected> {
    let moment = Moment { occurred_at: at(when), recorded_at: at(when), id: Uuid::from_u128(0xfff) };
    expected_from_history(&fleet.history, &fleet.around, moment, roller(number), lot)
}

#[test]
fn it_is_the_last_accepted_factor_with_the_same_roller_and_crop() {
    let (mut fleet, first) = Fleet::caught_with_wheat();
    let mut held = caught(WHEAT);
    held.standing = Standing::Held;
    fleet.calibration("04-07 08:00", held);
    fleet.calibration("04-07 09:00", caught(BARLEY));
    fleet.setup("04-08 08:00", Setup { roller: roller(2), ..setup() });
    let second = fleet.calibration("04-08 09:00", CalibrationFacts { factor: 0.06, ..caught(WHEAT) });
    let calibration = |when, number, lot| expected(&fleet, when, number, lot).map(|found| found.calibration.0);
    assert_eq!(calibration("04-09 08:00", 1, OTHER_WHEAT), Some(first));
    assert_eq!(calibration("04-09 08:00", 2, OTHER_WHEAT), Some(second));
    assert_eq!(calibration("04-08 09:00", 2, OTHER_WHEAT), None);
    assert_eq!(calibration("04-09 08:00", 2, BARLEY), None);
    assert_eq!(calibration("04-09 08:00", 3, WHEAT), None);
    // A calibration expects nothing of itself.
    let own = fleet.history.calibrations.last().expect("the second").moment;
    assert_eq!(expected_from_history(&fleet.history, &fleet.around, own, roller(2), WHEAT), None);
}

#[test]
fn it_follows_the_ratio_of_bulk_densities_where_both_are_known() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.lot_test("04-01 08:00", WHEAT, Some(780.0), None);
    let found = expected(&fleet, "04-09 08:00", 1, OTHER_WHEAT).expect("wheat was caught");
    assert_eq!((found.density_ratio, found.expected_factor()), (None, 0.05));
    fleet.lot_test("04-08 08:00", OTHER_WHEAT, Some(741.0), None);
    // What became known of the earlier lot after its calibration does not count.
    fleet.lot_test("04-07 08:00", WHEAT, Some(900.0), None);
    let found = expected(&fleet, "04-09 08:00", 1, OTHER_WHEAT).expect("wheat was caught");
    assert_eq!(found.density_ratio, Some(0.95));
    assert!((found.expected_factor() - 0.0475).abs() < 1e-15);
    assert_eq!(expected(&fleet, "04-08 07:59", 1, OTHER_WHEAT).and_then(|found| found.density_ratio), None);
}
