//! Setups as JSON.

use super::act::{self, SetupDraft, SetupRow};
use crate::access::Permission;
use crate::records::head::HeadView;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::MeteringUnitId;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/metering-units/{id}/setups", Need::May(Permission::Log), add_setup, "Record the roller, ratio, gate and runs of a metering unit from a moment on.")
            .takes::<SetupDraft>()
            .creates::<SetupView>(),
        crate::route!(api GET "/metering-units/{id}/setups", Need::May(Permission::ReadFleet), list_setups, "List a metering unit's setups.")
            .asks::<PageAsked>()
            .answers::<List<SetupView>>(),
    ]
}

/// A setup record.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub(crate) struct SetupView {
    #[serde(flatten)]
    head: HeadView,
    metering_unit_id: Uuid,
    roller_id: Uuid,
    /// The roller's label.
    roller: String,
    /// Roller revolutions to drive revolutions, as entered.
    drive_ratio: String,
    gate: Option<String>,
    runs: i64,
    note: String,
}

impl From<SetupRow> for SetupView {
    fn from(row: SetupRow) -> Self {
        Self {
            head: row.head.into(),
            metering_unit_id: row.metering_unit_id,
            roller_id: row.roller_id,
            roller: row.roller,
            drive_ratio: row.drive_ratio,
            gate: row.gate,
            runs: row.runs,
            note: row.note,
        }
    }
}

async fn add_setup(signed: Signed, PathId(unit): PathId, sent: Sent<SetupDraft>) -> Result<Created<SetupView>, Error> {
    let outcome = act::add_setup(&signed, MeteringUnitId(unit), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_setup(&mut conn.cx(), &signed.actor.scope, outcome.id()).await?;
    Ok(Created(outcome, row.into()))
}

async fn list_setups(
    signed: Signed,
    PathId(unit): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<SetupView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_setups(&mut conn.cx(), &signed.actor.scope, MeteringUnitId(unit), &asked).await?;
    Ok(Json(list.map(SetupView::from)))
}
