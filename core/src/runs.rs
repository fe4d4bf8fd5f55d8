//! The runs of a unit against each other, over all repeats: which one is always low, and how much few catches can tell.
//!
//! A verdict has one figure for the runs ([`crate::verdict`], `run_uniformity`); this is the comparison behind it, for
//! people who would rather look. A single bad bag and a run that is always low look alike in one repeat; only over several
//! can they be told apart.

use serde::{Deserialize, Serialize};

use crate::{
    factor::{Measured, MeasuredRepeat},
    say,
    statistics::{chi_squared_quantile, mean, standard_deviation},
    uncertainty::budget::BudgetTerm,
    verdict::Judgement,
    words::Words,
};

/// A run that is off by no more than this (percent of the mean of the runs) is not called always low or high: the
/// textbook's tolerance of plus or minus 5 % for a drill's outlets.
pub const REMARKABLE_PERCENT: f64 = 5.0;

/// Below or above the mean of the runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// Less than the mean.
    Low,
    /// More than the mean.
    High,
}

/// One run over the kept repeats.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ComparedRun {
    /// The catch's label.
    pub label: String,
    /// Its difference from the mean of the runs in each kept repeat that had runs to compare, percent; `None` where it was
    /// not caught.
    pub percent: Vec<Option<f64>>,
    /// Averaged.
    pub mean_percent: f64,
    /// It was on the same side in every such repeat, two at least, and by more than [`REMARKABLE_PERCENT`] on average.
    pub always: Option<Side>,
}

/// The runs against each other.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RunComparison {
    /// In the order in which their labels first appear.
    pub runs: Vec<ComparedRun>,
    /// The places on the sheet, counted from 0, of the repeats compared.
    pub repeats: Vec<usize>,
    /// The runs differ by no more than the scale's rounding explains; then none is called always low or high.
    pub scatter_is_rounding: bool,
}

/// The comparison of the runs; `None` where no kept repeat has two catches.
///
/// Catches with one label within a repeat are averaged. That the scatter is nothing but rounding is held by the test
/// `X = sum over repeats of (n - 1) s² / rounding variance` below the chi-squared quantile 0.95 at `sum (n - 1)`: the
/// test of the repeats, pooled.
pub fn compare(measured: &Measured) -> Option<RunComparison> {
    let comparable = |repeat: &MeasuredRepeat| !repeat.set_aside && !repeat.run_differences_percent().is_empty();
    let (repeats, compared): (Vec<usize>, Vec<&MeasuredRepeat>) =
        measured.repeats.iter().enumerate().filter(|(_, repeat)| comparable(repeat)).unzip();
    if repeats.is_empty() {
        return None;
    }
    let scatter_is_rounding = rounding_explains(&compared).unwrap_or(false);
    let mut runs: Vec<ComparedRun> = Vec::new();
    for repeat in &compared {
        for (label, _) in repeat.run_differences_percent() {
            if !runs.iter().any(|run| run.label == label) {
                runs.extend(compared_run(label, &compared, scatter_is_rounding));
            }
        }
    }
    Some(RunComparison { runs, repeats, scatter_is_rounding })
}

fn compared_run(label: &str, repeats: &[&MeasuredRepeat], scatter_is_rounding: bool) -> Option<ComparedRun> {
    let in_repeat = |repeat: &&MeasuredRepeat| {
        let differences = repeat.run_differences_percent();
        mean(&differences.iter().filter(|(known, _)| *known == label).map(|(_, percent)| *percent).collect::<Vec<_>>())
    };
    let percent: Vec<Option<f64>> = repeats.iter().map(in_repeat).collect();
    let caught: Vec<f64> = percent.iter().copied().flatten().collect();
    let mean_percent = mean(&caught)?;
    let side = if mean_percent.is_sign_negative() { Side::Low } else { Side::High };
    let same = caught.iter().all(|percent| percent.is_sign_negative() == (side == Side::Low) && *percent != 0.0);
    let remarkable =
        same && caught.len() > 1 && mean_percent.abs() > REMARKABLE_PERCENT * (1.0 + 1e-9) && !scatter_is_rounding;
    Some(ComparedRun { label: label.to_owned(), percent, mean_percent, always: remarkable.then_some(side) })
}

fn rounding_explains(repeats: &[&MeasuredRepeat]) -> Option<bool> {
    let (mut statistic, mut degrees) = (0.0, 0.0);
    for repeat in repeats {
        let rounding = |catch: &crate::factor::MeasuredCatch| catch.rounding_variance / f64::from(catch.runs).powi(2);
        let rounding = mean(&repeat.catches.iter().map(rounding).collect::<Vec<_>>())?;
        let free = repeat.catches.len() as f64 - 1.0;
        statistic += free * standard_deviation(&repeat.per_run())?.powi(2) / rounding;
        degrees += free;
    }
    Some(statistic < chi_squared_quantile(0.95, degrees)?)
}

/// What runs and repeats tell, in sentences for the person who caught them; empty where there is nothing to say.
///
/// The judgement is that of the same sheet. Runs first, then the repeats. How little few catches tell (the interval of the CV)
/// is said by the check of the runs.
pub fn says(measured: &Measured, judgement: &Judgement, words: Words) -> Vec<String> {
    let mut sentences = Vec::new();
    if let Some(comparison) = compare(measured) {
        sentences.extend(outstanding(&comparison).filter_map(|run| always(run, words)));
        if comparison.scatter_is_rounding {
            sentences.push(say!(words, "runs-rounding"));
        }
    }
    let differ = judgement.repeat_spread_percent.is_some_and(|spread| spread > 0.0);
    if differ && judgement.scatter_is_rounding {
        sentences.push(say!(words, "runs-repeats-rounding"));
    }
    sentences.extend(unequal_repeats(measured, judgement, words));
    sentences
}

/// The runs that are always on the side of the one that is farthest off: the others lie beyond the mean because of it.
fn outstanding(comparison: &RunComparison) -> impl Iterator<Item = &ComparedRun> {
    let remarkable = || comparison.runs.iter().filter(|run| run.always.is_some());
    let farthest = remarkable().max_by(|a, b| a.mean_percent.abs().total_cmp(&b.mean_percent.abs()));
    let side = farthest.and_then(|run| run.always);
    remarkable().filter(move |run| run.always == side)
}

fn always(run: &ComparedRun, words: Words) -> Option<String> {
    let times = match (run.percent.iter().all(Option::is_some), run.percent.len()) {
        (false, _) => "caught",
        (true, 2) => "both",
        (true, _) => "all",
    };
    let key = match run.always? {
        Side::Low => "runs-always-low",
        Side::High => "runs-always-high",
    };
    let size = words.percent(run.mean_percent.abs());
    Some(say!(words, key, times = times, run = words.run(&run.label), size = size))
}

/// Repeats of unequal length whose plain mean is off the ratio of sums by more than the repeats' scatter: then a short one
/// disagrees with the long ones, and it matters which estimate is taken.
fn unequal_repeats(measured: &Measured, judgement: &Judgement, words: Words) -> Option<String> {
    let factors: Vec<f64> = measured.kept().map(MeasuredRepeat::factor).collect();
    let off = 100.0 * (mean(&factors)? / judgement.factor - 1.0);
    let line = judgement.budget.iter().find(|line| line.term == BudgetTerm::Repeatability)?;
    (off.abs() > line.relative_standard_uncertainty_percent)
        .then(|| say!(words, "runs-unequal-repeats", off = words.percent(off.abs())))
}
