//! Seasons as JSON.

use super::act::{self, SeasonDraft};
use super::change;
use super::store::SeasonRow;
use crate::access::Permission;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::change::Change;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::SeasonId;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/seasons", Need::May(Permission::KeepFleet), add_season, "Add a season.")
            .takes::<SeasonDraft>()
            .creates::<SeasonView>(),
        crate::route!(api GET "/seasons", Need::May(Permission::ReadFleet), list_seasons, "List the seasons.")
            .asks::<PageAsked>()
            .answers::<List<SeasonView>>(),
        crate::route!(api PATCH "/seasons/{id}", Need::May(Permission::KeepFleet), change_season, "Change a season.")
            .takes::<Change<SeasonDraft>>()
            .answers::<SeasonView>(),
    ]
}

/// A season.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct SeasonView {
    id: Uuid,
    name: String,
    starts_on: String,
    /// Null: all crops.
    crops: Option<Vec<String>>,
}

impl TryFrom<SeasonRow> for SeasonView {
    type Error = Error;

    fn try_from(row: SeasonRow) -> Result<Self, Error> {
        let crops = row.crop_list()?;
        Ok(Self { id: row.id, name: row.name, starts_on: row.starts_on, crops })
    }
}

async fn add_season(signed: Signed, sent: Sent<SeasonDraft>) -> Result<Created<SeasonView>, Error> {
    let outcome = act::add_season(&signed, sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_season(&mut conn.cx(), &signed.actor.scope, SeasonId(outcome.id())).await?;
    Ok(Created(outcome, row.try_into()?))
}

async fn list_seasons(signed: Signed, Asked(asked): Asked<PageAsked>) -> Result<Json<List<SeasonView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_seasons(&mut conn.cx(), &signed.actor.scope, &asked).await?;
    Ok(Json(list.try_map(SeasonView::try_from)?))
}

async fn change_season(
    signed: Signed,
    PathId(id): PathId,
    sent: Sent<Change<SeasonDraft>>,
) -> Result<Json<SeasonView>, Error> {
    change::change_season(&signed, SeasonId(id), &sent.draft).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_season(&mut conn.cx(), &signed.actor.scope, SeasonId(id)).await?;
    Ok(Json(row.try_into()?))
}
