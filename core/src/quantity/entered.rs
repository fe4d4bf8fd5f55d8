//! A quantity as it was entered, with its unit, and its value in SI.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::{Decimal, Dimension, QuantityError, Unit, error::Fault, fraction::Fraction, unit::dimension};

/// A number with a unit of the dimension `D`, kept as entered.
///
/// Use the aliases: [`Mass`], [`Length`], [`Area`], [`Speed`], [`SeedWeight`], [`BulkDensity`], [`Rate`],
/// [`MeterFactor`], [`Volume`]. Equal means entered alike (see [`Decimal`]). Serialized as the entered string.
///
/// ```
/// use sowmark_core::quantity::{Decimal, Mass, Rate};
///
/// let caught = Mass::pounds_ounces(Decimal::parse("5")?, Decimal::parse("8")?)?;
/// assert_eq!(caught.entered(), "5 lb 8 oz");
/// assert_eq!(caught.value_text(), "5.5000");
/// assert_eq!(caught.unit(), "lb");
/// assert_eq!(caught, Mass::from_entered("5 lb 8 oz")?);
///
/// assert_eq!(Rate::new(Decimal::parse("120")?, "lb/ac")?.si(), 0.013_450_213_874_333_473);
/// # Ok::<(), sowmark_core::quantity::QuantityError>(())
/// ```
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String", bound = "D: Dimension")]
pub struct Quantity<D: Dimension> {
    value: Decimal,
    unit: Unit<D>,
    /// Pounds and ounces, where they were entered apart; `value` is then the exact sum in pounds.
    parts: Option<(Decimal, Decimal)>,
}

/// A mass; SI kg.
pub type Mass = Quantity<dimension::Mass>;
/// A length; SI m.
pub type Length = Quantity<dimension::Length>;
/// An area; SI m².
pub type Area = Quantity<dimension::Area>;
/// A speed; SI m/s.
pub type Speed = Quantity<dimension::Speed>;
/// The mass of a thousand seeds, in g.
pub type SeedWeight = Quantity<dimension::SeedWeight>;
/// Mass per volume of loose seed; SI kg/m³.
pub type BulkDensity = Quantity<dimension::BulkDensity>;
/// Seed per area; SI kg/m².
pub type Rate = Quantity<dimension::Rate>;
/// Mass per roller revolution; SI kg.
pub type MeterFactor = Quantity<dimension::MeterFactor>;
/// A volume; SI m³.
pub type Volume = Quantity<dimension::Volume>;

impl<D: Dimension> Quantity<D> {
    /// A number in a unit given by name.
    ///
    /// # Errors
    /// An unknown unit, by name and with the allowed ones.
    pub fn new(value: Decimal, unit: &str) -> Result<Self, QuantityError> {
        Ok(Self { value, unit: D::unit_named(unit)?, parts: None })
    }

    /// A number in a known unit.
    pub const fn of(value: Decimal, unit: Unit<D>) -> Self {
        Self { value, unit, parts: None }
    }

    /// Reads a number and its unit: `2,11 kg`, `5.5 lb`; a mass also as `5 lb 8 oz`.
    ///
    /// # Errors
    /// What [`Decimal::parse`] refuses, and a unit that is missing or unknown.
    pub fn parse_text(text: &str) -> Result<Self, QuantityError> {
        Self::read(text, None)
    }

    /// As [`Self::parse_text`], where a bare number is in `default_unit`.
    ///
    /// # Errors
    /// As [`Self::parse_text`]; and an unknown default unit.
    ///
    /// ```
    /// use sowmark_core::quantity::Mass;
    ///
    /// assert_eq!(Mass::parse_text_or("2.11", "kg")?.entered(), "2.11 kg");
    /// assert_eq!(Mass::parse_text_or("2.11 lb", "kg")?.entered(), "2.11 lb");
    /// # Ok::<(), sowmark_core::quantity::QuantityError>(())
    /// ```
    pub fn parse_text_or(text: &str, default_unit: &str) -> Result<Self, QuantityError> {
        Self::read(text, Some(default_unit))
    }

    /// Reads what [`Self::entered`] wrote.
    ///
    /// # Errors
    /// As [`Self::parse_text`].
    pub fn from_entered(text: &str) -> Result<Self, QuantityError> {
        Self::read(text, None)
    }

    fn read(text: &str, default_unit: Option<&str>) -> Result<Self, QuantityError> {
        let text = text.trim();
        let at = text.find(char::is_alphabetic).unwrap_or(text.len());
        let (number, unit) = (text[..at].trim(), text[at..].trim());
        if number.is_empty() {
            return Err(QuantityError::of(text, Fault::NoNumberAtFront));
        }
        if let Some((ounces, pound)) = after_pounds(unit).zip(D::pound()) {
            return Self::from_pounds_ounces(Decimal::parse(number)?, Decimal::parse(ounces)?, pound);
        }
        let value = Decimal::parse(number)?;
        Self::new(value, if unit.is_empty() { default_unit.unwrap_or("") } else { unit })
    }

    fn from_pounds_ounces(pounds: Decimal, ounces: Decimal, pound: Unit<D>) -> Result<Self, QuantityError> {
        let entered = format!("{pounds} lb {ounces} oz");
        let refuse = |fault| Err(QuantityError::of(&entered, fault));
        if pounds.is_negative() || ounces.is_negative() {
            return refuse(Fault::SignedPounds);
        }
        if pounds.places() > 0 {
            return refuse(Fault::FractionOfAPound);
        }
        if ounces.to_f64() >= 16.0 {
            return refuse(Fault::SixteenOunces);
        }
        // An ounce is 0.0625 lb, so four more decimals hold the sum exactly.
        let places = ounces.places() + 4;
        let sum = pounds.digits().checked_mul(10_u128.pow(places)).map(|lb| lb + ounces.digits() * 625);
        let Some(value) = sum.and_then(|sum| Decimal::from_digits(false, sum, places as usize)) else {
            return refuse(Fault::TooManyDigitsInAll);
        };
        Ok(Self { value, unit: pound, parts: Some((pounds, ounces)) })
    }

    /// The value in SI, rounded once.
    pub fn si(&self) -> f64 {
        let size = self.exact().to_f64();
        if self.value.is_negative() { -size } else { size }
    }

    /// `self - other` in SI, rounded once where the digits allow it: 1.730 kg - 0.455 kg is the same as
    /// 1.745 kg - 0.470 kg to the last bit, so that a container's mass cannot make a scatter.
    pub fn minus_si(&self, other: &Self) -> f64 {
        let plain = || self.si() - other.si();
        if self.value.is_negative() || other.value.is_negative() {
            return plain();
        }
        match self.exact().distance(other.exact()) {
            Some((distance, true)) => -distance.to_f64(),
            Some((distance, false)) => distance.to_f64(),
            None => plain(),
        }
    }

    fn exact(&self) -> Fraction {
        self.value.magnitude().times(self.unit.factor())
    }

    /// The decimal as text; for pounds and ounces the exact pounds.
    pub fn value_text(&self) -> &str {
        self.value.as_str()
    }

    /// The decimal; for pounds and ounces the exact pounds.
    pub const fn value(&self) -> &Decimal {
        &self.value
    }

    /// The unit's name; `lb` for pounds and ounces.
    pub const fn unit(&self) -> &'static str {
        self.unit.name()
    }

    /// Pounds and ounces, where they were entered apart.
    pub fn parts(&self) -> Option<(&Decimal, &Decimal)> {
        self.parts.as_ref().map(|(pounds, ounces)| (pounds, ounces))
    }

    /// One unit of the last place entered, in SI; of the ounces where there are any.
    pub fn resolution_si(&self) -> f64 {
        let (last_place, sixteenths) = match &self.parts {
            Some((_, ounces)) => (ounces.last_place(), Fraction::new(1, 16)),
            None => (self.value.last_place(), Fraction::new(1, 1)),
        };
        last_place.times(sixteenths).times(self.unit.factor()).to_f64()
    }

    /// The value is zero.
    pub const fn is_zero(&self) -> bool {
        self.value.is_zero()
    }

    /// The value is above zero.
    pub fn is_positive(&self) -> bool {
        self.value.is_positive()
    }

    /// The value is below zero.
    pub fn is_negative(&self) -> bool {
        self.value.is_negative()
    }

    /// As it was entered: `12.40 lb`, `5 lb 8 oz`.
    pub fn entered(&self) -> String {
        match &self.parts {
            Some((pounds, ounces)) => format!("{pounds} lb {ounces} oz"),
            None => format!("{} {}", self.value, self.unit),
        }
    }

    /// The units a form may offer.
    pub fn units() -> &'static [Unit<D>] {
        D::units()
    }
}

impl Mass {
    /// Whole pounds and ounces below 16.
    ///
    /// # Errors
    /// A sign, a fraction of a pound, 16 ounces or more, or more digits than [`Decimal`] holds.
    pub fn pounds_ounces(pounds: Decimal, ounces: Decimal) -> Result<Self, QuantityError> {
        Self::from_pounds_ounces(pounds, ounces, super::unit::LB)
    }
}

/// The ounces' number in what follows the pounds' number: `lb 8 oz` gives `8`.
fn after_pounds(unit: &str) -> Option<&str> {
    let rest = unit.strip_prefix("lb")?.trim();
    let ounces = rest.strip_suffix("oz")?.trim();
    ounces.starts_with(|c: char| c.is_ascii_digit() || "+-.,".contains(c)).then_some(ounces)
}

// By hand, because a derive would ask the same of the marker `D`.
impl<D: Dimension> PartialEq for Quantity<D> {
    fn eq(&self, other: &Self) -> bool {
        self.value == other.value && self.unit == other.unit && self.parts == other.parts
    }
}

impl<D: Dimension> Eq for Quantity<D> {}

impl<D: Dimension> fmt::Display for Quantity<D> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.entered())
    }
}

impl<D: Dimension> fmt::Debug for Quantity<D> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {:?}", D::NAME, self.entered())
    }
}

impl<D: Dimension> TryFrom<String> for Quantity<D> {
    type Error = QuantityError;

    fn try_from(entered: String) -> Result<Self, QuantityError> {
        Self::from_entered(&entered)
    }
}

impl<D: Dimension> From<Quantity<D>> for String {
    fn from(quantity: Quantity<D>) -> Self {
        quantity.entered()
    }
}
