//! A file as rows and columns: its encoding, what parts its cells, and its headings. What cannot be read at all is told
//! before anything is kept.

use super::kind::{Column, Holds, Imported};
use crate::saying;
use crate::web::input::cut;
use crate::web::saying::Saying;

/// The largest file, in bytes.
pub const LARGEST: usize = 1536 * 1024;
/// The most rows below the headings.
pub const MOST_ROWS: usize = 10_000;
/// The most columns.
pub const MOST_COLUMNS: usize = 60;
/// The longest cell, in characters.
pub const LONGEST_CELL: usize = 5_000;

/// The text of a file.
///
/// # Errors
/// What is no UTF-8, or holds what no text holds, with the remedy.
pub fn text_of(bytes: &[u8]) -> Result<&str, Saying> {
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err(saying!("import-utf-16"));
    }
    if bytes.contains(&0) {
        return Err(saying!("import-nul"));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let before = &bytes[..error.valid_up_to()];
        let line = before.split(|byte| *byte == b'\n').count();
        saying!("import-not-utf-8", line = line)
    })?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(text))
}

/// A column of the file.
#[derive(Clone, Copy, Debug)]
pub struct Found {
    pub at: usize,
    pub column: &'static Column,
    /// The unit of its heading; empty where it has none.
    pub unit: &'static str,
    /// It holds what was entered, unit and all.
    pub as_entered: bool,
}

/// A file, read.
#[derive(Debug)]
pub struct File {
    pub columns: Vec<Found>,
    /// As they stand in the file.
    pub headings: Vec<String>,
    /// The number of the line in a spreadsheet, and the cells.
    pub rows: Vec<(i64, Vec<String>)>,
    /// Whether numbers are written with a comma.
    pub has_decimal_comma: bool,
}

/// What parts the cells: what the line of headings has more of.
fn delimiter(text: &str) -> u8 {
    let first = text.lines().next().unwrap_or_default();
    let count = |sign: char| first.matches(sign).count();
    if count('\t') > count(',').max(count(';')) {
        b'\t'
    } else if count(';') > count(',') {
        b';'
    } else {
        b','
    }
}

impl File {
    /// Reads a file of a kind.
    ///
    /// # Errors
    /// What is wrong with the file as a whole.
    pub fn read(kind: Imported, text: &str) -> Result<Self, Saying> {
        let delimiter = delimiter(text);
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(delimiter)
            .has_headers(false)
            .flexible(true)
            .from_reader(text.as_bytes());
        let mut records = reader.records();
        let first = match records.next() {
            Some(Ok(first)) if first.iter().any(|cell| !cell.trim().is_empty()) => first,
            _ => return Err(saying!("import-empty")),
        };
        if first.len() > MOST_COLUMNS {
            let count = first.len();
            return Err(saying!("import-columns-many", count = count, most = MOST_COLUMNS));
        }
        let columns = headings(kind, &first)?;
        let headings: Vec<String> = first.iter().map(|cell| cut(cell.trim())).collect();
        let mut rows = Vec::new();
        let mut number = 1;
        for record in records {
            number += 1;
            let record = record.map_err(|_| saying!("import-row-unreadable", row = number.to_string()))?;
            let cells: Vec<String> = record.iter().map(|cell| cell.trim().to_owned()).collect();
            if cells.iter().all(String::is_empty) {
                continue;
            }
            if cells.len() != headings.len() && cells.iter().skip(headings.len()).any(|cell| !cell.is_empty()) {
                let (given, wanted) = (cells.len(), headings.len());
                return Err(saying!("import-row-length", row = number.to_string(), given = given, wanted = wanted));
            }
            if cells.iter().any(|cell| cell.chars().count() > LONGEST_CELL) {
                return Err(saying!("import-cell-long", row = number.to_string(), most = LONGEST_CELL));
            }
            if rows.len() == MOST_ROWS {
                return Err(saying!("import-rows-many", most = MOST_ROWS));
            }
            rows.push((number, cells));
        }
        if rows.is_empty() {
            return Err(saying!("import-no-rows"));
        }
        let is_number =
            |found: &&Found| !found.as_entered && matches!(found.column.holds, Holds::Number(_) | Holds::Measured(_));
        let numbers: Vec<usize> = columns.iter().filter(is_number).map(|found| found.at).collect();
        let has_comma =
            |cells: &Vec<String>| numbers.iter().any(|at| cells.get(*at).is_some_and(|cell| cell.contains(',')));
        let has_decimal_comma = delimiter != b',' && rows.iter().any(|(_, cells)| has_comma(cells));
        Ok(Self { columns, headings, rows, has_decimal_comma })
    }
}

/// The columns that the headings name.
fn headings(kind: Imported, first: &csv::StringRecord) -> Result<Vec<Found>, Saying> {
    let mut columns: Vec<Found> = Vec::new();
    for (at, heading) in first.iter().enumerate() {
        let heading = heading.trim();
        let (name, unit) = parted(heading);
        if name.is_empty() {
            continue;
        }
        let (of, as_entered) = name.strip_suffix("_as_entered").map_or((name.as_str(), false), |of| (of, true));
        let Some(column) = kind.columns().iter().find(|column| column.name == of) else {
            if kind.passes_over(&name) {
                continue;
            }
            let known: Vec<&str> = kind.columns().iter().map(|column| column.name).collect();
            let (given, known) = (cut(heading), known.join(", "));
            return Err(saying!("import-heading-unknown", given = &given, known = &known));
        };
        if columns.iter().any(|found| (found.column.name, found.as_entered) == (column.name, as_entered)) {
            let given = cut(heading);
            return Err(saying!("import-heading-twice", given = &given));
        }
        let unit = if as_entered { "" } else { unit_of(column, heading, &unit)? };
        columns.push(Found { at, column, unit, as_entered });
    }
    let has = |column: &&Column| columns.iter().any(|found| found.column.name == column.name);
    let missing: Vec<&str> =
        kind.columns().iter().filter(|column| column.is_required && !has(column)).map(|column| column.name).collect();
    if missing.is_empty() {
        Ok(columns)
    } else {
        let missing = missing.join(", ");
        Err(saying!("import-heading-missing", missing = &missing))
    }
}

/// A heading's name and unit: `received_mass [kg]` or `received_mass (kg)`.
fn parted(heading: &str) -> (String, String) {
    let (name, unit) = heading.split_once(['[', '(']).unwrap_or((heading, ""));
    let name = name.trim().to_lowercase().replace([' ', '-'], "_");
    (name, unit.trim_end_matches([']', ')']).trim().to_owned())
}

fn unit_of(column: &'static Column, heading: &str, unit: &str) -> Result<&'static str, Saying> {
    let (known, may_lack): (Vec<&'static str>, bool) = match column.holds {
        Holds::Measured(measure) => ((measure.units)(), false),
        Holds::Number(unit) => (vec![unit], true),
        _ => return Ok(""),
    };
    if unit.is_empty() && may_lack {
        return Ok("");
    }
    known.iter().find(|name| name.eq_ignore_ascii_case(unit)).copied().ok_or_else(|| {
        let (given, known) = (cut(heading), known.join(", "));
        saying!("import-heading-unit", given = &given, known = &known)
    })
}
