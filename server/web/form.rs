//! Forms of pages: their fields, what they show, and the faults that find their way back beside them. What comes back is
//! [`Posted`].
//!
//! A field's name is its place in the tree: `repeats/0/catches/0/gross/value`. Numbers in names are positions in lists.

pub use super::posted::{Posted, pairs};

use super::error::{Error, Fault};
use super::shown::SHOWN;
use axum::http::StatusCode;
use std::collections::HashMap;
use uuid::Uuid;

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
    /// What it is called where it does not stand among its neighbours; empty where its label says enough.
    pub full_label: String,
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

    /// What it is called in the list of faults, where others have the same label.
    #[must_use]
    pub fn called(mut self, full_label: impl Into<String>) -> Self {
        self.full_label = full_label.into();
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
    pub(super) fn pointer(&self) -> String {
        format!("/{}", self.name.strip_suffix("/value").unwrap_or(&self.name))
    }

    /// Whether it is the field of what has this name in what is sent.
    #[must_use]
    pub fn is_of(&self, name: &str) -> bool {
        self.pointer().strip_prefix('/') == Some(name)
    }

    fn owns(&self, fault: &Fault) -> bool {
        let pointer = self.pointer();
        fault.pointer == pointer
            || fault
                .pointer
                .strip_prefix(&pointer)
                .is_some_and(|rest| matches!(rest, "/value" | "/unit" | "/lb" | "/oz"))
    }

    pub(super) fn show(&mut self, posted: &HashMap<&str, &str>) {
        // A form that comes back shows what stands by then.
        if self.name == SHOWN {
            return;
        }
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
