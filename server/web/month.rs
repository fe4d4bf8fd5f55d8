//! A month of a year, as labels state when they were sealed or until when something keeps: `2027-03`.

use super::input::{At, Faults, Input, cut, text_of};
use crate::saying;
use jiff::civil::Date;
use serde_json::Value;
use std::fmt;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};

/// A month; its first day stands for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Month(Date);

impl Month {
    /// Reads year and month, and nothing else.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let is_shaped = text.len() == 7 && text.is_ascii() && text.as_bytes().get(4) == Some(&b'-');
        let first = if is_shaped { format!("{text}-01").parse().ok() } else { None };
        first.map(Self)
    }
}

impl fmt::Display for Month {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0.strftime("%Y-%m"))
    }
}

impl Input for Month {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let text = text_of(value, at, faults)?.trim();
        let Some(Self(first)) = Self::parse(text) else {
            let given = cut(text);
            return faults.add(at, saying!("fault-no-month", given = &given));
        };
        // The years in reach are those of a date.
        Date::read(Some(&Value::String(first.to_string())), at, faults).map(Self)
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .pattern(Some("^[0-9]{4}-(0[1-9]|1[0-2])$"))
            .examples([Value::String("2027-03".to_owned())])
            .into()
    }
}

#[cfg(test)]
mod tests {
    use super::Month;

    #[test]
    fn a_month_is_year_and_month_alone() {
        for good in ["2027-03", "1999-12"] {
            assert_eq!(Month::parse(good).map(|month| month.to_string()).as_deref(), Some(good));
        }
        for bad in
            ["2027-13", "2027-00", "27-03", "2027-3", "2027-03-01", "03/2027", "-027-03", "2027+03", "", "202a-03"]
        {
            assert_eq!(Month::parse(bad), None, "{bad}");
        }
    }
}
