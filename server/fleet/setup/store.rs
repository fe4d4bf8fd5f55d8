//! Setups in the database.

use super::act::SetupDraft;
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::records::free_text::FreeText;
use crate::records::head::Head;
use crate::{args, queries};
use jiff::Timestamp;
use sowmark_core::ids::MeteringUnitId;
use uuid::Uuid;

queries! {
    ADD = "insert into setup (organization_id, id, metering_unit_id, roller_id, drive_ratio, gate, runs, note)
        values ($1, $2, $3, $4, $5, $6, $7, $8)";
    FIND = "select r.*, s.metering_unit_id, s.roller_id, o.label as roller, s.drive_ratio, s.gate, s.runs, s.note
        from setup s join recorded r on r.organization_id = s.organization_id and r.id = s.id
        join roller o on o.organization_id = s.organization_id and o.id = s.roller_id
        where s.organization_id = $1 and s.id = $2";
    PAGE = "select r.*, s.metering_unit_id, s.roller_id, o.label as roller, s.drive_ratio, s.gate, s.runs, s.note
        from setup s join recorded r on r.organization_id = s.organization_id and r.id = s.id
        join roller o on o.organization_id = s.organization_id and o.id = s.roller_id
        where s.organization_id = $1 and s.metering_unit_id = $2 and s.id > $3 order by s.id limit $4";
    IN_FORCE = "select r.*, s.metering_unit_id, s.roller_id, o.label as roller, s.drive_ratio, s.gate, s.runs, s.note
        from setup s join recorded r on r.organization_id = s.organization_id and r.id = s.id
        join roller o on o.organization_id = s.organization_id and o.id = s.roller_id
        where s.organization_id = $1 and s.metering_unit_id = $2 and r.occurred_at <= $3
          and r.void_reason is null and r.replaced_by is null
        order by r.occurred_at desc, r.recorded_at desc, r.id desc limit 1";
}

/// A setup record, with its roller's label.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct SetupRow {
    #[sqlx(flatten)]
    pub head: Head,
    pub metering_unit_id: Uuid,
    pub roller_id: Uuid,
    pub roller: String,
    /// As entered.
    pub drive_ratio: String,
    pub gate: Option<String>,
    pub runs: i64,
    pub note: FreeText,
}

pub(super) async fn add(work: &mut Work, id: Uuid, unit: MeteringUnitId, draft: &SetupDraft) -> Result<()> {
    let organization = work.organization();
    let gate = draft.gate.as_ref().map(|gate| gate.0.as_str());
    let note = draft.note.as_ref().map_or("", |note| note.0.as_str());
    let ratio = draft.drive_ratio.as_str();
    let values = args![organization, id, unit, draft.roller_id, ratio, gate, draft.runs.0, note];
    work.cx().execute(ADD, values).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<Option<SetupRow>> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await
}

pub(super) async fn page(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    after: Uuid,
    limit: i64,
) -> Result<Vec<SetupRow>> {
    cx.fetch_all(PAGE, args![scope.organization, unit, after, limit]).await
}

pub(super) async fn in_force(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    at: Timestamp,
) -> Result<Option<SetupRow>> {
    cx.fetch_optional(IN_FORCE, args![scope.organization, unit, at]).await
}
