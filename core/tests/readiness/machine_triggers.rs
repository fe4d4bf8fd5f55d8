//! The setup's and configuration's triggers, `component_replaced` and `calibration_in_doubt`: raised and cleared, since when and by what.

use sowmark_core::{
    basis::Setup,
    quantity::DriveRatio,
    readiness::{
        CauseKind::{Calibration, Configuration, Service, Setup as SetupRecord},
        Change, Detail, Standing, State, Trigger,
        Trigger::{
            CalibrationInDoubt, ComponentReplaced, ConfigurationChanged, CropChanged, DriveRatioChanged, GateChanged,
            RollerChanged,
        },
    },
};

use crate::fleet::{BARLEY, Fleet, OTHER_WHEAT, WHEAT, caught, roller, setup};

fn ratio(text: &str) -> DriveRatio {
    DriveRatio::parse(text).expect("a ratio")
}

#[test]
fn each_part_of_a_setup_has_its_own_trigger_and_clears_when_it_is_put_back() {
    let table: [(Setup, Trigger); 4] = [
        (Setup { roller: roller(2), ..setup() }, RollerChanged),
        (Setup { drive_ratio: ratio("5:3"), ..setup() }, DriveRatioChanged),
        (Setup { gate: Some("13".into()), ..setup() }, GateChanged),
        (Setup { runs: 7, ..setup() }, ConfigurationChanged),
    ];
    for (changed, trigger) in table {
        let (mut fleet, _) = Fleet::caught_with_wheat();
        let cause = fleet.setup("04-07 08:00", changed.clone());
        fleet.assert_due("04-07 07:59", &[]);
        fleet.assert_due("04-07 08:00", &[(trigger, "04-07 08:00", SetupRecord, cause)]);
        assert_eq!(fleet.readiness("04-07 08:00").state, State::Calibrate);
        // Another record of the same setup does not begin it anew.
        fleet.setup("04-07 09:00", changed);
        fleet.assert_due("04-07 10:00", &[(trigger, "04-07 08:00", SetupRecord, cause)]);
        fleet.setup("04-07 11:00", setup());
        fleet.assert_due("04-07 12:00", &[]);
    }
}

#[test]
fn the_same_setup_in_other_words_is_no_change() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.setup("04-07 08:00", Setup { drive_ratio: ratio("10:4"), gate: Some(" 12 ".into()), ..setup() });
    fleet.assert_due("04-07 09:00", &[]);
}

#[test]
fn a_gate_that_is_no_longer_named_has_changed() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    let cause = fleet.setup("04-07 08:00", Setup { gate: Some("  ".into()), ..setup() });
    fleet.assert_due("04-07 09:00", &[(GateChanged, "04-07 08:00", SetupRecord, cause)]);
    let detail = fleet.readiness("04-07 09:00").due.remove(0).detail;
    assert_eq!(detail, Detail::GateChanged(Change { from: Some("12".into()), to: None }));
}

#[test]
fn width_spacing_and_runs_are_one_trigger_that_the_first_of_them_began() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    let wider = fleet.configuration("04-07 08:00", 6.5, 0.125);
    fleet.setup("04-07 09:00", Setup { runs: 7, ..setup() });
    fleet.assert_due("04-07 10:00", &[(ConfigurationChanged, "04-07 08:00", Configuration, wider)]);
    let detail = fleet.readiness("04-07 10:00").due.remove(0).detail;
    let expected = Detail::ConfigurationChanged {
        working_width_m: Some(Change { from: 6.0, to: 6.5 }),
        row_spacing_m: None,
        runs: Some(Change { from: 8, to: 7 }),
    };
    assert_eq!(detail, expected);
    // The width goes back, the runs do not: something has differed all the time.
    fleet.configuration("04-07 11:00", 6.0, 0.125);
    fleet.assert_due("04-07 12:00", &[(ConfigurationChanged, "04-07 08:00", Configuration, wider)]);
    fleet.setup("04-07 13:00", setup());
    fleet.assert_due("04-07 14:00", &[]);
    let spacing = fleet.configuration("04-08 08:00", 6.0, 0.15);
    fleet.assert_due("04-08 09:00", &[(ConfigurationChanged, "04-08 08:00", Configuration, spacing)]);
}

#[test]
fn the_last_bit_of_a_width_is_no_change() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.configuration("04-07 08:00", 6.000_000_000_000_001, 0.125);
    fleet.assert_due("04-07 09:00", &[]);
}

#[test]
fn records_from_before_the_first_configuration_take_the_first_one() {
    let mut fleet = Fleet::new();
    // Registered as commissioned today; yesterday's records are entered as well.
    fleet.history.configurations[0].moment.occurred_at = crate::fleet::at("04-07 00:00");
    fleet.setup("04-06 06:00", setup());
    fleet.scale_check("04-06 06:30", 10.0, 10.0);
    fleet.calibration("04-06 08:00", caught(WHEAT));
    fleet.assert_due("04-06 09:00", &[]);
    fleet.assert_due("04-07 09:00", &[]);
    let wider = fleet.configuration("04-08 08:00", 8.0, 0.125);
    fleet.assert_due("04-08 09:00", &[(ConfigurationChanged, "04-08 08:00", Configuration, wider)]);
}

#[test]
fn the_first_service_that_affects_metering_began_it() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.service("04-05 08:00", true);
    fleet.service("04-07 08:00", false);
    fleet.assert_due("04-07 09:00", &[]);
    let motor = fleet.service("04-08 08:00", true);
    fleet.service("04-09 08:00", true);
    fleet.assert_due("04-09 09:00", &[(ComponentReplaced, "04-08 08:00", Service, motor)]);
    assert_eq!(fleet.readiness("04-09 09:00").due[0].detail, Detail::ComponentReplaced { services: 2 });
    fleet.calibration("04-09 10:00", caught(WHEAT));
    fleet.assert_due("04-09 11:00", &[]);
}

#[test]
fn a_failed_calibration_puts_the_earlier_one_in_doubt_until_one_is_accepted() {
    for standing in [Standing::Held, Standing::Rejected] {
        let (mut fleet, first) = Fleet::caught_with_wheat();
        let mut failed = caught(WHEAT);
        failed.standing = standing;
        let began = fleet.calibration("04-07 08:00", failed);
        fleet.calibration("04-07 09:00", failed);
        fleet.assert_due("04-07 10:00", &[(CalibrationInDoubt, "04-07 08:00", Calibration, began)]);
        let now = fleet.readiness("04-07 10:00");
        assert_eq!(now.due[0].detail, Detail::CalibrationInDoubt { standing });
        assert_eq!((now.in_force, now.compared_with), (None, Some(first.into())));
        let second = fleet.calibration("04-07 11:00", caught(WHEAT));
        fleet.assert_due("04-07 12:00", &[]);
        assert_eq!(fleet.readiness("04-07 12:00").compared_with, Some(second.into()));
    }
}

#[test]
fn a_doubt_on_another_basis_leaves_this_one_alone() {
    type Change = fn(&mut Fleet);
    let failed = || {
        let mut failed = caught(WHEAT);
        failed.standing = Standing::Held;
        failed
    };
    let other_bases: [(Change, Change); 4] = [
        (
            |fleet| {
                fleet.setup("04-07 07:00", Setup { gate: Some("20".into()), ..setup() });
            },
            |fleet| {
                fleet.setup("04-07 09:00", setup());
            },
        ),
        (
            |fleet| {
                fleet.configuration("04-07 07:00", 8.0, 0.125);
            },
            |fleet| {
                fleet.configuration("04-07 09:00", 6.0, 0.125);
            },
        ),
        (
            |fleet| {
                fleet.lot_test("04-01 07:00", WHEAT, Some(780.0), None);
                fleet.lot_test("04-07 07:00", WHEAT, Some(700.0), None);
            },
            |fleet| {
                fleet.lot_test("04-07 09:00", WHEAT, Some(781.0), None);
            },
        ),
        (|_| {}, |_| {}),
    ];
    for (index, (away, back)) in other_bases.into_iter().enumerate() {
        let (mut fleet, first) = Fleet::caught_with_wheat();
        away(&mut fleet);
        let doubt = fleet.calibration("04-07 08:00", failed());
        back(&mut fleet);
        if index == 3 {
            // Nothing differed at the failed one, so it does put the earlier in doubt.
            fleet.assert_due("04-07 10:00", &[(CalibrationInDoubt, "04-07 08:00", Calibration, doubt)]);
        } else {
            fleet.assert_due("04-07 10:00", &[]);
            assert_eq!(fleet.readiness("04-07 10:00").in_force.map(|factor| factor.calibration), Some(first.into()));
        }
    }
}

#[test]
fn a_failed_calibration_of_another_lot_or_season_is_another_basis() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    let mut failed = caught(OTHER_WHEAT);
    failed.standing = Standing::Held;
    fleet.calibration("04-07 08:00", failed);
    fleet.fill("04-07 09:00", WHEAT);
    fleet.assert_due("04-07 10:00", &[]);

    let season = fleet.season("2027-04-10", Some(&["wheat"]));
    failed.lot = WHEAT;
    fleet.calibration("04-11 08:00", failed);
    fleet.assert_due(
        "04-11 09:00",
        &[(Trigger::NewSeason, "04-10 00:00", sowmark_core::readiness::CauseKind::Season, season)],
    );
}

#[test]
fn a_calibration_whose_setup_was_voided_fits_nothing() {
    let mut fleet = Fleet::new();
    fleet.scale_check("04-06 06:00", 10.0, 10.0);
    let calibration = fleet.calibration("04-06 08:00", caught(WHEAT));
    fleet.assert_due("04-06 09:00", &[(RollerChanged, "04-06 08:00", Calibration, calibration)]);
    fleet.setup("04-06 10:00", setup());
    fleet.assert_due("04-06 11:00", &[(RollerChanged, "04-06 08:00", Calibration, calibration)]);
    let detail = fleet.readiness("04-06 11:00").due.remove(0).detail;
    assert_eq!(detail, Detail::RollerChanged(Change { from: None, to: Some(roller(1)) }));
}

#[test]
fn several_triggers_come_in_the_order_of_the_table() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    let service = fleet.service("04-07 08:00", true);
    let width = fleet.configuration("04-07 09:00", 8.0, 0.2);
    let other = Setup { roller: roller(2), drive_ratio: ratio("3"), gate: None, ..setup() };
    let change = fleet.setup("04-07 10:00", other);
    let fill = fleet.fill("04-07 11:00", BARLEY);
    let season = fleet.season("2027-04-08", None);
    fleet.assert_due(
        "04-08 12:00",
        &[
            (Trigger::NewSeason, "04-08 00:00", sowmark_core::readiness::CauseKind::Season, season),
            (CropChanged, "04-07 11:00", sowmark_core::readiness::CauseKind::Fill, fill),
            (RollerChanged, "04-07 10:00", SetupRecord, change),
            (DriveRatioChanged, "04-07 10:00", SetupRecord, change),
            (GateChanged, "04-07 10:00", SetupRecord, change),
            (ConfigurationChanged, "04-07 09:00", Configuration, width),
            (ComponentReplaced, "04-07 08:00", Service, service),
        ],
    );
}
