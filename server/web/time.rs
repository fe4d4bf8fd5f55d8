//! Moments and days that are sent.

use super::input::{At, Faults, Input, cut, text_of};
use super::saying::Saying;
use crate::clock::Stamp;
use crate::saying;
use jiff::civil::Date;
use serde_json::Value;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{KnownFormat, ObjectBuilder, Schema, SchemaFormat, Type};

/// The years in which something can have happened: this trade's machines count revolutions since about then, and a
/// typing slip in the year must not pass. (Ours, no source.)
const FIRST_YEAR: i16 = 2000;
const LAST_YEAR: i16 = 2099;
/// Machines are older than their records.
const FIRST_MACHINE_YEAR: i16 = 1950;

impl Input for Stamp {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let text = text_of(value, at, faults)?;
        let Some(stamp) = parse_stamp(text) else {
            let given = cut(text);
            return faults.add(at, saying!("fault-no-moment", given = &given));
        };
        let year = jiff::tz::TimeZone::UTC.to_datetime(stamp.at).year();
        if (FIRST_YEAR..=LAST_YEAR).contains(&year) {
            Some(stamp)
        } else {
            faults.add(at, out_of_reach(year, FIRST_YEAR))
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .format(Some(SchemaFormat::KnownFormat(KnownFormat::DateTime)))
            .into()
    }
}

fn out_of_reach(year: i16, first: i16) -> Saying {
    saying!("fault-year", year = year.to_string(), first = first.to_string(), last = LAST_YEAR.to_string())
}

/// RFC 3339 to a moment, cut to the microsecond. A space for the plus sign is what a query string makes of it.
#[must_use]
pub fn parse_stamp(text: &str) -> Option<Stamp> {
    let text = text.trim();
    let mended = match text.rfind(' ') {
        Some(space) if space > 10 => format!("{}+{}", &text[..space], &text[space + 1..]),
        _ => text.to_owned(),
    };
    if mended.contains('[') || !mended.is_ascii() {
        return None;
    }
    let pieces = jiff::fmt::temporal::DateTimeParser::new().parse_timestamp(&mended).ok()?;
    let at = jiff::Timestamp::from_microsecond(pieces.as_microsecond()).ok()?;
    Some(Stamp { at, offset_seconds: offset_of(&mended)? })
}

fn offset_of(text: &str) -> Option<i32> {
    if text.ends_with(['Z', 'z']) {
        return Some(0);
    }
    let start = text.rfind(['+', '-']).filter(|start| *start > 10)?;
    let sign = if text[start..].starts_with('-') { -1 } else { 1 };
    let digits: String = text[start + 1..].chars().filter(char::is_ascii_digit).collect();
    let hours: i32 = digits.get(0..2)?.parse().ok()?;
    let minutes: i32 = digits.get(2..4).map_or(Ok(0), str::parse).ok()?;
    Some(sign * (hours * 3600 + minutes * 60))
}

impl Input for Date {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let text = text_of(value, at, faults)?.trim();
        match text.parse::<Date>() {
            Ok(date) if text.len() == 10 => {
                if (FIRST_MACHINE_YEAR..=LAST_YEAR).contains(&date.year()) {
                    Some(date)
                } else {
                    faults.add(at, out_of_reach(date.year(), FIRST_MACHINE_YEAR))
                }
            }
            _ => {
                let given = cut(text);
                faults.add(at, saying!("fault-no-date", given = &given))
            }
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).format(Some(SchemaFormat::KnownFormat(KnownFormat::Date))).into()
    }
}
