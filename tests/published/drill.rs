//! A drill calibration worked in a textbook, from the catches to the rate.

use std::f64::consts::PI;

use sowmark_core::{
    quantity::{DriveRatio, from_si, unit},
    rate::{DriveRange, GroundDrive, Metering},
    verdict::{CheckName, Outcome, Verdict, judge},
};

use crate::sheets::{catch_of, close, plain_circumstances, repeat_of};

const GRAMS: [&str; 12] =
    ["22.6", "22.4", "22.0", "22.9", "22.7", "22.6", "22.0", "22.8", "22.8", "22.7", "22.6", "22.8"];

/// Source: a textbook chapter on calibrating equipment ("Metric problems"; probably Field and Solie, Introduction to
/// Agricultural Engineering Technology): twelve units caught standing, 50 wheel turns, wheel 80 cm, 0.20 m spacing,
/// wanted 9.0 kg/ha. Printed: total 270.9 g, mean 22.575 g, limits of plus and minus 5 % 21.4 and 23.7 g, rate 8.9 kg/ha (truncated
/// from 8.982), acceptable.
#[test]
fn twelve_units_caught_standing() {
    let catches = (1..).zip(GRAMS).map(|(run, grams)| catch_of(&format!("unit {run}"), 1, "0", grams)).collect();
    let sheet = sowmark_core::catch::Sheet { repeats: vec![repeat_of("50", catches)] };
    let mut circumstances = plain_circumstances();
    circumstances.runs_in_use = 25;
    circumstances.working_width_m = 5.0;
    circumstances.drive_ratio = DriveRatio::parse("1").unwrap();
    let judgement = judge(&sheet, &circumstances).expect("a possible sheet");

    close(judgement.repeats[0].caught_kg, 0.2709, 1e-13);
    close(judgement.factor, 0.000_451_5, 1e-13);
    close(12.0 * judgement.factor, 0.005_418, 1e-13);
    assert!((judgement.run_cv_percent.unwrap() - 1.323_86).abs() < 1e-5);
    let differences = || judgement.run_differences.iter().map(|run| run.percent);
    assert!((differences().fold(f64::INFINITY, f64::min) - -2.547).abs() < 5e-4);
    assert!((differences().fold(f64::NEG_INFINITY, f64::max) - 1.440).abs() < 5e-4);
    assert!(differences().all(|percent| percent.abs() < 5.0), "every unit lies within the printed limits");
    let of_mean = |share: f64| 22.575 * share;
    assert!((of_mean(0.95) - 21.4).abs() < 0.05 && (of_mean(1.05) - 23.7).abs() < 0.05);

    let metering = Metering { factor: judgement.factor, runs_in_use: 25, working_width_m: 5.0 };
    let wheel = GroundDrive { ratio: circumstances.drive_ratio.value(), rolling_circumference_m: 0.8 * PI };
    let rate = from_si(metering.ground_rate(wheel).unwrap(), unit::KG_PER_HA);
    assert!((rate - 8.982_31).abs() < 1e-5, "{rate}");
    assert!((0.95 * 9.0..=1.05 * 9.0).contains(&rate), "the textbook accepts it");
    // The area of fifty turns over twelve rows.
    close(wheel.turns_for_area(301.592_894_744_6, 12.0 * 0.20).unwrap(), 50.0, 1e-12);

    assert_eq!(judgement.check(CheckName::RunUniformity).map(|check| check.outcome), Some(Outcome::Pass));
    assert_eq!(judgement.check(CheckName::CatchesApart).map(|check| check.outcome), Some(Outcome::Pass));
    // One repeat of 22 g catches is not enough for us, and we say why.
    assert_eq!(judgement.verdict, Verdict::Fail);
    assert_eq!(judgement.check(CheckName::Repeats).map(|check| check.outcome), Some(Outcome::Fail));
}

/// Source: the same, units 1 to 4 alone (derived from its data).
#[test]
fn four_of_the_twelve_units() {
    let catches = (1..).zip(&GRAMS[..4]).map(|(run, grams)| catch_of(&format!("unit {run}"), 1, "0", grams)).collect();
    let sheet = sowmark_core::catch::Sheet { repeats: vec![repeat_of("50", catches)] };
    let mut circumstances = plain_circumstances();
    circumstances.runs_in_use = 25;
    let judgement = judge(&sheet, &circumstances).expect("a possible sheet");
    assert!((judgement.run_cv_percent.unwrap() - 1.679_61).abs() < 1e-5);
    let metering = Metering { factor: judgement.factor, runs_in_use: 25, working_width_m: 5.0 };
    let wheel = GroundDrive { ratio: 1.0, rolling_circumference_m: 0.8 * PI };
    assert!((from_si(metering.ground_rate(wheel).unwrap(), unit::KG_PER_HA) - 8.942_52).abs() < 1e-5);
}

/// Source: arithmetic of the trade, `R w v / 600` in kg/min; the inverse ranges must meet the drive's ends.
#[test]
fn roller_speed_and_its_ranges() {
    let metering = Metering { factor: 0.0298, runs_in_use: 8, working_width_m: 6.0 };
    let (rate, speed) = (140.0 / 10_000.0, 9.0 / 3.6);
    let needed = metering.roller_speed_rpm(rate, speed).unwrap();
    close(needed, 140.0 * 6.0 * 9.0 / 600.0 / (0.0298 * 8.0), 1e-14);
    let drive = DriveRange { min_rpm: 10.0, max_rpm: 120.0 };
    assert!(drive.holds(needed) && !drive.holds(121.0) && !drive.holds(f64::NAN));
    let speeds = metering.speed_range(rate, drive).unwrap();
    close(metering.roller_speed_rpm(rate, speeds.min).unwrap(), 10.0, 1e-14);
    close(metering.roller_speed_rpm(rate, speeds.max).unwrap(), 120.0, 1e-14);
    let rates = metering.rate_range(speed, drive).unwrap();
    close(metering.roller_speed_rpm(rates.min, speed).unwrap(), 10.0, 1e-14);
    close(metering.roller_speed_rpm(rates.max, speed).unwrap(), 120.0, 1e-14);
    let nothing = Metering { factor: 0.0, ..metering };
    assert_eq!(nothing.roller_speed_rpm(rate, speed), None);
    assert_eq!(metering.speed_range(0.0, drive), None);
    assert_eq!(metering.rate_range(f64::NAN, drive), None);
}
