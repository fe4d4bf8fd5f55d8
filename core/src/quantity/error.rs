//! Why an entered number, unit or ratio was refused: what was given, what is allowed, what to do.

use std::fmt;

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
///     "\"1.234,5\" has more than one decimal sign; write it without thousands separators, like 1234.5"
/// );
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QuantityError {
    kind: Kind,
    says: String,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Number,
    Unit,
    Ratio,
}

impl QuantityError {
    pub(super) fn number(given: &str, fault: &str) -> Self {
        Self { kind: Kind::Number, says: format!("{} {fault}", quoted(given)) }
    }

    pub(super) fn unit(given: &str, dimension: &str, allowed: impl Iterator<Item = &'static str>) -> Self {
        let allowed = allowed.collect::<Vec<_>>().join(", ");
        let given = if given.trim().is_empty() { "no unit".to_owned() } else { quoted(given) };
        Self { kind: Kind::Unit, says: format!("{given} is not a unit of {dimension}; allowed are {allowed}") }
    }

    pub(super) fn ratio(given: &str, fault: &str) -> Self {
        Self { kind: Kind::Ratio, says: format!("{} {fault}", quoted(given)) }
    }

    /// The number itself is at fault.
    pub const fn is_number(&self) -> bool {
        matches!(self.kind, Kind::Number)
    }

    /// The unit is not one of the dimension's.
    pub const fn is_unit(&self) -> bool {
        matches!(self.kind, Kind::Unit)
    }

    /// A drive ratio is at fault.
    pub const fn is_ratio(&self) -> bool {
        matches!(self.kind, Kind::Ratio)
    }
}

/// What was given, in quotes and cut to a length that fits a line: an entry of a megabyte must not become an answer of one.
fn quoted(given: &str) -> String {
    const SHOWN: usize = 40;
    if given.chars().count() > SHOWN {
        format!("\"{}…\"", given.chars().take(SHOWN).collect::<String>())
    } else {
        format!("\"{given}\"")
    }
}

impl fmt::Display for QuantityError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.says)
    }
}

impl std::error::Error for QuantityError {}
