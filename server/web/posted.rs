//! What a form sent. It comes as pairs; here they become the same tree that the JSON API takes, so that one draft reads both.

use super::api::whole_body;
use super::door::App;
use super::error::Error;
use crate::access::Actor;
use crate::{saying, texts};
use axum::extract::{FromRequest, Request};
use jiff::tz::TimeZone;
use percent_encoding::percent_decode;
use serde_json::{Map, Value, json};
use sowmark_core::texts::Language;
use sowmark_core::words::{DecimalSign, Words};
use std::collections::BTreeMap;

const LANGUAGE: &str = "_language";

/// What a form sent: names and texts, in order, as typed.
#[derive(Clone, Debug, Default)]
pub struct Posted(pub Vec<(String, String)>);

impl FromRequest<App> for Posted {
    type Rejection = Error;

    async fn from_request(request: Request, _: &App) -> Result<Self, Error> {
        let spoken = request.extensions().get::<Actor>().map(|actor| actor.language);
        let language = spoken.unwrap_or_else(|| texts::asked_for(request.headers()));
        let bytes = whole_body(request.into_body()).await?;
        pairs(&bytes).map(|pairs| Self(pairs).spoken_in(language))
    }
}

/// The pairs of a URL-encoded text. Bytes that are no UTF-8 are refused, not replaced.
///
/// # Errors
/// 400 when it is not UTF-8.
pub fn pairs(bytes: &[u8]) -> Result<Vec<(String, String)>, Error> {
    let decode = |part: &[u8]| {
        let spaced: Vec<u8> = part.iter().map(|byte| if *byte == b'+' { b' ' } else { *byte }).collect();
        percent_decode(&spaced)
            .decode_utf8()
            .map(std::borrow::Cow::into_owned)
            .map_err(|_| Error::unreadable(saying!("fault-not-utf-8")))
    };
    bytes
        .split(|byte| *byte == b'&')
        .filter(|pair| !pair.is_empty())
        .map(|pair| {
            let split = pair.iter().position(|byte| *byte == b'=').unwrap_or(pair.len());
            Ok((decode(&pair[..split])?, decode(pair.get(split + 1..).unwrap_or_default())?))
        })
        .collect()
}

impl Posted {
    /// The text of a field; empty when it was not sent.
    #[must_use]
    pub fn text(&self, name: &str) -> &str {
        self.0.iter().find(|(n, _)| n == name).map_or("", |(_, value)| value)
    }

    /// All texts of a field that may be ticked several times.
    pub fn all<'p>(&'p self, name: &'p str) -> impl Iterator<Item = &'p str> {
        self.0.iter().filter(move |(n, _)| n == name).map(|(_, value)| value.as_str())
    }

    /// From a person who is spoken to in a language. Kept among the names that belong to the page itself.
    #[must_use]
    pub fn spoken_in(mut self, language: Language) -> Self {
        self.0.retain(|(name, _)| name != LANGUAGE);
        self.0.push((LANGUAGE.to_owned(), language.tag().to_owned()));
        self
    }

    /// In their language, and in the decimal sign that was typed: a fault speaks of numbers as the person wrote them.
    #[must_use]
    pub fn words(&self) -> Words {
        let typed = |sign: char| {
            self.0.iter().any(|(name, text)| {
                let parts = text.trim().split_once(sign);
                !name.starts_with('_')
                    && parts.is_some_and(|(before, after)| {
                        before.chars().all(|c| c.is_ascii_digit() || c.is_whitespace())
                            && after.starts_with(|c: char| c.is_ascii_digit())
                    })
            })
        };
        let decimal = if typed(',') && !typed('.') { DecimalSign::Comma } else { DecimalSign::Point };
        Words { decimal, language: texts::language(self.text(LANGUAGE)).unwrap_or(texts::english()) }
    }

    /// The tree that the fields make. Empty fields are absent. `zone` places times that were typed without an offset;
    /// names that begin with `_` belong to the page itself.
    #[must_use]
    pub fn tree(&self, zone: &TimeZone) -> Value {
        let mut root = Branch::default();
        for (name, text) in &self.0 {
            if !name.starts_with('_') && !text.trim().is_empty() {
                let path: Vec<&str> = name.split('/').collect();
                root.put(&path, text);
            }
        }
        // A form of which nothing was filled in is an object without fields: each fault then stands beside its field.
        if root.below.is_empty() { Value::Object(Map::new()) } else { root.value(zone) }
    }
}

impl Posted {
    /// The same as a query of the API sends it: `rate/value` and `rate/unit` become `rate` and `rate_unit`. Empty fields are
    /// absent, and so is a unit without its number. A number's field also takes its own unit: "9 mph".
    #[must_use]
    pub fn query(&self) -> Value {
        let mut query = Map::new();
        for (name, text) in self.0.iter().filter(|(name, text)| !name.starts_with('_') && !text.trim().is_empty()) {
            let text = text.trim();
            match name.rsplit_once('/') {
                Some((name, "value")) => {
                    let own = text.find(char::is_alphabetic).filter(|at| *at > 0);
                    let (number, unit) = own.map_or((text, self.text(&format!("{name}/unit"))), |at| text.split_at(at));
                    query.insert(name.to_owned(), json!(number.trim()));
                    if !unit.trim().is_empty() {
                        query.insert(format!("{name}_unit"), json!(unit.trim()));
                    }
                }
                Some(_) => {}
                None => {
                    query.insert(name.clone(), json!(text));
                }
            }
        }
        Value::Object(query)
    }
}

/// How deep a form may nest: deeper is no form of ours.
const DEEPEST: usize = 8;

#[derive(Default)]
struct Branch {
    text: Option<String>,
    below: BTreeMap<String, Branch>,
}

impl Branch {
    fn put(&mut self, path: &[&str], text: &str) {
        match path {
            [] => self.text = Some(text.to_owned()),
            [first, rest @ ..] if rest.len() < DEEPEST => {
                self.below.entry((*first).to_owned()).or_default().put(rest, text);
            }
            _ => {}
        }
    }

    fn value(self, zone: &TimeZone) -> Value {
        if self.below.is_empty() {
            return self.text.map_or(Value::Null, Value::String);
        }
        if self.below.keys().all(|key| key.parse::<usize>().is_ok()) {
            let mut items: Vec<(usize, Branch)> =
                self.below.into_iter().map(|(key, branch)| (key.parse().unwrap_or(0), branch)).collect();
            items.sort_by_key(|(position, _)| *position);
            return items.into_iter().map(|(_, branch)| branch.value(zone)).collect();
        }
        if self.below.contains_key("unit") && self.below.keys().all(|key| key == "value" || key == "unit") {
            return quantity(&self.below);
        }
        let fields: Map<String, Value> = self
            .below
            .into_iter()
            .map(|(key, branch)| {
                let value = branch.value(zone);
                let value = if key.ends_with("_at") || key == "until" { placed(value, zone) } else { value };
                (key, value)
            })
            .collect();
        Value::Object(fields)
    }
}

/// A number with its unit beside it. The number's field also takes "5 lb 8 oz" and "5.5 lb", whatever unit is chosen.
/// Without a number there is no quantity, although a unit is always chosen.
fn quantity(parts: &BTreeMap<String, Branch>) -> Value {
    let text = |key: &str| parts.get(key).and_then(|part| part.text.as_deref()).unwrap_or_default().trim();
    let (typed, unit) = (text("value"), text("unit"));
    if typed.is_empty() {
        return Value::Null;
    }
    if typed.contains(char::is_alphabetic) {
        if let Ok(mass) = sowmark_core::quantity::Mass::parse_text(typed)
            && let Some((lb, oz)) = mass.parts()
        {
            return json!({ "lb": lb.as_str(), "oz": oz.as_str() });
        }
        if let Some((number, own)) = typed.find(char::is_alphabetic).filter(|at| *at > 0).map(|at| typed.split_at(at)) {
            return json!({ "value": number.trim(), "unit": own.trim() });
        }
    }
    json!({ "value": typed, "unit": unit })
}

/// A time that was typed without an offset is one of the organization's time zone.
fn placed(value: Value, zone: &TimeZone) -> Value {
    let Value::String(text) = &value else { return value };
    let Ok(civil) = text.parse::<jiff::civil::DateTime>() else { return value };
    if text.ends_with(['Z', 'z']) || text.get(11..).is_some_and(|rest| rest.contains(['+', '-'])) || text.len() < 16 {
        return value;
    }
    match civil.to_zoned_datetime(zone.clone()) {
        Ok(zoned) => Value::String(zoned.timestamp().display_with_offset(zoned.offset()).to_string()),
        Err(_) => value,
    }
}
