//! A unit's catches, triggers and jobs as the lines that long reports are made of: the same in the season report and in a
//! seeder's book, so that the two never tell the same thing differently.

use super::period::Found;
use crate::access::Role;
use crate::fleet::seeder::key_in::per_100;
use crate::readiness::act::Records;
use crate::readiness::{Names, Teller};
use crate::records::head::{self, said, span};
use crate::usage::act::JobUse;
use crate::usage::judging::Judging;
use crate::usage::{basis, number_stands, signed_percent};
use crate::web::door::Signed;
use crate::web::reader::Reader;
use jiff::Timestamp;
use sowmark_core::ids::LotId;
use sowmark_core::moment::Dated;
use sowmark_core::quantity::from_si;
use sowmark_core::readiness::{Answer, CalibrationFacts, Readiness, Severity, Standing, Stood, UnitHistory};
use sowmark_core::say;
use uuid::Uuid;

/// A catch.
pub(super) struct CatchLine {
    pub id: Uuid,
    pub when: String,
    pub lot: String,
    pub factor: String,
    pub uncertainty: String,
    /// Words of the API, for their shapes.
    pub verdict: String,
    pub status: &'static str,
}

/// A trigger that stood, and what ended it.
pub(super) struct TriggerLine {
    /// The state that it brought the unit into, for its shape.
    pub state: &'static str,
    pub says: String,
    pub since: String,
    pub answer: String,
    /// The catch that answered it.
    pub caught: Option<Uuid>,
    /// How long it stood.
    pub after: String,
}

/// A job.
pub(super) struct JobLine {
    pub when: String,
    pub field: String,
    pub lot: String,
    pub area: String,
    pub seed: String,
    pub basis: String,
    pub actual: String,
    pub target: String,
    pub deviation: String,
    pub stands: String,
    pub was_true: bool,
}

/// Who is told of what.
#[derive(Clone, Copy)]
pub(super) struct Told<'t> {
    pub signed: &'t Signed,
    pub found: &'t Found,
    pub judging: &'t Judging,
    /// Of everything that the reader may see, or of one client's alone.
    pub is_all: bool,
}

/// How long something stood, in seconds.
pub(super) fn seconds(from: Timestamp, to: Timestamp) -> i64 {
    to.duration_since(from).as_secs().max(0)
}

impl Told<'_> {
    pub(super) fn reader(&self) -> Reader {
        self.signed.actor.reader()
    }

    pub(super) fn said(&self, at: Timestamp) -> String {
        said(at, &self.signed.actor.time_zone, self.reader().words)
    }

    fn said_end(&self, at: Timestamp) -> String {
        head::said_end(at, &self.signed.actor.time_zone, self.reader().words)
    }

    /// Whether the whole of a unit is told, not only what one client's seed had to do with.
    pub(super) fn is_whole(&self) -> bool {
        self.is_all && Names::is_whole(&self.signed.actor.scope)
    }

    /// Whether what concerns a lot is told.
    pub(super) fn owns(&self, lot: Option<LotId>) -> bool {
        self.is_whole() || lot.is_some_and(|lot| self.judging.owns(lot))
    }

    pub(super) fn is_crew(&self) -> bool {
        self.signed.actor.role == Role::Crew
    }

    pub(super) fn teller<'n>(&'n self, names: &'n Names, at: Timestamp) -> Teller<'n> {
        Teller { names, zone: &self.signed.actor.time_zone, reader: self.reader(), at }
    }

    fn lot(&self, names: &Names, lot: Uuid) -> String {
        let words = self.reader().words;
        names.lot(lot).map_or_else(|| say!(words, "cab-card-lot-unknown"), |lot| lot.number.clone())
    }

    /// The catches of the period, oldest first.
    pub(super) fn catches<'h>(&self, history: &'h UnitHistory) -> Vec<&'h Dated<CalibrationFacts>> {
        let is_told = |made: &&Dated<CalibrationFacts>| {
            self.found.holds(made.moment.occurred_at) && self.judging.owns(made.what.lot)
        };
        let mut catches: Vec<_> = history.calibrations.iter().filter(is_told).collect();
        catches.sort_by_key(|made| made.moment);
        catches
    }

    pub(super) fn catch(&self, made: &Dated<CalibrationFacts>, names: &Names) -> CatchLine {
        let (reader, id) = (self.reader(), made.moment.id);
        let unit = per_100(reader.units);
        let digits = names.digits(id, from_si(made.what.factor, unit));
        CatchLine {
            id,
            when: self.said(made.moment.occurred_at),
            lot: self.lot(names, made.what.lot.0),
            factor: format!(
                "{} {}",
                reader.words.print(made.what.factor, unit, digits),
                reader.words.unit(unit.name())
            ),
            uncertainty: format!("\u{b1} {} %", reader.words.number(names.uncertainty_percent(id), 2)),
            verdict: names.verdict(id).unwrap_or_default().to_owned(),
            status: match made.what.standing {
                Standing::Accepted => "accepted",
                Standing::Held => "held",
                Standing::Rejected => "rejected",
            },
        }
    }

    /// One that stands on a machine that is laid up waits for nobody.
    pub(super) fn trigger(&self, stood: &Stood, names: &Names, is_laid_up: bool) -> TriggerLine {
        let words = self.reader().words;
        let ended = stood.end.as_ref().map_or(self.found.until, |end| end.at);
        let when = self.said(ended);
        let (answer, caught) = match stood.end.as_ref().map(|end| &end.answer) {
            None if is_laid_up => (say!(words, "report-answer-laid-up"), None),
            None => (say!(words, "report-answer-open"), None),
            Some(Answer::Caught(id)) => (say!(words, "report-answer-caught", when = when), names.told(id.0)),
            Some(Answer::Recalled(_)) => (say!(words, "report-answer-recalled", when = when), None),
            Some(Answer::Waived(waived)) => {
                let until = self.said_end(waived.until);
                let says = match waived.reason.as_ref().filter(|_| self.is_whole()) {
                    Some(reason) => say!(words, "report-answer-waived", when = when, until = until, reason = reason),
                    None => say!(words, "report-answer-waived-withheld", when = when, until = until),
                };
                (says, None)
            }
            Some(Answer::Gone) => (say!(words, "report-answer-gone", when = when), None),
        };
        TriggerLine {
            state: if stood.due.severity == Severity::Stop { "calibrate" } else { "check" },
            says: self.teller(names, stood.seen).says(&stood.due, stood.compared_with),
            since: self.said(stood.since),
            answer,
            caught,
            after: span(seconds(stood.since, ended), words),
        }
    }

    pub(super) fn job(&self, job: &JobUse, names: &Names) -> JobLine {
        let reader = self.reader();
        let (words, row) = (reader.words, &job.row);
        let off = |share: f64| signed_percent(100.0 * share, words);
        JobLine {
            when: row.head.when(&self.signed.actor.time_zone, words),
            field: row.field().to_owned(),
            lot: self.lot(names, row.lot_id),
            area: reader.measured(&row.area),
            seed: reader.measured(&row.seed_used),
            basis: basis(job.facts.seed_used_basis, words),
            actual: job.came_to.map(|came_to| reader.rate_sown(came_to.rate)).unwrap_or_default(),
            target: reader.rate(job.facts.target_rate),
            deviation: job.came_to.map(|came_to| off(came_to.deviation)).unwrap_or_default(),
            stands: number_stands(job, words),
            was_true: job.was_true(),
        }
    }

    /// What was not as it should be: ground under a number that was not true, catches accepted although a check failed,
    /// triggers let pass. In order.
    pub(super) fn exceptions(
        &self,
        records: &Records,
        history: &UnitHistory,
        jobs: &[JobUse],
    ) -> Vec<(String, String)> {
        let words = self.reader().words;
        let untrue = jobs.iter().filter(|job| !job.was_true()).map(|job| (job.row.head.stamp().at, self.untrue(job)));
        let overruled = self.catches(history).into_iter().filter(|made| {
            made.what.standing == Standing::Accepted && records.names.verdict(made.moment.id) == Some("fail")
        });
        let overruled = overruled.map(|made| {
            let lot = self.lot(&records.names, made.what.lot.0);
            (made.moment.occurred_at, say!(words, "report-exception-accepted", lot = lot))
        });
        let waived =
            history.waivers.iter().filter(|waiver| self.is_whole() && self.found.holds(waiver.moment.occurred_at));
        let waived = waived.map(|waiver| {
            let trigger = crate::readiness::trigger_in_words(waiver.what.trigger, words);
            let (until, reason) = (self.said_end(waiver.what.until), waiver.what.reason.as_deref().unwrap_or_default());
            let says = say!(words, "report-exception-waived", trigger = trigger, until = until, reason = reason);
            (waiver.moment.occurred_at, says)
        });
        let mut all: Vec<_> = untrue.chain(overruled).chain(waived).collect();
        all.sort_by_key(|(at, _)| *at);
        all.into_iter().map(|(at, says)| (self.said(at), says)).collect()
    }

    /// Why a job's ground counts as sown under a number that was not true.
    fn untrue(&self, job: &JobUse) -> String {
        let words = self.reader().words;
        let standing = job.readiness.due.iter().zip(&job.says);
        let stops = standing.filter(|(due, _)| due.severity == Severity::Stop && due.waived.is_none());
        let why: Vec<&str> = stops.map(|(_, says)| says.as_str()).collect();
        let why = if why.is_empty() { say!(words, "usage-no-number") } else { why.join(" ") };
        let area = self.reader().measured(&job.row.area);
        say!(words, "report-exception-untrue", area = area, field = job.row.field(), why = why)
    }

    /// What is fitted: roller, drive ratio, gate opening, runs in use.
    pub(super) fn fitted(&self, now: &Readiness, names: &Names) -> String {
        let words = self.reader().words;
        let Some(setup) = now.setup.as_ref().map(|setup| &setup.what) else { return say!(words, "setup-none") };
        let gate = setup.gate.as_deref().unwrap_or_default().trim();
        say!(
            words,
            "report-fitted",
            roller = names.roller(setup.roller.0),
            ratio = words.decimal(&setup.drive_ratio.to_string()),
            gated = if gate.is_empty() { "no" } else { "yes" },
            gate = gate,
            runs = setup.runs,
        )
    }
}
