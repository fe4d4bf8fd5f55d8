//! Entries that were not taken in: kept with what was sent and why, shown to their sender and to the office, until
//! somebody mends or drops them. A record that is stored under the same id, or as the mended form of one, ends its wait in
//! the same transaction (`db/work.rs`).

use super::entry::Entry;
pub use super::store::RefusedRow;
use super::store::{self, Whose};
use crate::access::{Actor, Permission, Role};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx};
use crate::web::door::Signed;
use crate::web::error::{Error, Problem};
use crate::web::input::Text;
use crate::web::input::Whole;
use crate::web::paging::{List, PageAsked};
use crate::{input, saying, texts};
use serde::{Deserialize, Serialize};
use serde_json::json;
use sowmark_core::texts::Language;
use sowmark_core::words::Words;
use std::collections::BTreeMap;
use uuid::Uuid;

input! {
    /// Which part of the refused entries.
    pub struct RefusedAsked {
        /// Also those that were mended or dropped; false unless told.
        pub ended: Option<bool>,
        /// At most this many, 50 unless told.
        pub limit: Option<Whole<1, 500>>,
        /// The cursor that the page before gave as `next`.
        pub after: Option<Uuid>,
    }
}

input! {
    /// Why a refused entry is dropped.
    pub struct DropDraft {
        pub reason: Option<Text<1000>>,
    }
}

fn whose(actor: &Actor) -> Whose {
    Whose { organization: actor.organization(), account: actor.account, all: actor.role == Role::Office }
}

/// Why an entry was refused, as it is kept: as programs read it, and in every language, as nobody knows yet who will mend
/// it.
#[derive(Serialize, Deserialize)]
pub(super) struct Why {
    #[serde(flatten)]
    problem: Problem,
    /// By the tags of the languages.
    #[serde(default)]
    said: BTreeMap<String, Problem>,
}

impl Why {
    pub(super) fn of(error: &Error) -> Self {
        let said = texts::languages().map(|language| {
            let words = Words { language, ..Words::default() };
            (language.tag().to_owned(), error.problem_in(words))
        });
        Self { problem: error.problem(), said: said.collect() }
    }
}

/// Why an entry was refused, in a language, decimals with points.
///
/// # Errors
/// When it was not written by this program.
pub(super) fn why(row: &RefusedRow, language: Language) -> Result<Problem, Error> {
    let Why { problem, mut said } = serde_json::from_str(&row.problem)?;
    Ok(said.remove(language.tag()).unwrap_or(problem))
}

/// Keeps an entry that was refused. The same id again is the same row, which waits again.
///
/// # Errors
/// The database.
pub(super) async fn keep(signed: &Signed, entry: &Entry, error: &Error) -> Result<(), Error> {
    let grant = signed.grant(Permission::Send)?;
    let mut work = signed.app.work(&grant).await?;
    let sending = signed.actor.origin.sending.as_ref();
    store::keep(&mut work, entry, &serde_json::to_string(&Why::of(error))?, sending).await?;
    let problem = error.problem();
    let change =
        json!({ "kind": &entry.kind_word, "parent_id": entry.parent, "record": &entry.record, "problem": problem });
    let kind = entry.kind.map_or(Kind::Entry, super::kind::Logged::kind);
    work.commit(Audit::did("refused", kind, entry.id, change)).await?;
    Ok(())
}

/// A refused entry of one's own; of anybody's for the office.
///
/// # Errors
/// 404 when there is none.
pub async fn find_refused(cx: &mut Cx<'_>, actor: &Actor, id: Uuid) -> Result<RefusedRow, Error> {
    let Whose { organization, account, all } = whose(actor);
    let found = store::find(cx, organization, id).await?;
    found.filter(|row| all || row.sent_by == account.0).ok_or_else(|| Error::not_there("refused entry"))
}

/// A page of the refused entries that somebody sees.
///
/// # Errors
/// The database.
pub async fn page_of_refused(
    cx: &mut Cx<'_>,
    actor: &Actor,
    asked: &PageAsked,
    ended_too: bool,
) -> Result<List<RefusedRow>, Error> {
    let rows = store::page(cx, whose(actor), ended_too, asked.after(), asked.fetch()).await?;
    Ok(asked.page(rows, |row| row.id))
}

/// How many wait that somebody sees.
///
/// # Errors
/// The database.
pub async fn waiting(cx: &mut Cx<'_>, actor: &Actor) -> Result<i64, Error> {
    Ok(store::waiting(cx, whose(actor)).await?)
}

/// Drops a refused entry: it stays kept, and waits no longer. Dropped again, nothing changes.
///
/// # Errors
/// 404 when there is none; 409 when it was mended.
pub async fn drop_refused(signed: &Signed, id: Uuid, draft: &DropDraft) -> Result<(), Error> {
    let grant = signed.grant(Permission::Send)?;
    let row = find_refused(&mut signed.app.read().await?.cx(), &signed.actor, id).await?;
    let reason = draft.reason.as_ref().map(|reason| reason.0.as_str()).filter(|reason| !reason.is_empty());
    let mut work = signed.app.work(&grant).await?;
    if store::drop_it(&mut work, id, reason).await? {
        let kind = super::kind::Logged::from_word(&row.kind).map_or(Kind::Entry, super::kind::Logged::kind);
        work.commit(Audit::did("dropped", kind, id, json!({ "reason": reason }))).await?;
        return Ok(());
    }
    drop(work);
    match find_refused(&mut signed.app.read().await?.cx(), &signed.actor, id).await?.ended.as_deref() {
        Some("dropped") => Ok(()),
        _ => Err(Error::conflict(saying!("refused-already-mended"))),
    }
}
