//! How somebody reads numbers: in which units, with which decimal sign.

use crate::access::Units;
use sowmark_core::quantity::{Dimension, Quantity, Temperature, Unit, print, unit};
use sowmark_core::words::Words;

/// The units and the decimal sign of a person.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reader {
    pub units: Units,
    pub words: Words,
}

impl Reader {
    /// What was measured, as it was entered; where that is the other system's unit, with the same in the reader's behind
    /// it: "40 ac (16.2 ha)". Text that is no quantity stays as it is.
    ///
    /// ```
    /// use sowmark::{access::Units, web::reader::Reader};
    /// use sowmark_core::words::{DecimalSign, Words};
    ///
    /// let reader = Reader { units: Units::Metric, words: Words { decimal: DecimalSign::Comma, ..Words::default() } };
    /// assert_eq!(reader.measured("40.0 ac"), "40,0 ac (16,2 ha)");
    /// assert_eq!(reader.measured("12.40 ha"), "12,40 ha");
    /// ```
    #[must_use]
    pub fn measured(self, entered: &str) -> String {
        let Some((_, named)) = entered.rsplit_once(' ') else { return self.words.decimal(entered) };
        let converted = match (self.units, named) {
            (Units::Us, "°C") | (Units::Metric, "°F") => {
                Temperature::from_entered(entered).ok().map(|read| read.on_the_other_scale())
            }
            (Units::Us, "g") => converted(entered, unit::OZ),
            (Units::Us, "kg" | "t") => converted(entered, unit::LB),
            (Units::Us, "mm" | "cm") => converted(entered, unit::IN),
            (Units::Us, "m") => converted(entered, unit::FT),
            (Units::Us, "m2" | "ha") => converted(entered, unit::AC),
            (Units::Us, "km/h" | "m/s") => converted(entered, unit::MPH),
            (Units::Us, "kg/hL" | "g/L") => converted(entered, unit::LB_PER_BU),
            (Units::Us, "kg/ha") => converted(entered, unit::LB_PER_AC),
            (Units::Metric, "oz" | "lb") => converted(entered, unit::KG),
            (Units::Metric, "in") => converted(entered, unit::CM),
            (Units::Metric, "ft") => converted(entered, unit::M),
            (Units::Metric, "ac") => converted(entered, unit::HA),
            (Units::Metric, "mph") => converted(entered, unit::KM_PER_H),
            (Units::Metric, "lb/bu") => converted(entered, unit::KG_PER_HL),
            (Units::Metric, "lb/ac") => converted(entered, unit::KG_PER_HA),
            _ => None,
        };
        let said = converted.map_or_else(|| entered.to_owned(), |converted| format!("{entered} ({converted})"));
        self.words.decimal(&said)
    }
}

/// With as many digits as were entered, at least three.
fn converted<D: Dimension>(entered: &str, unit: Unit<D>) -> Option<String> {
    let quantity = Quantity::<D>::from_entered(entered).ok()?;
    let digits = quantity.value_text().trim_start_matches(['0', '.']).chars().filter(char::is_ascii_digit).count();
    Some(format!("{} {unit}", print(quantity.si(), unit, digits.clamp(3, 6))))
}
