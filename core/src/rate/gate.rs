//! The next gate or lever setting by proportion: where to begin the next catch, never a calibration.

use crate::{
    figure::{Figure, Impossible},
    say,
    words::Words,
};

/// Percent of change beyond which a proportion is too far a guess to be taken without doubt (our judgement, no source:
/// flow is not linear in a gate's opening).
pub const FAR_PERCENT: f64 = 20.0;

/// A setting to try next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NextSetting {
    /// On the scale of the old one.
    pub setting: f64,
    /// From the old setting to this one.
    pub change_percent: f64,
    /// A catch at the new setting is needed before sowing. Always so; it stands here so that no answer comes without it.
    pub needs_new_catch: bool,
    /// The change is beyond [`FAR_PERCENT`].
    pub is_far: bool,
}

/// The setting that would give what is wanted if flow were proportional to the setting: old x wanted / measured.
///
/// Measured and wanted are in the same unit: rates, or factors. Generic proportion of the trade, without a source; sources
/// only say "adjust and repeat".
///
/// ```
/// use sowmark_core::{rate::next_setting, words::Words};
///
/// let next = next_setting(40.0, 5.0, 5.5)?;
/// assert!((next.setting - 44.0).abs() < 1e-12);
/// assert!(next.needs_new_catch && !next.is_far);
/// assert_eq!(
///     next.says(Words::default()),
///     "Begin at 44.0, which is 10.0 % more. This is a first guess by proportion: catch again at it before sowing."
/// );
/// # Ok::<(), sowmark_core::figure::Impossible>(())
/// ```
///
/// # Errors
/// A setting, a measured or a wanted value that is not above zero.
pub fn next_setting(old: f64, measured: f64, wanted: f64) -> Result<NextSetting, Impossible> {
    let (old, measured) = (Figure::Setting.check(old)?, Figure::Measured.check(measured)?);
    let wanted = Figure::Wanted.check(wanted)?;
    let change_percent = 100.0 * (wanted - measured) / measured;
    let setting = Figure::Setting.check(old * wanted / measured)?;
    // Of a change of exactly 20 %, binary makes a little more or less.
    let is_far = change_percent.abs() > FAR_PERCENT + 1e-9;
    Ok(NextSetting { setting, change_percent, needs_new_catch: true, is_far })
}

impl NextSetting {
    /// Where to begin, and that it is a guess.
    pub fn says(&self, words: Words) -> String {
        let setting = words.number(self.setting, 3);
        let begin = if self.change_percent.abs() < 0.05 {
            say!(words, "gate-stay", setting = setting)
        } else {
            let direction = if self.change_percent.is_sign_negative() { "less" } else { "more" };
            let change = words.percent(self.change_percent.abs());
            say!(words, "gate-begin", setting = setting, change = change, direction = direction)
        };
        let guess = say!(words, "gate-guess");
        if self.is_far {
            let far = say!(words, "gate-far", limit = words.exactly(FAR_PERCENT));
            format!("{begin} {guess} {far}")
        } else {
            format!("{begin} {guess}")
        }
    }
}
