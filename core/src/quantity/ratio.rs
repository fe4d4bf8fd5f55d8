//! The drive ratio of a setup: roller revolutions to drive revolutions.

use std::{fmt, hash};

use serde::{Deserialize, Serialize};

use super::{Decimal, QuantityError, error::Fault, fraction::Fraction};

/// A ratio such as `5:2` or `2.5`, kept as entered and compared by value.
///
/// ```
/// use sowmark_core::quantity::DriveRatio;
///
/// let chain = DriveRatio::parse("5:2")?;
/// assert_eq!(chain, DriveRatio::parse("10:4")?);
/// assert_eq!(chain, DriveRatio::parse("2,5")?);
/// assert_eq!(chain.value(), 2.5);
/// assert_eq!(chain.to_string(), "5:2");
/// # Ok::<(), sowmark_core::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct DriveRatio {
    exact: Fraction,
    text: String,
}

impl DriveRatio {
    /// The smallest and the largest ratio taken: no seeder's drive is beyond a thousand to one.
    pub const RANGE: (f64, f64) = (0.001, 1_000.0);

    /// Reads two positive decimals with a colon between, or one decimal.
    ///
    /// # Errors
    /// Anything else, and a ratio outside [`Self::RANGE`].
    pub fn parse(entered: &str) -> Result<Self, QuantityError> {
        let refuse = |fault| Err(QuantityError::of(entered.trim(), fault));
        let (roller, drive) = entered.split_once(':').unwrap_or((entered, "1"));
        let (Ok(roller), Ok(drive)) = (Decimal::parse(roller), Decimal::parse(drive)) else {
            return refuse(Fault::NoRatio);
        };
        if !roller.is_positive() || !drive.is_positive() {
            return refuse(Fault::RatioOfNothing);
        }
        let exact = roller.magnitude().times(drive.magnitude().inverse());
        if !(Self::RANGE.0..=Self::RANGE.1).contains(&exact.to_f64()) {
            return refuse(Fault::RatioOutOfBounds);
        }
        let text = if entered.contains(':') { format!("{roller}:{drive}") } else { roller.as_str().to_owned() };
        Ok(Self { exact, text })
    }

    /// Roller revolutions for one drive revolution.
    pub fn value(&self) -> f64 {
        self.exact.to_f64()
    }

    /// As entered, with points as decimal signs.
    pub fn as_str(&self) -> &str {
        &self.text
    }
}

impl PartialEq for DriveRatio {
    fn eq(&self, other: &Self) -> bool {
        self.exact == other.exact
    }
}

impl Eq for DriveRatio {}

impl hash::Hash for DriveRatio {
    fn hash<H: hash::Hasher>(&self, state: &mut H) {
        self.exact.hash(state);
    }
}

impl fmt::Display for DriveRatio {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.text)
    }
}

impl std::str::FromStr for DriveRatio {
    type Err = QuantityError;

    fn from_str(entered: &str) -> Result<Self, QuantityError> {
        Self::parse(entered)
    }
}

impl TryFrom<String> for DriveRatio {
    type Error = QuantityError;

    fn try_from(entered: String) -> Result<Self, QuantityError> {
        Self::parse(&entered)
    }
}

impl From<DriveRatio> for String {
    fn from(ratio: DriveRatio) -> Self {
        ratio.text
    }
}

#[cfg(test)]
mod tests {
    use super::DriveRatio;

    #[test]
    fn ratios_are_equal_by_value() {
        let equal = |a: &str, b: &str| DriveRatio::parse(a).expect(a) == DriveRatio::parse(b).expect(b);
        assert!(equal("5:2", "10:4"));
        assert!(equal("2,5:1", "2.50"));
        assert!(equal("1:3", "2:6"));
        // A third is no decimal: equality in f64 would have to guess here.
        assert!(!equal("1:3", "0.333333333333"));
    }

    #[test]
    fn an_impossible_ratio_is_refused() {
        for entered in ["", "0", "0:1", "1:0", "-5:2", "5:2:1", "a:b", "5/2", "1:", ":1", "10000", "1:100000"] {
            let refused = DriveRatio::parse(entered).expect_err(entered);
            assert!(refused.is_ratio(), "{entered}");
        }
    }
}
