//! What is still missing, before the next repeat is caught: how many revolutions, and how often.
//!
//! A person at the machine does not ask for an uncertainty but for how much longer to turn. [`next_catch`] holds the sheet
//! as it stands against the policy's share for the scale's rounding and its limit on the uncertainty, and gives the
//! least that would do, or says that no catch will and which part of the budget is to blame. It promises nothing: it
//! reckons with repeats that scatter as those so far.

mod minimum;
mod outlook;

use serde::{Deserialize, Serialize};

pub use minimum::{minimum_catch_kg, minimum_catch_shared_tare_kg, minimum_catch_with_scatter_kg, minimum_revolutions};
use outlook::Outlook;

use crate::{
    catch::Sheet,
    circumstances::{Circumstances, ScaleStanding},
    factor::measure,
    say,
    uncertainty::budget::BudgetTerm,
    verdict::{CheckName, Judgement, Outcome},
    words::Words,
};

/// What is to be reached.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Goal {
    /// Catches heavy enough for the scale's step.
    CatchMass,
    /// An uncertainty within the policy's limit: the check would no longer fail.
    Uncertainty,
    /// An uncertainty within half of the limit: the check would no longer remark.
    HalfUncertainty,
}

impl Goal {
    /// As the texts choose by it.
    const fn word(self) -> &'static str {
        match self {
            Self::HalfUncertainty => "half",
            Self::CatchMass | Self::Uncertainty => "whole",
        }
    }
}

/// What to catch yet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Further {
    /// Repeats.
    pub repeats: u32,
    /// Roller revolutions of each.
    pub revolutions: f64,
}

/// A piece of advice. Nothing is advised about a goal that is reached.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Advice {
    /// What it is for.
    pub goal: Goal,
    /// The least that would do; `None` where no catch would.
    pub further: Option<Further>,
    /// The U (percent, 95 %) to be expected then, or the best that could be had; `None` for the catch mass.
    pub expected_percent: Option<f64>,
    /// The part of the budget that would then be the largest.
    pub dominant: BudgetTerm,
    /// A sentence for the person at the machine.
    pub says: String,
}

/// The advice for the next repeat, the most pressing first; empty where nothing is missing. At most two pieces.
///
/// `judgement` is that of the sheet in the same circumstances. While a catch is too light for the scale, nothing is
/// said about the uncertainty: the short repeats are to be set aside, and then it is another sheet.
pub fn next_catch(sheet: &Sheet, circumstances: &Circumstances, judgement: &Judgement, words: Words) -> Vec<Advice> {
    let measured = measure(sheet, circumstances);
    let Some(outlook) = Outlook::of(sheet, &measured, circumstances, judgement) else {
        return Vec::new();
    };
    let too_light = judgement.check(CheckName::CatchMass).is_some_and(|check| check.outcome == Outcome::Fail);
    if too_light {
        return catch_mass(&outlook, circumstances, words).into_iter().collect();
    }
    let limit = circumstances.policy.uncertainty_limit_percent;
    let goal = match judgement.check(CheckName::Uncertainty).map(|check| check.outcome) {
        Some(Outcome::Fail) => Goal::Uncertainty,
        Some(Outcome::Remark) => Goal::HalfUncertainty,
        Some(Outcome::Pass) | None => return Vec::new(),
    };
    let mut advice = vec![uncertainty(&outlook, goal, limit, circumstances, words)];
    if goal == Goal::Uncertainty && advice[0].further.is_some() {
        let half = uncertainty(&outlook, Goal::HalfUncertainty, limit, circumstances, words);
        // That a remark could never be avoided is no news to who has yet to pass.
        advice.extend(Some(half).filter(|half| half.further.is_some()));
    }
    advice
}

/// One longer repeat: as many revolutions as make the lightest catch heavy enough.
fn catch_mass(outlook: &Outlook, circumstances: &Circumstances, words: Words) -> Option<Advice> {
    let share = words.exactly(circumstances.policy.catch_resolution_limit_percent);
    let needed = outlook.revolutions_for_the_scale(circumstances.policy.catch_resolution_limit_percent)?;
    let (further, says) = if needed <= outlook.most_revolutions() {
        let more = needed - outlook.shortest_too_light;
        let says = say!(
            words,
            "advice-longer-repeats",
            more = turns(more, words),
            needed = turns(needed, words),
            share = share
        );
        let repeats = circumstances.policy.minimum_repeats.saturating_sub(outlook.heavy_enough).max(1);
        (Some(Further { repeats, revolutions: needed }), says)
    } else {
        let says = say!(words, "advice-scale-too-coarse", share = share);
        (None, says)
    };
    Some(Advice { goal: Goal::CatchMass, further, expected_percent: None, dominant: BudgetTerm::Readability, says })
}

fn uncertainty(
    outlook: &Outlook,
    goal: Goal,
    limit_percent: f64,
    circumstances: &Circumstances,
    words: Words,
) -> Advice {
    let wanted = if goal == Goal::HalfUncertainty { limit_percent / 2.0 } else { limit_percent };
    if let Some((further, expected)) = outlook.least_further(wanted) {
        let checked = outlook.with_scale_checked_percent().filter(|u| *u <= wanted && !scale_checked(circumstances));
        let instead = checked.map(|u| say!(words, "advice-scale-check-instead", expected = words.percent(u)));
        let enough = enough(further, outlook.usual_revolutions, expected, goal, wanted, words);
        let says = instead.map_or_else(|| enough.clone(), |instead| format!("{enough} {instead}"));
        let dominant = outlook.dominant(further);
        return Advice { goal, further: Some(further), expected_percent: Some(expected), dominant, says };
    }
    let (dominant, best) = outlook.at_best();
    let says = say!(
        words,
        "advice-not-by-catching",
        repeats = outlook::MOST_REPEATS,
        goal = goal.word(),
        limit = words.exactly(wanted),
        best = words.percent(best),
        because = because(dominant, goal, circumstances)
    );
    Advice { goal, further: None, expected_percent: Some(best).filter(|best| best.is_finite()), dominant, says }
}

fn scale_checked(circumstances: &Circumstances) -> bool {
    circumstances.scale.as_ref().is_some_and(|scale| scale.last_check == ScaleStanding::PassedWithin)
}

/// What to catch, and how well the factor would be known then.
fn enough(further: Further, usual: f64, expected: f64, goal: Goal, wanted: f64, words: Words) -> String {
    let Further { repeats, revolutions } = further;
    let (each, within) = (turns(revolutions, words), words.exactly(wanted));
    let expected = words.percent(expected);
    if revolutions > usual {
        say!(
            words,
            "advice-longer",
            repeats = repeats,
            each = each,
            more = turns(revolutions - usual, words),
            expected = expected,
            goal = goal.word(),
            limit = within
        )
    } else {
        say!(
            words,
            "advice-alike",
            repeats = repeats,
            each = each,
            expected = expected,
            goal = goal.word(),
            limit = within
        )
    }
}

/// Whole revolutions as they are, others (a crank's, by the drive ratio) with four digits.
fn turns(revolutions: f64, words: Words) -> String {
    if revolutions.fract() == 0.0 { words.exactly(revolutions) } else { words.number(revolutions, 4) }
}

/// What stands in the way when no catch would do.
fn because(dominant: BudgetTerm, goal: Goal, circumstances: &Circumstances) -> &'static str {
    match dominant {
        BudgetTerm::Scale if scale_checked(circumstances) => "checked-scale",
        BudgetTerm::Scale => "scale",
        BudgetTerm::Repeatability if goal == Goal::HalfUncertainty => "scatter",
        BudgetTerm::Repeatability => "much-scatter",
        BudgetTerm::Readability => "step",
        BudgetTerm::Revolutions => "revolutions",
    }
}
