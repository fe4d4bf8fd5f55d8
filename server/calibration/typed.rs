//! A catch sheet as it was typed, kept so from one asking to the next, and what of it is sent.
//!
//! A blank row is no catch: rows are put in order, the filled ones first, so that the faults of what is sent point at the
//! rows that are shown.

use crate::access::Units;
use crate::web::form::Posted;
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
    pub(super) counted: String,
    pub(super) per: String,
    pub(super) slip: String,
}

#[derive(Clone, Debug, Default)]
pub(super) struct TypedRepeat {
    pub(super) revolutions: String,
    pub(super) set_aside: String,
    pub(super) catches: Vec<TypedCatch>,
}

#[derive(Clone, Debug, Default)]
pub(super) struct TypedCatch {
    pub(super) label: String,
    pub(super) runs: String,
    pub(super) tare: String,
    pub(super) gross: String,
    /// The tare as it was remembered, not typed.
    pub(super) remembered: String,
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

    pub(super) fn net(&self, catch: &TypedCatch, words: Words) -> String {
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
