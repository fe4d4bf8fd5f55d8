//! Calibrations as JSON.

use super::act;
use super::draft::{CalibrationDraft, DecisionDraft, PreviewDraft};
use super::stored::Calibration;
use super::view::{CalibrationView, PreviewView};
use crate::access::{Permission, Reach, Scope};
use crate::db::Cx;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::{At, Faults, Input};
use crate::web::paging::{List, PageAsked};
use crate::web::routes::{Need, Route};
use axum::Json;
use serde_json::Value;
use sowmark_core::ids::{CalibrationId, MeteringUnitId};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::Schema;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/metering-units/{id}/calibrations", Need::May(Permission::Log), log_calibration,
            "Record a calibration of a metering unit.")
        .takes::<CalibrationDraft>()
        .creates::<CalibrationView>(),
        crate::route!(api GET "/metering-units/{id}/calibrations", Need::May(Permission::ReadFleet), list_calibrations,
            "List the calibrations of a metering unit.")
        .asks::<PageAsked>()
        .answers::<List<CalibrationView>>(),
        crate::route!(api GET "/calibrations/{id}", Need::May(Permission::ReadFleet), show_calibration, "Show a calibration.")
            .answers::<CalibrationView>(),
        crate::route!(api POST "/calibrations/preview", Need::May(Permission::Log), preview_calibration,
            "Compute a calibration and store nothing.")
        .takes::<PreviewDraft>()
        .answers::<PreviewView>(),
        crate::route!(api POST "/calibrations/{id}/decisions", Need::May(Permission::Decide), decide_calibration,
            "Accept or reject a held calibration.")
        .takes::<DecisionDraft>()
        .creates::<CalibrationView>(),
    ]
}

/// A body as it stands: the act reads it, because a sheet with a fault in one field is still looked at as a whole.
struct AsSent;

impl Input for AsSent {
    fn read(_: Option<&Value>, _: &At, _: &mut Faults) -> Option<Self> {
        Some(Self)
    }

    fn schema() -> RefOr<Schema> {
        CalibrationDraft::schema()
    }
}

async fn log_calibration(
    signed: Signed,
    PathId(unit): PathId,
    sent: Sent<AsSent>,
) -> Result<Created<CalibrationView>, Error> {
    let outcome = act::log_calibration(&signed, MeteringUnitId(unit), sent.value).await?;
    let mut conn = signed.app.read().await?;
    let found = act::find_calibration(&mut conn.cx(), &signed.actor.scope, CalibrationId(outcome.id())).await?;
    Ok(Created(outcome, CalibrationView::of(found, &signed.actor.scope)?))
}

async fn list_calibrations(
    signed: Signed,
    PathId(unit): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<CalibrationView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::calibrations_of_unit(&mut conn.cx(), &signed.actor.scope, MeteringUnitId(unit), &asked).await?;
    let mut items = Vec::new();
    for found in list.items {
        items.push(seen(&mut conn.cx(), &signed.actor.scope, found).await?);
    }
    Ok(Json(List { items, next: list.next }))
}

async fn show_calibration(signed: Signed, PathId(id): PathId) -> Result<Json<CalibrationView>, Error> {
    let mut conn = signed.app.read().await?;
    let found = act::find_calibration(&mut conn.cx(), &signed.actor.scope, CalibrationId(id)).await?;
    Ok(Json(seen(&mut conn.cx(), &signed.actor.scope, found).await?))
}

/// A calibration as somebody sees it: the earlier one that its factor was expected by may be another client's, and is then not
/// named.
async fn seen(cx: &mut Cx<'_>, scope: &Scope, found: Calibration) -> Result<CalibrationView, Error> {
    let mut view = CalibrationView::of(found, scope)?;
    let named = view.circumstances.expected.as_mut().map(|expected| &mut expected.calibration_id);
    if let Some(named) = named.filter(|_| scope.lots != Reach::All)
        && let Some(earlier) = *named
    {
        match act::find_calibration(cx, scope, CalibrationId(earlier)).await {
            Err(Error::NotThere { .. }) => *named = None,
            found => drop(found?),
        }
    }
    Ok(view)
}

async fn preview_calibration(signed: Signed, sent: Sent<PreviewDraft>) -> Result<Json<PreviewView>, Error> {
    let (unit, calibration) = (sent.draft.metering_unit_id, PreviewDraft::calibration(&sent.value));
    let (draft, weighed) = act::preview(&signed, unit, &calibration).await.map_err(unit_at_its_field)?;
    Ok(Json(PreviewView::of(unit.0, draft.lot_id.0, weighed)?))
}

/// In a preview the unit is a field of the body.
fn unit_at_its_field(error: Error) -> Error {
    match error {
        Error::NotThere { what, pointer: None } => Error::not_there_at("/metering_unit_id", what),
        other => other,
    }
}

async fn decide_calibration(
    signed: Signed,
    PathId(id): PathId,
    sent: Sent<DecisionDraft>,
) -> Result<Created<CalibrationView>, Error> {
    let outcome = act::decide(&signed, CalibrationId(id), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let found = act::find_calibration(&mut conn.cx(), &signed.actor.scope, CalibrationId(id)).await?;
    Ok(Created(outcome, CalibrationView::of(found, &signed.actor.scope)?))
}
