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

/// `None` where the numbers give no factor. What cannot be (a catch of less than nothing, no runs, no revolutions) has no
/// logarithm or an infinite one, so it gives none either.
///
/// A repeat that is `left_out` still shows whether its runs agree, but not what the factor is.
pub(super) fn fit(numbers: &Numbers, left_out: Option<usize>, target: Option<Target>, scatter: Scatter) -> Option<Fit> {
    let factor = numbers.factor(|at| left_out != Some(at))?;
    let mut ln_likelihood = 0.0;
    let mut repeats = Vec::with_capacity(numbers.repeats.len());
    let mut runs = 0.0_f64;
    for (at, repeat) in numbers.repeats.iter().enumerate() {
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
    ln_likelihood.is_finite().then_some(Fit { factor, ln_likelihood })
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

#[cfg(test)]
mod tests {
    use super::{super::numbers::Bag, *};

    const SCATTER: Scatter = Scatter { repeat: 0.015, run: 0.05 };

    fn target(factor: f64) -> Target {
        Target { factor, uncertainty: 0.04, doubt: 0.0 }
    }

    /// Net mass in kg, runs, variance.
    fn turned(revolutions: f64, step: f64, bags: [(f64, f64, f64); 2]) -> Turned {
        let bag = |(net, runs, variance)| Bag { gross_kg: net + 0.3, tare_kg: 0.3, runs, variance };
        Turned { revolutions, step, bags: bags.map(bag).to_vec() }
    }

    fn caught() -> Vec<Turned> {
        vec![
            turned(60.0, 1.0, [(1.80, 1.0, 4e-4), (3.70, 2.0, 9e-4)]),
            turned(50.0, 0.5, [(1.52, 1.0, 4e-4), (2.98, 2.0, 1e-4)]),
        ]
    }

    #[track_caller]
    fn close(found: f64, expected: f64) {
        assert!((found - expected).abs() <= 1e-12 * expected.abs().max(1.0), "{found} is not {expected}");
    }

    /// Nothing known of their mean, two values tell as much as their difference does, whose variances add up.
    #[test]
    fn two_values_are_as_likely_as_their_difference() {
        let (likely, of_the_mean) = about_their_mean(&[(1.0, 0.04), (1.2, 0.01)]);
        close(likely, -0.5 * (0.2_f64.powi(2) / 0.05 + (TAU * 0.05).ln()));
        close(of_the_mean, 1.0 / 125.0);
    }

    /// The density of three values about a mean, integrated over the mean by sums of small steps, outside of this project's code.
    #[test]
    fn three_values_are_as_likely_as_the_integral_over_their_mean() {
        let (likely, of_the_mean) = about_their_mean(&[(1.0, 0.04), (1.2, 0.01), (0.9, 0.09)]);
        close(likely, 0.076_485_011_339_759_7);
        close(of_the_mean, 0.007_346_938_775_510_2);
    }

    /// By hand: 5 % of one run, and 0.02 kg in 1.8 kg; 1.5 % of a repeat, sqrt(13e-4) kg in 5.5 kg, a step in 60 turns.
    #[test]
    fn each_number_scatters_as_it_was_caught() {
        let first = &caught()[0];
        let runs = runs_of(first, SCATTER);
        close(runs[0].0, 1.8_f64.ln());
        close(runs[0].1, 0.05 * 0.05 + (0.02_f64 / 1.8).powi(2));
        close(runs[1].0, 1.85_f64.ln());
        close(runs[1].1, 0.05 * 0.05 / 2.0 + (0.03_f64 / 3.7).powi(2));
        close(repeat_variance(first, SCATTER), 0.015 * 0.015 + 13e-4 / (5.5 * 5.5) + 1.0 / (60.0 * 60.0 * 6.0));
    }

    /// The likelihoods were computed as those of the three values, each mean integrated over.
    #[test]
    fn runs_repeats_and_expectation_are_weighed_together() {
        let mut numbers = Numbers { repeats: caught() };
        let alone = fit(&numbers, None, None, SCATTER).expect("a factor");
        close(alone.factor, 10.0 / 330.0);
        close(alone.ln_likelihood, 6.070_549_487_750_18);
        let expected = fit(&numbers, None, Some(target(0.029)), SCATTER).expect("a factor");
        close(expected.ln_likelihood, 7.757_341_674_277_29);
        // An empty meter at the start: its runs count, its factor does not.
        numbers.repeats.insert(0, turned(40.0, 2.0, [(0.90, 1.0, 1e-4), (2.50, 2.0, 1e-4)]));
        let filled = fit(&numbers, Some(0), Some(target(0.029)), SCATTER).expect("a factor");
        close(filled.factor, 10.0 / 330.0);
        close(filled.ln_likelihood, -4.259_603_798_097_36);
    }

    #[test]
    fn what_cannot_be_gives_no_factor() {
        let with = |change: fn(&mut Turned)| {
            let mut repeats = caught();
            change(&mut repeats[1]);
            fit(&Numbers { repeats }, None, Some(target(0.03)), SCATTER).map(|fit| fit.factor)
        };
        assert!(with(|_| ()).is_some());
        assert_eq!(with(|repeat| repeat.revolutions = 0.0), None);
        assert_eq!(with(|repeat| repeat.bags[0].runs = 0.0), None);
        assert_eq!(with(|repeat| repeat.bags[0].gross_kg = 0.3), None);
        assert_eq!(with(|repeat| repeat.bags[0].gross_kg = 0.1), None);
        assert_eq!(with(|repeat| repeat.bags.clear()), None);
        assert!(fit(&Numbers { repeats: Vec::new() }, None, None, SCATTER).is_none());
    }

    #[test]
    fn only_a_factor_above_zero_can_be_expected() {
        let source = ExpectedSource::Displacement;
        for factor in [0.0, -0.03, f64::NAN, f64::INFINITY] {
            assert!(Target::of(Expected { factor, source }).is_none(), "{factor}");
            assert!(target(0.03).instead(factor).is_none(), "{factor}");
        }
        let other = Target::of(Expected { factor: 0.03, source }).and_then(|target| target.instead(0.05)).expect("one");
        assert_eq!((other.factor, other.uncertainty, other.doubt), (0.05, 0.07, 0.10));
    }

    /// Two standard uncertainties of 4 % are 8 % in logarithms.
    #[test]
    fn unexpected_is_what_two_uncertainties_do_not_explain() {
        let off_by = |logarithm: f64| target(0.03).is_unexpected(0.03 * logarithm.exp());
        assert!(!off_by(0.0) && !off_by(0.0799) && !off_by(-0.0799));
        assert!(off_by(0.0801) && off_by(-0.0801));
        // At the limit itself: nothing is off by more than nothing.
        assert!(!Target { uncertainty: 0.0, ..target(0.03) }.is_unexpected(0.03));
    }

    #[test]
    fn the_policy_says_how_much_scatters() {
        let of = |repeat, runs| {
            let policy =
                Policy { pooled_repeatability_percent: repeat, run_cv_remark_percent: runs, ..Policy::default() };
            let Scatter { repeat, run } = Scatter::of(&policy);
            (repeat, run)
        };
        assert_eq!(of(1.5, 10.0), (0.015, 0.05));
        assert_eq!(of(4.0, 16.0), (0.04, 0.08));
        assert_eq!((of(0.0, 0.1), of(50.0, 200.0)), ((0.005, 0.02), (0.05, 0.1)));
    }
}
