//! How somebody reads numbers: in which units, with which decimal sign.

use crate::access::Units;
use sowmark_core::quantity::{Dimension, Quantity, Temperature, Unit, from_si, print, print_number, unit};
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
        let named = entered.strip_suffix(named).map(|number| format!("{number}{}", self.words.unit(named)));
        let named = named.unwrap_or_else(|| entered.to_owned());
        self.words.decimal(&converted.map_or_else(|| named.clone(), |converted| format!("{named} ({converted})")))
    }

    /// A computed mass: to the whole kilogram or pound, and with three digits where that is finer.
    #[must_use]
    pub fn mass(self, kg: f64) -> String {
        self.amount(kg, 3)
    }

    /// How far a computed mass may be off: with two digits, as for every uncertainty (GUM 7.2.6), and from a hundred on to the whole
    /// kilogram or pound.
    #[must_use]
    pub fn mass_doubt(self, kg: f64) -> String {
        self.amount(kg, 2)
    }

    fn amount(self, kg: f64, digits: usize) -> String {
        let unit = if self.units == Units::Us { unit::LB } else { unit::KG };
        // A hundredth is less than anybody weighs seed to; adding zero turns a negative zero into a plain one.
        let value = (from_si(kg, unit) * 100.0).round() / 100.0 + 0.0;
        let said = if value.abs() < 100.0 {
            self.words.trimmed(&print_number(value.abs(), digits))
        } else {
            self.words.decimal(&format!("{:.0}", value.abs().round()))
        };
        let sign = if value < 0.0 { "\u{2212}" } else { "" };
        format!("{sign}{said} {unit}")
    }

    /// A computed area: to a hundredth of a hectare or an acre.
    #[must_use]
    pub fn area(self, square_metres: f64) -> String {
        let said = |unit| format!("{:.2} {unit}", from_si(square_metres, unit));
        self.words.decimal(&if self.units == Units::Us { said(unit::AC) } else { said(unit::HA) })
    }

    /// A rate that somebody wanted: without the zeros that say nothing.
    #[must_use]
    pub fn rate(self, si: f64) -> String {
        let said = |unit| format!("{} {unit}", self.words.short(si, unit, 3));
        if self.units == Units::Us { said(unit::LB_PER_AC) } else { said(unit::KG_PER_HA) }
    }

    /// A rate that was computed: three digits, zeros too, as none is known better than to some tenths of a percent.
    #[must_use]
    pub fn rate_sown(self, si: f64) -> String {
        let said = |unit| format!("{} {unit}", self.words.print(si, unit, 3));
        if self.units == Units::Us { said(unit::LB_PER_AC) } else { said(unit::KG_PER_HA) }
    }
}

/// With as many digits as were entered, at least three.
fn converted<D: Dimension>(entered: &str, unit: Unit<D>) -> Option<String> {
    let quantity = Quantity::<D>::from_entered(entered).ok()?;
    let digits = quantity.value_text().trim_start_matches(['0', '.']).chars().filter(char::is_ascii_digit).count();
    Some(format!("{} {unit}", print(quantity.si(), unit, digits.clamp(3, 6))))
}

#[cfg(test)]
mod tests {
    use super::Reader;
    use crate::access::Units;
    use sowmark_core::words::{DecimalSign, Words};

    #[test]
    fn small_masses_keep_their_digits_and_large_ones_end_at_the_kilogram() {
        let comma = Words { decimal: DecimalSign::Comma, ..Words::default() };
        let reader = Reader { units: Units::Metric, words: comma };
        for (kg, said) in [
            (0.0, "0 kg"),
            (-1e-12, "0 kg"),
            (0.25, "0,25 kg"),
            (12.34, "12,3 kg"),
            (50.0, "50 kg"),
            (-8.5, "\u{2212}8,5 kg"),
            (1410.4, "1410 kg"),
            (12345.6, "12\u{202f}346 kg"),
        ] {
            assert_eq!(reader.mass(kg), said);
        }
        assert_eq!(Reader { units: Units::Us, ..reader }.mass(10.0), "22,1 lb");
        assert_eq!((reader.area(400.0), reader.rate(0.009_876)), ("0,04 ha".to_owned(), "98,8 kg/ha".to_owned()));
        assert_eq!(
            (reader.rate(0.0004), reader.rate_sown(0.000_399_9)),
            ("4 kg/ha".to_owned(), "4,00 kg/ha".to_owned())
        );
    }

    #[test]
    fn what_was_entered_is_grouped_and_keeps_its_digits() {
        let reader = Reader { units: Units::Metric, words: Words::default() };
        assert_eq!(reader.measured("35500 kg"), "35\u{202f}500 kg");
        assert_eq!(reader.measured("12500 m2"), "12\u{202f}500 m\u{b2}");
        assert_eq!(reader.measured("-3.5 °C"), "\u{2212}3.5 °C");
        assert_eq!(reader.measured("25000 lb"), "25\u{202f}000 lb (11\u{202f}340 kg)");
    }
}
