//! Attributes as values: text, whole numbers, ids, times; what cannot be so is said with its place.

use std::collections::BTreeMap;

use super::{
    elements::Node,
    finding::{Finding, Refused, What},
    moment::When,
};

impl Node {
    /// A text that must be there.
    pub(super) fn needed(&self, attribute: &str) -> Result<&str, Refused> {
        let missing = || Refused(self.finding(What::AttributeMissing { attribute: attribute.to_owned() }));
        self.get(attribute).ok_or_else(missing)
    }

    /// A text.
    pub(super) fn text(&self, attribute: &str) -> Option<String> {
        self.get(attribute).map(str::to_owned)
    }

    /// A whole number within bounds.
    pub(super) fn whole(&self, attribute: &str, least: i64, most: i64) -> Result<Option<i64>, Refused> {
        let Some(given) = self.get(attribute) else { return Ok(None) };
        let (attribute, given_text) = (attribute.to_owned(), given.to_owned());
        let digits = given.strip_prefix(['-', '+']).unwrap_or(given);
        if digits.is_empty() || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
            return Err(Refused(self.finding(What::NotANumber { attribute, given: given_text })));
        }
        match given.parse::<i64>() {
            Ok(value) if (least..=most).contains(&value) => Ok(Some(value)),
            _ => Err(Refused(self.finding(What::OutOfRange { attribute, given: given_text, least, most }))),
        }
    }

    /// A whole number within bounds that must be there.
    pub(super) fn needed_whole(&self, attribute: &str, least: i64, most: i64) -> Result<i64, Refused> {
        self.needed(attribute)?;
        Ok(self.whole(attribute, least, most)?.unwrap_or_default())
    }

    /// A value as a machine logs it: 32 bits with a sign.
    pub(super) fn logged(&self, attribute: &str) -> Result<i64, Refused> {
        self.needed_whole(attribute, i32::MIN.into(), i32::MAX.into())
    }

    /// The number of an entry of the data dictionary: four hexadecimal digits.
    pub(super) fn ddi(&self, attribute: &str) -> Result<u16, Refused> {
        let given = self.needed(attribute)?;
        let is_hexadecimal = (1..=4).contains(&given.len()) && given.bytes().all(|byte| byte.is_ascii_hexdigit());
        u16::from_str_radix(given, 16).ok().filter(|_| is_hexadecimal).ok_or_else(|| {
            let (attribute, given) = (attribute.to_owned(), given.to_owned());
            Refused(self.finding(What::NotANumber { attribute, given }))
        })
    }

    /// The same, where it may be missing.
    pub(super) fn ddi_if(&self, attribute: &str) -> Result<Option<u16>, Refused> {
        self.get(attribute).map(|_| self.ddi(attribute)).transpose()
    }

    /// A time.
    pub(super) fn when(&self, attribute: &str) -> Result<Option<When>, Refused> {
        let Some(given) = self.get(attribute) else { return Ok(None) };
        let (attribute, given_text) = (attribute.to_owned(), given.to_owned());
        let not_a_time = || Refused(self.finding(What::NotATime { attribute, given: given_text }));
        When::read(given).map(Some).ok_or_else(not_a_time)
    }
}

/// The number of an entry as people write it: "0074".
pub(super) fn hexadecimal(ddi: u16) -> String {
    format!("{ddi:04X}")
}

/// The ids of a file, with the line of each.
#[derive(Default)]
pub(super) struct Ids(BTreeMap<String, u32>);

impl Ids {
    /// Takes the id of an element: its tag and a number, once in the file.
    pub(super) fn enter(&mut self, node: &Node) -> Result<(), Refused> {
        let id = node.needed("A")?;
        let number = id.strip_prefix(node.tag).map(|rest| rest.strip_prefix('-').unwrap_or(rest));
        if !number.is_some_and(|number| !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit())) {
            return Err(Refused(node.finding(What::WrongId { given: id.to_owned() })));
        }
        match self.0.insert(id.to_owned(), node.line()) {
            None => Ok(()),
            Some(line) => Err(Refused(node.finding(What::IdTwice { given: id.to_owned(), line }))),
        }
    }

    /// What is wrong with an attribute that names an element: there is none.
    pub(super) fn missing(&self, node: &Node, attribute: &str) -> Option<Finding> {
        let given = node.get(attribute)?;
        let what = || What::NotThere { attribute: attribute.to_owned(), given: given.to_owned() };
        (!self.0.contains_key(given)).then(|| node.finding(what()))
    }
}
