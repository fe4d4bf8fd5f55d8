//! What must hold for any sheet, honest, careless or hostile.

use proptest::{collection::vec, option, prelude::*};
use sowmark_core::{
    catch::{Catch, MAX_CATCHES, MAX_REPEATS, Repeat, Revolutions, Sheet},
    circumstances::{Circumstances, Clues, Expected, ExpectedSource, OtherRoller},
    ids::{CalibrationId, RollerId},
    policy::Policy,
    quantity::{Decimal, DriveRatio, Mass},
    suspicion::{Cause, NEAR, Suspicion, suspicions},
    verdict::{CheckName, Outcome, judge},
    words::Words,
};

fn clues(tare: Option<f64>, ratios: &[String], rollers: &[f64]) -> Clues {
    Clues {
        usual_tare_kg: tare,
        other_drive_ratios: ratios.iter().filter_map(|ratio| DriveRatio::parse(ratio).ok()).collect(),
        other_rollers: rollers
            .iter()
            .map(|expected_factor| OtherRoller {
                roller_id: RollerId(uuid::Uuid::nil()),
                label: "another".to_owned(),
                expected_factor: *expected_factor,
            })
            .collect(),
    }
}

fn circumstances(expected: Option<Expected>, clues: Clues) -> Circumstances {
    Circumstances {
        runs_in_use: u32::MAX,
        drive_ratio: DriveRatio::parse("5:2").expect("a ratio"),
        drive_range: None,
        roller_speed_rpm: None,
        planned: None,
        working_width_m: 6.0,
        scale: None,
        thousand_seed_weight_g: None,
        expected,
        policy: Policy::default(),
        clues,
    }
}

fn expected(factor: f64, from_history: bool) -> Expected {
    if from_history {
        Expected::from_last_calibration(CalibrationId(uuid::Uuid::nil()), factor, None)
    } else {
        Expected { factor, source: ExpectedSource::Displacement }
    }
}

/// Masses in grams, with now and then a tare, one repeat or one catch far off.
fn careless_sheet() -> impl Strategy<Value = Sheet> {
    let unit = prop_oneof![Just("kg"), Just("lb"), Just("g")];
    let slip =
        prop_oneof![4 => Just(1.0), 1 => Just(0.1), 1 => Just(0.5), 1 => Just(2.2046), 1 => Just(10.0), 1 => 0.2..3.0];
    let catches = (1_usize..5).prop_flat_map(move |count| vec((0.97..1.03, slip.clone(), 1_u32..5), count));
    (vec((catches, 20_u32..200, any::<bool>()), 1..5), unit, 0.0..0.5, 0_usize..4).prop_map(
        |(repeats, unit, tare, decimals)| {
            let mass = |value: f64| {
                let decimals = if unit == "g" { 0 } else { decimals };
                let value = if unit == "g" { value * 1_000.0 } else { value };
                Mass::parse_text(&format!("{value:.decimals$} {unit}")).expect("a mass")
            };
            let repeats = repeats.into_iter().map(|(catches, revolutions, cranked)| Repeat {
                revolutions: if cranked {
                    Revolutions::Turns { turns: Decimal::from(revolutions) }
                } else {
                    Revolutions::Counted(Decimal::from(revolutions))
                },
                catches: catches
                    .into_iter()
                    .map(|(noise, slip, runs)| Catch {
                        label: None,
                        runs,
                        tare: mass(if slip > 1.0 { 0.0 } else { tare }),
                        gross: mass(tare + 0.03 * f64::from(revolutions) * f64::from(runs) * noise * slip),
                    })
                    .collect(),
                set_aside: None,
            });
            Sheet { repeats: repeats.collect() }
        },
    )
}

/// A suspicion's number is near something it can be held against.
fn has_a_witness(suspicion: &Suspicion, sheet: &Sheet, circumstances: &Circumstances) -> bool {
    let factor = suspicion.would_give;
    let near = |expected: &Expected| {
        let doubt = if matches!(expected.source, ExpectedSource::Displacement) { 0.10 } else { 0.0 };
        (factor / expected.factor - 1.0).abs() <= NEAR + doubt + 1e-9
    };
    if let Some(mut expected) = circumstances.expected {
        if suspicion.cause == Cause::OtherRoller {
            return circumstances.clues.other_rollers.iter().any(|roller| {
                expected.factor = roller.expected_factor;
                near(&expected)
            });
        }
        if near(&expected) {
            return true;
        }
    }
    // Bags and ounces in every repeat may have brought the repeats together, at another level than on the sheet.
    if circumstances.expected.is_none() && matches!(suspicion.cause, Cause::TareLeftIn | Cause::OuncesEnteredAsTenths) {
        return true;
    }
    // The other repeats, or the other catches: between the least and the greatest of those on the sheet.
    let measured = sowmark_core::factor::measure(sheet, circumstances);
    let others: Vec<f64> = measured
        .kept()
        .flat_map(|repeat| {
            let catches: Vec<_> = repeat.per_run().iter().map(|per_run| per_run / repeat.revolutions).collect();
            catches.into_iter().chain([repeat.factor()])
        })
        .collect();
    let (least, greatest) = others
        .iter()
        .fold((f64::INFINITY, 0.0_f64), |(least, greatest), other| (least.min(*other), greatest.max(*other)));
    factor >= least * (1.0 - NEAR) && factor <= greatest * (1.0 + NEAR)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn what_is_suspected_fits_and_comes_in_order(
        sheet in careless_sheet(),
        about in option::of((0.01_f64..0.1, any::<bool>())),
        tare in option::of(0.0..0.5),
        rollers in vec(0.01_f64..0.1, 0..4),
    ) {
        let expected = about.map(|(factor, from_history)| expected(factor, from_history));
        let known = circumstances(expected, clues(tare, &["3:1".to_owned(), "1".to_owned()], &rollers));
        let Ok(judgement) = judge(&sheet, &known) else { return Ok(()) };
        let found = suspicions(&sheet, &known, &judgement, Words::default());
        let quiet = [CheckName::Plausibility, CheckName::RepeatAgreement, CheckName::RunUniformity]
            .into_iter()
            .all(|name| judgement.check(name).is_none_or(|check| check.outcome == Outcome::Pass));
        prop_assert!(!quiet || found.is_empty(), "suspected although all is well: {found:#?}");
        for suspicion in &found {
            prop_assert!(suspicion.would_give.is_finite() && suspicion.would_give > 0.0);
            prop_assert!(has_a_witness(suspicion, &sheet, &known), "{suspicion:#?}");
            prop_assert!(suspicion.says.ends_with('.') && suspicion.says.contains("g/rev"), "{}", suspicion.says);
            prop_assert!(!suspicion.says.contains("NaN") && !suspicion.says.contains("inf"), "{}", suspicion.says);
            prop_assert_eq!(found.iter().filter(|other| other.cause == suspicion.cause).count(), 1);
        }
        prop_assert!(found.len() <= Cause::ALL.len());
        prop_assert_eq!(&suspicions(&sheet, &known, &judgement, Words::default()), &found, "the same question, the same answer");
        // What is suspected is stored and read back.
        let stored = serde_json::to_string(&found).expect("JSON");
        prop_assert_eq!(serde_json::from_str::<Vec<Suspicion>>(&stored).expect("reads back").len(), found.len());
    }

    /// Clues of any floats, sheets of any decimals, a judgement that may even be another sheet's.
    #[test]
    fn hostile_numbers_are_borne(
        readings in vec((0_u64..1_000_000_000_000, 0_usize..=12, 0_u64..1_000_000, any::<u32>()), 1..5),
        revolutions in vec((0_u64..1_000_000_000, 0_usize..=9), 1..5),
        floats in proptest::array::uniform4(any::<f64>()),
        honest in careless_sheet(),
    ) {
        let decimal = |digits: u64, places: usize| {
            let all = format!("{digits:0>width$}", width = places + 1);
            let (whole, decimals) = all.split_at(all.len() - places);
            Decimal::parse(&format!("{whole}.{decimals}")).expect("a decimal")
        };
        let mass = |digits, places| Mass::new(decimal(digits, places), "lb").expect("a mass");
        let catches = || readings.iter().map(|&(gross, places, tare, runs)| Catch {
            label: Some("é".to_owned()),
            runs,
            tare: mass(tare, places),
            gross: mass(gross, places),
        }).collect::<Vec<_>>();
        let hostile = Sheet {
            repeats: revolutions.iter().map(|&(digits, places)| Repeat {
                revolutions: Revolutions::Counted(decimal(digits, places)),
                catches: catches(),
                set_aside: None,
            }).collect(),
        };
        let known = circumstances(
            Some(expected(floats[0], true)),
            clues(Some(floats[1]), &["0.001".to_owned(), "1000".to_owned()], &floats[2..]),
        );
        let plain = circumstances(Some(expected(0.001, false)), Clues::default());
        for sheet in [&hostile, &honest] {
            // The judgement of the honest sheet stands in where the hostile one has none.
            let judged = judge(sheet, &known).or_else(|_| judge(&honest, &plain));
            let Ok(judgement) = judged else { continue };
            for suspicion in suspicions(sheet, &known, &judgement, Words::default()) {
                prop_assert!(suspicion.would_give.is_finite(), "{suspicion:?}");
                prop_assert!(!suspicion.says.contains("NaN") && !suspicion.says.contains("inf "), "{suspicion:?}");
            }
        }
    }
}

/// The largest sheet that is taken, with a plugged run: found in bounded work.
#[test]
fn the_largest_sheet_is_looked_at_too() {
    let mass = |grams: usize| Mass::parse_text(&format!("{grams} g")).expect("a mass");
    let catch = |at: usize, position: usize| Catch {
        label: None,
        runs: 1,
        tare: mass(0),
        gross: mass(if position == 17 { 200 } else { 1_800 + (7 * at + 13 * position) % 20 }),
    };
    let repeat = |at: usize| Repeat {
        revolutions: Revolutions::Counted(Decimal::from(60)),
        catches: (0..MAX_CATCHES).map(|position| catch(at, position)).collect(),
        set_aside: None,
    };
    let sheet = Sheet { repeats: (0..MAX_REPEATS).map(repeat).collect() };
    let ratios: Vec<_> = (1..2_000).map(|ratio| format!("{ratio}:7")).collect();
    let rollers: Vec<_> = (1..2_000).map(|at| f64::from(at) / 1e4).collect();
    let known = circumstances(Some(expected(0.012, true)), clues(Some(0.3), &ratios, &rollers));
    let judgement = judge(&sheet, &known).expect("a possible sheet");
    let found = suspicions(&sheet, &known, &judgement, Words::default());
    assert!(found.iter().any(|suspicion| suspicion.cause == Cause::OneRunLow), "{found:#?}");
}
