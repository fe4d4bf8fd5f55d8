//! Every limit of a sheet and its circumstances, exactly at it and just beyond.

use sowmark_core::{
    catch::{MAX_CATCHES, MAX_REPEATS, Pointer, Revolutions, Sheet},
    circumstances::{Circumstances, Clues, Expected, ExpectedSource, OtherRoller, Planned, ScaleFacts, ScaleStanding},
    factor::{Measured, MeasuredCatch, MeasuredRepeat, measure},
    ids::{CalibrationId, RollerId},
    quantity::{Decimal, Mass, Rate, Speed},
    rate::DriveRange,
    uncertainty::budget,
    verdict::{CheckName, judge, judge_measured},
    words::Words,
};

use crate::sheets::{catch_of, close, grams, plain_circumstances, repeat_of, sheet_of};

fn faults(sheet: &Sheet, circumstances: &Circumstances) -> Vec<String> {
    let findings = judge(sheet, circumstances).err().unwrap_or_default();
    findings.iter().map(|finding| finding.at.to_string()).collect()
}

fn nothing() -> Vec<String> {
    Vec::new()
}

#[test]
fn the_most_that_a_sheet_may_hold_is_taken() {
    let mut circumstances = plain_circumstances();
    circumstances.runs_in_use = 200;
    let most = Sheet { repeats: vec![repeat_of("60", vec![catch_of("a", 1, "0", "2000"); MAX_CATCHES])] };
    assert_eq!(faults(&most, &circumstances), nothing());
    assert_eq!(faults(&sheet_of(&[("60", "0", "2000"); MAX_REPEATS]), &circumstances), nothing());
    assert_eq!(faults(&sheet_of(&[("1000000", "0", "2000")]), &circumstances), nothing());
    assert_eq!(faults(&sheet_of(&[("1000000.1", "0", "2000")]), &circumstances), ["/repeats/0/revolutions"]);
    circumstances.runs_in_use = 199;
    assert_eq!(faults(&most, &circumstances), ["/repeats/0/catches"], "one run more than are in use");
}

#[test]
fn the_heaviest_reading_is_taken() {
    let circumstances = plain_circumstances();
    // 100 t, in g.
    assert_eq!(faults(&sheet_of(&[("60", "0", "100000000")]), &circumstances), nothing());
    assert_eq!(faults(&sheet_of(&[("60", "0", "100000001")]), &circumstances), ["/repeats/0/catches/0/gross"]);
    // The heaviest tare leaves no room for seed, but is no fault of its own.
    let tare_at_limit = sheet_of(&[("60", "100000000", "100000001")]);
    assert_eq!(faults(&tare_at_limit, &circumstances), ["/repeats/0/catches/0/gross"]);
    let tare_beyond = sheet_of(&[("60", "100000001", "100000002")]);
    assert_eq!(
        faults(&tare_beyond, &circumstances),
        ["/repeats/0/catches/0/tare", "/repeats/0/catches/0/gross"],
        "each fault at its field"
    );
}

#[test]
fn a_scale_may_be_loaded_to_its_capacity() {
    let mut circumstances = plain_circumstances();
    circumstances.scale =
        Some(ScaleFacts { readability: grams("1"), capacity: grams("5000"), last_check: ScaleStanding::PassedWithin });
    assert_eq!(faults(&sheet_of(&[("60", "300", "5000")]), &circumstances), nothing());
    assert_eq!(faults(&sheet_of(&[("60", "300", "5000.1")]), &circumstances), ["/repeats/0/catches/0/gross"]);
}

/// A repeat set aside may have caught nothing, but not less than nothing.
#[test]
fn less_than_nothing_is_a_fault_even_when_set_aside() {
    let circumstances = plain_circumstances();
    let mut sheet = sheet_of(&[("60", "0", "2000"), ("60", "320", "320")]);
    sheet.repeats[1].set_aside = Some("plugged".to_owned());
    assert_eq!(faults(&sheet, &circumstances), nothing());
    sheet.repeats[1].catches[0].gross = grams("319");
    assert_eq!(faults(&sheet, &circumstances), ["/repeats/1/catches/0/gross"]);
}

/// Every fault of the circumstances, one at a time and at zero.
#[test]
fn circumstances_at_zero_are_faults() {
    let good = plain_circumstances;
    let with = |change: fn(&mut Circumstances)| {
        let mut circumstances = good();
        change(&mut circumstances);
        circumstances.check().iter().map(|finding| finding.at.to_string()).collect::<Vec<_>>()
    };
    assert_eq!(with(|_| ()), nothing());
    assert_eq!(with(|circumstances| circumstances.working_width_m = 0.0), ["/working_width_m"]);
    assert_eq!(with(|circumstances| circumstances.roller_speed_rpm = Some(0.0)), ["/roller_speed_rpm"]);
    assert_eq!(with(|circumstances| circumstances.roller_speed_rpm = Some(f64::INFINITY)), ["/roller_speed_rpm"]);
    assert_eq!(with(|circumstances| circumstances.thousand_seed_weight_g = Some(0.0)), ["/thousand_seed_weight_g"]);
    assert_eq!(with(|circumstances| circumstances.thousand_seed_weight_g = Some(1e-9)), nothing());
    let drive = |min_rpm, max_rpm| {
        let circumstances = Circumstances { drive_range: Some(DriveRange { min_rpm, max_rpm }), ..good() };
        circumstances.check().len()
    };
    assert_eq!((drive(0.0, 120.0), drive(50.0, 50.0)), (0, 0), "from standstill; a single speed");
    assert_eq!((drive(-1.0, 10.0), drive(0.0, 0.0), drive(10.0, 9.9)), (1, 1, 1));
    assert_eq!((drive(f64::NAN, 10.0), drive(0.0, f64::NAN), drive(0.0, f64::INFINITY)), (1, 1, 1));
    let says = Circumstances { drive_range: Some(DriveRange { min_rpm: 120.0, max_rpm: 10.0 }), ..good() }.check();
    assert_eq!(
        says[0].to_string(),
        "/drive_range: a drive range from 120 to 10 rpm; the least must not be above the most"
    );
}

#[test]
fn only_a_density_ratio_that_can_be_so_moves_an_expectation() {
    let id = CalibrationId(uuid::Uuid::nil());
    for (ratio, expected, kept) in [
        (Some(0.9), 0.027, Some(0.9)),
        (None, 0.030, None),
        (Some(0.0), 0.030, None),
        (Some(-0.9), 0.030, None),
        (Some(f64::INFINITY), 0.030, None),
        (Some(f64::NAN), 0.030, None),
    ] {
        let found = Expected::from_last_calibration(id, 0.030, ratio);
        close(found.factor, expected, 1e-15);
        assert_eq!(found.source, ExpectedSource::LastCalibration { calibration_id: id, density_ratio: kept });
    }
}

fn measured(revolutions: f64, nets: &[f64]) -> MeasuredRepeat {
    let catch = |net_kg: &f64| MeasuredCatch {
        label: "run".to_owned(),
        runs: 1,
        net_kg: *net_kg,
        rounding_variance: 1e-6 / 6.0,
    };
    MeasuredRepeat { revolutions, revolution_step: 0.1, catches: nets.iter().map(catch).collect(), set_aside: false }
}

/// Numbers that no checked sheet has, as a search for slips may try them.
#[test]
fn numbers_that_give_no_factor_give_no_judgement() {
    let circumstances = plain_circumstances();
    let none = |repeats: Vec<MeasuredRepeat>| {
        let measured = Measured { repeats };
        assert_eq!(judge_measured(&measured, &circumstances, Words::default()), None, "{measured:?}");
        budget::of(&measured, &circumstances, Words::default())
    };
    assert_eq!(none(vec![]), None);
    assert_eq!(none(vec![measured(60.0, &[0.0])]), None, "no seed");
    assert_eq!(none(vec![measured(60.0, &[-2.0])]), None, "less than none");
    assert_eq!(none(vec![measured(0.0, &[2.0])]), None, "no revolutions");
    assert_eq!(none(vec![measured(-60.0, &[2.0])]), None, "backwards");
    let aside = MeasuredRepeat { set_aside: true, ..measured(60.0, &[2.0]) };
    assert_eq!(none(vec![aside]), None, "all set aside");
    // A repeat set aside is kept with its own factor, which must be a number.
    let broken = MeasuredRepeat { set_aside: true, ..measured(0.0, &[2.0]) };
    none(vec![measured(60.0, &[2.0]), broken]);
    none(vec![measured(1e-300, &[1e300])]);
    let good = Measured { repeats: vec![measured(60.0, &[2.0])] };
    assert!(judge_measured(&good, &circumstances, Words::default()).is_some());
}

#[test]
fn runs_are_compared_where_there_are_two_with_seed() {
    let differences = |nets: &[f64]| {
        let repeat = measured(60.0, nets);
        repeat.run_differences_percent().into_iter().map(|(_, percent)| percent).collect::<Vec<_>>()
    };
    assert!(differences(&[2.0]).is_empty());
    assert!(differences(&[]).is_empty());
    assert!(differences(&[0.0, 0.0]).is_empty());
    assert!(differences(&[-1.0, -3.0]).is_empty());
    assert_eq!(differences(&[1.0, 3.0]), [-50.0, 50.0]);
    let single = judge(&sheet_of(&[("60", "0", "2000"); 3]), &plain_circumstances()).expect("a possible sheet");
    assert_eq!(single.run_differences, []);
}

/// Without a scale, each reading is as fine as it was written; a tare of zero was read off the gross's display.
#[test]
fn each_reading_has_its_own_step() {
    let variance = |tare: &str, gross: &str| {
        let sheet = sheet_of(&[("60", tare, gross)]);
        measure(&sheet, &plain_circumstances()).repeats[0].catches[0].rounding_variance
    };
    let of = |gross_step: f64, tare_step: f64| (gross_step.powi(2) + tare_step.powi(2)) / 12.0 * 1e-6;
    close(variance("0", "2000.0"), of(0.1, 0.1), 1e-12);
    close(variance("320.5", "2110"), of(1.0, 0.1), 1e-12);
    close(variance("320", "2110.05"), of(0.01, 1.0), 1e-12);
}

#[test]
fn a_catch_without_a_label_goes_by_its_place() {
    let mut sheet = sheet_of(&[("60", "0", "2000")]);
    let mut second = sheet.repeats[0].catches[0].clone();
    second.label = Some("  ".to_owned());
    sheet.repeats[0].catches.push(second.clone());
    second.label = Some(" run 7 ".to_owned());
    sheet.repeats[0].catches.push(second.clone());
    second.label = None;
    sheet.repeats[0].catches.push(second);
    let labels = measure(&sheet, &plain_circumstances()).repeats.remove(0).catches.into_iter().map(|catch| catch.label);
    assert_eq!(labels.collect::<Vec<_>>(), ["run 1", "catch 2", "run 7", "catch 4"]);
}

/// Two repeats of 10 and of 30 revolutions, brought to the mean of 20, with rounding to 1 g: its variance there is
/// `(2² + (2/3)²) / 2 / 6 = 0.3704 g²`, so that they may differ by `sqrt(2 x 3.8415 x 0.3704) = 1.687 g`.
#[test]
fn rounding_is_scaled_with_the_revolutions() {
    let rounding = |second: &str| {
        let mut circumstances = plain_circumstances();
        circumstances.scale = Some(ScaleFacts {
            readability: grams("1"),
            capacity: grams("15000"),
            last_check: ScaleStanding::PassedWithin,
        });
        let sheet = sheet_of(&[("10", "0", "1000"), ("30", "0", second)]);
        judge(&sheet, &circumstances).expect("a possible sheet").scatter_is_rounding
    };
    assert!(rounding("3002.1"), "1.4 g apart");
    assert!(rounding("3002.5"), "1.667 g apart");
    assert!(!rounding("3002.55"), "1.7 g apart");
    assert!(!rounding("2997.3"), "1.8 g apart, the other way");
}

#[test]
fn two_runs_in_use_can_be_compared_and_one_cannot() {
    let with = |runs: u32| {
        let mut circumstances = plain_circumstances();
        circumstances.runs_in_use = runs;
        let judgement = judge(&sheet_of(&[("60", "0", "2000"); 3]), &circumstances).expect("a possible sheet");
        judgement.check(CheckName::CatchesApart).map(|check| (check.value, check.limit, check.unit.clone()))
    };
    assert_eq!(with(1), None);
    assert_eq!(with(2), Some((Some(1.0), Some(2.0), "catches".to_owned())));
}

/// Seed of exactly the limit is not small.
#[test]
fn small_seed_is_lighter_than_the_limit() {
    let with = |weight: f64| {
        let mut circumstances = plain_circumstances();
        circumstances.thousand_seed_weight_g = Some(weight);
        let judgement = judge(&sheet_of(&[("60", "0", "500"); 3]), &circumstances).expect("a possible sheet");
        judgement.check(CheckName::CatchMass).expect("always").says.contains("rule of thumb")
    };
    assert!(with(10.0), "500 g are less than the kilogram");
    assert!(!with(9.99), "but more than the 200 g of small seed");
}

#[test]
fn a_plan_of_nothing_asks_for_no_roller_speed() {
    let mut circumstances = plain_circumstances();
    circumstances.roller_speed_rpm = Some(50.0);
    let planned = |rate: &str| {
        Some(Planned {
            rate: Rate::parse_text(rate).expect("a rate"),
            speed: Speed::parse_text("9 km/h").expect("a speed"),
        })
    };
    circumstances.planned = planned("140 kg/ha");
    let good = Measured { repeats: vec![measured(60.0, &[2.0])] };
    let check = |circumstances: &Circumstances| {
        let judgement = judge_measured(&good, circumstances, Words::default()).expect("a judgement");
        judgement.check(CheckName::RollerSpeed).is_some()
    };
    assert!(check(&circumstances));
    circumstances.planned = planned("0 kg/ha");
    assert!(!check(&circumstances));
}

#[test]
fn revolutions_by_turns_and_distance_take_the_ratio() {
    let turns = Revolutions::Turns { turns: Decimal::from(24) };
    close(turns.count(2.5), 60.0, 1e-15);
    close(turns.step(2.5), 0.625, 1e-15);
    let distance = Revolutions::Distance {
        distance: sowmark_core::quantity::Length::parse_text("60 m").expect("a length"),
        circumference: sowmark_core::quantity::Length::parse_text("3 m").expect("a length"),
        slip_percent: None,
    };
    close(distance.count(2.5), 50.0, 1e-15);
    close(distance.step(2.5), 2.5 * 0.1 / 3.0, 1e-15);
    close(Mass::parse_text("5 kg").unwrap().minus_si(&Mass::parse_text("-1 kg").unwrap()), 6.0, 1e-15);
    close(Mass::parse_text("-5 kg").unwrap().minus_si(&Mass::parse_text("1 kg").unwrap()), -6.0, 1e-15);
}

/// Circumstances from before there were clues read back as they were stored, and clues are stored where there are any.
#[test]
fn clues_are_stored_where_there_are_any() {
    let stored = |clues: Clues| {
        let json = serde_json::to_value(Circumstances { clues: clues.clone(), ..plain_circumstances() }).expect("JSON");
        let back: Circumstances = serde_json::from_value(json.clone()).expect("reads back");
        assert_eq!(back.clues, clues);
        json.get("clues").is_some()
    };
    assert!(!stored(Clues::default()));
    assert!(stored(Clues { usual_tare_kg: Some(0.32), ..Clues::default() }));
    let ratio = sowmark_core::quantity::DriveRatio::parse("5:2").expect("a ratio");
    assert!(stored(Clues { other_drive_ratios: vec![ratio], ..Clues::default() }));
    let roller =
        OtherRoller { roller_id: RollerId(uuid::Uuid::nil()), label: "fine".to_owned(), expected_factor: 0.01 };
    assert!(stored(Clues { other_rollers: vec![roller], ..Clues::default() }));
}

/// A slip has bounds of its own; everything else about the revolutions must be above zero.
#[test]
fn a_part_of_the_revolutions_says_what_it_must_be() {
    let driven = |distance: &str, slip: Option<&str>| {
        let mut sheet = sheet_of(&[("1", "0", "2000")]);
        sheet.repeats[0].revolutions = Revolutions::Distance {
            distance: sowmark_core::quantity::Length::parse_text(distance).expect("a length"),
            circumference: sowmark_core::quantity::Length::parse_text("2 m").expect("a length"),
            slip_percent: slip.map(|percent| Decimal::parse(percent).expect("a decimal")),
        };
        let findings = judge(&sheet, &plain_circumstances()).err().unwrap_or_default();
        findings.iter().map(ToString::to_string).collect::<Vec<_>>()
    };
    assert_eq!(
        driven("100 m", Some("90.1")),
        ["/repeats/0/revolutions/slip_percent: the slip must be from -50 to 90 %"]
    );
    assert_eq!(
        driven("100 m", Some("-51")),
        ["/repeats/0/revolutions/slip_percent: the slip must be from -50 to 90 %"]
    );
    assert_eq!(driven("0 m", None), ["/repeats/0/revolutions/distance: the distance must be above zero"]);
    assert_eq!(
        (driven("100 m", Some("90")), driven("100 m", Some("-50")), driven("100 m", None)),
        (nothing(), nothing(), nothing())
    );
}

/// A catch of two runs is compared by what each of them gave.
#[test]
fn groups_of_runs_are_compared_by_the_run() {
    let catches = vec![catch_of("left", 2, "0", "4000"), catch_of("right", 1, "0", "2500")];
    let repeat = measure(&Sheet { repeats: vec![repeat_of("60", catches)] }, &plain_circumstances()).repeats.remove(0);
    assert_eq!(repeat.per_run(), [2.0, 2.5]);
    let differences: Vec<_> = repeat.run_differences_percent().into_iter().map(|(_, percent)| percent).collect();
    close(differences[0], -100.0 / 9.0, 1e-13);
    close(differences[1], 100.0 / 9.0, 1e-13);
    close(repeat.run_cv_percent().expect("two"), 100.0 * 0.125_f64.sqrt() / 2.25, 1e-13);
}

#[test]
fn a_pointer_keeps_its_steps_as_they_were() {
    let pointer = Pointer::root().then("repeats").then(0).then("a/b~c");
    assert_eq!(pointer.segments(), ["repeats", "0", "a/b~c"]);
    assert_eq!(pointer.to_string(), "/repeats/0/a~1b~0c");
    assert_eq!((Pointer::root().segments().len(), Pointer::root().to_string()), (0, String::new()));
    assert_eq!(serde_json::to_string(&pointer).expect("JSON"), "\"/repeats/0/a~1b~0c\"");
}
