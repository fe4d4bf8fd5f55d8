//! Where the seed went, for somebody, over a period: gathered here, judged by `core`.

use super::asked::UsageAsked;
use super::store::{self, GerminationRow, TankRow};
use crate::access::{Actor, Permission, Role, Scope};
use crate::calibration;
use crate::db::Cx;
use crate::fleet::seeder;
use crate::readiness::{self, Names, Teller, policy};
use crate::records::head;
use crate::seed::job::store::JobRow;
use crate::seed::lot::store::LotRow;
use crate::seed::{client, field, job, lot};
use crate::web::door::Signed;
use crate::web::error::Error;
use jiff::Timestamp;
use sowmark_core::drift::{Outcome, WeightedChart, WeightedPoint, implied_factor};
use sowmark_core::ids::{CalibrationId, ClientId, LotId, MeteringUnitId};
use sowmark_core::moment::{Dated, Moment, latest_by};
use sowmark_core::policy::Policy;
use sowmark_core::readiness::{
    JobFacts, JobPoint, Readiness, SeedUsedBasis, Surroundings, UnitHistory, readiness as readiness_at, usage_chart,
};
use sowmark_core::usage::{Achieved, JobMasses, LotBalance, Period, Sown, TankFlow, TankSpan, achieved, tank_spans};
use std::collections::HashMap;
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

/// Where the seed went, as far as somebody sees it.
///
/// # Errors
/// 404 for a lot, seeder or client outside the scope; 422 for a period that is none; the database.
pub async fn usage(cx: &mut Cx<'_>, signed: &Signed, asked: &UsageAsked) -> Result<Usage, Error> {
    is_within(cx, &signed.actor.scope, asked).await?;
    // Of one client is told what that client alone lets one see: what is said of others names them no more.
    let signed = &client::act::for_client(cx, signed, asked.client_id).await?;
    let (actor, now) = (&signed.actor, signed.app.clock.now());
    let scope = &actor.scope;
    let period = asked.period(&actor.time_zone)?;
    let at = period.to.map_or(now, |to| to.min(now));
    let seeders = match asked.crew_id {
        Some(crew) => Some(store::crew_seeders(cx, scope, crew).await?),
        None => None,
    };
    let is_asked_seeder = |seeder: Uuid| {
        asked.seeder_id.is_none_or(|only| only.0 == seeder)
            && seeders.as_ref().is_none_or(|seeders| seeders.contains(&seeder))
    };
    let records = readiness::act::histories(cx, scope, &actor.time_zone, None).await?;
    let judging = Judging::of(cx, scope, asked.client_id).await?;
    let Judging { policy, clients, .. } = &judging;
    let mut rows = job::act::standing_jobs(cx, scope, period, None).await?;
    rows.retain(|row| {
        is_asked_seeder(row.seeder_id)
            && asked.lot_id.is_none_or(|lot| lot.0 == row.lot_id)
            && asked.field_id.is_none_or(|field| row.field_id == Some(field.0))
    });
    let jobs = judging.jobs(signed, &records, rows)?;
    let whole = actor.may(Permission::ReadStock);
    let lots = if whole { lots(cx, signed, asked, period, clients, &jobs, policy).await? } else { Vec::new() };
    let sees_all = sees_drift(actor) && asked.client_id.is_none() && asked.field_id.is_none();
    let (mut tanks, mut drifts) = (Vec::new(), Vec::new());
    if sees_all {
        let flows = flows(&store::tanks(cx, scope).await?)?;
        for (unit, history) in records.units.iter().filter(|(unit, _)| is_asked_seeder(unit.seeder_id)) {
            let spans = flows.get(&unit.id).map_or_else(Vec::new, |flows| tank_spans(flows, policy));
            tanks.extend(
                spans
                    .into_iter()
                    .filter(|span| reaches(span, period) && asked.lot_id.is_none_or(|lot| span.lots.contains(&lot)))
                    .map(|span| TankUse {
                        metering_unit_id: unit.id,
                        seeder_id: unit.seeder_id,
                        seeder: unit.seeder.clone(),
                        unit: unit.label.clone(),
                        span,
                    }),
            );
            drifts.extend(drift(cx, scope, (unit, history), &records.surroundings, at, policy).await?);
        }
    }
    Ok(Usage { period, at, jobs, lots, tanks, drifts, names: records.names })
}

/// What is asked about must be there: a foreign seeder, lot, field or client is answered like an unknown one.
async fn is_within(cx: &mut Cx<'_>, scope: &Scope, asked: &UsageAsked) -> Result<(), Error> {
    if let Some(lot) = asked.lot_id {
        lot::act::named_lot(cx, scope, lot).await?;
    }
    if let Some(field) = asked.field_id {
        field::act::named_field(cx, scope, field).await?;
    }
    client::act::named_client(cx, scope, asked.client_id).await?;
    match asked.seeder_id {
        None => Ok(()),
        Some(asked) => match seeder::act::find_seeder(cx, scope, asked).await {
            Err(Error::NotThere { what, .. }) => Err(Error::not_there_at("/seeder_id", what)),
            found => found.map(|_| ()),
        },
    }
}

/// The lots that somebody sees, and whose jobs are asked for.
#[derive(Debug)]
struct ClientsLots {
    client: Option<Uuid>,
    lots: Vec<LotRow>,
}

impl ClientsLots {
    async fn of(cx: &mut Cx<'_>, scope: &Scope, client: Option<ClientId>) -> Result<Self, Error> {
        let lots = lot::act::lots(cx, scope).await?;
        Ok(Self { client: client.map(|client| client.0), lots })
    }

    fn owns(&self, lot: Uuid) -> bool {
        let found = self.lots.iter().find(|found| found.id == lot);
        found.is_some_and(|found| self.client.is_none() || found.client_id == self.client)
    }

    /// A job with the client's seed, or on the client's field.
    fn own(&self, row: &JobRow) -> bool {
        self.client.is_none() || row.field_client_id == self.client || self.owns(row.lot_id)
    }
}

/// What jobs are judged by, read once for however many.
#[derive(Debug)]
pub struct Judging {
    policy: Policy,
    germination: Vec<GerminationRow>,
    clients: ClientsLots,
}

impl Judging {
    /// Of everything that somebody sees, or of one client's.
    ///
    /// # Errors
    /// The database.
    pub async fn of(cx: &mut Cx<'_>, scope: &Scope, client: Option<ClientId>) -> Result<Self, Error> {
        Ok(Self {
            policy: policy::in_force(cx, scope).await?.policy,
            germination: store::germination(cx, scope).await?,
            clients: ClientsLots::of(cx, scope, client).await?,
        })
    }

    /// Whether a lot is one that is asked about.
    #[must_use]
    pub fn owns(&self, lot: LotId) -> bool {
        self.clients.owns(lot.0)
    }

    /// The policy in force.
    #[must_use]
    pub fn policy(&self) -> &Policy {
        &self.policy
    }

    /// The jobs of one unit in a period, judged.
    ///
    /// # Errors
    /// The database.
    pub async fn jobs_of_unit(
        &self,
        cx: &mut Cx<'_>,
        signed: &Signed,
        records: &readiness::act::Records,
        unit: MeteringUnitId,
        period: Period,
    ) -> Result<Vec<JobUse>, Error> {
        let rows = job::act::standing_jobs(cx, &signed.actor.scope, period, Some(unit)).await?;
        self.jobs(signed, records, rows)
    }

    /// Those that are asked about and that somebody may see: a crew member their own.
    fn jobs(
        &self,
        signed: &Signed,
        records: &readiness::act::Records,
        mut rows: Vec<JobRow>,
    ) -> Result<Vec<JobUse>, Error> {
        let actor = &signed.actor;
        rows.retain(|row| {
            let is_own = actor.role != Role::Crew || row.head.recorded_by == Some(actor.account.0);
            is_own && self.clients.own(row)
        });
        let Self { policy, germination, clients } = self;
        Judge { signed, records, policy, germination, lots: &clients.lots }.jobs(rows)
    }
}

/// What judges jobs.
struct Judge<'a> {
    signed: &'a Signed,
    records: &'a readiness::act::Records,
    policy: &'a Policy,
    germination: &'a [GerminationRow],
    lots: &'a [LotRow],
}

impl Judge<'_> {
    fn jobs(&self, rows: Vec<JobRow>) -> Result<Vec<JobUse>, Error> {
        let units: HashMap<Uuid, &UnitHistory> =
            self.records.units.iter().map(|(unit, history)| (unit.id, history)).collect();
        let judged = rows.into_iter().filter_map(|row| {
            let history = units.get(&row.metering_unit_id)?;
            let facts = history.jobs.iter().find(|job| job.moment.id == row.head.id)?.what;
            Some((row, *history, facts))
        });
        judged.map(|(row, history, facts)| self.job(row, history, facts)).collect()
    }

    fn job(&self, row: JobRow, history: &UnitHistory, facts: JobFacts) -> Result<JobUse, Error> {
        let (actor, at) = (&self.signed.actor, row.head.stamp().at);
        let around = &self.records.surroundings;
        let came_to = achieved(
            &JobMasses {
                area_m2: facts.area_m2,
                seed_used_kg: facts.seed_used_kg,
                basis: facts.seed_used_basis,
                target_rate: facts.target_rate,
                thousand_seed_weight_g: seed_weight(around, facts.lot, at),
            },
            self.policy,
        );
        let germinates = self.germinates(&row)?;
        let seeds = came_to.and_then(|came_to| came_to.seeds_per_m2);
        let readiness = readiness_at(history, around, at);
        let teller = Teller { names: &self.records.names, zone: &actor.time_zone, reader: actor.reader(), at };
        let says = readiness.due.iter().map(|due| teller.says(due, readiness.compared_with)).collect();
        let plants_per_m2 = seeds.zip(germinates).map(|(seeds, percent)| seeds * percent / 100.0);
        Ok(JobUse { row, facts, came_to, plants_per_m2, readiness, says })
    }

    /// How much of the lot germinated, by its latest test before the job, else by its label.
    fn germinates(&self, row: &JobRow) -> Result<Option<f64>, Error> {
        let tested = self
            .germination
            .iter()
            .rev()
            .find(|test| test.lot_id == row.lot_id && test.occurred_at <= row.head.occurred_at)
            .map(|test| test.germination_percent.as_str());
        let of_label = || self.lots.iter().find(|lot| lot.id == row.lot_id)?.germination_percent.as_deref();
        let percent = tested.or_else(of_label).map(str::parse::<f64>).transpose();
        percent.map_err(|_| Error::inconsistent("germination_percent", tested.unwrap_or_default()))
    }
}

/// The lot's thousand-seed weight as it was known at a moment, g.
fn seed_weight(around: &Surroundings, lot: LotId, at: Timestamp) -> Option<f64> {
    let tests = &around.lots.get(&lot)?.tests;
    let known: Vec<Dated<f64>> =
        tests.iter().filter_map(|test| Some(Dated::new(test.moment, test.what.thousand_seed_weight?))).collect();
    latest_by(&known, at).map(|weight| weight.what)
}

async fn lots(
    cx: &mut Cx<'_>,
    signed: &Signed,
    asked: &UsageAsked,
    period: Period,
    clients: &ClientsLots,
    jobs: &[JobUse],
    policy: &Policy,
) -> Result<Vec<LotUse>, Error> {
    let actor = &signed.actor;
    let mut balances = lot::stock::balances(cx, &actor.scope, &actor.time_zone, &clients.lots, period).await?;
    let is_asked = |lot: &&LotRow| {
        asked.lot_id.is_none_or(|only| only.0 == lot.id)
            && (clients.client.is_none() || lot.client_id == clients.client)
    };
    let with_sown = clients.lots.iter().filter(is_asked).map(|lot| {
        let of_lot = jobs.iter().filter(|job| job.row.lot_id == lot.id);
        let sown = of_lot
            .fold(Sown::default(), |sown, job| sown.and(job.facts.seed_used_kg, job.facts.seed_used_basis, policy));
        LotUse { lot: lot.clone(), balance: balances.remove(&lot.id).unwrap_or_default(), sown }
    });
    Ok(with_sown.collect())
}

/// What changed the seed in a tank, with its lot.
type Flow = Dated<(LotId, TankFlow)>;

/// The flows by unit.
fn flows(rows: &[TankRow]) -> Result<HashMap<Uuid, Vec<Flow>>, Error> {
    let mut of_unit: HashMap<Uuid, Vec<Flow>> = HashMap::new();
    for row in rows {
        let moment = Moment {
            occurred_at: head::moment(row.occurred_at),
            recorded_at: head::moment(row.recorded_at),
            id: row.id,
        };
        let flow = (LotId(row.lot_id), flow(row)?);
        of_unit.entry(row.metering_unit_id).or_default().push(Dated::new(moment, flow));
    }
    Ok(of_unit)
}

fn flow(row: &TankRow) -> Result<TankFlow, Error> {
    let basis = |word: Option<&str>| match word {
        Some("weighed") => Ok(SeedUsedBasis::Weighed),
        Some("bags") => Ok(SeedUsedBasis::Bags),
        Some("machine_total") => Ok(SeedUsedBasis::MachineTotal),
        other => Err(Error::inconsistent("job.seed_used_basis", other.unwrap_or_default())),
    };
    match row.flow.as_str() {
        "filled" => Ok(TankFlow::Filled(row.kg)),
        "emptied" => Ok(TankFlow::Emptied { kg: row.kg, to_empty: row.to_empty }),
        _ => Ok(TankFlow::Sown { kg: row.kg.unwrap_or_default(), basis: basis(row.basis.as_deref())? }),
    }
}

/// Whether a span of a tank has a part in a period.
fn reaches(span: &TankSpan, period: Period) -> bool {
    let begins_in_time = span.began.is_some_and(|began| period.to.is_none_or(|to| began < to));
    let ends_late_enough = span.ended.zip(period.from).is_none_or(|(ended, from)| from <= ended);
    begins_in_time && ends_late_enough
}

/// Whether somebody sees how the machines drift: not who sees some clients' jobs, or the own, alone.
fn sees_drift(actor: &Actor) -> bool {
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
    (unit, history): (&readiness::store::UnitRow, &UnitHistory),
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
