//! Two pools, one list of values, one text of SQL: the only folder that knows which database runs.
//!
//! A query is a `&'static str` with `$1`, `$2`…, run through [`Cx`] with [`args!`](crate::args). Rejected: `sqlx::Any`
//! (no UUIDs), functions generic over the database (a where-clause each), a query builder (literals become parameters
//! and defeat partial indexes). What may differ between the databases is in `open.rs` and in the migrations.

pub mod cells;
pub mod copy;
pub mod kind;
mod open;
pub mod work;

pub use open::{OpenError, SCHEMA_VERSION};
pub use work::{Audit, Audited, Entered, NewEntry, Outcome, Work, number_of_last_act};

use cells::Cells;
use futures_util::stream::BoxStream;
use sqlx::error::BoxDynError;
use sqlx::pool::PoolConnection;
use sqlx::postgres::{PgArguments, PgRow};
use sqlx::sqlite::{SqliteArguments, SqliteRow};
use sqlx::{Arguments, FromRow, PgConnection, PgPool, Postgres, Sqlite, SqliteConnection, SqlitePool, Transaction};
use uuid::Uuid;

/// What a query or a commit answers.
pub type Result<T> = std::result::Result<T, sqlx::Error>;

/// One value to bind. A null keeps its type, because PostgreSQL wants to know it.
#[derive(Clone, Debug)]
pub enum Val {
    Bool(Option<bool>),
    Int(Option<i64>),
    Real(Option<f64>),
    Text(Option<String>),
    Id(Option<Uuid>),
    Bytes(Option<Vec<u8>>),
}

macro_rules! values {
    ($($from:ty => $variant:ident, $convert:expr;)*) => { $(
        impl From<$from> for Val {
            fn from(value: $from) -> Self {
                Val::$variant(Some($convert(value)))
            }
        }
        impl From<Option<$from>> for Val {
            fn from(value: Option<$from>) -> Self {
                Val::$variant(value.map($convert))
            }
        }
    )* };
}

values! {
    bool => Bool, |v| v;
    i64 => Int, |v| v;
    u32 => Int, i64::from;
    f64 => Real, |v| v;
    Uuid => Id, |v| v;
    String => Text, |v| v;
    &str => Text, str::to_owned;
    &String => Text, String::clone;
    Vec<u8> => Bytes, |v| v;
    [u8; 32] => Bytes, |v: [u8; 32]| v.to_vec();
    &[u8] => Bytes, <[u8]>::to_vec;
    jiff::Timestamp => Int, |v: jiff::Timestamp| v.as_microsecond();
    jiff::civil::Date => Text, |v: jiff::civil::Date| v.to_string();
}

macro_rules! ids {
    ($($id:ident),* $(,)?) => { $(
        impl From<sowmark_core::ids::$id> for Val {
            fn from(id: sowmark_core::ids::$id) -> Self {
                Val::Id(Some(id.0))
            }
        }
        impl From<Option<sowmark_core::ids::$id>> for Val {
            fn from(id: Option<sowmark_core::ids::$id>) -> Self {
                Val::Id(id.map(|id| id.0))
            }
        }
    )* };
}

ids!(
    OrganizationId,
    AccountId,
    ClientId,
    CrewId,
    SeederId,
    MeteringUnitId,
    RollerId,
    LotId,
    SeasonId,
    ScaleId,
    FieldId,
    RecordId,
    CalibrationId,
);

/// The values of a query, in order.
#[macro_export]
macro_rules! args {
    ($($value:expr),* $(,)?) => { &[$($crate::db::Val::from($value)),*] };
}

/// Declares the queries of a store: a constant each, and `ALL` with their names, for the test that prepares every
/// query on both databases.
#[macro_export]
macro_rules! queries {
    ($($name:ident = $sql:literal;)*) => {
        $(const $name: &str = $sql;)*
        /// Every query of this store with its name.
        pub const ALL: &[(&str, &str)] = &[$((concat!(module_path!(), "::", stringify!($name)), $name)),*];
    };
}

macro_rules! binder {
    ($arguments:ty) => {
        |arguments: &mut $arguments, value: &Val| match value {
            Val::Bool(v) => arguments.add(*v),
            Val::Int(v) => arguments.add(*v),
            Val::Real(v) => arguments.add(*v),
            Val::Text(v) => arguments.add(v.as_deref()),
            Val::Id(v) => arguments.add(*v),
            Val::Bytes(v) => arguments.add(v.as_deref()),
        }
    };
}

fn bound<A: Arguments>(
    values: &[Val],
    add: impl Fn(&mut A, &Val) -> std::result::Result<(), BoxDynError>,
) -> Result<A> {
    let mut arguments = A::default();
    values.iter().try_for_each(|value| add(&mut arguments, value)).map_err(sqlx::Error::Encode)?;
    Ok(arguments)
}

/// A row type that both databases can give.
pub trait Row: for<'r> FromRow<'r, SqliteRow> + for<'r> FromRow<'r, PgRow> + Send + Unpin {}
impl<T: for<'r> FromRow<'r, SqliteRow> + for<'r> FromRow<'r, PgRow> + Send + Unpin> Row for T {}

/// One connection, in or out of a transaction: what every query runs on.
#[derive(Debug)]
pub enum Cx<'a> {
    Sqlite(&'a mut SqliteConnection),
    Postgres(&'a mut PgConnection),
}

macro_rules! fetch {
    ($(#[$doc:meta])* $name:ident, $out:ty) => {
        $(#[$doc])*
        pub async fn $name<T: Row>(&mut self, sql: &'static str, values: &[Val]) -> Result<$out> {
            match self {
                Cx::Sqlite(c) => {
                    sqlx::query_as_with::<Sqlite, T, _>(sql, bound(values, binder!(SqliteArguments))?).$name(&mut **c).await
                }
                Cx::Postgres(c) => {
                    sqlx::query_as_with::<Postgres, T, _>(sql, bound(values, binder!(PgArguments))?).$name(&mut **c).await
                }
            }
        }
    };
}

impl Cx<'_> {
    fetch!(
        /// All rows.
        fetch_all,
        Vec<T>
    );
    fetch!(
        /// The row, or none: absence is no error.
        fetch_optional,
        Option<T>
    );
    fetch!(
        /// The row; its absence is an error.
        fetch_one,
        T
    );

    /// Runs a statement; answers how many rows it touched.
    pub async fn execute(&mut self, sql: &'static str, values: &[Val]) -> Result<u64> {
        Ok(match self {
            Cx::Sqlite(c) => {
                sqlx::query_with(sql, bound(values, binder!(SqliteArguments))?).execute(&mut **c).await?.rows_affected()
            }
            Cx::Postgres(c) => {
                sqlx::query_with(sql, bound(values, binder!(PgArguments))?).execute(&mut **c).await?.rows_affected()
            }
        })
    }

    /// Goes through the rows one after the other, without holding them all.
    pub fn stream(&mut self, sql: &'static str) -> BoxStream<'_, Result<Cells>> {
        match self {
            Cx::Sqlite(c) => sqlx::query_as::<Sqlite, Cells>(sql).fetch(&mut **c),
            Cx::Postgres(c) => sqlx::query_as::<Postgres, Cells>(sql).fetch(&mut **c),
        }
    }

    /// Until the end of a transaction nobody else begins an organization. SQLite's lock for writing is held by now.
    pub async fn keep_others_out(&mut self) -> Result<()> {
        if let Cx::Postgres(c) = self {
            sqlx::query("lock table organization, account in share row exclusive mode").execute(&mut **c).await?;
        }
        Ok(())
    }

    /// What the database itself finds broken in its file, a sentence each. Only SQLite can be asked.
    pub async fn broken(&mut self) -> Result<Vec<String>> {
        let Cx::Sqlite(c) = self else { return Ok(Vec::new()) };
        let found: Vec<(String,)> = sqlx::query_as("pragma integrity_check").fetch_all(&mut **c).await?;
        let mut broken: Vec<String> = found.into_iter().map(|(says,)| says).filter(|says| says != "ok").collect();
        let astray: Vec<(String, Option<i64>, String, i64)> =
            sqlx::query_as("pragma foreign_key_check").fetch_all(&mut **c).await?;
        broken.extend(astray.into_iter().map(|(table, row, of, _)| {
            let row = row.map_or_else(String::new, |row| format!(" {row}"));
            format!("the row{row} of {table} refers to a row of {of} that is not there")
        }));
        Ok(broken)
    }

    /// Asks the database to parse a query without running it.
    pub async fn prepare(&mut self, sql: &'static str) -> Result<()> {
        use sqlx::{Executor, SqlSafeStr};
        match self {
            Cx::Sqlite(c) => c.prepare(sql.into_sql_str()).await.map(drop),
            Cx::Postgres(c) => c.prepare(sql.into_sql_str()).await.map(drop),
        }
    }
}

/// A connection for reading. Take one for a request and pass it down.
#[derive(Debug)]
pub enum Conn {
    Sqlite(PoolConnection<Sqlite>),
    Postgres(PoolConnection<Postgres>),
}

impl Conn {
    pub fn cx(&mut self) -> Cx<'_> {
        match self {
            Self::Sqlite(c) => Cx::Sqlite(c),
            Self::Postgres(c) => Cx::Postgres(c),
        }
    }
}

/// A transaction: dropped, it is undone.
#[derive(Debug)]
pub enum Tx {
    Sqlite(Transaction<'static, Sqlite>),
    Postgres(Transaction<'static, Postgres>),
}

impl Tx {
    pub fn cx(&mut self) -> Cx<'_> {
        match self {
            Self::Sqlite(tx) => Cx::Sqlite(tx),
            Self::Postgres(tx) => Cx::Postgres(tx),
        }
    }

    pub async fn commit(self) -> Result<()> {
        match self {
            Self::Sqlite(tx) => tx.commit().await,
            Self::Postgres(tx) => tx.commit().await,
        }
    }
}

/// The database.
#[derive(Clone, Debug)]
pub enum Db {
    /// One connection that writes, several that read.
    Sqlite {
        read: SqlitePool,
        write: SqlitePool,
    },
    Postgres(PgPool),
}

impl Db {
    /// A connection for reading.
    pub async fn read(&self) -> Result<Conn> {
        Ok(match self {
            Self::Sqlite { read, .. } => Conn::Sqlite(read.acquire().await?),
            Self::Postgres(pool) => Conn::Postgres(pool.acquire().await?),
        })
    }

    /// A transaction for reading, in which every query sees one and the same state, whatever is written meanwhile.
    pub async fn snapshot(&self) -> Result<Tx> {
        Ok(match self {
            Self::Sqlite { read, .. } => Tx::Sqlite(read.begin().await?),
            Self::Postgres(pool) => {
                Tx::Postgres(pool.begin_with("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY").await?)
            }
        })
    }

    /// A transaction for writing. SQLite takes its write lock at once: a transaction that reads first and then wants
    /// to write fails when another wrote in between, without waiting.
    pub async fn begin(&self) -> Result<Tx> {
        Ok(match self {
            Self::Sqlite { write, .. } => Tx::Sqlite(write.begin_with("BEGIN IMMEDIATE").await?),
            Self::Postgres(pool) => Tx::Postgres(pool.begin().await?),
        })
    }

    /// For each pool its name, how many connections it has open, and how many of them idle.
    #[must_use]
    pub fn connections(&self) -> Vec<(&'static str, u32, u32)> {
        let idle = |idle: usize| u32::try_from(idle).unwrap_or(u32::MAX);
        match self {
            Self::Sqlite { read, write } => {
                vec![("read", read.size(), idle(read.num_idle())), ("write", write.size(), idle(write.num_idle()))]
            }
            Self::Postgres(pool) => vec![("all", pool.size(), idle(pool.num_idle()))],
        }
    }

    /// Closes every connection; on SQLite this also folds the write-ahead log into the file.
    pub async fn close(&self) {
        match self {
            Self::Sqlite { read, write } => {
                read.close().await;
                write.close().await;
            }
            Self::Postgres(pool) => pool.close().await,
        }
    }
}

/// Whether an error says that a unique key is taken.
#[must_use]
pub fn is_taken(error: &sqlx::Error) -> bool {
    error.as_database_error().is_some_and(|e| e.kind() == sqlx::error::ErrorKind::UniqueViolation)
}
