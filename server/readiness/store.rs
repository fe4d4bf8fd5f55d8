//! Everything that readiness is computed from, as it stands in the database: one query per table, for the whole
//! organization or for one unit.
//!
//! Void and corrected records are left out by the view `standing`. One unit is a range of ids that begins and ends with
//! it; the whole organization is the range of all ids: the same query and the same index serve both.

use crate::db::{Cx, Result, Row};
use crate::fleet::seeder::keyed_in::Said;
use crate::records::free_text::FreeText;
use crate::web::error::Error;
use crate::{args, queries};
use jiff::Timestamp;
use sowmark_core::ids::OrganizationId;
use sowmark_core::moment::{Dated, Moment};
use std::collections::HashMap;
use uuid::Uuid;

queries! {
    UNITS = "select u.id, u.seeder_id, s.name as seeder, s.commissioned_on, u.label, u.runs, u.drive, u.roller_speed_min, u.roller_speed_max,
            u.key_mass_unit, u.key_per_revolutions, u.key_for
        from metering_unit u join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        where u.organization_id = $1 and u.id between $2 and $3 order by s.name, s.id, u.position, u.id";
    LAY_UPS = "select e.id, e.occurred_at, e.recorded_at, e.recorded_by, r.seeder_id as subject, r.laid_up
        from lay_up r join standing e on e.organization_id = r.organization_id and e.id = r.id
        where r.organization_id = $1 and r.seeder_id between $2 and $3";
    CONFIGURATIONS = "select e.id, e.occurred_at, e.recorded_at, e.recorded_by, r.seeder_id as subject, r.working_width, r.row_spacing
        from configuration r join standing e on e.organization_id = r.organization_id and e.id = r.id
        where r.organization_id = $1 and r.seeder_id between $2 and $3";
    SERVICES = "select e.id, e.occurred_at, e.recorded_at, e.recorded_by, r.seeder_id as subject, r.metering_unit_id, r.component,
            r.affects_metering
        from service r join standing e on e.organization_id = r.organization_id and e.id = r.id
        where r.organization_id = $1 and r.seeder_id between $2 and $3";
    SETUPS = "select e.id, e.occurred_at, e.recorded_at, e.recorded_by, r.metering_unit_id as subject, r.roller_id, r.drive_ratio,
            r.gate, r.runs
        from setup r join standing e on e.organization_id = r.organization_id and e.id = r.id
        where r.organization_id = $1 and r.metering_unit_id between $2 and $3";
    FILLS = "select e.id, e.occurred_at, e.recorded_at, e.recorded_by, r.metering_unit_id as subject, r.lot_id
        from fill r join standing e on e.organization_id = r.organization_id and e.id = r.id
        where r.organization_id = $1 and r.metering_unit_id between $2 and $3";
    EMPTYINGS = "select e.id, e.occurred_at, e.recorded_at, e.recorded_by, r.metering_unit_id as subject, r.lot_id, r.to_empty
        from emptying r join standing e on e.organization_id = r.organization_id and e.id = r.id
        where r.organization_id = $1 and r.metering_unit_id between $2 and $3";
    CALIBRATIONS = "select e.id, e.occurred_at, e.recorded_at, e.recorded_by, r.metering_unit_id as subject, r.lot_id, r.scale_id,
            r.roller_speed_rpm, r.verdict, r.factor, r.expanded_uncertainty_percent
        from calibration r join standing e on e.organization_id = r.organization_id and e.id = r.id
        where r.organization_id = $1 and r.metering_unit_id between $2 and $3";
    DECISIONS = "select e.id, coalesce(e.occurred_at, e.recorded_at) as occurred_at, e.recorded_at, e.recorded_by,
            d.calibration_id as subject, d.decision
        from decision d join standing e on e.organization_id = d.organization_id and e.id = d.id
        join calibration c on c.organization_id = d.organization_id and c.id = d.calibration_id
        where d.organization_id = $1 and c.metering_unit_id between $2 and $3";
    JOBS = "select e.id, e.occurred_at, e.recorded_at, e.recorded_by, r.metering_unit_id as subject, r.lot_id, r.area_m2,
            r.seed_used_kg, r.seed_used_basis, r.target_rate, r.speed
        from job r join standing e on e.organization_id = r.organization_id and e.id = r.id
        where r.organization_id = $1 and r.metering_unit_id between $2 and $3";
    WAIVERS = "select e.id, e.occurred_at, e.recorded_at, e.recorded_by, r.metering_unit_id as subject, r.trigger_name, r.until_at,
            r.reason
        from waiver r join standing e on e.organization_id = r.organization_id and e.id = r.id
        where r.organization_id = $1 and r.metering_unit_id between $2 and $3";
    LOTS = "select id, lot_number, crop, variety from lot where organization_id = $1";
    LOT_TESTS = "select e.id, e.occurred_at, e.recorded_at, e.recorded_by, r.lot_id as subject, r.thousand_seed_weight, r.bulk_density
        from lot_test r join standing e on e.organization_id = r.organization_id and e.id = r.id
        where r.organization_id = $1";
    SEASONS = "select id, name, starts_on, crops from season where organization_id = $1";
    SCALES = "select id, name, readability from scale where organization_id = $1";
    SCALE_CHECKS = "select e.id, e.occurred_at, e.recorded_at, e.recorded_by, r.scale_id as subject, r.reference, r.reading
        from scale_check r join standing e on e.organization_id = r.organization_id and e.id = r.id
        where r.organization_id = $1";
    POLICIES = "select e.id, coalesce(e.occurred_at, e.recorded_at) as occurred_at, e.recorded_at, e.recorded_by,
            r.organization_id as subject, r.tolerances
        from policy r join standing e on e.organization_id = r.organization_id and e.id = r.id
        where r.organization_id = $1";
    CORRECTIONS = "select c.id, o.id as replaced, o.recorded_at, o.recorded_by
        from entry c join entry o on o.organization_id = c.organization_id and o.id = c.corrects
        where c.organization_id = $1 and c.corrects is not null";
    ROLLERS = "select id, label as name from roller where organization_id = $1";
    PEOPLE = "select a.id, a.name from membership m join account a on a.id = m.account_id where m.organization_id = $1";
}

/// A metering unit and the seeder it belongs to.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct UnitRow {
    pub id: Uuid,
    pub seeder_id: Uuid,
    pub seeder: String,
    pub(super) commissioned_on: String,
    pub label: String,
    pub runs: i64,
    pub drive: String,
    /// The roller speeds that the drive can hold, 1/min, as entered.
    pub roller_speed_min: Option<String>,
    pub roller_speed_max: Option<String>,
    /// The form in which its controller takes the number.
    #[sqlx(flatten)]
    pub keyed_in: Said,
}

/// What every record has: its place in the order of records, who entered it, and what it is about (a unit, a seeder, a
/// lot, a scale). A correction has the place of what it replaces, and names who recorded that (`Places`).
#[derive(Clone, Copy, Debug, sqlx::FromRow)]
pub struct Head {
    pub id: Uuid,
    pub occurred_at: i64,
    pub recorded_at: i64,
    pub recorded_by: Option<Uuid>,
    pub subject: Uuid,
}

impl Head {
    /// Its place in the order of records.
    ///
    /// # Errors
    /// An instant that no calendar has.
    pub fn moment(&self) -> std::result::Result<Moment, Error> {
        Ok(Moment { occurred_at: instant(self.occurred_at)?, recorded_at: instant(self.recorded_at)?, id: self.id })
    }

    pub(super) fn dated<T>(&self, what: T) -> std::result::Result<Dated<T>, Error> {
        Ok(Dated::new(self.moment()?, what))
    }
}

pub(super) fn instant(micros: i64) -> std::result::Result<Timestamp, Error> {
    Timestamp::from_microsecond(micros).map_err(|_| Error::inconsistent("an instant", &micros.to_string()))
}

trait Recorded {
    fn head(&mut self) -> &mut Head;
}

/// What a correction replaces, and when and by whom that was recorded.
#[derive(Clone, Copy, Debug, sqlx::FromRow)]
struct CorrectionRow {
    id: Uuid,
    replaced: Uuid,
    recorded_at: i64,
    recorded_by: Option<Uuid>,
}

/// The places of corrections: of two records of one moment the one that was recorded first comes first, and stays there when it
/// is corrected. Who did it is who recorded it first.
#[derive(Debug)]
struct Places(HashMap<Uuid, CorrectionRow>);

impl Places {
    async fn of(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Self> {
        let rows: Vec<CorrectionRow> = cx.fetch_all(CORRECTIONS, args![organization]).await?;
        Ok(Self(rows.into_iter().map(|row| (row.id, row)).collect()))
    }

    fn settled<T: Recorded>(&self, mut rows: Vec<T>) -> Vec<T> {
        for head in rows.iter_mut().map(Recorded::head) {
            let mut id = head.id;
            while let Some(correction) = self.0.get(&id) {
                (head.recorded_at, head.recorded_by, id) =
                    (correction.recorded_at, correction.recorded_by, correction.replaced);
            }
        }
        rows
    }
}

macro_rules! rows {
    ($($name:ident { $($field:ident: $type:ty),* $(,)? })*) => { $(
        #[derive(Clone, Debug, sqlx::FromRow)]
        pub(super) struct $name {
            #[sqlx(flatten)]
            pub(super) head: Head,
            $(pub(super) $field: $type),*
        }

        impl Recorded for $name {
            fn head(&mut self) -> &mut Head {
                &mut self.head
            }
        }
    )* };
}

rows! {
    LayUpRow { laid_up: bool }
    ConfigurationRow { working_width: String, row_spacing: String }
    ServiceRow { metering_unit_id: Option<Uuid>, component: String, affects_metering: bool }
    SetupRow { roller_id: Uuid, drive_ratio: String, gate: Option<String>, runs: i64 }
    FillRow { lot_id: Uuid }
    EmptyingRow { lot_id: Uuid, to_empty: bool }
    CalibrationRow {
        lot_id: Uuid,
        scale_id: Option<Uuid>,
        roller_speed_rpm: Option<String>,
        verdict: String,
        factor: f64,
        expanded_uncertainty_percent: f64,
    }
    DecisionRow { decision: String }
    JobRow { lot_id: Uuid, area_m2: f64, seed_used_kg: f64, seed_used_basis: String, target_rate: String, speed: Option<String> }
    WaiverRow { trigger_name: String, until_at: i64, reason: FreeText }
    LotTestRow { thousand_seed_weight: Option<String>, bulk_density: Option<String> }
    ScaleCheckRow { reference: String, reading: String }
    PolicyRow { tolerances: String }
}

#[derive(Clone, Debug, sqlx::FromRow)]
pub(super) struct LotRow {
    pub(super) id: Uuid,
    pub(super) lot_number: String,
    pub(super) crop: String,
    pub(super) variety: Option<String>,
}

#[derive(Clone, Debug, sqlx::FromRow)]
pub(super) struct SeasonRow {
    pub(super) id: Uuid,
    pub(super) name: String,
    pub(super) starts_on: String,
    pub(super) crops: Option<String>,
}

#[derive(Clone, Debug, sqlx::FromRow)]
pub(super) struct ScaleRow {
    pub(super) id: Uuid,
    pub(super) name: String,
    pub(super) readability: String,
}

#[derive(Clone, Debug, sqlx::FromRow)]
pub(super) struct NameRow {
    pub(super) id: Uuid,
    pub(super) name: String,
}

/// A range of ids: one, or all.
#[derive(Clone, Copy, Debug)]
pub(super) struct Span {
    first: Uuid,
    last: Uuid,
}

impl Span {
    pub(super) const ALL: Self = Self { first: Uuid::nil(), last: Uuid::max() };

    pub(super) fn only(id: Uuid) -> Self {
        Self { first: id, last: id }
    }
}

/// What was recorded of the seeders and units of a span.
#[derive(Clone, Debug, Default)]
pub(super) struct UnitRecordRows {
    pub(super) lay_ups: Vec<LayUpRow>,
    pub(super) configurations: Vec<ConfigurationRow>,
    pub(super) services: Vec<ServiceRow>,
    pub(super) setups: Vec<SetupRow>,
    pub(super) fills: Vec<FillRow>,
    pub(super) emptyings: Vec<EmptyingRow>,
    pub(super) calibrations: Vec<CalibrationRow>,
    pub(super) decisions: Vec<DecisionRow>,
    pub(super) jobs: Vec<JobRow>,
    pub(super) waivers: Vec<WaiverRow>,
}

/// What surrounds the units, of the whole organization.
#[derive(Clone, Debug)]
pub(super) struct SurroundingRows {
    pub(super) lots: Vec<LotRow>,
    pub(super) lot_tests: Vec<LotTestRow>,
    pub(super) seasons: Vec<SeasonRow>,
    pub(super) scales: Vec<ScaleRow>,
    pub(super) scale_checks: Vec<ScaleCheckRow>,
    pub(super) policies: Vec<PolicyRow>,
}

pub(super) async fn units(cx: &mut Cx<'_>, organization: OrganizationId, units: Span) -> Result<Vec<UnitRow>> {
    ranged(cx, UNITS, organization, units).await
}

pub(super) async fn records(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    seeders: Span,
    units: Span,
) -> Result<UnitRecordRows> {
    let places = Places::of(cx, organization).await?;
    Ok(UnitRecordRows {
        lay_ups: places.settled(ranged(cx, LAY_UPS, organization, seeders).await?),
        configurations: places.settled(ranged(cx, CONFIGURATIONS, organization, seeders).await?),
        services: places.settled(ranged(cx, SERVICES, organization, seeders).await?),
        setups: places.settled(ranged(cx, SETUPS, organization, units).await?),
        fills: places.settled(ranged(cx, FILLS, organization, units).await?),
        emptyings: places.settled(ranged(cx, EMPTYINGS, organization, units).await?),
        calibrations: places.settled(ranged(cx, CALIBRATIONS, organization, units).await?),
        decisions: places.settled(ranged(cx, DECISIONS, organization, units).await?),
        jobs: places.settled(ranged(cx, JOBS, organization, units).await?),
        waivers: places.settled(ranged(cx, WAIVERS, organization, units).await?),
    })
}

pub(super) async fn surroundings(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<SurroundingRows> {
    let places = Places::of(cx, organization).await?;
    Ok(SurroundingRows {
        lots: cx.fetch_all(LOTS, args![organization]).await?,
        lot_tests: places.settled(cx.fetch_all(LOT_TESTS, args![organization]).await?),
        seasons: cx.fetch_all(SEASONS, args![organization]).await?,
        scales: cx.fetch_all(SCALES, args![organization]).await?,
        scale_checks: places.settled(cx.fetch_all(SCALE_CHECKS, args![organization]).await?),
        policies: policies(cx, organization).await?,
    })
}

pub(super) async fn policies(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<PolicyRow>> {
    cx.fetch_all(POLICIES, args![organization]).await
}

pub(super) async fn rollers(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<NameRow>> {
    cx.fetch_all(ROLLERS, args![organization]).await
}

pub(super) async fn people(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<NameRow>> {
    cx.fetch_all(PEOPLE, args![organization]).await
}

async fn ranged<T: Row>(
    cx: &mut Cx<'_>,
    sql: &'static str,
    organization: OrganizationId,
    span: Span,
) -> Result<Vec<T>> {
    cx.fetch_all(sql, args![organization, span.first, span.last]).await
}
