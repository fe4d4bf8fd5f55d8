//! Twelve metering units caught standing: the most complete example of a drill's calibration that is published.
//!
//! "Metric problems", a chapter on calibrating equipment; by its headings the text of Field and Solie, Introduction to
//! Agricultural Engineering Technology. Drill of 25 units, rows of 0.20 m, wheel of 80 cm, 50 wheel turns, 9.0 kg/ha wanted.

use std::f64::consts::PI;

use sowmark_core::{
    quantity::DriveRatio,
    rate::{GroundDrive, Metering},
    verdict::{CheckName, Judgement, Outcome, Verdict, judge},
};

use crate::{
    check::{Seen, Source, check},
    reckon::{kg_per_ha, turns_for},
    sheets::{catch_of, plain_circumstances, repeat_of},
};

const GRAMS: [&str; 12] =
    ["22.6", "22.4", "22.0", "22.9", "22.7", "22.6", "22.0", "22.8", "22.8", "22.7", "22.6", "22.8"];

fn judged(grams: &[&str]) -> Judgement {
    let catches = (1..).zip(grams).map(|(unit, grams)| catch_of(&format!("unit {unit}"), 1, "0", grams)).collect();
    let sheet = sowmark_core::catch::Sheet { repeats: vec![repeat_of("50", catches)] };
    let mut circumstances = plain_circumstances();
    circumstances.runs_in_use = 25;
    circumstances.working_width_m = 5.0;
    circumstances.drive_ratio = DriveRatio::parse("1").expect("a ratio");
    judge(&sheet, &circumstances).expect("a possible sheet")
}

fn rate(judgement: &Judgement) -> f64 {
    let metering = Metering { factor: judgement.factor, runs_in_use: 25, working_width_m: 5.0 };
    let wheel = GroundDrive { ratio: 1.0, rolling_circumference_m: 0.8 * PI };
    kg_per_ha(metering.ground_rate(wheel).expect("a rate"))
}

pub(crate) fn source() -> Source {
    let all = judged(&GRAMS);
    let four = judged(&GRAMS[..4]);
    let total_g = 1_000.0 * all.repeats[0].caught_kg;
    let mean_g = 1_000.0 * 50.0 * all.factor;
    let percents = || all.run_differences.iter().map(|run| run.percent);
    let lowest = percents().fold(f64::INFINITY, f64::min);
    let highest = percents().fold(f64::NEG_INFINITY, f64::max);
    let per_unit = "12 catches of one unit, 50 turns";
    let checks = vec![
        check("total", per_unit, total_g).prints("270.9 g").exactly(270.9),
        check("mean of a unit", per_unit, mean_g).prints("22.575 g").exactly(22.575),
        check("lower limit of a unit, mean less 5 %", per_unit, 0.95 * mean_g).prints("21.4 g").exactly(21.446_25),
        check("upper limit of a unit, mean plus 5 %", per_unit, 1.05 * mean_g).prints("23.7 g").exactly(23.703_75),
        check("rate", "wheel 0.80 m, rows 0.20 m", rate(&all))
            .prints("8.9 kg/ha")
            .exactly(8.982_307_100_748_843)
            .differs("the source cuts 8.98 to 8.9; rounded it is 9.0"),
        check("CV of the units, n - 1", per_unit, all.run_cv_percent.expect("twelve")).exactly(1.323_860_358_665_278_3),
        check("lightest unit, percent of the mean", per_unit, lowest).exactly(-2.547_065_337_763_012),
        check("heaviest unit, percent of the mean", per_unit, highest).exactly(1.439_645_625_692_137_3),
        check("g a wheel turn of one unit", per_unit, 1_000.0 * all.factor).exactly(0.451_5),
        check("g a wheel turn of twelve", per_unit, 12_000.0 * all.factor).exactly(5.418),
        check("CV of units 1 to 4", "22.6 22.4 22.0 22.9 g", four.run_cv_percent.expect("four"))
            .exactly(1.679_607_215_855_561_7),
        check("rate of units 1 to 4", "22.6 22.4 22.0 22.9 g", rate(&four)).exactly(8.942_518_364_975_87),
        check("turns for the area of twelve rows", "301.593 m²", turns_for(301.592_894_744_620_15, 2.4, 0.8 * PI))
            .prints("50 turns")
            .exactly(50.0),
    ];
    Source {
        title: "a textbook's metric problems",
        address: "https://www.progressivegardening.com/agricultural-engineering-2/metric-problems-ism.html",
        seen: Seen::Read,
        checks,
    }
}

/// The textbook accepts rate and distribution; so do we, but not a single repeat of 22 g.
#[test]
fn the_textbook_accepts_what_we_hold() {
    let judgement = judged(&GRAMS);
    assert!((0.95 * 9.0..=1.05 * 9.0).contains(&rate(&judgement)), "rate acceptable");
    assert!(judgement.run_differences.iter().all(|run| run.percent.abs() < 5.0), "distribution acceptable");
    let outcome = |name| judgement.check(name).map(|check| check.outcome);
    assert_eq!(outcome(CheckName::RunUniformity), Some(Outcome::Pass));
    assert_eq!(outcome(CheckName::CatchesApart), Some(Outcome::Pass));
    assert_eq!(outcome(CheckName::Repeats), Some(Outcome::Fail));
    assert_eq!(judgement.verdict, Verdict::Fail);
}
