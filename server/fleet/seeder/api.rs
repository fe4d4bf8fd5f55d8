//! Seeders as JSON, with their metering units and what is in force now.

use super::act::{self, SeederChange, SeederDraft, SeederRow, UnitRow};
use crate::access::{Permission, Scope};
use crate::db::Cx;
use crate::fleet::configuration::{act as configurations, api::ConfigurationView};
use crate::fleet::lay_up::act as lay_ups;
use crate::fleet::setup::{act as setups, api::SetupView};
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::routes::{Need, Route};
use axum::Json;
use jiff::Timestamp;
use serde::Serialize;
use sowmark_core::ids::SeederId;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/seeders", Need::May(Permission::KeepFleet), add_seeder, "Add a seeder with its metering units.")
            .takes::<SeederDraft>()
            .creates::<SeederView>(),
        crate::route!(api GET "/seeders", Need::May(Permission::ReadFleet), list_seeders, "List the seeders.")
            .asks::<PageAsked>()
            .answers::<List<SeederView>>(),
        crate::route!(api GET "/seeders/{id}", Need::May(Permission::ReadFleet), show_seeder, "Show a seeder.")
            .answers::<SeederView>(),
        crate::route!(api PATCH "/seeders/{id}", Need::May(Permission::KeepFleet), change_seeder, "Change a seeder's name or serial number.")
            .takes::<SeederChange>()
            .answers::<SeederView>(),
    ]
}

/// A seeder.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub(crate) struct SeederView {
    id: Uuid,
    name: String,
    serial_number: Option<String>,
    kind: String,
    commissioned_on: String,
    laid_up: bool,
    /// In force now; null before the commissioning.
    configuration: Option<ConfigurationView>,
    metering_units: Vec<UnitView>,
}

/// A metering unit.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct UnitView {
    id: Uuid,
    label: String,
    runs: i64,
    drive: String,
    roller_speed_rpm: Option<SpeedRangeView>,
    /// In force now; null while none was recorded.
    setup: Option<SetupView>,
}

/// The roller speeds that a drive can hold, in revolutions per minute.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct SpeedRangeView {
    min: f64,
    max: f64,
}

impl SpeedRangeView {
    fn of(unit: &UnitRow) -> Result<Option<Self>, Error> {
        let read = |text: &str| text.parse().map_err(|_| Error::inconsistent("metering_unit.roller_speed", text));
        match (&unit.roller_speed_min, &unit.roller_speed_max) {
            (Some(min), Some(max)) => Ok(Some(Self { min: read(min)?, max: read(max)? })),
            _ => Ok(None),
        }
    }
}

async fn view(cx: &mut Cx<'_>, scope: &Scope, row: SeederRow, now: Timestamp) -> Result<SeederView, Error> {
    let id = SeederId(row.id);
    let configuration = configurations::in_force(cx, scope, id, now).await?;
    let mut metering_units = Vec::new();
    for unit in act::units_of(cx, scope, id).await? {
        let setup = setups::in_force(cx, scope, unit.id(), now).await?;
        metering_units.push(UnitView {
            roller_speed_rpm: SpeedRangeView::of(&unit)?,
            id: unit.id,
            label: unit.label,
            runs: unit.runs,
            drive: unit.drive,
            setup: setup.map(SetupView::from),
        });
    }
    Ok(SeederView {
        laid_up: lay_ups::is_laid_up(cx, scope, id, now).await?,
        configuration: configuration.map(ConfigurationView::try_from).transpose()?,
        id: row.id,
        name: row.name,
        serial_number: row.serial_number,
        kind: row.kind,
        commissioned_on: row.commissioned_on,
        metering_units,
    })
}

async fn shown(signed: &Signed, id: SeederId) -> Result<SeederView, Error> {
    let mut conn = signed.app.read().await?;
    let scope = &signed.actor.scope;
    let row = act::find_seeder(&mut conn.cx(), scope, id).await?;
    view(&mut conn.cx(), scope, row, signed.app.clock.now()).await
}

async fn add_seeder(signed: Signed, sent: Sent<SeederDraft>) -> Result<Created<SeederView>, Error> {
    let outcome = act::add_seeder(&signed, sent.draft, sent.value).await?;
    Ok(Created(outcome, shown(&signed, SeederId(outcome.id())).await?))
}

async fn list_seeders(signed: Signed, Asked(asked): Asked<PageAsked>) -> Result<Json<List<SeederView>>, Error> {
    let mut conn = signed.app.read().await?;
    let (scope, now) = (&signed.actor.scope, signed.app.clock.now());
    let list = act::page_of_seeders(&mut conn.cx(), scope, &asked).await?;
    let mut items = Vec::new();
    for row in list.items {
        items.push(view(&mut conn.cx(), scope, row, now).await?);
    }
    Ok(Json(List { items, next: list.next }))
}

async fn show_seeder(signed: Signed, PathId(id): PathId) -> Result<Json<SeederView>, Error> {
    Ok(Json(shown(&signed, SeederId(id)).await?))
}

async fn change_seeder(signed: Signed, PathId(id): PathId, sent: Sent<SeederChange>) -> Result<Json<SeederView>, Error> {
    act::change_seeder(&signed, SeederId(id), sent.draft).await?;
    Ok(Json(shown(&signed, SeederId(id)).await?))
}
