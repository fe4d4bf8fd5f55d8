//! Seeders as JSON, each with what is fitted to it now.

use super::act::{self, SeederChange, SeederDraft, UnitDraft};
use super::keyed_in::KeyedInView;
use super::store::{SeederRow, UnitRow};
use crate::access::Permission;
use crate::db::Cx;
use crate::fleet::configuration::act as configurations;
use crate::fleet::configuration::api::ConfigurationView;
use crate::fleet::lay_up::act as lay_ups;
use crate::fleet::setup::act as setups;
use crate::fleet::setup::api::SetupView;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use serde_json::Number;
use sowmark_core::ids::{MeteringUnitId, SeederId};
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
        crate::route!(api PATCH "/seeders/{id}", Need::May(Permission::KeepFleet), change_seeder, "Change a seeder's name, its serial number, or the form in which its controllers take the number.")
            .takes::<SeederChange>()
            .answers::<SeederView>(),
        crate::route!(api POST "/seeders/{id}/metering-units", Need::May(Permission::KeepFleet), add_metering_unit,
            "Add a metering unit to a seeder.")
        .takes::<UnitDraft>()
        .creates::<UnitView>(),
    ]
}

/// A seeder, with what is fitted to it now.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct SeederView {
    id: Uuid,
    name: String,
    serial_number: Option<String>,
    kind: String,
    commissioned_on: String,
    laid_up: bool,
    /// Those of the configuration in force; null if that was voided.
    working_width: Option<Q>,
    row_spacing: Option<Q>,
    /// In force now; before the commissioning, the one to come.
    configuration: Option<ConfigurationView>,
    metering_units: Vec<UnitView>,
}

/// A metering unit, with what is fitted to it now.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct UnitView {
    id: Uuid,
    label: String,
    runs: i64,
    drive: String,
    /// What the drive can hold, where known.
    roller_speed_rpm: Option<SpeedRangeView>,
    /// The form in which its controller takes the number; null where nobody has said.
    keyed_in: Option<KeyedInView>,
    /// In force now; null when none was recorded.
    setup: Option<SetupView>,
}

/// Roller speeds in revolutions per minute.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct SpeedRangeView {
    #[schema(value_type = f64)]
    min: Number,
    #[schema(value_type = f64)]
    max: Number,
}

fn speed_range(unit: &UnitRow) -> Result<Option<SpeedRangeView>, Error> {
    match (&unit.roller_speed_min, &unit.roller_speed_max) {
        (Some(min), Some(max)) => Ok(Some(SpeedRangeView { min: number(min)?, max: number(max)? })),
        _ => Ok(None),
    }
}

/// A decimal of ours as a JSON number: its own digits where JSON allows them (it allows no leading zero).
fn number(entered: &str) -> Result<Number, Error> {
    let inconsistent = || Error::inconsistent("a roller speed", entered);
    let value: f64 = entered.parse().map_err(|_| inconsistent())?;
    serde_json::from_str(entered).ok().or_else(|| Number::from_f64(value)).ok_or_else(inconsistent)
}

async fn unit_view(cx: &mut Cx<'_>, signed: &Signed, unit: UnitRow) -> Result<UnitView, Error> {
    let setup = setups::in_force(cx, &signed.actor.scope, unit.id(), signed.app.clock.now()).await?;
    Ok(UnitView {
        roller_speed_rpm: speed_range(&unit)?,
        keyed_in: unit.keyed_in.0.map(KeyedInView::from),
        setup: setup.map(|row| SetupView::of(row, &signed.actor.scope)),
        id: unit.id,
        label: unit.label,
        runs: unit.runs,
        drive: unit.drive,
    })
}

async fn view(signed: &Signed, row: SeederRow) -> Result<SeederView, Error> {
    let (scope, now, id) = (&signed.actor.scope, signed.app.clock.now(), SeederId(row.id));
    let mut conn = signed.app.read().await?;
    let cx = &mut conn.cx();
    let mut metering_units = Vec::new();
    for unit in act::units_of(cx, scope, id).await? {
        metering_units.push(unit_view(cx, signed, unit).await?);
    }
    let configuration = configurations::in_force(cx, scope, id, now).await?;
    let configuration = configuration.map(|row| ConfigurationView::of(row, scope)).transpose()?;
    Ok(SeederView {
        working_width: configuration.as_ref().map(|configuration| configuration.working_width.clone()),
        row_spacing: configuration.as_ref().map(|configuration| configuration.row_spacing.clone()),
        id: row.id,
        name: row.name,
        serial_number: row.serial_number,
        kind: row.kind,
        commissioned_on: row.commissioned_on,
        laid_up: lay_ups::in_force(cx, scope, id, now).await?.is_some_and(|lay_up| lay_up.laid_up),
        configuration,
        metering_units,
    })
}

async fn find(signed: &Signed, id: SeederId) -> Result<SeederView, Error> {
    let row = act::find_seeder(&mut signed.app.read().await?.cx(), &signed.actor.scope, id).await?;
    view(signed, row).await
}

async fn add_seeder(signed: Signed, sent: Sent<SeederDraft>) -> Result<Created<SeederView>, Error> {
    let outcome = act::add_seeder(&signed, sent.draft, sent.value).await?;
    Ok(Created(outcome, find(&signed, SeederId(outcome.id())).await?))
}

async fn list_seeders(signed: Signed, Asked(asked): Asked<PageAsked>) -> Result<Json<List<SeederView>>, Error> {
    let list = act::page_of_seeders(&mut signed.app.read().await?.cx(), &signed.actor.scope, &asked).await?;
    let mut items = Vec::new();
    for row in list.items {
        items.push(view(&signed, row).await?);
    }
    Ok(Json(List { items, next: list.next }))
}

async fn show_seeder(signed: Signed, PathId(id): PathId) -> Result<Json<SeederView>, Error> {
    find(&signed, SeederId(id)).await.map(Json)
}

async fn change_seeder(
    signed: Signed,
    PathId(id): PathId,
    sent: Sent<SeederChange>,
) -> Result<Json<SeederView>, Error> {
    act::change_seeder(&signed, SeederId(id), sent.draft).await?;
    find(&signed, SeederId(id)).await.map(Json)
}

async fn add_metering_unit(
    signed: Signed,
    PathId(id): PathId,
    sent: Sent<UnitDraft>,
) -> Result<Created<UnitView>, Error> {
    let outcome = act::add_unit(&signed, SeederId(id), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let unit = act::find_unit(&mut conn.cx(), &signed.actor.scope, MeteringUnitId(outcome.id())).await?;
    Ok(Created(outcome, unit_view(&mut conn.cx(), &signed, unit).await?))
}
