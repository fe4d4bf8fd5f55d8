//! Rollers in the database.

use super::act::RollerDraft;
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::{args, queries};
use sowmark_core::ids::RollerId;
use uuid::Uuid;

queries! {
    ADD = "insert into roller (organization_id, id, label, kind, displacement) values ($1, $2, $3, $4, $5)";
    CHANGE = "update roller set label = $3, kind = $4, displacement = $5 where organization_id = $1 and id = $2";
    FIND = "select id, label, kind, displacement from roller where organization_id = $1 and id = $2";
    PAGE = "select id, label, kind, displacement from roller where organization_id = $1 and id > $2 order by id limit $3";
    LIST = "select id, label, kind, displacement from roller where organization_id = $1 order by label, id";
}

/// A roller as it stands.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct RollerRow {
    pub id: Uuid,
    pub label: String,
    pub kind: String,
    /// As entered.
    pub displacement: Option<String>,
}

pub(super) async fn add(work: &mut Work, id: RollerId, draft: &RollerDraft) -> Result<()> {
    let organization = work.organization();
    let displacement = draft.displacement_per_rev.as_ref().map(ToString::to_string);
    work.cx().execute(ADD, args![organization, id, &draft.label.0, draft.kind.word(), displacement]).await?;
    Ok(())
}

pub(super) async fn change(work: &mut Work, id: RollerId, draft: &RollerDraft) -> Result<()> {
    let organization = work.organization();
    let displacement = draft.displacement_per_rev.as_ref().map(ToString::to_string);
    work.cx().execute(CHANGE, args![organization, id, &draft.label.0, draft.kind.word(), displacement]).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: RollerId) -> Result<Option<RollerRow>> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await
}

pub(super) async fn page(cx: &mut Cx<'_>, scope: &Scope, after: Uuid, limit: i64) -> Result<Vec<RollerRow>> {
    cx.fetch_all(PAGE, args![scope.organization, after, limit]).await
}

pub(super) async fn list(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<RollerRow>> {
    cx.fetch_all(LIST, args![scope.organization]).await
}
