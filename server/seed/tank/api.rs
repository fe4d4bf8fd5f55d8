//! Fills and emptyings as JSON.

use super::act::{self, EmptyingDraft, FillDraft};
use super::store::{EmptyingRow, FillRow};
use crate::access::{Permission, Scope};
use crate::records::head::HeadView;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::{MeteringUnitId, RecordId};
use sowmark_core::quantity::unit::dimension;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/metering-units/{id}/fills", Need::May(Permission::Log), record_fill, "Record that a tank was filled.")
            .takes::<FillDraft>()
            .creates::<FillView>(),
        crate::route!(api GET "/metering-units/{id}/fills", Need::May(Permission::ReadFleet), list_fills, "List the fills of a metering unit.")
            .asks::<PageAsked>()
            .answers::<List<FillView>>(),
        crate::route!(api POST "/metering-units/{id}/emptyings", Need::May(Permission::Log), record_emptying, "Record that seed was taken out of a tank.")
            .takes::<EmptyingDraft>()
            .creates::<EmptyingView>(),
        crate::route!(api GET "/metering-units/{id}/emptyings", Need::May(Permission::ReadFleet), list_emptyings, "List the emptyings of a metering unit.")
            .asks::<PageAsked>()
            .answers::<List<EmptyingView>>(),
    ]
}

/// Seed of one lot put into a tank.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct FillView {
    #[serde(flatten)]
    head: HeadView,
    metering_unit_id: Uuid,
    lot_id: Uuid,
    /// Null: not weighed.
    mass: Option<Q>,
}

/// Seed of one lot taken out of a tank.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct EmptyingView {
    #[serde(flatten)]
    head: HeadView,
    metering_unit_id: Uuid,
    lot_id: Uuid,
    /// Null: not weighed.
    mass: Option<Q>,
    to_empty: bool,
}

impl FillView {
    fn of(row: FillRow, scope: &Scope) -> Result<Self, Error> {
        let mass = Q::stored_if::<dimension::Mass>(row.mass.as_deref())?;
        Ok(Self {
            head: HeadView::of(row.head, scope),
            metering_unit_id: row.metering_unit_id,
            lot_id: row.lot_id,
            mass,
        })
    }
}

impl EmptyingView {
    fn of(row: EmptyingRow, scope: &Scope) -> Result<Self, Error> {
        let mass = Q::stored_if::<dimension::Mass>(row.mass.as_deref())?;
        let (metering_unit_id, lot_id, to_empty) = (row.metering_unit_id, row.lot_id, row.to_empty);
        Ok(Self { head: HeadView::of(row.head, scope), metering_unit_id, lot_id, mass, to_empty })
    }
}

async fn record_fill(signed: Signed, PathId(unit): PathId, sent: Sent<FillDraft>) -> Result<Created<FillView>, Error> {
    let outcome = act::record_fill(&signed, MeteringUnitId(unit), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_fill(&mut conn.cx(), &signed.actor.scope, RecordId(outcome.id())).await?;
    Ok(Created(outcome, FillView::of(row, &signed.actor.scope)?))
}

async fn list_fills(
    signed: Signed,
    PathId(unit): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<FillView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_fills(&mut conn.cx(), &signed.actor.scope, MeteringUnitId(unit), &asked).await?;
    Ok(Json(list.try_map(|row| FillView::of(row, &signed.actor.scope))?))
}

async fn record_emptying(
    signed: Signed,
    PathId(unit): PathId,
    sent: Sent<EmptyingDraft>,
) -> Result<Created<EmptyingView>, Error> {
    let outcome = act::record_emptying(&signed, MeteringUnitId(unit), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_emptying(&mut conn.cx(), &signed.actor.scope, RecordId(outcome.id())).await?;
    Ok(Created(outcome, EmptyingView::of(row, &signed.actor.scope)?))
}

async fn list_emptyings(
    signed: Signed,
    PathId(unit): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<EmptyingView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_emptyings(&mut conn.cx(), &signed.actor.scope, MeteringUnitId(unit), &asked).await?;
    Ok(Json(list.try_map(|row| EmptyingView::of(row, &signed.actor.scope))?))
}
