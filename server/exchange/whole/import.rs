//! Takes an exported organization in: all of it in one transaction, or nothing.
//!
//! The file is somebody's, so nothing in it is believed: each line is read strictly, the database holds it to its keys,
//! and before anything lasts `check.rs` goes through what has come to stand there. Into an organization that is there
//! already nothing is imported, not even into an empty one: its trail has begun, and a chain of hashes cannot be joined
//! to another. Ids are kept, because the trail is made of them.

use super::check;
use super::line;
use super::sql::STATEMENTS;
use super::sql::{ACCOUNT_THERE, NEWCOMERS, ORGANIZATION_THERE, SET_CORRECTS};
use super::tables::Key;
use super::{FORMAT, VERSION};
use crate::access::link::{self, Purpose};
use crate::args;
use crate::clock::Clock;
use crate::db::{Db, Tx, Val};
use crate::hex;
use crate::web::error::Error;
use serde::Deserialize;
use serde_json::{Map, Value};
use sha2::{Digest, Sha256};
use sowmark_core::ids::{AccountId, OrganizationId};
use sqlx::error::ErrorKind;
use std::io::{BufRead, Read};
use uuid::Uuid;

/// Bytes of the longest line that is read.
const LONGEST_LINE: u64 = 16 * 1024 * 1024;

/// An organization that was taken in.
#[derive(Debug)]
pub struct Imported {
    pub organization: OrganizationId,
    pub rows: u64,
    /// The people who have no password here yet: their address, and the code of a one-time link to set one.
    pub links: Vec<(String, String)>,
}

/// Why a file is not taken in. Nothing of it was.
#[derive(Debug, thiserror::Error)]
pub enum Refused {
    #[error("line {line}{}: {detail}", at(.pointer))]
    Line { line: u64, pointer: String, detail: String },
    #[error("{0}")]
    Whole(String),
    #[error("the file cannot be read: {0}")]
    File(#[source] std::io::Error),
    #[error("{}", .0.problem().detail)]
    Failed(Error),
}

fn at(pointer: &str) -> String {
    if pointer.is_empty() { String::new() } else { format!(", {pointer}") }
}

impl From<Error> for Refused {
    fn from(error: Error) -> Self {
        Self::Failed(error)
    }
}

impl From<sqlx::Error> for Refused {
    fn from(error: sqlx::Error) -> Self {
        Self::Failed(error.into())
    }
}

#[derive(Deserialize)]
struct Head {
    format: String,
    version: Value,
    organization: Option<Uuid>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RowLine {
    table: String,
    row: Map<String, Value>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct EndLine {
    end: End,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct End {
    rows: u64,
    sha256: String,
}

/// Takes an organization in from a file.
///
/// # Errors
/// The first thing that is wrong, with its line; an organization or account that is there already; the database.
pub async fn import(db: &Db, clock: &Clock, from: &mut (dyn BufRead + Send)) -> Result<Imported, Refused> {
    let mut lines = Lines { from, number: 0 };
    let (organization, version) = head(&mut lines)?;
    let mut taking = Taking {
        tx: db.begin().await?,
        organization,
        is_earlier: version < VERSION,
        corrections: Vec::new(),
        hash: Sha256::new(),
        rows: 0,
    };
    let there: Option<(String,)> = taking.tx.cx().fetch_optional(ORGANIZATION_THERE, args![organization]).await?;
    if let Some((name,)) = there {
        let id = organization.0;
        return Err(Refused::Whole(format!(
            "the organization {id} is on this server already, as {name:?}: nothing is overwritten, so import into another database"
        )));
    }
    taking.rows(&mut lines).await?;
    taking.correct().await?;
    let checked = check::whole(&mut taking.tx.cx(), organization).await?;
    if let Some(fault) = checked.faults.into_iter().next() {
        return Err(Refused::Whole(fault));
    }
    let links = taking.links(clock).await?;
    taking.tx.commit().await?;
    Ok(Imported { organization, rows: taking.rows, links })
}

/// The file, line by line.
struct Lines<'a> {
    from: &'a mut (dyn BufRead + Send),
    number: u64,
}

impl Lines<'_> {
    /// The next line with its end; none at the end of the file.
    fn next(&mut self) -> Result<Option<Vec<u8>>, Refused> {
        let mut line = Vec::new();
        let mut limited = Read::take(&mut *self.from, LONGEST_LINE + 1);
        limited.read_until(b'\n', &mut line).map_err(Refused::File)?;
        if line.is_empty() {
            return Ok(None);
        }
        self.number += 1;
        if u64::try_from(line.len()).is_ok_and(|length| length > LONGEST_LINE) {
            return Err(self.fault("", format!("it is longer than {LONGEST_LINE} bytes: this is no line of an export")));
        }
        if line.last() != Some(&b'\n') {
            return Err(self.fault("", "it breaks off: the file is cut short, export it again".to_owned()));
        }
        Ok(Some(line))
    }

    fn fault(&self, pointer: &str, detail: String) -> Refused {
        Refused::Line { line: self.number, pointer: pointer.to_owned(), detail }
    }

    fn unreadable(&self, error: &serde_json::Error, wanted: &str) -> Refused {
        self.fault("", format!("{wanted} is wanted here: {error}"))
    }
}

/// Whose file it is, and in which version of the format.
fn head(lines: &mut Lines<'_>) -> Result<(OrganizationId, u32), Refused> {
    let line = lines.next()?.ok_or_else(|| Refused::Whole("the file is empty".to_owned()))?;
    let head: Head = serde_json::from_slice(&line)
        .map_err(|error| lines.unreadable(&error, "the head of an exported organization"))?;
    if head.format != FORMAT {
        let given: String = head.format.chars().take(80).collect();
        return Err(lines.fault("/format", format!("{given:?} is given, but {FORMAT:?} is what can be imported")));
    }
    let version = head.version.as_u64().and_then(|version| u32::try_from(version).ok());
    let Some(version) = version.filter(|version| (1..=VERSION).contains(version)) else {
        return Err(lines.fault(
            "/version",
            format!(
                "version {} is given, but this program reads versions 1 to {VERSION}: import with a program as new as the one that exported it",
                head.version
            ),
        ));
    };
    let missing = || lines.fault("/organization", "the organization's id is missing".to_owned());
    Ok((head.organization.map(OrganizationId).ok_or_else(missing)?, version))
}

/// An import under way.
struct Taking {
    tx: Tx,
    organization: OrganizationId,
    /// The file is of an earlier version, which has not all columns.
    is_earlier: bool,
    /// Which entry corrects which, with its line: put in once all entries are there.
    corrections: Vec<(u64, Uuid, Uuid)>,
    hash: Sha256,
    rows: u64,
}

impl Taking {
    /// Every row, and the end that must follow.
    async fn rows(&mut self, lines: &mut Lines<'_>) -> Result<(), Refused> {
        while let Some(line) = lines.next()? {
            if line.starts_with(b"{\"end\"") {
                return self.end(lines, &line);
            }
            self.hash.update(&line);
            self.rows += 1;
            let row: RowLine =
                serde_json::from_slice(&line).map_err(|error| lines.unreadable(&error, "a row of a table"))?;
            self.row(lines, &row).await?;
        }
        Err(Refused::Whole(format!(
            "the file ends after line {} without its last line: it is cut short, export it again",
            lines.number
        )))
    }

    fn end(&mut self, lines: &mut Lines<'_>, line: &[u8]) -> Result<(), Refused> {
        let EndLine { end } = serde_json::from_slice(line).map_err(|error| lines.unreadable(&error, "the end"))?;
        if end.rows != self.rows {
            let detail = format!("{} rows were written, but {} are here", end.rows, self.rows);
            return Err(lines.fault("/end/rows", detail));
        }
        if end.sha256 != hex::written(&std::mem::take(&mut self.hash).finalize()) {
            return Err(lines.fault("/end/sha256", "the rows are not those that were written".to_owned()));
        }
        match lines.next()? {
            None => Ok(()),
            Some(_) => Err(lines.fault("", "something follows the end of the export".to_owned())),
        }
    }

    async fn row(&mut self, lines: &Lines<'_>, RowLine { table, row }: &RowLine) -> Result<(), Refused> {
        let Some(statements) = STATEMENTS.iter().find(|statements| statements.table.name == table) else {
            let given: String = table.chars().take(80).collect();
            return Err(lines.fault("/table", format!("there is no table {given:?} in an export")));
        };
        let mut values = line::read(statements.table, row, self.is_earlier)
            .map_err(|fault| lines.fault(&fault.pointer, fault.detail))?;
        match statements.table.key {
            Key::Itself => self.is_own(lines, &values)?,
            Key::Accounts => {
                if self.has_account(lines, &values).await? {
                    return Ok(());
                }
            }
            _ => {
                if table == "entry" {
                    self.put_off(lines, &mut values);
                }
                values.insert(0, self.organization.into());
            }
        }
        let put = self.tx.cx().execute(statements.insert, &values).await;
        put.map(|_| ()).map_err(|error| refused(lines, table, error))
    }

    fn is_own(&self, lines: &Lines<'_>, values: &[Val]) -> Result<(), Refused> {
        match values.first() {
            Some(Val::Id(Some(id))) if *id == self.organization.0 => Ok(()),
            _ => Err(lines.fault("/row/id", "it is not the organization that the head names".to_owned())),
        }
    }

    /// Whether the person has an account here already: the same id under the same address. It stays as it is.
    async fn has_account(&mut self, lines: &Lines<'_>, values: &[Val]) -> Result<bool, Refused> {
        let (Some(Val::Id(Some(id))), Some(Val::Text(Some(email)))) = (values.first(), values.get(1)) else {
            return Err(lines.fault("/row", "an account has an id and an address".to_owned()));
        };
        let there: Vec<(Uuid, String, Option<String>)> =
            self.tx.cx().fetch_all(ACCOUNT_THERE, args![*id, email]).await?;
        match there.as_slice() {
            [] => Ok(false),
            [(same, address, _)] if same == id && address == email => Ok(true),
            [(other, ..), ..] if other != id => {
                let detail = format!(
                    "{email} has an account on this server under another id, {other}, and ids cannot change: the trail is made of them"
                );
                Err(lines.fault("/row/email", detail))
            }
            _ => Err(lines.fault("/row/id", "this id is another person's account on this server".to_owned())),
        }
    }

    /// An entry may stand before the one that it corrects.
    fn put_off(&mut self, lines: &Lines<'_>, values: &mut [Val]) {
        let id = match values.first() {
            Some(Val::Id(Some(id))) => *id,
            _ => return,
        };
        if let Some(Val::Id(corrects)) = values.last_mut()
            && let Some(corrected) = corrects.take()
        {
            self.corrections.push((lines.number, id, corrected));
        }
    }

    async fn correct(&mut self) -> Result<(), Refused> {
        for (line, id, corrected) in std::mem::take(&mut self.corrections) {
            let set = self.tx.cx().execute(SET_CORRECTS, args![self.organization, id, corrected]).await;
            set.map_err(|error| match constraint(&error) {
                Some(_) => Refused::Line {
                    line,
                    pointer: "/row/corrects".to_owned(),
                    detail: "it corrects an entry that is not in the file".to_owned(),
                },
                None => error.into(),
            })?;
        }
        Ok(())
    }

    async fn links(&mut self, clock: &Clock) -> Result<Vec<(String, String)>, Refused> {
        let people: Vec<(Uuid, String)> = self.tx.cx().fetch_all(NEWCOMERS, args![self.organization]).await?;
        let mut links = Vec::new();
        for (account, email) in people {
            let code = link::add(&mut self.tx.cx(), clock, Purpose::SetPassword(AccountId(account))).await?;
            links.push((email, code));
        }
        Ok(links)
    }
}

fn constraint(error: &sqlx::Error) -> Option<ErrorKind> {
    let kind = error.as_database_error()?.kind();
    if matches!(kind, ErrorKind::Other) { None } else { Some(kind) }
}

/// A row that the database does not take.
fn refused(lines: &Lines<'_>, table: &str, error: sqlx::Error) -> Refused {
    let detail = match constraint(&error) {
        Some(ErrorKind::UniqueViolation) => format!("this row of {table} is there twice"),
        Some(ErrorKind::ForeignKeyViolation) => {
            format!("this row of {table} refers to something that is not in the file before it")
        }
        Some(_) => format!("this row of {table} holds a word or a number that the table does not take"),
        None => return error.into(),
    };
    lines.fault("/row", detail)
}
