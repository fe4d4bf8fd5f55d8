//! Opens a database by its address and brings its tables up to date.
//!
//! Migrations go forward only. Several servers may start at once on one database: PostgreSQL's migrator takes an
//! advisory lock; SQLite's takes none, so there the whole migration runs inside one `BEGIN IMMEDIATE`.

use super::{Db, Result};
use crate::clock::Stopwatch;
use sqlx::migrate::Migrator;
use sqlx::postgres::{PgConnectOptions, PgPoolOptions};
use sqlx::sqlite::{SqliteConnectOptions, SqliteJournalMode, SqlitePoolOptions, SqliteSynchronous};
use sqlx::{Connection, SqliteConnection, SqlitePool};
use std::str::FromStr;
use std::time::Duration;

static SQLITE: Migrator = sqlx::migrate!("migrations/sqlite");
static POSTGRES: Migrator = sqlx::migrate!("migrations/postgres");

/// The newest schema that this program knows.
pub const SCHEMA_VERSION: i64 = 18;

/// How long to wait for an SQLite file that another connection has, and how long before asking again where SQLite does not wait.
const PATIENCE: Duration = Duration::from_secs(5);
const PAUSE: Duration = Duration::from_millis(20);

/// Why a database could not be opened. The text is for the person who started the server.
#[derive(Debug, thiserror::Error)]
pub enum OpenError {
    #[error("--database is {given}: give sqlite://FILE or postgres://USER@HOST/NAME")]
    Address { given: String },
    #[error("the database cannot be opened: {0}")]
    Connect(#[source] sqlx::Error),
    #[error("the database's tables cannot be brought up to date: {0}")]
    Migrate(#[source] sqlx::migrate::MigrateError),
    #[error(
        "the database has tables of version {found}, newer than this program's {SCHEMA_VERSION}: start a newer Sowmark"
    )]
    Newer { found: i64 },
}

impl Db {
    /// Opens `sqlite://FILE` (made if missing) or `postgres://…`, and migrates it.
    ///
    /// # Errors
    /// When the address is neither, the database does not answer, or its tables are newer than this program.
    pub async fn open(url: &str) -> std::result::Result<Self, OpenError> {
        let db = if let Some(file) = url.strip_prefix("sqlite://").or_else(|| url.strip_prefix("sqlite:")) {
            if file.is_empty() {
                return Err(OpenError::Address { given: url.to_owned() });
            }
            Self::open_sqlite(file, SqliteJournalMode::Wal).await?
        } else if url.starts_with("postgres://") || url.starts_with("postgresql://") {
            let options = PgConnectOptions::from_str(url).map_err(OpenError::Connect)?;
            Self::open_postgres(options).await?
        } else {
            return Err(OpenError::Address { given: without_password(url) });
        };
        Ok(db)
    }

    /// Makes a file that is to be whole by itself after each commit, and go to another place: with a write-ahead log, part of it
    /// would stand in the file of the log.
    ///
    /// # Errors
    /// As [`Db::open`].
    pub async fn open_file(file: &str) -> std::result::Result<Self, OpenError> {
        Self::open_sqlite(file, SqliteJournalMode::Delete).await
    }

    async fn open_sqlite(file: &str, journal: SqliteJournalMode) -> std::result::Result<Self, OpenError> {
        let options = SqliteConnectOptions::new()
            .filename(file)
            .create_if_missing(true)
            .journal_mode(journal)
            // What is acknowledged survives a power cut: NORMAL would not sync each commit.
            .synchronous(SqliteSynchronous::Full)
            .foreign_keys(true)
            .busy_timeout(PATIENCE)
            .optimize_on_close(true, None);
        let write = pool(1, options.clone()).await?;
        let mut connection = write.acquire().await.map_err(OpenError::Connect)?;
        migrate_sqlite(&mut connection).await?;
        drop(connection);
        let read = pool(4, options.pragma("query_only", "ON")).await?;
        Ok(Self::Sqlite { read, write })
    }

    /// Opens PostgreSQL with options of one's own (tests give each its schema by `search_path`).
    ///
    /// # Errors
    /// As [`Db::open`].
    pub async fn open_postgres(options: PgConnectOptions) -> std::result::Result<Self, OpenError> {
        let pool = PgPoolOptions::new()
            .max_connections(10)
            .acquire_timeout(Duration::from_secs(5))
            .connect_with(options.application_name("sowmark"))
            .await
            .map_err(OpenError::Connect)?;
        POSTGRES.run(&pool).await.map_err(translated)?;
        Ok(Self::Postgres(pool))
    }

    /// Whether the database answers and its tables are those that this program knows.
    pub async fn is_ready(&self) -> Result<bool> {
        let (version,): (i64,) = self
            .read()
            .await?
            .cx()
            .fetch_one("select max(version) from _sqlx_migrations where success = true", &[])
            .await?;
        Ok(version == SCHEMA_VERSION)
    }
}

/// Connects. To begin a write-ahead log, SQLite wants the file alone for a moment and does not wait for it however long it was told
/// to: where several programs start at once, this does.
async fn pool(connections: u32, options: SqliteConnectOptions) -> std::result::Result<SqlitePool, OpenError> {
    let began = Stopwatch::start();
    loop {
        let pool = SqlitePoolOptions::new().max_connections(connections).test_before_acquire(false);
        match pool.connect_with(options.clone()).await {
            Err(error) if is_busy(&error) && began.elapsed() < PATIENCE => tokio::time::sleep(PAUSE).await,
            done => return done.map_err(OpenError::Connect),
        }
    }
}

/// `SQLITE_BUSY`: another connection has the file.
fn is_busy(error: &sqlx::Error) -> bool {
    error.as_database_error().and_then(sqlx::error::DatabaseError::code).is_some_and(|code| code == "5")
}

async fn migrate_sqlite(connection: &mut SqliteConnection) -> std::result::Result<(), OpenError> {
    let mut tx = connection.begin_with("BEGIN IMMEDIATE").await.map_err(OpenError::Connect)?;
    SQLITE.run_direct(None, &mut *tx, false).await.map_err(translated)?;
    tx.commit().await.map_err(OpenError::Connect)
}

fn translated(error: sqlx::migrate::MigrateError) -> OpenError {
    match error {
        sqlx::migrate::MigrateError::VersionMissing(found) if found > SCHEMA_VERSION => OpenError::Newer { found },
        other => OpenError::Migrate(other),
    }
}

fn without_password(url: &str) -> String {
    match (url.split_once("://"), url.rsplit_once('@')) {
        (Some((scheme, _)), Some((_, rest))) => format!("{scheme}://…@{rest}"),
        _ => url.to_owned(),
    }
}
