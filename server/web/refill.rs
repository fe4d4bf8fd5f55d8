//! A form filled in from a record: the way back from the tree of a request to the pairs that a form would have sent for
//! it ([`Posted::of_tree`] undoes [`Posted::tree`]), and the form that shows them for somebody to mend.
//!
//! A field of date and time holds no offset, so a moment is told in the organization's zone. What no form can hold is
//! left out: nulls, empty texts, empty lists.

use super::error::Error;
use super::form::{Form, FormField, FormOption, Kind, Posted};
use super::input::parse_stamp;
use super::shown::SHOWN;
use crate::clock::Stamp;
use jiff::tz::TimeZone;
use serde_json::{Map, Value};
use sowmark_core::say;
use sowmark_core::words::Words;

/// The name of the hidden field of a form that mends a refused entry: that entry's id.
pub const MENDS: &str = "_refused";
/// The name of the record that is replaced.
pub const CORRECTS: &str = "corrects";

impl Posted {
    /// The pairs that make a tree.
    #[must_use]
    pub fn of_tree(tree: &Value, zone: &TimeZone) -> Self {
        let mut pairs = Vec::new();
        put(&mut pairs, "", "", tree, zone);
        Self(pairs)
    }

    /// The same with another text in a field.
    #[must_use]
    pub fn with(mut self, name: &str, text: impl Into<String>) -> Self {
        self.0.retain(|(known, _)| known != name);
        self.0.push((name.to_owned(), text.into()));
        self
    }

    /// The same without a field.
    #[must_use]
    pub fn without(mut self, name: &str) -> Self {
        self.0.retain(|(known, _)| known != name);
        self
    }
}

fn put(pairs: &mut Vec<(String, String)>, name: &str, key: &str, value: &Value, zone: &TimeZone) {
    let below = |key: &str| if name.is_empty() { key.to_owned() } else { format!("{name}/{key}") };
    match value {
        Value::Null => {}
        Value::Bool(flag) => pairs.push((name.to_owned(), flag.to_string())),
        Value::Number(number) => pairs.push((name.to_owned(), number.to_string())),
        Value::String(text) => {
            let is_moment = key.ends_with("_at") || key == "until";
            let shown = parse_stamp(text).filter(|_| is_moment).map(|stamp| local(stamp, zone));
            pairs.push((name.to_owned(), shown.unwrap_or_else(|| text.clone())));
        }
        Value::Array(items) => {
            for (position, item) in items.iter().enumerate() {
                put(pairs, &below(&position.to_string()), key, item, zone);
            }
        }
        Value::Object(fields) => {
            if let Some(text) = pounds(fields) {
                pairs.extend([(below("value"), text), (below("unit"), "lb".to_owned())]);
                return;
            }
            // A name with a slash is a place, one with an underscore before it the page's own: no field has such.
            let named = fields.iter().filter(|(key, _)| !key.contains('/') && !key.starts_with('_'));
            named.for_each(|(key, value)| put(pairs, &below(key), key, value, zone));
        }
    }
}

/// A mass in pounds and ounces, as it is typed.
fn pounds(fields: &Map<String, Value>) -> Option<String> {
    let text = |key: &str| match fields.get(key) {
        Some(Value::String(text)) => Some(format!("{text} {key}")),
        Some(Value::Number(number)) => Some(format!("{number} {key}")),
        _ => None,
    };
    let parts: Vec<String> = [text("lb"), text("oz")].into_iter().flatten().collect();
    if parts.is_empty() || parts.len() < fields.len() { None } else { Some(parts.join(" ")) }
}

/// A moment as a field of date and time holds it: to the minute, or as exactly as it is told.
fn local(stamp: Stamp, zone: &TimeZone) -> String {
    let civil = zone.to_datetime(stamp.at);
    let exactly = match (civil.second(), civil.subsec_nanosecond() / 1_000_000) {
        (0, 0) => "%Y-%m-%dT%H:%M",
        (_, 0) => "%Y-%m-%dT%H:%M:%S",
        _ => "%Y-%m-%dT%H:%M:%S%.3f",
    };
    civil.strftime(exactly).to_string()
}

impl Form {
    /// The form with what was once sent in its fields and nothing else, and with what was wrong with it, if that is
    /// still known.
    #[must_use]
    pub fn refilled(mut self, sent: &Posted, error: Option<&Error>) -> Self {
        for field in self.fields.iter_mut().filter(|field| !field.is_hidden()) {
            field.value.clear();
        }
        let words = sent.words();
        let mut form = self.again(sent, error.unwrap_or(&Error::Faults(Vec::new())));
        if error.is_none() {
            form.general.clear();
        }
        form.fields.iter_mut().for_each(|field| choose_anew(field, words));
        form.refilled = true;
        form
    }

    /// Adds the fields that a form of something refused, or of a correction, carries besides its own.
    pub(super) fn carry(&mut self, posted: &Posted) {
        if !posted.text(MENDS).is_empty() {
            self.fields.push(FormField::hidden(MENDS, posted.text(MENDS)));
        }
        let corrected = posted.text(CORRECTS);
        if !(corrected.is_empty() && posted.text(MENDS).is_empty()) {
            // It is filled in with what was sent once, and not with what stands.
            self.fields.retain(|field| field.name != SHOWN);
        }
        if corrected.is_empty() || self.fields.iter().any(|field| field.name == CORRECTS) {
            return;
        }
        if posted.text(MENDS).is_empty() {
            // Opened to correct just that record.
            self.fields.push(FormField::hidden(CORRECTS, corrected));
            self.submit = say!(posted.words(), "correction-submit");
        } else {
            let words = posted.words();
            let choices =
                [(corrected, say!(words, "correction-of-the-named")), ("", say!(words, "correction-of-nothing"))];
            let field = FormField::new(CORRECTS, say!(words, "correction")).value(corrected);
            self.fields.push(field.choice(choices).optional());
        }
    }
}

/// A list in which what was sent is no choice begins with none, so that no other is taken for it.
fn choose_anew(field: &mut FormField, words: Words) {
    if field.kind == Kind::Select && !field.options.iter().any(|option| option.selected) {
        field.value.clear();
        if let Some(none) = field.options.iter_mut().find(|option| option.value.is_empty()) {
            none.selected = true;
        } else {
            let none = FormOption { value: String::new(), label: say!(words, "choose"), selected: true };
            field.options.insert(0, none);
        }
    }
}
