//! Writes an organization out, as it is at one moment, piece by piece: whoever reads slowly holds up nothing but a
//! connection for reading, and that not for ever.

use super::line;
use super::sql::ORGANIZATION_THERE;
use super::sql::{PAGE, STATEMENTS, Statements};
use super::tables::{Holds, Key};
use super::{FORMAT, VERSION};
use crate::args;
use crate::db::cells::{Cell, Cells};
use crate::db::{Db, Tx, Val};
use crate::hex;
use crate::web::error::Error;
use axum::body::Bytes;
use jiff::Timestamp;
use serde_json::json;
use sha2::{Digest, Sha256};
use sowmark_core::ids::OrganizationId;
use std::time::Duration;
use tokio::sync::mpsc::Sender;
use uuid::Uuid;

/// Where the pieces go. An error says that what came is not whole.
pub type Pieces = Sender<Result<Bytes, std::io::Error>>;

/// Bytes that make a piece.
const PIECE: usize = 64 * 1024;
/// How long a piece may wait for its reader.
const PATIENCE: Duration = Duration::from_secs(30);

/// An export that is about to begin: the moment that it shows is fixed.
#[derive(Debug)]
pub struct Export {
    tx: Tx,
    organization: OrganizationId,
    /// What its rows were made of so far.
    hash: Sha256,
    rows: u64,
    piece: Vec<u8>,
    pieces: Pieces,
}

/// Why an export ended early.
enum Ended {
    Failed(Error),
    /// Nobody reads it any more.
    Alone,
}

impl From<Error> for Ended {
    fn from(error: Error) -> Self {
        Self::Failed(error)
    }
}

impl From<sqlx::Error> for Ended {
    fn from(error: sqlx::Error) -> Self {
        Self::Failed(error.into())
    }
}

impl Export {
    /// Begins one.
    ///
    /// # Errors
    /// 404 for an organization that is not there; the database.
    pub async fn begin(db: &Db, organization: OrganizationId, pieces: Pieces) -> Result<Self, Error> {
        let mut tx = db.snapshot().await?;
        let there: Option<(String,)> = tx.cx().fetch_optional(ORGANIZATION_THERE, args![organization]).await?;
        there.ok_or_else(|| Error::not_there("organization"))?;
        Ok(Self { tx, organization, hash: Sha256::new(), rows: 0, piece: Vec::with_capacity(PIECE), pieces })
    }

    /// Sends it, and tells its reader when it could not be ended.
    pub async fn send(mut self, now: Timestamp) {
        if let Err(Ended::Failed(error)) = self.write(now).await {
            error.log();
            let broken = std::io::Error::other("the export could not be ended");
            // The reader may be gone as well; then there is nobody left to tell.
            self.pieces.send_timeout(Err(broken), PATIENCE).await.ok();
        }
    }

    async fn write(&mut self, now: Timestamp) -> Result<(), Ended> {
        let head = json!({
            "format": FORMAT, "version": VERSION, "organization": self.organization.0, "exported_at": now.to_string(),
            "program": concat!("sowmark ", env!("CARGO_PKG_VERSION")),
        });
        self.piece.extend_from_slice(format!("{head}\n").as_bytes());
        for statements in STATEMENTS.iter() {
            self.write_table(statements).await?;
        }
        let hash = hex::written(&std::mem::take(&mut self.hash).finalize());
        let end = json!({ "end": { "rows": self.rows, "sha256": hash } });
        self.piece.extend_from_slice(format!("{end}\n").as_bytes());
        self.pass_on().await
    }

    async fn write_table(&mut self, statements: &Statements) -> Result<(), Ended> {
        let mut after = first_key(statements.table.key);
        loop {
            let mut values = vec![Val::from(self.organization)];
            values.extend(after.clone());
            let rows: Vec<Cells> = self.tx.cx().fetch_all(statements.select, &values).await?;
            for row in &rows {
                let line = line::write(statements.table, row)?;
                self.hash.update(&line);
                self.rows += 1;
                self.piece.extend_from_slice(line.as_bytes());
                if self.piece.len() >= PIECE {
                    self.pass_on().await?;
                }
            }
            match rows.last() {
                Some(last) if after.is_some() && rows.len() == PAGE => after = Some(key_of(statements, last)?),
                _ => return Ok(()),
            }
        }
    }

    async fn pass_on(&mut self) -> Result<(), Ended> {
        let piece = Bytes::from(std::mem::take(&mut self.piece));
        self.pieces.send_timeout(Ok(piece), PATIENCE).await.map_err(|_| Ended::Alone)
    }
}

/// Before every key; none for a table that is read at once.
fn first_key(key: Key) -> Option<Val> {
    match key {
        Key::Accounts | Key::Id(_) => Some(Val::Id(Some(Uuid::nil()))),
        Key::Number(_) => Some(Val::Int(Some(-1))),
        Key::Itself | Key::Several(_) => None,
    }
}

fn key_of(statements: &Statements, row: &Cells) -> Result<Val, Error> {
    let name = match statements.table.key {
        Key::Id(name) | Key::Number(name) => name,
        _ => "id",
    };
    let at = statements.table.columns.iter().position(|column| column.name == name);
    let found = at.and_then(|at| Some((statements.table.columns.get(at)?.holds, row.0.get(at)?)));
    match found {
        Some((Holds::Id | Holds::Account, Cell::Bytes(bytes))) => {
            Ok(Val::Id(Some(Uuid::from_slice(bytes).map_err(Error::broken)?)))
        }
        Some((Holds::Whole { .. }, Cell::Whole(whole))) => Ok(Val::Int(Some(*whole))),
        other => Err(Error::broken(format!("{} has no key: {other:?}", statements.table.name))),
    }
}
