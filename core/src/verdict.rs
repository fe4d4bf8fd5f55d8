//! The judgement of a calibration: its factor, how well it is known, and whether it may be keyed in.
//!
//! [`judge`] goes from a sheet to a [`Judgement`]: sums ([`crate::factor`]), budget ([`crate::uncertainty::budget`]),
//! then one check after the other (`checks.rs`, one function each). Any failed check fails the calibration, which
//! is then held for a person to decide; a remark lets it pass with remarks. Nothing is corrected here, and nothing is
//! refused that can be computed: what is impossible is found by [`Sheet::check`] and given back as findings.

mod checks;
mod explained;

pub use explained::Explained;
use serde::{Deserialize, Serialize};

use crate::{
    catch::{Finding, Pointer, Sheet},
    circumstances::Circumstances,
    factor::{Measured, MeasuredRepeat, measure},
    say,
    statistics::{coefficient_of_variation_interval, mean, relative_range, scatter_is_rounding},
    uncertainty::budget::{self, BudgetLine, LEVEL},
    words::Words,
};

/// What a calibration amounts to. Masses in kg, factors in kg per revolution, shares in percent.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Judgement {
    /// The meter factor q, kg per revolution per run.
    pub factor: f64,
    /// q x runs in use, kg per revolution of the whole unit.
    pub factor_unit_total: f64,
    /// `u_c`, percent of the factor.
    pub combined_uncertainty_percent: f64,
    /// U at 95 %, percent of the factor.
    pub expanded_uncertainty_percent: f64,
    /// `U / u_c`.
    pub coverage_factor: f64,
    /// `nu_eff`; `None` when infinite.
    pub effective_degrees_of_freedom: Option<f64>,
    /// Where the uncertainty comes from.
    pub budget: Vec<BudgetLine>,
    /// Every repeat of the sheet, those set aside marked.
    pub repeats: Vec<RepeatResult>,
    /// `100 (max q_j - min q_j) / mean q_j`; `None` for one repeat.
    pub repeat_spread_percent: Option<f64>,
    /// The repeats differ by no more than the scale's rounding explains.
    pub scatter_is_rounding: bool,
    /// The largest CV of the runs in a kept repeat; `None` where none could be compared.
    pub run_cv_percent: Option<f64>,
    /// Where the true CV lies with 95 %, given so few runs (modified McKay).
    pub run_cv_interval_percent: Option<(f64, f64)>,
    /// Each run's difference from the mean, averaged over the kept repeats.
    pub run_differences: Vec<RunDifference>,
    /// The net mass at which the scale's rounding, d / sqrt(6), is just the policy's share of a catch.
    pub minimum_catch_kg: f64,
    /// The outcome of all checks.
    pub verdict: Verdict,
    /// The checks that apply, in the order of the table.
    pub checks: Vec<Check>,
}

/// One repeat of a judgement.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RepeatResult {
    /// `q_j`, kg per revolution per run.
    pub factor: f64,
    /// Net mass of all its catches, kg.
    pub caught_kg: f64,
    /// Roller revolutions.
    pub revolutions: f64,
    /// Runs caught.
    pub runs: u32,
    /// CV of its runs; `None` for a single catch.
    pub run_cv_percent: Option<f64>,
    /// It does not count.
    pub set_aside: bool,
}

/// How far one run is from the mean of the runs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RunDifference {
    /// The catch's label.
    pub label: String,
    /// Percent of the mean.
    pub percent: f64,
}

/// Whether the factor may be used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Accepted.
    Pass,
    /// Accepted, with something to know.
    PassWithRemarks,
    /// Held until the office decides.
    Fail,
}

/// One check and how it went.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Check {
    /// Which.
    pub check: CheckName,
    /// What was found, in [`Self::unit`].
    pub value: Option<f64>,
    /// What it is held against, in [`Self::unit`]: the limit beyond which the check fails, where it can fail.
    pub limit: Option<f64>,
    /// Unit of value and limit; empty where there are none.
    pub unit: String,
    /// How it went.
    pub outcome: Outcome,
    /// A sentence for the person who caught the seed.
    pub says: String,
}

/// The checks of the verdict table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CheckName {
    /// Enough repeats.
    Repeats,
    /// The repeats agree.
    RepeatAgreement,
    /// The runs agree.
    RunUniformity,
    /// The runs were weighed apart.
    CatchesApart,
    /// The catch is heavy enough for the scale.
    CatchMass,
    /// The factor is known well enough.
    Uncertainty,
    /// It was caught at the speed it will run at.
    RollerSpeed,
    /// The scale can be trusted.
    Scale,
    /// The factor is about what was expected.
    Plausibility,
}

/// How a check went.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// As it should be.
    Pass,
    /// Worth knowing.
    Remark,
    /// Beyond the limit.
    Fail,
}

impl Judgement {
    /// The check of that name, where it applies.
    pub fn check(&self, name: CheckName) -> Option<&Check> {
        self.checks.iter().find(|check| check.check == name)
    }

    /// Whether another judgement has the same numbers and outcomes. The sentences may be worded otherwise: what was
    /// stored years ago is held to the computation, not to its wording.
    pub fn agrees_with(&self, other: &Self) -> bool {
        self.without_words() == other.without_words()
    }

    fn without_words(&self) -> Self {
        let mut bare = self.clone();
        bare.budget.iter_mut().for_each(|line| line.says.clear());
        bare.checks.iter_mut().for_each(|check| check.says.clear());
        bare
    }
}

/// Judges a sheet. Shapes and formulas: one ratio of sums over the kept repeats, GUM budget, nine checks.
///
/// # Errors
/// Everything impossible about the sheet and its circumstances, at once.
///
/// See the [crate] for an example from a catch to a number to key in.
pub fn judge(sheet: &Sheet, circumstances: &Circumstances) -> Result<Judgement, Vec<Finding>> {
    judge_in(sheet, circumstances, Words::default())
}

/// [`judge`], with its sentences as a person reads numbers. The numbers themselves are the same.
///
/// # Errors
/// As [`judge`].
pub fn judge_in(sheet: &Sheet, circumstances: &Circumstances, words: Words) -> Result<Judgement, Vec<Finding>> {
    let findings = sheet.check_in(circumstances, words);
    if !findings.is_empty() {
        return Err(findings);
    }
    let measured = measure(sheet, circumstances);
    judge_measured(&measured, circumstances, words).ok_or_else(|| {
        // A sheet that passed its check has seed, revolutions and a budget; only numbers at the edge of what a float
        // holds could end here.
        vec![Finding::new(Pointer::root().then("repeats"), say!(words, "sheet-no-factor"))]
    })
}

/// Judges numbers; `None` where they give no factor. [`judge`] comes here with a checked sheet.
pub fn judge_measured(measured: &Measured, circumstances: &Circumstances, words: Words) -> Option<Judgement> {
    let factor = measured.factor()?;
    // No budget where there is no seed or no revolution, so the factor is above zero from here on.
    let budget = budget::of(measured, circumstances, words)?;
    let coverage_factor = budget.combined.coverage_factor(LEVEL)?;
    let factors: Vec<_> = measured.kept().map(MeasuredRepeat::factor).collect();
    let widest = widest_run_cv(measured);
    let mut judgement = Judgement {
        factor,
        factor_unit_total: factor * f64::from(circumstances.runs_in_use),
        combined_uncertainty_percent: 100.0 * budget.combined.standard_uncertainty,
        expanded_uncertainty_percent: 100.0 * coverage_factor * budget.combined.standard_uncertainty,
        coverage_factor,
        effective_degrees_of_freedom: budget.combined.degrees_of_freedom,
        budget: budget.lines,
        repeats: measured.repeats.iter().map(RepeatResult::of).collect(),
        repeat_spread_percent: relative_range(&factors).map(|range| 100.0 * range),
        scatter_is_rounding: repeats_scatter_is_rounding(measured).unwrap_or(false),
        run_cv_percent: widest.map(|(cv, _)| cv),
        run_cv_interval_percent: widest.and_then(|(cv, runs)| cv_interval_percent(cv, runs)),
        run_differences: run_differences(measured),
        minimum_catch_kg: minimum_catch_kg(measured, circumstances.policy.catch_resolution_limit_percent),
        verdict: Verdict::Pass,
        checks: Vec::new(),
    };
    judgement.checks = checks::all(&judgement, measured, circumstances, words);
    judgement.verdict = match judgement.checks.iter().map(|check| check.outcome).max() {
        Some(Outcome::Fail) => Verdict::Fail,
        Some(Outcome::Remark) => Verdict::PassWithRemarks,
        Some(Outcome::Pass) | None => Verdict::Pass,
    };
    judgement.is_finite().then_some(judgement)
}

impl Judgement {
    fn is_finite(&self) -> bool {
        let repeats = self.repeats.iter().flat_map(|repeat| [repeat.factor, repeat.caught_kg, repeat.revolutions]);
        [self.factor_unit_total, self.combined_uncertainty_percent, self.expanded_uncertainty_percent]
            .into_iter()
            .chain(repeats)
            .all(f64::is_finite)
    }
}

impl RepeatResult {
    fn of(repeat: &MeasuredRepeat) -> Self {
        Self {
            factor: repeat.factor(),
            caught_kg: repeat.caught_kg(),
            revolutions: repeat.revolutions,
            runs: repeat.catches.iter().fold(0, |runs, catch| runs.saturating_add(catch.runs)),
            run_cv_percent: repeat.run_cv_percent(),
            set_aside: repeat.set_aside,
        }
    }
}

/// The largest CV of the runs in a kept repeat, with the number of catches behind it.
fn widest_run_cv(measured: &Measured) -> Option<(f64, usize)> {
    measured
        .kept()
        .filter_map(|repeat| repeat.run_cv_percent().map(|cv| (cv, repeat.catches.len())))
        .max_by(|left, right| left.0.total_cmp(&right.0))
}

fn cv_interval_percent(cv_percent: f64, runs: usize) -> Option<(f64, f64)> {
    let (low, high) = coefficient_of_variation_interval(cv_percent / 100.0, runs, LEVEL)?;
    Some((100.0 * low, 100.0 * high))
}

/// `X = (n - 1) s_m² / (d² / 6)` of the repeats' net masses. Repeats of unequal revolutions are brought to their mean
/// first, and a repeat of several catches has the rounding of all its readings; for equal repeats of one catch each
/// that is the formula to the letter.
fn repeats_scatter_is_rounding(measured: &Measured) -> Option<bool> {
    let run_revolutions: Vec<_> = measured.kept().map(MeasuredRepeat::run_revolutions).collect();
    let common = mean(&run_revolutions)?;
    let masses: Vec<_> = measured.kept().map(|repeat| repeat.factor() * common).collect();
    let rounding = measured.kept().map(|repeat| {
        let scale = common / repeat.run_revolutions();
        repeat.rounding_variance() * scale * scale
    });
    scatter_is_rounding(&masses, mean(&rounding.collect::<Vec<_>>())?)
}

/// By label, in the order in which the labels first appear.
fn run_differences(measured: &Measured) -> Vec<RunDifference> {
    let mut by_label: Vec<(&str, Vec<f64>)> = Vec::new();
    for (label, percent) in measured.kept().flat_map(MeasuredRepeat::run_differences_percent) {
        match by_label.iter_mut().find(|(known, _)| *known == label) {
            Some((_, percents)) => percents.push(percent),
            None => by_label.push((label, vec![percent])),
        }
    }
    let averaged = |(label, percents): (&str, Vec<f64>)| {
        mean(&percents).map(|percent| RunDifference { label: label.to_owned(), percent })
    };
    by_label.into_iter().filter_map(averaged).collect()
}

/// d / sqrt(6) / (the policy's share), by the coarsest reading of the kept catches.
fn minimum_catch_kg(measured: &Measured, limit_percent: f64) -> f64 {
    let catches = measured.kept().flat_map(|repeat| &repeat.catches);
    let coarsest = catches.map(|catch| catch.rounding_variance).fold(0.0, f64::max);
    coarsest.sqrt() * 100.0 / limit_percent
}
