//! Why an entered number, unit or ratio was refused: what was given, what is allowed, what to do.

use std::fmt;

use super::DriveRatio;
use crate::{say, words::Words};

/// An entry that cannot be understood as a number, a unit or a drive ratio.
///
/// The kind is asked for with the predicates; the text is written for the person who made the entry.
///
/// ```
/// use sowmark_core::quantity::Decimal;
///
/// let refused = Decimal::parse("1.234,5").unwrap_err();
/// assert!(refused.is_number() && !refused.is_unit());
/// assert_eq!(
///     refused.to_string(),
///     "“1.234,5” has more than one decimal sign; write it without thousands separators, like 1234.5"
/// );
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QuantityError {
    /// Cut to a length that fits a line: an entry of a megabyte must not become an answer of one.
    given: String,
    fault: Fault,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Fault {
    Empty,
    TooLong,
    TwoSigns,
    NoNumber,
    NoJsonNumber,
    Exponent,
    TooManyDecimals,
    TooManyDigits,
    NoNumberAtFront,
    SignedPounds,
    FractionOfAPound,
    SixteenOunces,
    TooManyDigitsInAll,
    NoUnit { dimension: &'static str, allowed: String },
    NoRatio,
    RatioOfNothing,
    RatioOutOfBounds,
}

impl QuantityError {
    pub(super) fn of(given: &str, fault: Fault) -> Self {
        Self { given: cut(given), fault }
    }

    pub(super) fn unit(given: &str, dimension: &'static str, allowed: impl Iterator<Item = &'static str>) -> Self {
        let allowed = allowed.collect::<Vec<_>>().join(", ");
        Self { given: cut(given), fault: Fault::NoUnit { dimension, allowed } }
    }

    /// The number itself is at fault.
    pub const fn is_number(&self) -> bool {
        !self.is_unit() && !self.is_ratio()
    }

    /// The unit is not one of the dimension's.
    pub const fn is_unit(&self) -> bool {
        matches!(self.fault, Fault::NoUnit { .. })
    }

    /// A drive ratio is at fault.
    pub const fn is_ratio(&self) -> bool {
        matches!(self.fault, Fault::NoRatio | Fault::RatioOfNothing | Fault::RatioOutOfBounds)
    }

    /// What was given, what is allowed and what to do, for the person who made the entry.
    pub fn says(&self, words: Words) -> String {
        let given = &self.given;
        match &self.fault {
            Fault::Empty => say!(words, "number-empty", given = given, example = words.decimal("12.40")),
            Fault::TooLong => say!(words, "number-too-long", given = given),
            Fault::TwoSigns => say!(words, "number-two-signs", given = given, example = words.decimal("1234.5")),
            Fault::NoNumber => say!(words, "number-none", given = given, example = words.decimal("12.40")),
            Fault::NoJsonNumber => say!(words, "number-not-json", given = given),
            Fault::Exponent => say!(words, "number-exponent", given = given),
            Fault::TooManyDecimals => say!(words, "number-too-many-decimals", given = given),
            Fault::TooManyDigits => say!(words, "number-too-many-digits", given = given),
            Fault::NoNumberAtFront => say!(words, "number-none-at-front", given = given),
            Fault::SignedPounds => say!(words, "number-pounds-signed", given = given),
            Fault::FractionOfAPound => say!(words, "number-pounds-fraction", given = given),
            Fault::SixteenOunces => say!(words, "number-sixteen-ounces", given = given),
            Fault::TooManyDigitsInAll => say!(words, "number-too-many-digits-in-all", given = given),
            Fault::NoUnit { dimension, allowed } => no_unit(given, dimension, allowed, words),
            Fault::NoRatio => say!(words, "ratio-none", given = given, example = words.decimal("2.5")),
            Fault::RatioOfNothing => say!(words, "ratio-of-nothing", given = given),
            Fault::RatioOutOfBounds => {
                let (least, most) = DriveRatio::RANGE;
                say!(
                    words,
                    "ratio-out-of-bounds",
                    given = given,
                    least = words.exactly(least),
                    most = words.exactly(most)
                )
            }
        }
    }
}

fn no_unit(given: &str, dimension: &'static str, allowed: &str, words: Words) -> String {
    let of = words.dimension(dimension);
    let allowed = allowed.split(", ").map(|name| words.unit(name)).collect::<Vec<_>>().join(", ");
    if given.trim().is_empty() {
        say!(words, "unit-missing", dimension = of, allowed = allowed)
    } else {
        say!(words, "unit-unknown", given = given, dimension = of, allowed = allowed)
    }
}

fn cut(given: &str) -> String {
    const SHOWN: usize = 40;
    if given.chars().count() > SHOWN { given.chars().take(SHOWN).chain(['…']).collect() } else { given.to_owned() }
}

impl fmt::Display for QuantityError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.says(Words::default()))
    }
}

impl std::error::Error for QuantityError {}
