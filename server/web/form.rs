//! Forms of pages. A form is sent as pairs; here they become the same tree that the JSON API takes, so that one draft
//! reads both, and its faults find their way back to the fields.
//!
//! A field's name is its place in the tree: `repeats/0/catches/0/gross/value`. Numbers in names are positions in lists.

use super::api::whole_body;
use super::door::App;
use super::error::{Error, Fault};
use crate::access::Actor;
use crate::{saying, texts};
use axum::extract::{FromRequest, Request};
use axum::http::StatusCode;
use jiff::tz::TimeZone;
use percent_encoding::percent_decode;
use serde_json::{Map, Value, json};
use sowmark_core::texts::Language;
use sowmark_core::words::{DecimalSign, Words};
use std::collections::{BTreeMap, HashMap};
use uuid::Uuid;

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
                        before.bytes().all(|byte| byte.is_ascii_digit())
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
    if typed.contains(char::is_alphabetic) && !typed.eq_ignore_ascii_case("nan") {
        if let Ok(mass) = sowmark_core::quantity::Mass::parse_text(typed)
            && let Some((lb, oz)) = mass.parts()
        {
            return json!({ "lb": lb.as_str(), "oz": oz.as_str() });
        }
        if let Some((number, own)) = typed.find(char::is_alphabetic).map(|at| typed.split_at(at)) {
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

/// What a field is, which decides how it is drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Kind {
    #[default]
    Text,
    Number,
    Whole,
    Date,
    Month,
    Moment,
    Select,
    Area,
    Check,
    Password,
    Email,
    Hidden,
}

/// One choice of a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FormOption {
    pub value: String,
    pub label: String,
    pub selected: bool,
}

/// One field of a form, as `templates/parts/field.html` draws it.
#[derive(Clone, Debug, Default)]
pub struct FormField {
    pub name: String,
    pub label: String,
    pub hint: String,
    pub value: String,
    pub error: Option<String>,
    pub kind: Kind,
    pub options: Vec<FormOption>,
    pub unit_name: String,
    pub units: Vec<FormOption>,
    pub required: bool,
    pub autocomplete: String,
    /// What is often typed into it.
    pub suggestions: Vec<String>,
    /// Stands in the part of its form that is folded away.
    pub is_folded: bool,
}

impl FormField {
    #[must_use]
    pub fn new(name: impl Into<String>, label: impl Into<String>) -> Self {
        Self { name: name.into(), label: label.into(), required: true, ..Self::default() }
    }

    #[must_use]
    pub fn hidden(name: impl Into<String>, value: impl Into<String>) -> Self {
        Self { name: name.into(), value: value.into(), kind: Kind::Hidden, ..Self::default() }
    }

    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = hint.into();
        self
    }

    #[must_use]
    pub fn value(mut self, value: impl Into<String>) -> Self {
        self.value = value.into();
        self
    }

    #[must_use]
    pub fn kind(mut self, kind: Kind) -> Self {
        self.kind = kind;
        self
    }

    #[must_use]
    pub fn optional(mut self) -> Self {
        self.required = false;
        self
    }

    #[must_use]
    pub fn autocomplete(mut self, autocomplete: impl Into<String>) -> Self {
        self.autocomplete = autocomplete.into();
        self
    }

    /// A text that is free, with what it often is to choose from.
    #[must_use]
    pub fn suggestions(mut self, suggestions: impl IntoIterator<Item = String>) -> Self {
        self.suggestions = suggestions.into_iter().collect();
        self
    }

    /// In the part of its form that is folded away; see [`Form::fold`].
    #[must_use]
    pub fn folded(mut self) -> Self {
        self.is_folded = true;
        self
    }

    /// A choice among values with labels. An optional one begins with an empty choice.
    #[must_use]
    pub fn choice<V: Into<String>, L: Into<String>>(mut self, choices: impl IntoIterator<Item = (V, L)>) -> Self {
        self.kind = Kind::Select;
        self.options = choices
            .into_iter()
            .map(|(value, label)| FormOption { value: value.into(), label: label.into(), selected: false })
            .collect();
        self
    }

    /// A number with a choice of units beside it: the field's value is `name/value`, the unit `name/unit`.
    #[must_use]
    pub fn measured(mut self, units: &[&str], chosen: &str) -> Self {
        self.kind = Kind::Number;
        self.unit_name = format!("{}/unit", self.name);
        self.name = format!("{}/value", self.name);
        self.units = units
            .iter()
            .map(|unit| FormOption { value: (*unit).to_owned(), label: (*unit).to_owned(), selected: *unit == chosen })
            .collect();
        self
    }

    #[must_use]
    pub fn is_select(&self) -> bool {
        self.kind == Kind::Select
    }

    #[must_use]
    pub fn is_area(&self) -> bool {
        self.kind == Kind::Area
    }

    #[must_use]
    pub fn is_check(&self) -> bool {
        self.kind == Kind::Check
    }

    #[must_use]
    pub fn is_hidden(&self) -> bool {
        self.kind == Kind::Hidden
    }

    /// The `type` of its input. A number is text: browsers drop from a number field what they cannot read, and a
    /// decimal comma is one of those things.
    #[must_use]
    pub fn input_type(&self) -> &'static str {
        match self.kind {
            Kind::Date => "date",
            Kind::Month => "month",
            Kind::Moment => "datetime-local",
            Kind::Password => "password",
            Kind::Email => "email",
            Kind::Hidden => "hidden",
            Kind::Check => "checkbox",
            _ => "text",
        }
    }

    #[must_use]
    pub fn input_mode(&self) -> &'static str {
        match self.kind {
            Kind::Number => "decimal",
            Kind::Whole => "numeric",
            Kind::Email => "email",
            _ => "text",
        }
    }

    /// Where the draft's faults for this field point.
    fn pointer(&self) -> String {
        format!("/{}", self.name.strip_suffix("/value").unwrap_or(&self.name))
    }

    fn owns(&self, fault: &Fault) -> bool {
        let pointer = self.pointer();
        fault.pointer == pointer
            || fault
                .pointer
                .strip_prefix(&pointer)
                .is_some_and(|rest| matches!(rest, "/value" | "/unit" | "/lb" | "/oz"))
    }

    fn show(&mut self, posted: &HashMap<&str, &str>) {
        if let Some(typed) = posted.get(self.name.as_str()) {
            (*typed).clone_into(&mut self.value);
        } else if self.kind == Kind::Check {
            self.value.clear();
        }
        let Some(unit) = posted.get(self.unit_name.as_str()) else { return };
        if self.units.iter().any(|option| option.value == *unit) {
            for option in &mut self.units {
                option.selected = option.value == *unit;
            }
        } else if !unit.trim().is_empty() && !self.value.trim().is_empty() && !self.value.contains(char::is_alphabetic)
        {
            // A unit that is not offered stands with its number: another must not be taken for it.
            self.value = [self.value.trim(), unit.trim()].join(" ");
        }
    }
}

/// A form: its fields, where it goes, and what was wrong the last time.
#[derive(Clone, Debug, Default)]
pub struct Form {
    pub action: String,
    pub submit: String,
    pub fields: Vec<FormField>,
    /// Where one came from and goes back to when it is done; empty for nowhere in particular.
    pub back: String,
    /// Faults that belong to no field of it, each a sentence.
    pub general: Vec<String>,
    /// A sentence before it on where what stands in it comes from.
    pub note: String,
    /// Filled in from something sent earlier: what is wrong with that is no fault of this request.
    pub refilled: bool,
    /// What its folded part is called; empty where it has none.
    pub fold: String,
}

impl Form {
    #[must_use]
    pub fn new(action: impl Into<String>, submit: impl Into<String>, fields: Vec<FormField>) -> Self {
        let mut form = Self { action: action.into(), submit: submit.into(), fields, ..Self::default() };
        form.settle();
        form
    }

    /// A form that one comes to from a page, and goes back to.
    #[must_use]
    pub fn back(mut self, to: impl Into<String>) -> Self {
        self.back = to.into();
        self
    }

    /// Names the part with the fields that most leave empty.
    #[must_use]
    pub fn fold(mut self, called: impl Into<String>) -> Self {
        self.fold = called.into();
        self
    }

    /// The fields that always stand open.
    pub fn open_fields(&self) -> impl Iterator<Item = &FormField> {
        self.fields.iter().filter(|field| !field.is_folded)
    }

    /// The fields of the folded part.
    pub fn folded_fields(&self) -> impl Iterator<Item = &FormField> {
        self.fields.iter().filter(|field| field.is_folded)
    }

    /// The folded part stands open where something was typed or is wrong.
    #[must_use]
    pub fn is_unfolded(&self) -> bool {
        self.folded_fields().any(|field| !field.value.trim().is_empty() || field.error.is_some())
    }

    /// A form that creates something carries the id of what it creates: sent three times, it creates it once.
    #[must_use]
    pub fn creating(mut self, id: Uuid) -> Self {
        self.fields.insert(0, FormField::hidden("id", id.to_string()));
        self
    }

    /// The same form as it was typed, with the faults beside their fields. Nothing typed is lost.
    #[must_use]
    pub fn again(mut self, posted: &Posted, error: &Error) -> Self {
        let typed: HashMap<&str, &str> = posted.0.iter().map(|(name, value)| (name.as_str(), value.as_str())).collect();
        self.carry(posted);
        for field in &mut self.fields {
            field.show(&typed);
        }
        let faults = error.faults();
        let words = posted.words();
        if faults.is_empty() {
            self.general.push(error.detail(words));
        }
        for fault in faults {
            let says = fault.says(words);
            match self.fields.iter_mut().find(|field| !field.is_hidden() && field.owns(&fault)) {
                Some(field) => field.error = Some(says),
                None => self.general.push(says),
            }
        }
        self.settle();
        self
    }

    /// The same form with what was typed, where nothing is wrong with it: a question that was answered.
    #[must_use]
    pub fn filled(mut self, posted: &Posted) -> Self {
        let typed: HashMap<&str, &str> = posted.0.iter().map(|(name, value)| (name.as_str(), value.as_str())).collect();
        for field in &mut self.fields {
            field.show(&typed);
        }
        self.settle();
        self
    }

    /// What is chosen of its lists, label and choice, where anything in particular is: for a print-out, on which there is no form.
    #[must_use]
    pub fn chosen(&self) -> Vec<(String, String)> {
        let of_lists = self.fields.iter().filter(|field| !field.value.is_empty());
        let chosen = of_lists.filter_map(|field| {
            let option = field.options.iter().find(|option| option.selected)?;
            Some((field.label.clone(), option.label.clone()))
        });
        chosen.collect()
    }

    /// Marks the chosen options.
    fn settle(&mut self) {
        for field in &mut self.fields {
            if field.kind == Kind::Select {
                for option in &mut field.options {
                    option.selected = option.value == field.value;
                }
            }
        }
    }

    /// Whether anything is wrong.
    #[must_use]
    pub fn has_errors(&self) -> bool {
        !self.general.is_empty() || self.fields.iter().any(|field| field.error.is_some())
    }

    /// The status of a page that shows it.
    #[must_use]
    pub fn status(&self) -> StatusCode {
        if self.has_errors() && !self.refilled { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK }
    }

    /// The fields with a fault, for the summary at the top.
    pub fn faulty(&self) -> impl Iterator<Item = &FormField> {
        self.fields.iter().filter(|field| field.error.is_some())
    }
}
