//! Every row of one database into another that is empty: between files, between servers, between SQLite and PostgreSQL.
//!
//! Both have the same tables, since opening brings them up to date. What a column holds is asked of the database that takes the
//! rows: SQLite, which gives them, may not know an id from other bytes, nor a flag from a number.

use super::cells::{Cell, Cells, lasting};
use super::{Cx, Result, Tx, Val};
use crate::args;
use futures_util::TryStreamExt;
use uuid::Uuid;

/// Every table, each after those that it refers to.
pub const TABLES: &[&str] = &[
    "organization",
    "account",
    "membership",
    "session",
    "bearer_token",
    "one_time_link",
    "entry",
    "void",
    "conflict",
    "audit",
    "seeder",
    "metering_unit",
    "roller",
    "configuration",
    "setup",
    "service",
    "lay_up",
    "scale",
    "scale_check",
    "season",
    "crew",
    "crew_member",
    "crew_seeder",
    "client",
    "membership_client",
    "field",
    "lot",
    "lot_test",
    "movement",
    "fill",
    "emptying",
    "job",
    "calibration",
    "decision",
    "waiver",
    "policy",
    "refused",
    "sending",
    "feed_address",
    "task_file",
    "task_match",
    "task_import",
    "import",
    "import_entry",
    "signature",
    "digest_choice",
    "digest",
    "digest_stop",
];

/// A record may correct one that comes later in the table: that is set when all are there.
const CORRECTS: (&str, &str) = ("entry", "corrects");
const CORRECTIONS: &str = "select organization_id, id, corrects from entry where corrects is not null";
const CORRECT: &str = "update entry set corrects = $3 where organization_id = $1 and id = $2";
/// A link to set up a database that was empty until now.
const FORGET_LINKS: &str = "delete from one_time_link";
const IS_USED: &str = "select 1 where exists (select 1 from organization) or exists (select 1 from account)";

/// The same question to either.
const COLUMNS_OF_SQLITE: &str = "select name, type from pragma_table_info($1) order by cid";
const COLUMNS_OF_POSTGRES: &str = "select column_name::text, data_type::text from information_schema.columns
    where table_schema = current_schema() and table_name = $1 order by ordinal_position";

/// The queries whose text is the same for both.
pub const ALL: &[(&str, &str)] = &[
    ("db::copy::CORRECTIONS", CORRECTIONS),
    ("db::copy::CORRECT", CORRECT),
    ("db::copy::FORGET_LINKS", FORGET_LINKS),
    ("db::copy::IS_USED", IS_USED),
];

/// Why nothing was copied.
#[derive(Debug, thiserror::Error)]
pub enum NotCopied {
    #[error("the database is not empty: what is there is not overwritten, so give an empty one")]
    NotEmpty,
    #[error("{table}.{column} holds {found}, which cannot stand there")]
    Cell { table: &'static str, column: String, found: String },
    #[error("{table} has {there} rows where it came from and {here} here")]
    Count { table: &'static str, there: i64, here: i64 },
    #[error("the database failed: {0}")]
    Failed(#[from] sqlx::Error),
}

/// Copies every row, in transactions of the caller's: what `from` shows is one moment, and of what `to` takes nothing lasts
/// until it is committed. Tells after each table how many rows it had; answers how many there were.
///
/// # Errors
/// When `to` holds an organization or an account, and when a row does not fit there; either database.
pub async fn copy(
    from: &mut Tx,
    to: &mut Tx,
    tell: &mut (dyn FnMut(&str, u64) + Send),
) -> std::result::Result<u64, NotCopied> {
    to.cx().keep_others_out().await?;
    if is_used(&mut to.cx()).await? {
        return Err(NotCopied::NotEmpty);
    }
    to.cx().execute(FORGET_LINKS, &[]).await?;
    let mut copied = 0;
    for table in TABLES {
        let rows = copy_table(from, to, table).await?;
        copied += rows;
        tell(table, rows);
    }
    let corrections: Vec<(Uuid, Uuid, Uuid)> = from.cx().fetch_all(CORRECTIONS, &[]).await?;
    for (organization, id, corrects) in corrections {
        to.cx().execute(CORRECT, args![organization, id, corrects]).await?;
    }
    for table in TABLES {
        let count = lasting(format!("select count(*) from {table}"));
        let (there,): (i64,) = from.cx().fetch_one(count, &[]).await?;
        let (here,): (i64,) = to.cx().fetch_one(count, &[]).await?;
        if there != here {
            return Err(NotCopied::Count { table, there, here });
        }
    }
    Ok(copied)
}

/// Whether anything is in a database that somebody would miss.
///
/// # Errors
/// The database.
pub async fn is_used(cx: &mut Cx<'_>) -> Result<bool> {
    let found: Option<(i32,)> = cx.fetch_optional(IS_USED, &[]).await?;
    Ok(found.is_some())
}

async fn copy_table(from: &mut Tx, to: &mut Tx, table: &'static str) -> std::result::Result<u64, NotCopied> {
    let columns = columns(&mut to.cx(), table).await?;
    let names: Vec<&str> = columns.iter().map(|column| column.name.as_str()).collect();
    let names = names.join(", ");
    let places: Vec<String> = (1..=columns.len()).map(|at| format!("${at}")).collect();
    let insert = lasting(format!("insert into {table} ({names}) values ({})", places.join(", ")));
    let select = lasting(format!("select {names} from {table}"));
    let mut copied = 0;
    let mut from = from.cx();
    let mut rows = from.stream(select);
    while let Some(Cells(cells)) = rows.try_next().await? {
        let values = columns.iter().zip(cells).map(|(column, cell)| column.value(table, cell));
        let values = values.collect::<std::result::Result<Vec<_>, _>>()?;
        to.cx().execute(insert, &values).await?;
        copied += 1;
    }
    Ok(copied)
}

/// A column of the database that takes the rows.
#[derive(Debug)]
struct Column {
    name: String,
    holds: Holds,
    is_later: bool,
}

#[derive(Clone, Copy, Debug)]
enum Holds {
    Id,
    Bytes,
    Flag,
    Whole,
    Real,
    Text,
}

async fn columns(cx: &mut Cx<'_>, table: &'static str) -> Result<Vec<Column>> {
    let asked = match cx {
        Cx::Sqlite(_) => COLUMNS_OF_SQLITE,
        Cx::Postgres(_) => COLUMNS_OF_POSTGRES,
    };
    let found: Vec<(String, String)> = cx.fetch_all(asked, args![table]).await?;
    let column = |(name, called): (String, String)| {
        let holds = match called.as_str() {
            "uuid" => Holds::Id,
            "BLOB" | "bytea" => Holds::Bytes,
            "boolean" => Holds::Flag,
            "INTEGER" | "bigint" => Holds::Whole,
            "REAL" | "double precision" => Holds::Real,
            "TEXT" | "text" => Holds::Text,
            _ => return Err(sqlx::Error::ColumnDecode { index: name, source: format!("it holds {called}").into() }),
        };
        Ok(Column { is_later: (table, name.as_str()) == CORRECTS, name, holds })
    };
    found.into_iter().map(column).collect()
}

impl Column {
    fn value(&self, table: &'static str, cell: Cell) -> std::result::Result<Val, NotCopied> {
        let cell = if self.is_later { Cell::Null } else { cell };
        Ok(match (self.holds, cell) {
            (Holds::Id, Cell::Null) => Val::Id(None),
            (Holds::Bytes, Cell::Null) => Val::Bytes(None),
            (Holds::Flag, Cell::Null) => Val::Bool(None),
            (Holds::Whole, Cell::Null) => Val::Int(None),
            (Holds::Real, Cell::Null) => Val::Real(None),
            (Holds::Text, Cell::Null) => Val::Text(None),
            (Holds::Id, Cell::Bytes(bytes)) if bytes.len() == 16 => Val::Id(Uuid::from_slice(&bytes).ok()),
            (Holds::Bytes, Cell::Bytes(bytes)) => Val::Bytes(Some(bytes)),
            (Holds::Flag, Cell::Flag(flag)) => Val::Bool(Some(flag)),
            (Holds::Flag, Cell::Whole(whole @ (0 | 1))) => Val::Bool(Some(whole == 1)),
            (Holds::Whole, Cell::Whole(whole)) => Val::Int(Some(whole)),
            (Holds::Whole, Cell::Flag(flag)) => Val::Int(Some(i64::from(flag))),
            (Holds::Real, Cell::Real(real)) => Val::Real(Some(real)),
            (Holds::Text, Cell::Text(text)) => Val::Text(Some(text)),
            (_, cell) => {
                let found = format!("{cell:?}").chars().take(80).collect();
                return Err(NotCopied::Cell { table, column: self.name.clone(), found });
            }
        })
    }
}
