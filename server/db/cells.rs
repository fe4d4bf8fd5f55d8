//! A row whose columns are known only while the program runs: each cell as the database has it.
//!
//! For whoever goes through tables by a list (the export of an organization). What a cell means, an id or a hash, a number
//! or a flag, is not told here: SQLite does not know it.

use sqlx::postgres::PgRow;
use sqlx::sqlite::SqliteRow;
use sqlx::{FromRow, Row, TypeInfo, ValueRef};
use uuid::Uuid;

/// What stands in one column of a row.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    Null,
    Flag(bool),
    Whole(i64),
    Real(f64),
    Text(String),
    Bytes(Vec<u8>),
}

/// A row, in the order of its columns.
#[derive(Clone, Debug, PartialEq)]
pub struct Cells(pub Vec<Cell>);

impl<'r> FromRow<'r, SqliteRow> for Cells {
    fn from_row(row: &'r SqliteRow) -> Result<Self, sqlx::Error> {
        let cell = |at: usize| {
            let raw = row.try_get_raw(at)?;
            if raw.is_null() {
                return Ok(Cell::Null);
            }
            Ok(match raw.type_info().name() {
                "INTEGER" => Cell::Whole(row.try_get(at)?),
                "REAL" => Cell::Real(row.try_get(at)?),
                "BLOB" => Cell::Bytes(row.try_get(at)?),
                _ => Cell::Text(row.try_get(at)?),
            })
        };
        Ok(Self((0..row.len()).map(cell).collect::<Result<_, sqlx::Error>>()?))
    }
}

impl<'r> FromRow<'r, PgRow> for Cells {
    fn from_row(row: &'r PgRow) -> Result<Self, sqlx::Error> {
        let cell = |at: usize| {
            let raw = row.try_get_raw(at)?;
            if raw.is_null() {
                return Ok(Cell::Null);
            }
            Ok(match raw.type_info().name() {
                "BOOL" => Cell::Flag(row.try_get(at)?),
                "INT8" => Cell::Whole(row.try_get(at)?),
                "FLOAT8" => Cell::Real(row.try_get(at)?),
                "BYTEA" => Cell::Bytes(row.try_get(at)?),
                "UUID" => Cell::Bytes(row.try_get::<Uuid, _>(at)?.as_bytes().to_vec()),
                _ => Cell::Text(row.try_get(at)?),
            })
        };
        Ok(Self((0..row.len()).map(cell).collect::<Result<_, sqlx::Error>>()?))
    }
}

/// A text of SQL that is made while the program runs, from a list that is part of the program and never from what was
/// sent. It is kept as long as the program runs: make each once.
#[must_use]
pub fn lasting(sql: String) -> &'static str {
    sql.leak()
}
