//! Clients as JSON.

use super::act::{self, ClientDraft};
use super::change;
use super::store::ClientRow;
use crate::access::Permission;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::change::Change;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::ClientId;
use std::convert::Infallible;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/clients", Need::May(Permission::KeepFleet), add_client, "Add a client.")
            .takes::<ClientDraft>()
            .creates::<ClientView>(),
        crate::route!(api GET "/clients", Need::May(Permission::ReadFleet), list_clients, "List the clients.")
            .asks::<PageAsked>()
            .answers::<List<ClientView>>(),
        crate::route!(api GET "/clients/{id}", Need::May(Permission::ReadFleet), show_client, "Show a client.")
            .answers::<ClientView>(),
        crate::route!(api PATCH "/clients/{id}", Need::May(Permission::KeepFleet), change_client, "Change a client.")
            .takes::<Change<ClientDraft>>()
            .answers::<ClientView>(),
    ]
}

/// A client.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct ClientView {
    id: Uuid,
    name: String,
}

impl From<ClientRow> for ClientView {
    fn from(row: ClientRow) -> Self {
        Self { id: row.id, name: row.name }
    }
}

async fn add_client(signed: Signed, sent: Sent<ClientDraft>) -> Result<Created<ClientView>, Error> {
    let outcome = act::add_client(&signed, sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_client(&mut conn.cx(), &signed.actor.scope, ClientId(outcome.id())).await?;
    Ok(Created(outcome, row.into()))
}

async fn list_clients(signed: Signed, Asked(asked): Asked<PageAsked>) -> Result<Json<List<ClientView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_clients(&mut conn.cx(), &signed.actor.scope, &asked).await?;
    let Ok(list) = list.try_map(|row| Ok::<_, Infallible>(ClientView::from(row)));
    Ok(Json(list))
}

async fn show_client(signed: Signed, PathId(id): PathId) -> Result<Json<ClientView>, Error> {
    let mut conn = signed.app.read().await?;
    let row = act::find_client(&mut conn.cx(), &signed.actor.scope, ClientId(id)).await?;
    Ok(Json(row.into()))
}

async fn change_client(
    signed: Signed,
    PathId(id): PathId,
    sent: Sent<Change<ClientDraft>>,
) -> Result<Json<ClientView>, Error> {
    change::change_client(&signed, ClientId(id), &sent.draft).await?;
    show_client(signed, PathId(id)).await
}
