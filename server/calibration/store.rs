//! Calibrations and decisions in the database, and what a calibration refers to.

use super::clues::RollerRow;
use super::draft::{CalibrationDraft, DecisionDraft};
use super::stored::{Decided, Row};
use super::weigh::Weighed;
use crate::access::{Reach, Scope};
use crate::db::{Cx, Result, Work};
use crate::fleet::seeder::keyed_in::Said;
use crate::{args, queries};
use jiff::Timestamp;
use sowmark_core::ids::{CalibrationId, LotId, MeteringUnitId, RollerId, ScaleId};
use sowmark_core::quantity::Temperature;
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

queries! {
    UNIT = "select u.id, u.seeder_id, s.name as seeder, u.label, u.runs, u.roller_speed_min, u.roller_speed_max,
            u.key_mass_unit, u.key_per_revolutions, u.key_for
        from metering_unit u join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        where u.organization_id = $1 and u.id = $2";
    LOT = "select id, lot_number, crop, variety, treatment_product, treatment_caution from lot
        where organization_id = $1 and id = $2";
    LOTS = "select id, lot_number, crop, variety, treatment_product, treatment_caution from lot
        where organization_id = $1 order by id desc limit 500";
    SCALE = "select id, name, readability, capacity from scale where organization_id = $1 and id = $2";
    SCALES = "select id, name, readability, capacity from scale where organization_id = $1 order by name, id";
    ROLLER = "select label, displacement from roller where organization_id = $1 and id = $2";
    ROLLERS = "select id, label, displacement from roller where organization_id = $1 order by label, id limit 200";
    SHEETS_BEFORE = "select c.sheet from calibration c
        join standing e on e.organization_id = c.organization_id and e.id = c.id
        where c.organization_id = $1 and c.metering_unit_id = $2 and e.occurred_at <= $3 and c.id <> $4
        order by e.occurred_at desc, e.recorded_at desc, c.id desc limit 5";
    RATIOS = "select distinct r.drive_ratio from setup r
        join standing e on e.organization_id = r.organization_id and e.id = r.id
        join metering_unit u on u.organization_id = r.organization_id and u.id = r.metering_unit_id
        where r.organization_id = $1 and u.seeder_id = $2 order by r.drive_ratio limit 50";
    ADD = "insert into calibration (organization_id, id, metering_unit_id, lot_id, scale_id, method, roller_speed_rpm,
            planned_rate, planned_speed, note, sheet, circumstances, judgement, verdict, factor,
            expanded_uncertainty_percent, air_temperature, relative_humidity_percent, place, checked_by,
            tank_fill_percent)
        values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20, $21)";
    FIND = "select r.*, c.metering_unit_id, u.seeder_id, c.lot_id, c.scale_id, c.method, c.roller_speed_rpm, c.planned_rate,
            c.planned_speed, c.air_temperature, c.relative_humidity_percent, c.tank_fill_percent, c.place, c.checked_by, c.note,
            c.sheet, c.circumstances, c.judgement, c.verdict
        from calibration c
        join metering_unit u on u.organization_id = c.organization_id and u.id = c.metering_unit_id
        join recorded r on r.organization_id = c.organization_id and r.id = c.id
        where c.organization_id = $1 and c.id = $2";
    OF_UNIT = "select r.*, c.metering_unit_id, u.seeder_id, c.lot_id, c.scale_id, c.method, c.roller_speed_rpm, c.planned_rate,
            c.planned_speed, c.air_temperature, c.relative_humidity_percent, c.tank_fill_percent, c.place, c.checked_by, c.note,
            c.sheet, c.circumstances, c.judgement, c.verdict
        from calibration c
        join metering_unit u on u.organization_id = c.organization_id and u.id = c.metering_unit_id
        join recorded r on r.organization_id = c.organization_id and r.id = c.id
        where c.organization_id = $1 and c.metering_unit_id = $2 and c.id > $3 order by c.id limit $4";
    ADD_DECISION = "insert into decision (organization_id, id, calibration_id, decision, reason) values ($1, $2, $3, $4, $5)";
    DECISIONS = "select r.*, d.calibration_id, d.decision, d.reason
        from decision d
        join calibration c on c.organization_id = d.organization_id and c.id = d.calibration_id
        join recorded r on r.organization_id = d.organization_id and r.id = d.id
        where d.organization_id = $1 and c.metering_unit_id = $2
        order by r.occurred_at, r.recorded_at, d.id";
}

/// A metering unit, with the seeder that it belongs to.
#[derive(Clone, Debug, sqlx::FromRow)]
pub(super) struct UnitRow {
    pub(super) id: Uuid,
    pub(super) seeder_id: Uuid,
    pub(super) seeder: String,
    pub(super) label: String,
    pub(super) runs: i64,
    pub(super) roller_speed_min: Option<String>,
    pub(super) roller_speed_max: Option<String>,
    #[sqlx(flatten)]
    pub(super) keyed_in: Said,
}

/// What a catch needs to know of a lot.
#[derive(Clone, Debug, sqlx::FromRow)]
pub(super) struct LotRow {
    pub(super) id: Uuid,
    pub(super) lot_number: String,
    pub(super) crop: String,
    pub(super) variety: Option<String>,
    pub(super) treatment_product: Option<String>,
    pub(super) treatment_caution: Option<String>,
}

impl LotRow {
    /// As a person reads it.
    pub(super) fn says(&self, words: Words) -> String {
        let (crop, number) = (&self.crop, &self.lot_number);
        match &self.variety {
            Some(variety) => say!(words, "catch-lot-named-variety", crop = crop, variety = variety, number = number),
            None => say!(words, "catch-lot-named", crop = crop, number = number),
        }
    }
}

#[derive(Clone, Debug, sqlx::FromRow)]
pub(super) struct ScaleRow {
    pub(super) id: Uuid,
    pub(super) name: String,
    pub(super) readability: String,
    pub(super) capacity: String,
}

#[derive(Clone, Debug, sqlx::FromRow)]
pub(super) struct FittedRoller {
    pub(super) label: String,
    pub(super) displacement: Option<String>,
}

pub(super) async fn unit(cx: &mut Cx<'_>, scope: &Scope, id: MeteringUnitId) -> Result<Option<UnitRow>> {
    let unit: Option<UnitRow> = cx.fetch_optional(UNIT, args![scope.organization, id]).await?;
    Ok(unit.filter(|unit| scope.seeders.includes(&unit.seeder_id.into())))
}

pub(super) async fn lot(cx: &mut Cx<'_>, scope: &Scope, id: LotId) -> Result<Option<LotRow>> {
    let lot: Option<LotRow> = cx.fetch_optional(LOT, args![scope.organization, id]).await?;
    Ok(lot.filter(|lot| scope.lots.includes(&lot.id.into())))
}

pub(super) async fn lots(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<LotRow>> {
    let mut lots: Vec<LotRow> = cx.fetch_all(LOTS, args![scope.organization]).await?;
    lots.retain(|lot| scope.lots.includes(&lot.id.into()));
    Ok(lots)
}

pub(super) async fn scale(cx: &mut Cx<'_>, scope: &Scope, id: ScaleId) -> Result<Option<ScaleRow>> {
    cx.fetch_optional(SCALE, args![scope.organization, id]).await
}

pub(super) async fn scales(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<ScaleRow>> {
    cx.fetch_all(SCALES, args![scope.organization]).await
}

pub(super) async fn roller(cx: &mut Cx<'_>, scope: &Scope, id: RollerId) -> Result<Option<FittedRoller>> {
    cx.fetch_optional(ROLLER, args![scope.organization, id]).await
}

pub(super) async fn rollers(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<RollerRow>> {
    cx.fetch_all(ROLLERS, args![scope.organization]).await
}

/// The sheets of the latest calibrations of a unit up to a moment, the latest first, but for one calibration.
pub(super) async fn sheets_before(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: Uuid,
    until: Timestamp,
    but: Uuid,
) -> Result<Vec<String>> {
    let rows: Vec<(String,)> = cx.fetch_all(SHEETS_BEFORE, args![scope.organization, unit, until, but]).await?;
    Ok(rows.into_iter().map(|(sheet,)| sheet).collect())
}

/// Every drive ratio that a unit of a seeder was ever set up with.
pub(super) async fn ratios_of_seeder(cx: &mut Cx<'_>, scope: &Scope, seeder: Uuid) -> Result<Vec<String>> {
    let rows: Vec<(String,)> = cx.fetch_all(RATIOS, args![scope.organization, seeder]).await?;
    Ok(rows.into_iter().map(|(ratio,)| ratio).collect())
}

/// A calibration as JSON texts, ready to be stored.
pub(super) struct Texts {
    pub(super) sheet: String,
    pub(super) circumstances: String,
    pub(super) judgement: String,
    pub(super) verdict: String,
}

pub(super) async fn add(
    work: &mut Work,
    id: CalibrationId,
    unit: MeteringUnitId,
    draft: &CalibrationDraft,
    weighed: &Weighed,
    texts: Texts,
) -> Result<()> {
    let organization = work.organization();
    let planned = draft.planned.as_ref();
    work.cx()
        .execute(
            ADD,
            args![
                organization,
                id,
                unit,
                draft.lot_id,
                draft.scale_id,
                draft.method.word(),
                draft.roller_speed_rpm.as_ref().map(|rpm| rpm.0.as_str()),
                planned.map(|planned| planned.rate.entered()),
                planned.map(|planned| planned.speed.entered()),
                draft.note.as_ref().map_or("", |note| note.0.as_str()),
                texts.sheet,
                texts.circumstances,
                texts.judgement,
                texts.verdict,
                weighed.judgement.factor,
                weighed.judgement.expanded_uncertainty_percent,
                draft.air_temperature.as_ref().map(Temperature::entered),
                draft.relative_humidity_percent.as_ref().map(|share| share.0.as_str()),
                draft.place.as_ref().map(|place| &place.0),
                draft.checked_by.as_ref().map(|who| &who.0),
                draft.tank_fill_percent.as_ref().map(|share| share.0.as_str())
            ],
        )
        .await?;
    Ok(())
}

/// Whether a calibration is within the scope: its seeder's, and its lot's for somebody who sees only some lots.
pub(super) fn is_seen(scope: &Scope, row: &Row) -> bool {
    scope.seeders.includes(&row.seeder_id.into()) && scope.lots.includes(&row.lot_id.into())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: CalibrationId) -> Result<Option<Row>> {
    let row: Option<Row> = cx.fetch_optional(FIND, args![scope.organization, id]).await?;
    Ok(row.filter(|row| is_seen(scope, row)))
}

/// The calibrations of a unit after an id. What is out of scope is left out before the limit counts.
pub(super) async fn of_unit(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    after: Uuid,
    limit: i64,
) -> Result<Vec<Row>> {
    let fetched = if scope.lots == Reach::All { limit } else { i64::MAX };
    let mut rows: Vec<Row> = cx.fetch_all(OF_UNIT, args![scope.organization, unit, after, fetched]).await?;
    rows.retain(|row| is_seen(scope, row));
    rows.truncate(usize::try_from(limit).unwrap_or(usize::MAX));
    Ok(rows)
}

/// The decisions about all calibrations of a unit, first ones first.
pub(super) async fn decisions(cx: &mut Cx<'_>, scope: &Scope, unit: Uuid) -> Result<Vec<Decided>> {
    cx.fetch_all(DECISIONS, args![scope.organization, unit]).await
}

pub(super) async fn add_decision(
    work: &mut Work,
    id: Uuid,
    calibration: CalibrationId,
    draft: &DecisionDraft,
) -> Result<()> {
    let organization = work.organization();
    work.cx()
        .execute(ADD_DECISION, args![organization, id, calibration, draft.decision.word(), &draft.reason.0])
        .await?;
    Ok(())
}
