//! What a season comes to, of one unit or of all: catches, triggers and how soon they were answered, ground and seed.

use super::told::seconds;
use crate::records::head::span;
use crate::usage::act::JobUse;
use crate::web::reader::Reader;
use sowmark_core::policy::Policy;
use sowmark_core::readiness::{Answer, Severity, Standing, Stood, Trigger};
use sowmark_core::say;
use sowmark_core::usage::Sown;
use std::collections::BTreeMap;
use uuid::Uuid;

/// Ground and seed.
#[derive(Clone, Copy, Debug, Default)]
struct Ground {
    area_m2: f64,
    untrue_m2: f64,
    sown: Sown,
}

/// The sums.
#[derive(Clone, Debug, Default)]
pub(super) struct Sums {
    units: u64,
    accepted: u64,
    held: u64,
    rejected: u64,
    /// Triggers that stop a number: those after which the unit was caught again, those that ended otherwise, those that stand.
    caught: u64,
    otherwise: u64,
    open: u64,
    /// The longest that one waited for its catch, in seconds.
    longest: Option<i64>,
    ground: Ground,
    by_lot: BTreeMap<(String, Uuid), Ground>,
}

impl Ground {
    fn add(&mut self, other: &Self) {
        self.area_m2 += other.area_m2;
        self.untrue_m2 += other.untrue_m2;
        self.sown.weighed.kg += other.sown.weighed.kg;
        self.sown.bags.kg += other.sown.bags.kg;
        self.sown.machine_total.kg += other.sown.machine_total.kg;
    }
}

impl Sums {
    /// Of one unit of which nothing is known yet.
    pub(super) fn of_one() -> Self {
        Self { units: 1, ..Self::default() }
    }

    pub(super) fn caught(&mut self, standing: Standing) {
        match standing {
            Standing::Accepted => self.accepted += 1,
            Standing::Held => self.held += 1,
            Standing::Rejected => self.rejected += 1,
        }
    }

    /// A trigger. One that stands on a machine that is laid up waits for nobody.
    pub(super) fn stood(&mut self, stood: &Stood, is_laid_up: bool) {
        if stood.due.severity != Severity::Stop {
            return;
        }
        match &stood.end {
            None if is_laid_up => {}
            None => self.open += 1,
            Some(end) if matches!(end.answer, Answer::Caught(_)) => {
                self.caught += 1;
                // A first catch answers no change: a machine that came years before its records waited for nobody.
                if stood.due.trigger != Trigger::NeverCalibrated {
                    self.longest = self.longest.max(Some(seconds(stood.since, end.at)));
                }
            }
            Some(_) => self.otherwise += 1,
        }
    }

    /// A job, with its lot where its name may be known.
    pub(super) fn sown(&mut self, job: &JobUse, lot: Option<(Uuid, &str)>) {
        let facts = &job.facts;
        let ground = Ground {
            area_m2: facts.area_m2,
            untrue_m2: if job.was_true() { 0.0 } else { facts.area_m2 },
            // Of sums only the masses are shown, which no policy changes.
            sown: Sown::default().and(facts.seed_used_kg, facts.seed_used_basis, &Policy::default()),
        };
        self.ground.add(&ground);
        if let Some((id, name)) = lot {
            self.by_lot.entry((name.to_owned(), id)).or_default().add(&ground);
        }
    }

    pub(super) fn add(&mut self, other: &Self) {
        self.units += other.units;
        self.accepted += other.accepted;
        self.held += other.held;
        self.rejected += other.rejected;
        self.caught += other.caught;
        self.otherwise += other.otherwise;
        self.open += other.open;
        self.longest = self.longest.max(other.longest);
        self.ground.add(&other.ground);
        for (lot, ground) in &other.by_lot {
            self.by_lot.entry(lot.clone()).or_default().add(ground);
        }
    }

    /// Label and value, for all units.
    pub(super) fn facts(&self, reader: Reader) -> Vec<(String, String)> {
        let words = reader.words;
        let (ground, sown) = (&self.ground, &self.ground.sown);
        let mut facts = vec![
            (say!(words, "season-report-units"), self.units.to_string()),
            (say!(words, "season-report-accepted"), self.accepted.to_string()),
            (say!(words, "season-report-held"), self.held.to_string()),
            (say!(words, "season-report-rejected"), self.rejected.to_string()),
            (say!(words, "season-report-caught"), self.caught.to_string()),
            (say!(words, "season-report-otherwise"), self.otherwise.to_string()),
            (say!(words, "season-report-open"), self.open.to_string()),
        ];
        facts.extend(self.longest.map(|seconds| (say!(words, "season-report-longest"), span(seconds, words))));
        facts.extend([
            (say!(words, "usage-sown"), reader.area(ground.area_m2)),
            (say!(words, "usage-untrue"), reader.area(ground.untrue_m2)),
            (say!(words, "usage-seed-weighed"), reader.mass(sown.weighed.kg)),
            (say!(words, "usage-seed-bags"), reader.mass(sown.bags.kg)),
            (say!(words, "usage-seed-machine"), reader.mass(sown.machine_total.kg)),
        ]);
        facts
    }

    /// Label and value, for one unit.
    pub(super) fn of_unit(&self, reader: Reader) -> Vec<(String, String)> {
        let words = reader.words;
        let ground = &self.ground;
        vec![
            (say!(words, "usage-sown"), reader.area(ground.area_m2)),
            (say!(words, "usage-untrue"), reader.area(ground.untrue_m2)),
            (say!(words, "usage-seed"), reader.mass(ground.sown.all().kg)),
        ]
    }

    /// For a row of the fleet: catches accepted, triggers after which it was caught, triggers that stand, ground, of it under an
    /// untrue number, seed.
    pub(super) fn cells(&self, reader: Reader) -> Vec<String> {
        let ground = &self.ground;
        vec![
            self.accepted.to_string(),
            self.caught.to_string(),
            self.open.to_string(),
            reader.area(ground.area_m2),
            reader.area(ground.untrue_m2),
            reader.mass(ground.sown.all().kg),
        ]
    }

    /// Each lot's name with its ground, of it under an untrue number, and its seed by how it is known.
    pub(super) fn by_lot(&self, reader: Reader) -> Vec<(String, Vec<String>)> {
        let line = |((name, _), ground): (&(String, Uuid), &Ground)| {
            let sown = &ground.sown;
            let cells = vec![
                reader.area(ground.area_m2),
                reader.area(ground.untrue_m2),
                reader.mass(sown.weighed.kg),
                reader.mass(sown.bags.kg),
                reader.mass(sown.machine_total.kg),
            ];
            (name.clone(), cells)
        };
        self.by_lot.iter().map(line).collect()
    }
}
