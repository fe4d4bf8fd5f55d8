//! What the machine did: a run that gave little, a meter that was not full, a roller that is another one.

use super::counting::capital;
use crate::{
    say,
    statistics::mean,
    suspicion::{
        Cause,
        case::{Case, Slip},
        numbers::Turned,
    },
};

/// A run is low when it gives less than this share of the others.
const LOW_RUN: f64 = 0.85;
/// The first repeat is low when it gives less than this share of the others.
const LOW_REPEAT: f64 = 0.97;
/// How far down a low run may be, nothing being known of that: the width of an even spread in logarithms. That of a low
/// repeat is about one, which changes no likelihood.
const LOW_RUN_WIDTH: f64 = 4.0;
/// Least share of the others that an empty meter still gives.
const LEAST_REPEAT: f64 = 0.3;

pub(super) fn slips(case: &Case<'_>) -> Vec<Slip> {
    let mut slips = one_run_low(case);
    slips.extend(not_primed(case));
    slips.extend(other_roller(case));
    slips
}

/// A repeat, a catch in it, and what the catch gave over what the others gave.
type LowCatch = (usize, usize, f64);

/// The same run in one repeat or in several: where it is far below the mean of the repeat's others.
fn one_run_low(case: &Case<'_>) -> Vec<Slip> {
    let mut runs: Vec<(String, Vec<LowCatch>)> = Vec::new();
    for (at, repeat) in case.numbers.repeats.iter().enumerate() {
        let low = shares_of_the_others(repeat).into_iter().enumerate().filter(|(_, share)| *share < LOW_RUN);
        for (position, share) in low {
            let label = case.label((at, position));
            if let Some((_, places)) = runs.iter_mut().find(|(known, _)| *known == label) {
                places.push((at, position, share));
            } else if runs.len() < 50 {
                runs.push((label, vec![(at, position, share)]));
            }
        }
    }
    let lowest = |places: &[LowCatch]| places.iter().map(|(_, _, share)| share.ln()).sum::<f64>();
    runs.sort_by(|left, right| lowest(&left.1).total_cmp(&lowest(&right.1)));
    runs.truncate(5);
    let widest = case.numbers.repeats.iter().map(|repeat| repeat.bags.len()).max().unwrap_or(1);
    runs.into_iter().filter_map(|(label, places)| without_run(case, &label, &places, widest)).collect()
}

/// Mass per run over the mean of the other catches of the repeat; no number where there are none.
fn shares_of_the_others(repeat: &Turned) -> Vec<f64> {
    let per_run: Vec<_> = repeat.bags.iter().map(|bag| bag.net_kg() / bag.runs).collect();
    let count = per_run.len() as f64;
    let sum: f64 = per_run.iter().sum();
    per_run.iter().map(|own| own * (count - 1.0) / (sum - own)).collect()
}

fn without_run(case: &Case<'_>, label: &str, places: &[LowCatch], runs: usize) -> Option<Slip> {
    let mut numbers = case.numbers.clone();
    for (at, position, _) in places {
        // A label that stands twice in a repeat is no run; then there is nothing to take out.
        if places.iter().filter(|(other, _, _)| other == at).count() > 1 {
            return None;
        }
        numbers.repeats.get_mut(*at)?.bags.remove(*position);
    }
    let shares: Vec<_> = places.iter().map(|(_, _, share)| *share).collect();
    let (&(first, _, _), average) = (places.first()?, mean(&shares)?);
    let words = case.words;
    let (run, share) = (words.run(label), words.percent(100.0 * average));
    let look = match places.len() {
        1 => say!(words, "suspicion-run-low-once", run = run, share = share, repeat = case.number(first).to_string()),
        count if count == case.numbers.repeats.len() => say!(words, "suspicion-run-low", run = run, share = share),
        count => say!(words, "suspicion-run-low-sometimes", run = run, share = share, count = count),
    };
    // One low run more for each repeat, about as low as in the others.
    let evidence = -LOW_RUN_WIDTH.ln() + (places.len() as f64 - 1.0) * 0.5;
    Some(case.slip(Cause::OneRunLow, 20.0 / runs as f64, numbers, capital(&look)).with_evidence(evidence))
}

/// The first kept repeat alone is low.
fn not_primed(case: &Case<'_>) -> Option<Slip> {
    let others = case.numbers.factor(|at| at != 0)?;
    let share = case.numbers.repeats.first()?.factor() / others;
    if !(LEAST_REPEAT..LOW_REPEAT).contains(&share) {
        return None;
    }
    let look = say!(case.words, "suspicion-not-primed", less = case.words.percent(100.0 * (1.0 - share)));
    // A repeat before it that was set aside has filled the meter.
    let weight = if case.number(0) == 1 { 12.0 } else { 2.0 };
    let slip = case.slip(Cause::NotPrimed, weight, case.numbers.clone(), look);
    Some(Slip { left_out: Some(0), ..slip })
}

/// The factor stands as measured, for the roller that is in. Of several that would fit, the one that fits best.
fn other_roller(case: &Case<'_>) -> Option<Slip> {
    let (target, measured) = (case.target?, case.numbers.factor(|_| true)?);
    let rollers = &case.circumstances.clues.other_rollers;
    let (label, target) = rollers
        .iter()
        .filter_map(|roller| Some((&roller.label, target.instead(roller.expected_factor)?)))
        .min_by(|left, right| left.1.distance(measured).total_cmp(&right.1.distance(measured)))?;
    let look = say!(case.words, "suspicion-other-roller", roller = label.trim());
    // The more rollers there are, the likelier one fits by chance.
    let weight = 8.0 / (rollers.len() as f64).sqrt();
    Some(Slip { target: Some(target), ..case.slip(Cause::OtherRoller, weight, case.numbers.clone(), look) })
}
