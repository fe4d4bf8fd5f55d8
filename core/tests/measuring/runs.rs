//! The runs against each other: which is always low, and when nothing can be told.

use proptest::prelude::*;
use sowmark_core::{
    catch::Sheet,
    circumstances::{Circumstances, ScaleFacts, ScaleStanding},
    factor::measure,
    runs::{Side, compare, says},
    verdict::judge,
    words::Words,
};

use crate::sheets::{catch_of, close, grams, plain_circumstances, repeat_of, sheet_of};

fn eight_runs(step: &str) -> Circumstances {
    let scale =
        ScaleFacts { readability: grams(step), capacity: grams("15000"), last_check: ScaleStanding::PassedWithin };
    Circumstances { runs_in_use: 8, scale: Some(scale), ..plain_circumstances() }
}

/// Repeats of catches labelled run 1, run 2, ... with these net masses in g.
fn apart(repeats: &[&[u32]]) -> Sheet {
    let catches = |nets: &&[u32]| {
        let catch = |(i, net): (usize, &u32)| catch_of(&format!("run {}", i + 1), 1, "300", &(300 + net).to_string());
        repeat_of("60.0", nets.iter().enumerate().map(catch).collect())
    };
    Sheet { repeats: repeats.iter().map(catches).collect() }
}

fn said(sheet: &Sheet, circumstances: &Circumstances) -> Vec<String> {
    let judgement = judge(sheet, circumstances).expect("a possible sheet");
    says(&measure(sheet, circumstances), &judgement, Words::default())
}

/// By hand: 900 against a mean of 1000 is 10 % low, 1050 is 5 % high.
#[test]
fn a_run_that_is_always_low_is_named_and_those_it_lifts_are_not() {
    let sheet = apart(&[&[900, 1050, 1050], &[900, 1060, 1040]]);
    let found = compare(&measure(&sheet, &eight_runs("1"))).expect("runs to compare");
    close(found.runs[0].mean_percent, -10.0, 1e-12);
    assert_eq!(found.runs.iter().map(|run| run.always).collect::<Vec<_>>(), [Some(Side::Low), Some(Side::High), None]);
    assert_eq!((found.repeats.as_slice(), found.scatter_is_rounding), (&[0, 1][..], false));
    assert_eq!(found.runs[2].percent.len(), 2);
    close(found.runs[2].percent[1].expect("caught"), 4.0, 1e-12);
    assert_eq!(
        said(&sheet, &eight_runs("1")),
        [
            "In both repeats run 1 gave less than the mean of the runs, 10 % on average: look at its outlet, its hose and its part \
             of the roller.",
        ]
    );
}

#[test]
fn one_bad_bag_is_not_a_bad_run() {
    let once = apart(&[&[900, 1050, 1050]]);
    assert!(compare(&measure(&once, &eight_runs("1"))).expect("runs").runs.iter().all(|run| run.always.is_none()));
    let both_ways = apart(&[&[800, 1100, 1100], &[1010, 990, 1000]]);
    assert!(compare(&measure(&both_ways, &eight_runs("1"))).expect("runs").runs.iter().all(|run| run.always.is_none()));
    // Exactly 5 % is the tolerance, not beyond it.
    let just = apart(&[&[950, 1050], &[950, 1050]]);
    assert!(compare(&measure(&just, &eight_runs("1"))).expect("runs").runs.iter().all(|run| run.always.is_none()));
    let beyond = apart(&[&[949, 1051], &[949, 1051]]);
    assert!(compare(&measure(&beyond, &eight_runs("1"))).expect("runs").runs.iter().all(|run| run.always.is_some()));
}

/// Source of the test: metrology 6.8, 120 125 120 g with d = 5 g: X = 4.0 below 5.99.
#[test]
fn scatter_of_rounding_alone_blames_no_run() {
    let sheet = apart(&[&[120, 125, 120], &[120, 125, 120]]);
    let found = compare(&measure(&sheet, &eight_runs("5"))).expect("runs");
    assert!(found.scatter_is_rounding && found.runs.iter().all(|run| run.always.is_none()));
    assert_eq!(
        said(&sheet, &eight_runs("5")),
        ["The runs differ by no more than the scale's rounding explains: catch more seed to compare them."]
    );
    assert!(!compare(&measure(&sheet, &eight_runs("1"))).expect("runs").scatter_is_rounding);
}

#[test]
fn repeats_of_rounding_alone_speak_of_the_scale() {
    let sheet = sheet_of(&[("20", "0", "120"), ("20", "0", "125"), ("20", "0", "120")]);
    assert_eq!(
        said(&sheet, &eight_runs("5")),
        [
            "The repeats differ by no more than the scale's rounding explains: that speaks of the scale, not of the meter."
        ]
    );
}

/// A set-aside repeat is not looked at, a run that was not caught once is shown as such.
#[test]
fn what_is_left_out() {
    let mut sheet = apart(&[&[900, 1050, 1050], &[900, 1060], &[500, 1500, 1500]]);
    sheet.repeats[2].set_aside = Some("spilled".to_owned());
    let found = compare(&measure(&sheet, &eight_runs("1"))).expect("runs");
    assert_eq!(found.repeats, [0, 1]);
    assert_eq!(found.runs[2].percent[1], None);
    assert_eq!(compare(&measure(&apart(&[&[900], &[910]]), &eight_runs("1"))), None);
    let twice_labelled = Sheet {
        repeats: vec![repeat_of("60", vec![catch_of("run 1", 1, "0", "900"), catch_of("run 1", 1, "0", "1100")])],
    };
    let found = compare(&measure(&twice_labelled, &eight_runs("1"))).expect("runs");
    assert_eq!(found.runs.len(), 1);
    close(found.runs[0].mean_percent + 1.0, 1.0, 1e-12);
}

/// A short catch at another rate: the plain mean of 30 and 36 g is far from 30.5.
#[test]
fn a_short_repeat_that_disagrees_is_told() {
    let sheet = sheet_of(&[("110", "0", "3300"), ("10", "0", "360")]);
    assert_eq!(
        said(&sheet, &eight_runs("1")),
        [
            "The repeats are of unequal length, and a short one disagrees with the long ones: their plain mean is 8.2 % off the \
             factor, in which every revolution counts alike. Catch repeats of equal length."
        ]
    );
    let alike = sheet_of(&[("110", "0", "3300"), ("10", "0", "303")]);
    assert_eq!(said(&alike, &eight_runs("1")), [""; 0]);
}

/// Two catches of two runs each on a scale of 1 g: the rounding of a run is 1 g / sqrt(24), so that the two may differ by
/// `sqrt(2 x 3.8415 / 24) = 0.566 g` a run. Three apart have two degrees of freedom.
#[test]
fn rounding_is_that_of_a_run_not_of_a_catch() {
    let rounding = |catches: &[(u32, &str)]| {
        let catches = catches.iter().map(|(runs, net)| catch_of("", *runs, "0", net)).collect();
        let mut circumstances = plain_circumstances();
        circumstances.scale = Some(ScaleFacts {
            readability: grams("1"),
            capacity: grams("15000"),
            last_check: ScaleStanding::PassedWithin,
        });
        let sheet = Sheet { repeats: vec![repeat_of("60", catches)] };
        compare(&measure(&sheet, &circumstances)).expect("several catches").scatter_is_rounding
    };
    assert!(rounding(&[(2, "4000"), (2, "4001.06")]), "0.53 g a run");
    assert!(!rounding(&[(2, "4000"), (2, "4001.4")]), "0.7 g a run");
    assert!(rounding(&[(1, "2000"), (1, "2001.1")]), "1.1 g of single runs");
    assert!(!rounding(&[(1, "2000"), (1, "2001.2")]), "1.2 g of single runs");
    // Squares of 1 and 1 about the middle, over 1/6: X = 12 is above 5.991; of 0.7 each, 5.88 is below.
    assert!(!rounding(&[(1, "2000"), (1, "2001"), (1, "2002")]));
    assert!(rounding(&[(1, "2000"), (1, "2000.7"), (1, "2001.4")]));
}

proptest! {
    /// Against the mean of its repeat, what one run has too much the others have too little; the order of the runs and how
    /// heavy the seed is change nothing, and a run is named low or high only where it is so each time and by more than 5 %.
    #[test]
    fn runs_against_their_mean(
        repeats in prop::collection::vec([500_u32..2_000, 500..2_000, 500..2_000, 500..2_000], 1..5),
        by in 2_u32..6,
    ) {
        let found_of = |nets: &[Vec<u32>]| {
            let nets: Vec<&[u32]> = nets.iter().map(Vec::as_slice).collect();
            compare(&measure(&apart(&nets), &eight_runs("1"))).expect("four runs")
        };
        let nets: Vec<Vec<u32>> = repeats.iter().map(|nets| nets.to_vec()).collect();
        let found = found_of(&nets);
        for repeat in 0..repeats.len() {
            let differences = found.runs.iter().map(|run| run.percent[repeat].expect("caught each time"));
            prop_assert!(differences.sum::<f64>().abs() < 1e-9);
        }
        for run in &found.runs {
            prop_assume!((run.mean_percent.abs() - 5.0).abs() > 1e-6);
            let low = run.percent.iter().flatten().all(|percent| *percent < 0.0) && run.mean_percent < -5.0;
            let high = run.percent.iter().flatten().all(|percent| *percent > 0.0) && run.mean_percent > 5.0;
            let side = if low { Some(Side::Low) } else { high.then_some(Side::High) };
            prop_assert_eq!(run.always, side.filter(|_| repeats.len() > 1 && !found.scatter_is_rounding));
        }
        let turned: Vec<Vec<u32>> = nets.iter().map(|nets| nets.iter().rev().copied().collect()).collect();
        let heavier: Vec<Vec<u32>> = nets.iter().map(|nets| nets.iter().map(|net| net * by).collect()).collect();
        for (run, (other, same)) in
            found.runs.iter().zip(found_of(&turned).runs.iter().rev().zip(&found_of(&heavier).runs))
        {
            prop_assert!((run.mean_percent - other.mean_percent).abs() < 1e-9);
            prop_assert!((run.mean_percent - same.mean_percent).abs() < 1e-9);
        }
    }
}

/// Nothing scatters and nothing is off: a policy that reckons with no scatter makes nothing of that.
#[test]
fn repeats_that_are_alike_do_not_disagree() {
    let mut circumstances = eight_runs("1");
    circumstances.policy.pooled_repeatability_percent = 0.0;
    let alike = sheet_of(&[("64", "0", "2048"), ("64", "0", "2048")]);
    assert_eq!(said(&alike, &circumstances), [""; 0]);
}
