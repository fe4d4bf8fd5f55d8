//! Setups as JSON.

use super::act::{self, SetupDraft};
use super::store::SetupRow;
use crate::access::{Permission, Scope};
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
        crate::route!(api POST "/metering-units/{id}/setups", Need::May(Permission::Log), add_setup, "Record the roller, ratio, gate and runs of a metering unit.")
            .takes::<SetupDraft>()
            .creates::<SetupView>(),
        crate::route!(api GET "/metering-units/{id}/setups", Need::May(Permission::ReadFleet), list_setups, "List the setups of a metering unit.")
            .asks::<PageAsked>()
            .answers::<List<SetupView>>(),
    ]
}

/// What is fitted to a metering unit.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub(in crate::fleet) struct SetupView {
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
    /// What was typed beside it; null where that is withheld: of a record that belongs to no client, from who is limited to
    /// some.
    note: Option<String>,
}

impl SetupView {
    pub(in crate::fleet) fn of(row: SetupRow, scope: &Scope) -> Self {
        Self {
            note: row.head.told_owned(&row.note, scope),
            head: HeadView::of(row.head, scope),
            metering_unit_id: row.metering_unit_id,
            roller_id: row.roller_id,
            roller: row.roller,
            drive_ratio: row.drive_ratio,
            gate: row.gate,
            runs: row.runs,
        }
    }
}

async fn add_setup(
    signed: Signed,
    PathId(parent): PathId,
    sent: Sent<SetupDraft>,
) -> Result<Created<SetupView>, Error> {
    let outcome = act::add_setup(&signed, MeteringUnitId(parent), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_setup(&mut conn.cx(), &signed.actor.scope, outcome.id()).await?;
    Ok(Created(outcome, SetupView::of(row, &signed.actor.scope)))
}

async fn list_setups(
    signed: Signed,
    PathId(parent): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<SetupView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_setups(&mut conn.cx(), &signed.actor.scope, MeteringUnitId(parent), &asked).await?;
    Ok(Json(list.map(|row| SetupView::of(row, &signed.actor.scope))))
}
