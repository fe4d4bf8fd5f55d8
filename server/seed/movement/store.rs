//! Movements in the database.

use super::act::MovementDraft;
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::records::head::Head;
use crate::{args, queries};
use sowmark_core::ids::{LotId, RecordId};
use uuid::Uuid;

queries! {
    ADD = "insert into movement (organization_id, id, lot_id, kind, mass, mass_kg, note) values ($1, $2, $3, $4, $5, $6, $7)";
    // The view has the kind of the record, the table that of the movement.
    FIND = "select r.*, m.lot_id, m.kind as moved, m.mass, m.note
        from movement m join recorded r on r.organization_id = m.organization_id and r.id = m.id
        where m.organization_id = $1 and m.id = $2";
    PAGE = "select r.*, m.lot_id, m.kind as moved, m.mass, m.note
        from movement m join recorded r on r.organization_id = m.organization_id and r.id = m.id
        where m.organization_id = $1 and m.lot_id = $2 and m.id > $3 order by m.id limit $4";
    LIST = "select r.*, m.lot_id, m.kind as moved, m.mass, m.note
        from movement m join recorded r on r.organization_id = m.organization_id and r.id = m.id
        where m.organization_id = $1 and m.lot_id = $2
        order by r.occurred_at desc, r.recorded_at desc, r.id desc";
}

/// A movement.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct MovementRow {
    #[sqlx(flatten)]
    pub head: Head,
    pub lot_id: Uuid,
    /// Its kind of movement.
    pub moved: String,
    /// As entered.
    pub mass: String,
    pub note: String,
}

pub(super) async fn add(work: &mut Work, id: RecordId, lot: LotId, draft: &MovementDraft) -> Result<()> {
    let organization = work.organization();
    let note = draft.note.as_ref().map_or("", |note| note.0.as_str());
    let values = args![organization, id, lot, draft.kind.word(), draft.mass.entered(), draft.mass.si(), note];
    work.cx().execute(ADD, values).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: RecordId) -> Result<Option<MovementRow>> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await
}

pub(super) async fn page(
    cx: &mut Cx<'_>,
    scope: &Scope,
    lot: LotId,
    after: Uuid,
    limit: i64,
) -> Result<Vec<MovementRow>> {
    cx.fetch_all(PAGE, args![scope.organization, lot, after, limit]).await
}

pub(super) async fn list(cx: &mut Cx<'_>, scope: &Scope, lot: LotId) -> Result<Vec<MovementRow>> {
    cx.fetch_all(LIST, args![scope.organization, lot]).await
}
