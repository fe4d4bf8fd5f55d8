//! The records of a unit in their order, and what the unit was like after each.
//!
//! They are put in order once, in a [`Course`]; a question about a moment looks at the beginning of it, the [`Timeline`]: the
//! triggers look at calibrations, at the present, and back from the present to where a difference began. Nothing later than the
//! moment asked for gets in.

use std::collections::HashMap;

use jiff::Timestamp;

use crate::{
    basis::{Configuration, Setup},
    ids::LotId,
    moment::{Dated, Moment, in_order, latest_by},
    policy::Policy,
    readiness::{
        CalibrationFacts, Cause, CauseKind, Emptying, Fill, JobFacts, LotFacts, LotTest, Service, Standing,
        Surroundings, Tank, UnitHistory,
        season::{self, Started},
        seed,
    },
};

/// A record that can change what a unit is like, or what is known of it.
#[derive(Clone, Copy, Debug)]
pub(super) enum Happening<'a> {
    Configuration(&'a Dated<Configuration>),
    Setup(&'a Dated<Setup>),
    Service(&'a Dated<Service>),
    Fill(&'a Dated<Fill>),
    Emptying(&'a Dated<Emptying>),
    LotTest(LotId, &'a Dated<LotTest>),
    Calibration(&'a Dated<CalibrationFacts>),
    Job(&'a Dated<JobFacts>),
}

impl Happening<'_> {
    fn moment(&self) -> Moment {
        match self {
            Happening::Configuration(record) => record.moment,
            Happening::Setup(record) => record.moment,
            Happening::Service(record) => record.moment,
            Happening::Fill(record) => record.moment,
            Happening::Emptying(record) => record.moment,
            Happening::LotTest(_, record) => record.moment,
            Happening::Calibration(record) => record.moment,
            Happening::Job(record) => record.moment,
        }
    }

    fn kind(&self) -> CauseKind {
        match self {
            Happening::Configuration(_) => CauseKind::Configuration,
            Happening::Setup(_) => CauseKind::Setup,
            Happening::Service(_) => CauseKind::Service,
            Happening::Fill(_) => CauseKind::Fill,
            Happening::Emptying(_) => CauseKind::Emptying,
            Happening::LotTest(..) => CauseKind::LotTest,
            Happening::Calibration(_) => CauseKind::Calibration,
            Happening::Job(_) => CauseKind::Job,
        }
    }

    /// The order of records; the kind only decides where two of different kinds share even their id, so that the order of
    /// arrival never does.
    fn place(&self) -> (Moment, CauseKind) {
        (self.moment(), self.kind())
    }
}

/// The unit's own records up to `at`, in their order.
pub(super) fn happenings(history: &UnitHistory, at: Timestamp) -> Vec<Happening<'_>> {
    let mut all: Vec<Happening<'_>> = Vec::new();
    all.extend(history.configurations.iter().map(Happening::Configuration));
    all.extend(history.setups.iter().map(Happening::Setup));
    all.extend(history.services.iter().map(Happening::Service));
    all.extend(history.fills.iter().map(Happening::Fill));
    all.extend(history.emptyings.iter().map(Happening::Emptying));
    all.extend(history.calibrations.iter().map(Happening::Calibration));
    all.extend(history.jobs.iter().map(Happening::Job));
    all.retain(|happening| happening.moment().occurred_at <= at);
    all.sort_by_key(Happening::place);
    all
}

/// What a unit is like, and what is known of the seed in it.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Condition<'a> {
    pub(super) configuration: Option<&'a Dated<Configuration>>,
    pub(super) setup: Option<&'a Dated<Setup>>,
    /// The lot in the tank.
    pub(super) lot: Option<LotId>,
    /// The latest known seed weights of that lot.
    pub(super) weights: LotTest,
}

/// The condition after a record.
#[derive(Clone, Copy, Debug)]
pub(super) struct Step<'a> {
    pub(super) moment: Moment,
    pub(super) kind: CauseKind,
    pub(super) after: Condition<'a>,
}

impl Step<'_> {
    pub(super) fn cause(&self) -> Cause {
        Cause { kind: self.kind, id: self.moment.id }
    }
}

/// A calibration and its basis: what the unit was like when it was made.
#[derive(Clone, Copy, Debug)]
pub(super) struct Calibrated<'a> {
    pub(super) record: &'a Dated<CalibrationFacts>,
    pub(super) basis: Condition<'a>,
    /// Where it stands among the steps.
    step: usize,
}

impl Calibrated<'_> {
    pub(super) fn moment(&self) -> Moment {
        self.record.moment
    }

    pub(super) fn cause(&self) -> Cause {
        Cause { kind: CauseKind::Calibration, id: self.record.moment.id }
    }

    pub(super) fn accepted(&self) -> bool {
        self.record.what.standing == Standing::Accepted
    }
}

/// A job and what the unit was like when it was done.
#[derive(Clone, Copy, Debug)]
pub(super) struct Worked<'a> {
    pub(super) record: &'a Dated<JobFacts>,
    pub(super) condition: Condition<'a>,
}

/// The records of a unit up to a moment, in order, and what the unit was like after each: put together once for however many
/// earlier moments are asked for.
#[derive(Debug)]
pub(super) struct Course<'a> {
    surroundings: &'a Surroundings,
    /// Calibrations of every standing, in order.
    calibrations: Vec<Calibrated<'a>>,
    jobs: Vec<Worked<'a>>,
    services: Vec<&'a Dated<Service>>,
    seasons: Vec<Started<'a>>,
    /// Of every lot that the unit has had to do with. A moment before a lot was first named knows its crop and its tests too: of
    /// a lot that is in no tank and no basis nothing is asked.
    crops: HashMap<LotId, String>,
    steps: Vec<Step<'a>>,
    /// After each step.
    tanks: Vec<Tank>,
    /// The first configuration, which holds before it too.
    first: Option<&'a Dated<Configuration>>,
}

/// What the records so far have led to, while a course is put together.
struct Walk<'a> {
    now: Condition<'a>,
    tank: Tank,
    /// The seed weights known so far.
    known: HashMap<LotId, LotTest>,
}

/// The beginning of a course, up to a moment.
pub(super) struct Timeline<'a> {
    pub(super) at: Timestamp,
    pub(super) surroundings: &'a Surroundings,
    pub(super) policy: Policy,
    /// What the unit is like at the moment asked for.
    pub(super) now: Condition<'a>,
    pub(super) tank: Tank,
    /// Calibrations of every standing, in order.
    pub(super) calibrations: &'a [Calibrated<'a>],
    /// Jobs, in order.
    pub(super) jobs: &'a [Worked<'a>],
    /// Services that affect metering, in order.
    pub(super) services: &'a [&'a Dated<Service>],
    /// Seasons that have begun, in order.
    pub(super) seasons: &'a [Started<'a>],
    crops: &'a HashMap<LotId, String>,
    steps: &'a [Step<'a>],
}

impl<'a> Course<'a> {
    /// Up to `until`, records of that instant included.
    pub(super) fn new(history: &'a UnitHistory, surroundings: &'a Surroundings, until: Timestamp) -> Self {
        let mut happenings = happenings(history, until);
        let lots = lots_of(&happenings, surroundings);
        add_lot_tests(&mut happenings, &lots, until);
        // Before its first configuration a machine had some width too, and nobody has named another.
        let first =
            history.configurations.iter().filter(|configuration| configuration.happened_by(until)).min_by(in_order);
        let mut course = Self {
            surroundings,
            calibrations: Vec::new(),
            jobs: Vec::new(),
            services: Vec::new(),
            seasons: season::started(&surroundings.seasons, &surroundings.time_zone, until),
            crops: lots.iter().map(|(id, lot)| (*id, seed::crop_key(&lot.crop))).collect(),
            steps: Vec::with_capacity(happenings.len()),
            tanks: Vec::with_capacity(happenings.len()),
            first,
        };
        let now = Condition { configuration: first, ..Condition::default() };
        let mut walk = Walk { now, tank: Tank::default(), known: HashMap::new() };
        for happening in happenings {
            walk.take(happening);
            course.note(happening, &walk);
        }
        course
    }

    fn note(&mut self, happening: Happening<'a>, Walk { now, tank, .. }: &Walk<'a>) {
        match happening {
            Happening::Calibration(record) => {
                self.calibrations.push(Calibrated { record, basis: *now, step: self.steps.len() });
            }
            Happening::Job(record) => self.jobs.push(Worked { record, condition: *now }),
            Happening::Service(record) if record.what.affects_metering => self.services.push(record),
            _ => {}
        }
        self.steps.push(Step { moment: happening.moment(), kind: happening.kind(), after: *now });
        self.tanks.push(tank.clone());
    }

    /// Whether what is known of a moment depends on nothing later: before the first configuration none holds, and what the unit
    /// was like then is another.
    pub(super) fn tells_of(&self, at: Timestamp) -> bool {
        self.first.is_none_or(|first| first.happened_by(at))
    }

    /// The beginning of it up to `at`, records of that instant included; of a moment that it tells of.
    pub(super) fn until(&self, at: Timestamp) -> Timeline<'_> {
        let steps = beginning(&self.steps, at, |step| step.moment.occurred_at);
        let policies = latest_by(&self.surroundings.policies, at);
        Timeline {
            at,
            surroundings: self.surroundings,
            policy: policies.map_or_else(Policy::default, |policy| policy.what.clone()),
            now: steps.last().map(|step| step.after).unwrap_or_default(),
            tank: self.tanks[..steps.len()].last().cloned().unwrap_or_default(),
            calibrations: beginning(&self.calibrations, at, |made| made.moment().occurred_at),
            jobs: beginning(&self.jobs, at, |job| job.record.moment.occurred_at),
            services: beginning(&self.services, at, |service| service.moment.occurred_at),
            seasons: beginning(&self.seasons, at, |season| season.at),
            crops: &self.crops,
            steps,
        }
    }
}

impl<'a> Walk<'a> {
    fn take(&mut self, happening: Happening<'a>) {
        match happening {
            Happening::Configuration(configuration) => self.now.configuration = Some(configuration),
            Happening::Setup(setup) => self.now.setup = Some(setup),
            Happening::LotTest(lot, test) => self.known.entry(lot).or_default().learn(test.what),
            _ => self.tank.after(&happening),
        }
        self.now.lot = self.tank.lot;
        self.now.weights = self.now.lot.and_then(|lot| self.known.get(&lot)).copied().unwrap_or_default();
    }
}

/// Those of `all`, which are in order, that were by `at`.
fn beginning<T>(all: &[T], at: Timestamp, occurred_at: impl Fn(&T) -> Timestamp) -> &[T] {
    &all[..all.partition_point(|one| occurred_at(one) <= at)]
}

impl<'a> Timeline<'a> {
    /// The crop of a lot in the form in which crops compare; `None` for no lot or one that is not known.
    pub(super) fn crop(&self, lot: Option<LotId>) -> Option<&str> {
        self.crops.get(&lot?).map(String::as_str)
    }

    /// The record from which, counting from the calibration's own, `differs` has held without a break until now; `None` if it
    /// does not hold now.
    pub(super) fn held_since(
        &self,
        calibration: &Calibrated<'a>,
        differs: impl Fn(&Condition<'a>) -> bool,
    ) -> Option<&Step<'a>> {
        self.steps[calibration.step..].iter().rev().take_while(|step| differs(&step.after)).last()
    }
}

/// The lots that the unit has had to do with, as far as they are known.
fn lots_of<'a>(happenings: &[Happening<'a>], surroundings: &'a Surroundings) -> HashMap<LotId, &'a LotFacts> {
    let named = happenings.iter().filter_map(|happening| match happening {
        Happening::Fill(fill) => Some(fill.what.lot),
        Happening::Calibration(calibration) => Some(calibration.what.lot),
        Happening::Job(job) => Some(job.what.lot),
        _ => None,
    });
    named.filter_map(|lot| Some((lot, surroundings.lots.get(&lot)?))).collect()
}

/// Adds the tests of those lots: they can change what is known of the seed in the tank.
fn add_lot_tests<'a>(happenings: &mut Vec<Happening<'a>>, lots: &HashMap<LotId, &'a LotFacts>, at: Timestamp) {
    for (id, lot) in lots {
        let tests = lot.tests.iter().filter(|test| test.happened_by(at));
        happenings.extend(tests.map(|test| Happening::LotTest(*id, test)));
    }
    happenings.sort_by_key(Happening::place);
}
