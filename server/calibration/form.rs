//! The catch sheet as a form: rows for what is weighed.
//!
//! The unit of mass is one for the sheet and stands beside every number; changing it shows the sheet again, and never reads
//! a typed number in another unit than the one beside it.

use super::around;
use super::draft::Method;
use super::typed::{COUNTED, MASS_UNITS, Typed, TypedRepeat, length_unit};
use crate::access::Units;
use crate::web::error::{Error, Fault};
use crate::web::form::{Form, FormField, Kind, Posted};
use crate::web::reader::Reader;
use sowmark_core::say;
use sowmark_core::words::Words;

/// The sheet as it is drawn.
#[derive(Debug)]
pub(super) struct CatchForm {
    pub(super) action: String,
    pub(super) submit: String,
    pub(super) head: Vec<FormField>,
    pub(super) repeats: Vec<RepeatPart>,
    /// What surrounds the catch, folded away.
    pub(super) around: Vec<FormField>,
    pub(super) tail: Vec<FormField>,
    /// Every field, for the list of faults.
    pub(super) all: Vec<FormField>,
    pub(super) general: Vec<String>,
    /// Where what stands in it comes from, when it is not this page.
    pub(super) note: String,
    pub(super) mass_unit: String,
    /// The unit of a distance and a circumference.
    pub(super) length_unit: &'static str,
    /// The units that the sheet could change to.
    pub(super) other_units: Vec<&'static str>,
}

/// One repeat of it.
#[derive(Debug)]
pub(super) struct RepeatPart {
    pub(super) index: usize,
    pub(super) number: usize,
    pub(super) revolutions: FormField,
    pub(super) set_aside: FormField,
    pub(super) is_set_aside: bool,
    pub(super) catches: Vec<CatchPart>,
}

/// One row of it.
#[derive(Debug)]
pub(super) struct CatchPart {
    pub(super) fields: Vec<FormField>,
    /// The name of the field that carries the remembered tare, and it.
    pub(super) remembered: (String, String),
    pub(super) net: String,
}

/// What can be chosen on a sheet, and what is chosen before anybody does.
#[derive(Clone, Debug)]
pub(super) struct Choices {
    pub(super) action: String,
    pub(super) reader: Reader,
    pub(super) now: String,
    pub(super) lots: Vec<(String, String)>,
    pub(super) lot: String,
    pub(super) scales: Vec<(String, String)>,
    pub(super) scale: String,
    /// What stands in a sheet that is begun from elsewhere, as from a rate plan.
    pub(super) begun: Posted,
}

impl CatchForm {
    /// What is folded away stands open where something was typed or is wrong.
    pub(super) fn is_around_open(&self) -> bool {
        self.around.iter().any(|field| !field.value.trim().is_empty() || field.error.is_some())
    }

    pub(super) fn has_errors(&self) -> bool {
        !self.general.is_empty() || self.all.iter().any(|field| field.error.is_some())
    }

    /// Draws a sheet; `posted` is what stands in its other fields, `error` what was wrong with them.
    pub(super) fn draw(
        choices: &Choices,
        typed: &Typed,
        posted: Option<&Posted>,
        error: Option<&Error>,
        id: uuid::Uuid,
    ) -> Self {
        let words = choices.reader.words;
        let mut fields = head_fields(choices, typed);
        let head = fields.len();
        fields.extend(typed.repeats.iter().enumerate().flat_map(|(j, repeat)| repeat_fields(j, repeat, typed, words)));
        let tail = fields.len();
        fields.extend(around::fields(choices.reader));
        fields.push(FormField::new("note", say!(words, "catch-note")).kind(Kind::Area).optional());
        let mut form = Form::new(choices.action.clone(), say!(words, "catch-save"), fields).filled(&choices.begun);
        if let Some(posted) = posted {
            let shown = typed.posted(posted);
            let placed = Error::Faults(error.map_or(Vec::new(), at_fields));
            let whole = error.filter(|error| error.faults().is_empty());
            form = form.again(&shown, whole.unwrap_or(&placed));
            if error.is_none() {
                // Nothing was wrong; it was only asked for more rows, or for the result.
                form.general.clear();
            }
        }
        let all = form.fields.clone();
        let mut rest = form.fields.split_off(head);
        let (around, mut tail): (Vec<_>, Vec<_>) =
            rest.split_off(tail - head).into_iter().partition(|field| field.is_folded);
        let id = posted
            .map(|posted| posted.text("id"))
            .filter(|id| !id.is_empty())
            .map_or_else(|| id.to_string(), str::to_owned);
        tail.push(FormField::hidden("id", id));
        Self {
            action: form.action,
            submit: form.submit,
            head: form.fields,
            repeats: repeat_parts(rest, typed, words),
            around,
            tail,
            all,
            general: form.general,
            note: String::new(),
            mass_unit: typed.mass_unit.clone(),
            length_unit: length_unit(choices.reader.units),
            other_units: MASS_UNITS.into_iter().filter(|unit| *unit != typed.mass_unit).collect(),
        }
    }
}

fn head_fields(choices: &Choices, typed: &Typed) -> Vec<FormField> {
    let words = choices.reader.words;
    let method = |method: &Method| {
        let says = match method {
            Method::Stationary => say!(words, "catch-method-stationary"),
            Method::Driven => say!(words, "catch-method-driven"),
            Method::HandTurned => say!(words, "catch-method-hand-turned"),
        };
        (method.word(), says)
    };
    let (rates, speeds) = match choices.reader.units {
        Units::Metric => (["kg/ha", "lb/ac"], ["km/h", "mph"]),
        Units::Us => (["lb/ac", "kg/ha"], ["mph", "km/h"]),
    };
    let no_scale = (String::new(), say!(words, "catch-scale-none"));
    let no_lot = (String::new(), say!(words, "catch-lot-none"));
    vec![
        FormField::new("occurred_at", say!(words, "catch-caught-at")).kind(Kind::Moment).value(&choices.now),
        FormField::new("lot_id", say!(words, "catch-lot"))
            .choice([no_lot].into_iter().chain(choices.lots.iter().cloned()))
            .value(&choices.lot),
        FormField::new("scale_id", say!(words, "catch-scale"))
            .choice([no_scale].into_iter().chain(choices.scales.iter().cloned()))
            .value(&choices.scale)
            .optional(),
        FormField::new("method", say!(words, "catch-method"))
            .choice(Method::ALL.iter().map(method))
            .value("stationary"),
        FormField::new("roller_speed_rpm", say!(words, "catch-roller-speed")).kind(Kind::Number).optional(),
        FormField::new("planned/rate", say!(words, "catch-planned-rate")).measured(&rates, rates[0]).optional(),
        FormField::new("planned/speed", say!(words, "catch-planned-speed")).measured(&speeds, speeds[0]).optional(),
        FormField::new("_counted", say!(words, "catch-counted"))
            .choice(COUNTED.map(|(word, key)| (word, say!(words, key))))
            .value(&typed.counted),
        FormField::new("_per", say!(words, "catch-per"))
            .hint(say!(words, "catch-per-hint", unit = length_unit(choices.reader.units)))
            .kind(Kind::Number)
            .value(&typed.per)
            .optional(),
        FormField::new("_slip", say!(words, "catch-slip"))
            .hint(say!(words, "catch-slip-hint"))
            .kind(Kind::Number)
            .value(&typed.slip)
            .optional(),
    ]
}

fn repeat_fields(j: usize, repeat: &TypedRepeat, typed: &Typed, words: Words) -> Vec<FormField> {
    let number = (j + 1).to_string();
    let count = say!(words, "catch-repeat-count", counted = &typed.counted, number = &number);
    let mut fields = vec![
        FormField::new(format!("repeats/{j}/revolutions"), count).kind(Kind::Number).value(&repeat.revolutions),
        FormField::new(format!("repeats/{j}/set_aside"), say!(words, "catch-repeat-aside", number = &number))
            .hint(say!(words, "catch-repeat-aside-hint"))
            .value(&repeat.set_aside)
            .optional(),
    ];
    let unit = [typed.mass_unit.as_str()];
    for (i, catch) in repeat.catches.iter().enumerate() {
        let row = format!("repeats/{j}/catches/{i}");
        let run = match catch.label.trim() {
            "" => say!(words, "catch-run-named", number = (i + 1).to_string()),
            label => label.to_owned(),
        };
        let field = |name: &str, says: String| {
            let called = say!(words, "catch-field-of", label = &says, run = &run, repeat = &number);
            FormField::new(format!("{row}/{name}"), says).called(called)
        };
        fields.push(field("label", say!(words, "catch-run")).value(&catch.label));
        fields.push(field("runs", say!(words, "catch-runs")).kind(Kind::Whole).value(&catch.runs));
        fields.push(field("tare", say!(words, "catch-tare")).measured(&unit, unit[0]).value(&catch.tare));
        fields.push(field("gross", say!(words, "catch-gross")).measured(&unit, unit[0]).value(&catch.gross));
    }
    fields
}

fn repeat_parts(fields: Vec<FormField>, typed: &Typed, words: Words) -> Vec<RepeatPart> {
    let mut fields = fields.into_iter();
    let mut parts = Vec::new();
    for (index, repeat) in typed.repeats.iter().enumerate() {
        let (Some(revolutions), Some(set_aside)) = (fields.next(), fields.next()) else { break };
        let catches = repeat.catches.iter();
        let catches = catches
            .enumerate()
            .map(|(i, catch)| CatchPart {
                fields: fields.by_ref().take(4).collect(),
                remembered: (format!("repeats/{index}/catches/{i}/remembered"), catch.remembered.clone()),
                net: typed.net(catch, words),
            })
            .collect();
        let is_set_aside = !repeat.set_aside.trim().is_empty();
        parts.push(RepeatPart { index, number: index + 1, revolutions, set_aside, is_set_aside, catches });
    }
    parts
}

/// What is wrong with a part of a revolutions entry stands beside the field that it was typed in; that nothing was typed, where
/// a sheet begins.
fn at_fields(error: &Error) -> Vec<Fault> {
    let place = |mut fault: Fault| {
        let path: Vec<&str> = fault.pointer.split('/').collect();
        fault.pointer = match path.as_slice() {
            ["", "repeats"] => "/repeats/0/revolutions".to_owned(),
            ["", "repeats", _, "revolutions", "pulses_per_rev" | "circumference", ..] => "/_per".to_owned(),
            ["", "repeats", _, "revolutions", "slip_percent", ..] => "/_slip".to_owned(),
            ["", "repeats", repeat, "revolutions", _, ..] => format!("/repeats/{repeat}/revolutions"),
            _ => return fault,
        };
        fault
    };
    error.faults().into_iter().map(place).collect()
}
