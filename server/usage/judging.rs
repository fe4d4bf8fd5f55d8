//! What each job came to, and under which number it was sown: the judgement is `core`'s, by the records of the job's unit.

use super::act::JobUse;
use super::store::{self, GerminationRow};
use crate::access::{Actor, Role, Scope};
use crate::db::Cx;
use crate::readiness::act::Records;
use crate::readiness::{Teller, policy};
use crate::seed::job::store::JobRow;
use crate::seed::lot::store::LotRow;
use crate::seed::{job, lot, unlikely};
use crate::web::door::Signed;
use crate::web::error::Error;
use jiff::Timestamp;
use sowmark_core::ids::{ClientId, LotId, MeteringUnitId};
use sowmark_core::moment::{Dated, latest_by};
use sowmark_core::policy::Policy;
use sowmark_core::readiness::{JobFacts, Past, Surroundings};
use sowmark_core::usage::{JobMasses, Period, achieved};
use std::collections::{HashMap, HashSet};
use uuid::Uuid;

/// The lots that somebody sees, and whose jobs are asked for.
#[derive(Debug)]
pub(super) struct ClientsLots {
    pub(super) client: Option<Uuid>,
    pub(super) lots: Vec<LotRow>,
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

    /// Whether it is of everything that somebody sees, and not of one client's.
    #[must_use]
    pub fn is_of_all(&self) -> bool {
        self.clients.client.is_none()
    }

    pub(super) fn clients(&self) -> &ClientsLots {
        &self.clients
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
        records: &Records,
        unit: MeteringUnitId,
        period: Period,
    ) -> Result<Vec<JobUse>, Error> {
        let mut rows = job::act::standing_jobs(cx, &signed.actor.scope, period, Some(unit)).await?;
        self.retain_seen(&signed.actor, &mut rows);
        self.judged(signed, records, rows)
    }

    /// Leaves those that are asked about and that somebody may see: a crew member their own.
    pub(super) fn retain_seen(&self, actor: &Actor, rows: &mut Vec<JobRow>) {
        rows.retain(|row| {
            let is_own = actor.role != Role::Crew || row.head.recorded_by == Some(actor.account.0);
            is_own && self.clients.own(row)
        });
    }

    pub(super) fn judged(&self, signed: &Signed, records: &Records, rows: Vec<JobRow>) -> Result<Vec<JobUse>, Error> {
        let Self { policy, germination, clients } = self;
        Judge { signed, records, policy, germination, lots: &clients.lots }.jobs(rows)
    }
}

/// What judges jobs.
struct Judge<'a> {
    signed: &'a Signed,
    records: &'a Records,
    policy: &'a Policy,
    germination: &'a [GerminationRow],
    lots: &'a [LotRow],
}

/// A unit whose jobs are judged: its past is put in order once for all of them.
struct Worker<'a> {
    past: Past<'a>,
    facts: HashMap<Uuid, JobFacts>,
}

impl Judge<'_> {
    fn jobs(&self, rows: Vec<JobRow>) -> Result<Vec<JobUse>, Error> {
        let Some(until) = rows.iter().map(|row| row.head.stamp().at).max() else { return Ok(Vec::new()) };
        let at_work: HashSet<Uuid> = rows.iter().map(|row| row.metering_unit_id).collect();
        let units = self.records.units.iter().filter(|(unit, _)| at_work.contains(&unit.id));
        let workers: HashMap<Uuid, Worker<'_>> = units
            .map(|(unit, history)| {
                let past = Past::new(history, &self.records.surroundings, until);
                let facts = history.jobs.iter().map(|job| (job.moment.id, job.what)).collect();
                (unit.id, Worker { past, facts })
            })
            .collect();
        let judged = rows.into_iter().filter_map(|row| {
            let worker = workers.get(&row.metering_unit_id)?;
            let facts = *worker.facts.get(&row.head.id)?;
            Some((row, worker, facts))
        });
        judged.map(|(row, worker, facts)| self.job(row, worker, facts)).collect()
    }

    fn job(&self, row: JobRow, worker: &Worker<'_>, facts: JobFacts) -> Result<JobUse, Error> {
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
        let readiness = worker.past.at(at);
        let teller = Teller { names: &self.records.names, zone: &actor.time_zone, reader: actor.reader(), at };
        let says = readiness.due.iter().map(|due| teller.says(due, readiness.compared_with)).collect();
        let plants_per_m2 = seeds.zip(germinates).map(|(seeds, percent)| seeds * percent / 100.0);
        let asks = unlikely::of_job(&row.head, row.figures(), &actor.scope, actor.reader())?;
        Ok(JobUse { row, facts, came_to, plants_per_m2, readiness, says, asks })
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
