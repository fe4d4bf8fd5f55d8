//! What usage reads beside the features' own acts: the flows of tanks, and what was found to germinate.

use crate::access::Scope;
use crate::db::{Cx, Result};
use crate::{args, queries};
use sowmark_core::ids::MeteringUnitId;
use uuid::Uuid;

queries! {
    TANKS = "select f.metering_unit_id, f.lot_id, 'filled' as flow, f.mass_kg as kg, false as to_empty, null as basis,
            s.id, s.occurred_at, s.recorded_at
        from fill f join standing s on s.organization_id = f.organization_id and s.id = f.id
        where f.organization_id = $1 and f.metering_unit_id between $2 and $3
        union all select y.metering_unit_id, y.lot_id, 'emptied', y.mass_kg, y.to_empty, null,
            s.id, s.occurred_at, s.recorded_at
        from emptying y join standing s on s.organization_id = y.organization_id and s.id = y.id
        where y.organization_id = $1 and y.metering_unit_id between $2 and $3
        union all select j.metering_unit_id, j.lot_id, 'sown', j.seed_used_kg, false, j.seed_used_basis,
            s.id, s.occurred_at, s.recorded_at
        from job j join standing s on s.organization_id = j.organization_id and s.id = j.id
        where j.organization_id = $1 and j.metering_unit_id between $2 and $3";
    GERMINATION = "select t.lot_id, t.germination_percent, s.occurred_at from lot_test t
        join standing s on s.organization_id = t.organization_id and s.id = t.id
        where t.organization_id = $1 and t.germination_percent is not null order by s.occurred_at, s.recorded_at, s.id";
    CREW_SEEDERS = "select seeder_id from crew_seeder where organization_id = $1 and crew_id = $2";
    CREWS = "select id, name from crew where organization_id = $1 order by name, id";
}

/// Something that changed the seed in a tank.
#[derive(Clone, Debug, sqlx::FromRow)]
pub(super) struct TankRow {
    pub(super) metering_unit_id: Uuid,
    pub(super) lot_id: Uuid,
    /// `filled`, `emptied` or `sown`.
    pub(super) flow: String,
    pub(super) kg: Option<f64>,
    pub(super) to_empty: bool,
    /// How what was sown is known.
    pub(super) basis: Option<String>,
    pub(super) id: Uuid,
    pub(super) occurred_at: i64,
    pub(super) recorded_at: i64,
}

/// What a test found to germinate.
#[derive(Clone, Debug, sqlx::FromRow)]
pub(super) struct GerminationRow {
    pub(super) lot_id: Uuid,
    pub(super) germination_percent: String,
    pub(super) occurred_at: i64,
}

/// Those of one unit, or of all.
pub(super) async fn tanks(cx: &mut Cx<'_>, scope: &Scope, only: Option<MeteringUnitId>) -> Result<Vec<TankRow>> {
    let (first, last) = only.map_or((Uuid::nil(), Uuid::max()), |unit| (unit.0, unit.0));
    cx.fetch_all(TANKS, args![scope.organization, first, last]).await
}

pub(super) async fn germination(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<GerminationRow>> {
    cx.fetch_all(GERMINATION, args![scope.organization]).await
}

pub(super) async fn crew_seeders(cx: &mut Cx<'_>, scope: &Scope, crew: Uuid) -> Result<Vec<Uuid>> {
    let rows: Vec<(Uuid,)> = cx.fetch_all(CREW_SEEDERS, args![scope.organization, crew]).await?;
    Ok(rows.into_iter().map(|(seeder,)| seeder).collect())
}

pub(super) async fn crews(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<(Uuid, String)>> {
    cx.fetch_all(CREWS, args![scope.organization]).await
}
