//! Readiness as JSON.

use super::act::{self, ReadinessAsked, UnitNow};
use super::names::Names;
use crate::access::{Actor, Permission};
use crate::fleet::seeder::key_in::{Factor, KeyInView};
use crate::texts;
use crate::web::api::{Asked, PathId};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::quantity::Q;
use crate::web::reader::Reader;
use crate::web::routes::{Need, Route};
use axum::Json;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde::Serialize;
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::quantity::unit::KG_PER_REV;
use sowmark_core::readiness::{Due, Readiness, Severity};
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api GET "/readiness", Need::May(Permission::ReadFleet), show_readiness,
            "Which number is true for each unit at a moment, and what is due.")
        .asks::<ReadinessAsked>()
        .answers::<ReadinessView>(),
        crate::route!(api GET "/metering-units/{id}/readiness", Need::May(Permission::ReadFleet), show_unit_readiness,
            "Which number is true for a unit at a moment, and what is due.")
        .asks::<ReadinessAsked>()
        .answers::<UnitReadinessView>(),
    ]
}

/// The units at a moment.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub(super) struct ReadinessView {
    at: String,
    units: Vec<UnitView>,
}

/// One unit at a moment: the same as its line among all units.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub(super) struct UnitReadinessView {
    at: String,
    #[serde(flatten)]
    unit: UnitView,
}

/// A metering unit at a moment.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct UnitView {
    metering_unit_id: Uuid,
    seeder_id: Uuid,
    /// The seeder's name.
    seeder: String,
    label: String,
    /// `ready`, `check`, `calibrate`, `empty` or `laid_up`.
    state: &'static str,
    /// The lot that counts as in the tank.
    lot_id: Option<Uuid>,
    /// The other lots in the tank, those of other clients left out for who is limited to some.
    mixed_with: Vec<Uuid>,
    /// The calibration whose factor is in force; null too where it is withheld, from who is limited to some clients: it was
    /// caught with another client's seed.
    calibration_id: Option<Uuid>,
    /// The calibration that the triggers are against; null where none was accepted, or where it is withheld.
    compared_with: Option<Uuid>,
    /// Whether the factor is older than a later one on another basis.
    recalled: bool,
    /// The number to key in, per run.
    factor: Option<Q>,
    /// The same for all runs in use.
    factor_unit_total: Option<Q>,
    /// The same in the form in which the unit's controller takes it.
    keyed_in: Option<KeyInView>,
    /// When the factor in force was caught.
    in_force_since: Option<String>,
    due: Vec<DueView>,
}

/// A reason why the unit must be caught again.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct DueView {
    trigger: &'static str,
    /// `stop` or `check`.
    severity: &'static str,
    /// From when it has held without a break.
    since: String,
    cause: CauseView,
    /// What is due and what to do, as a sentence.
    says: String,
    waived: Option<WaivedView>,
}

/// The record that began it.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct CauseView {
    kind: &'static str,
    /// Null where it is withheld, from who is limited to some clients: it is another client's.
    id: Option<Uuid>,
}

/// The waiver that lets it pass.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct WaivedView {
    id: Uuid,
    until: String,
    /// Who gave it; null for the host's command line.
    by: Option<String>,
    /// Null where it is withheld, from who is limited to some clients: it is the office's own.
    reason: Option<String>,
}

async fn show_readiness(signed: Signed, Asked(asked): Asked<ReadinessAsked>) -> Result<Json<ReadinessView>, Error> {
    let at = asked.at.map_or_else(|| signed.app.clock.now(), |stamp| stamp.at);
    let mut conn = signed.app.read().await?;
    let board = act::board_for(&mut conn.cx(), &signed.actor, program(&signed.actor), at, None).await?;
    let zone = &signed.actor.time_zone;
    let units = board.units.iter().map(|unit| unit_view(unit, &board.names, &signed.actor)).collect();
    Ok(Json(ReadinessView { at: stamped(at, zone), units }))
}

async fn show_unit_readiness(
    signed: Signed,
    PathId(id): PathId,
    Asked(asked): Asked<ReadinessAsked>,
) -> Result<Json<UnitReadinessView>, Error> {
    let at = asked.at.map_or_else(|| signed.app.clock.now(), |stamp| stamp.at);
    let mut conn = signed.app.read().await?;
    let (unit, names) =
        act::unit_now(&mut conn.cx(), &signed.actor, program(&signed.actor), at, MeteringUnitId(id)).await?;
    let zone = &signed.actor.time_zone;
    Ok(Json(UnitReadinessView { at: stamped(at, zone), unit: unit_view(&unit, &names, &signed.actor) }))
}

/// Who reads what the API answers: it stays English, whoever asks.
pub(super) fn program(actor: &Actor) -> Reader {
    Reader { units: actor.units, words: texts::plain() }
}

fn unit_view(now: &UnitNow, names: &Names, actor: &Actor) -> UnitView {
    let (readiness, zone) = (&now.readiness, &actor.time_zone);
    let keyed_in = |factor: Factor| KeyInView::of(now.unit.keyed_in.0, &factor, actor.organization_units);
    let in_force = readiness.in_force.as_ref();
    UnitView {
        metering_unit_id: now.unit.id,
        seeder_id: now.unit.seeder_id,
        seeder: now.unit.seeder.clone(),
        label: now.unit.label.clone(),
        state: readiness.state.as_str(),
        lot_id: readiness.lot.map(|lot| lot.0),
        mixed_with: readiness.mixed_with.iter().filter_map(|lot| names.told(lot.0)).collect(),
        calibration_id: in_force.and_then(|number| names.told(number.calibration.0)),
        compared_with: readiness.compared_with.and_then(|calibration| names.told(calibration.0)),
        recalled: in_force.is_some_and(|number| number.recalled),
        factor: in_force.map(|number| Q::computed(number.factor, KG_PER_REV)),
        factor_unit_total: in_force.map(|number| Q::computed(number.factor_unit_total, KG_PER_REV)),
        keyed_in: now.factor(names).map(keyed_in),
        in_force_since: in_force.map(|number| stamped(number.since, zone)),
        due: due_views(readiness, &now.says, names, zone),
    }
}

/// What is due, with the sentence of each.
#[must_use]
pub fn due_views(readiness: &Readiness, says: &[String], names: &Names, zone: &TimeZone) -> Vec<DueView> {
    readiness.due.iter().zip(says).map(|(due, says)| due_view(due, says, names, zone)).collect()
}

fn due_view(due: &Due, says: &str, names: &Names, zone: &TimeZone) -> DueView {
    DueView {
        trigger: due.trigger.as_str(),
        severity: match due.severity {
            Severity::Stop => "stop",
            Severity::Check => "check",
        },
        since: stamped(due.since, zone),
        cause: CauseView { kind: due.cause.kind.as_str(), id: names.told(due.cause.id) },
        says: says.to_owned(),
        waived: due.waived.as_ref().map(|waived| WaivedView {
            id: waived.waiver,
            until: stamped(waived.until, zone),
            by: names.recorder(waived.waiver).map(str::to_owned),
            reason: waived.reason.clone(),
        }),
    }
}

/// An instant as the organization's clocks show it.
#[must_use]
pub fn stamped(at: Timestamp, zone: &TimeZone) -> String {
    at.display_with_offset(zone.to_offset(at)).to_string()
}
