//! Laying a seeder up, and taking it back into use.

use super::store;
pub use super::store::LayUpRow;
use crate::access::{Permission, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::fleet::seeder::act::find_seeder;
use crate::input;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::Note;
use crate::web::paging::{List, PageAsked};
use jiff::Timestamp;
use serde_json::Value;
use sowmark_core::ids::SeederId;
use uuid::Uuid;

input! {
    /// A seeder is laid up, or taken back into use, from a moment on.
    pub record struct LayUpDraft {
        /// True: laid up; false: back in use.
        pub laid_up: bool,
        pub note: Option<Note>,
    }
}

/// Records that a seeder is laid up or taken back into use.
///
/// # Errors
/// 403 by role; 404 without the seeder; 409 for a taken id.
pub async fn add_lay_up(signed: &Signed, seeder: SeederId, draft: LayUpDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.actor.grant_on(Permission::KeepFleet, seeder)?;
    find_seeder(&mut signed.app.read().await?.cx(), &signed.actor.scope, seeder).await?;
    let new = NewEntry {
        id: draft.id,
        kind: Kind::LayUp,
        parent: Some(seeder.0),
        happened: Some(draft.occurred_at),
        corrects: draft.corrects,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, id, seeder, &draft).await?;
    work.commit(Audit::created(Kind::LayUp, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// A lay-up record of a seeder within the scope.
///
/// # Errors
/// 404 when there is none.
pub async fn find_lay_up(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<LayUpRow, Error> {
    let found = store::find(cx, scope, id).await?;
    found.filter(|row| scope.seeders.includes(&SeederId(row.seeder_id))).ok_or_else(|| Error::not_there("lay-up"))
}

/// A page of the lay-ups of a seeder.
///
/// # Errors
/// 404 without the seeder.
pub async fn page_of_lay_ups(
    cx: &mut Cx<'_>,
    scope: &Scope,
    seeder: SeederId,
    asked: &PageAsked,
) -> Result<List<LayUpRow>, Error> {
    find_seeder(cx, scope, seeder).await?;
    let rows = store::page(cx, scope, seeder, asked.after(), asked.fetch()).await?;
    Ok(asked.page(rows, |row| row.head.id))
}

/// The latest record of laying up or taking back into use at a moment; none when there was none.
///
/// # Errors
/// The database.
pub async fn in_force(
    cx: &mut Cx<'_>,
    scope: &Scope,
    seeder: SeederId,
    at: Timestamp,
) -> Result<Option<LayUpRow>, Error> {
    Ok(store::in_force(cx, scope, seeder, at).await?)
}
