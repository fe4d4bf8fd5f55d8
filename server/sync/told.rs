//! An entry in words: which machine, what was sent line by line with the names of things for their ids, and why it was not
//! taken in, if it was refused.

use super::kind::Logged;
use crate::access::{Actor, Scope};
use crate::clock::Stamp;
use crate::db::Cx;
use crate::fleet::roller::act::rollers;
use crate::fleet::scale::act::scales;
use crate::fleet::seeder::act::{seeders, units};
use crate::records::correct;
use crate::records::head::said;
use crate::seed::field::act::fields;
use crate::seed::lot::act::lots;
use crate::web::error::{Error, Problem};
use crate::web::input::parse_stamp;
use serde_json::{Map, Value};
use sowmark_core::say;
use sowmark_core::words::Words;
use std::collections::HashMap;
use uuid::Uuid;

/// What things are called, as far as somebody sees them.
pub(crate) struct Names {
    things: HashMap<Uuid, String>,
    /// What an entry can belong to, in the order in which it is chosen from.
    parents: Vec<(crate::db::kind::Kind, Uuid)>,
}

impl Names {
    pub(crate) async fn gather(cx: &mut Cx<'_>, scope: &Scope, words: Words) -> Result<Self, Error> {
        use crate::db::kind::Kind;
        let (mut things, mut parents) = (HashMap::new(), Vec::new());
        let mut parent = |kind: Kind, id: Uuid, name: String| {
            parents.push((kind, id));
            things.insert(id, name);
        };
        for unit in units(cx, scope).await? {
            parent(Kind::MeteringUnit, unit.id, format!("{}, {}", unit.seeder, unit.label));
        }
        for seeder in seeders(cx, scope).await? {
            parent(Kind::Seeder, seeder.id, seeder.name);
        }
        for scale in scales(cx, scope).await? {
            parent(Kind::Scale, scale.id, scale.name);
        }
        for lot in lots(cx, scope).await? {
            parent(Kind::Lot, lot.id, lot.in_words(words));
        }
        things.extend(rollers(cx, scope).await?.into_iter().map(|roller| (roller.id, roller.label)));
        things.extend(fields(cx, scope).await?.into_iter().map(|field| (field.id, field.name)));
        Ok(Self { things, parents })
    }

    /// What an entry of a kind belongs to; none when it is not theirs to see.
    pub(super) fn parent(&self, kind: Logged, id: Uuid) -> Option<&str> {
        let is_there = self.parents.contains(&(kind.parent(), id));
        self.things.get(&id).filter(|_| is_there).map(String::as_str)
    }

    /// What something is called.
    pub(crate) fn named(&self, id: Uuid) -> Option<&str> {
        self.things.get(&id).map(String::as_str)
    }

    /// All that an entry of a kind can belong to.
    pub(super) fn parents(&self, kind: Logged) -> Vec<(Uuid, &str)> {
        let ids = self.parents.iter().filter(|(of, _)| *of == kind.parent());
        ids.filter_map(|(_, id)| Some((*id, self.things.get(id)?.as_str()))).collect()
    }
}

/// What an entry logs, as the forms name it.
pub(super) fn what(kind: Option<Logged>, word: &str, words: Words) -> String {
    match kind {
        None if !word.is_empty() => say!(words, "sent-what-unknown", kind = word),
        kind => say!(words, "sent-what", kind = kind.map_or("unreadable", Logged::word)),
    }
}

/// Where an entry of a kind is logged on a page.
pub(super) fn form_of(kind: Logged, parent: Uuid, refused: Uuid) -> String {
    let place = correct::form_of(kind.kind(), parent).unwrap_or_default();
    format!("{place}?refused={refused}")
}

/// Why an entry was refused, a sentence each, with the field where it is one field's fault.
pub(super) fn why(problem: &Problem, actor: &Actor) -> Vec<String> {
    let words = actor.words();
    if problem.errors.is_empty() {
        return vec![words.sentence(&problem.detail)];
    }
    let told = problem.errors.iter().map(|fault| {
        let place = place(&fault.pointer, words);
        let says = words.sentence(&fault.detail);
        if place.is_empty() { says } else { format!("{place}: {says}") }
    });
    told.collect()
}

/// A pointer in words: `/repeats/0/catches/1/gross` is "Repeat 1, catch 2, gross".
fn place(pointer: &str, words: Words) -> String {
    let mut parts: Vec<String> = Vec::new();
    let mut list = "";
    for step in pointer.split('/').skip(1) {
        match (step.parse::<usize>(), parts.last_mut()) {
            (Ok(position), Some(last)) => *last = one_of(list, position, words),
            _ if matches!(step, "value" | "unit") => {}
            _ => parts.push(label(step, words)),
        }
        list = step;
    }
    in_a_row(&parts)
}

/// One of a list, counted as people do.
fn one_of(list: &str, position: usize, words: Words) -> String {
    say!(words, "sent-one-of", list = list, name = label(list, words), number = position + 1)
}

/// Words one after the other: only the first keeps its capital.
fn in_a_row(parts: &[String]) -> String {
    let lower =
        |part: &String| part.chars().next().map(|first| first.to_lowercase().chain(part.chars().skip(1)).collect());
    let rest = parts.iter().skip(1).filter_map(lower);
    parts.iter().take(1).cloned().chain(rest).collect::<Vec<String>>().join(", ")
}

/// A field in words: by its own name where it is none that an entry has.
fn label(field: &str, words: Words) -> String {
    let name = field.replace('_', " ");
    let mut letters = name.chars();
    let name: String = letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default();
    say!(words, "sent-field", field = field, name = name)
}

/// The label of a field within a line.
fn label_within(field: &str, words: Words) -> String {
    label(field, words).to_lowercase()
}

/// What was sent, a line for each field, with those first that a person looks for first.
pub(crate) fn lines(record: &Value, names: &Names, actor: &Actor) -> Vec<(String, String)> {
    let words = actor.words();
    let Value::Object(fields) = record else {
        return vec![(say!(words, "sent-as-it-is"), record.to_string())];
    };
    let mut lines = Vec::new();
    let first = ["occurred_at", "lot_id", "roller_id", "component", "field", "field_id", "mass", "area", "seed_used"];
    let position = |key: &String| first.iter().position(|known| known == key).unwrap_or(first.len());
    let mut keys: Vec<&String> = fields.keys().filter(|key| !["id", "corrects"].contains(&key.as_str())).collect();
    keys.sort_by_key(|key| position(key));
    let teller = Teller { names, actor };
    for key in keys {
        teller.line(&mut lines, &[label(key, words)], key, &fields[key]);
    }
    if fields.get("corrects").is_some_and(|corrects| !corrects.is_null()) {
        lines.push((say!(words, "correction"), say!(words, "sent-replaces")));
    }
    lines
}

/// The place of something that has a label of its own: "Repeat 1, catch 2 (run 7)".
fn named(at: &[String], fields: &Map<String, Value>) -> Vec<String> {
    let own = fields.get("label").and_then(Value::as_str).filter(|own| !own.trim().is_empty());
    let mut at = at.to_vec();
    if let (Some(own), Some(last)) = (own, at.last_mut()) {
        *last = format!("{last} ({own})");
    }
    at
}

struct Teller<'a> {
    names: &'a Names,
    actor: &'a Actor,
}

impl Teller<'_> {
    fn line(&self, lines: &mut Vec<(String, String)>, at: &[String], key: &str, value: &Value) {
        let words = self.actor.words();
        match value {
            Value::Array(items) => {
                let before = at.split_last().map_or(at, |(_, before)| before);
                for (position, item) in items.iter().enumerate() {
                    let at: Vec<String> = before.iter().cloned().chain([one_of(key, position, words)]).collect();
                    self.line(lines, &at, key, item);
                }
            }
            Value::Object(fields) if quantity(fields).is_none() => {
                let at = &named(at, fields);
                let (lists, mut rest): (Vec<_>, Vec<_>) = fields.iter().partition(|(_, value)| value.is_array());
                // Weights in the order of weighing.
                rest.sort_by_key(|(key, _)| ["runs", "tare", "gross"].iter().position(|known| known == key));
                let together: Vec<String> = rest
                    .into_iter()
                    .filter(|(key, _)| *key != "label")
                    .filter_map(|(key, value)| Some(format!("{} {}", label_within(key, words), self.leaf(key, value)?)))
                    .collect();
                if !together.is_empty() {
                    lines.push((in_a_row(at), together.join(", ")));
                }
                for (key, value) in lists {
                    let at: Vec<String> = at.iter().cloned().chain([label(key, words)]).collect();
                    self.line(lines, &at, key, value);
                }
            }
            leaf => lines.extend(self.leaf(key, leaf).map(|told| (in_a_row(at), told))),
        }
    }

    /// One value; none where there is nothing to tell.
    fn leaf(&self, key: &str, value: &Value) -> Option<String> {
        let (reader, words) = (self.actor.reader(), self.actor.words());
        match value {
            Value::Null => None,
            Value::String(text) if text.trim().is_empty() => None,
            Value::Bool(true) => Some(say!(words, "sent-yes")),
            Value::Bool(false) => Some(say!(words, "sent-no")),
            Value::Number(number) => Some(reader.words.decimal(&number.to_string())),
            Value::String(text) if key.ends_with("_at") => {
                let said = |stamp: Stamp| said(stamp.at, &self.actor.time_zone, reader.words);
                Some(parse_stamp(text).map_or_else(|| text.clone(), said))
            }
            Value::String(text) => {
                let name = Uuid::try_parse(text).ok().and_then(|id| self.names.things.get(&id));
                Some(name.cloned().unwrap_or_else(|| chosen(key, text, words)))
            }
            Value::Object(fields) => Some(quantity(fields).map_or_else(
                || {
                    let parts = fields.iter().filter_map(|(key, value)| {
                        Some(format!("{} {}", label_within(key, words), self.leaf(key, value)?))
                    });
                    parts.collect::<Vec<String>>().join(", ")
                },
                |entered| reader.measured(&entered),
            )),
            other @ Value::Array(_) => Some(other.to_string()),
        }
    }
}

/// What stands in a field: a word of a list in the reader's words, all else as it was sent.
fn chosen(field: &str, text: &str, words: Words) -> String {
    let name = text.replace('_', " ");
    match (field, text) {
        ("component", "other") => say!(words, "sent-word", word = "other_part", name = name),
        ("component" | "method" | "seed_used_basis", word) => say!(words, "sent-word", word = word, name = name),
        _ => name,
    }
}

/// A value with its unit, or pounds and ounces.
fn quantity(fields: &Map<String, Value>) -> Option<String> {
    let text = |key: &str| match fields.get(key) {
        Some(Value::String(text)) => Some(text.clone()),
        Some(Value::Number(number)) => Some(number.to_string()),
        _ => None,
    };
    match (text("value"), text("unit"), text("lb"), text("oz")) {
        (Some(value), Some(unit), None, None) if fields.len() == 2 => Some(format!("{value} {unit}")),
        (None, None, Some(lb), Some(oz)) if fields.len() == 2 => Some(format!("{lb} lb {oz} oz")),
        _ => None,
    }
}
