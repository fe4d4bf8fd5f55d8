//! What a metering unit did in a period, as far as its reader may see it: asked of the features once, for its part and its sums.

use super::period::Found;
use super::sums::Sums;
use super::told::Told;
use crate::db::Cx;
use crate::readiness::act::Records;
use crate::usage::act::JobUse;
use crate::web::error::Error;
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::readiness::{Readiness, State, Stood, UnitHistory, readiness, stood};

pub(super) struct Unit<'r> {
    pub records: &'r Records,
    pub history: &'r UnitHistory,
    /// "Drill 1, front tank".
    pub title: String,
    pub jobs: Vec<JobUse>,
    pub triggers: Vec<Stood>,
    /// At the end of the period, or now.
    pub last: Readiness,
}

impl<'r> Unit<'r> {
    /// None where somebody who sees some clients only has nothing to see.
    ///
    /// # Errors
    /// The database.
    pub(super) async fn of(cx: &mut Cx<'_>, told: Told<'_>, records: &'r Records) -> Result<Option<Self>, Error> {
        let Some((row, history)) = records.units.first() else { return Ok(None) };
        let around = &records.surroundings;
        let Found { period, until, .. } = told.found;
        let jobs = told.judging.jobs_of_unit(cx, told.signed, records, MeteringUnitId(row.id), *period).await?;
        let mut triggers = stood(history, around, period.from, *until);
        triggers.retain(|stood| told.owns(stood.lot));
        let last = readiness(history, around, *until);
        let is_seen = told.is_whole() || !jobs.is_empty() || !triggers.is_empty() || !told.catches(history).is_empty();
        let title = format!("{}, {}", row.seeder, row.label);
        Ok(is_seen.then_some(Self { records, history, title, jobs, triggers, last }))
    }

    /// Whether there is nothing to tell of it.
    pub(super) fn stood_still(&self, told: Told<'_>) -> bool {
        let is_waived = self.history.waivers.iter().any(|waiver| told.found.holds(waiver.moment.occurred_at));
        self.jobs.is_empty() && self.triggers.is_empty() && told.catches(self.history).is_empty() && !is_waived
    }

    /// At the end of the period, or now.
    pub(super) fn is_laid_up(&self) -> bool {
        self.last.state == State::LaidUp
    }

    pub(super) fn sums(&self, told: Told<'_>) -> Sums {
        let mut sums = Sums::of_one();
        for made in told.catches(self.history) {
            sums.caught(made.what.standing);
        }
        for stood in &self.triggers {
            sums.stood(stood, self.is_laid_up());
        }
        for job in &self.jobs {
            let lot = self.records.names.lot(job.row.lot_id).map(|lot| (job.row.lot_id, lot.number.as_str()));
            sums.sown(job, lot);
        }
        sums
    }
}
