//! From rows to what `core` computes with: grouped by unit, entered quantities in SI, each calibration with what became
//! of it. Reads no database and judges nothing.

use super::store::{self, CalibrationRow, DecisionRow, JobRow, SurroundingRows, UnitRecordRows, UnitRow};
use crate::access::Scope;
use crate::db::kind::Kind;
use crate::web::error::Error;
use crate::web::quantity::stored;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use sowmark_core::basis::{Configuration, Setup};
use sowmark_core::ids::{LotId, MeteringUnitId, RollerId, ScaleId, SeasonId, SeederId};
use sowmark_core::moment::{Dated, Moment};
use sowmark_core::policy::Policy;
use sowmark_core::quantity::unit::dimension::{BulkDensity, Length, Mass, Rate, SeedWeight, Speed};
use sowmark_core::quantity::{Decimal, Dimension, DriveRatio};
use sowmark_core::readiness::{
    CalibrationFacts, Emptying, Fill, JobFacts, LotFacts, LotTest, ScaleCheck, ScaleFacts, Season, SeedUsedBasis,
    Service, Standing, Surroundings, UnitHistory, Waiver,
};
use std::collections::HashMap;
use uuid::Uuid;

/// A service of one unit, or of the whole seeder, and whether it affects metering.
type SeederService = Dated<(Option<Uuid>, bool)>;

type Grouped<T> = HashMap<Uuid, Vec<Dated<T>>>;

/// The histories of the units, in their order, for whoever asks: a waiver's reason is theirs to read, or withheld.
pub(super) fn histories(scope: &Scope, units: &[UnitRow], rows: &UnitRecordRows) -> Result<Vec<UnitHistory>, Error> {
    let latest = latest_decisions(&rows.decisions)?;
    let lay_ups = group(&rows.lay_ups, |row| (row.head, Ok(row.laid_up)))?;
    let configurations =
        group(&rows.configurations, |row| (row.head, configuration(&row.working_width, &row.row_spacing)))?;
    let services = group(&rows.services, |row| (row.head, Ok((row.metering_unit_id, row.affects_metering))))?;
    let mut setups = group(&rows.setups, |row| (row.head, setup(row)))?;
    let mut fills = group(&rows.fills, |row| (row.head, Ok(Fill { lot: LotId(row.lot_id) })))?;
    let mut emptyings =
        group(&rows.emptyings, |row| (row.head, Ok(Emptying { lot: LotId(row.lot_id), to_empty: row.to_empty })))?;
    let mut calibrations = group(&rows.calibrations, |row| (row.head, calibration(row, latest.get(&row.head.id))))?;
    let mut jobs = group(&rows.jobs, |row| (row.head, job(row)))?;
    let mut waivers = group(&rows.waivers, |row| (row.head, waiver(row, scope)))?;
    units
        .iter()
        .map(|unit| {
            Ok(UnitHistory {
                seeder: SeederId(unit.seeder_id),
                unit: MeteringUnitId(unit.id),
                commissioned_on: date(&unit.commissioned_on)?,
                laid_up: lay_ups.get(&unit.seeder_id).cloned().unwrap_or_default(),
                configurations: configurations.get(&unit.seeder_id).cloned().unwrap_or_default(),
                setups: setups.remove(&unit.id).unwrap_or_default(),
                services: services_of(unit, services.get(&unit.seeder_id)),
                fills: fills.remove(&unit.id).unwrap_or_default(),
                emptyings: emptyings.remove(&unit.id).unwrap_or_default(),
                calibrations: calibrations.remove(&unit.id).unwrap_or_default(),
                jobs: jobs.remove(&unit.id).unwrap_or_default(),
                waivers: waivers.remove(&unit.id).unwrap_or_default(),
            })
        })
        .collect()
}

/// What surrounds them.
pub(super) fn surroundings(zone: &TimeZone, rows: &SurroundingRows) -> Result<Surroundings, Error> {
    let mut tests = group(&rows.lot_tests, |row| {
        (row.head, lot_test(row.bulk_density.as_deref(), row.thousand_seed_weight.as_deref()))
    })?;
    let mut checks = group(&rows.scale_checks, |row| (row.head, scale_check(&row.reference, &row.reading)))?;
    let lots = rows.lots.iter().map(|lot| {
        (LotId(lot.id), LotFacts { crop: lot.crop.clone(), tests: tests.remove(&lot.id).unwrap_or_default() })
    });
    let lots = lots.collect();
    let mut scales = HashMap::new();
    for scale in &rows.scales {
        let facts = ScaleFacts {
            readability_kg: si::<Mass>(&scale.readability)?,
            checks: checks.remove(&scale.id).unwrap_or_default(),
        };
        scales.insert(ScaleId(scale.id), facts);
    }
    let seasons = rows.seasons.iter().map(|row| season(row.id, &row.starts_on, row.crops.as_deref()));
    let policies = rows.policies.iter().map(|row| row.head.dated(policy(&row.tolerances)?));
    Ok(Surroundings {
        time_zone: zone.clone(),
        lots,
        seasons: seasons.collect::<Result<_, Error>>()?,
        scales,
        policies: policies.collect::<Result<_, Error>>()?,
    })
}

/// Tolerances as they are stored.
pub(super) fn policy(tolerances: &str) -> Result<Policy, Error> {
    serde_json::from_str(tolerances).map_err(|_| Error::inconsistent("policy.tolerances", tolerances))
}

fn group<R, T>(rows: &[R], read: impl Fn(&R) -> (store::Head, Result<T, Error>)) -> Result<Grouped<T>, Error> {
    let mut grouped: Grouped<T> = HashMap::new();
    for row in rows {
        let (head, what) = read(row);
        grouped.entry(head.subject).or_default().push(head.dated(what?)?);
    }
    Ok(grouped)
}

fn services_of(unit: &UnitRow, of_seeder: Option<&Vec<SeederService>>) -> Vec<Dated<Service>> {
    of_seeder
        .into_iter()
        .flatten()
        .filter(|service| service.what.0.is_none_or(|only| only == unit.id))
        .map(|service| Dated::new(service.moment, Service { affects_metering: service.what.1 }))
        .collect()
}

/// The office's last word on each calibration.
fn latest_decisions(decisions: &[DecisionRow]) -> Result<HashMap<Uuid, Standing>, Error> {
    let mut latest: HashMap<Uuid, (Moment, Standing)> = HashMap::new();
    for row in decisions {
        let standing = match row.decision.as_str() {
            "accepted" => Standing::Accepted,
            "rejected" => Standing::Rejected,
            other => return Err(Error::inconsistent("decision.decision", other)),
        };
        let moment = row.head.moment()?;
        match latest.get(&row.head.subject) {
            Some((last, _)) if *last > moment => {}
            _ => {
                latest.insert(row.head.subject, (moment, standing));
            }
        }
    }
    Ok(latest.into_iter().map(|(calibration, (_, standing))| (calibration, standing)).collect())
}

fn calibration(row: &CalibrationRow, decided: Option<&Standing>) -> Result<CalibrationFacts, Error> {
    let judged = if row.verdict == "fail" { Standing::Held } else { Standing::Accepted };
    Ok(CalibrationFacts {
        lot: LotId(row.lot_id),
        standing: decided.copied().unwrap_or(judged),
        factor: row.factor,
        roller_speed_rpm: row.roller_speed_rpm.as_deref().map(number).transpose()?,
        scale: row.scale_id.map(ScaleId),
    })
}

fn job(row: &JobRow) -> Result<JobFacts, Error> {
    let seed_used_basis = match row.seed_used_basis.as_str() {
        "weighed" => SeedUsedBasis::Weighed,
        "bags" => SeedUsedBasis::Bags,
        "machine_total" => SeedUsedBasis::MachineTotal,
        other => return Err(Error::inconsistent("job.seed_used_basis", other)),
    };
    Ok(JobFacts {
        lot: LotId(row.lot_id),
        area_m2: row.area_m2,
        seed_used_kg: row.seed_used_kg,
        seed_used_basis,
        target_rate: si::<Rate>(&row.target_rate)?,
        speed: row.speed.as_deref().map(si::<Speed>).transpose()?,
    })
}

fn setup(row: &store::SetupRow) -> Result<Setup, Error> {
    Ok(Setup {
        roller: RollerId(row.roller_id),
        drive_ratio: DriveRatio::parse(&row.drive_ratio)
            .map_err(|_| Error::inconsistent("setup.drive_ratio", &row.drive_ratio))?,
        gate: row.gate.clone(),
        runs: u32::try_from(row.runs).map_err(|_| Error::inconsistent("setup.runs", &row.runs.to_string()))?,
    })
}

fn configuration(working_width: &str, row_spacing: &str) -> Result<Configuration, Error> {
    Ok(Configuration { working_width_m: si::<Length>(working_width)?, row_spacing_m: si::<Length>(row_spacing)? })
}

fn waiver(row: &store::WaiverRow, scope: &Scope) -> Result<Waiver, Error> {
    Ok(Waiver {
        trigger: row.trigger_name.parse().map_err(|_| Error::inconsistent("waiver.trigger_name", &row.trigger_name))?,
        until: store::instant(row.until_at)?,
        reason: row.reason.told(Some(Kind::Waiver), scope).map(str::to_owned),
    })
}

fn lot_test(bulk_density: Option<&str>, thousand_seed_weight: Option<&str>) -> Result<LotTest, Error> {
    Ok(LotTest {
        bulk_density: bulk_density.map(si::<BulkDensity>).transpose()?,
        thousand_seed_weight: thousand_seed_weight.map(si::<SeedWeight>).transpose()?,
    })
}

fn scale_check(reference: &str, reading: &str) -> Result<ScaleCheck, Error> {
    Ok(ScaleCheck { reference_kg: si::<Mass>(reference)?, reading_kg: si::<Mass>(reading)? })
}

fn season(id: Uuid, starts_on: &str, crops: Option<&str>) -> Result<Season, Error> {
    let crops = crops.map(|crops| serde_json::from_str(crops).map_err(|_| Error::inconsistent("season.crops", crops)));
    Ok(Season { id: SeasonId(id), starts_on: date(starts_on)?, crops: crops.transpose()? })
}

fn date(text: &str) -> Result<Date, Error> {
    text.parse().map_err(|_| Error::inconsistent("a date", text))
}

fn number(text: &str) -> Result<f64, Error> {
    Ok(Decimal::parse(text).map_err(|_| Error::inconsistent("a number", text))?.to_f64())
}

fn si<D: Dimension>(entered: &str) -> Result<f64, Error> {
    Ok(stored::<D>(entered)?.si())
}
