//! The budget of a meter factor: which share of its uncertainty comes from where.
//!
//! Four relative components, combined by [`combine`]. None of them is ever left out: a catch without
//! any scatter is still read off a scale in steps.

use serde::{Deserialize, Serialize};

use super::{Component, combine, pool};
use crate::{
    circumstances::{Circumstances, ScaleStanding},
    factor::{Measured, MeasuredRepeat},
    policy::Policy,
    say,
    statistics::coefficient_of_variation,
    words::Words,
};

/// The level of confidence of every expanded uncertainty shown.
pub const LEVEL: f64 = 0.95;

/// Where a part of the uncertainty comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BudgetTerm {
    /// Repeats differ.
    Repeatability,
    /// The scale reads in steps.
    Readability,
    /// The scale may be off.
    Scale,
    /// Revolutions are counted in steps.
    Revolutions,
}

/// One line of the budget.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BudgetLine {
    /// Which component.
    pub term: BudgetTerm,
    /// Its standard uncertainty, percent of the factor.
    pub relative_standard_uncertainty_percent: f64,
    /// How well it is known; `None` for a known bound.
    pub degrees_of_freedom: Option<f64>,
    /// How it came about.
    pub says: String,
}

/// A budget and what it adds up to.
#[derive(Clone, Debug, PartialEq)]
pub struct Budget {
    /// Line by line.
    pub lines: Vec<BudgetLine>,
    /// Relative, not percent.
    pub combined: Component,
}

/// The budget of the kept repeats; `None` where the sheet holds no seed or no revolutions (it then fails
/// [`Sheet::check`](crate::catch::Sheet::check)).
pub fn of(measured: &Measured, circumstances: &Circumstances, words: Words) -> Option<Budget> {
    let terms = [
        (BudgetTerm::Repeatability, repeatability(measured, &circumstances.policy, words)?),
        (BudgetTerm::Readability, readability(measured, words)?),
        (BudgetTerm::Scale, scale(circumstances, words)),
        (BudgetTerm::Revolutions, revolutions(measured, words)?),
    ];
    let components: Vec<_> = terms.iter().map(|(_, (component, _))| *component).collect();
    let line = |(term, (component, says)): (BudgetTerm, (Component, String))| BudgetLine {
        term,
        relative_standard_uncertainty_percent: 100.0 * component.standard_uncertainty,
        degrees_of_freedom: component.degrees_of_freedom,
        says,
    };
    Some(Budget { lines: terms.into_iter().map(line).collect(), combined: combine(&components) })
}

/// `u² = s² / r` with `s² = (nu0 s0² + (r - 1) sr²) / (nu0 + r - 1)`: the repeats' own scatter pooled with what is known
/// from earlier catches (GUM 4.2.4), because two repeats alone cannot estimate a spread.
///
/// A single repeat under a policy without pooling has no degrees of freedom at all. It is then judged with the policy's
/// scatter at one degree of freedom, the least an estimate can have: wide enough to be held, not refused, since what
/// was caught in the field must not be lost to a setting.
fn repeatability(measured: &Measured, policy: &Policy, words: Words) -> Option<(Component, String)> {
    let factors: Vec<_> = measured.kept().map(MeasuredRepeat::factor).collect();
    let repeats = factors.len() as f64;
    let known =
        (policy.pooled_repeatability_percent / 100.0, f64::from(policy.pooled_repeatability_degrees_of_freedom));
    let seen = match factors.len() {
        1 => (0.0, 0.0),
        _ => (coefficient_of_variation(&factors)?, repeats - 1.0),
    };
    let scatter = pool(&[known, seen]).unwrap_or(Component::estimated(known.0, 1.0));
    let says = match (seen.1 > 0.0, known.1 > 0.0) {
        (true, true) => say!(words, "budget-repeats-pooled", repeats = factors.len()),
        (true, false) => say!(words, "budget-repeats-alone", repeats = factors.len()),
        (false, true) => say!(words, "budget-one-repeat"),
        (false, false) => say!(words, "budget-one-repeat-unknown"),
    };
    Some((scatter.times(repeats.sqrt().recip()), says))
}

/// `u² = sum over catches of (d_gross² + d_tare²) / 12 / M²`; with one step d for all readings `n_t (d² / 6) / M²`.
fn readability(measured: &Measured, words: Words) -> Option<(Component, String)> {
    let caught = measured.kept().map(MeasuredRepeat::caught_kg).sum::<f64>();
    let catches: usize = measured.kept().map(|repeat| repeat.catches.len()).sum();
    let variance = measured.kept().map(MeasuredRepeat::rounding_variance).sum::<f64>();
    let says = say!(words, "budget-readings", readings = 2 * catches);
    (caught > 0.0).then(|| (Component::known(variance.sqrt() / caught), says))
}

/// `u = e / sqrt(3)`, e the policy's scale error limit with a passing check in force, twice that without one. Common to
/// all catches, so it does not average out.
fn scale(circumstances: &Circumstances, words: Words) -> (Component, String) {
    let limit = circumstances.policy.scale_error_limit_percent;
    let in_force = circumstances.scale.as_ref().is_some_and(|scale| scale.last_check == ScaleStanding::PassedWithin);
    let (error, says) = if in_force {
        (limit, say!(words, "budget-scale-checked", error = words.exactly(limit)))
    } else {
        let twice = 2.0 * limit;
        (twice, say!(words, "budget-scale-unchecked", error = words.exactly(twice)))
    };
    (Component::rectangular(error / 100.0), says)
}

/// `u² = sum((K_j delta_j)²) / 6 / sum(K_j N_j)²`: start and stop are both rounded to the step delta.
fn revolutions(measured: &Measured, words: Words) -> Option<(Component, String)> {
    let total = measured.kept().map(MeasuredRepeat::run_revolutions).sum::<f64>();
    let steps = measured.kept().map(|repeat| (repeat.runs() * repeat.revolution_step).powi(2)).sum::<f64>();
    let says = say!(words, "budget-revolutions");
    (total > 0.0).then(|| (Component::known((steps / 6.0).sqrt() / total), says))
}
