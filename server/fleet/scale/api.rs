//! Scales and their checks as JSON.

use super::act::{self, CheckDraft, CheckRow, ScaleDraft, ScaleRow};
use crate::access::Permission;
use crate::records::head::HeadView;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::ScaleId;
use sowmark_core::quantity::unit::dimension;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/scales", Need::May(Permission::KeepFleet), add_scale, "Add a scale.")
            .takes::<ScaleDraft>()
            .creates::<ScaleView>(),
        crate::route!(api GET "/scales", Need::May(Permission::ReadFleet), list_scales, "List the scales.")
            .asks::<PageAsked>()
            .answers::<List<ScaleView>>(),
        crate::route!(api GET "/scales/{id}", Need::May(Permission::ReadFleet), show_scale, "Show a scale.")
            .answers::<ScaleView>(),
        crate::route!(api POST "/scales/{id}/checks", Need::May(Permission::Log), add_scale_check, "Record what a scale read of a known mass.")
            .takes::<CheckDraft>()
            .creates::<CheckView>(),
        crate::route!(api GET "/scales/{id}/checks", Need::May(Permission::ReadFleet), list_scale_checks, "List a scale's checks.")
            .asks::<PageAsked>()
            .answers::<List<CheckView>>(),
    ]
}

/// A scale.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct ScaleView {
    id: Uuid,
    name: String,
    readability: Q,
    capacity: Q,
}

impl TryFrom<ScaleRow> for ScaleView {
    type Error = Error;

    fn try_from(row: ScaleRow) -> Result<Self, Error> {
        Ok(Self {
            readability: Q::stored::<dimension::Mass>(&row.readability)?,
            capacity: Q::stored::<dimension::Mass>(&row.capacity)?,
            id: row.id,
            name: row.name,
        })
    }
}

/// A scale check record.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct CheckView {
    #[serde(flatten)]
    head: HeadView,
    scale_id: Uuid,
    reference: Q,
    reading: Q,
}

impl TryFrom<CheckRow> for CheckView {
    type Error = Error;

    fn try_from(row: CheckRow) -> Result<Self, Error> {
        Ok(Self {
            reference: Q::stored::<dimension::Mass>(&row.reference)?,
            reading: Q::stored::<dimension::Mass>(&row.reading)?,
            scale_id: row.scale_id,
            head: row.head.into(),
        })
    }
}

async fn add_scale(signed: Signed, sent: Sent<ScaleDraft>) -> Result<Created<ScaleView>, Error> {
    let outcome = act::add_scale(&signed, sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_scale(&mut conn.cx(), &signed.actor.scope, ScaleId(outcome.id())).await?;
    Ok(Created(outcome, row.try_into()?))
}

async fn list_scales(signed: Signed, Asked(asked): Asked<PageAsked>) -> Result<Json<List<ScaleView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_scales(&mut conn.cx(), &signed.actor.scope, &asked).await?;
    Ok(Json(list.try_map(ScaleView::try_from)?))
}

async fn show_scale(signed: Signed, PathId(id): PathId) -> Result<Json<ScaleView>, Error> {
    let mut conn = signed.app.read().await?;
    let row = act::find_scale(&mut conn.cx(), &signed.actor.scope, ScaleId(id)).await?;
    Ok(Json(row.try_into()?))
}

async fn add_scale_check(
    signed: Signed,
    PathId(scale): PathId,
    sent: Sent<CheckDraft>,
) -> Result<Created<CheckView>, Error> {
    let outcome = act::add_check(&signed, ScaleId(scale), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_check(&mut conn.cx(), &signed.actor.scope, outcome.id()).await?;
    Ok(Created(outcome, row.try_into()?))
}

async fn list_scale_checks(
    signed: Signed,
    PathId(scale): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<CheckView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_checks(&mut conn.cx(), &signed.actor.scope, ScaleId(scale), &asked).await?;
    Ok(Json(list.try_map(CheckView::try_from)?))
}
