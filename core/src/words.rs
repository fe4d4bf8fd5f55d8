//! Numbers in sentences and on pages: always with the digits a person can use, in the decimal sign they read.
//!
//! Everything in this crate that makes a sentence takes a [`Words`]: it holds the reader's decimal sign and language. What
//! programs read (JSON, stored records) is written with the default, a point and English.

use serde::{Deserialize, Serialize};

use crate::{
    quantity::{Dimension, Quantity, Unit, from_si, print, print_number, print_to_step, significant_digits_for, unit},
    say,
    texts::{Argument, Language},
};

/// What stands between the units and the tenths.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DecimalSign {
    /// 12.5
    #[default]
    Point,
    /// 12,5
    Comma,
}

/// How a person reads: numbers and language.
///
/// ```
/// use sowmark_core::{quantity::unit, words::{DecimalSign, Words}};
///
/// let words = Words { decimal: DecimalSign::Comma, ..Words::default() };
/// assert_eq!(words.percent(1.234), "1,2 %");
/// assert_eq!(words.print(0.000_451_5, unit::G_PER_REV, 4), "0,4515");
/// assert_eq!(Words::default().percent(12.34), "12.3 %");
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Words {
    /// Their decimal sign.
    pub decimal: DecimalSign,
    /// Their language.
    pub language: Language,
}

impl Words {
    /// The text of a key in the reader's language; what fills its variables must have been made with the same words. Mostly
    /// by way of [`say!`](crate::say).
    pub fn say(self, key: &str, arguments: &[(&str, Argument<'_>)]) -> String {
        self.language.catalogue().text(key, arguments)
    }

    /// Whether the decimal sign is a comma.
    pub const fn is_comma(self) -> bool {
        matches!(self.decimal, DecimalSign::Comma)
    }

    /// A computed number with that many significant digits ([`print_number`]).
    pub fn number(self, value: f64, significant_digits: usize) -> String {
        self.decimal(&print_number(value, significant_digits))
    }

    /// An SI value in a unit, without the unit's name ([`print()`]).
    pub fn print<D: Dimension>(self, si: f64, unit: Unit<D>, significant_digits: usize) -> String {
        self.decimal(&print(si, unit, significant_digits))
    }

    /// An SI value in a unit with as many digits as its relative expanded uncertainty supports, without the unit's name
    /// ([`significant_digits_for`]): counted in that unit, for the same number has fewer before the point in another.
    ///
    /// ```
    /// use sowmark_core::{quantity::unit, words::Words};
    ///
    /// // 0.0452 kg/rev ± 2.1 % is 9.97 ± 0.21 lb/100rev.
    /// assert_eq!(Words::default().print_within(0.0452, unit::LB_PER_100REV, 2.1), "9.96");
    /// ```
    pub fn print_within<D: Dimension>(self, si: f64, unit: Unit<D>, uncertainty_percent: f64) -> String {
        self.print(si, unit, significant_digits_for(from_si(si, unit), uncertainty_percent))
    }

    /// A difference or a sum of readings in a unit, to the step of the finest, without the unit's name
    /// ([`print_to_step`]).
    pub fn to_step<D: Dimension>(self, si: f64, unit: Unit<D>, step: f64) -> String {
        self.decimal(&print_to_step(si, unit, step))
    }

    /// An SI value in a unit with at most that many significant digits: 6 m, not 6.000 m. For what somebody set.
    ///
    /// ```
    /// use sowmark_core::{quantity::unit, words::Words};
    ///
    /// assert_eq!(Words::default().short(6.0, unit::M, 4), "6");
    /// assert_eq!(Words::default().short(5.4864, unit::FT, 4), "18");
    /// assert_eq!(Words::default().short(120.0, unit::M, 2), "120");
    /// ```
    pub fn short<D: Dimension>(self, si: f64, unit: Unit<D>, significant_digits: usize) -> String {
        self.trimmed(&print(si, unit, significant_digits))
    }

    /// A number without the zeros that say nothing at its end.
    pub fn trimmed(self, number: &str) -> String {
        let bare = if number.contains('.') { number.trim_end_matches('0').trim_end_matches('.') } else { number };
        self.decimal(bare)
    }

    /// A number that somebody set, such as a limit: with the digits it was set with, "5" or "0.5".
    pub fn exactly(self, value: f64) -> String {
        self.decimal(&value.to_string())
    }

    /// What was measured, as it was entered: "12.40 lb".
    pub fn entered<D: Dimension>(self, quantity: &Quantity<D>) -> String {
        self.decimal(&quantity.entered())
    }

    /// A decimal that is written as programs write it, as people read it: in the reader's sign, with a minus sign before what
    /// is below zero, and five digits and more in groups. For a number, with or without its unit; not for text that has points
    /// of its own, nor for what a program reads.
    ///
    /// ```
    /// use sowmark_core::words::{DecimalSign, Words};
    ///
    /// let words = Words { decimal: DecimalSign::Comma, ..Words::default() };
    /// assert_eq!(words.decimal("-0.5"), "\u{2212}0,5");
    /// assert_eq!(words.decimal("35500 kg (78264.1 lb)"), "35\u{202f}500 kg (78\u{202f}264,1 lb)");
    /// assert_eq!(words.decimal("1440"), "1440");
    /// ```
    pub fn decimal(self, number: &str) -> String {
        let mut said = String::with_capacity(number.len() + 4);
        let (mut rest, mut before) = (number, ' ');
        while let Some(sign) = rest.chars().next() {
            let digits = rest.len() - rest.trim_start_matches(|sign: char| sign.is_ascii_digit()).len();
            let (taken, left) = rest.split_at(digits.max(sign.len_utf8()));
            let is_below_zero =
                sign == '-' && matches!(before, ' ' | '(') && left.starts_with(|sign: char| sign.is_ascii_digit());
            // What stands behind a decimal sign or in a name is no whole number.
            let is_whole = digits > 0 && !matches!(before, '.' | ',' | '-') && !before.is_alphabetic();
            match sign {
                '-' if is_below_zero => said.push('\u{2212}'),
                '.' if self.is_comma() => said.push(','),
                _ if is_whole => said.push_str(&grouped(taken)),
                _ => said.push_str(taken),
            }
            before = if is_below_zero { ' ' } else { taken.chars().next_back().unwrap_or(' ') };
            rest = left;
        }
        said
    }

    /// A sentence that was written with points, its decimals in the reader's sign. What stands in quotation marks is
    /// somebody's own text and stays.
    ///
    /// ```
    /// use sowmark_core::words::{DecimalSign, Words};
    ///
    /// let words = Words { decimal: DecimalSign::Comma, ..Words::default() };
    /// assert_eq!(words.sentence("0.300 kg is below 1.5. Lot \"24.117\"."), "0,300 kg is below 1,5. Lot \"24.117\".");
    /// ```
    pub fn sentence(self, text: &str) -> String {
        if !self.is_comma() {
            return text.to_owned();
        }
        let letters: Vec<char> = text.chars().collect();
        let is_digit = |at: Option<usize>| at.and_then(|at| letters.get(at)).is_some_and(char::is_ascii_digit);
        let mut quoted = false;
        let said = letters.iter().enumerate().map(|(at, &letter)| {
            match letter {
                '"' => quoted = !quoted,
                '\u{201c}' => quoted = true,
                '\u{201d}' => quoted = false,
                _ => {}
            }
            let is_sign = letter == '.' && !quoted && is_digit(at.checked_sub(1)) && is_digit(at.checked_add(1));
            if is_sign { ',' } else { letter }
        });
        said.collect()
    }

    /// Two digits below ten, three from there: "1.2 %", "12.3 %".
    pub fn percent(self, value: f64) -> String {
        format!("{} %", self.number(value, if value.abs() < 10.0 { 2 } else { 3 }))
    }

    /// A mass for readers of either system: "0.204 kg (0.450 lb)".
    pub fn mass(self, kg: f64) -> String {
        format!("{} kg ({} lb)", self.print(kg, unit::KG, 3), self.print(kg, unit::LB, 3))
    }

    /// What a run or its catch is called: its label, or its number where it has none and is on record as "catch 2".
    pub fn run(self, label: &str) -> String {
        match label.strip_prefix("catch ").and_then(|number| number.parse::<u32>().ok()) {
            Some(number) => say!(self, "catch-without-label", number = number.to_string()),
            None => label.to_owned(),
        }
    }

    /// A unit in words ("days", "degrees of freedom") in the reader's; signs like "kg" are the same in all languages.
    ///
    /// ```
    /// use sowmark_core::words::Words;
    ///
    /// assert_eq!(Words::default().unit("degrees of freedom"), "degrees of freedom");
    /// assert_eq!(Words::default().unit("kg"), "kg");
    /// assert_eq!(Words::default().unit("m2"), "m²");
    /// assert_eq!(Words::default().unit("kg/100rev"), "kg/100rev");
    /// ```
    pub fn unit(self, name: &str) -> String {
        let key = match name {
            "catches" => "unit-catches",
            "days" => "unit-days",
            "degrees of freedom" => "unit-degrees-of-freedom",
            "g per thousand seeds" => "unit-g-per-thousand-seeds",
            "repeats" => "unit-repeats",
            "standard deviations" => "unit-standard-deviations",
            "times" => "unit-times",
            // People at a machine say it so; the answers to programs keep the SI form.
            "1/min" => return "rpm".to_owned(),
            "m2" => return "m\u{b2}".to_owned(),
            _ => return self.per_revolutions(name),
        };
        say!(self, key)
    }

    /// A unit of meter factors in the reader's words, any other as it is.
    fn per_revolutions(self, name: &str) -> String {
        if let Some(mass) = name.strip_suffix("/100rev") {
            say!(self, "unit-per-100-revolutions", mass = mass)
        } else if let Some(mass) = name.strip_suffix("/rev") {
            say!(self, "unit-per-revolution", mass = mass)
        } else {
            name.to_owned()
        }
    }

    /// What is measured ([`Dimension::NAME`]) in the reader's words: "mass".
    ///
    /// ```
    /// use sowmark_core::{quantity::{Dimension, unit::dimension::SeedWeight}, words::Words};
    ///
    /// assert_eq!(Words::default().dimension(SeedWeight::NAME), "seed weight (per thousand seeds)");
    /// ```
    pub fn dimension(self, name: &str) -> String {
        // What stands in brackets is no part of the key.
        let bare = name.split(" (").next().unwrap_or(name);
        self.say(&format!("dimension-{}", bare.replace(' ', "-")), &[])
    }

    /// A roller speed: "42.0 rpm".
    pub fn rpm(self, value: f64) -> String {
        format!("{} rpm", self.number(value, 3))
    }
}

/// Five digits and more in groups of three, with narrow spaces that do not break: the same for a decimal point and a comma.
/// Source: ISO 80000-1, 7.3.1 (from memory).
fn grouped(digits: &str) -> String {
    let of_three = |(at, digit): (usize, char)| {
        let left = digits.len() - at;
        let space = (digits.len() > 4 && at > 0 && left.is_multiple_of(3)).then_some('\u{202f}');
        space.into_iter().chain([digit])
    };
    digits.chars().enumerate().flat_map(of_three).collect()
}

#[cfg(test)]
mod tests {
    use super::{DecimalSign, Words, grouped};

    #[test]
    fn five_digits_and_more_stand_in_groups() {
        let cases = [("0", "0"), ("1440", "1440"), ("12345", "12\u{202f}345")];
        for (digits, said) in
            cases.into_iter().chain([("123456", "123\u{202f}456"), ("1234567", "1\u{202f}234\u{202f}567")])
        {
            assert_eq!(grouped(digits), said);
        }
    }

    #[test]
    fn only_whole_numbers_are_grouped_and_only_signs_are_minus_signs() {
        let words = Words { decimal: DecimalSign::Comma, ..Words::default() };
        for (number, said) in [
            ("0.0000125", "0,0000125"),
            ("-12345.67890 kg", "\u{2212}12\u{202f}345,67890 kg"),
            ("12 lb (-3)", "12 lb (\u{2212}3)"),
            ("HH-24117", "HH-24117"),
            ("b24117", "b24117"),
            ("5:2", "5:2"),
            ("\u{2013}", "\u{2013}"),
            ("", ""),
        ] {
            assert_eq!(words.decimal(number), said);
        }
    }
}
