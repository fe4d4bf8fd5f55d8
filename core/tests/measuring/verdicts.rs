//! Every row of the verdict table, at and around its limits; what is left out; and the words.

use sowmark_core::{
    catch::{Repeat, Sheet},
    circumstances::{Circumstances, Expected, Planned, ScaleFacts, ScaleStanding},
    ids::CalibrationId,
    quantity::{Rate, Speed},
    rate::DriveRange,
    verdict::{Check, CheckName, Judgement, Outcome, Verdict, judge},
};

use crate::sheets::{catch_of, close, grams, plain_circumstances, repeat_of, sheet_of};

/// Three repeats of two runs apart, heavy and alike, on a checked scale: nothing to remark.
fn good_sheet() -> Sheet {
    let repeat = || repeat_of("60.0", vec![catch_of("run 1", 1, "320", "2110"), catch_of("run 2", 1, "320", "2120")]);
    Sheet { repeats: vec![repeat(), repeat(), repeat()] }
}

fn good_circumstances() -> Circumstances {
    Circumstances {
        runs_in_use: 8,
        scale: Some(ScaleFacts {
            readability: grams("1"),
            capacity: grams("15000"),
            last_check: ScaleStanding::PassedWithin,
        }),
        ..plain_circumstances()
    }
}

fn judged(sheet: &Sheet, circumstances: &Circumstances) -> Judgement {
    let judgement = judge(sheet, circumstances).expect("a possible sheet");
    for Check { says, .. } in &judgement.checks {
        assert!(says.ends_with('.') && !says.contains("NaN") && !says.contains("inf"), "{says}");
    }
    judgement
}

fn outcome(judgement: &Judgement, name: CheckName) -> Option<Outcome> {
    judgement.check(name).map(|check| check.outcome)
}

fn masses(nets: &[&str]) -> Sheet {
    sheet_of(&nets.iter().map(|net| ("60.0", "0", *net)).collect::<Vec<_>>())
}

#[test]
fn a_good_catch_passes() {
    use CheckName::{CatchMass, CatchesApart, RepeatAgreement, Repeats, RunUniformity, Uncertainty};
    let judgement = judged(&good_sheet(), &good_circumstances());
    assert_eq!(judgement.verdict, Verdict::Pass);
    close(judgement.factor, (1.790 + 1.800) / 120.0, 1e-14);
    close(judgement.factor_unit_total, 8.0 * judgement.factor, 1e-15);
    let names: Vec<_> = judgement.checks.iter().map(|check| check.check).collect();
    // Neither a roller speed nor an expectation is known, so nothing is said of them.
    assert_eq!(
        names,
        [Repeats, RepeatAgreement, RunUniformity, CatchesApart, CatchMass, Uncertainty, CheckName::Scale]
    );
}

#[test]
fn repeats_are_counted_without_those_set_aside() {
    let mut sheet = good_sheet();
    let set_aside = |repeat: &mut Repeat| repeat.set_aside = Some("spilled".to_owned());
    assert_eq!(outcome(&judged(&sheet, &good_circumstances()), CheckName::Repeats), Some(Outcome::Pass));
    set_aside(&mut sheet.repeats[0]);
    let two = judged(&sheet, &good_circumstances());
    assert_eq!(outcome(&two, CheckName::Repeats), Some(Outcome::Remark));
    assert_eq!(two.verdict, Verdict::PassWithRemarks);
    assert_eq!(two.repeats.iter().map(|repeat| repeat.set_aside).collect::<Vec<_>>(), [true, false, false]);
    set_aside(&mut sheet.repeats[1]);
    let one = judged(&sheet, &good_circumstances());
    assert_eq!(outcome(&one, CheckName::Repeats), Some(Outcome::Fail));
    assert_eq!(one.check(CheckName::Repeats).unwrap().says, "1 repeat kept, at least 2 are asked for: catch again.");
    assert_eq!(one.verdict, Verdict::Fail);
    assert_eq!((one.repeat_spread_percent, outcome(&one, CheckName::RepeatAgreement)), (None, None));
}

#[test]
fn repeats_agree_within_the_limit() {
    let with = |nets: &[&str]| judged(&masses(nets), &good_circumstances());
    // Mean 2000: 100 is exactly the limit of 5 %, 50 exactly half of it.
    for (nets, expected) in [
        (["1975", "2000", "2025"], Outcome::Pass),
        (["1974", "2000", "2026"], Outcome::Remark),
        (["1950", "2000", "2050"], Outcome::Remark),
        (["1949", "2000", "2051"], Outcome::Fail),
    ] {
        assert_eq!(outcome(&with(&nets), CheckName::RepeatAgreement), Some(expected), "{nets:?}");
    }
    let far = with(&["1900", "2000", "2100"]);
    assert_eq!(
        far.check(CheckName::RepeatAgreement).unwrap().says,
        "The repeats differ by 10.0 %; the limit is 5 %. That is more than the scale's rounding explains."
    );
}

#[test]
fn runs_vary_within_the_limit() {
    let with = |low: &str, high: &str| {
        let catches = || vec![catch_of("run 1", 1, "0", low), catch_of("run 2", 1, "0", high)];
        judged(&Sheet { repeats: vec![repeat_of("60.0", catches()); 3] }, &good_circumstances())
    };
    // Of two values, s is their difference over sqrt(2): 14.1 % of the mean is a CV of 9.97 %.
    assert_eq!(outcome(&with("1859", "2141"), CheckName::RunUniformity), Some(Outcome::Pass));
    assert_eq!(outcome(&with("1850", "2150"), CheckName::RunUniformity), Some(Outcome::Remark));
    let far = with("1700", "2300");
    assert_eq!(outcome(&far, CheckName::RunUniformity), Some(Outcome::Fail));
    close(far.run_cv_percent.unwrap(), 30.0 / 2_f64.sqrt(), 1e-13);
    assert_eq!(far.run_differences.iter().map(|run| run.label.as_str()).collect::<Vec<_>>(), ["run 1", "run 2"]);
    close(far.run_differences[0].percent, -15.0, 1e-13);
    assert!(far.check(CheckName::RunUniformity).unwrap().says.contains("Farthest off is run"));
    let (low, high) = far.run_cv_interval_percent.unwrap();
    assert!(low < far.run_cv_percent.unwrap() && far.run_cv_percent.unwrap() < high);
}

#[test]
fn a_run_that_is_always_low_stands_out() {
    let repeat = |second: &str| {
        repeat_of(
            "60.0",
            vec![
                catch_of("run 1", 1, "0", "2000"),
                catch_of("run 2", 1, "0", second),
                catch_of("run 3", 1, "0", "2000"),
            ],
        )
    };
    let judgement = judged(&Sheet { repeats: vec![repeat("1700"), repeat("1760")] }, &good_circumstances());
    let lowest = judgement.run_differences.iter().min_by(|a, b| a.percent.total_cmp(&b.percent)).unwrap();
    assert_eq!(lowest.label, "run 2");
    let of = |x: f64| 100.0 * (x / ((4_000.0 + x) / 3.0) - 1.0);
    close(lowest.percent, f64::midpoint(of(1_700.0), of(1_760.0)), 1e-12);
}

#[test]
fn poured_together_is_a_remark() {
    let mut circumstances = good_circumstances();
    let sheet = Sheet { repeats: vec![repeat_of("60.0", vec![catch_of("all", 8, "500", "14500")]); 3] };
    let judgement = judged(&sheet, &circumstances);
    assert_eq!(outcome(&judgement, CheckName::CatchesApart), Some(Outcome::Remark));
    assert_eq!((judgement.run_cv_percent, outcome(&judgement, CheckName::RunUniformity)), (None, None));
    close(judgement.factor, 14.0 / 480.0, 1e-14);
    circumstances.runs_in_use = 1;
    assert_eq!(outcome(&judged(&masses(&["2000"; 3]), &circumstances), CheckName::CatchesApart), None);
}

#[test]
fn a_catch_must_be_heavy_enough_for_the_scale() {
    let mut circumstances = good_circumstances();
    let with = |net: &str, circumstances: &Circumstances| {
        outcome(&judged(&masses(&[net; 3]), circumstances), CheckName::CatchMass)
    };
    // 1 g over sqrt(6) is 1 % of 40.8 g; below 1 kg the rule of thumb speaks.
    assert_eq!(with("40", &circumstances), Some(Outcome::Fail));
    assert_eq!(with("41", &circumstances), Some(Outcome::Remark));
    assert_eq!(with("999", &circumstances), Some(Outcome::Remark));
    assert_eq!(with("1000", &circumstances), Some(Outcome::Pass));
    // Small seed may be caught in smaller amounts.
    circumstances.thousand_seed_weight_g = Some(4.5);
    assert_eq!(with("199", &circumstances), Some(Outcome::Remark));
    assert_eq!(with("200", &circumstances), Some(Outcome::Pass));
    let says = judged(&masses(&["199"; 3]), &circumstances).check(CheckName::CatchMass).unwrap().says.clone();
    assert_eq!(
        says,
        "The scale's rounding is 0.21 % of a catch, the limit is 1 %: a catch needs 0.0408 kg (0.0900 lb) for that. \
         The smallest holds 0.199 kg (0.439 lb), less than the 0.200 kg (0.441 lb) of the rule of thumb for small seed."
    );
}

#[test]
fn the_uncertainty_has_a_limit() {
    let mut circumstances = good_circumstances();
    let found = judged(&masses(&["2000"; 3]), &circumstances).expanded_uncertainty_percent;
    for (limit, expected) in [
        (found * 2.0, Outcome::Pass),
        (found * 1.9, Outcome::Remark),
        (found, Outcome::Remark),
        (found * 0.99, Outcome::Fail),
    ] {
        circumstances.policy.uncertainty_limit_percent = limit;
        let judgement = judged(&masses(&["2000"; 3]), &circumstances);
        assert_eq!(outcome(&judgement, CheckName::Uncertainty), Some(expected), "{limit}");
    }
    // A value may be above its limit by a billionth, for the last digits of a float, and not by more.
    let near = found / (1.0 + 1e-9);
    let at_the_edge = (0..100).map(|i| near * (1.0 + f64::EPSILON * f64::from(i - 50)));
    let mut exact = 0;
    for limit in at_the_edge {
        circumstances.policy.uncertainty_limit_percent = limit;
        let judgement = judged(&masses(&["2000"; 3]), &circumstances);
        let beyond = found > limit * (1.0 + 1e-9);
        assert_eq!(outcome(&judgement, CheckName::Uncertainty) == Some(Outcome::Fail), beyond, "{limit}");
        exact += u32::from((limit * (1.0 + 1e-9)).to_bits() == found.to_bits());
    }
    assert!(exact > 0, "one of them is the edge itself");
}

#[test]
fn the_roller_speed_fits_drive_and_plan() {
    let mut circumstances = good_circumstances();
    let planned = Planned { rate: Rate::parse_text("140 kg/ha").unwrap(), speed: Speed::parse_text("9 km/h").unwrap() };
    let with = |rpm: Option<f64>, circumstances: &mut Circumstances| {
        circumstances.roller_speed_rpm = rpm;
        let judgement = judged(&good_sheet(), circumstances);
        judgement.check(CheckName::RollerSpeed).cloned()
    };
    assert_eq!(with(Some(50.0), &mut circumstances), None, "neither range nor plan");
    circumstances.drive_range = Some(DriveRange { min_rpm: 10.0, max_rpm: 120.0 });
    assert_eq!(with(Some(120.0), &mut circumstances).unwrap().outcome, Outcome::Pass);
    let fast = with(Some(121.0), &mut circumstances).unwrap();
    assert_eq!((fast.outcome, fast.limit, fast.unit.as_str()), (Outcome::Fail, Some(120.0), "1/min"));
    assert_eq!(fast.says, "Caught at 121 rpm; the drive holds 10.0 rpm to 120 rpm.");
    assert_eq!(with(Some(9.0), &mut circumstances).unwrap().limit, Some(10.0));
    assert_eq!(with(None, &mut circumstances), None, "no roller speed noted");
    // 12.6 kg a minute over 8 runs of 0.0299 kg needs 52.6 rpm; a quarter either way is near enough.
    circumstances.planned = Some(planned);
    let needed = 12.6 / (8.0 * 3.590 / 120.0);
    for (rpm, expected) in [
        (needed * 1.249, Outcome::Pass),
        (needed * 1.26, Outcome::Remark),
        (needed * 0.751, Outcome::Pass),
        (needed * 0.74, Outcome::Remark),
    ] {
        let check = with(Some(rpm), &mut circumstances).unwrap();
        assert_eq!((check.outcome, check.limit, check.unit.as_str()), (expected, Some(25.0), "%"));
    }
    assert_eq!(
        with(Some(42.0), &mut circumstances).unwrap().says,
        "Caught at 42.0 rpm; 140 kg/ha at 9 km/h needs 52.6 rpm, which is 20.2 % away; up to 25 % is near enough."
    );
}

#[test]
fn the_scale_must_stand_its_check() {
    let mut circumstances = good_circumstances();
    for (standing, expected, scale_term) in [
        (ScaleStanding::PassedWithin, Outcome::Pass, 0.5),
        (ScaleStanding::PassedLongAgo, Outcome::Remark, 1.0),
        (ScaleStanding::NeverChecked, Outcome::Remark, 1.0),
        (ScaleStanding::Failed, Outcome::Fail, 1.0),
    ] {
        circumstances.scale.as_mut().expect("a scale").last_check = standing;
        let judgement = judged(&good_sheet(), &circumstances);
        assert_eq!(outcome(&judgement, CheckName::Scale), Some(expected), "{standing:?}");
        close(judgement.budget[2].relative_standard_uncertainty_percent, scale_term / 3_f64.sqrt(), 1e-14);
    }
    circumstances.scale = None;
    assert_eq!(outcome(&judged(&good_sheet(), &circumstances), CheckName::Scale), Some(Outcome::Remark));
}

#[test]
fn the_factor_is_about_what_was_expected() {
    let mut circumstances = good_circumstances();
    let found = judged(&good_sheet(), &circumstances).factor;
    for (ratio, expected) in [
        (1.149, Outcome::Pass),
        (0.851, Outcome::Pass),
        (1.16, Outcome::Remark),
        (0.84, Outcome::Remark),
        (1.5, Outcome::Remark),
        (0.67, Outcome::Remark),
        (1.51, Outcome::Fail),
        (0.66, Outcome::Fail),
    ] {
        let earlier = CalibrationId(uuid::Uuid::nil());
        circumstances.expected = Some(Expected::from_last_calibration(earlier, found / ratio, None));
        let judgement = judged(&good_sheet(), &circumstances);
        assert_eq!(outcome(&judgement, CheckName::Plausibility), Some(expected), "{ratio}");
    }
    // 38 cm³ of seed at 772 kg/m³ is 29.3 g a revolution.
    circumstances.expected = Some(Expected::from_displacement(38e-6, 772.0));
    let says = judged(&good_sheet(), &circumstances).check(CheckName::Plausibility).unwrap().says.clone();
    assert!(says.contains("2.0 % above what the roller's displacement"), "{says}");
}

/// What is stored must read back and judge the same.
#[test]
fn circumstances_and_judgement_are_stored_and_read_back() {
    let mut circumstances = good_circumstances();
    circumstances.planned =
        Some(Planned { rate: Rate::parse_text("125 lb/ac").unwrap(), speed: Speed::parse_text("5,5 mph").unwrap() });
    circumstances.roller_speed_rpm = Some(52.5);
    circumstances.drive_range = Some(DriveRange { min_rpm: 10.0, max_rpm: 120.0 });
    circumstances.expected = Some(Expected::from_last_calibration(CalibrationId(uuid::Uuid::nil()), 0.03, Some(0.875)));
    let sheet = good_sheet();
    let judgement = judged(&sheet, &circumstances);
    let stored = serde_json::to_string(&(&sheet, &circumstances, &judgement)).expect("JSON");
    let (sheet_back, circumstances_back, judgement_back): (Sheet, Circumstances, Judgement) =
        serde_json::from_str(&stored).expect("reads back");
    assert_eq!((&sheet_back, &circumstances_back), (&sheet, &circumstances));
    close(judgement_back.expanded_uncertainty_percent, judgement.expanded_uncertainty_percent, 1e-15);
    let again = judged(&sheet_back, &circumstances_back);
    assert_eq!(again, judgement);
    let json = serde_json::to_value(&judgement).expect("JSON");
    assert_eq!(json["verdict"], "pass");
    assert_eq!(json["checks"][1]["check"], "repeat_agreement");
    assert_eq!(json["checks"][1]["outcome"], "pass");
    assert_eq!(json["budget"][0]["term"], "repeatability");
}
