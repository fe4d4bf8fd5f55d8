//! One row as a line of JSON, and back. Nothing is guessed: a column too many or too few, a value of another kind or out
//! of its range is a fault with the place where it stands.

use super::tables::{Column, Holds, Table};
use crate::db::Val;
use crate::db::cells::{Cell, Cells};
use crate::hex;
use crate::web::error::Error;
use jiff::Timestamp;
use serde_json::{Map, Value};
use std::fmt::Write;
use uuid::Uuid;

/// What is wrong with a row, and where in it.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Fault {
    /// RFC 6901, in the line.
    pub(super) pointer: String,
    pub(super) detail: String,
}

/// The first and the last moment that a record can carry, as on entering.
const YEARS: std::ops::Range<i16> = 1900..2200;
/// More than any text that can be entered, and than any batch that can be sent.
const LONGEST: usize = 4 * 1024 * 1024;

/// Writes a row as its line.
///
/// # Errors
/// When a cell is not what its column holds.
pub(super) fn write(table: &Table, cells: &Cells) -> Result<String, Error> {
    let mut text = format!("{{\"table\":\"{}\",\"row\":{{", table.name);
    for (at, (column, cell)) in table.columns.iter().zip(&cells.0).enumerate() {
        let comma = if at == 0 { "" } else { "," };
        let value = json(column, cell)
            .ok_or_else(|| Error::inconsistent(&format!("{}.{}", table.name, column.name), &format!("{cell:?}")))?;
        write!(text, "{comma}\"{}\":{value}", column.name).map_err(Error::broken)?;
    }
    text.push_str("}}\n");
    Ok(text)
}

fn json(column: &Column, cell: &Cell) -> Option<Value> {
    Some(match (column.holds, cell) {
        (_, Cell::Null) => Value::Null,
        (Holds::Id | Holds::Account, Cell::Bytes(bytes)) => Uuid::from_slice(bytes).ok()?.to_string().into(),
        (Holds::Bytes, Cell::Bytes(bytes)) => hex::written(bytes).into(),
        (Holds::Time, Cell::Whole(micros)) => Timestamp::from_microsecond(*micros).ok()?.to_string().into(),
        (Holds::Flag, Cell::Flag(flag)) => (*flag).into(),
        (Holds::Flag, Cell::Whole(flag)) => (*flag != 0).into(),
        (Holds::Whole { .. }, Cell::Whole(whole)) => (*whole).into(),
        (Holds::Real | Holds::Si { .. }, Cell::Real(real)) => serde_json::Number::from_f64(*real)?.into(),
        (Holds::Text | Holds::Json | Holds::Checked(_) | Holds::Measured(_), Cell::Text(text)) => text.as_str().into(),
        _ => return None,
    })
}

/// The values of a row, in the order of its columns. In a file of an earlier version a column that may be empty may be
/// missing.
///
/// # Errors
/// The first fault.
pub(super) fn read(table: &Table, row: &Map<String, Value>, is_earlier: bool) -> Result<Vec<Val>, Fault> {
    if let Some(unknown) = row.keys().find(|name| table.columns.iter().all(|column| column.name != *name)) {
        let known = table.columns.iter().map(|column| column.name).collect::<Vec<_>>().join(", ");
        return Err(fault(unknown, format!("the table {} has no such column: it has {known}", table.name)));
    }
    table.columns.iter().map(|column| value(column, row, is_earlier)).collect()
}

fn value(column: &Column, row: &Map<String, Value>, is_earlier: bool) -> Result<Val, Fault> {
    let Some(given) = row.get(column.name) else {
        if is_earlier && column.optional {
            return Ok(null(column.holds));
        }
        return Err(fault(
            column.name,
            "it is missing: every column stands in every row, null where it is empty".into(),
        ));
    };
    if given.is_null() {
        if column.optional {
            return Ok(null(column.holds));
        }
        return Err(fault(column.name, "it is null, but this column is never empty".into()));
    }
    held(column, given, row).map_err(|allowed| {
        let shown: String = given.to_string().chars().take(80).collect();
        fault(column.name, format!("{shown} is given, but {allowed}"))
    })
}

fn null(holds: Holds) -> Val {
    match holds {
        Holds::Id | Holds::Account => Val::Id(None),
        Holds::Whole { .. } | Holds::Time => Val::Int(None),
        Holds::Flag => Val::Bool(None),
        Holds::Real | Holds::Si { .. } => Val::Real(None),
        Holds::Bytes => Val::Bytes(None),
        Holds::Text | Holds::Json | Holds::Checked(_) | Holds::Measured(_) => Val::Text(None),
    }
}

/// Reads a value; what is wrong with it is told as what is allowed.
fn held(column: &Column, given: &Value, row: &Map<String, Value>) -> Result<Val, String> {
    let text = || match given {
        Value::String(text) if text.len() > LONGEST => Err(format!("a text holds at most {LONGEST} bytes")),
        Value::String(text) if text.contains('\0') => Err("no text holds a zero character".to_owned()),
        Value::String(text) => Ok(text.as_str()),
        _ => Err("a text is wanted".to_owned()),
    };
    Ok(match column.holds {
        Holds::Id | Holds::Account => Val::Id(Some(id(text()?).ok_or("an id is a UUID in lower case with hyphens")?)),
        Holds::Whole { least, most } => {
            let whole = given.as_i64().filter(|whole| (least..=most).contains(whole));
            Val::Int(Some(whole.ok_or_else(|| format!("a whole number from {least} to {most} is wanted"))?))
        }
        Holds::Time => Val::Int(Some(time(text()?).ok_or("a moment as 2027-04-06T07:40:00Z is wanted, 1900 to 2199")?)),
        Holds::Flag => Val::Bool(Some(given.as_bool().ok_or("true or false is wanted")?)),
        Holds::Text => Val::Text(Some(text()?.to_owned())),
        Holds::Json => {
            let text = text()?;
            serde_json::from_str::<serde::de::IgnoredAny>(text).map_err(|_| "a text with JSON in it is wanted")?;
            Val::Text(Some(text.to_owned()))
        }
        Holds::Checked(passes) => {
            let text = text()?;
            if !passes(text) {
                return Err("that is none of what this column can hold".to_owned());
            }
            Val::Text(Some(text.to_owned()))
        }
        Holds::Measured(si) => {
            let text = text()?;
            si(text).ok_or("a quantity with its unit is wanted, as it was entered and not below zero")?;
            Val::Text(Some(text.to_owned()))
        }
        Holds::Si { of } => {
            let real = real(given)?;
            let entered = row.get(of).and_then(Value::as_str).and_then(|entered| {
                let column = super::tables::TABLES
                    .iter()
                    .flat_map(|table| table.columns)
                    .find(|column| column.name == of && matches!(column.holds, Holds::Measured(_)))?;
                if let Holds::Measured(si) = column.holds { si(entered) } else { None }
            });
            if entered.is_none_or(|entered| (entered - real).abs() > 1e-9 * entered.abs()) {
                return Err(format!("it is the SI value of {of} beside it, which is another"));
            }
            Val::Real(Some(real))
        }
        Holds::Real => Val::Real(Some(real(given)?)),
        Holds::Bytes => Val::Bytes(Some(hex::read(text()?).ok_or("64 hexadecimal digits are wanted")?.to_vec())),
    })
}

fn real(given: &Value) -> Result<f64, String> {
    given
        .as_f64()
        .filter(|real| real.is_finite())
        .ok_or_else(|| "a number that a computer can hold is wanted".to_owned())
}

fn id(text: &str) -> Option<Uuid> {
    Uuid::try_parse(text).ok().filter(|id| id.to_string() == text)
}

fn time(text: &str) -> Option<i64> {
    let at: Timestamp = text.parse().ok()?;
    let year = jiff::tz::TimeZone::UTC.to_datetime(at).year();
    let micros = at.as_microsecond();
    // To the letter, and no finer than a microsecond: written again it must be the same.
    let is_kept = Timestamp::from_microsecond(micros).is_ok_and(|kept| kept.to_string() == text);
    (is_kept && YEARS.contains(&year)).then_some(micros)
}

fn fault(column: &str, detail: String) -> Fault {
    Fault { pointer: format!("/row/{}", column.replace('~', "~0").replace('/', "~1")), detail }
}
