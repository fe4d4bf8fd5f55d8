//! Usage as JSON.

use super::act::{self, Drift, JobUse, LotUse, TankUse, Usage};
use super::asked::UsageAsked;
use crate::access::{Actor, Permission};
use crate::readiness::{DueView, Names, due_views, stamped};
use crate::web::api::Asked;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use axum::Json;
use jiff::tz::TimeZone;
use serde::Serialize;
use sowmark_core::quantity::unit::{HA, KG, KG_PER_HA, KG_PER_REV, dimension};
use sowmark_core::usage::{Sown, Total};
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api GET "/usage", Need::May(Permission::ReadUsage), show_usage,
            "Where the seed went: lots, jobs and under which number they were sown, tanks, drift.")
        .asks::<UsageAsked>()
        .answers::<UsageView>(),
    ]
}

/// Where the seed went over a period.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct UsageView {
    /// Null: from the beginning.
    from: Option<String>,
    /// Null: until now.
    to: Option<String>,
    area: AreaView,
    /// Empty for who does not see stock.
    lots: Vec<LotView>,
    jobs: Vec<JobView>,
    tanks: Vec<TankView>,
    drift: Vec<DriftView>,
}

/// What was sown, and under which number.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct AreaView {
    sown: Q,
    /// Sown while the unit had no number that was true.
    without_valid_calibration: Q,
}

/// The balance of a lot over the period.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct LotView {
    lot_id: Uuid,
    lot_number: String,
    /// Expected on hand when the period began.
    opening: Q,
    received: Q,
    filled: Q,
    /// Out of tanks or otherwise.
    returned: Q,
    sown: Q,
    /// What was sown, by how it was known.
    sown_by_basis: SownView,
    sold: Q,
    discarded: Q,
    expected_on_hand: Q,
    /// By the latest count of the period.
    counted: Option<Q>,
    /// Counted - expected at the count: below zero seed is missing.
    unaccounted: Option<Q>,
    /// Its standard uncertainty.
    unaccounted_uncertainty: Option<Q>,
    /// Fills and emptyings that nobody weighed.
    unweighed: u32,
}

/// Seed of jobs, by how it was known.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct SownView {
    weighed: Q,
    bags: Q,
    machine_total: Q,
}

/// What a job came to.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct JobView {
    id: Uuid,
    occurred_at: String,
    metering_unit_id: Uuid,
    seeder_id: Uuid,
    lot_id: Uuid,
    field_id: Option<Uuid>,
    field: String,
    area: Q,
    seed_used: Q,
    /// `weighed`, `bags` or `machine_total`: the last says nothing about the factor.
    seed_used_basis: String,
    /// Null for a job without seed or ground.
    actual_rate: Option<Q>,
    target_rate: Q,
    deviation_percent: Option<f64>,
    /// The relative standard uncertainty of the actual rate; null for a machine total.
    rate_uncertainty_percent: Option<f64>,
    seeds_per_m2: Option<f64>,
    /// If everything that germinates comes up.
    plants_per_m2: Option<f64>,
    /// Whose factor was in force when the job began; null too where it is withheld, from who is limited to some clients: it was
    /// caught with another client's seed.
    calibration_id: Option<Uuid>,
    calibration_valid: bool,
    /// `ready`, `check`, `calibrate` or `laid_up`, when the job began.
    state: &'static str,
    /// The triggers that stood when it began.
    due: Vec<DueView>,
}

/// A tank from one time that it was empty to the next.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct TankView {
    metering_unit_id: Uuid,
    lot_ids: Vec<Uuid>,
    began: Option<String>,
    /// Null while seed should be in it.
    ended: Option<String>,
    filled: Q,
    emptied: Q,
    sown: Q,
    sown_by_basis: SownView,
    /// Filled - emptied - sown.
    left: Q,
    /// The same of a tank that was emptied to empty, where everything was weighed.
    unaccounted: Option<Q>,
    unaccounted_uncertainty: Option<Q>,
    unweighed: u32,
}

/// How the jobs since a calibration agree with its factor.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct DriftView {
    metering_unit_id: Uuid,
    calibration_id: Uuid,
    points: Vec<PointView>,
    /// Of z, above and below zero, after each job.
    limits: Vec<f64>,
    /// Whether the latest z is beyond its limit.
    out: bool,
    /// Factor x exp(z) of the weighted chart: a hint, never a number to key in.
    implied_factor: Q,
}

/// A job on the charts.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct PointView {
    job_id: Uuid,
    occurred_at: String,
    /// ln(actual / target).
    x: f64,
    /// Its relative standard uncertainty.
    u: f64,
    /// The smoothed x of the plain chart.
    z: f64,
    /// The smoothed x of the chart that weighs each job by how well it is known, and its limit.
    weighted_z: f64,
    weighted_limit: f64,
}

async fn show_usage(signed: Signed, Asked(asked): Asked<UsageAsked>) -> Result<Json<UsageView>, Error> {
    let mut conn = signed.app.read().await?;
    let usage = act::usage(&mut conn.cx(), &signed, &asked).await?;
    usage_view(&usage, &signed.actor).map(Json)
}

fn usage_view(usage: &Usage, actor: &Actor) -> Result<UsageView, Error> {
    let zone = &actor.time_zone;
    let jobs = usage.jobs.iter().map(|job| job_view(job, &usage.names, zone)).collect::<Result<_, Error>>()?;
    // From a plain zero: an empty sum of floats is a negative one.
    let area = |counts: &dyn Fn(&&JobUse) -> bool| {
        let square_metres = usage.jobs.iter().filter(counts).fold(0.0, |sum, job| sum + job.facts.area_m2);
        Q::computed(square_metres, HA)
    };
    Ok(UsageView {
        from: usage.period.from.map(|from| stamped(from, zone)),
        to: usage.period.to.map(|to| stamped(to, zone)),
        area: AreaView { sown: area(&|_| true), without_valid_calibration: area(&|job| !job.was_true()) },
        lots: usage.lots.iter().map(lot_view).collect(),
        jobs,
        tanks: usage.tanks.iter().map(|tank| tank_view(tank, zone)).collect(),
        drift: usage.drifts.iter().map(|drift| drift_view(drift, zone)).collect(),
    })
}

fn kg(total: Total) -> Q {
    Q::computed(total.kg, KG)
}

fn sown_view(sown: &Sown) -> SownView {
    SownView { weighed: kg(sown.weighed), bags: kg(sown.bags), machine_total: kg(sown.machine_total) }
}

fn lot_view(of: &LotUse) -> LotView {
    let balance = &of.balance;
    let unaccounted = balance.counted.map(|count| count.unaccounted());
    LotView {
        lot_id: of.lot.id,
        lot_number: of.lot.lot_number.clone(),
        opening: kg(balance.opening),
        received: kg(balance.received),
        filled: kg(balance.filled),
        returned: kg(balance.returned),
        sown: kg(of.sown.all()),
        sown_by_basis: sown_view(&of.sown),
        sold: kg(balance.sold),
        discarded: kg(balance.discarded),
        expected_on_hand: kg(balance.expected_on_hand()),
        counted: balance.counted.map(|count| kg(count.found)),
        unaccounted: unaccounted.map(kg),
        unaccounted_uncertainty: unaccounted.map(|total| Q::computed(total.uncertainty_kg(), KG)),
        unweighed: balance.unweighed,
    }
}

fn job_view(job: &JobUse, names: &Names, zone: &TimeZone) -> Result<JobView, Error> {
    let row = &job.row;
    Ok(JobView {
        id: row.head.id,
        occurred_at: row.head.stamp().rfc3339(),
        metering_unit_id: row.metering_unit_id,
        seeder_id: row.seeder_id,
        lot_id: row.lot_id,
        field_id: row.field_id,
        field: row.field().to_owned(),
        area: Q::stored::<dimension::Area>(&row.area)?,
        seed_used: Q::stored::<dimension::Mass>(&row.seed_used)?,
        seed_used_basis: row.seed_used_basis.clone(),
        actual_rate: job.came_to.map(|came_to| Q::computed(came_to.rate, KG_PER_HA)),
        target_rate: Q::stored::<dimension::Rate>(&row.target_rate)?,
        deviation_percent: job.came_to.map(|came_to| 100.0 * came_to.deviation),
        rate_uncertainty_percent: job.came_to.and_then(|came_to| came_to.uncertainty).map(|share| 100.0 * share),
        seeds_per_m2: job.came_to.and_then(|came_to| came_to.seeds_per_m2),
        plants_per_m2: job.plants_per_m2,
        calibration_id: job.readiness.in_force.as_ref().and_then(|number| names.told(number.calibration.0)),
        calibration_valid: job.was_true(),
        state: job.readiness.state.as_str(),
        due: due_views(&job.readiness, &job.says, names, zone),
    })
}

fn tank_view(tank: &TankUse, zone: &TimeZone) -> TankView {
    let span = &tank.span;
    let unaccounted = span.unaccounted();
    TankView {
        metering_unit_id: tank.metering_unit_id,
        lot_ids: span.lots.iter().map(|lot| lot.0).collect(),
        began: span.began.map(|at| stamped(at, zone)),
        ended: span.ended.map(|at| stamped(at, zone)),
        filled: kg(span.filled),
        emptied: kg(span.emptied),
        sown: kg(span.sown.all()),
        sown_by_basis: sown_view(&span.sown),
        left: kg(span.left()),
        unaccounted: unaccounted.map(kg),
        unaccounted_uncertainty: unaccounted.map(|total| Q::computed(total.uncertainty_kg(), KG)),
        unweighed: span.unweighed,
    }
}

fn drift_view(drift: &Drift, zone: &TimeZone) -> DriftView {
    let points = drift.points.iter().zip(&drift.weighted).map(|(job, weighted)| PointView {
        job_id: job.job,
        occurred_at: stamped(job.occurred_at, zone),
        x: job.point.x,
        u: job.uncertainty,
        z: job.point.z,
        weighted_z: weighted.z,
        weighted_limit: weighted.limit,
    });
    DriftView {
        metering_unit_id: drift.metering_unit_id,
        calibration_id: drift.calibration.0,
        points: points.collect(),
        limits: drift.points.iter().map(|job| job.point.limit).collect(),
        out: drift.is_out(),
        implied_factor: Q::computed(drift.implied_factor, KG_PER_REV),
    }
}
