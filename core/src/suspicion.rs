//! What most likely went wrong, when a factor is not what it should be.
//!
//! The result is computed again under each known slip; those that bring it to what was expected are listed, with the
//! number each would give, most likely first. **A suspicion is a hint, never a correction**: the person looks, and
//! measures again. Nothing here changes a factor or a verdict.

mod cause;

use serde::{Deserialize, Serialize};

pub use cause::Cause;

use crate::{
    catch::Sheet,
    circumstances::Circumstances,
    quantity::unit,
    verdict::{CheckName, Judgement, Outcome},
    words::Words,
};

/// How near to the expected a slip must bring the result, as a ratio.
pub const NEAR: f64 = 0.05;

/// Something that may have gone wrong.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Suspicion {
    /// Which slip.
    pub cause: Cause,
    /// The factor without the slip, kg per revolution per run.
    pub would_give: f64,
    /// What to look at, for the person at the machine.
    pub says: String,
}

/// What most likely went wrong, most likely first; nothing where plausibility, agreement and uniformity all pass.
///
/// `judgement` is that of the same sheet in the same circumstances.
pub fn suspicions(_: &Sheet, circumstances: &Circumstances, judgement: &Judgement, words: Words) -> Vec<Suspicion> {
    let off = judgement.check(CheckName::Plausibility).is_some_and(|check| check.outcome != Outcome::Pass);
    let Some(expected) = circumstances.expected.filter(|_| off) else { return Vec::new() };
    let halved = [(Cause::RevolutionsDoubled, 2.0, "twice"), (Cause::RevolutionsHalved, 0.5, "half")];
    halved
        .into_iter()
        .map(|(cause, times, share)| (cause, judgement.factor * times, share))
        .filter(|(_, would_give, _)| (would_give / expected.factor - 1.0).abs() <= NEAR)
        .map(|(cause, would_give, share)| Suspicion {
            cause,
            would_give,
            says: format!(
                "The revolutions on the sheet may be {share} the true ones: count them again at the roller. With the true \
                 ones the factor would be {} g/rev.",
                words.print(would_give, unit::G_PER_REV, 3)
            ),
        })
        .collect()
}
