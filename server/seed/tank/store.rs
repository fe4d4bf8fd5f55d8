//! Fills and emptyings in the database.

use super::act::{EmptyingDraft, FillDraft};
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::records::head::Head;
use crate::{args, queries};
use sowmark_core::ids::{LotId, MeteringUnitId, RecordId};
use sowmark_core::quantity::Mass;
use uuid::Uuid;

queries! {
    ADD_FILL = "insert into fill (organization_id, id, metering_unit_id, lot_id, mass, mass_kg) values ($1, $2, $3, $4, $5, $6)";
    ADD_EMPTYING = "insert into emptying (organization_id, id, metering_unit_id, lot_id, mass, mass_kg, to_empty)
        values ($1, $2, $3, $4, $5, $6, $7)";
    FIND_FILL = "select r.*, f.metering_unit_id, u.label as unit, u.seeder_id, s.name as seeder, f.lot_id, f.mass
        from fill f join recorded r on r.organization_id = f.organization_id and r.id = f.id
        join metering_unit u on u.organization_id = f.organization_id and u.id = f.metering_unit_id
        join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        where f.organization_id = $1 and f.id = $2";
    FIND_EMPTYING = "select r.*, f.metering_unit_id, u.label as unit, u.seeder_id, s.name as seeder, f.lot_id, f.mass, f.to_empty
        from emptying f join recorded r on r.organization_id = f.organization_id and r.id = f.id
        join metering_unit u on u.organization_id = f.organization_id and u.id = f.metering_unit_id
        join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        where f.organization_id = $1 and f.id = $2";
    PAGE_OF_FILLS = "select r.*, f.metering_unit_id, u.label as unit, u.seeder_id, s.name as seeder, f.lot_id, f.mass
        from fill f join recorded r on r.organization_id = f.organization_id and r.id = f.id
        join metering_unit u on u.organization_id = f.organization_id and u.id = f.metering_unit_id
        join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        where f.organization_id = $1 and f.metering_unit_id = $2 and f.id > $3 order by f.id limit $4";
    PAGE_OF_EMPTYINGS = "select r.*, f.metering_unit_id, u.label as unit, u.seeder_id, s.name as seeder, f.lot_id, f.mass, f.to_empty
        from emptying f join recorded r on r.organization_id = f.organization_id and r.id = f.id
        join metering_unit u on u.organization_id = f.organization_id and u.id = f.metering_unit_id
        join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        where f.organization_id = $1 and f.metering_unit_id = $2 and f.id > $3 order by f.id limit $4";
    FILLS_FROM = "select r.*, f.metering_unit_id, u.label as unit, u.seeder_id, s.name as seeder, f.lot_id, f.mass
        from fill f join recorded r on r.organization_id = f.organization_id and r.id = f.id
        join metering_unit u on u.organization_id = f.organization_id and u.id = f.metering_unit_id
        join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        where f.organization_id = $1 and f.lot_id = $2 order by r.occurred_at desc, r.recorded_at desc, r.id desc";
    EMPTYINGS_OF = "select r.*, f.metering_unit_id, u.label as unit, u.seeder_id, s.name as seeder, f.lot_id, f.mass, f.to_empty
        from emptying f join recorded r on r.organization_id = f.organization_id and r.id = f.id
        join metering_unit u on u.organization_id = f.organization_id and u.id = f.metering_unit_id
        join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        where f.organization_id = $1 and f.lot_id = $2 order by r.occurred_at desc, r.recorded_at desc, r.id desc";
    LOT_LAST_IN = "select t.lot_id, t.emptied from (
            select id, lot_id, false as emptied from fill where organization_id = $1 and metering_unit_id = $2
            union all select id, lot_id, false from job where organization_id = $1 and metering_unit_id = $2
            union all select id, lot_id, false from calibration where organization_id = $1 and metering_unit_id = $2
            union all select id, lot_id, true from emptying
                where organization_id = $1 and metering_unit_id = $2 and to_empty = true) t
        join standing r on r.organization_id = $1 and r.id = t.id
        order by r.occurred_at desc, r.recorded_at desc, r.id desc limit 1";
}

/// A fill, with the names of its unit and seeder.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct FillRow {
    #[sqlx(flatten)]
    pub head: Head,
    pub metering_unit_id: Uuid,
    pub unit: String,
    pub seeder_id: Uuid,
    pub seeder: String,
    pub lot_id: Uuid,
    /// As entered; none: not weighed.
    pub mass: Option<String>,
}

/// An emptying, with the names of its unit and seeder.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct EmptyingRow {
    #[sqlx(flatten)]
    pub head: Head,
    pub metering_unit_id: Uuid,
    pub unit: String,
    pub seeder_id: Uuid,
    pub seeder: String,
    pub lot_id: Uuid,
    /// As entered; none: not weighed.
    pub mass: Option<String>,
    pub to_empty: bool,
}

/// The lot that was last known in a tank.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct LastIn {
    pub lot_id: Uuid,
    /// Whether the tank was emptied of it.
    pub emptied: bool,
}

pub(super) async fn add_fill(work: &mut Work, id: RecordId, unit: MeteringUnitId, draft: &FillDraft) -> Result<()> {
    let organization = work.organization();
    let mass = draft.mass.as_ref();
    let values = args![organization, id, unit, draft.lot_id, mass.map(Mass::entered), mass.map(Mass::si)];
    work.cx().execute(ADD_FILL, values).await?;
    Ok(())
}

pub(super) async fn add_emptying(
    work: &mut Work,
    id: RecordId,
    unit: MeteringUnitId,
    draft: &EmptyingDraft,
) -> Result<()> {
    let organization = work.organization();
    let mass = draft.mass.as_ref();
    let values =
        args![organization, id, unit, draft.lot_id, mass.map(Mass::entered), mass.map(Mass::si), draft.is_to_empty()];
    work.cx().execute(ADD_EMPTYING, values).await?;
    Ok(())
}

pub(super) async fn find_fill(cx: &mut Cx<'_>, scope: &Scope, id: RecordId) -> Result<Option<FillRow>> {
    cx.fetch_optional(FIND_FILL, args![scope.organization, id]).await
}

pub(super) async fn find_emptying(cx: &mut Cx<'_>, scope: &Scope, id: RecordId) -> Result<Option<EmptyingRow>> {
    cx.fetch_optional(FIND_EMPTYING, args![scope.organization, id]).await
}

pub(super) async fn page_of_fills(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    after: Uuid,
    limit: i64,
) -> Result<Vec<FillRow>> {
    cx.fetch_all(PAGE_OF_FILLS, args![scope.organization, unit, after, limit]).await
}

pub(super) async fn page_of_emptyings(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    after: Uuid,
    limit: i64,
) -> Result<Vec<EmptyingRow>> {
    cx.fetch_all(PAGE_OF_EMPTYINGS, args![scope.organization, unit, after, limit]).await
}

pub(super) async fn fills_from(cx: &mut Cx<'_>, scope: &Scope, lot: LotId) -> Result<Vec<FillRow>> {
    cx.fetch_all(FILLS_FROM, args![scope.organization, lot]).await
}

pub(super) async fn emptyings_of(cx: &mut Cx<'_>, scope: &Scope, lot: LotId) -> Result<Vec<EmptyingRow>> {
    cx.fetch_all(EMPTYINGS_OF, args![scope.organization, lot]).await
}

pub(super) async fn lot_last_in(cx: &mut Cx<'_>, scope: &Scope, unit: MeteringUnitId) -> Result<Option<LastIn>> {
    cx.fetch_optional(LOT_LAST_IN, args![scope.organization, unit]).await
}
