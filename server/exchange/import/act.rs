//! What is done with files: take one in, check each entry by doing its act and undoing it, store the good ones by the same
//! act. How far that is stands in the database, so that a restart loses nothing: whoever looks at the page next goes on
//! with it. That two servers might do the same entry is harmless, since an entry's id follows from its content.

use super::entry::{self, Entry, RowFault};
use super::kind::Imported;
use super::names::Names;
use super::sheet::File;
use super::store::{self, EntryRow, ImportRow};
use super::there::There;
use crate::access::{Origin, Permission};
use crate::calibration;
use crate::db::Outcome;
use crate::fleet::seeder;
use crate::saying;
use crate::seed::{field, job, lot};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input;
use crate::web::saying::Saying;
use jiff::ToSpan;
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::say;
use sowmark_core::words::Words;
use std::collections::HashMap;
use std::sync::Arc;
use uuid::Uuid;

/// How many entries are done between two notes of how far it is.
const STEP: usize = 25;

/// After how long without a note nobody is at work any more, in seconds.
const GIVEN_UP: i64 = 20;

/// Keeps a file that can be read, and begins to check it.
///
/// # Errors
/// 403 by role; 422 for a file that cannot be read as its kind.
pub async fn begin(signed: &Signed, kind: Imported, file_name: &str, content: &str) -> Result<Uuid, Error> {
    signed.grant(Permission::KeepFleet)?;
    let file = File::read(kind, content).map_err(|says| Error::fault("/file", says))?;
    let entries = i64::try_from(entry::parted(kind, &file).len()).unwrap_or(i64::MAX);
    let (id, now) = (signed.app.clock.new_id()?, signed.app.clock.now());
    let sent_by = signed.actor.account;
    let new = store::NewImport { id, kind: kind.word(), file_name, content, sent_by, entries };
    let mut tx = signed.app.db.begin().await?;
    store::add(&mut tx.cx(), signed.actor.organization(), &new, now).await?;
    tx.commit().await?;
    set_to_work(signed, id);
    Ok(id)
}

/// A file.
///
/// # Errors
/// 404 when there is none.
pub async fn find(signed: &Signed, id: Uuid) -> Result<ImportRow, Error> {
    let found = store::find(&mut signed.app.read().await?.cx(), &signed.actor.scope, id).await?;
    found.ok_or_else(|| Error::not_there("file"))
}

/// The files sent last.
///
/// # Errors
/// The database.
pub async fn recent(signed: &Signed) -> Result<Vec<ImportRow>, Error> {
    Ok(store::recent(&mut signed.app.read().await?.cx(), &signed.actor.scope).await?)
}

/// Begins to store what was checked and is good.
///
/// # Errors
/// 403 by role; 404; 409 when it is not checked, or dropped.
pub async fn store_good(signed: &Signed, id: Uuid) -> Result<(), Error> {
    turn(signed, id, "storing").await?;
    set_to_work(signed, id);
    Ok(())
}

/// Stores nothing of a file, and forgets it.
///
/// # Errors
/// As [`store_good`].
pub async fn drop_it(signed: &Signed, id: Uuid) -> Result<(), Error> {
    turn(signed, id, "dropped").await
}

async fn turn(signed: &Signed, id: Uuid, to: &str) -> Result<(), Error> {
    signed.grant(Permission::KeepFleet)?;
    let row = find(signed, id).await?;
    if row.stage == to || to == "storing" && row.stage == "stored" {
        return Ok(());
    }
    let (organization, now) = (signed.actor.organization(), signed.app.clock.now());
    let mut tx = signed.app.db.begin().await?;
    let turned = store::turn(&mut tx.cx(), organization, id, ("checked", to), now).await?;
    tx.commit().await?;
    if turned { Ok(()) } else { Err(Error::conflict(saying!("import-not-checked"))) }
}

/// Goes on with a file at which nobody works any more.
///
/// # Errors
/// The database.
pub async fn go_on(signed: &Signed, row: &ImportRow) -> Result<(), Error> {
    let now = signed.app.clock.now();
    let is_under_way = matches!(row.stage.as_str(), "checking" | "storing");
    let is_given_up = row.worked_at < (now - GIVEN_UP.seconds()).as_microsecond();
    if !is_under_way || !is_given_up {
        return Ok(());
    }
    let mut tx = signed.app.db.begin().await?;
    let ours = store::claim(&mut tx.cx(), signed.actor.organization(), row, now).await?;
    tx.commit().await?;
    if ours {
        set_to_work(signed, row.id);
    }
    Ok(())
}

fn set_to_work(signed: &Signed, id: Uuid) {
    let signed = signed.clone();
    tokio::spawn(async move {
        // What fails is told in the log; the page goes on with it.
        if let Err(error) = work(&signed, id).await {
            error.log();
        }
    });
}

/// Does what is left to do of a stage.
async fn work(signed: &Signed, id: Uuid) -> Result<(), Error> {
    let row = find(signed, id).await?;
    let (is_checking, organization) = (row.stage == "checking", signed.actor.organization());
    if !is_checking && row.stage != "storing" {
        return Ok(());
    }
    let kind = Imported::from_word(&row.kind).ok_or_else(|| Error::inconsistent("import.kind", &row.kind))?;
    let file = File::read(kind, &row.content).map_err(|_| Error::inconsistent("import.content", &row.file_name))?;
    let names = Names::of(signed).await?;
    let mut there = There::of(&mut signed.app.read().await?.cx(), &signed.actor, kind).await?;
    let actor = if is_checking { rehearsing(signed) } else { signed.clone() };
    let (mut seen, mut told) = (HashMap::new(), Vec::new());
    let parts = entry::parted(kind, &file);
    let count = parts.len();
    for (at, rows) in parts.into_iter().enumerate() {
        let mut entry = entry::read(kind, &file, rows, &names, &signed.actor.time_zone);
        entry.identify(organization, kind, &mut seen);
        let is_given_away =
            entry.own_id.is_some() && there.holds(&mut signed.app.read().await?.cx(), &signed.actor, &entry).await?;
        if !is_given_away && let Some(column) = there.meets(&entry) {
            entry.is_taken(column);
        }
        if i64::try_from(at).is_ok_and(|at| at < row.done) {
            continue;
        }
        told.push(outcome(&actor, kind, &entry, is_given_away, is_checking).await?);
        if told.len() == STEP || at + 1 == count {
            let stage = match (at + 1 == count, is_checking) {
                (false, _) => row.stage.as_str(),
                (true, true) => "checked",
                (true, false) => "stored",
            };
            let mut tx = signed.app.db.begin().await?;
            for entry in told.drain(..) {
                store::put(&mut tx.cx(), organization, id, &entry).await?;
            }
            let done = i64::try_from(at + 1).unwrap_or(i64::MAX);
            store::go_on(&mut tx.cx(), organization, id, (stage, done), signed.app.clock.now()).await?;
            tx.commit().await?;
        }
    }
    Ok(())
}

/// The same person, whose acts are undone at their end.
fn rehearsing(signed: &Signed) -> Signed {
    let mut signed = signed.clone();
    signed.actor.origin = Arc::new(Origin { is_rehearsal: true, ..Origin::default() });
    signed
}

/// What becomes of an entry.
async fn outcome(
    signed: &Signed,
    kind: Imported,
    entry: &Entry,
    is_given_away: bool,
    is_checking: bool,
) -> Result<EntryRow, Error> {
    let words = signed.actor.words();
    let (word, faults) = if entry.is_left_out {
        ("left_out", Vec::new())
    } else if is_given_away {
        ("already", Vec::new())
    } else {
        match done(signed, kind, entry).await? {
            Ok(Outcome::Stored(_)) if is_checking => ("good", Vec::new()),
            Ok(Outcome::Stored(_)) => ("stored", Vec::new()),
            Ok(Outcome::AlreadyStored(_)) => ("already", Vec::new()),
            Err(faults) => ("faulty", faults),
        }
    };
    let faults: Vec<String> = faults.iter().map(|fault| said(fault, words)).collect();
    Ok(EntryRow {
        row_number: entry.row,
        outcome: word.to_owned(),
        called: entry.called.clone(),
        faults: serde_json::to_string(&faults)?,
    })
}

fn said(fault: &RowFault, words: Words) -> String {
    let RowFault { row, column, given, says } = fault;
    let says = says.says(words);
    let row = row.to_string();
    match (column.is_empty(), given.is_empty()) {
        (true, _) => say!(words, "import-fault-row", row = row, says = says),
        (false, true) => say!(words, "import-fault-column", row = row, column = column, says = says),
        (false, false) => say!(words, "import-fault-cell", row = row, column = column, given = given, says = says),
    }
}

/// Does the act of an entry; what is wrong with it comes back beside its cells.
async fn done(signed: &Signed, kind: Imported, entry: &Entry) -> Result<Result<Outcome, Vec<RowFault>>, Error> {
    // One with a fault is never stored, whatever its act would say of the rest.
    let rehearsed;
    let signed = if entry.faults.is_empty() {
        signed
    } else {
        rehearsed = rehearsing(signed);
        &rehearsed
    };
    let sent = entry.tree.clone();
    let acted = match (kind, entry.unit) {
        (Imported::Seeders, _) => match input::read(&sent) {
            Ok(draft) => seeder::act::add_seeder(signed, draft, sent).await,
            Err(error) => Err(error),
        },
        (Imported::Lots, _) => match input::read(&sent) {
            Ok(draft) => lot::act::add_lot(signed, draft, sent).await,
            Err(error) => Err(error),
        },
        (Imported::Fields, _) => match input::read(&sent) {
            Ok(draft) => field::act::add_field(signed, draft, sent).await,
            Err(error) => Err(error),
        },
        (Imported::Jobs, unit) => match (input::read(&sent), unit) {
            (Ok(draft), Some(unit)) => job::act::record_job(signed, MeteringUnitId(unit), draft, sent).await,
            (Ok(_), None) => Err(Error::Faults(Vec::new())),
            (Err(error), _) => Err(error),
        },
        (Imported::Calibrations, Some(unit)) => {
            calibration::act::log_calibration(signed, MeteringUnitId(unit), sent).await
        }
        (Imported::Calibrations, None) => Err(Error::Faults(Vec::new())),
    };
    let error = match acted {
        Ok(outcome) if entry.faults.is_empty() => return Ok(Ok(outcome)),
        Ok(_) => return Ok(Err(entry.faults.clone())),
        Err(error @ (Error::Unavailable(_) | Error::Broken(_) | Error::TooMany { .. })) => return Err(error),
        Err(error) => error,
    };
    let mut faults = entry.faults.clone();
    // What could not be called by name is missing in the tree; that it is missing need not be said too.
    let is_told = |found: &RowFault| faults.iter().any(|told| (told.row, &told.column) == (found.row, &found.column));
    let more: Vec<RowFault> = error
        .faults()
        .iter()
        .map(|fault| {
            let own = fault.clone();
            entry.placed(kind, fault, Saying::from(move |words: Words| own.says(words)))
        })
        .filter(|found| found.column.is_empty() || !is_told(found))
        .collect();
    faults.extend(more);
    if faults.is_empty() {
        let row = entry.row;
        let says = Saying::from(move |words: Words| error.detail(words));
        faults.push(RowFault { row, column: String::new(), given: String::new(), says });
    }
    Ok(Err(faults))
}
