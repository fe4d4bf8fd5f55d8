//! What a form showed, held against what became of it meanwhile: of two people who change the same thing at once, neither undoes
//! the other unseen.
//!
//! A form that shows what stands carries it in a field of the page's own ([`Form::showing`]). What comes back is held against
//! it ([`Form::mine`]): what its person left as it was shown becomes what stands by now, of boxes that share a name each for
//! itself. What both changed, to different ends, is told beside its field, and nothing is stored; the form then carries what
//! stands now, so that saving again overwrites it knowingly. A form that came without that field (an older page, a script) is
//! taken as it is.
//!
//! To carry the number of the version shown was rejected: it would ask about every change, also where each changed something
//! else.

use super::change::is_changed;
use super::door::Signed;
use super::error::{Error, Fault};
use super::form::{Form, FormField, FormOption, Kind, Posted};
use crate::access::Origin;
use crate::audit;
use crate::db::kind::Kind as Entry;
use crate::db::number_of_last_act;
use crate::records::head::said_day;
use serde_json::Value;
use sowmark_core::say;
use sowmark_core::words::Words;
use std::collections::{BTreeSet, HashMap};
use std::sync::Arc;
use uuid::Uuid;

/// The name of the hidden field that holds what a form shows, as the pairs that it would send untouched.
pub const SHOWN: &str = "_shown";

/// What somebody made of a form, held against what others made of the same meanwhile.
#[derive(Debug)]
pub struct Mine {
    /// What is to be stored: what they changed, and elsewhere what stands by now. The form comes back with it too.
    pub posted: Posted,
    /// Whether that is known to be what stands already.
    pub is_nothing: bool,
    clashes: Vec<Fault>,
    both_ticked: BTreeSet<String>,
}

/// The same before it is known who the others are.
struct Held<'f> {
    posted: Posted,
    is_nothing: bool,
    clashing: Vec<&'f FormField>,
    both_ticked: BTreeSet<String>,
}

impl Mine {
    /// Whether it may be stored.
    ///
    /// # Errors
    /// 422 with a fault for each field that another changed to something else.
    pub fn may_be_stored(&self) -> Result<(), Error> {
        if self.clashes.is_empty() { Ok(()) } else { Err(Error::Faults(self.clashes.clone())) }
    }

    /// Whether both changed boxes of a name, to different ends. Put together they may say what neither wanted: where they are
    /// one decision (whom somebody may see), they are asked about as one.
    #[must_use]
    pub fn both_ticked(&self, name: &str) -> bool {
        self.both_ticked.contains(name)
    }
}

impl Signed {
    /// For an act that rests on what is read from here on: where another act comes before it, it is refused. Between reading
    /// and storing nobody else's change is so overlooked. An act on a form that does not say what it showed rests on nothing.
    ///
    /// # Errors
    /// The database.
    pub async fn as_of_now(mut self, posted: &Posted) -> Result<Self, Error> {
        if posted.text(SHOWN).is_empty() {
            return Ok(self);
        }
        let number = number_of_last_act(&mut self.app.read().await?.cx(), self.actor.organization()).await?;
        self.actor.origin = Arc::new(Origin { rests_on: Some(number), ..(*self.actor.origin).clone() });
        Ok(self)
    }
}

impl Form {
    /// With what it shows, for what comes back to be held against: its fields as they are now, and boxes that share a name.
    #[must_use]
    pub fn showing(mut self, boxes: &[(&str, &[FormOption])]) -> Self {
        let mut pairs: Vec<(&str, &str)> =
            self.fields.iter().filter(|field| !field.is_hidden()).flat_map(sends).collect();
        for (name, options) in boxes {
            pairs.extend(options.iter().filter(|option| option.selected).map(|option| (*name, option.value.as_str())));
        }
        let shown = serde_json::json!(pairs).to_string();
        self.fields.push(FormField::hidden(SHOWN, shown));
        self
    }

    /// The same of some fields alone: of a form that logs a record, those filled in with what stands.
    #[must_use]
    pub fn showing_alone(mut self, names: &[&str]) -> Self {
        let shown = self.fields.iter().filter(|field| names.iter().any(|name| field.is_of(name)));
        let shown = serde_json::json!(shown.flat_map(sends).collect::<Vec<_>>()).to_string();
        self.fields.push(FormField::hidden(SHOWN, shown));
        self
    }

    /// Whether what a form was filled in with still stands, or is what was typed. A record is of a moment of its own and says
    /// everything, so nothing in it is brought up to what stands by now: it is told, and saved again it is as typed.
    ///
    /// # Errors
    /// 422 with a fault for each field that says something else by now.
    pub fn still_stands(&self, posted: &Posted) -> Result<(), Error> {
        let (Some(now), Some(shown)) = (self.shown(), pairs_of(posted.text(SHOWN))) else { return Ok(()) };
        let is_other = |field: &&FormField| is_changed(&as_shown(field, &shown), &now) && is_changed(field, posted);
        let faults: Vec<Fault> = self.fields.iter().filter(is_other).map(|field| clash(field, None)).collect();
        if faults.is_empty() { Ok(()) } else { Err(Error::Faults(faults)) }
    }

    fn shown(&self) -> Option<Posted> {
        self.fields.iter().find(|field| field.name == SHOWN).and_then(|field| pairs_of(&field.value))
    }

    /// What somebody made of it, where this is the form as it stands now. Who changed something meanwhile is read from the
    /// trail: from the lines about this entry, or about any of its kind.
    ///
    /// # Errors
    /// The database.
    pub async fn mine(&self, signed: &Signed, about: (Entry, Option<Uuid>), posted: &Posted) -> Result<Mine, Error> {
        let (Some(now), Some(shown)) = (self.shown(), pairs_of(posted.text(SHOWN))) else {
            let (posted, both_ticked) = (posted.clone(), BTreeSet::new());
            return Ok(Mine { posted, is_nothing: false, clashes: Vec::new(), both_ticked });
        };
        let Held { posted, is_nothing, clashing, both_ticked } = self.held(&now, &shown, posted);
        let clashes = if clashing.is_empty() { Vec::new() } else { told(signed, about, &clashing).await? };
        Ok(Mine { posted, is_nothing, clashes, both_ticked })
    }

    fn held(&self, now: &Posted, shown: &Posted, posted: &Posted) -> Held<'_> {
        let fields = || self.fields.iter().filter(|field| !field.is_hidden());
        let mut mine = posted.clone();
        let (mut clashing, mut both_ticked) = (Vec::new(), BTreeSet::new());
        for field in fields() {
            let was = as_shown(field, shown);
            if !is_changed(&was, now) {
                continue;
            }
            if !is_changed(&was, posted) {
                mine.put(&[&field.name, &field.unit_name], sends(field));
            } else if is_changed(field, posted) {
                clashing.push(field);
            }
        }
        let mut is_nothing = !fields().any(|field| is_changed(field, &mine));
        for name in self.boxes(&[now, shown, posted]) {
            let [stand, were, are] = [now, shown, posted].map(|of| of.all(&name).collect::<BTreeSet<&str>>());
            let ticked: BTreeSet<&str> = &(&stand - &(&were - &are)) | &(&are - &were);
            is_nothing &= ticked == stand;
            if stand != were && are != were && are != stand {
                both_ticked.insert(name.clone());
            }
            mine.put(&[&name], ticked.into_iter().map(|value| (name.as_str(), value)));
        }
        Held { posted: mine, is_nothing, clashing, both_ticked }
    }

    /// The names of what is no field of it, but boxes that share a name.
    fn boxes(&self, all: &[&Posted]) -> BTreeSet<String> {
        let is_field = |name: &str| self.fields.iter().any(|field| field.name == name || field.unit_name == name);
        let names = all.iter().flat_map(|posted| &posted.0).map(|(name, _)| name.as_str());
        names.filter(|name| !name.starts_with('_') && !is_field(name)).map(str::to_owned).collect()
    }
}

impl Posted {
    /// With these pairs for those of some names.
    fn put<'p>(&mut self, names: &[&str], pairs: impl Iterator<Item = (&'p str, &'p str)>) {
        self.0.retain(|(name, _)| !names.contains(&name.as_str()));
        self.0.extend(pairs.map(|(name, text)| (name.to_owned(), text.to_owned())));
    }
}

fn pairs_of(text: &str) -> Option<Posted> {
    serde_json::from_str(text).ok().map(Posted)
}

/// The pairs that a field sends when nobody touches it.
fn sends(field: &FormField) -> impl Iterator<Item = (&str, &str)> {
    let is_sent = !field.is_check() || field.value == "true";
    let unit =
        field.units.iter().find(|unit| unit.selected).map(|unit| (field.unit_name.as_str(), unit.value.as_str()));
    is_sent.then_some((field.name.as_str(), field.value.as_str())).into_iter().chain(unit)
}

/// A field as it was shown. One that was not there then is taken as it is.
fn as_shown(field: &FormField, shown: &Posted) -> FormField {
    let pairs: HashMap<&str, &str> = shown.0.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let mut field = field.clone();
    field.show(&pairs);
    field
}

/// The faults that say what others made of these fields meanwhile.
async fn told(signed: &Signed, (kind, id): (Entry, Option<Uuid>), fields: &[&FormField]) -> Result<Vec<Fault>, Error> {
    let mut conn = signed.app.read().await?;
    let changes = audit::changes(&mut conn.cx(), signed.actor.organization(), kind, id).await?;
    Ok(fields.iter().map(|field| clash(field, who(&changes, &field.pointer()))).collect())
}

/// Who changed a field last, by lines that say what was before and after. Places in lists are of what was sent: of those
/// the trail does not tell.
fn who(changes: &[(Option<String>, String)], pointer: &str) -> Option<String> {
    if pointer.split('/').any(|part| part.parse::<usize>().is_ok()) {
        return None;
    }
    let is_of_it = |change: &str| {
        let change: Value = serde_json::from_str(change).unwrap_or_default();
        let to = change["to"].pointer(pointer);
        to.is_some() && to != change["from"].pointer(pointer)
    };
    changes.iter().find(|(_, change)| is_of_it(change)).and_then(|(name, _)| name.clone())
}

fn clash(field: &FormField, who: Option<String>) -> Fault {
    let stands = field.clone();
    Fault::new(field.pointer(), move |words: Words| {
        let now = said(&stands, words);
        match (&who, now.is_empty()) {
            (Some(who), false) => say!(words, "meanwhile-by", who = who, now = &now),
            (Some(who), true) => say!(words, "meanwhile-emptied-by", who = who),
            (None, false) => say!(words, "meanwhile", now = &now),
            (None, true) => say!(words, "meanwhile-emptied"),
        }
    })
}

/// What a field says, as its form shows it to its reader. A box says yes or no, which two cannot change to different ends.
fn said(field: &FormField, words: Words) -> String {
    let value = field.value.trim();
    let of_list = field.options.iter().find(|option| option.selected).map(|option| option.label.clone());
    let unit = field.units.iter().find(|unit| unit.selected).map(|unit| unit.label.as_str());
    match (field.kind, unit) {
        (Kind::Select, _) => of_list.unwrap_or_default(),
        (Kind::Date, _) if !value.is_empty() => said_day(value, words),
        // Pounds and ounces stand in the field with their units.
        (_, Some(unit)) if !value.is_empty() && !value.contains(char::is_alphabetic) => [value, unit].join(" "),
        _ => value.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::{Held, Posted, pairs_of, said, who};
    use crate::texts;
    use crate::web::form::{Form, FormField, FormOption, Kind};
    use sowmark_core::words::{DecimalSign, Words};

    /// A form with a field of each kind, and boxes.
    fn form(name: &str, mass: (&str, &str), kind: &str, whole: bool, boxes: &[&str]) -> Form {
        let fields = vec![
            FormField::new("name", "Name").value(name),
            FormField::new("mass", "Mass").measured(&["kg", "lb"], mass.1).value(mass.0),
            FormField::new("kind", "Kind").choice([("a", "An A"), ("b", "A B")]).value(kind),
            FormField::new("whole", "Whole").kind(Kind::Check).value(if whole { "true" } else { "" }),
        ];
        let option = |value: &str| FormOption {
            value: value.to_owned(),
            label: String::new(),
            selected: boxes.contains(&value),
        };
        Form::new("/", "Save", fields).showing(&[("boxes", &["x", "y", "z"].map(option))])
    }

    fn sent(form: &Form) -> Posted {
        form.shown().unwrap()
    }

    fn held(was: &Form, typed: &Form, now: &Form) -> (Vec<(String, String)>, bool, Vec<String>) {
        let Held { posted, is_nothing, clashing, .. } = now.held(&sent(now), &sent(was), &sent(typed));
        let mut pairs = posted.0;
        pairs.sort();
        (pairs, is_nothing, clashing.into_iter().map(|field| field.name.clone()).collect())
    }

    fn pairs(form: &Form) -> Vec<(String, String)> {
        let mut pairs = sent(form).0;
        pairs.sort();
        pairs
    }

    #[test]
    fn each_changes_what_they_touched() {
        let was = form("A", ("1", "kg"), "a", true, &["x", "y"]);
        let mine = form("B", ("1", "kg"), "b", true, &["y"]);
        let theirs = form("A", ("1", "lb"), "a", false, &["x", "y", "z"]);
        let both = form("B", ("1", "lb"), "b", false, &["y", "z"]);
        assert_eq!(held(&was, &mine, &theirs), (pairs(&both), false, vec![]));
        assert_eq!(held(&was, &theirs, &mine), (pairs(&both), false, vec![]));
        assert_eq!(held(&was, &was, &theirs), (pairs(&theirs), true, vec![]), "who touched nothing changes nothing");
        assert_eq!(held(&was, &mine, &was), (pairs(&mine), false, vec![]), "alone");
        assert_eq!(held(&was, &mine, &mine), (pairs(&mine), true, vec![]), "the same by both");
    }

    #[test]
    fn what_both_changed_to_different_ends_clashes_and_stays_as_typed() {
        let was = form("A", ("1", "kg"), "a", true, &[]);
        let mine = form("B", ("2,0", "kg"), "b", false, &[]);
        let theirs = form("C", ("2.0", "kg"), "a", false, &[]);
        let (typed, is_nothing, clashing) = held(&was, &mine, &theirs);
        assert_eq!((typed, is_nothing, clashing), (pairs(&mine), false, vec!["name".to_owned()]));
        let other_unit = form("A", ("1", "lb"), "a", true, &[]);
        let other_number = form("A", ("3", "kg"), "a", true, &[]);
        assert_eq!(held(&was, &other_unit, &other_number).2, ["mass/value"]);
    }

    #[test]
    fn a_field_says_what_its_form_shows() {
        let words = Words { decimal: DecimalSign::Comma, language: texts::english() };
        let form = form("A", ("1,5", "kg"), "b", true, &[]);
        let says: Vec<String> = form.fields[..3].iter().map(|field| said(field, words)).collect();
        assert_eq!(says, ["A", "1,5 kg", "A B"]);
        let day = FormField::new("day", "Day").kind(Kind::Date);
        assert_eq!(said(&day, words), "");
        assert_eq!(said(&day.value("2027-02-20"), words), "20 February 2027");
        let pounds = FormField::new("mass", "Mass").measured(&["kg", "lb"], "lb").value("5 lb 8 oz");
        assert_eq!(said(&pounds, words), "5 lb 8 oz");
    }

    #[test]
    fn who_changed_a_field_is_who_changed_it_last() {
        let line = |who: Option<&str>, change: &str| (who.map(str::to_owned), change.to_owned());
        let changes = [
            line(Some("Bea"), r#"{"from":{"name":"B","area":1},"to":{"name":"B","area":2}}"#),
            line(None, r#"{"from":{"part":{"caution":null}},"to":{"part":{"caution":"C"}}}"#),
            line(Some("Ana"), r#"{"from":{"name":"A","list":[1]},"to":{"name":"B","list":[2]}}"#),
            line(Some("Eva"), "no JSON"),
        ];
        let who = |pointer: &str| who(&changes, pointer);
        assert_eq!([who("/area"), who("/name")], [Some("Bea".to_owned()), Some("Ana".to_owned())]);
        assert_eq!([who("/part/caution"), who("/list/0"), who("/size")], [None, None, None]);
    }

    #[test]
    fn what_is_no_list_of_pairs_is_as_if_it_were_not_there() {
        for text in ["", "no list", "{}", "[1]", r#"[["name"]]"#, r#"[["name",1]]"#] {
            assert!(pairs_of(text).is_none(), "{text}");
        }
        assert_eq!(pairs_of(r#"[["name","A"]]"#).unwrap().text("name"), "A");
    }
}
