//! A decimal number as it was entered: "12.40" stays "12.40", because its last place says how finely was read.

use std::{borrow::Cow, fmt};

use serde::{Deserialize, Serialize};

use super::{QuantityError, error::Fault, fraction::Fraction};

/// An exact decimal of at most 18 significant digits and 18 decimals.
///
/// Two decimals are equal when they were entered alike: `12.4` and `12.40` have the same value and are *not* equal,
/// since they claim different resolutions. Serialized as a string.
///
/// ```
/// use sowmark_core::quantity::Decimal;
///
/// let read = Decimal::parse(" 12,40 ")?;
/// assert_eq!(read.as_str(), "12.40");
/// assert_eq!(read.to_f64(), 12.4);
/// assert_eq!(read.places(), 2);
/// assert_eq!(read.resolution(), 0.01);
/// # Ok::<(), sowmark_core::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Decimal {
    /// The digits without sign and decimal sign.
    digits: u64,
    places: u8,
    text: String,
}

impl Decimal {
    /// Most significant digits taken.
    pub const MAX_DIGITS: usize = 18;
    /// Most decimals taken.
    pub const MAX_PLACES: usize = 18;
    /// Longest entry looked at.
    const MAX_TEXT: usize = 64;

    /// Reads ASCII digits with at most one `.` or `,` as decimal sign, an optional sign in front (the minus sign of pages
    /// too), white space around (thin and no-break spaces too), and one blank between groups of three digits, as pages print
    /// thousands.
    ///
    /// # Errors
    /// Refuses what is empty, not a number, has two signs of any kind, or is longer than [`Self::MAX_DIGITS`] and
    /// [`Self::MAX_PLACES`]. A point *and* a comma is refused, not guessed: "1.234,5" is a different number in two
    /// countries.
    pub fn parse(entered: &str) -> Result<Self, QuantityError> {
        let refuse = |fault| Err(QuantityError::of(entered, fault));
        let text = entered.trim();
        if text.is_empty() {
            return refuse(Fault::Empty);
        }
        if text.len() > Self::MAX_TEXT {
            return refuse(Fault::TooLong);
        }
        let (negative, unsigned) = match text.strip_prefix(['-', '\u{2212}']) {
            Some(unsigned) => (true, unsigned),
            None => (false, text.strip_prefix('+').unwrap_or(text)),
        };
        let (whole, decimals) = match unsigned.find(['.', ',']) {
            Some(at) => (&unsigned[..at], &unsigned[at + 1..]),
            None => (unsigned, ""),
        };
        if decimals.contains(['.', ',']) && decimals.bytes().all(|b| b.is_ascii_digit() || b == b'.' || b == b',') {
            return refuse(Fault::TwoSigns);
        }
        let whole = &*ungrouped(whole);
        let only_digits = |part: &str| part.bytes().all(|b| b.is_ascii_digit());
        if !only_digits(whole) || !only_digits(decimals) || (whole.is_empty() && decimals.is_empty()) {
            return refuse(Fault::NoNumber);
        }
        Self::from_parts(negative, whole, decimals).map_err(|fault| QuantityError::of(entered, fault))
    }

    /// Reads a JSON number's own digits; a modest exponent is written out (`1.5e1` is 15).
    ///
    /// # Errors
    /// As [`Self::parse`]; and an exponent that leads beyond its limits, as in `1e400`.
    ///
    /// ```
    /// use sowmark_core::quantity::Decimal;
    ///
    /// assert_eq!(Decimal::parse_json_number("1.50e1")?.as_str(), "15.0");
    /// assert_eq!(Decimal::parse_json_number("25E-1")?.as_str(), "2.5");
    /// assert!(Decimal::parse_json_number("1e400").is_err());
    /// # Ok::<(), sowmark_core::quantity::QuantityError>(())
    /// ```
    pub fn parse_json_number(number: &str) -> Result<Self, QuantityError> {
        let refuse = |fault| Err(QuantityError::of(number, fault));
        if number.len() > Self::MAX_TEXT {
            return refuse(Fault::TooLong);
        }
        if number.contains(',') {
            return refuse(Fault::NoJsonNumber);
        }
        let Some(at) = number.find(['e', 'E']) else { return Self::parse(number) };
        let base = Self::parse(&number[..at])?;
        let exponent = match number[at + 1..].parse::<i16>() {
            Ok(exponent) if exponent.abs() <= 30 => i32::from(exponent),
            _ => return refuse(Fault::Exponent),
        };
        let shifted = i32::from(base.places) - exponent;
        let zeros = usize::try_from(-shifted).unwrap_or(0);
        let places = usize::try_from(shifted).unwrap_or(0);
        let all = format!("{:0>width$}{}", base.digits, "0".repeat(zeros), width = places + 1);
        let (whole, decimals) = all.split_at(all.len() - places);
        Self::from_parts(base.is_negative(), whole, decimals).map_err(|fault| QuantityError::of(number, fault))
    }

    /// A decimal from its digits: `digits / 10^places`.
    pub(super) fn from_digits(negative: bool, digits: u128, places: usize) -> Option<Self> {
        let all = format!("{digits:0>width$}", width = places + 1);
        let (whole, decimals) = all.split_at(all.len() - places);
        Self::from_parts(negative, whole, decimals).ok()
    }

    /// `whole` and `decimals` hold ASCII digits only; either may be empty.
    fn from_parts(negative: bool, whole: &str, decimals: &str) -> Result<Self, Fault> {
        let whole = whole.trim_start_matches('0');
        if decimals.len() > Self::MAX_PLACES {
            return Err(Fault::TooManyDecimals);
        }
        let all = [whole, decimals].concat();
        let significant = all.trim_start_matches('0');
        if significant.len() > Self::MAX_DIGITS {
            return Err(Fault::TooManyDigits);
        }
        let digits = if significant.is_empty() { 0 } else { significant.parse().map_err(|_| Fault::NoNumber)? };
        let sign = if negative && digits != 0 { "-" } else { "" };
        let whole = if whole.is_empty() { "0" } else { whole };
        let point = if decimals.is_empty() { "" } else { "." };
        // At most eighteen places, so the cast cannot lose anything.
        #[allow(clippy::cast_possible_truncation)]
        let places = decimals.len() as u8;
        Ok(Self { digits, places, text: [sign, whole, point, decimals].concat() })
    }

    /// The entry with a point as decimal sign, without a plus and without idle zeros in front: `12.40`, `0.5`, `-3`.
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// The nearest `f64`.
    pub fn to_f64(&self) -> f64 {
        let size = self.magnitude().to_f64();
        if self.is_negative() { -size } else { size }
    }

    /// Decimals entered: 2 for "12.40", 0 for "60".
    pub fn places(&self) -> u32 {
        u32::from(self.places)
    }

    /// One unit of the last place entered: 1 for "60", 0.1 for "60.0".
    pub fn resolution(&self) -> f64 {
        self.last_place().to_f64()
    }

    /// The value is zero.
    pub const fn is_zero(&self) -> bool {
        self.digits == 0
    }

    /// The value is above zero.
    pub fn is_positive(&self) -> bool {
        self.digits != 0 && !self.is_negative()
    }

    /// The value is below zero.
    pub fn is_negative(&self) -> bool {
        self.text.starts_with('-')
    }

    /// The size without its sign, exactly.
    pub(super) fn magnitude(&self) -> Fraction {
        Fraction::new(u128::from(self.digits), 10_u128.pow(self.places()))
    }

    pub(super) fn last_place(&self) -> Fraction {
        Fraction::new(1, 10_u128.pow(self.places()))
    }

    pub(super) fn digits(&self) -> u128 {
        u128::from(self.digits)
    }
}

/// Without the blanks between thousands. Where they stand anywhere else, nobody knows what was meant: all of them stay.
fn ungrouped(whole: &str) -> Cow<'_, str> {
    const BLANKS: [char; 4] = [' ', '\u{a0}', '\u{2009}', '\u{202f}'];
    let Some((first, rest)) = whole.split_once(BLANKS) else { return whole.into() };
    let is_first = matches!(first.len(), 1..=3) && !first.starts_with('0');
    if is_first && rest.split(BLANKS).all(|group| group.len() == 3) {
        whole.replace(BLANKS, "").into()
    } else {
        whole.into()
    }
}

impl From<u32> for Decimal {
    fn from(whole: u32) -> Self {
        Self { digits: u64::from(whole), places: 0, text: whole.to_string() }
    }
}

impl std::str::FromStr for Decimal {
    type Err = QuantityError;

    fn from_str(entered: &str) -> Result<Self, QuantityError> {
        Self::parse(entered)
    }
}

impl TryFrom<String> for Decimal {
    type Error = QuantityError;

    fn try_from(entered: String) -> Result<Self, QuantityError> {
        Self::parse(&entered)
    }
}

impl From<Decimal> for String {
    fn from(decimal: Decimal) -> Self {
        decimal.text
    }
}

impl fmt::Display for Decimal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.text)
    }
}

#[cfg(test)]
mod tests {
    use super::Decimal;

    #[test]
    fn a_decimal_is_kept_as_it_was_entered() {
        for (entered, kept) in [
            ("12.40", "12.40"),
            ("12,40", "12.40"),
            ("+3", "3"),
            ("-0.50", "-0.50"),
            ("\u{2212}0.50", "-0.50"),
            ("-0", "0"),
            (".5", "0.5"),
            ("5.", "5"),
            ("007.10", "7.10"),
            ("\u{a0}1.5\u{202f}", "1.5"),
            ("0.00", "0.00"),
            ("13 000", "13000"),
            ("-1\u{2009}234\u{202f}567,50", "-1234567.50"),
            ("999\u{a0}000", "999000"),
            ("123456789012345678", "123456789012345678"),
            ("0.000000000001", "0.000000000001"),
        ] {
            assert_eq!(Decimal::parse(entered).map(|d| d.as_str().to_owned()), Ok(kept.to_owned()), "{entered}");
        }
    }

    #[test]
    fn what_is_no_clear_number_is_refused_with_a_reason() {
        for (entered, reason) in [
            ("", "is empty"),
            ("  ", "is empty"),
            ("NaN", "is not a number"),
            ("inf", "is not a number"),
            ("-", "is not a number"),
            (".", "is not a number"),
            ("--1", "is not a number"),
            ("\u{2212}-1", "is not a number"),
            ("1 2", "is not a number"),
            ("1  000", "is not a number"),
            ("1 000 00", "is not a number"),
            ("1000 000", "is not a number"),
            ("0 500", "is not a number"),
            ("1 00a", "is not a number"),
            ("1.000 000", "is not a number"),
            ("1e5", "is not a number"),
            ("٣", "is not a number"),
            ("1.234,5", "more than one decimal sign"),
            ("1,234,5", "more than one decimal sign"),
            ("1234567890123456789", "too many digits"),
            ("0.0000000000000000001", "too many decimals"),
        ] {
            let refused = Decimal::parse(entered).expect_err(entered);
            assert!(refused.is_number());
            assert!(refused.to_string().contains(reason), "{entered}: {refused}");
        }
        assert!(Decimal::parse(&"9".repeat(1_000_000)).expect_err("long").to_string().len() < 200);
    }

    #[test]
    fn a_json_number_may_carry_a_modest_exponent() {
        for (number, kept) in [
            ("1.5e1", "15"),
            ("1.50e1", "15.0"),
            ("2e3", "2000"),
            ("25e-4", "0.0025"),
            ("-1E+2", "-100"),
            ("0.10", "0.10"),
        ] {
            assert_eq!(
                Decimal::parse_json_number(number).map(|d| d.as_str().to_owned()),
                Ok(kept.to_owned()),
                "{number}"
            );
        }
        for number in ["1e400", "1e-400", "1e18", "1e-19", "1e", "1e99999999999", "1,5"] {
            assert!(Decimal::parse_json_number(number).is_err(), "{number}");
        }
    }

    #[test]
    fn the_last_place_entered_is_the_resolution() {
        for (entered, resolution) in [("60", 1.0), ("60.0", 0.1), ("0.500", 0.001)] {
            assert_eq!(Decimal::parse(entered).expect(entered).resolution().to_bits(), f64::to_bits(resolution));
        }
    }
}
