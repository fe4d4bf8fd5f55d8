//! Scales and their checks as JSON.

use super::act::{self, CheckDraft, ScaleDraft};
use super::change;
use super::store::{CheckRow, ScaleRow};
use crate::access::{Permission, Scope};
use crate::records::head::HeadView;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::change::Change;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::ScaleId;
use sowmark_core::quantity::unit::dimension::Mass;
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
        crate::route!(api PATCH "/scales/{id}", Need::May(Permission::KeepFleet), change_scale, "Change a scale.")
            .takes::<Change<ScaleDraft>>()
            .answers::<ScaleView>(),
        crate::route!(api POST "/scales/{id}/checks", Need::May(Permission::Log), add_scale_check, "Record what a scale read of a known mass.")
            .takes::<CheckDraft>()
            .creates::<ScaleCheckView>(),
        crate::route!(api GET "/scales/{id}/checks", Need::May(Permission::ReadFleet), list_scale_checks, "List the checks of a scale.")
            .asks::<PageAsked>()
            .answers::<List<ScaleCheckView>>(),
    ]
}

/// A balance.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct ScaleView {
    id: Uuid,
    name: String,
    /// Its smallest step.
    readability: Q,
    capacity: Q,
}

impl TryFrom<ScaleRow> for ScaleView {
    type Error = Error;

    fn try_from(row: ScaleRow) -> Result<Self, Error> {
        let (readability, capacity) = (Q::stored::<Mass>(&row.readability)?, Q::stored::<Mass>(&row.capacity)?);
        Ok(Self { id: row.id, name: row.name, readability, capacity })
    }
}

/// What a scale read of a known mass.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct ScaleCheckView {
    #[serde(flatten)]
    head: HeadView,
    scale_id: Uuid,
    /// The known mass.
    reference: Q,
    reading: Q,
    /// What is marked on the known mass.
    reference_identity: Option<String>,
    /// The certificate that says what it weighs.
    certificate: Option<String>,
}

impl ScaleCheckView {
    fn of(row: CheckRow, scope: &Scope) -> Result<Self, Error> {
        let (reference, reading) = (Q::stored::<Mass>(&row.reference)?, Q::stored::<Mass>(&row.reading)?);
        let (reference_identity, certificate) = (row.reference_identity, row.certificate);
        Ok(Self {
            head: HeadView::of(row.head, scope),
            scale_id: row.scale_id,
            reference,
            reading,
            reference_identity,
            certificate,
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

async fn change_scale(
    signed: Signed,
    PathId(id): PathId,
    sent: Sent<Change<ScaleDraft>>,
) -> Result<Json<ScaleView>, Error> {
    change::change_scale(&signed, ScaleId(id), &sent.draft).await?;
    show_scale(signed, PathId(id)).await
}

async fn add_scale_check(
    signed: Signed,
    PathId(scale): PathId,
    sent: Sent<CheckDraft>,
) -> Result<Created<ScaleCheckView>, Error> {
    let outcome = act::add_check(&signed, ScaleId(scale), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_check(&mut conn.cx(), &signed.actor.scope, outcome.id()).await?;
    Ok(Created(outcome, ScaleCheckView::of(row, &signed.actor.scope)?))
}

async fn list_scale_checks(
    signed: Signed,
    PathId(scale): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<ScaleCheckView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_checks(&mut conn.cx(), &signed.actor.scope, ScaleId(scale), &asked).await?;
    Ok(Json(list.try_map(|row| ScaleCheckView::of(row, &signed.actor.scope))?))
}
