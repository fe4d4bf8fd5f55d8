//! Roller speeds for many rates and driving speeds.

use proptest::{collection::vec, prelude::*};
use sowmark_core::rate::{DriveRange, Metering, steps_around};

use crate::HOSTILE;

const UNIT: Metering = Metering { factor: 0.03, runs_in_use: 8, working_width_m: 6.0 };

proptest! {
    #[test]
    fn a_cell_is_the_roller_speed_or_blank(
        rates in vec(0.0005..0.05, 0..6), speeds in vec(0.5..6.0, 0..6), min in 1.0..60.0, wide in 1.0..100.0
    ) {
        let drive = DriveRange { min_rpm: min, max_rpm: min + wide };
        let table = UNIT.table(&rates, &speeds, Some(drive));
        prop_assert_eq!(table.rows.len(), rates.len());
        for (row, rate) in table.rows.iter().zip(&rates) {
            prop_assert_eq!(row.len(), speeds.len());
            for (cell, speed) in row.iter().zip(&speeds) {
                let rpm = UNIT.roller_speed_rpm(*rate, *speed).unwrap();
                prop_assert_eq!(*cell, drive.holds(rpm).then_some(rpm));
            }
        }
        let free = UNIT.table(&rates, &speeds, None);
        prop_assert!(!free.has_blanks());
        prop_assert_eq!((&free.rates, &free.speeds), (&rates, &speeds));
    }
}

proptest! {
    #[test]
    fn steps_are_even_and_hold_their_middle(value in 0.001..100_000.0, share in 0.05..0.2) {
        let steps = steps_around(value, share);
        prop_assert_eq!(steps.len(), 5);
        prop_assert_eq!(steps[2], value);
        let step = steps[3] - steps[2];
        prop_assert!(steps.windows(2).all(|pair| (pair[1] - pair[0] - step).abs() <= 1e-9 * value));
        prop_assert!((0.6..1.7).contains(&(step / (value * share))), "{step} of {}", value * share);
    }
}

#[test]
fn steps_below_nothing_are_left_out() {
    assert_eq!(steps_around(10.0, 0.5), [5.0, 10.0, 15.0, 20.0]);
    for bad in HOSTILE {
        assert!(steps_around(bad, 0.1).is_empty() || bad == f64::MAX, "{bad}");
        assert!(steps_around(1.0, bad).iter().all(|step| step.is_finite()));
    }
}

/// 120 kg/ha at 9 km/h needs 45 rpm: a drive that ends there holds it, one that ends just before does not.
#[test]
fn the_ends_of_the_drive_are_held() {
    let needed = UNIT.roller_speed_rpm(0.012, 2.5).unwrap();
    let cell = |min_rpm, max_rpm| UNIT.table(&[0.012], &[2.5], Some(DriveRange { min_rpm, max_rpm })).rows[0][0];
    assert_eq!(cell(needed, 120.0), Some(needed));
    assert_eq!(cell(1.0, needed), Some(needed));
    assert_eq!(cell(needed + 1e-9, 120.0), None);
    assert_eq!(cell(1.0, needed - 1e-9), None);
}

#[test]
fn hostile_numbers_are_blank() {
    let drive = Some(DriveRange { min_rpm: 0.0, max_rpm: 1e9 });
    for bad in HOSTILE.into_iter().filter(|bad| *bad != f64::MAX) {
        for drive in [None, drive] {
            let table = UNIT.table(&[bad, 0.012], &[2.5, bad], drive);
            assert_eq!(table.rows[0], [None, None], "{bad}");
            assert!(table.rows[1][0].is_some() && table.rows[1][1].is_none());
            assert!(table.has_blanks());
        }
    }
    assert_eq!(UNIT.table(&[f64::MAX], &[f64::MAX], None).rows[0][0], None);
    let nothing = Metering { factor: 0.0, ..UNIT };
    assert_eq!(nothing.table(&[0.012], &[2.5], None).rows[0][0], None);
}

/// By hand: a tenth of the value, to the nearest of 1, 2, 5 and 10 as a ratio (limits 1.414, 3.162, 7.071).
#[test]
fn steps_are_the_nearest_round_ones() {
    for (value, step) in [
        (10.0, 1.0),
        (14.0, 1.0),
        (14.2, 2.0),
        (31.0, 2.0),
        (32.0, 5.0),
        (70.0, 5.0),
        (71.0, 10.0),
        (99.0, 10.0),
        (1e-6, 1e-7),
        (0.2, 0.02),
    ] {
        let steps = steps_around(value, 0.1);
        assert_eq!(steps.len(), 5, "{value}");
        for (position, found) in (-2..=2).zip(&steps) {
            let expected = value + f64::from(position) * step;
            assert!((found / expected - 1.0).abs() < 1e-9, "{value}: {found}, not {expected}");
        }
    }
    // Half of 1 is a step of 0.5: one of the five is nothing, and left out.
    assert_eq!(steps_around(1.0, 0.5), [0.5, 1.0, 1.5, 2.0]);
}

/// Half way, as a ratio, the larger step is as near as the smaller; the larger is taken.
#[test]
fn half_way_between_two_steps() {
    for (value, step) in [(2_f64.sqrt(), 2.0), (10_f64.sqrt(), 5.0), (50_f64.sqrt(), 10.0)] {
        let steps = steps_around(value, 1.0);
        let middle = steps.iter().position(|step| *step == value).unwrap();
        assert!((steps[middle + 1] - value - step).abs() < 1e-12, "{value}: {steps:?}");
    }
}

/// Less than nothing times less than nothing is no rate.
#[test]
fn backwards_at_less_than_nothing_is_blank() {
    assert_eq!(UNIT.table(&[-0.012], &[-2.5], None).rows, [[None]]);
}
