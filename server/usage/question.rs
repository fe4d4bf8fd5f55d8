//! A question of where the seed went: whether somebody may ask it, what of the records it is about, and what they see of the answer.
//!
//! [`super::act::usage`] answers it in one; the page asks unit by unit, so that its memory does not grow with the fleet.

use super::act::{Drift, JobUse, LotUse, TankUse, drift, sees_drift};
use super::asked::UsageAsked;
use super::judging::Judging;
use super::store::{self, TankRow};
use crate::access::{Permission, Scope};
use crate::db::Cx;
use crate::fleet::seeder;
use crate::readiness::act::Records;
use crate::readiness::store::UnitRow;
use crate::records::head;
use crate::seed::job::store::JobRow;
use crate::seed::lot::store::LotRow;
use crate::seed::{client, field, job, lot};
use crate::web::door::Signed;
use crate::web::error::Error;
use jiff::Timestamp;
use sowmark_core::ids::{FieldId, LotId, MeteringUnitId, SeederId};
use sowmark_core::moment::{Dated, Moment};
use sowmark_core::readiness::{SeedUsedBasis, Surroundings, UnitHistory};
use sowmark_core::usage::{Period, Sown, TankFlow, TankSpan, tank_spans};
use std::collections::HashMap;
use uuid::Uuid;

/// What was sown of each lot.
pub type SownOfLots = HashMap<Uuid, Sown>;

/// A question that somebody may ask, with what its jobs are judged by. It is answered in one ([`super::act::usage`]) or unit by unit.
#[derive(Debug)]
pub struct Question {
    /// Who asks. Of one client is told what that client alone lets one see: what is said of others names them no more.
    pub signed: Signed,
    pub period: Period,
    /// Until when the drift is looked at: the period's end, or now.
    pub at: Timestamp,
    /// One seeder alone.
    pub seeder: Option<SeederId>,
    /// The seeders of one crew alone.
    of_crew: Option<Vec<Uuid>>,
    lot: Option<LotId>,
    field: Option<FieldId>,
    judging: Judging,
}

/// What one unit did.
#[derive(Clone, Debug)]
pub struct UnitUse {
    /// Oldest first.
    pub jobs: Vec<JobUse>,
    /// The spans of its tank that reach into the period.
    pub tanks: Vec<TankUse>,
    pub drift: Option<Drift>,
}

impl UnitUse {
    /// Whether there is nothing to tell of it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.jobs.is_empty() && self.tanks.is_empty() && self.drift.is_none()
    }
}

impl Question {
    /// Reads a question.
    ///
    /// # Errors
    /// 404 for a lot, seeder or client outside the scope; 422 for a period that is none; the database.
    pub async fn of(cx: &mut Cx<'_>, signed: &Signed, asked: &UsageAsked) -> Result<Self, Error> {
        is_within(cx, &signed.actor.scope, asked).await?;
        let signed = client::act::for_client(cx, signed, asked.client_id).await?;
        let (scope, now) = (&signed.actor.scope, signed.app.clock.now());
        let period = asked.period(&signed.actor.time_zone)?;
        let of_crew = match asked.crew_id {
            Some(crew) => Some(store::crew_seeders(cx, scope, crew).await?),
            None => None,
        };
        let judging = Judging::of(cx, scope, asked.client_id).await?;
        Ok(Self {
            period,
            at: period.to.map_or(now, |to| to.min(now)),
            seeder: asked.seeder_id,
            of_crew,
            lot: asked.lot_id,
            field: asked.field_id,
            judging,
            signed,
        })
    }

    /// Whether a unit's machine is one that is asked about.
    #[must_use]
    pub fn is_about(&self, unit: &UnitRow) -> bool {
        self.is_about_seeder(unit.seeder_id)
    }

    fn is_about_seeder(&self, seeder: Uuid) -> bool {
        self.seeder.is_none_or(|only| only.0 == seeder)
            && self.of_crew.as_ref().is_none_or(|seeders| seeders.contains(&seeder))
    }

    /// Whether lots with their balances are told: not to a crew member.
    #[must_use]
    pub fn sees_stock(&self) -> bool {
        self.signed.actor.may(Permission::ReadStock)
    }

    /// Whether tanks and drift are told: a tank holds more than one client's seed, and drift is of no field.
    #[must_use]
    pub fn sees_machines(&self) -> bool {
        sees_drift(&self.signed.actor) && self.judging.is_of_all() && self.field.is_none()
    }

    /// Whether the jobs of a machine, a crew or a field alone are asked about: then a lot's balance is of more than them.
    #[must_use]
    pub fn is_of_some_jobs(&self) -> bool {
        self.seeder.is_some() || self.of_crew.is_some() || self.field.is_some()
    }

    /// The jobs that are asked about and that the asker may see, oldest first: of one unit, or of all.
    ///
    /// # Errors
    /// The database.
    pub async fn rows(&self, cx: &mut Cx<'_>, only: Option<MeteringUnitId>) -> Result<Vec<JobRow>, Error> {
        let mut rows = job::act::standing_jobs(cx, &self.signed.actor.scope, self.period, only).await?;
        rows.retain(|row| {
            self.is_about_seeder(row.seeder_id)
                && self.lot.is_none_or(|lot| lot.0 == row.lot_id)
                && self.field.is_none_or(|field| row.field_id == Some(field.0))
        });
        self.judging.retain_seen(&self.signed.actor, &mut rows);
        Ok(rows)
    }

    /// Those jobs, judged by the records of their units.
    ///
    /// # Errors
    /// An inconsistent row.
    pub fn judged(&self, records: &Records, rows: Vec<JobRow>) -> Result<Vec<JobUse>, Error> {
        self.judging.judged(&self.signed, records, rows)
    }

    /// What one unit did, whose records these are, and no other's.
    ///
    /// # Errors
    /// The database.
    pub async fn unit(&self, cx: &mut Cx<'_>, records: &Records) -> Result<UnitUse, Error> {
        let mut of_unit = UnitUse { jobs: Vec::new(), tanks: Vec::new(), drift: None };
        let Some((unit, history)) = records.units.first() else { return Ok(of_unit) };
        let only = Some(MeteringUnitId(unit.id));
        let rows = self.rows(cx, only).await?;
        of_unit.jobs = self.judged(records, rows)?;
        if self.sees_machines() {
            let flows = flows(&store::tanks(cx, &self.signed.actor.scope, only).await?)?;
            of_unit.tanks = self.spans(unit, flows.get(&unit.id));
            of_unit.drift = self.drift(cx, (unit, history), &records.surroundings).await?;
        }
        Ok(of_unit)
    }

    /// Adds a job's seed to what was sown of its lot.
    pub fn sow(&self, sown: &mut SownOfLots, job: &JobUse) {
        let of_lot = sown.entry(job.row.lot_id).or_default();
        *of_lot = of_lot.and(job.facts.seed_used_kg, job.facts.seed_used_basis, self.judging.policy());
    }

    /// The balances of the lots that are asked about, with what was sown of them; none for who does not see stock. Of some
    /// jobs, those lots that were sown.
    ///
    /// # Errors
    /// The database.
    pub async fn lots(&self, cx: &mut Cx<'_>, sown: &SownOfLots) -> Result<Vec<LotUse>, Error> {
        if !self.sees_stock() {
            return Ok(Vec::new());
        }
        let (actor, clients) = (&self.signed.actor, self.judging.clients());
        let mut balances = lot::stock::balances(cx, &actor.scope, &actor.time_zone, &clients.lots, self.period).await?;
        let is_asked = |lot: &&LotRow| {
            self.lot.is_none_or(|only| only.0 == lot.id)
                && (self.lot.is_some() || !self.is_of_some_jobs() || sown.contains_key(&lot.id))
                && (clients.client.is_none() || lot.client_id == clients.client)
        };
        let with_sown = clients.lots.iter().filter(is_asked).map(|lot| LotUse {
            lot: lot.clone(),
            balance: balances.remove(&lot.id).unwrap_or_default(),
            sown: sown.get(&lot.id).copied().unwrap_or_default(),
        });
        Ok(with_sown.collect())
    }

    /// The spans of a unit's tank that reach into the period, with the lot that is asked about in them.
    pub(super) fn spans(&self, unit: &UnitRow, flows: Option<&Vec<Flow>>) -> Vec<TankUse> {
        let spans = flows.map_or_else(Vec::new, |flows| tank_spans(flows, self.judging.policy()));
        let is_asked =
            |span: &TankSpan| reaches(span, self.period) && self.lot.is_none_or(|lot| span.lots.contains(&lot));
        let of_unit = |span| TankUse {
            metering_unit_id: unit.id,
            seeder_id: unit.seeder_id,
            seeder: unit.seeder.clone(),
            unit: unit.label.clone(),
            span,
        };
        spans.into_iter().filter(is_asked).map(of_unit).collect()
    }

    pub(super) async fn drift(
        &self,
        cx: &mut Cx<'_>,
        of: (&UnitRow, &UnitHistory),
        around: &Surroundings,
    ) -> Result<Option<Drift>, Error> {
        drift(cx, &self.signed.actor.scope, of, around, self.at, self.judging.policy()).await
    }
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

/// What changed the seed in a tank, with its lot.
pub(super) type Flow = Dated<(LotId, TankFlow)>;

/// The flows by unit.
pub(super) fn flows(rows: &[TankRow]) -> Result<HashMap<Uuid, Vec<Flow>>, Error> {
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
