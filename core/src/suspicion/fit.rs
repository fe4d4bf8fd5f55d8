//! How well numbers fit together, and to what was expected.
//!
//! The logarithm of a likelihood, so that slips of different kinds can be compared: one that only moves the level
//! (pounds for kilograms everywhere) with one that only mends a scatter (an empty meter at the start). In logarithms
//! every number scatters alike: the runs of a repeat about their mean, the repeats about the factor, the factor about
//! the expected one. The unknown mean of each is integrated out, so that leaving a number out is no advantage of its own.

use std::f64::consts::TAU;

use super::numbers::{Numbers, Turned};
use crate::{
    circumstances::{Expected, ExpectedSource},
    policy::Policy,
};

/// What the factor should be about.
#[derive(Clone, Copy, Debug)]
pub(super) struct Target {
    /// kg per revolution per run.
    pub(super) factor: f64,
    /// Relative standard uncertainty.
    pub(super) uncertainty: f64,
    /// How far beyond [`super::NEAR`] a result may be from it: how far off such an expectation may be by itself.
    pub(super) doubt: f64,
}

impl Target {
    /// The uncertainties are judgements: lots of one crop differ by a few percent beyond their bulk densities, a
    /// roller's displacement says little of how the cells fill.
    pub(super) fn of(expected: Expected) -> Option<Self> {
        let (uncertainty, doubt) = match expected.source {
            ExpectedSource::LastCalibration { density_ratio: Some(_), .. } => (0.03, 0.0),
            ExpectedSource::LastCalibration { density_ratio: None, .. } => (0.04, 0.0),
            ExpectedSource::Displacement => (0.07, 0.10),
        };
        let Expected { factor, .. } = expected;
        (factor.is_finite() && factor > 0.0).then_some(Self { factor, uncertainty, doubt })
    }

    /// The same doubt about another number: what another roller should give.
    pub(super) fn instead(self, factor: f64) -> Option<Self> {
        (factor.is_finite() && factor > 0.0).then_some(Self { factor, ..self })
    }

    /// How far off a factor is, in logarithms.
    pub(super) fn distance(self, factor: f64) -> f64 {
        (factor / self.factor).ln().abs()
    }

    /// Whether a factor is off by more than such an expectation explains, at two standard uncertainties.
    pub(super) fn is_unexpected(self, factor: f64) -> bool {
        self.distance(factor) > 2.0 * self.uncertainty
    }

    /// Whether a factor is as near as a slip must bring it.
    pub(super) fn is_near(self, factor: f64) -> bool {
        (factor / self.factor - 1.0).abs() <= super::NEAR + self.doubt
    }
}

/// How much honest numbers scatter, relative standard deviations.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scatter {
    /// One repeat.
    repeat: f64,
    /// One run.
    run: f64,
}

impl Scatter {
    /// The policy's pooled repeatability; for runs half of what gets a remark. Held to sensible bounds, because a policy
    /// may say zero.
    pub(super) fn of(policy: &Policy) -> Self {
        Self {
            repeat: (policy.pooled_repeatability_percent / 100.0).clamp(0.005, 0.05),
            run: (policy.run_cv_remark_percent / 200.0).clamp(0.02, 0.1),
        }
    }
}

/// What numbers amount to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fit {
    /// kg per revolution per run.
    pub(super) factor: f64,
    /// Natural logarithm.
    pub(super) ln_likelihood: f64,
}

/// `None` where the numbers give no factor.
///
/// A repeat that is `left_out` still shows whether its runs agree, but not what the factor is.
pub(super) fn fit(numbers: &Numbers, left_out: Option<usize>, target: Option<Target>, scatter: Scatter) -> Option<Fit> {
    let factor = numbers.factor(|at| left_out != Some(at))?;
    let mut ln_likelihood = 0.0;
    let mut repeats = Vec::with_capacity(numbers.repeats.len());
    let mut runs = 0.0_f64;
    for (at, repeat) in numbers.repeats.iter().enumerate() {
        let possible = repeat.revolutions > 0.0 && repeat.bags.iter().all(|bag| bag.net_kg() > 0.0 && bag.runs >= 1.0);
        if !possible || repeat.bags.is_empty() {
            return None;
        }
        ln_likelihood += about_their_mean(&runs_of(repeat, scatter)).0;
        if left_out != Some(at) {
            repeats.push((repeat.factor().ln(), repeat_variance(repeat, scatter)));
            runs = runs.max(repeat.runs());
        }
    }
    let (agreement, mean_variance) = about_their_mean(&repeats);
    ln_likelihood += agreement;
    if let Some(target) = target {
        // Few runs of many: how far those caught are from the mean of all, too.
        let variance = target.uncertainty.powi(2) + mean_variance + scatter.run.powi(2) / runs.max(1.0);
        ln_likelihood -= 0.5 * (target.distance(factor).powi(2) / variance + (TAU * variance).ln());
    }
    (ln_likelihood.is_finite() && factor.is_finite()).then_some(Fit { factor, ln_likelihood })
}

fn runs_of(repeat: &Turned, scatter: Scatter) -> Vec<(f64, f64)> {
    let run = |bag: &super::numbers::Bag| {
        let net = bag.net_kg();
        ((net / bag.runs).ln(), scatter.run.powi(2) / bag.runs + bag.variance / (net * net))
    };
    repeat.bags.iter().map(run).collect()
}

fn repeat_variance(repeat: &Turned, scatter: Scatter) -> f64 {
    let caught = repeat.caught_kg();
    let reading = repeat.bags.iter().map(|bag| bag.variance).sum::<f64>() / (caught * caught);
    let turning = (repeat.step / repeat.revolutions).powi(2) / 6.0;
    scatter.repeat.powi(2) + reading + turning
}

/// The logarithm of the likelihood of (value, variance) about a mean that nothing is known of, and the variance of the
/// mean: with `w = 1 / variance`, `-(sum w (y - m)² + sum ln(2 pi / w) - ln(2 pi / sum w)) / 2`.
fn about_their_mean(values: &[(f64, f64)]) -> (f64, f64) {
    let weights: f64 = values.iter().map(|(_, variance)| variance.recip()).sum();
    let mean = values.iter().map(|(value, variance)| value / variance).sum::<f64>() / weights;
    let squares: f64 = values.iter().map(|(value, variance)| (value - mean).powi(2) / variance).sum();
    let widths: f64 = values.iter().map(|(_, variance)| (TAU * variance).ln()).sum();
    (-(squares + widths - (TAU / weights).ln()) / 2.0, weights.recip())
}
