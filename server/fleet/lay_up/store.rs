//! Laying up and taking back into use, in the database.

use super::act::LayUpDraft;
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::records::free_text::FreeText;
use crate::records::head::Head;
use crate::{args, queries};
use jiff::Timestamp;
use sowmark_core::ids::SeederId;
use uuid::Uuid;

queries! {
    ADD = "insert into lay_up (organization_id, id, seeder_id, laid_up, note) values ($1, $2, $3, $4, $5)";
    FIND = "select r.*, l.seeder_id, l.laid_up, l.note
        from lay_up l join recorded r on r.organization_id = l.organization_id and r.id = l.id
        where l.organization_id = $1 and l.id = $2";
    PAGE = "select r.*, l.seeder_id, l.laid_up, l.note
        from lay_up l join recorded r on r.organization_id = l.organization_id and r.id = l.id
        where l.organization_id = $1 and l.seeder_id = $2 and l.id > $3 order by l.id limit $4";
    IN_FORCE = "select r.*, l.seeder_id, l.laid_up, l.note
        from lay_up l join recorded r on r.organization_id = l.organization_id and r.id = l.id
        where l.organization_id = $1 and l.seeder_id = $2 and r.occurred_at <= $3
          and r.void_reason is null and r.replaced_by is null
        order by r.occurred_at desc, r.recorded_at desc, r.id desc limit 1";
}

/// A record that a seeder was laid up or taken back into use.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct LayUpRow {
    #[sqlx(flatten)]
    pub head: Head,
    pub seeder_id: Uuid,
    pub laid_up: bool,
    pub note: FreeText,
}

pub(super) async fn add(work: &mut Work, id: Uuid, seeder: SeederId, draft: &LayUpDraft) -> Result<()> {
    let organization = work.organization();
    let note = draft.note.as_ref().map_or("", |note| note.0.as_str());
    work.cx().execute(ADD, args![organization, id, seeder, draft.laid_up, note]).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<Option<LayUpRow>> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await
}

pub(super) async fn page(
    cx: &mut Cx<'_>,
    scope: &Scope,
    seeder: SeederId,
    after: Uuid,
    limit: i64,
) -> Result<Vec<LayUpRow>> {
    cx.fetch_all(PAGE, args![scope.organization, seeder, after, limit]).await
}

pub(super) async fn in_force(
    cx: &mut Cx<'_>,
    scope: &Scope,
    seeder: SeederId,
    at: Timestamp,
) -> Result<Option<LayUpRow>> {
    cx.fetch_optional(IN_FORCE, args![scope.organization, seeder, at]).await
}
