//! Rows of a file put together to what they say: a row each, or the rows of a seeder's metering units, or of a calibration's
//! catches. What comes out is the tree that the API takes, and where each part of it stands in the file.

use super::kind::{Column, Holds, Imported};
use super::names::Names;
use super::sheet::{File, Found};
use crate::exchange::lists::out::as_meant;
use crate::saying;
use crate::web::error::Fault;
use crate::web::form::Posted;
use crate::web::input::cut;
use crate::web::saying::Saying;
use jiff::tz::TimeZone;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use sowmark_core::ids::OrganizationId;
use sowmark_core::quantity::Decimal;
use sowmark_core::words::Words;
use std::collections::HashMap;
use std::ops::Range;
use uuid::Uuid;

/// What is wrong with a row, and where.
#[derive(Clone, Debug)]
pub struct RowFault {
    pub row: i64,
    /// The heading; empty for the row as a whole.
    pub column: String,
    pub given: String,
    pub says: Saying,
}

/// Where a part of the tree comes from.
#[derive(Clone, Debug)]
struct Source {
    place: String,
    row: i64,
    column: String,
    given: String,
}

/// What one or several rows say.
#[derive(Debug)]
pub struct Entry {
    /// The number of its first row.
    pub row: i64,
    /// How a person tells it from others.
    pub called: String,
    pub tree: Value,
    /// The metering unit that it belongs to, of what belongs to one.
    pub unit: Option<Uuid>,
    /// The id that it has where the file comes from.
    pub own_id: Option<Uuid>,
    pub faults: Vec<RowFault>,
    /// It no longer stood where the file comes from.
    pub is_left_out: bool,
    sources: Vec<Source>,
}

/// Which rows belong together.
#[must_use]
pub fn parted(kind: Imported, file: &File) -> Vec<Range<usize>> {
    let keys: &[&str] = match kind {
        Imported::Seeders => &["seeder", "serial_number"],
        Imported::Calibrations => &["occurred_at", "seeder", "metering_unit", "lot_number"],
        _ => return (0..file.rows.len()).map(|row| row..row + 1).collect(),
    };
    let at: Vec<usize> = file
        .columns
        .iter()
        .filter(|found| !found.as_entered && keys.contains(&found.column.name))
        .map(|found| found.at)
        .chain(id_column(kind, file))
        .collect();
    let key = |row: usize| -> Vec<&str> {
        at.iter().map(|at| file.rows[row].1.get(*at).map_or("", String::as_str)).collect()
    };
    let mut parts: Vec<Range<usize>> = Vec::new();
    for row in 0..file.rows.len() {
        match parts.last_mut() {
            Some(last) if key(last.start) == key(row) => last.end = row + 1,
            _ => parts.push(row..row + 1),
        }
    }
    parts
}

/// Where the ids stand, in a file that was taken away here.
fn id_column(kind: Imported, file: &File) -> Option<usize> {
    let name = if kind == Imported::Seeders { "seeder_id" } else { "id" };
    file.headings.iter().position(|heading| heading == name)
}

/// Reads the rows of an entry.
#[must_use]
pub fn read(kind: Imported, file: &File, rows: Range<usize>, names: &Names, zone: &TimeZone) -> Entry {
    let (first, cells) = &file.rows[rows.start];
    let first = *first;
    let mut entry = Entry {
        row: first,
        called: called(file, rows.start),
        tree: Value::Null,
        unit: None,
        own_id: id_column(kind, file).and_then(|at| cells.get(at)?.trim().parse().ok()),
        faults: Vec::new(),
        is_left_out: false,
        sources: Vec::new(),
    };
    let mut pairs = Vec::new();
    let (mut part, mut catch, mut repeat) = (0, 0, None);
    for at in rows.clone() {
        let (row, cells) = &file.rows[at];
        let own =
            file.columns.iter().find(|found| found.column.name == "repeat").map(|found| cell(cells, found).to_owned());
        if at > rows.start {
            if own.is_some() && own == repeat {
                catch += 1;
            } else {
                (part, catch) = (part + 1, 0);
            }
        }
        repeat = own;
        let line = Line { file, row: *row, cells, first: &file.rows[rows.start].1, is_first: at == rows.start };
        line.read((part, catch), names, &mut entry, &mut pairs);
    }
    entry.tree = Posted(pairs).tree(zone);
    entry
}

/// The first cells of a row that hold something.
fn called(file: &File, row: usize) -> String {
    let cells = file.columns.iter().filter(|found| !found.as_entered).map(|found| cell(&file.rows[row].1, found));
    let cells: Vec<String> = cells.filter(|cell| !cell.is_empty()).take(4).map(cut).collect();
    cells.join(", ")
}

fn cell<'c>(cells: &'c [String], found: &Found) -> &'c str {
    cells.get(found.at).map_or("", |cell| as_meant(cell))
}

/// A row under way into its entry.
struct Line<'a> {
    file: &'a File,
    row: i64,
    cells: &'a [String],
    first: &'a [String],
    is_first: bool,
}

impl Line<'_> {
    fn read(&self, (part, catch): (usize, usize), names: &Names, entry: &mut Entry, pairs: &mut Vec<(String, String)>) {
        for found in &self.file.columns {
            let (column, text) = (found.column, cell(self.cells, found));
            if !self.is_first && !column.is_of_part() {
                let differs = column.name != "repeat" && !text.is_empty() && text != cell(self.first, found);
                let first = entry.row;
                if differs {
                    self.fault(entry, found, saying!("import-differs", row = first.to_string()));
                }
                // What concerns the whole once is not of its parts; whoever repeats a set-aside's reason is right too.
                continue;
            }
            let is_once = column.place.contains('#') && !column.place.contains('@') && catch > 0;
            if text.is_empty() || is_once {
                continue;
            }
            let place = column.place.replace('#', &part.to_string()).replace('@', &catch.to_string());
            self.put(found, text, &place, names, entry, pairs);
        }
    }

    fn put(
        &self,
        found: &Found,
        text: &str,
        place: &str,
        names: &Names,
        entry: &mut Entry,
        pairs: &mut Vec<(String, String)>,
    ) {
        let column = found.column;
        entry.sources.push(Source {
            place: place.to_owned(),
            row: self.row,
            column: self.file.headings[found.at].clone(),
            given: cut(text),
        });
        let mut named = |id: Result<Uuid, Saying>, entry: &mut Entry| match id {
            Ok(id) => pairs.push((place.to_owned(), id.to_string())),
            Err(says) => self.fault(entry, found, says),
        };
        match column.holds {
            Holds::Client => named(names.client(text), entry),
            Holds::Scale => named(names.scale(text), entry),
            Holds::Lot => named(names.lot(text, self.of("crop")), entry),
            Holds::Field => match names.field(text) {
                Ok(Some(id)) => pairs.push((place.to_owned(), id.to_string())),
                Ok(None) => pairs.push(("field".to_owned(), text.to_owned())),
                Err(says) => self.fault(entry, found, says),
            },
            Holds::Unit => match names.unit(self.of("seeder"), text) {
                Ok(unit) => entry.unit = Some(unit),
                Err(says) => self.fault(entry, found, says),
            },
            Holds::Aside if matches!(column.name, "void" | "replaced_by") => entry.is_left_out = true,
            Holds::Aside | Holds::Seeder => {}
            Holds::Measured(_) => self.measured(found, text, place, entry, pairs),
            Holds::Number(_) => match self.number(text) {
                Ok(number) => pairs.push((place.to_owned(), number)),
                Err(says) => self.fault(entry, found, says),
            },
            Holds::Text => pairs.push((place.to_owned(), text.to_owned())),
        }
    }

    /// The cell of a column of that name.
    fn of(&self, name: &str) -> &str {
        let found = self.file.columns.iter().find(|found| found.column.name == name && !found.as_entered);
        found.map_or("", |found| cell(self.cells, found))
    }

    /// Digits with a point. A file has one decimal sign, so that 1.250 and 1,250 are not taken for each other.
    fn number(&self, text: &str) -> Result<String, Saying> {
        let (sign, other) = if self.file.has_decimal_comma { (',', '.') } else { ('.', ',') };
        if text.contains(other) {
            let (sign, other, given) = (sign.to_string(), other.to_string(), cut(text));
            return Err(saying!("import-decimal-sign", given = &given, sign = &sign, other = &other));
        }
        let number = text.replace(',', ".");
        match Decimal::parse(&number) {
            Ok(_) => Ok(number),
            Err(error) => Err(Saying::from(move |words: Words| error.says(words)).ended()),
        }
    }

    /// A measured value: as it was entered, if a column says so, else the number in the heading's unit. Where both stand and
    /// are not the same, nobody knows which was mended.
    fn measured(&self, found: &Found, text: &str, place: &str, entry: &mut Entry, pairs: &mut Vec<(String, String)>) {
        let Holds::Measured(measure) = found.column.holds else { return };
        let twin = self
            .file
            .columns
            .iter()
            .find(|other| other.column.name == found.column.name && other.as_entered != found.as_entered);
        let other = twin.map_or("", |twin| cell(self.cells, twin));
        if found.as_entered {
            pairs.push((format!("{place}/value"), text.to_owned()));
            pairs.push((format!("{place}/unit"), String::from("-")));
            return;
        }
        let number = match self.number(text) {
            Ok(number) => number,
            Err(says) => return self.fault(entry, found, says),
        };
        if other.is_empty() {
            pairs.push((format!("{place}/value"), number));
            pairs.push((format!("{place}/unit"), found.unit.to_owned()));
        } else if let Some((converted, entered)) =
            (measure.si)(&format!("{number} {}", found.unit)).zip((measure.si)(other))
            && (converted - entered).abs() > 1e-9 * converted.abs().max(entered.abs())
        {
            let entered = cut(other);
            self.fault(entry, found, saying!("import-two-values", entered = &entered));
        }
    }

    fn fault(&self, entry: &mut Entry, found: &Found, says: Saying) {
        entry.faults.push(RowFault {
            row: self.row,
            column: self.file.headings[found.at].clone(),
            given: cut(cell(self.cells, found)),
            says,
        });
    }
}

impl Entry {
    /// An id that the same content always gets: sent again, whether in the same file or in a mended one, it is stored once.
    /// What stands in a file several times is told apart by how often it stood there before.
    pub(super) fn identify(&mut self, organization: OrganizationId, kind: Imported, seen: &mut HashMap<[u8; 32], u32>) {
        let content =
            json!({ "organization": organization.0, "kind": kind.word(), "unit": self.unit, "tree": self.tree });
        let digest: [u8; 32] = Sha256::digest(content.to_string()).into();
        let times = seen.entry(digest).or_default();
        *times += 1;
        let own: [u8; 32] = Sha256::digest([digest.as_slice(), times.to_be_bytes().as_slice()].concat()).into();
        let mut bytes = [0; 16];
        bytes.copy_from_slice(&own[..16]);
        if let Value::Object(fields) = &mut self.tree {
            fields.insert("id".to_owned(), json!(uuid::Builder::from_custom_bytes(bytes).into_uuid()));
        }
    }

    /// Its name is taken.
    pub(super) fn is_taken(&mut self, column: &str) {
        let source = self.sources.iter().find(|source| source.column.starts_with(column));
        let given = source.map(|source| source.given.clone()).unwrap_or_default();
        let says = saying!("import-name-taken");
        self.faults.push(RowFault { row: self.row, column: column.to_owned(), given, says });
    }

    /// What an act found wrong, beside the cells that it is about.
    #[must_use]
    pub fn placed(&self, kind: Imported, fault: &Fault, says: Saying) -> RowFault {
        let pointer = plain(fault.pointer.trim_start_matches('/'));
        let source = self.sources.iter().rev().find(|source| plain(&source.place) == pointer);
        let source = source.or_else(|| {
            self.sources.iter().find(|source| {
                let place = plain(&source.place);
                !pointer.is_empty()
                    && (place.starts_with(&format!("{pointer}/")) || pointer.starts_with(&format!("{place}/")))
            })
        });
        if let Some(source) = source {
            return RowFault { row: source.row, column: source.column.clone(), given: source.given.clone(), says };
        }
        let named = |column: &&Column| !column.place.is_empty() && plain(&generic(&pointer)) == plain(column.place);
        let column = kind.columns().iter().find(named).map_or("", |column| column.name);
        RowFault { row: self.row, column: column.to_owned(), given: String::new(), says }
    }
}

/// Without the parts of a quantity.
fn plain(place: &str) -> String {
    let place = place.strip_suffix("/value").or_else(|| place.strip_suffix("/unit")).unwrap_or(place);
    place.to_owned()
}

/// A place with its first number as `#` and its second as `@`.
fn generic(place: &str) -> String {
    let mut signs = ["#", "@"].into_iter();
    let part = |part: &str| {
        if part.parse::<usize>().is_ok() { signs.next().unwrap_or("@").to_owned() } else { part.to_owned() }
    };
    place.split('/').map(part).collect::<Vec<_>>().join("/")
}
