//! The catch sheet as a form: rows for what is weighed, kept as typed from one asking to the next.
//!
//! A blank row is no catch: rows are put in order, the filled ones first, so that the faults of what is sent point at the
//! rows that are shown. The unit of mass is one for the sheet and stands beside every number; changing it shows the
//! sheet again, and never reads a typed number in another unit than the one beside it.

use super::around;
use super::draft::Method;
use crate::access::Units;
use crate::web::error::{Error, Fault};
use crate::web::form::{Form, FormField, Kind, Posted};
use crate::web::reader::Reader;
use jiff::tz::TimeZone;
use serde_json::{Map, Value, json};
use sowmark_core::catch::{Catch, Sheet};
use sowmark_core::quantity::unit::dimension;
use sowmark_core::quantity::{Dimension, Mass};
use sowmark_core::say;
use sowmark_core::words::Words;
use std::collections::BTreeMap;

/// The units of mass that a sheet can be filled in with.
pub(super) const MASS_UNITS: [&str; 4] = ["kg", "g", "lb", "oz"];

/// What the number of a repeat counts, and what that is called.
pub(super) const COUNTED: [(&str, &str); 4] = [
    ("revolutions", "catch-counted-revolutions"),
    ("turns", "catch-counted-turns"),
    ("pulses", "catch-counted-pulses"),
    ("distance", "catch-counted-distance"),
];

/// A sheet as it was typed.
#[derive(Clone, Debug, Default)]
pub(super) struct Typed {
    pub(super) repeats: Vec<TypedRepeat>,
    pub(super) mass_unit: String,
    counted: String,
    per: String,
    slip: String,
}

#[derive(Clone, Debug, Default)]
pub(super) struct TypedRepeat {
    revolutions: String,
    set_aside: String,
    catches: Vec<TypedCatch>,
}

#[derive(Clone, Debug, Default)]
struct TypedCatch {
    label: String,
    runs: String,
    tare: String,
    gross: String,
    /// The tare as it was remembered, not typed.
    remembered: String,
}

impl TypedCatch {
    /// Of one run, called by its number.
    fn new(run: usize, words: Words) -> Self {
        let label = say!(words, "catch-run-named", number = run.to_string());
        Self { label, runs: "1".to_owned(), ..Self::default() }
    }

    /// Nothing weighed: at most a tare that was remembered and stands there by itself.
    fn is_blank(&self) -> bool {
        let tare = self.tare.trim();
        self.gross.trim().is_empty() && (tare.is_empty() || tare == self.remembered.trim())
    }
}

/// The bags of the last catch: most crews weigh the same ones again.
#[derive(Clone, Debug, Default)]
pub(super) struct Bags {
    unit: String,
    bags: Vec<TypedCatch>,
}

impl Bags {
    /// Those of a sheet, if all were weighed in one unit.
    pub(super) fn of(sheet: &Sheet, words: Words) -> Option<Self> {
        let catches = &sheet.repeats.iter().find(|repeat| repeat.set_aside.is_none())?.catches;
        let unit = catches.first()?.tare.unit().to_string();
        let bag = |catch: &Catch| {
            let tare = catch.tare.entered();
            let value = if catch.tare.parts().is_some() { &tare } else { tare.strip_suffix(&format!(" {unit}"))? };
            let tare = words.decimal(value);
            Some(TypedCatch {
                label: catch.label.clone().unwrap_or_default(),
                runs: catch.runs.to_string(),
                remembered: tare.clone(),
                tare,
                gross: String::new(),
            })
        };
        let bags = catches.iter().map(bag).collect::<Option<Vec<_>>>()?;
        MASS_UNITS.contains(&unit.as_str()).then_some(Self { unit, bags })
    }
}

impl TypedRepeat {
    /// A row for each run that is likely caught.
    fn new(runs: usize, words: Words) -> Self {
        Self { catches: (1..=runs).map(|run| TypedCatch::new(run, words)).collect(), ..Self::default() }
    }

    fn is_blank(&self) -> bool {
        self.set_aside.trim().is_empty() && self.catches.iter().all(TypedCatch::is_blank)
    }

    /// The same runs again in the same bags, not yet weighed.
    fn again(&self) -> Self {
        let catch =
            |catch: &TypedCatch| TypedCatch { gross: String::new(), remembered: catch.tare.clone(), ..catch.clone() };
        Self {
            revolutions: self.revolutions.clone(),
            set_aside: String::new(),
            catches: self.catches.iter().map(catch).collect(),
        }
    }
}

impl Typed {
    /// A sheet for two repeats of the runs and bags of the last catch; without one, of up to four runs: what is usually
    /// caught. (Common practice, no source.)
    pub(super) fn new(reader: Reader, runs_in_use: u32, bags: Option<&Bags>) -> Self {
        let runs = usize::try_from(runs_in_use.clamp(1, 4)).unwrap_or(1);
        let repeat = bags.map_or_else(
            || TypedRepeat::new(runs, reader.words),
            |bags| TypedRepeat { catches: bags.bags.clone(), ..TypedRepeat::default() },
        );
        let mass_unit = match (bags, reader.units) {
            (Some(bags), _) => &bags.unit,
            (None, Units::Metric) => "kg",
            (None, Units::Us) => "lb",
        };
        Self {
            repeats: vec![repeat.clone(), repeat],
            mass_unit: mass_unit.to_owned(),
            counted: "revolutions".to_owned(),
            per: String::new(),
            slip: String::new(),
        }
    }

    /// What was posted, in order: what is filled in comes first.
    pub(super) fn of(posted: &Posted) -> Self {
        let mut rows: BTreeMap<usize, (TypedRepeat, BTreeMap<usize, TypedCatch>)> = BTreeMap::new();
        for (name, text) in &posted.0 {
            let path: Vec<&str> = name.split('/').collect();
            let ["repeats", repeat, rest @ ..] = path.as_slice() else { continue };
            let Some(repeat) = position(repeat, sowmark_core::catch::MAX_REPEATS) else { continue };
            let row = rows.entry(repeat).or_default();
            match rest {
                ["revolutions"] => row.0.revolutions.clone_from(text),
                ["set_aside"] => row.0.set_aside.clone_from(text),
                ["catches", catch, field @ ..] => {
                    if let Some(catch) = position(catch, sowmark_core::catch::MAX_CATCHES) {
                        row.1.entry(catch).or_default().fill(field, text);
                    }
                }
                _ => {}
            }
        }
        let mut repeats: Vec<TypedRepeat> = rows.into_values().map(in_order).collect();
        repeats.sort_by_key(TypedRepeat::is_blank);
        let known = |text: &str, all: &[&str]| {
            all.iter().find(|one| **one == text).or(all.first()).map_or("", |one| one).to_owned()
        };
        Self {
            repeats,
            mass_unit: known(posted.text("_mass_unit"), &MASS_UNITS),
            counted: known(posted.text("_counted"), &COUNTED.map(|(word, _)| word)),
            per: posted.text("_per").to_owned(),
            slip: posted.text("_slip").to_owned(),
        }
    }

    /// Does what a button of the sheet asks: one more repeat, one more row, another unit. Whether there is such a button.
    pub(super) fn do_as_asked(&mut self, asked: &str, words: Words) -> bool {
        if asked == "add_repeat" {
            let next = self.repeats.last().map_or_else(|| TypedRepeat::new(1, words), TypedRepeat::again);
            if self.repeats.len() < sowmark_core::catch::MAX_REPEATS {
                self.repeats.push(next);
            }
        } else if let Some(repeat) = asked.strip_prefix("add_run/").and_then(|at| at.parse::<usize>().ok()) {
            if let Some(repeat) =
                self.repeats.get_mut(repeat).filter(|repeat| repeat.catches.len() < sowmark_core::catch::MAX_CATCHES)
            {
                repeat.catches.push(TypedCatch::new(repeat.catches.len() + 1, words));
            }
        } else if let Some(unit) = asked.strip_prefix("unit/").filter(|unit| MASS_UNITS.contains(unit)) {
            unit.clone_into(&mut self.mass_unit);
        } else {
            return false;
        }
        true
    }

    /// The fields as they are shown.
    pub(super) fn posted(&self, posted: &Posted) -> Posted {
        self.pairs(posted, |_| true, |_| true)
    }

    fn pairs(
        &self,
        posted: &Posted,
        repeat: impl Fn(&TypedRepeat) -> bool,
        catch: impl Fn(&TypedCatch) -> bool,
    ) -> Posted {
        let others = posted.0.iter().filter(|(name, _)| !name.starts_with("repeats/") && name != "_mass_unit");
        let mut pairs: Vec<(String, String)> = others.cloned().collect();
        pairs.push(("_mass_unit".to_owned(), self.mass_unit.clone()));
        for (j, typed) in self.repeats.iter().filter(|typed| repeat(typed)).enumerate() {
            pairs.push((format!("repeats/{j}/revolutions"), typed.revolutions.clone()));
            pairs.push((format!("repeats/{j}/set_aside"), typed.set_aside.clone()));
            for (i, typed) in typed.catches.iter().filter(|typed| catch(typed)).enumerate() {
                let row = format!("repeats/{j}/catches/{i}");
                pairs.push((format!("{row}/label"), typed.label.clone()));
                pairs.push((format!("{row}/runs"), typed.runs.clone()));
                for (field, text) in [("tare", &typed.tare), ("gross", &typed.gross)] {
                    pairs.push((format!("{row}/{field}/value"), text.clone()));
                    pairs.push((format!("{row}/{field}/unit"), self.mass_unit.clone()));
                }
            }
        }
        Posted(pairs)
    }

    /// The calibration that the filled rows make.
    pub(super) fn sent(&self, posted: &Posted, zone: &TimeZone, units: Units) -> Value {
        let mut sent = self.pairs(posted, |repeat| !repeat.is_blank(), |catch| !catch.is_blank()).tree(zone);
        let Value::Object(fields) = &mut sent else { return sent };
        let nothing_planned = fields
            .get("planned")
            .and_then(Value::as_object)
            .is_some_and(|planned| planned.values().all(Value::is_null));
        if nothing_planned {
            fields.remove("planned");
        }
        let repeats = fields.entry("repeats").or_insert_with(|| json!([]));
        for repeat in repeats.as_array_mut().into_iter().flatten() {
            if let Value::Object(repeat) = repeat {
                self.count(repeat, units);
            }
        }
        sent
    }

    /// Says of a repeat's number what it counts.
    fn count(&self, repeat: &mut Map<String, Value>, units: Units) {
        let Some(number) = repeat.remove("revolutions") else {
            // Only set aside or poured out: without catches it has no such list yet.
            repeat.entry("catches").or_insert_with(|| json!([]));
            return;
        };
        let per = Some(self.per.trim()).filter(|per| !per.is_empty());
        let length = |text: &str| match text.find(char::is_alphabetic).map(|at| text.split_at(at)) {
            Some((number, own)) => json!({ "value": number.trim(), "unit": own.trim() }),
            None => json!({ "value": text, "unit": length_unit(units) }),
        };
        let counted = match self.counted.as_str() {
            "turns" => json!({ "turns": number }),
            "pulses" => json!({ "pulses": number, "pulses_per_rev": per }),
            "distance" => {
                let slip = Some(self.slip.trim()).filter(|slip| !slip.is_empty());
                json!({
                    "distance": length(number.as_str().unwrap_or_default()), "circumference": per.map(length), "slip_percent": slip
                })
            }
            _ => number,
        };
        repeat.insert("revolutions".to_owned(), counted);
        repeat.entry("catches").or_insert_with(|| json!([]));
    }

    fn net(&self, catch: &TypedCatch, words: Words) -> String {
        let mass = |text: &str| Mass::parse_text_or(text, &self.mass_unit).ok();
        let unit = dimension::Mass::unit_named(&self.mass_unit);
        match (mass(&catch.tare), mass(&catch.gross), unit) {
            (Some(tare), Some(gross), Ok(unit)) if gross.minus_si(&tare) > 0.0 => {
                format!(
                    "{} {}",
                    words.to_step(gross.minus_si(&tare), unit, tare.resolution_si().min(gross.resolution_si())),
                    unit
                )
            }
            _ => "\u{2013}".to_owned(),
        }
    }
}

impl TypedCatch {
    fn fill(&mut self, field: &[&str], text: &str) {
        let place = match field {
            ["label"] => &mut self.label,
            ["runs"] => &mut self.runs,
            ["tare", "value"] => &mut self.tare,
            ["gross", "value"] => &mut self.gross,
            ["remembered"] => &mut self.remembered,
            _ => return,
        };
        text.clone_into(place);
    }
}

fn position(text: &str, most: usize) -> Option<usize> {
    text.parse().ok().filter(|position| *position < most)
}

fn in_order((mut repeat, catches): (TypedRepeat, BTreeMap<usize, TypedCatch>)) -> TypedRepeat {
    repeat.catches = catches.into_values().collect();
    repeat.catches.sort_by_key(TypedCatch::is_blank);
    repeat
}

pub(super) fn length_unit(units: Units) -> &'static str {
    match units {
        Units::Metric => "m",
        Units::Us => "ft",
    }
}

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
