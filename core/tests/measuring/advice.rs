//! What is still missing before the next repeat: sentences for known sheets, and what must hold of any advice.

use proptest::{collection::vec, prelude::*};
use sowmark_core::{
    advice::{
        Advice, Further, Goal, minimum_catch_kg, minimum_catch_shared_tare_kg, minimum_catch_with_scatter_kg,
        minimum_revolutions, next_catch,
    },
    catch::Sheet,
    circumstances::{Circumstances, ScaleFacts, ScaleStanding},
    policy::Policy,
    uncertainty::budget::BudgetTerm,
    verdict::judge,
    words::{DecimalSign, Words},
};

use crate::sheets::{close, grams, plain_circumstances, sheet_of};

fn weighed_on(step: &str, capacity: &str, last_check: ScaleStanding, policy: Policy) -> Circumstances {
    let scale = ScaleFacts { readability: grams(step), capacity: grams(capacity), last_check };
    Circumstances { scale: Some(scale), policy, ..plain_circumstances() }
}

fn advised(sheet: &Sheet, circumstances: &Circumstances) -> Vec<Advice> {
    let judgement = judge(sheet, circumstances).expect("a possible sheet");
    next_catch(sheet, circumstances, &judgement, Words::default())
}

fn says(sheet: &Sheet, circumstances: &Circumstances) -> Vec<String> {
    advised(sheet, circumstances).into_iter().map(|advice| advice.says).collect()
}

#[test]
fn nothing_is_missing_of_a_good_catch() {
    let sheet = sheet_of(&[("60.0", "320", "2110"), ("60.0", "322", "2124"), ("60.0", "321", "2117")]);
    assert_eq!(says(&sheet, &weighed_on("1", "15000", ScaleStanding::PassedWithin, Policy::default())), [""; 0]);
}

/// 5 g / sqrt(6) is 1.6 % of 128 g; 1 % needs 204 g, which 40 revolutions give at 3.2 g, so 64 do, in handy numbers.
#[test]
fn a_light_catch_needs_more_revolutions_with_this_scale() {
    let sheet = sheet_of(&[("40", "300", "428"), ("40", "300", "427")]);
    let coarse = weighed_on("5", "15000", ScaleStanding::PassedWithin, Policy::default());
    let advice = advised(&sheet, &coarse);
    assert_eq!(advice.len(), 1);
    assert_eq!((advice[0].goal, advice[0].dominant), (Goal::CatchMass, BudgetTerm::Readability));
    assert_eq!(advice[0].further, Some(Further { repeats: 2, revolutions: 66.0 }));
    assert_eq!(
        advice[0].says,
        "26 more revolutions with this scale: 66 to a repeat make every catch heavy enough that the scale's rounding stays \
         within 1 % of it. Set the shorter repeats aside."
    );
    let longer = sheet_of(&[("66", "300", "511"), ("66", "300", "510")]);
    assert!(advised(&longer, &coarse).iter().all(|advice| advice.goal != Goal::CatchMass));
}

#[test]
fn a_scale_that_cannot_do_it_is_told_so() {
    let sheet = sheet_of(&[("40", "300", "428"), ("40", "300", "427")]);
    let coarse = weighed_on("50", "600", ScaleStanding::PassedWithin, Policy::default());
    let advice = advised(&sheet, &coarse);
    assert_eq!((advice[0].goal, advice[0].further), (Goal::CatchMass, None));
    assert!(advice[0].says.starts_with("This scale is too coarse"), "{}", advice[0].says);
}

/// With a scatter known for certain the outlook is what the budget then says.
#[test]
fn the_outlook_is_the_budget_of_the_longer_sheet() {
    let policy = Policy {
        uncertainty_limit_percent: 3.0,
        pooled_repeatability_percent: 2.0,
        pooled_repeatability_degrees_of_freedom: 1000,
        ..Policy::default()
    };
    let circumstances = weighed_on("1", "15000", ScaleStanding::PassedWithin, policy);
    let sheet = sheet_of(&[("60", "300", "2100"), ("60", "300", "2100")]);
    let advice = advised(&sheet, &circumstances);
    let goals: Vec<_> = advice.iter().map(|advice| advice.goal).collect();
    assert_eq!(goals, [Goal::HalfUncertainty]);
    let further = advice[0].further.expect("more repeats do it");
    let mut longer = sheet.clone();
    for _ in 0..further.repeats {
        let revolutions = further.revolutions.to_string();
        let gross = (300.0 + 30.0 * further.revolutions).to_string();
        longer.repeats.extend(sheet_of(&[(&revolutions, "300", &gross)]).repeats);
    }
    let then = judge(&longer, &circumstances).expect("a possible sheet");
    close(advice[0].expected_percent.expect("a U"), then.expanded_uncertainty_percent, 1e-2);
    assert!(then.expanded_uncertainty_percent <= 1.5 * 1.01);
    longer.repeats.pop();
    assert!(judge(&longer, &circumstances).expect("possible").expanded_uncertainty_percent > 1.5);
}

#[test]
fn sentences_for_the_uncertainty() {
    let sheet = sheet_of(&[("60", "300", "2100"), ("60", "300", "2200")]);
    let of = |limit, last_check| {
        let policy = Policy { uncertainty_limit_percent: limit, ..Policy::default() };
        says(&sheet, &weighed_on("1", "15000", last_check, policy))
    };
    assert_eq!(
        of(5.0, ScaleStanding::PassedWithin),
        [
            "One more repeat like the last, 60 revolutions, would bring the uncertainty to about 2.5 %, within half of the limit \
          (2.5 %), if the scatter stays as it is."
        ]
    );
    assert_eq!(
        of(2.6, ScaleStanding::NeverChecked),
        [
            "One more repeat of 78 revolutions, 18 more than the last had, would bring the uncertainty to about 2.6 %, within the limit \
          of 2.6 %, if the scatter stays as it is."
        ]
    );
    assert_eq!(
        of(2.0, ScaleStanding::PassedWithin),
        [
            "3 more repeats like the last, 60 revolutions each, would bring the uncertainty to about 1.9 %, within the limit of 2 %, if \
          the scatter stays as it is."
        ]
    );
    assert_eq!(
        of(1.0, ScaleStanding::NeverChecked),
        [
            "Even 10 more repeats would not bring the uncertainty within the limit of 1 %; 1.6 % would be the best: that is what the \
          scale may be off by. A passing check with a known mass halves that part."
        ]
    );
    assert_eq!(
        of(3.1, ScaleStanding::NeverChecked)[0],
        "One more repeat like the last, 60 revolutions, would bring the uncertainty to about 2.6 %, within the limit of 3.1 %, if the \
         scatter stays as it is. So would a passing check of the scale alone, to 3.0 %."
    );
    assert_eq!(
        of(2.2, ScaleStanding::PassedWithin)[0],
        "2 more repeats like the last, 60 revolutions each, would bring the uncertainty to about 2.1 %, within the limit of 2.2 %, if \
         the scatter stays as it is."
    );
}

#[test]
fn repeats_that_scatter_too_much_are_not_mended_by_more() {
    let sheet = sheet_of(&[("60", "300", "2100"), ("60", "300", "3300"), ("60", "300", "1500")]);
    let circumstances = weighed_on("1", "15000", ScaleStanding::PassedWithin, Policy::default());
    let advice = advised(&sheet, &circumstances);
    assert_eq!((advice.len(), advice[0].further, advice[0].dominant), (1, None, BudgetTerm::Repeatability));
    assert_eq!(
        advice[0].says,
        "Even 10 more repeats would not bring the uncertainty within the limit of 5 %; 10.8 % would be the best: the repeats scatter \
         too much. Find out why they differ before you catch more."
    );
    let judgement = judge(&sheet, &circumstances).expect("possible");
    let comma =
        next_catch(&sheet, &circumstances, &judgement, Words { decimal: DecimalSign::Comma, ..Words::default() });
    assert!(comma[0].says.contains(','), "{}", comma[0].says);
}

/// Metrology 6.9, computed there from the formulas: d = 5 g, w = 0.25 %, and w = 0.5 % with a scatter.
#[test]
fn least_catches() {
    let table = [
        (1_u32, 816.497, 816.497, Some(680.414), None),
        (2, 577.350, 707.107, Some(350.070), None),
        (3, 471.405, 666.667, Some(265.747), Some(615.457)),
        (4, 408.248, 645.497, Some(222.718), Some(340.207)),
        (6, 333.333, 623.610, Some(176.336), Some(220.113)),
    ];
    let in_grams = |kg: Option<f64>| kg.map(|kg| (kg * 1e6).round() / 1e3);
    for (n, apart, shared, mild, wild) in table {
        assert_eq!(in_grams(minimum_catch_kg(0.005, 0.0025, n)), Some(apart), "{n}");
        assert_eq!(in_grams(minimum_catch_shared_tare_kg(0.005, 0.0025, n)), Some(shared), "{n}");
        assert_eq!(in_grams(minimum_catch_with_scatter_kg(0.005, 0.005, n, 0.004)), mild, "{n}");
        assert_eq!(in_grams(minimum_catch_with_scatter_kg(0.005, 0.005, n, 0.008)), wild, "{n}");
    }
    close(minimum_revolutions(0.1, 0.0025, 4).expect("a number"), 8.164_965_8, 1e-8);
    for nothing in [0.0, -1.0, f64::NAN] {
        assert_eq!(minimum_catch_kg(0.005, nothing, 3), None);
        assert_eq!(minimum_revolutions(0.1, nothing, 3), None);
    }
    assert_eq!(minimum_catch_kg(0.005, 0.0025, 0), None);
}

fn scale_standing() -> impl Strategy<Value = ScaleStanding> {
    prop_oneof![
        Just(ScaleStanding::PassedWithin),
        Just(ScaleStanding::PassedLongAgo),
        Just(ScaleStanding::NeverChecked),
        Just(ScaleStanding::Failed),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]
    #[test]
    fn advice_keeps_what_it_says(
        repeats in vec((5_u32..300, 300_i64..4_000), 1..6),
        step in prop_oneof![Just("0.1"), Just("1"), Just("5"), Just("50")],
        standing in scale_standing(),
        limit in 0.2_f64..20.0,
        degrees in 0_u32..20,
    ) {
        let policy = Policy {
            uncertainty_limit_percent: limit,
            pooled_repeatability_degrees_of_freedom: degrees,
            ..Policy::default()
        };
        let circumstances = weighed_on(step, "20000", standing, policy);
        let text = |(n, net): &(u32, i64)| (n.to_string(), (net + 300).to_string());
        let repeats: Vec<_> = repeats.iter().map(text).collect();
        let rows: Vec<_> = repeats.iter().map(|(n, gross)| (n.as_str(), "300", gross.as_str())).collect();
        let sheet = sheet_of(&rows);
        let judgement = judge(&sheet, &circumstances).expect("a possible sheet");
        let last: f64 = repeats[repeats.len() - 1].0.parse().expect("revolutions");
        let advice = next_catch(&sheet, &circumstances, &judgement, Words::default());
        prop_assert!(advice.len() <= 2);
        let half = judgement.expanded_uncertainty_percent <= limit / 2.0;
        prop_assert!(!half || advice.iter().all(|advice| advice.goal == Goal::CatchMass));
        for Advice { goal, further, expected_percent, says, .. } in advice {
            prop_assert!(says.ends_with('.') && !says.contains("NaN") && !says.contains("inf") && !says.contains('–'), "{}", says);
            let wanted = if goal == Goal::HalfUncertainty { limit / 2.0 } else { limit };
            match (further, expected_percent) {
                (Some(Further { repeats, revolutions }), expected) => {
                    prop_assert!(repeats >= 1 && revolutions > 0.0);
                    prop_assert!(goal == Goal::CatchMass || revolutions >= last);
                    prop_assert!(expected.is_none_or(|u| u <= wanted));
                }
                (None, Some(best)) => prop_assert!(best > wanted, "{} {}", best, wanted),
                (None, None) => prop_assert_eq!(goal, Goal::CatchMass),
            }
        }
    }
}

/// A scale that passed its check cannot be mended by checking it.
#[test]
fn a_checked_scale_is_told_from_one_that_is_not() {
    let sheet = sheet_of(&[("60", "300", "2100"), ("60", "300", "2200")]);
    let with = |limit, error| Policy {
        uncertainty_limit_percent: limit,
        scale_error_limit_percent: error,
        ..Policy::default()
    };
    let of = |limit, error| says(&sheet, &weighed_on("1", "15000", ScaleStanding::PassedWithin, with(limit, error)));
    let hopeless = &of(1.0, 1.0)[0];
    assert!(
        hopeless.ends_with(
            " would be the best: that is what the scale may be off by. It takes a better scale, and a tighter limit for its checks."
        ),
        "{hopeless}"
    );
    // The same numbers as an unchecked scale of half the limit, of which a check is advised.
    assert_eq!(
        of(3.1, 1.0)[0],
        "One more repeat like the last, 60 revolutions, would bring the uncertainty to about 2.6 %, within the limit of 3.1 %, if the \
         scatter stays as it is."
    );
}

/// Twelve repeats that scatter are good enough; half of the limit is beyond ten more, and that is no fault.
#[test]
fn a_scatter_that_is_good_enough_is_not_called_too_much() {
    let nets = ["1860", "2140"].repeat(6);
    let sheet = sheet_of(&nets.iter().map(|net| ("60", "0", *net)).collect::<Vec<_>>());
    let policy = Policy { uncertainty_limit_percent: 4.0, ..Policy::default() };
    let advice = advised(&sheet, &weighed_on("1", "15000", ScaleStanding::PassedWithin, policy));
    assert_eq!((advice.len(), advice[0].goal, advice[0].further), (1, Goal::HalfUncertainty, None));
    assert!(
        advice[0].says.ends_with(" would be the best: that is how much the repeats scatter."),
        "{}",
        advice[0].says
    );
}

/// 5 g / sqrt(6) of 127 g is 1.61 %; for half a percent it takes 129 revolutions, 130 in handy numbers.
#[test]
fn a_tighter_share_takes_more_revolutions() {
    let sheet = sheet_of(&[("40", "300", "428"), ("40", "300", "427")]);
    let policy = Policy { catch_resolution_limit_percent: 0.5, ..Policy::default() };
    let advice = advised(&sheet, &weighed_on("5", "15000", ScaleStanding::PassedWithin, policy));
    assert_eq!(advice[0].further, Some(Further { repeats: 2, revolutions: 130.0 }));
    // A catch at the share itself is heavy enough.
    let share = 100.0 * 5.0 / 6_f64.sqrt() / 128.0;
    let policy = Policy { catch_resolution_limit_percent: share * (1.0 + 1e-12), ..Policy::default() };
    let even = sheet_of(&[("40", "300", "428"), ("40", "300", "428")]);
    let advice = advised(&even, &weighed_on("5", "15000", ScaleStanding::PassedWithin, policy));
    assert!(advice.iter().all(|advice| advice.goal != Goal::CatchMass), "{advice:?}");
}

/// Runs poured together count their revolutions together: what is expected is what the longer sheet then has.
#[test]
fn the_outlook_of_runs_poured_together() {
    let policy = Policy {
        uncertainty_limit_percent: 2.2,
        pooled_repeatability_percent: 2.0,
        pooled_repeatability_degrees_of_freedom: 1000,
        ..Policy::default()
    };
    let mut circumstances = weighed_on("1", "90000", ScaleStanding::PassedWithin, policy);
    circumstances.runs_in_use = 8;
    let mut sheet = sheet_of(&[("40.0", "300", "9900"), ("40.0", "300", "9900")]);
    sheet.repeats.iter_mut().for_each(|repeat| repeat.catches[0].runs = 8);
    let advice = advised(&sheet, &circumstances);
    let further = advice[0].further.expect("more repeats do it");
    let mut longer = sheet.clone();
    for _ in 0..further.repeats {
        let (revolutions, gross) =
            (format!("{:.1}", further.revolutions), (300.0 + 240.0 * further.revolutions).to_string());
        let mut repeat = sheet_of(&[(&revolutions, "300", &gross)]).repeats.remove(0);
        repeat.catches[0].runs = 8;
        longer.repeats.push(repeat);
    }
    let then = judge(&longer, &circumstances).expect("a possible sheet");
    close(advice[0].expected_percent.expect("a U"), then.expanded_uncertainty_percent, 2e-3);
}

/// A repeat can be no longer than the scale can weigh with its container: 130 revolutions of 3.2 g and 300 g of tare are 716 g.
#[test]
fn a_longer_repeat_must_fit_the_scale() {
    let further = |capacity: &str, runs: u32| {
        let policy = Policy { catch_resolution_limit_percent: 0.5, ..Policy::default() };
        let mut circumstances = weighed_on("5", capacity, ScaleStanding::PassedWithin, policy);
        circumstances.runs_in_use = 2;
        let mut sheet = sheet_of(&[("40", "300", "428"), ("40", "300", "427")]);
        sheet.repeats.iter_mut().for_each(|repeat| repeat.catches[0].runs = runs);
        advised(&sheet, &circumstances)[0].further
    };
    let longer = Some(Further { repeats: 2, revolutions: 130.0 });
    assert_eq!((further("700", 1), further("720", 1)), (None, longer));
    assert_eq!((further("700", 2), further("720", 2)), (None, longer));
}

/// Beyond two hundred the handy numbers are tens: 643 become 660.
#[test]
fn many_revolutions_are_advised_in_handy_numbers() {
    let policy = Policy { catch_resolution_limit_percent: 0.25, ..Policy::default() };
    let sheet = sheet_of(&[("100", "300", "428"), ("100", "300", "427")]);
    let advice = advised(&sheet, &weighed_on("5", "15000", ScaleStanding::PassedWithin, policy));
    assert_eq!(advice[0].further, Some(Further { repeats: 2, revolutions: 660.0 }));
}
