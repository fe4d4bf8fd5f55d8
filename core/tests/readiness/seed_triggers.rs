//! `never_calibrated`, `new_season`, `crop_changed`, `lot_changed`, `seed_weight_changed`: raised and cleared, since when and by what.

use jiff::tz::TimeZone;
use sowmark_core::{
    ids::{LotId, SeasonId},
    readiness::{
        CauseKind::{Calibration, Fill, Job, LotTest, Season, Seeder},
        Change, Detail, Standing, State,
        Trigger::{CropChanged, LotChanged, NeverCalibrated, NewSeason, SeedWeightChanged},
    },
};

use crate::fleet::{BARLEY, Fleet, OTHER_WHEAT, SEEDER, WHEAT, caught, sown};

#[test]
fn a_unit_without_an_accepted_calibration_was_never_calibrated_since_the_commissioning() {
    let mut fleet = Fleet::new();
    fleet.around.time_zone = TimeZone::get("Pacific/Auckland").expect("a zone");
    fleet.setup("03-01 08:00", crate::fleet::setup());
    fleet.fill("04-06 07:00", WHEAT);
    let mut held = caught(WHEAT);
    held.standing = Standing::Held;
    fleet.calibration("04-06 08:00", held);
    // 1 March 2021 began in New Zealand's summer time, 13 hours ahead of UTC.
    fleet.assert_due("04-06 09:00", &[(NeverCalibrated, "2021-02-28T11:00:00Z", Seeder, SEEDER)]);
    assert_eq!(fleet.readiness("04-06 09:00").state, State::Calibrate);

    fleet.scale_check("04-06 09:30", 10.0, 10.0);
    fleet.calibration("04-06 10:00", caught(WHEAT));
    fleet.assert_due("04-06 10:00", &[]);
}

#[test]
fn a_season_that_began_after_the_calibration_stops_it_until_the_next_catch() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    let season = fleet.season("2027-04-20", None);
    fleet.assert_due("04-19 23:59", &[]);
    fleet.assert_due("04-20 00:00", &[(NewSeason, "04-20 00:00", Season, season)]);
    let due = &fleet.readiness("04-25 12:00").due[0];
    let starts_on = jiff::civil::date(2027, 4, 20);
    assert_eq!(due.detail, Detail::NewSeason { season: SeasonId(season), starts_on });
    fleet.calibration("04-25 13:00", caught(WHEAT));
    fleet.assert_due("04-25 13:00", &[]);
}

#[test]
fn a_season_begins_at_midnight_where_the_farm_is() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    let season = fleet.season("2027-04-20", None);
    for (zone, midnight) in [
        ("Pacific/Auckland", "04-19 12:00"),
        ("Pacific/Kiritimati", "04-19 10:00"),
        ("America/Regina", "04-20 06:00"),
        ("Pacific/Pago_Pago", "04-20 11:00"),
    ] {
        fleet.around.time_zone = TimeZone::get(zone).expect("a zone");
        let just_before = crate::fleet::at(midnight) - jiff::SignedDuration::from_nanos(1);
        fleet.assert_due(&just_before.to_string(), &[]);
        fleet.assert_due(midnight, &[(NewSeason, midnight, Season, season)]);
    }
}

#[test]
fn a_calibration_at_the_stroke_of_midnight_belongs_to_the_season_that_begins() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.season("2027-04-20", None);
    fleet.calibration("04-20 00:00", caught(WHEAT));
    fleet.assert_due("04-20 00:00", &[]);
}

#[test]
fn a_season_for_another_crop_does_not_matter_and_one_for_this_crop_overrides_the_general_one() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.season("2027-04-10", Some(&["barley"]));
    fleet.assert_due("04-11 08:00", &[]);
    let general = fleet.season("2027-04-12", None);
    fleet.assert_due("04-12 08:00", &[(NewSeason, "04-12 00:00", Season, general)]);
    let wheat = fleet.season("2027-04-14", Some(&["rye", " WHEAT "]));
    fleet.assert_due("04-14 08:00", &[(NewSeason, "04-14 00:00", Season, wheat)]);
}

#[test]
fn an_empty_tank_knows_only_seasons_for_all_crops() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.season("2027-04-10", Some(&["wheat"]));
    fleet.emptying("04-11 08:00", WHEAT, true);
    fleet.assert_due("04-11 09:00", &[]);
    let general = fleet.season("2027-04-12", None);
    fleet.assert_due("04-12 09:00", &[(NewSeason, "04-12 00:00", Season, general)]);
}

#[test]
fn another_crop_is_named_and_its_lot_is_not_named_too() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    let fill = fleet.fill("04-08 07:00", BARLEY);
    fleet.assert_due("04-09 07:00", &[(CropChanged, "04-08 07:00", Fill, fill)]);
    let detail = fleet.readiness("04-09 07:00").due.remove(0).detail;
    let crop = Change { from: "Wheat".to_owned(), to: "barley".to_owned() };
    assert_eq!(detail, Detail::CropChanged { crop, lot: Change { from: WHEAT, to: BARLEY } });
    // Wheat again, but the other lot: the crop is no longer another, the lot is, and only since now.
    let fill = fleet.fill("04-10 07:00", OTHER_WHEAT);
    fleet.assert_due("04-10 08:00", &[(LotChanged, "04-10 07:00", Fill, fill)]);
    fleet.fill("04-11 07:00", WHEAT);
    fleet.assert_due("04-11 08:00", &[]);
}

#[test]
fn a_lot_change_holds_from_the_first_other_lot_through_further_ones() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    let third = LotId(uuid::Uuid::from_u128(0xa3));
    fleet.around.lots.insert(third, fleet.around.lots[&WHEAT].clone());
    let first = fleet.fill("04-08 07:00", OTHER_WHEAT);
    fleet.fill("04-09 07:00", third);
    fleet.assert_due("04-09 08:00", &[(LotChanged, "04-08 07:00", Fill, first)]);
    assert_eq!(fleet.readiness("04-09 08:00").due[0].detail, Detail::LotChanged(Change { from: WHEAT, to: third }));
}

#[test]
fn an_empty_tank_breaks_the_difference_and_a_job_can_begin_it() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.fill("04-08 07:00", OTHER_WHEAT);
    fleet.emptying("04-08 08:00", OTHER_WHEAT, true);
    fleet.assert_due("04-08 09:00", &[]);
    let job = fleet.job("04-08 10:00", sown(OTHER_WHEAT));
    fleet.assert_due("04-08 11:00", &[(LotChanged, "04-08 10:00", Job, job)]);
}

#[test]
fn a_held_calibration_tells_which_lot_is_in_the_tank() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    let mut held = caught(OTHER_WHEAT);
    held.standing = Standing::Held;
    let held = fleet.calibration("04-08 08:00", held);
    fleet.assert_due("04-08 09:00", &[(LotChanged, "04-08 08:00", Calibration, held)]);
}

#[test]
fn a_lot_that_is_not_known_is_another_lot() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    let fill = fleet.fill("04-08 07:00", LotId(uuid::Uuid::from_u128(0xff)));
    fleet.assert_due("04-08 08:00", &[(LotChanged, "04-08 07:00", Fill, fill)]);
}

#[test]
fn seed_weight_is_compared_with_what_was_known_at_the_calibration() {
    // Bulk density and thousand-seed weight before the calibration; those of a test after it; whether the latter is due.
    // The policy's default is 3 %.
    let table = [
        ((Some(780.0), None), (Some(803.4), None), false),
        ((Some(780.0), None), (Some(803.5), None), true),
        ((Some(780.0), None), (Some(756.6), None), false),
        ((Some(780.0), None), (Some(756.5), None), true),
        ((None, Some(40.0)), (None, Some(41.2)), false),
        ((None, Some(40.0)), (None, Some(41.3)), true),
        ((Some(780.0), Some(40.0)), (Some(780.0), Some(44.0)), true),
        ((Some(780.0), Some(40.0)), (Some(700.0), None), true),
        ((Some(780.0), None), (None, Some(44.0)), false),
        ((None, None), (Some(700.0), Some(44.0)), false),
    ];
    for (before, after, due) in table {
        let (mut fleet, _) = Fleet::caught_with_wheat();
        fleet.lot_test("02-01 08:00", WHEAT, before.0, before.1);
        let test = fleet.lot_test("04-07 08:00", WHEAT, after.0, after.1);
        fleet.assert_due("04-07 07:59", &[]);
        let expected = [(SeedWeightChanged, "04-07 08:00", LotTest, test)];
        fleet.assert_due("04-07 08:00", if due { &expected } else { &[] });
    }
}

#[test]
fn seed_weight_clears_with_a_test_that_takes_it_back_and_restarts_with_the_next_fill() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.lot_test("02-01 08:00", WHEAT, Some(780.0), Some(40.0));
    let test = fleet.lot_test("04-07 08:00", WHEAT, Some(700.0), None);
    fleet.lot_test("04-07 09:00", WHEAT, None, Some(45.0));
    fleet.assert_due("04-07 10:00", &[(SeedWeightChanged, "04-07 08:00", LotTest, test)]);
    let due = fleet.readiness("04-07 10:00").due.remove(0);
    let expected = Detail::SeedWeightChanged {
        lot: WHEAT,
        bulk_density: Some(Change { from: 780.0, to: 700.0 }),
        thousand_seed_weight: Some(Change { from: 40.0, to: 45.0 }),
        tolerance_percent: 3.0,
    };
    assert_eq!(due.detail, expected);
    fleet.emptying("04-08 08:00", WHEAT, true);
    fleet.assert_due("04-08 09:00", &[]);
    let fill = fleet.fill("04-08 10:00", WHEAT);
    fleet.assert_due("04-08 11:00", &[(SeedWeightChanged, "04-08 10:00", Fill, fill)]);
    fleet.lot_test("04-09 08:00", WHEAT, Some(785.0), Some(40.5));
    fleet.assert_due("04-09 08:00", &[]);
}

#[test]
fn tests_of_another_lot_and_a_wider_tolerance_raise_nothing() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.lot_test("02-01 08:00", WHEAT, Some(780.0), None);
    fleet.lot_test("04-07 08:00", OTHER_WHEAT, Some(500.0), None);
    fleet.assert_due("04-07 09:00", &[]);
    let test = fleet.lot_test("04-08 08:00", WHEAT, Some(741.0), None);
    fleet.assert_due("04-08 09:00", &[(SeedWeightChanged, "04-08 08:00", LotTest, test)]);
    fleet.policy("04-09 08:00", |policy| policy.seed_weight_tolerance_percent = 5.0);
    fleet.assert_due("04-09 08:00", &[]);
    // The policy in force at the moment asked for counts throughout.
    fleet.assert_due("04-09 07:59", &[(SeedWeightChanged, "04-08 08:00", LotTest, test)]);
}
