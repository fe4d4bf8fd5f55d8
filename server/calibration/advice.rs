//! What is still missing before the next repeat, and what runs and repeats tell: for the answer and for the page.
//!
//! Nothing of it is stored: it follows from the sheet, the circumstances and the judgement, each time in the words of who
//! reads it.

use super::stored::word;
use crate::texts;
use crate::web::error::Error;
use serde::Serialize;
use sowmark_core::advice::{Advice, next_catch};
use sowmark_core::catch::Sheet;
use sowmark_core::circumstances::Circumstances;
use sowmark_core::factor::measure;
use sowmark_core::runs;
use sowmark_core::verdict::Judgement;
use sowmark_core::words::Words;

/// What to catch yet, or why no catch would help.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct AdviceView {
    /// `catch_mass`, `uncertainty` or `half_uncertainty`.
    pub goal: String,
    /// The least that would do; null where no catch would.
    pub further: Option<FurtherView>,
    /// The uncertainty to be expected then, or the best that could be had. Null for the catch mass.
    pub expected_uncertainty_percent: Option<f64>,
    /// The term of the budget that would then be the largest.
    pub dominant: String,
    pub says: String,
}

/// Repeats to catch yet.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct FurtherView {
    pub repeats: u32,
    /// Roller revolutions of each.
    pub revolutions: f64,
}

/// The advice for a program: in words with a decimal point.
///
/// # Errors
/// None that advice could cause.
pub(super) fn views(
    sheet: &Sheet,
    circumstances: &Circumstances,
    judgement: &Judgement,
) -> Result<Vec<AdviceView>, Error> {
    next_catch(sheet, circumstances, judgement, texts::plain()).into_iter().map(view).collect()
}

fn view(advice: Advice) -> Result<AdviceView, Error> {
    Ok(AdviceView {
        goal: word(&advice.goal)?,
        further: advice
            .further
            .map(|further| FurtherView { repeats: further.repeats, revolutions: further.revolutions }),
        expected_uncertainty_percent: advice.expected_percent,
        dominant: word(&advice.dominant)?,
        says: advice.says,
    })
}

/// Sentences of a page.
#[derive(Debug)]
pub(super) struct Told {
    /// Of the runs and the repeats.
    pub(super) runs: Vec<String>,
    /// For the next repeat.
    pub(super) advice: Vec<String>,
}

impl Told {
    pub(super) fn of(sheet: &Sheet, circumstances: &Circumstances, judgement: &Judgement, words: Words) -> Self {
        let advice = next_catch(sheet, circumstances, judgement, words);
        Self {
            runs: runs::says(&measure(sheet, circumstances), judgement, words),
            advice: advice.into_iter().map(|advice| advice.says).collect(),
        }
    }
}
