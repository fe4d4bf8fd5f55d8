//! What is done with records of any kind: void one that was wrong.

use super::head::Head;
use super::store;
pub use super::store::{SubjectRow, VoidRow};
use crate::access::{Actor, Permission};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::Line;
use crate::{input, saying};
use serde_json::Value;
use sowmark_core::ids::{LotId, SeederId};
use uuid::Uuid;

input! {
    /// Why a record does not stand.
    pub entry struct VoidDraft {
        pub reason: Line<1000>,
    }
}

/// Voids a record: it stays readable, struck through, with the reason, and nothing is computed from it any more.
///
/// # Errors
/// 403 by role, and for crew when it is not their own of the same day; 404 when it is not there or not theirs to see;
/// 409 when it is void already.
pub async fn void_record(signed: &Signed, record: Uuid, draft: VoidDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::Void)?;
    let (kind, subject) = find_subject(&mut signed.app.read().await?.cx(), &signed.actor, record).await?;
    let new = NewEntry {
        id: draft.id,
        kind: Kind::Void,
        parent: Some(record),
        happened: None,
        corrects: None,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    work.may_amend(subject.recorded_at, subject.recorded_by)?;
    if !store::add_void(&mut work, id, record, &draft.reason.0).await? {
        return Err(Error::conflict(saying!("void-already", kind = kind.word())));
    }
    work.commit(Audit::did("voided", kind, record, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// A record of any kind that somebody may see, and what it hangs on.
///
/// # Errors
/// 404 when there is none, it is no append-only record, or not theirs to see.
pub async fn find_subject(cx: &mut Cx<'_>, actor: &Actor, record: Uuid) -> Result<(Kind, SubjectRow), Error> {
    let missing = || Error::not_there("record");
    let subject = store::subject(cx, actor.organization(), record).await?.ok_or_else(missing)?;
    let kind = Kind::from_word(&subject.kind).filter(|kind| kind.is_record()).ok_or_else(missing)?;
    if sees(actor, kind, &subject) { Ok((kind, subject)) } else { Err(missing()) }
}

fn sees(actor: &Actor, kind: Kind, subject: &SubjectRow) -> bool {
    let seeder = subject.seeder_id.is_none_or(|id| actor.scope.seeders.includes(&SeederId(id)));
    let lot = subject.lot_id.is_none_or(|id| actor.scope.lots.includes(&LotId(id)));
    let stock = kind != Kind::Movement || actor.may(Permission::ReadStock);
    seeder && lot && stock
}

/// The head of a record that was found.
///
/// # Errors
/// 404 when there is none.
pub async fn find_head(cx: &mut Cx<'_>, actor: &Actor, record: Uuid) -> Result<Head, Error> {
    store::head(cx, actor.organization(), record).await?.ok_or_else(|| Error::not_there("record"))
}

/// That a record was voided.
///
/// # Errors
/// 404 when there is none.
pub async fn find_void(cx: &mut Cx<'_>, actor: &Actor, id: Uuid) -> Result<VoidRow, Error> {
    store::find_void(cx, actor.organization(), id).await?.ok_or_else(|| Error::not_there("void"))
}
