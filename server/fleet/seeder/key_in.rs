//! A factor as the number to key in: in the form that the unit's controller takes, with as many digits as are known.

use super::keyed_in::{KeyFor, KeyMass, KeyedIn};
use crate::access::Units;
use crate::web::reader::Reader;
use serde::Serialize;
use sowmark_core::quantity::unit::{self, dimension};
use sowmark_core::quantity::{PerRevolutions, Unit, print_number, significant_digits_for};
use sowmark_core::words::Words;

/// A factor and how well it is known.
#[derive(Clone, Copy, Debug)]
pub struct Factor {
    /// kg per revolution.
    pub per_run: f64,
    pub whole_unit: f64,
    pub expanded_uncertainty_percent: f64,
}

/// The number as a page shows it.
#[derive(Clone, Debug)]
pub struct KeyIn {
    pub value: String,
    /// "lb per 100 revolutions".
    pub unit: String,
    /// "per run" or "whole unit".
    pub scope: String,
    /// The same factor in the same unit, for what the number is not for.
    pub also: String,
}

/// The form where nobody has said what the controller wants.
fn usual(units: Units) -> KeyedIn {
    let mass_unit = match units {
        Units::Metric => KeyMass::Kg,
        Units::Us => KeyMass::Lb,
    };
    KeyedIn { mass_unit, per: PerRevolutions::Hundred, is_for: KeyFor::Run }
}

/// Per 100 revolutions in the reader's mass: the unit in which factors are compared. On a page it is called as
/// [`Words::unit`] says.
#[must_use]
pub fn per_100(units: Units) -> Unit<dimension::MeterFactor> {
    match units {
        Units::Metric => unit::KG_PER_100REV,
        Units::Us => unit::LB_PER_100REV,
    }
}

impl KeyIn {
    #[must_use]
    pub fn of(said: Option<KeyedIn>, factor: &Factor, reader: Reader) -> Self {
        let chosen = said.unwrap_or_else(|| usual(reader.units));
        let form = chosen.form();
        let of = match chosen.is_for {
            KeyFor::Run => KeyFor::Unit,
            KeyFor::Unit => KeyFor::Run,
        };
        let also = KeyedIn { is_for: of, ..chosen };
        Self {
            value: shown(chosen, factor, reader.words),
            unit: form.unit_said(reader.words),
            scope: form.for_said(reader.words),
            also: format!(
                "{} {} {}",
                shown(also, factor, reader.words),
                reader.words.unit(&also.form().unit()),
                also.form().for_said(reader.words)
            ),
        }
    }

    /// The number in one line: "12.4 lb per 100 revolutions, whole unit".
    #[must_use]
    pub fn says(&self) -> String {
        format!("{} {}, {}", self.value, self.unit, self.scope)
    }
}

fn shown(form: KeyedIn, factor: &Factor, words: Words) -> String {
    words.decimal(&digits(form, factor))
}

/// As programs read it.
fn digits(form: KeyedIn, factor: &Factor) -> String {
    let number = form.form().number(factor.per_run, factor.whole_unit);
    print_number(number, significant_digits_for(number, factor.expanded_uncertainty_percent))
}

/// What a form is called: "lb per 100 revolutions, whole unit".
#[must_use]
pub fn in_words(said: Option<KeyedIn>, reader: Reader) -> String {
    let form = said.unwrap_or_else(|| usual(reader.units)).form();
    format!("{}, {}", form.unit_said(reader.words), form.for_said(reader.words))
}

/// The number as the API gives it: as it is keyed in, digit by digit.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct KeyInView {
    /// With no more digits than the uncertainty supports.
    value: String,
    /// `lb/100rev`, `g/rev`…
    unit: String,
    /// `run` or `unit`.
    #[serde(rename = "for")]
    is_for: &'static str,
}

impl KeyInView {
    /// In the form that was said; where none was, in the organization's units.
    #[must_use]
    pub fn of(said: Option<KeyedIn>, factor: &Factor, units: Units) -> Self {
        let form = said.unwrap_or_else(|| usual(units));
        Self { value: digits(form, factor), unit: form.form().unit(), is_for: form.is_for.word() }
    }
}
