//! What a judgement says, word by word: these sentences are read at the machine, and a wrong side or a wrong number in them is
//! a wrong calibration.

use sowmark_core::{
    catch::{Repeat, Sheet},
    circumstances::{Circumstances, Expected, Planned, ScaleFacts, ScaleStanding},
    ids::CalibrationId,
    policy::Policy,
    quantity::{Rate, Speed},
    rate::DriveRange,
    verdict::{CheckName, Judgement, judge, judge_in},
    words::{DecimalSign, Words},
};

use crate::sheets::{catch_of, grams, plain_circumstances, repeat_of, sheet_of};

fn checked_scale() -> Circumstances {
    let scale =
        ScaleFacts { readability: grams("1"), capacity: grams("15000"), last_check: ScaleStanding::PassedWithin };
    Circumstances { runs_in_use: 8, scale: Some(scale), ..plain_circumstances() }
}

fn says(sheet: &Sheet, circumstances: &Circumstances, check: CheckName) -> String {
    let judgement = judge(sheet, circumstances).expect("a possible sheet");
    judgement.check(check).map(|check| check.says.clone()).unwrap_or_default()
}

fn three(nets: [&str; 3]) -> Sheet {
    sheet_of(&nets.map(|net| ("60.0", "0", net)))
}

fn repeats_of_runs(nets: &[(&str, u32, &str)]) -> Sheet {
    let repeat = || -> Repeat {
        repeat_of("60.0", nets.iter().map(|(label, runs, net)| catch_of(label, *runs, "0", net)).collect())
    };
    Sheet { repeats: vec![repeat(), repeat(), repeat()] }
}

#[test]
fn of_the_repeats() {
    let kept =
        |count: usize| says(&sheet_of(&vec![("60.0", "0", "2000"); count]), &checked_scale(), CheckName::Repeats);
    assert_eq!(kept(1), "1 repeat kept, at least 2 are asked for: catch again.");
    assert_eq!(kept(2), "2 repeats kept, the least that is allowed; one more would show which to trust.");
    assert_eq!(kept(3), "3 repeats kept, at least 2 are asked for.");
    let spread = |nets| says(&three(nets), &checked_scale(), CheckName::RepeatAgreement);
    assert_eq!(spread(["2000", "2000", "2010"]), "The repeats differ by 0.50 %; the limit is 5 %.");
    assert_eq!(
        spread(["2000", "2000", "2080"]),
        "The repeats differ by 3.9 %; the limit is 5 %. That is more than the scale's rounding explains."
    );
    let mut coarse = checked_scale();
    coarse.scale.as_mut().expect("a scale").readability = grams("100");
    assert_eq!(
        says(&three(["2000", "2000", "2080"]), &coarse, CheckName::RepeatAgreement),
        "The repeats differ by 3.9 %; the limit is 5 %. That is no more than the scale's rounding explains: catch more seed, the \
         meter need not be at fault."
    );
}

#[test]
fn of_the_runs() {
    let runs = |first: &str, second: &str| {
        says(&repeats_of_runs(&[("run 2", 1, first), ("run 7", 1, second)]), &checked_scale(), CheckName::RunUniformity)
    };
    assert_eq!(
        runs("2000", "2020"),
        "The runs vary by 0.70 % (coefficient of variation of up to 2 catches); the limit is 15 %. From so few runs, the true \
         figure may lie anywhere from 0.31 % to 22.5 %."
    );
    let three_runs = |third: &str| {
        let sheet = repeats_of_runs(&[("run 2", 1, "2000"), ("run 5", 1, "2000"), ("run 7", 1, third)]);
        says(&sheet, &checked_scale(), CheckName::RunUniformity)
    };
    assert!(
        three_runs("1600").starts_with(
            "The runs vary by 12.4 % (coefficient of variation of up to 3 catches); the limit is 15 %. Farthest off is run 7, \
             14.3 % below the mean. From so few runs, "
        ),
        "{}",
        three_runs("1600")
    );
    assert!(three_runs("2500").contains(" Farthest off is run 7, 15.4 % above the mean. "), "{}", three_runs("2500"));
    let apart = |nets: &[(&str, u32, &str)]| says(&repeats_of_runs(nets), &checked_scale(), CheckName::CatchesApart);
    assert_eq!(apart(&[("a", 1, "2000"), ("b", 1, "2000")]), "The runs were weighed apart.");
    assert_eq!(
        apart(&[("a", 4, "8000"), ("b", 4, "8000")]),
        "Groups of runs were weighed apart; a run within a group cannot be told."
    );
    assert_eq!(apart(&[("all", 8, "14000")]), "The runs were poured together, so they could not be compared.");
    assert_eq!(apart(&[("a", 1, "2000")]), "A single run was caught, so the runs could not be compared.");
}

#[test]
fn of_the_catch() {
    let catch = |net| says(&three([net; 3]), &checked_scale(), CheckName::CatchMass);
    assert_eq!(
        catch("2000"),
        "The scale's rounding is 0.020 % of a catch, the limit is 1 %: a catch needs 0.0408 kg (0.0900 lb) for that. The smallest \
         holds 2.00 kg (4.41 lb)."
    );
    assert_eq!(
        catch("500"),
        "The scale's rounding is 0.082 % of a catch, the limit is 1 %: a catch needs 0.0408 kg (0.0900 lb) for that. The smallest \
         holds 0.500 kg (1.10 lb), less than the 1.00 kg (2.20 lb) of the rule of thumb."
    );
    assert_eq!(
        catch("20"),
        "The scale's rounding is 2.0 % of a catch, the limit is 1 %: a catch needs 0.0408 kg (0.0900 lb) for that. The smallest \
         holds 0.0200 kg (0.0441 lb): catch more seed or use a finer scale."
    );
}

#[test]
fn of_the_uncertainty() {
    let mut circumstances = checked_scale();
    let sheet = three(["2000", "2000", "2000"]);
    assert_eq!(
        says(&sheet, &circumstances, CheckName::Uncertainty),
        "The factor is known within 1.8 % (95 %); the limit is 5 %."
    );
    circumstances.policy.uncertainty_limit_percent = 3.0;
    assert_eq!(
        says(&sheet, &circumstances, CheckName::Uncertainty),
        "The factor is known within 1.8 % (95 %); the limit is 3 %. The largest part: 3 repeats, pooled with the policy's scatter of \
         earlier catches."
    );
    circumstances.policy.scale_error_limit_percent = 5.0;
    assert!(
        says(&sheet, &circumstances, CheckName::Uncertainty).ends_with(
            " The largest part: the scale may be off by 5 %, as its last check allows; common to all catches."
        )
    );
}

/// The lines of the budget, in every way that repeats and scale can stand.
#[test]
fn of_the_budget() {
    let lines = |sheet: &Sheet, circumstances: &Circumstances| -> Vec<String> {
        let judgement = judge(sheet, circumstances).expect("a possible sheet");
        judgement.budget.into_iter().map(|line| line.says).collect()
    };
    let mut circumstances = checked_scale();
    let one = sheet_of(&[("60.0", "0", "2000")]);
    let two = sheet_of(&[("60.0", "0", "2000"); 2]);
    assert_eq!(
        lines(&two, &circumstances),
        [
            "2 repeats, pooled with the policy's scatter of earlier catches",
            "4 readings of the scale, each rounded to its step",
            "the scale may be off by 0.5 %, as its last check allows; common to all catches",
            "revolutions are known in steps, at the start and at the end",
        ]
    );
    assert_eq!(lines(&one, &circumstances)[0], "one repeat; its scatter is the policy's, from earlier catches");
    circumstances.policy.pooled_repeatability_degrees_of_freedom = 0;
    assert_eq!(lines(&two, &circumstances)[0], "2 repeats, taken alone as the policy asks");
    assert_eq!(lines(&one, &circumstances)[0], "one repeat and no earlier catches: the policy's scatter, hardly known");
    circumstances.scale.as_mut().expect("a scale").last_check = ScaleStanding::NeverChecked;
    assert_eq!(
        lines(&one, &circumstances)[2],
        "the scale may be off by 1 %, twice the limit, for want of a passing check in force"
    );
}

#[test]
fn of_the_roller_speed() {
    let mut circumstances = checked_scale();
    let sheet = three(["1800", "1800", "1800"]);
    circumstances.drive_range = Some(DriveRange { min_rpm: 10.0, max_rpm: 120.0 });
    let at = |rpm: f64, circumstances: &mut Circumstances| {
        circumstances.roller_speed_rpm = Some(rpm);
        let judgement = judge(&sheet, circumstances).expect("a possible sheet");
        let check = judgement.check(CheckName::RollerSpeed).expect("a range").clone();
        (check.says, check.value, check.limit, check.unit)
    };
    let within = at(50.0, &mut circumstances);
    assert_eq!(within.0, "Caught at 50.0 rpm, within the 10.0 rpm to 120 rpm that the drive holds.");
    assert_eq!((within.1, within.2, within.3.as_str()), (Some(50.0), Some(120.0), "1/min"));
    assert_eq!(at(10.0, &mut circumstances).2, Some(120.0), "the slowest is held");
    let slow = at(9.9, &mut circumstances);
    assert_eq!(slow.0, "Caught at 9.90 rpm; the drive holds 10.0 rpm to 120 rpm.");
    assert_eq!(slow.2, Some(10.0));
    assert_eq!(at(120.1, &mut circumstances).2, Some(120.0));
    circumstances.planned = Some(Planned {
        rate: Rate::parse_text("120 lb/ac").expect("a rate"),
        speed: Speed::parse_text("5,5 mph").expect("a speed"),
    });
    assert_eq!(
        at(50.0, &mut circumstances).0,
        "Caught at 50.0 rpm; 120 lb/ac at 5.5 mph needs 49.6 rpm, which is 0.80 % away; up to 25 % is near enough."
    );
}

#[test]
fn of_the_scale() {
    let sheet = three(["2000", "2000", "2000"]);
    let mut circumstances = checked_scale();
    for (standing, expected) in [
        (ScaleStanding::PassedWithin, "The scale passed a check within the last 30 days."),
        (ScaleStanding::PassedLongAgo, "The scale's last check is more than 30 days ago: check it with a known mass."),
        (ScaleStanding::NeverChecked, "The scale was never checked: check it with a known mass."),
        (ScaleStanding::Failed, "The scale failed its last check: weigh with another, or mend and check it."),
    ] {
        circumstances.scale.as_mut().expect("a scale").last_check = standing;
        assert_eq!(says(&sheet, &circumstances, CheckName::Scale), expected);
    }
    circumstances.scale = None;
    assert_eq!(
        says(&sheet, &circumstances, CheckName::Scale),
        "No scale was named, so nothing is known of its checks."
    );
}

#[test]
fn of_the_expectation() {
    let sheet = three(["1800", "1800", "1800"]);
    let mut circumstances = checked_scale();
    let id = CalibrationId(uuid::Uuid::nil());
    let end = "let expect; beyond 15 % it is worth a look, beyond 1.5 times it fails.";
    for (expected, begin) in [
        (Expected::from_last_calibration(id, 0.025, None), "The factor is 20.0 % above what the last calibration "),
        (
            Expected::from_last_calibration(id, 0.025, Some(1.5)),
            "The factor is 20.0 % below what the last calibration and the seed's bulk density then and now ",
        ),
        (
            Expected::from_displacement(40e-6, 800.0),
            "The factor is 6.2 % below what the roller's displacement and the seed's bulk density ",
        ),
    ] {
        circumstances.expected = Some(expected);
        assert_eq!(says(&sheet, &circumstances, CheckName::Plausibility), format!("{begin}{end}"));
    }
}

/// The sentences change with the reader, the numbers and outcomes do not.
#[test]
fn in_the_readers_decimal_sign() {
    let circumstances = checked_scale();
    let sheet = three(["2000", "2010", "2080"]);
    let comma = Words { decimal: DecimalSign::Comma, ..Words::default() };
    let (point, comma) =
        (judge(&sheet, &circumstances).expect("possible"), judge_in(&sheet, &circumstances, comma).expect("possible"));
    let agreement = |judgement: &Judgement| judgement.check(CheckName::RepeatAgreement).expect("three").says.clone();
    assert!(agreement(&point).starts_with("The repeats differ by 3.9 %;"));
    assert!(agreement(&comma).starts_with("The repeats differ by 3,9 %;"));
    assert_ne!(point, comma);
    assert!(point.agrees_with(&comma) && comma.agrees_with(&point));
    let other = judge(&three(["2000", "2010", "2081"]), &circumstances).expect("possible");
    assert!(!point.agrees_with(&other));
    let mut doctored = point.clone();
    doctored.checks[0].outcome = sowmark_core::verdict::Outcome::Fail;
    assert!(!point.agrees_with(&doctored));
}

#[test]
fn of_numbers_for_a_reader() {
    let (point, comma) = (Words::default(), Words { decimal: DecimalSign::Comma, ..Words::default() });
    let mass = sowmark_core::quantity::Mass::parse_text("12.40 lb").expect("a mass");
    let both = |write: &dyn Fn(Words) -> String| [write(point), write(comma)];
    assert_eq!(both(&|words| words.number(9.996, 3)), ["10.0", "10,0"]);
    assert_eq!(
        both(&|words| words.print(0.000_451_5, sowmark_core::quantity::unit::G_PER_REV, 4)),
        ["0.4515", "0,4515"]
    );
    assert_eq!(both(&|words| words.exactly(0.5)), ["0.5", "0,5"]);
    assert_eq!(both(&|words| words.entered(&mass)), ["12.40 lb", "12,40 lb"]);
    assert_eq!(both(&|words| words.decimal("-1.25")), ["\u{2212}1.25", "\u{2212}1,25"]);
    assert_eq!(both(&|words| words.mass(1.0)), ["1.00 kg (2.20 lb)", "1,00 kg (2,20 lb)"]);
    assert_eq!(both(&|words| words.rpm(52.55)), ["52.5 rpm", "52,5 rpm"]);
    // Two digits below ten, three from there.
    assert_eq!(both(&|words| words.percent(9.94)), ["9.9 %", "9,9 %"]);
    assert_eq!(both(&|words| words.percent(10.0)), ["10.0 %", "10,0 %"]);
    assert_eq!(both(&|words| words.percent(-12.34)), ["\u{2212}12.3 %", "\u{2212}12,3 %"]);
}

#[test]
fn of_a_policy_that_contradicts_itself() {
    let with = |remark: f64, limit: f64| Policy {
        run_cv_remark_percent: remark,
        run_cv_limit_percent: limit,
        ..Policy::default()
    };
    assert_eq!(with(15.0, 15.0).check(), [], "both at once is one limit");
    assert_eq!(
        with(15.1, 15.0).check(),
        [(
            "run_cv_remark_percent",
            "run_cv_remark_percent of 15.1 is above run_cv_limit_percent of 15; a remark comes before a failure"
                .to_owned()
        )]
    );
    let mut policy = Policy::default();
    let mut refused = |name: &str, text: Option<&str>| policy.set(name, text).map_err(|error| error.to_string());
    assert_eq!(
        refused("minimum_repeats", Some("0")),
        Err("minimum_repeats of 0 is out of bounds; it must be a whole number from 1 to 20 repeats".to_owned())
    );
    assert_eq!(refused("drift_lambda", Some("x")), Err("drift_lambda must be a number from 0.01 to 1".to_owned()));
    assert_eq!(refused("recall_allowed", Some("maybe")), Err("recall_allowed is true or false".to_owned()));
    assert_eq!(
        refused("interval_days", Some("0")),
        Err("interval_days of 0 is out of bounds; it must be a number from 1 to 3660 days, or empty to turn it off"
            .to_owned())
    );
    assert_eq!(refused("colour", Some("1")), Err("colour is not a field of the policy".to_owned()));
    assert_eq!(refused("interval_days", Some("30")), Ok(()));
    assert_eq!(refused("minimum_repeats", Some("20")), Ok(()));
    assert_eq!(policy.get("interval_days"), Some(Some("30".to_owned())));
    assert_eq!(policy.get("colour"), None);
    policy.set("interval_days", Some(" ")).expect("off again");
    assert_eq!(policy.get("interval_days"), Some(None));
}

/// A sentence written with points becomes the reader's; full stops, names in quotation marks and numbers of chapters stay.
#[test]
fn of_sentences_that_were_written_with_points() {
    let (point, comma) = (Words::default(), Words { decimal: DecimalSign::Comma, ..Words::default() });
    let says = "0.300 kg is below 1.5. Lot \"24.117\" is 2.5. See 3. or .5 or v.2 or 7.x.";
    assert_eq!(point.sentence(says), says);
    assert_eq!(comma.sentence(says), "0,300 kg is below 1,5. Lot \"24.117\" is 2,5. See 3. or .5 or v.2 or 7.x.");
    assert_eq!(comma.sentence("\u{201c}24.117\u{201d} is 2.5"), "\u{201c}24.117\u{201d} is 2,5");
    assert_eq!(comma.sentence("1.5 \u{201c}24.117"), "1,5 \u{201c}24.117");
    assert_eq!((comma.sentence(""), comma.sentence(".")), (String::new(), ".".to_owned()));
    assert!(comma.is_comma() && !point.is_comma());
}
