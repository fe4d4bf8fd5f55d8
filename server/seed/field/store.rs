//! Fields in the database.

use super::act::FieldDraft;
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::{args, queries};
use sowmark_core::ids::{ClientId, FieldId};
use uuid::Uuid;

queries! {
    ADD = "insert into field (organization_id, id, name, area, client_id) values ($1, $2, $3, $4, $5)";
    CHANGE = "update field set name = $3, area = $4, client_id = $5 where organization_id = $1 and id = $2";
    FIND = "select f.id, f.name, f.area, f.client_id, c.name as client_name from field f
        left join client c on c.organization_id = f.organization_id and c.id = f.client_id
        where f.organization_id = $1 and f.id = $2";
    PAGE = "select f.id, f.name, f.area, f.client_id, c.name as client_name from field f
        left join client c on c.organization_id = f.organization_id and c.id = f.client_id
        where f.organization_id = $1 and f.id > $2 order by f.id limit $3";
    LIST = "select f.id, f.name, f.area, f.client_id, c.name as client_name from field f
        left join client c on c.organization_id = f.organization_id and c.id = f.client_id
        where f.organization_id = $1 order by f.name, f.id";
}

/// A field as it stands.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct FieldRow {
    pub id: Uuid,
    pub name: String,
    /// As entered.
    pub area: String,
    pub client_id: Option<Uuid>,
    pub client_name: Option<String>,
}

impl FieldRow {
    #[must_use]
    pub fn client(&self) -> Option<ClientId> {
        self.client_id.map(ClientId)
    }
}

pub(super) async fn add(work: &mut Work, id: FieldId, draft: &FieldDraft) -> Result<()> {
    let organization = work.organization();
    work.cx().execute(ADD, args![organization, id, &draft.name.0, draft.area.entered(), draft.client_id]).await?;
    Ok(())
}

pub(super) async fn change(work: &mut Work, id: FieldId, draft: &FieldDraft) -> Result<()> {
    let organization = work.organization();
    work.cx().execute(CHANGE, args![organization, id, &draft.name.0, draft.area.entered(), draft.client_id]).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: FieldId) -> Result<Option<FieldRow>> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await
}

pub(super) async fn page(cx: &mut Cx<'_>, scope: &Scope, after: Uuid, limit: i64) -> Result<Vec<FieldRow>> {
    cx.fetch_all(PAGE, args![scope.organization, after, limit]).await
}

pub(super) async fn list(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<FieldRow>> {
    cx.fetch_all(LIST, args![scope.organization]).await
}
