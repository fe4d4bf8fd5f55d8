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

    /// A decimal that is written with a point, in the reader's sign. For a number, with or without its unit; not for text
    /// that has points of its own.
    pub fn decimal(self, number: &str) -> String {
        match self.decimal {
            DecimalSign::Point => number.to_owned(),
            DecimalSign::Comma => number.replace('.', ","),
        }
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
            _ => return name.to_owned(),
        };
        say!(self, key)
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
