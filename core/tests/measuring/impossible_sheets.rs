//! What cannot be so is found, all of it at once, and named by the field.

use sowmark_core::{
    catch::{Finding, Revolutions, Sheet},
    circumstances::{Circumstances, Expected, Planned, ScaleFacts, ScaleStanding},
    quantity::{Decimal, DriveRatio, Length, Rate, Speed},
    rate::DriveRange,
    verdict::judge,
};

use crate::sheets::{catch_of, close, grams, plain_circumstances, repeat_of, sheet_of};

fn pointers(findings: &[Finding]) -> Vec<String> {
    findings.iter().map(|finding| finding.at.to_string()).collect()
}

fn found(sheet: &Sheet, circumstances: &Circumstances) -> Vec<String> {
    pointers(&judge(sheet, circumstances).expect_err("an impossible sheet"))
}

#[test]
fn every_fault_of_a_sheet_is_found_at_once() {
    let mut circumstances = plain_circumstances();
    circumstances.runs_in_use = 3;
    circumstances.scale =
        Some(ScaleFacts { readability: grams("1"), capacity: grams("5000"), last_check: ScaleStanding::PassedWithin });
    let mut set_aside = repeat_of("10", vec![catch_of("plugged", 1, "300", "300")]);
    set_aside.set_aside = Some(" ".to_owned());
    let sheet = Sheet {
        repeats: vec![
            repeat_of("0", vec![catch_of("a", 1, "300", "300"), catch_of("b", 3, "-1", "5001")]),
            repeat_of("1000001", vec![]),
            set_aside,
            repeat_of("10", vec![catch_of("a", 0, "100000001", "100000001.5")]),
        ],
    };
    assert_eq!(
        found(&sheet, &circumstances),
        [
            "/repeats/0/revolutions",
            "/repeats/0/catches",
            "/repeats/0/catches/0/gross",
            "/repeats/0/catches/1/tare",
            "/repeats/0/catches/1/gross",
            "/repeats/1/revolutions",
            "/repeats/1/catches",
            "/repeats/2/set_aside",
            "/repeats/3/catches/0/runs",
            "/repeats/3/catches/0/tare",
            "/repeats/3/catches/0/gross",
            "/repeats/3/catches/0/gross",
        ]
    );
    let findings = judge(&sheet, &circumstances).expect_err("an impossible sheet");
    assert_eq!(findings[1].says, "the catches hold 4 runs together; the unit has 3 runs in use");
    assert_eq!(
        findings[2].says,
        "a gross of 300 g leaves no seed above the tare of 300 g; weigh again or swap the two"
    );
    assert_eq!(findings[4].says, "a gross of 5001 g is above the scale's capacity of 5000 g");
}

#[test]
fn a_sheet_has_a_size() {
    let circumstances = plain_circumstances();
    assert_eq!(found(&Sheet { repeats: vec![] }, &circumstances), ["/repeats"]);
    assert_eq!(found(&sheet_of(&[("60", "0", "2000"); 51]), &circumstances), ["/repeats"]);
    let crowded = Sheet { repeats: vec![repeat_of("60", vec![catch_of("a", 1, "0", "2000"); 201])] };
    assert_eq!(found(&crowded, &circumstances), ["/repeats/0/catches"]);
    let mut all_aside = sheet_of(&[("60", "0", "2000")]);
    all_aside.repeats[0].set_aside = Some("spilled".to_owned());
    assert_eq!(found(&all_aside, &circumstances), ["/repeats"]);
    // As many runs as a number holds, several times over, is still counted.
    let many = Sheet { repeats: vec![repeat_of("60", vec![catch_of("a", u32::MAX, "0", "2000"); 3])] };
    assert_eq!(found(&many, &circumstances), ["/repeats/0/catches"]);
}

/// A plugged run that gave nothing is why the repeat was set aside; it is kept as it was.
#[test]
fn a_repeat_set_aside_may_have_caught_nothing() {
    let mut sheet = sheet_of(&[("60", "0", "2000"), ("60", "0", "2010"), ("60", "320", "320")]);
    sheet.repeats[2].set_aside = Some("plugged".to_owned());
    let judgement = judge(&sheet, &plain_circumstances()).expect("a possible sheet");
    assert_eq!(judgement.repeats[2].factor.to_bits(), 0);
    close(judgement.factor, 4.010 / 120.0, 1e-14);
}

#[test]
fn revolutions_are_known_in_several_ways() {
    let mut circumstances = plain_circumstances();
    circumstances.drive_ratio = DriveRatio::parse("5:2").unwrap();
    let decimal = |text: &str| Decimal::parse(text).expect("a decimal");
    let pulses = Revolutions::Pulses { pulses: decimal("1200"), pulses_per_rev: decimal("20") };
    let turns = Revolutions::Turns { turns: decimal("24") };
    let distance = Revolutions::Distance {
        distance: Length::parse_text("60 m").unwrap(),
        circumference: Length::parse_text("2.5 m").unwrap(),
        slip_percent: None,
    };
    // 60 m, of which 5 % without a turn, on a wheel of 2.375 m: 24 turns.
    let slipping = Revolutions::Distance {
        distance: Length::parse_text("60 m").unwrap(),
        circumference: Length::parse_text("2.375 m").unwrap(),
        slip_percent: Some(decimal("5")),
    };
    for (revolutions, step) in [
        (Revolutions::Counted(decimal("60")), 1.0),
        (Revolutions::Counted(decimal("60.0")), 0.1),
        (pulses, 1.0 / 20.0),
        (turns, 2.5 / 4.0),
        (distance, 2.5 * 0.1 / 2.5),
        (slipping, 2.5 * 0.1 * 0.95 / 2.375),
    ] {
        let mut sheet = sheet_of(&[("1", "0", "2000")]);
        sheet.repeats[0].revolutions = revolutions.clone();
        let judgement = judge(&sheet, &circumstances).expect("a possible sheet");
        close(judgement.repeats[0].revolutions, 60.0, 1e-15);
        close(judgement.factor, 2.0 / 60.0, 1e-14);
        let expected = 100.0 * (step * step / 6.0_f64).sqrt() / 60.0;
        close(judgement.budget[3].relative_standard_uncertainty_percent, expected, 1e-13);
        let stored = serde_json::to_string(&revolutions).expect("JSON");
        assert_eq!(serde_json::from_str::<Revolutions>(&stored).expect("reads back"), revolutions);
    }
}

#[test]
fn each_part_of_the_revolutions_is_named() {
    let zero = || Decimal::from(0);
    let nothing = || Length::parse_text("0 m").unwrap();
    for (revolutions, expected) in [
        (Revolutions::Counted(Decimal::parse("-3").unwrap()), &["/repeats/0/revolutions"][..]),
        (
            Revolutions::Pulses { pulses: zero(), pulses_per_rev: zero() },
            &["/repeats/0/revolutions/pulses", "/repeats/0/revolutions/pulses_per_rev"],
        ),
        (Revolutions::Turns { turns: zero() }, &["/repeats/0/revolutions/turns"]),
        (
            Revolutions::Distance {
                distance: nothing(),
                circumference: nothing(),
                slip_percent: Some(Decimal::parse("90.1").unwrap()),
            },
            &[
                "/repeats/0/revolutions/slip_percent",
                "/repeats/0/revolutions/distance",
                "/repeats/0/revolutions/circumference",
            ],
        ),
        (
            Revolutions::Pulses { pulses: Decimal::from(1_000_000), pulses_per_rev: Decimal::parse("0.5").unwrap() },
            &["/repeats/0/revolutions"],
        ),
    ] {
        let mut sheet = sheet_of(&[("1", "0", "2000")]);
        sheet.repeats[0].revolutions = revolutions;
        assert_eq!(found(&sheet, &plain_circumstances()), expected);
    }
}

#[test]
fn impossible_circumstances_are_found_too() {
    let mut circumstances = Circumstances {
        runs_in_use: 0,
        drive_range: Some(DriveRange { min_rpm: 120.0, max_rpm: 10.0 }),
        roller_speed_rpm: Some(f64::NAN),
        planned: Some(Planned {
            rate: Rate::parse_text("0 kg/ha").unwrap(),
            speed: Speed::parse_text("-9 km/h").unwrap(),
        }),
        working_width_m: f64::INFINITY,
        scale: Some(ScaleFacts { readability: grams("0"), capacity: grams("-1"), last_check: ScaleStanding::Failed }),
        thousand_seed_weight_g: Some(-45.0),
        expected: Some(Expected::from_displacement(f64::NAN, 772.0)),
        ..plain_circumstances()
    };
    circumstances.policy.drift_lambda = 0.0;
    assert_eq!(
        pointers(&circumstances.check()),
        [
            "/runs_in_use",
            "/working_width_m",
            "/roller_speed_rpm",
            "/thousand_seed_weight_g",
            "/expected",
            "/planned/rate",
            "/planned/speed",
            "/scale/readability",
            "/scale/capacity",
            "/drive_range",
            "/policy/drift_lambda",
        ]
    );
}
