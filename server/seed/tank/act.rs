//! What is done with tanks: filling and emptying them.

use super::store::{self, EmptyingRow, FillRow};
use crate::access::{Permission, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::fleet::seeder::act::find_unit;
use crate::seed::lot;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{Gathered, List, PageAsked};
use crate::{input, saying};
use serde_json::Value;
use sowmark_core::ids::{LotId, MeteringUnitId, RecordId};
use sowmark_core::quantity::Mass;

input! {
    /// Seed of one lot put into the tank of a metering unit.
    pub record struct FillDraft {
        pub lot_id: LotId,
        /// Null: not weighed.
        pub mass: Option<Mass>,
    }
}

input! {
    /// Seed of one lot taken out of the tank of a metering unit.
    pub record struct EmptyingDraft {
        pub lot_id: LotId,
        /// Null: not weighed.
        pub mass: Option<Mass>,
        /// Whether nothing is left in the tank; true unless told.
        pub to_empty: Option<bool>,
    }
}

impl EmptyingDraft {
    /// Whether nothing is left.
    #[must_use]
    pub fn is_to_empty(&self) -> bool {
        self.to_empty.unwrap_or(true)
    }
}

/// A mass that was weighed is more than nothing.
fn weighed(mass: Option<&Mass>) -> Result<(), Error> {
    match mass {
        Some(mass) if mass.is_zero() => Err(Error::fault("/mass", saying!("tank-mass-nothing"))),
        _ => Ok(()),
    }
}

/// Records a fill.
///
/// # Errors
/// 403 by role; 404 for a unit or lot outside the scope; 422 for a mass of nothing; 409 for a taken id.
pub async fn record_fill(
    signed: &Signed,
    unit: MeteringUnitId,
    draft: FillDraft,
    sent: Value,
) -> Result<Outcome, Error> {
    let mut conn = signed.app.read().await?;
    let found = find_unit(&mut conn.cx(), &signed.actor.scope, unit).await?;
    let grant = signed.actor.grant_on(Permission::Log, found.seeder_id())?;
    lot::act::named_lot(&mut conn.cx(), &signed.actor.scope, draft.lot_id).await?;
    drop(conn);
    weighed(draft.mass.as_ref())?;
    let new = NewEntry {
        id: draft.id,
        kind: Kind::Fill,
        parent: Some(unit.0),
        happened: Some(draft.occurred_at),
        corrects: draft.corrects,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add_fill(&mut work, RecordId(id), unit, &draft).await?;
    work.commit(Audit::created(Kind::Fill, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// Records an emptying.
///
/// # Errors
/// As [`record_fill`].
pub async fn record_emptying(
    signed: &Signed,
    unit: MeteringUnitId,
    draft: EmptyingDraft,
    sent: Value,
) -> Result<Outcome, Error> {
    let mut conn = signed.app.read().await?;
    let found = find_unit(&mut conn.cx(), &signed.actor.scope, unit).await?;
    let grant = signed.actor.grant_on(Permission::Log, found.seeder_id())?;
    lot::act::named_lot(&mut conn.cx(), &signed.actor.scope, draft.lot_id).await?;
    drop(conn);
    weighed(draft.mass.as_ref())?;
    let new = NewEntry {
        id: draft.id,
        kind: Kind::Emptying,
        parent: Some(unit.0),
        happened: Some(draft.occurred_at),
        corrects: draft.corrects,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add_emptying(&mut work, RecordId(id), unit, &draft).await?;
    work.commit(Audit::created(Kind::Emptying, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

fn may_see(scope: &Scope, seeder: uuid::Uuid, lot: uuid::Uuid) -> bool {
    scope.seeders.includes(&seeder.into()) && scope.lots.includes(&LotId(lot))
}

/// A fill.
///
/// # Errors
/// 404 when there is none within the scope.
pub async fn find_fill(cx: &mut Cx<'_>, scope: &Scope, id: RecordId) -> Result<FillRow, Error> {
    let found = store::find_fill(cx, scope, id).await?;
    found.filter(|row| may_see(scope, row.seeder_id, row.lot_id)).ok_or_else(|| Error::not_there("fill"))
}

/// An emptying.
///
/// # Errors
/// 404 when there is none within the scope.
pub async fn find_emptying(cx: &mut Cx<'_>, scope: &Scope, id: RecordId) -> Result<EmptyingRow, Error> {
    let found = store::find_emptying(cx, scope, id).await?;
    found.filter(|row| may_see(scope, row.seeder_id, row.lot_id)).ok_or_else(|| Error::not_there("emptying"))
}

/// A page of the fills of a metering unit.
///
/// # Errors
/// 404 for a unit outside the scope.
pub async fn page_of_fills(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    asked: &PageAsked,
) -> Result<List<FillRow>, Error> {
    find_unit(cx, scope, unit).await?;
    let mut gathered = Gathered::new(asked);
    while let Some((after, limit)) = gathered.wants() {
        let rows = store::page_of_fills(cx, scope, unit, after, limit).await?;
        gathered.add(rows, |row| row.head.id, |row| scope.lots.includes(&LotId(row.lot_id)));
    }
    Ok(gathered.page(|row| row.head.id))
}

/// A page of the emptyings of a metering unit.
///
/// # Errors
/// 404 for a unit outside the scope.
pub async fn page_of_emptyings(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    asked: &PageAsked,
) -> Result<List<EmptyingRow>, Error> {
    find_unit(cx, scope, unit).await?;
    let mut gathered = Gathered::new(asked);
    while let Some((after, limit)) = gathered.wants() {
        let rows = store::page_of_emptyings(cx, scope, unit, after, limit).await?;
        gathered.add(rows, |row| row.head.id, |row| scope.lots.includes(&LotId(row.lot_id)));
    }
    Ok(gathered.page(|row| row.head.id))
}

/// Every fill from a lot within the scope, newest first.
///
/// # Errors
/// The database.
pub async fn fills_from(cx: &mut Cx<'_>, scope: &Scope, lot: LotId) -> Result<Vec<FillRow>, Error> {
    let mut rows = store::fills_from(cx, scope, lot).await?;
    rows.retain(|row| may_see(scope, row.seeder_id, row.lot_id));
    Ok(rows)
}

/// Every emptying of a lot within the scope, newest first.
///
/// # Errors
/// The database.
pub async fn emptyings_of(cx: &mut Cx<'_>, scope: &Scope, lot: LotId) -> Result<Vec<EmptyingRow>, Error> {
    let mut rows = store::emptyings_of(cx, scope, lot).await?;
    rows.retain(|row| may_see(scope, row.seeder_id, row.lot_id));
    Ok(rows)
}

/// The lot that a form begins with: that of the unit's latest standing fill, job or calibration, unless an emptying to
/// empty came after. Only a suggestion for a form; what is in the tank at a moment is the readiness's to say.
///
/// # Errors
/// The database.
pub async fn lot_last_in(cx: &mut Cx<'_>, scope: &Scope, unit: MeteringUnitId) -> Result<Option<LotId>, Error> {
    let last = store::lot_last_in(cx, scope, unit).await?;
    Ok(last.filter(|last| !last.emptied).map(|last| LotId(last.lot_id)).filter(|lot| scope.lots.includes(lot)))
}
