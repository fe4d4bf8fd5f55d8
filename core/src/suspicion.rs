//! What most likely went wrong, when a factor is not what it should be.
//!
//! The result is computed again under each known slip; those that bring it to what was expected, or one repeat to the
//! others, are listed with the number each would give, most likely first. **A suspicion is a hint, never a correction**:
//! the person looks, and measures again. Nothing here changes a factor or a verdict.
//!
//! # What is listed
//!
//! Nothing, where agreement and uniformity pass and the factor is about the expected one: plausibility passes, and it is
//! within two standard uncertainties of such an expectation. (The check waits for the policy's 15 %; a slip of 10 % that
//! the sheet itself bears out is worth a hint before.) Otherwise a slip is listed when without it
//!
//! - (slip in every repeat) the factor is within [`NEAR`] of the expected one, and the sheet fits better than as it is.
//!   What a roller's displacement lets expect may itself be a tenth off, so there the reach is [`NEAR`] beyond a tenth.
//!   A run that is low in every repeat has the other catches as witnesses instead, where there are two or more;
//! - (slip in some repeats) each of them is within [`NEAR`] of the others together. One other repeat alone is no
//!   witness, so the factor must then be near the expected one too, where there is one;
//! - and it explains the sheet better than chance does.
//!
//! Each cause is listed once, at its best.
//!
//! # Most likely first
//!
//! By the product of how often the slip happens and how well the sheet fits it (Bayes). The fit is a likelihood of the
//! level against the expectation, of the repeats among each other, and of the runs of each repeat, in `suspicion/fit.rs`.
//! That alone cannot tell slips with the same number apart (one branch caught, revolutions doubled), so what the sheet
//! shows besides counts as well: tares of zero, the unit of the scale on record against the unit entered, tenths that
//! could all be ounces, one repeat of other revolutions than the rest. How often slips happen is a judgement, in
//! `suspicion/slips/`; it decides little but ties.

mod case;
mod cause;
mod fit;
mod numbers;
mod slips;

use serde::{Deserialize, Serialize};

pub use cause::Cause;

use self::{
    case::{Case, Slip},
    fit::{Fit, Scatter, fit},
};
use crate::{
    catch::Sheet,
    circumstances::Circumstances,
    quantity::{significant_digits_for, unit},
    say,
    verdict::{CheckName, Judgement, Outcome},
    words::Words,
};

/// How near to the expected, or to the other repeats, a slip must bring the result, as a ratio.
pub const NEAR: f64 = 0.05;

/// Sheets without any slip among a thousand that look as the checks found them. Where plausibility is off there are
/// hardly any; where only repeats or runs scatter there are many.
const SOUND_BUT_IMPLAUSIBLE: f64 = 10.0;
const SOUND_BUT_SCATTERED: f64 = 100.0;

/// Something that may have gone wrong.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Suspicion {
    /// Which slip.
    pub cause: Cause,
    /// The factor without the slip, kg per revolution per run. For [`Cause::OtherRoller`] the factor as measured: it is
    /// right for the roller that is in, and it is the expectation that was for another.
    pub would_give: f64,
    /// What to look at, for the person at the machine.
    pub says: String,
}

/// What most likely went wrong, most likely first; nothing where agreement and uniformity pass and the factor is about
/// the expected one.
///
/// `judgement` is that of the same sheet in the same circumstances. Total: a sheet that cannot be judged gives nothing.
///
/// ```
/// # use sowmark_core::{
/// #     catch::{Catch, Repeat, Revolutions, Sheet}, circumstances::{Circumstances, Clues, Expected},
/// #     policy::Policy, quantity::{Decimal, DriveRatio, Mass},
/// # };
/// use sowmark_core::{suspicion::{Cause, suspicions}, verdict::judge, words::Words};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let weighed = |gross| -> Result<Repeat, Box<dyn std::error::Error>> {
/// #     let catches = vec![Catch { label: None, runs: 1, tare: Mass::parse_text("0 kg")?, gross: Mass::parse_text(gross)? }];
/// #     Ok(Repeat { revolutions: Revolutions::Counted(Decimal::parse("60")?), catches, set_aside: None })
/// # };
/// # let mut circumstances = Circumstances {
/// #     runs_in_use: 8, drive_ratio: DriveRatio::parse("1")?, drive_range: None, roller_speed_rpm: None, planned: None,
/// #     working_width_m: 6.0, scale: None, thousand_seed_weight_g: None,
/// #     expected: Some(Expected::from_displacement(38e-6, 772.0)), policy: Policy::default(), clues: Clues::default(),
/// # };
/// // Sixty revolutions, no tare, about 29.3 g/rev expected of the roller, bags of 0.32 kg the last time.
/// let sheet = Sheet { repeats: vec![weighed("2.120 kg")?, weighed("2.130 kg")?, weighed("2.110 kg")?] };
/// circumstances.clues.usual_tare_kg = Some(0.32);
/// let judgement = judge(&sheet, &circumstances).map_err(|findings| format!("{findings:?}"))?;
///
/// let found = suspicions(&sheet, &circumstances, &judgement, Words::default());
/// assert_eq!(found[0].cause, Cause::TareLeftIn);
/// assert_eq!(
///     found[0].says,
///     "The bags may have been weighed in: no tare was taken off, and the bags of the last calibration weighed 0.320 kg \
///      (0.705 lb). Without them the factor would be 30.0 g/rev."
/// );
/// # Ok(())
/// # }
/// ```
pub fn suspicions(sheet: &Sheet, circumstances: &Circumstances, judgement: &Judgement, words: Words) -> Vec<Suspicion> {
    let off = |name| judgement.check(name).is_some_and(|check| check.outcome != Outcome::Pass);
    let case = Case::of(sheet, circumstances, words);
    let implausible = off(CheckName::Plausibility);
    let unexpected = case.target.is_some_and(|target| target.is_unexpected(judgement.factor));
    if !implausible && !unexpected && !off(CheckName::RepeatAgreement) && !off(CheckName::RunUniformity) {
        return Vec::new();
    }
    let scatter = Scatter::of(&circumstances.policy);
    let Some(sound) = fit(&case.numbers, None, case.target, scatter) else { return Vec::new() };
    let sound_weight = if implausible { SOUND_BUT_IMPLAUSIBLE } else { SOUND_BUT_SCATTERED };
    let chance = sound.ln_likelihood + sound_weight.ln();
    let mut best: Vec<(f64, Slip, Fit)> = Vec::new();
    for slip in slips::all(&case) {
        let Some(without) = fit(&slip.numbers, slip.left_out, slip.target, scatter) else { continue };
        let likely = without.ln_likelihood + slip.weight.ln() + slip.evidence;
        if !likely.is_finite() || likely <= chance || !is_near(&case, &slip, without, sound) {
            continue;
        }
        match best.iter_mut().find(|(_, known, _)| known.cause == slip.cause) {
            Some(known) if known.0 < likely => *known = (likely, slip, without),
            Some(_) => {}
            None => best.push((likely, slip, without)),
        }
    }
    best.sort_by(|left, right| right.0.total_cmp(&left.0).then(left.1.cause.cmp(&right.1.cause)));
    let uncertainty = judgement.expanded_uncertainty_percent;
    best.into_iter().map(|(_, slip, without)| written(slip, without.factor, uncertainty, words)).collect()
}

/// Whether the factor without the slip is where it should be.
fn is_near(case: &Case<'_>, slip: &Slip, without: Fit, sound: Fit) -> bool {
    let expected = || slip.target.is_none_or(|target| target.is_near(without.factor));
    if slip.cause == Cause::OtherRoller {
        return expected();
    }
    let factors = case.numbers.repeats.iter().zip(&slip.numbers.repeats);
    let touched: Vec<_> = factors
        .enumerate()
        .map(|(at, (before, after))| {
            let (before, after) = (before.factor(), after.factor());
            slip.left_out == Some(at) || (after / before).ln().abs() > 1e-9
        })
        .collect();
    let untouched = touched.iter().filter(|touched| !**touched).count();
    if untouched == touched.len() {
        return false;
    }
    let Some(others) = case.numbers.factor(|at| touched.get(at) == Some(&false)) else {
        return is_near_everywhere(slip, without, sound);
    };
    let agrees = slip.numbers.repeats.iter().enumerate().all(|(at, repeat)| {
        touched.get(at) != Some(&true) || slip.left_out == Some(at) || (repeat.factor() / others - 1.0).abs() <= NEAR
    });
    agrees && (untouched > 1 || expected())
}

/// Every repeat is touched, so the expectation is the witness; and the catches that stay, when a run is left out.
/// Without an expectation it can only be the repeats, when they agree now.
fn is_near_everywhere(slip: &Slip, without: Fit, sound: Fit) -> bool {
    if slip.cause == Cause::OneRunLow
        && (slip.target.is_none() || slip.numbers.repeats.iter().all(|repeat| repeat.bags.len() > 1))
    {
        return true;
    }
    let better = without.ln_likelihood + slip.evidence > sound.ln_likelihood;
    let near = |factor: f64| (factor / without.factor - 1.0).abs() <= NEAR;
    match slip.target {
        Some(target) => better && target.is_near(without.factor),
        // Bags and ounces weigh more on a light repeat than on a heavy one, so they can set repeats at odds by
        // themselves. Other slips in every repeat leave the repeats as they are to each other.
        None => {
            matches!(slip.cause, Cause::TareLeftIn | Cause::OuncesEnteredAsTenths)
                && slip.numbers.repeats.len() > 1
                && slip.numbers.repeats.iter().all(|repeat| near(repeat.factor()))
        }
    }
}

fn written(slip: Slip, would_give: f64, uncertainty_percent: f64, words: Words) -> Suspicion {
    let Slip { cause, look, .. } = slip;
    // A hint is not to be keyed in: three digits are enough.
    let digits = significant_digits_for(would_give, uncertainty_percent).min(3);
    let factor = words.print(would_give, unit::G_PER_REV, digits);
    let key = match cause {
        Cause::TareLeftIn => "suspicion-would-be-without-them",
        Cause::OneRunLow | Cause::NotPrimed => "suspicion-would-be-without-it",
        Cause::OtherRoller => "suspicion-right-for-that-roller",
        _ => "suspicion-would-be",
    };
    let ending = say!(words, key, factor = factor);
    Suspicion { cause, would_give, says: format!("{look} {ending}") }
}

#[cfg(test)]
mod tests;
