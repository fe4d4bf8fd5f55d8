//! Jobs in the database.

use super::act::{JobDraft, SeedUsedBasis};
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::records::head::Head;
use crate::seed::unlikely::JobFigures;
use crate::{args, queries};
use sowmark_core::ids::{LotId, MeteringUnitId, RecordId};
use sowmark_core::quantity::Speed;
use uuid::Uuid;

queries! {
    ADD = "insert into job (organization_id, id, metering_unit_id, ended_at, field_id, field_name, lot_id, area, area_m2,
            seed_used, seed_used_kg, seed_used_basis, target_rate, speed, note)
        values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15)";
    FIND = "select r.*, j.metering_unit_id, u.label as unit, u.seeder_id, s.name as seeder, j.ended_at, j.field_id,
            j.field_name, f.name as kept_name, f.client_id as field_client_id, f.area as field_area, j.lot_id, j.area,
            j.seed_used, j.seed_used_basis, j.target_rate, j.speed, j.note
        from job j join recorded r on r.organization_id = j.organization_id and r.id = j.id
        join metering_unit u on u.organization_id = j.organization_id and u.id = j.metering_unit_id
        join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        left join field f on f.organization_id = j.organization_id and f.id = j.field_id
        where j.organization_id = $1 and j.id = $2";
    PAGE = "select r.*, j.metering_unit_id, u.label as unit, u.seeder_id, s.name as seeder, j.ended_at, j.field_id,
            j.field_name, f.name as kept_name, f.client_id as field_client_id, f.area as field_area, j.lot_id, j.area,
            j.seed_used, j.seed_used_basis, j.target_rate, j.speed, j.note
        from job j join recorded r on r.organization_id = j.organization_id and r.id = j.id
        join metering_unit u on u.organization_id = j.organization_id and u.id = j.metering_unit_id
        join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        left join field f on f.organization_id = j.organization_id and f.id = j.field_id
        where j.organization_id = $1 and j.metering_unit_id = $2 and j.id > $3 order by j.id limit $4";
    WITH_LOT = "select r.*, j.metering_unit_id, u.label as unit, u.seeder_id, s.name as seeder, j.ended_at, j.field_id,
            j.field_name, f.name as kept_name, f.client_id as field_client_id, f.area as field_area, j.lot_id, j.area,
            j.seed_used, j.seed_used_basis, j.target_rate, j.speed, j.note
        from job j join recorded r on r.organization_id = j.organization_id and r.id = j.id
        join metering_unit u on u.organization_id = j.organization_id and u.id = j.metering_unit_id
        join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        left join field f on f.organization_id = j.organization_id and f.id = j.field_id
        where j.organization_id = $1 and j.lot_id = $2 order by r.occurred_at desc, r.recorded_at desc, r.id desc";
    STANDING_BETWEEN = "select r.*, j.metering_unit_id, u.label as unit, u.seeder_id, s.name as seeder, j.ended_at, j.field_id,
            j.field_name, f.name as kept_name, f.client_id as field_client_id, f.area as field_area, j.lot_id, j.area,
            j.seed_used, j.seed_used_basis, j.target_rate, j.speed, j.note
        from job j join standing t on t.organization_id = j.organization_id and t.id = j.id
        join recorded r on r.organization_id = j.organization_id and r.id = j.id
        join metering_unit u on u.organization_id = j.organization_id and u.id = j.metering_unit_id
        join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        left join field f on f.organization_id = j.organization_id and f.id = j.field_id
        where j.organization_id = $1 and t.occurred_at >= $2 and t.occurred_at < $3
          and j.metering_unit_id between $4 and $5
        order by t.occurred_at, t.recorded_at, t.id";
    LAST_TARGET = "select j.target_rate from job j
        join standing r on r.organization_id = j.organization_id and r.id = j.id
        where j.organization_id = $1 and j.metering_unit_id = $2 and j.lot_id = $3
        order by r.occurred_at desc, r.recorded_at desc, r.id desc limit 1";
}

/// A job, with the names of its unit, seeder and field.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct JobRow {
    #[sqlx(flatten)]
    pub head: Head,
    pub metering_unit_id: Uuid,
    pub unit: String,
    pub seeder_id: Uuid,
    pub seeder: String,
    pub ended_at: Option<i64>,
    pub field_id: Option<Uuid>,
    /// As typed, where the field is not kept.
    pub field_name: Option<String>,
    /// The name of the field that is kept.
    pub kept_name: Option<String>,
    pub field_client_id: Option<Uuid>,
    /// The area of the field that is kept, as entered.
    pub field_area: Option<String>,
    pub lot_id: Uuid,
    /// Measured values as entered.
    pub area: String,
    pub seed_used: String,
    pub seed_used_basis: String,
    pub target_rate: String,
    pub speed: Option<String>,
    pub note: String,
}

impl JobRow {
    /// The field's name, kept or as typed.
    #[must_use]
    pub fn field(&self) -> &str {
        self.kept_name.as_deref().or(self.field_name.as_deref()).unwrap_or_default()
    }

    /// What of it may be far from what it should be near.
    #[must_use]
    pub fn figures(&self) -> JobFigures<'_> {
        JobFigures {
            area: &self.area,
            seed_used: &self.seed_used,
            target_rate: &self.target_rate,
            field_area: self.field_area.as_deref(),
            field_client: self.field_client_id,
        }
    }
}

pub(super) async fn add(work: &mut Work, id: RecordId, unit: MeteringUnitId, draft: &JobDraft) -> Result<()> {
    let organization = work.organization();
    let values = args![
        organization,
        id,
        unit,
        draft.ended_at.map(|ended| ended.at),
        draft.field_id,
        draft.field.as_ref().map(|name| &name.0),
        draft.lot_id,
        draft.area.entered(),
        draft.area.si(),
        draft.seed_used.entered(),
        draft.seed_used.si(),
        draft.seed_used_basis.unwrap_or(SeedUsedBasis::Weighed).word(),
        draft.target_rate.entered(),
        draft.speed.as_ref().map(Speed::entered),
        draft.note.as_ref().map_or("", |note| note.0.as_str())
    ];
    work.cx().execute(ADD, values).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: RecordId) -> Result<Option<JobRow>> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await
}

pub(super) async fn page(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    after: Uuid,
    limit: i64,
) -> Result<Vec<JobRow>> {
    cx.fetch_all(PAGE, args![scope.organization, unit, after, limit]).await
}

pub(super) async fn with_lot(cx: &mut Cx<'_>, scope: &Scope, lot: LotId) -> Result<Vec<JobRow>> {
    cx.fetch_all(WITH_LOT, args![scope.organization, lot]).await
}

/// Those of one unit, or of all.
pub(super) async fn standing_between(
    cx: &mut Cx<'_>,
    scope: &Scope,
    (from, to): (i64, i64),
    only: Option<MeteringUnitId>,
) -> Result<Vec<JobRow>> {
    let (first, last) = only.map_or((Uuid::nil(), Uuid::max()), |unit| (unit.0, unit.0));
    cx.fetch_all(STANDING_BETWEEN, args![scope.organization, from, to, first, last]).await
}

pub(super) async fn last_target(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    lot: LotId,
) -> Result<Option<String>> {
    let found: Option<(String,)> = cx.fetch_optional(LAST_TARGET, args![scope.organization, unit, lot]).await?;
    Ok(found.map(|(target,)| target))
}
