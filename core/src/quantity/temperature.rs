//! A temperature as entered. Its scales begin at zeros of their own, so it is no [`super::Quantity`], whose units differ by
//! a factor alone.

use super::{Decimal, QuantityError};
use std::fmt;

/// A temperature, with the scale that it was read on.
///
/// ```
/// use sowmark_core::quantity::{Decimal, Temperature};
///
/// // Source: NIST Special Publication 811, B.8: t/°C = (t/°F - 32)/1.8.
/// let yard = Temperature::new(Decimal::parse("54.5")?, "°F")?;
/// assert_eq!((yard.entered().as_str(), yard.celsius()), ("54.5 °F", 12.5));
/// assert_eq!(Temperature::from_entered("-40 °C")?.fahrenheit(), -40.0);
///
/// let refused = Temperature::new(Decimal::parse("285")?, "K").unwrap_err();
/// assert!(refused.is_unit());
/// assert_eq!(refused.to_string(), "“K” is not a unit of temperature; allowed are °C, °F");
/// # Ok::<(), sowmark_core::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Temperature {
    value: Decimal,
    unit: &'static str,
}

const CELSIUS: &str = "°C";
const FAHRENHEIT: &str = "°F";

impl Temperature {
    /// What it is called in refusals.
    pub const NAME: &'static str = "temperature";

    /// The scales, as they are written. Read, they may lack the ring.
    pub const UNITS: [&'static str; 2] = [CELSIUS, FAHRENHEIT];

    /// A reading on a scale.
    ///
    /// # Errors
    /// Refuses a scale that is neither.
    pub fn new(value: Decimal, unit: &str) -> Result<Self, QuantityError> {
        let known = match unit.trim() {
            CELSIUS | "C" => CELSIUS,
            FAHRENHEIT | "F" => FAHRENHEIT,
            other => return Err(QuantityError::unit(other, Self::NAME, Self::UNITS.into_iter())),
        };
        Ok(Self { value, unit: known })
    }

    /// Reads what [`Self::entered`] wrote.
    ///
    /// # Errors
    /// Refuses what is no number and scale.
    pub fn from_entered(entered: &str) -> Result<Self, QuantityError> {
        let (number, unit) = entered.rsplit_once(' ').unwrap_or((entered, ""));
        Self::new(Decimal::parse(number)?, unit)
    }

    /// As it was entered: "12.5 °C".
    pub fn entered(&self) -> String {
        self.to_string()
    }

    /// The number alone, as entered.
    pub fn value_text(&self) -> &str {
        self.value.as_str()
    }

    /// `°C` or `°F`.
    pub const fn unit(&self) -> &'static str {
        self.unit
    }

    /// Degrees Celsius.
    pub fn celsius(&self) -> f64 {
        let value = self.value.to_f64();
        if self.unit == CELSIUS { value } else { (value - 32.0) / 1.8 }
    }

    /// Degrees Fahrenheit.
    pub fn fahrenheit(&self) -> f64 {
        let value = self.value.to_f64();
        if self.unit == CELSIUS { value * 1.8 + 32.0 } else { value }
    }

    /// The same on the other scale, with as many decimals as were entered: "54.5 °F" of "12.5 °C".
    pub fn on_the_other_scale(&self) -> String {
        let (value, unit) =
            if self.unit == CELSIUS { (self.fahrenheit(), FAHRENHEIT) } else { (self.celsius(), CELSIUS) };
        let places = usize::try_from(self.value.places()).unwrap_or(1).min(2);
        // Adding zero turns a negative zero into a plain one.
        let scale = 10.0_f64.powi(i32::try_from(places).unwrap_or(1));
        format!("{:.places$} {unit}", (value * scale).round() / scale + 0.0)
    }
}

impl fmt::Display for Temperature {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.value.as_str(), self.unit)
    }
}

#[cfg(test)]
mod tests {
    use super::Temperature;

    #[test]
    fn fixed_points_of_both_scales() {
        // Ice melts at 0 °C and 32 °F, water boils at 100 °C and 212 °F; both scales meet at -40.
        for (celsius, fahrenheit) in [("0", "32"), ("100", "212"), ("-40", "-40"), ("37", "98.6")] {
            let (cold, warm) = (format!("{celsius} °C"), format!("{fahrenheit} °F"));
            let (cold, warm) = (Temperature::from_entered(&cold).unwrap(), Temperature::from_entered(&warm).unwrap());
            assert!((cold.fahrenheit() - warm.fahrenheit()).abs() < 1e-12, "{cold} {warm}");
            assert!((cold.celsius() - warm.celsius()).abs() < 1e-12, "{cold} {warm}");
        }
    }

    #[test]
    fn the_other_scale_claims_no_more_digits() {
        for (entered, other) in [
            ("12.5 °C", "54.5 °F"),
            ("12 °C", "54 °F"),
            ("31 °F", "-1 °C"),
            ("32.0 °F", "0.0 °C"),
            ("31.9 °F", "-0.1 °C"),
        ] {
            assert_eq!(Temperature::from_entered(entered).unwrap().on_the_other_scale(), other, "{entered}");
        }
    }

    #[test]
    fn what_is_no_temperature_is_refused() {
        for bad in ["", "12.5", "°C", "warm °C", "12 K", "12 °C °F", "1.2.3 °F"] {
            assert!(Temperature::from_entered(bad).is_err(), "{bad}");
        }
        assert_eq!(Temperature::from_entered("12.50 C").unwrap().entered(), "12.50 °C");
    }
}
