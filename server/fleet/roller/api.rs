//! Rollers as JSON.

use super::act::{self, RollerDraft};
use super::change;
use super::store::RollerRow;
use crate::access::Permission;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::change::Change;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::RollerId;
use sowmark_core::quantity::unit::dimension;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/rollers", Need::May(Permission::KeepFleet), add_roller, "Add a meter roller.")
            .takes::<RollerDraft>()
            .creates::<RollerView>(),
        crate::route!(api GET "/rollers", Need::May(Permission::ReadFleet), list_rollers, "List the meter rollers.")
            .asks::<PageAsked>()
            .answers::<List<RollerView>>(),
        crate::route!(api GET "/rollers/{id}", Need::May(Permission::ReadFleet), show_roller, "Show a meter roller.")
            .answers::<RollerView>(),
        crate::route!(api PATCH "/rollers/{id}", Need::May(Permission::KeepFleet), change_roller, "Change a meter roller.")
            .takes::<Change<RollerDraft>>()
            .answers::<RollerView>(),
    ]
}

/// A meter roller.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct RollerView {
    id: Uuid,
    label: String,
    kind: String,
    /// Per revolution and run.
    displacement_per_rev: Option<Q>,
}

impl TryFrom<RollerRow> for RollerView {
    type Error = Error;

    fn try_from(row: RollerRow) -> Result<Self, Error> {
        let displacement_per_rev = Q::stored_if::<dimension::Volume>(row.displacement.as_deref())?;
        Ok(Self { id: row.id, label: row.label, kind: row.kind, displacement_per_rev })
    }
}

async fn add_roller(signed: Signed, sent: Sent<RollerDraft>) -> Result<Created<RollerView>, Error> {
    let outcome = act::add_roller(&signed, sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_roller(&mut conn.cx(), &signed.actor.scope, RollerId(outcome.id())).await?;
    Ok(Created(outcome, row.try_into()?))
}

async fn list_rollers(signed: Signed, Asked(asked): Asked<PageAsked>) -> Result<Json<List<RollerView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_rollers(&mut conn.cx(), &signed.actor.scope, &asked).await?;
    Ok(Json(list.try_map(RollerView::try_from)?))
}

async fn show_roller(signed: Signed, PathId(id): PathId) -> Result<Json<RollerView>, Error> {
    let mut conn = signed.app.read().await?;
    let row = act::find_roller(&mut conn.cx(), &signed.actor.scope, RollerId(id)).await?;
    Ok(Json(row.try_into()?))
}

async fn change_roller(
    signed: Signed,
    PathId(id): PathId,
    sent: Sent<Change<RollerDraft>>,
) -> Result<Json<RollerView>, Error> {
    change::change_roller(&signed, RollerId(id), &sent.draft).await?;
    show_roller(signed, PathId(id)).await
}
