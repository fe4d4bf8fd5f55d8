//! Sheets and circumstances that the tests start from, and how near is near enough.

use sowmark_core::{
    catch::{Catch, Repeat, Revolutions, Sheet},
    circumstances::{Circumstances, Clues},
    policy::Policy,
    quantity::{Decimal, DriveRatio, Mass},
};

/// Equal but for `tolerance`, relative to what is expected.
#[track_caller]
pub(crate) fn close(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance * expected.abs(),
        "{found:?} is not {expected:?} within {tolerance:e}; off by {:e}",
        (found - expected) / expected
    );
}

pub(crate) fn grams(value: &str) -> Mass {
    Mass::new(Decimal::parse(value).expect("a decimal"), "g").expect("grams")
}

pub(crate) fn catch_of(label: &str, runs: u32, tare: &str, gross: &str) -> Catch {
    Catch { label: Some(label.to_owned()), runs, tare: grams(tare), gross: grams(gross) }
}

pub(crate) fn repeat_of(revolutions: &str, catches: Vec<Catch>) -> Repeat {
    let revolutions = Revolutions::Counted(Decimal::parse(revolutions).expect("a decimal"));
    Repeat { revolutions, catches, set_aside: None }
}

/// One repeat of one single-run catch for each (revolutions, tare in g, gross in g).
pub(crate) fn sheet_of(catches: &[(&str, &str, &str)]) -> Sheet {
    let repeat = |&(revolutions, tare, gross): &_| repeat_of(revolutions, vec![catch_of("run 1", 1, tare, gross)]);
    Sheet { repeats: catches.iter().map(repeat).collect() }
}

/// One run, nothing known besides, default policy.
pub(crate) fn plain_circumstances() -> Circumstances {
    Circumstances {
        runs_in_use: 1,
        drive_ratio: DriveRatio::parse("1").expect("a ratio"),
        drive_range: None,
        roller_speed_rpm: None,
        planned: None,
        working_width_m: 6.0,
        scale: None,
        thousand_seed_weight_g: None,
        expected: None,
        policy: Policy::default(),
        clues: Clues::default(),
    }
}
