//! Clients in the database.

use super::act::ClientDraft;
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::{args, queries};
use sowmark_core::ids::ClientId;
use uuid::Uuid;

queries! {
    ADD = "insert into client (organization_id, id, name) values ($1, $2, $3)";
    CHANGE = "update client set name = $3 where organization_id = $1 and id = $2";
    FIND = "select id, name from client where organization_id = $1 and id = $2";
    PAGE = "select id, name from client where organization_id = $1 and id > $2 order by id limit $3";
    LIST = "select id, name from client where organization_id = $1 order by name, id";
}

/// A client as it stands.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct ClientRow {
    pub id: Uuid,
    pub name: String,
}

pub(super) async fn add(work: &mut Work, id: ClientId, draft: &ClientDraft) -> Result<()> {
    let organization = work.organization();
    work.cx().execute(ADD, args![organization, id, &draft.name.0]).await?;
    Ok(())
}

pub(super) async fn change(work: &mut Work, id: ClientId, draft: &ClientDraft) -> Result<()> {
    let organization = work.organization();
    work.cx().execute(CHANGE, args![organization, id, &draft.name.0]).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: ClientId) -> Result<Option<ClientRow>> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await
}

pub(super) async fn page(cx: &mut Cx<'_>, scope: &Scope, after: Uuid, limit: i64) -> Result<Vec<ClientRow>> {
    cx.fetch_all(PAGE, args![scope.organization, after, limit]).await
}

pub(super) async fn list(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<ClientRow>> {
    cx.fetch_all(LIST, args![scope.organization]).await
}
