//! A change of an entry that was added before: the fields that are sent are put onto the entry as it stands, and the whole
//! is read as on its creation. So rules and sentences are those of creation, and a fault stands where it would have then.
//!
//! An entry tells how it stands as the tree that would create it: that tree is what a change is put onto, what its form
//! is filled in with, and what the audit trail keeps from before and after. A draft with every field optional was
//! rejected: it would tell each field's rule twice, and could not look at what holds between a field that is sent and
//! one that is not.

use super::door::Signed;
use super::error::Error;
use super::form::{Form, FormField, Kind, Posted};
use super::input::{At, Faults, Input};
use super::page::{Cookies, FormPage, Page};
use crate::db::kind::Kind as Entry;
use crate::db::{Audit, Work};
use jiff::tz::TimeZone;
use serde_json::{Map, Value};
use sowmark_core::say;
use sowmark_core::words::Words;
use std::marker::PhantomData;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::Schema;
use uuid::Uuid;

/// A draft of an entry that can be changed once it is there.
pub trait Changeable: Input {
    /// The fields of its creation that stay as they were, each with the text that says why.
    const STAYS: &'static [(&'static str, &'static str)] = &[];
    /// The fields that hold fields of their own, of which each can be changed alone.
    const GROUPS: &'static [&'static str] = &[];
}

/// Records go by an entry's id.
const ID_STAYS: (&str, &str) = ("id", "change-id-stays");

fn stays<D: Changeable>() -> impl Iterator<Item = (&'static str, &'static str)> {
    std::iter::once(ID_STAYS).chain(D::STAYS.iter().copied())
}

/// What is to be changed of an entry: what is absent stays, null takes away what may be absent.
#[derive(Clone, Debug)]
pub struct Change<D> {
    sent: Map<String, Value>,
    of: PhantomData<fn() -> D>,
}

impl<D: Changeable> Input for Change<D> {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let sent = faults.object_of_any(value, at)?.clone();
        Some(Self { sent, of: PhantomData })
    }

    fn schema() -> RefOr<Schema> {
        match D::schema() {
            RefOr::T(Schema::Object(mut object)) => {
                object.properties.retain(|name, _| stays::<D>().all(|(stays, _)| stays != name));
                for (name, schema) in &mut object.properties {
                    if let (true, RefOr::T(Schema::Object(group))) = (D::GROUPS.contains(&name.as_str()), schema) {
                        group.required.clear();
                    }
                }
                object.required.clear();
                object.description = Some("What is absent stays; null takes away what may be absent.".to_owned());
                object.into()
            }
            other => other,
        }
    }
}

impl<D: Changeable> Change<D> {
    /// The change that a form wishes.
    #[must_use]
    pub fn wished(form: &Form, posted: &Posted, zone: &TimeZone) -> Self {
        Self { sent: form.changed(posted, zone), of: PhantomData }
    }

    /// The same with a field's text made into what the API takes.
    #[must_use]
    pub fn with(mut self, name: &str, made: impl FnOnce(&Value) -> Value) -> Self {
        if let Some(value) = self.sent.get_mut(name) {
            *value = made(value);
        }
        self
    }

    /// The entry with the change put onto it, read as on its creation.
    ///
    /// # Errors
    /// 422 with every fault.
    pub fn onto(&self, stands: &Value) -> Result<D, Error> {
        let mut faults = Faults::default();
        let mut sent = self.sent.clone();
        for (name, why) in stays::<D>() {
            if sent.remove(name).is_some() {
                faults.add::<()>(&At::default().key(name), move |words: Words| say!(words, why));
            }
        }
        let whole = put_onto::<D>(stands, sent);
        let read = D::read(Some(&whole), &At::default(), &mut faults);
        faults.finish(read)
    }
}

/// A field that is sent takes the place of what stood there; within a group each of its fields does.
fn put_onto<D: Changeable>(stands: &Value, sent: Map<String, Value>) -> Value {
    let mut whole = stands.as_object().cloned().unwrap_or_default();
    for (name, value) in sent {
        match (whole.get_mut(&name), value) {
            (Some(Value::Object(group)), Value::Object(fields)) if D::GROUPS.contains(&name.as_str()) => {
                group.extend(fields);
            }
            (_, value) => {
                whole.insert(name, value);
            }
        }
    }
    // A group that nothing is left of is none; what it must hold would else be missing.
    for name in D::GROUPS {
        if let Some(Value::Object(group)) = whole.get_mut(*name) {
            group.retain(|_, value| !value.is_null());
            if group.is_empty() {
                whole.insert((*name).to_owned(), Value::Null);
            }
        }
    }
    Value::Object(whole)
}

/// Ends a change: with a line in the audit trail that keeps what was different before and after; with none, and no change,
/// where nothing is.
///
/// # Errors
/// The database.
pub async fn commit<D: Changeable>(
    work: Work,
    kind: Entry,
    id: Uuid,
    (before, after): (&Value, &Value),
) -> Result<(), Error> {
    let (from, to) = differences(before, after, D::GROUPS);
    if !from.is_empty() {
        work.commit(Audit::changed(kind, id, &Value::Object(from), &Value::Object(to))).await?;
    }
    Ok(())
}

/// The fields that differ, as they were and as they are; of a group those within it.
fn differences(before: &Value, after: &Value, groups: &[&str]) -> (Map<String, Value>, Map<String, Value>) {
    let (mut from, mut to) = (Map::new(), Map::new());
    for (name, was) in before.as_object().into_iter().flatten() {
        let is = &after[name.as_str()];
        if was == is {
            continue;
        }
        let (was, is) = if groups.contains(&name.as_str()) {
            let (was, is) = differences(was, is, &[]);
            (Value::Object(was), Value::Object(is))
        } else {
            (was.clone(), is.clone())
        };
        from.insert(name.clone(), was);
        to.insert(name.clone(), is);
    }
    (from, to)
}

/// The page of a form that changes something.
#[must_use]
pub fn change_page(signed: &Signed, cookies: &Cookies, (what, here): (&str, &str), form: Form) -> FormPage {
    let words = signed.actor.words();
    let page = Page::new(signed, cookies, say!(words, "change-title", what = what), here);
    FormPage::new(page, form).intro(say!(words, "change-intro"))
}

impl Form {
    /// The form that changes an entry: its fields filled in with the entry as it stands.
    #[must_use]
    pub fn changing(action: String, fields: Vec<FormField>, stands: &Value, signed: &Signed) -> Self {
        let (zone, words) = (&signed.actor.time_zone, signed.actor.words());
        let form = Self::new(action, say!(words, "change-submit"), fields);
        let mut form = form.refilled(&Posted::of_tree(stands, zone).spoken_in(words.language), None);
        for field in form.fields.iter_mut().filter(|field| field.kind == Kind::Number) {
            field.value = words.decimal(&field.value);
        }
        // What is wrong with what is sent back is a fault of that request.
        form.refilled = false;
        form.showing(&[])
    }

    /// With another sentence below a field's label.
    #[must_use]
    pub fn telling(mut self, name: &str, sentence: String) -> Self {
        if let Some(field) = self.fields.iter_mut().find(|field| field.is_of(name)) {
            field.hint = if field.hint.is_empty() { sentence } else { [&field.hint, sentence.as_str()].join(" ") };
        }
        self
    }

    /// What somebody made of a form that showed an entry as it stands: the fields that say something else now, as the API
    /// takes them. One that was emptied is null; one that was not sent stays.
    fn changed(&self, posted: &Posted, zone: &TimeZone) -> Map<String, Value> {
        let mut typed = Posted::default();
        let mut emptied = Vec::new();
        for field in self.fields.iter().filter(|field| !field.is_hidden() && is_changed(field, posted)) {
            let text = posted.text(&field.name);
            if text.trim().is_empty() {
                emptied.push(field.pointer());
                continue;
            }
            typed.0.push((field.name.clone(), text.to_owned()));
            if !field.unit_name.is_empty() {
                typed.0.push((field.unit_name.clone(), posted.text(&field.unit_name).to_owned()));
            }
        }
        let mut changed = typed.tree(zone);
        for place in emptied {
            let mut at = &mut changed;
            for name in place.split('/').skip(1) {
                at = &mut at[name];
            }
            *at = Value::Null;
        }
        if let Value::Object(fields) = changed { fields } else { Map::new() }
    }
}

/// Whether what was posted says something else than a field shows.
pub(super) fn is_changed(field: &FormField, posted: &Posted) -> bool {
    let typed = posted.0.iter().find(|(name, _)| *name == field.name).map(|(_, text)| text.as_str());
    if field.is_check() {
        // A box that is not ticked is not sent.
        return (typed == Some("true")) != (field.value == "true");
    }
    let Some(typed) = typed else { return false };
    // Browsers send the lines of a text with another end than programs do, and either decimal sign is read.
    let is_number = matches!(field.kind, Kind::Number | Kind::Whole);
    let lines = |text: &str| {
        let text = text.replace("\r\n", "\n").trim().to_owned();
        if is_number { text.replace(',', ".") } else { text }
    };
    let unit = posted.text(&field.unit_name);
    let is_same_unit = unit.is_empty() || field.units.iter().any(|option| option.selected && option.value == unit);
    lines(typed) != lines(&field.value) || !(is_same_unit || typed.trim().is_empty())
}

#[cfg(test)]
mod tests {
    use super::{Change, Changeable, differences};
    use crate::input;
    use crate::web::form::{Form, FormField, Kind, Posted};
    use crate::web::input::{self as sent, Name};
    use jiff::tz::TimeZone;
    use serde_json::{Value, json};

    input! {
        pub struct Part {
            pub product: Name,
            pub caution: Option<Name>,
        }
    }

    input! {
        pub entry struct Draft {
            pub name: Name,
            pub size: Option<Name>,
            pub part: Option<Part>,
        }
    }

    impl Changeable for Draft {
        const STAYS: &'static [(&'static str, &'static str)] = &[("size", "change-id-stays")];
        const GROUPS: &'static [&'static str] = &["part"];
    }

    fn onto(stands: &Value, change: &Value) -> Result<Draft, Vec<String>> {
        let change: Change<Draft> = sent::read(change).unwrap();
        change.onto(stands).map_err(|error| error.faults().into_iter().map(|fault| fault.pointer).collect())
    }

    #[test]
    fn what_is_sent_takes_the_place_of_what_stood_there() {
        let stands = json!({ "name": "A", "size": "S", "part": { "product": "P", "caution": "C" } });
        let part = |draft: Draft| draft.part.map(|part| (part.product.0, part.caution.map(|caution| caution.0)));
        let same = onto(&stands, &json!({})).unwrap();
        assert_eq!(same.id, None);
        assert_eq!((same.name.0.as_str(), same.size.as_ref().map(|size| size.0.as_str())), ("A", Some("S")));
        assert_eq!(part(same), Some(("P".to_owned(), Some("C".to_owned()))));
        let less = onto(&stands, &json!({ "part": { "caution": null } })).unwrap();
        assert_eq!(part(less), Some(("P".to_owned(), None)));
        for none in [json!({ "part": null }), json!({ "part": { "product": null, "caution": null } })] {
            assert_eq!(part(onto(&stands, &none).unwrap()), None);
        }
        let bare = json!({ "name": "A", "size": null, "part": { "product": null, "caution": null } });
        assert_eq!(part(onto(&bare, &json!({ "part": { "product": "Q" } })).unwrap()), Some(("Q".to_owned(), None)));
    }

    #[test]
    fn every_fault_is_named_where_it_would_stand_on_creation() {
        let stands = json!({ "name": "A", "size": "S", "part": { "product": "P", "caution": "C" } });
        let change = json!({ "id": 5, "name": null, "size": "S", "part": { "product": null, "colour": 1 } });
        let mut faults = onto(&stands, &change).unwrap_err();
        faults.sort();
        assert_eq!(faults, ["/id", "/name", "/part/colour", "/part/product", "/size"]);
        assert!(sent::read::<Change<Draft>>(&json!([])).is_err());
    }

    #[test]
    fn what_differs_is_told_and_nothing_else() {
        let before = json!({ "name": "A", "part": { "product": "P", "caution": null } });
        let after = json!({ "name": "A", "part": { "product": "P", "caution": "C" } });
        let (from, to) = differences(&before, &after, &["part"]);
        assert_eq!(
            (json!(from), json!(to)),
            (json!({ "part": { "caution": null } }), json!({ "part": { "caution": "C" } }))
        );
        assert!(differences(&before, &before, &["part"]).0.is_empty());
    }

    #[test]
    fn a_form_wishes_what_says_something_else_now() {
        let mut form = Form::new(
            "/",
            "Save",
            vec![
                FormField::new("name", "Name").value("A"),
                FormField::new("part/caution", "Caution").kind(Kind::Area).value("one\ntwo"),
                FormField::new("mass", "Mass").measured(&["kg", "lb"], "kg"),
                FormField::new("whole", "Whole").kind(Kind::Check).value("true"),
            ],
        );
        form.fields[2].value = "12.40".to_owned();
        let made = |pairs: &[(&str, &str)]| {
            let pairs = pairs.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect();
            Value::Object(form.changed(&Posted(pairs), &TimeZone::UTC))
        };
        let ticked = ("whole", "true");
        let same =
            [("name", "A"), ("part/caution", "one\r\ntwo"), ("mass/value", "12.40"), ("mass/unit", "kg"), ticked];
        assert_eq!(made(&same), json!({}));
        assert_eq!(made(&[ticked]), json!({}), "what was not sent stays");
        let other = [("name", ""), ("part/caution", ""), ("mass/value", "12.40"), ("mass/unit", "lb")];
        let wished = json!({ "name": null, "part": { "caution": null }, "whole": null,
            "mass": { "value": "12.40", "unit": "lb" } });
        assert_eq!(made(&other), wished);
        assert_eq!(made(&[("mass/value", ""), ("mass/unit", "lb"), ticked]), json!({ "mass": null }));
    }
}
