//! Scales and their checks in the database.

use super::act::{CheckDraft, ScaleDraft};
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::records::head::Head;
use crate::{args, queries};
use sowmark_core::ids::ScaleId;
use uuid::Uuid;

queries! {
    ADD = "insert into scale (organization_id, id, name, readability, capacity) values ($1, $2, $3, $4, $5)";
    CHANGE = "update scale set name = $3, readability = $4, capacity = $5 where organization_id = $1 and id = $2";
    FIND = "select id, name, readability, capacity from scale where organization_id = $1 and id = $2";
    PAGE = "select id, name, readability, capacity from scale where organization_id = $1 and id > $2 order by id limit $3";
    LIST = "select id, name, readability, capacity from scale where organization_id = $1 order by name, id";
    ADD_CHECK = "insert into scale_check (organization_id, id, scale_id, reference, reading, reference_identity, certificate)
        values ($1, $2, $3, $4, $5, $6, $7)";
    FIND_CHECK = "select r.*, c.scale_id, c.reference, c.reading, c.reference_identity, c.certificate
        from scale_check c join recorded r on r.organization_id = c.organization_id and r.id = c.id
        where c.organization_id = $1 and c.id = $2";
    PAGE_OF_CHECKS = "select r.*, c.scale_id, c.reference, c.reading, c.reference_identity, c.certificate
        from scale_check c join recorded r on r.organization_id = c.organization_id and r.id = c.id
        where c.organization_id = $1 and c.scale_id = $2 and c.id > $3 order by c.id limit $4";
    LATEST_CHECKS = "select r.*, c.scale_id, c.reference, c.reading, c.reference_identity, c.certificate
        from scale_check c join recorded r on r.organization_id = c.organization_id and r.id = c.id
        where c.organization_id = $1 and c.scale_id = $2
        order by r.occurred_at desc, r.recorded_at desc, r.id desc limit $3";
    LAST_CHECK = "select r.*, c.scale_id, c.reference, c.reading, c.reference_identity, c.certificate
        from scale_check c join standing t on t.organization_id = c.organization_id and t.id = c.id
        join recorded r on r.organization_id = c.organization_id and r.id = c.id
        where c.organization_id = $1 and c.scale_id = $2 and t.occurred_at <= $3
        order by t.occurred_at desc, t.recorded_at desc, t.id desc limit 1";
}

/// A scale as it stands.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct ScaleRow {
    pub id: Uuid,
    pub name: String,
    /// As entered.
    pub readability: String,
    pub capacity: String,
}

/// A scale check record.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct CheckRow {
    #[sqlx(flatten)]
    pub head: Head,
    pub scale_id: Uuid,
    /// As entered.
    pub reference: String,
    pub reading: String,
    pub reference_identity: Option<String>,
    pub certificate: Option<String>,
}

pub(super) async fn add(work: &mut Work, id: ScaleId, draft: &ScaleDraft) -> Result<()> {
    let organization = work.organization();
    let values = args![organization, id, &draft.name.0, draft.readability.entered(), draft.capacity.entered()];
    work.cx().execute(ADD, values).await?;
    Ok(())
}

pub(super) async fn change(work: &mut Work, id: ScaleId, draft: &ScaleDraft) -> Result<()> {
    let organization = work.organization();
    let values = args![organization, id, &draft.name.0, draft.readability.entered(), draft.capacity.entered()];
    work.cx().execute(CHANGE, values).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: ScaleId) -> Result<Option<ScaleRow>> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await
}

pub(super) async fn page(cx: &mut Cx<'_>, scope: &Scope, after: Uuid, limit: i64) -> Result<Vec<ScaleRow>> {
    cx.fetch_all(PAGE, args![scope.organization, after, limit]).await
}

pub(super) async fn list(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<ScaleRow>> {
    cx.fetch_all(LIST, args![scope.organization]).await
}

pub(super) async fn add_check(work: &mut Work, id: Uuid, scale: ScaleId, draft: &CheckDraft) -> Result<()> {
    let organization = work.organization();
    let values = args![
        organization,
        id,
        scale,
        draft.reference.entered(),
        draft.reading.entered(),
        draft.reference_identity.as_ref().map(|identity| &identity.0),
        draft.certificate.as_ref().map(|certificate| &certificate.0)
    ];
    work.cx().execute(ADD_CHECK, values).await?;
    Ok(())
}

pub(super) async fn find_check(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<Option<CheckRow>> {
    cx.fetch_optional(FIND_CHECK, args![scope.organization, id]).await
}

pub(super) async fn page_of_checks(
    cx: &mut Cx<'_>,
    scope: &Scope,
    scale: ScaleId,
    after: Uuid,
    limit: i64,
) -> Result<Vec<CheckRow>> {
    cx.fetch_all(PAGE_OF_CHECKS, args![scope.organization, scale, after, limit]).await
}

pub(super) async fn latest_checks(cx: &mut Cx<'_>, scope: &Scope, scale: ScaleId, limit: i64) -> Result<Vec<CheckRow>> {
    cx.fetch_all(LATEST_CHECKS, args![scope.organization, scale, limit]).await
}

pub(super) async fn last_check(cx: &mut Cx<'_>, scope: &Scope, scale: ScaleId, at: i64) -> Result<Option<CheckRow>> {
    cx.fetch_optional(LAST_CHECK, args![scope.organization, scale, at]).await
}
