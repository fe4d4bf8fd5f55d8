//! Laying up as JSON.

use super::act::{self, LayUpDraft};
use super::store::LayUpRow;
use crate::access::{Permission, Scope};
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
        crate::route!(api POST "/seeders/{id}/lay-ups", Need::May(Permission::KeepFleet), add_lay_up, "Lay a seeder up, or take it back into use.")
            .takes::<LayUpDraft>()
            .creates::<LayUpView>(),
        crate::route!(api GET "/seeders/{id}/lay-ups", Need::May(Permission::ReadFleet), list_lay_ups, "List when a seeder was laid up and taken back into use.")
            .asks::<PageAsked>()
            .answers::<List<LayUpView>>(),
    ]
}

/// That a seeder was laid up or taken back into use.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub(in crate::fleet) struct LayUpView {
    #[serde(flatten)]
    head: HeadView,
    seeder_id: Uuid,
    laid_up: bool,
    /// What was typed beside it; null where that is withheld: of a record that belongs to no client, from who is limited to
    /// some.
    note: Option<String>,
}

impl LayUpView {
    fn of(row: LayUpRow, scope: &Scope) -> Self {
        let note = row.head.told_owned(&row.note, scope);
        Self { head: HeadView::of(row.head, scope), seeder_id: row.seeder_id, laid_up: row.laid_up, note }
    }
}

async fn add_lay_up(
    signed: Signed,
    PathId(parent): PathId,
    sent: Sent<LayUpDraft>,
) -> Result<Created<LayUpView>, Error> {
    let outcome = act::add_lay_up(&signed, SeederId(parent), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_lay_up(&mut conn.cx(), &signed.actor.scope, outcome.id()).await?;
    Ok(Created(outcome, LayUpView::of(row, &signed.actor.scope)))
}

async fn list_lay_ups(
    signed: Signed,
    PathId(parent): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<LayUpView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_lay_ups(&mut conn.cx(), &signed.actor.scope, SeederId(parent), &asked).await?;
    Ok(Json(list.map(|row| LayUpView::of(row, &signed.actor.scope))))
}
