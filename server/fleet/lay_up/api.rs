//! Lay-ups as JSON.

use super::act::{self, LayUpDraft, LayUpRow};
use crate::access::Permission;
use crate::records::head::HeadView;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::SeederId;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/seeders/{id}/lay-ups", Need::May(Permission::KeepFleet), add_lay_up, "Record that a seeder is laid up, or in use again.")
            .takes::<LayUpDraft>()
            .creates::<LayUpView>(),
        crate::route!(api GET "/seeders/{id}/lay-ups", Need::May(Permission::ReadFleet), list_lay_ups, "List when a seeder was laid up.")
            .asks::<PageAsked>()
            .answers::<List<LayUpView>>(),
    ]
}

/// A lay-up record.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct LayUpView {
    #[serde(flatten)]
    head: HeadView,
    seeder_id: Uuid,
    laid_up: bool,
    note: String,
}

impl From<LayUpRow> for LayUpView {
    fn from(row: LayUpRow) -> Self {
        Self { head: row.head.into(), seeder_id: row.seeder_id, laid_up: row.laid_up, note: row.note }
    }
}

async fn add_lay_up(signed: Signed, PathId(seeder): PathId, sent: Sent<LayUpDraft>) -> Result<Created<LayUpView>, Error> {
    let outcome = act::add_lay_up(&signed, SeederId(seeder), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_lay_up(&mut conn.cx(), &signed.actor.scope, outcome.id()).await?;
    Ok(Created(outcome, row.into()))
}

async fn list_lay_ups(
    signed: Signed,
    PathId(seeder): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<LayUpView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_lay_ups(&mut conn.cx(), &signed.actor.scope, SeederId(seeder), &asked).await?;
    Ok(Json(list.map(LayUpView::from)))
}
