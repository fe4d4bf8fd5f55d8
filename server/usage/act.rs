//! Where the seed went, for somebody, over a period: gathered here, judged by `core`.

use super::asked::UsageAsked;
use super::question::{Question, SownOfLots, flows};
use super::store;
use crate::access::{Actor, Permission, Scope};
use crate::calibration;
use crate::db::Cx;
use crate::readiness::store::UnitRow;
use crate::readiness::{self, Names, policy};
use crate::seed::job::store::JobRow;
use crate::seed::lot::store::LotRow;
use crate::web::door::Signed;
use crate::web::error::Error;
use jiff::Timestamp;
use sowmark_core::drift::{Outcome, WeightedChart, WeightedPoint, implied_factor};
use sowmark_core::ids::{CalibrationId, MeteringUnitId};
use sowmark_core::policy::Policy;
use sowmark_core::readiness::{
    JobFacts, JobPoint, Readiness, Surroundings, UnitHistory, readiness as readiness_at, usage_chart,
};
use sowmark_core::usage::{Achieved, LotBalance, Period, Sown, TankSpan};
use uuid::Uuid;

/// Where the seed went.
#[derive(Clone, Debug)]
pub struct Usage {
    pub period: Period,
    /// Until when the drift is looked at: the period's end, or now.
    pub at: Timestamp,
    /// Oldest first.
    pub jobs: Vec<JobUse>,
    /// The lots, for who sees stock.
    pub lots: Vec<LotUse>,
    /// The tanks' spans that reach into the period.
    pub tanks: Vec<TankUse>,
    pub drifts: Vec<Drift>,
    pub names: Names,
}

/// What a job came to.
#[derive(Clone, Debug)]
pub struct JobUse {
    pub row: JobRow,
    pub facts: JobFacts,
    /// None for a job without seed or ground.
    pub came_to: Option<Achieved>,
    /// Plants per m², if everything that germinates comes up; none where no test says how much does.
    pub plants_per_m2: Option<f64>,
    /// The unit when the job began.
    pub readiness: Readiness,
    /// One for each trigger that stood.
    pub says: Vec<String>,
    /// What is asked of its figures.
    pub asks: Vec<String>,
}

impl JobUse {
    /// Whether the unit had a number that was true when the job began.
    #[must_use]
    pub fn was_true(&self) -> bool {
        self.readiness.in_force.is_some()
    }
}

/// The balance of a lot.
#[derive(Clone, Debug)]
pub struct LotUse {
    pub lot: LotRow,
    pub balance: LotBalance,
    /// By the jobs of the period.
    pub sown: Sown,
}

/// A span of a tank.
#[derive(Clone, Debug)]
pub struct TankUse {
    pub metering_unit_id: Uuid,
    pub seeder_id: Uuid,
    pub seeder: String,
    pub unit: String,
    pub span: TankSpan,
}

/// How the jobs since the factor in force agree with it.
#[derive(Clone, Debug)]
pub struct Drift {
    pub metering_unit_id: Uuid,
    pub seeder_id: Uuid,
    pub seeder: String,
    pub unit: String,
    pub calibration: CalibrationId,
    /// The plain chart, which decides.
    pub points: Vec<JobPoint>,
    /// The chart that weighs each job by how well it is known.
    pub weighted: Vec<WeightedPoint>,
    /// Factor x exp(z) of the weighted chart: a hint and never a calibration.
    pub implied_factor: f64,
}

impl Drift {
    /// Whether the latest point is outside its limits.
    #[must_use]
    pub fn is_out(&self) -> bool {
        self.points.last().is_some_and(|job| job.point.out)
    }
}

/// Where the seed went, as far as somebody sees it: all of it at once.
///
/// # Errors
/// 404 for a lot, seeder or client outside the scope; 422 for a period that is none; the database.
pub async fn usage(cx: &mut Cx<'_>, signed: &Signed, asked: &UsageAsked) -> Result<Usage, Error> {
    let question = Question::of(cx, signed, asked).await?;
    let actor = &question.signed.actor;
    let records = readiness::act::histories(cx, &actor.scope, &actor.time_zone, None).await?;
    let rows = question.rows(cx, None).await?;
    let jobs = question.judged(&records, rows)?;
    let mut sown = SownOfLots::default();
    for job in &jobs {
        question.sow(&mut sown, job);
    }
    let lots = question.lots(cx, &sown).await?;
    let (mut tanks, mut drifts) = (Vec::new(), Vec::new());
    if question.sees_machines() {
        let flows = flows(&store::tanks(cx, &actor.scope, None).await?)?;
        for (unit, history) in records.units.iter().filter(|(unit, _)| question.is_about(unit)) {
            tanks.extend(question.spans(unit, flows.get(&unit.id)));
            drifts.extend(question.drift(cx, (unit, history), &records.surroundings).await?);
        }
    }
    Ok(Usage { period: question.period, at: question.at, jobs, lots, tanks, drifts, names: records.names })
}

/// Whether somebody sees how the machines drift: not who sees some clients' jobs, or the own, alone.
pub(super) fn sees_drift(actor: &Actor) -> bool {
    actor.may(Permission::ReadStock) && Names::is_whole(&actor.scope)
}

/// How a unit drifts as of now; none without a job to tell from, or for who does not see it.
///
/// # Errors
/// 404 when the unit is not there or out of scope; the database.
pub async fn drift_of_unit(cx: &mut Cx<'_>, signed: &Signed, unit: MeteringUnitId) -> Result<Option<Drift>, Error> {
    let (actor, now) = (&signed.actor, signed.app.clock.now());
    if !sees_drift(actor) {
        return Ok(None);
    }
    let scope = &actor.scope;
    let records = readiness::act::histories(cx, scope, &actor.time_zone, Some(unit)).await?;
    let (row, history) = records.units.first().ok_or_else(|| Error::not_there("metering unit"))?;
    let policy = policy::in_force(cx, scope).await?.policy;
    drift(cx, scope, (row, history), &records.surroundings, now, &policy).await
}

/// How the jobs of a unit agree with the number that it was compared with at a moment; none without jobs since.
///
/// # Errors
/// The database.
pub(crate) async fn drift(
    cx: &mut Cx<'_>,
    scope: &Scope,
    (unit, history): (&UnitRow, &UnitHistory),
    around: &Surroundings,
    at: Timestamp,
    policy: &Policy,
) -> Result<Option<Drift>, Error> {
    let Some(calibration) = readiness_at(history, around, at).compared_with else { return Ok(None) };
    let points = usage_chart(history, around, calibration, at);
    if points.is_empty() {
        return Ok(None);
    }
    let judgement = calibration::act::find_calibration(cx, scope, calibration).await?.judgement;
    let common = judgement.expanded_uncertainty_percent / 100.0 / judgement.coverage_factor;
    let chart = WeightedChart { lambda: policy.drift_lambda, limit_width: policy.drift_limit_width, common };
    let outcomes: Vec<_> = points.iter().map(|job| Outcome { x: job.point.x, u: job.uncertainty }).collect();
    let weighted = chart.points(&outcomes);
    let z = weighted.last().map_or(0.0, |point| point.z);
    Ok(Some(Drift {
        metering_unit_id: unit.id,
        seeder_id: unit.seeder_id,
        seeder: unit.seeder.clone(),
        unit: unit.label.clone(),
        calibration,
        points,
        weighted,
        implied_factor: implied_factor(judgement.factor, z),
    }))
}
