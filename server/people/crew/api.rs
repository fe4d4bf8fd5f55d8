//! Crews as JSON.

use super::act::{self, Crew};
use crate::access::Permission;
use crate::people::draft::{CrewChange, CrewDraft};
use crate::web::api::{Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::List;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::CrewId;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    let keep = Need::May(Permission::KeepFleet);
    vec![
        crate::route!(api POST "/crews", keep, add_crew, "Add a crew with its members and seeders.")
            .takes::<CrewDraft>()
            .creates::<CrewView>(),
        crate::route!(api GET "/crews", keep, list_crews, "List the crews.").answers::<List<CrewView>>(),
        crate::route!(api GET "/crews/{id}", keep, show_crew, "Show a crew.").answers::<CrewView>(),
        crate::route!(api PUT "/crews/{id}", keep, change_crew, "Change a crew: its name, its whole list of members and of seeders.")
            .takes::<CrewChange>()
            .answers::<CrewView>(),
    ]
}

/// A crew.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct CrewView {
    id: Uuid,
    name: String,
    members: Vec<NamedView>,
    seeders: Vec<NamedView>,
}

/// Something by its id, with its name.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct NamedView {
    id: Uuid,
    name: String,
}

impl From<Crew> for CrewView {
    fn from(crew: Crew) -> Self {
        let named = |all: Vec<(Uuid, String)>| all.into_iter().map(|(id, name)| NamedView { id, name }).collect();
        Self { id: crew.id, name: crew.name, members: named(crew.members), seeders: named(crew.seeders) }
    }
}

async fn found(signed: &Signed, id: CrewId) -> Result<CrewView, Error> {
    let mut conn = signed.app.read().await?;
    Ok(act::find_crew(&mut conn.cx(), &signed.actor.scope, id).await?.into())
}

async fn add_crew(signed: Signed, sent: Sent<CrewDraft>) -> Result<Created<CrewView>, Error> {
    let outcome = act::add_crew(&signed, sent.draft, sent.value).await?;
    Ok(Created(outcome, found(&signed, CrewId(outcome.id())).await?))
}

async fn list_crews(signed: Signed) -> Result<Json<List<CrewView>>, Error> {
    let mut conn = signed.app.read().await?;
    let crews = act::crews(&mut conn.cx(), &signed.actor.scope).await?;
    Ok(Json(List::whole(crews.into_iter().map(CrewView::from).collect())))
}

async fn show_crew(signed: Signed, PathId(id): PathId) -> Result<Json<CrewView>, Error> {
    Ok(Json(found(&signed, CrewId(id)).await?))
}

async fn change_crew(signed: Signed, PathId(id): PathId, sent: Sent<CrewChange>) -> Result<Json<CrewView>, Error> {
    act::change_crew(&signed, CrewId(id), sent.draft).await?;
    Ok(Json(found(&signed, CrewId(id)).await?))
}
