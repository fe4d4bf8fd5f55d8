//! What is done with movements.

use super::store::{self, MovementRow};
use crate::access::{Permission, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::seed::lot;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::Note;
use crate::web::paging::{List, PageAsked};
use crate::{input, saying, words};
use serde_json::Value;
use sowmark_core::ids::{LotId, RecordId};
use sowmark_core::quantity::Mass;
use sowmark_core::say;
use sowmark_core::words::Words;

words! {
    /// What happened to the stock.
    pub enum MovementKind {
        /// More of the lot came in.
        Received = "received",
        /// Seed came back to the store other than by an emptying.
        Returned = "returned",
        Sold = "sold",
        Discarded = "discarded",
        /// What was found when somebody counted: changes nothing, tells what is unaccounted for.
        Counted = "counted",
    }
}

impl MovementKind {
    /// For a person.
    #[must_use]
    pub fn says(self, words: Words) -> String {
        match self {
            Self::Received => say!(words, "movement-received"),
            Self::Returned => say!(words, "movement-returned"),
            Self::Sold => say!(words, "movement-sold"),
            Self::Discarded => say!(words, "movement-discarded"),
            Self::Counted => say!(words, "movement-counted"),
        }
    }
}

input! {
    /// A change of a lot's stock, or a count of it.
    pub record struct MovementDraft {
        pub kind: MovementKind,
        pub mass: Mass,
        pub note: Option<Note>,
    }
}

/// Records a movement of a lot.
///
/// # Errors
/// 403 by role; 404 for a lot outside the scope; 422 for a movement of nothing; 409 for a taken id.
pub async fn record_movement(signed: &Signed, lot: LotId, draft: MovementDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::KeepLots)?;
    let mut conn = signed.app.read().await?;
    lot::act::find_lot(&mut conn.cx(), &signed.actor.scope, lot).await?;
    drop(conn);
    if draft.mass.is_zero() && draft.kind != MovementKind::Counted {
        return Err(Error::fault("/mass", saying!("movement-of-nothing")));
    }
    let new = NewEntry {
        id: draft.id,
        kind: Kind::Movement,
        parent: Some(lot.0),
        happened: Some(draft.occurred_at),
        corrects: draft.corrects,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, RecordId(id), lot, &draft).await?;
    work.commit(Audit::created(Kind::Movement, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// A movement.
///
/// # Errors
/// 404 when there is none within the scope.
pub async fn find_movement(cx: &mut Cx<'_>, scope: &Scope, id: RecordId) -> Result<MovementRow, Error> {
    let found = store::find(cx, scope, id).await?;
    found.filter(|row| scope.lots.includes(&LotId(row.lot_id))).ok_or_else(|| Error::not_there("movement"))
}

/// A page of the movements of a lot.
///
/// # Errors
/// 404 for a lot outside the scope.
pub async fn page_of_movements(
    cx: &mut Cx<'_>,
    scope: &Scope,
    lot: LotId,
    asked: &PageAsked,
) -> Result<List<MovementRow>, Error> {
    lot::act::find_lot(cx, scope, lot).await?;
    let rows = store::page(cx, scope, lot, asked.after(), asked.fetch()).await?;
    Ok(asked.page(rows, |row| row.head.id))
}

/// Every movement of a lot, newest first.
///
/// # Errors
/// The database.
pub async fn movements(cx: &mut Cx<'_>, scope: &Scope, lot: LotId) -> Result<Vec<MovementRow>, Error> {
    Ok(store::list(cx, scope, lot).await?)
}
