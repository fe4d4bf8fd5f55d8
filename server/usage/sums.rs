//! Jobs together: by field, seeder, lot, crop, client or the person who logged them.

use super::act::JobUse;
use crate::readiness::Names;
use sowmark_core::policy::Policy;
use sowmark_core::say;
use sowmark_core::usage::Sown;
use sowmark_core::words::Words;
use std::collections::BTreeMap;

/// What jobs are put together by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum By {
    #[default]
    Field,
    Seeder,
    Lot,
    Crop,
    Person,
}

impl By {
    pub(super) const ALL: [Self; 5] = [Self::Field, Self::Seeder, Self::Lot, Self::Crop, Self::Person];

    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Field => "field",
            Self::Seeder => "seeder",
            Self::Lot => "lot",
            Self::Crop => "crop",
            Self::Person => "person",
        }
    }

    pub(super) fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|by| by.word() == word)
    }

    pub(super) fn says(self, words: Words) -> String {
        match self {
            Self::Field => say!(words, "usage-field"),
            Self::Seeder => say!(words, "usage-seeder"),
            Self::Lot => say!(words, "usage-lot"),
            Self::Crop => say!(words, "usage-crop"),
            Self::Person => say!(words, "usage-person"),
        }
    }

    /// What a job belongs to.
    fn of(self, job: &JobUse, names: &Names) -> String {
        let lot = names.lot(job.row.lot_id);
        match self {
            Self::Field => job.row.field().to_owned(),
            Self::Seeder => job.row.seeder.clone(),
            Self::Lot => lot.map_or_else(String::new, |lot| lot.number.clone()),
            Self::Crop => lot.map_or_else(String::new, |lot| lot.crop.clone()),
            Self::Person => job.row.head.recorded_by_name.clone().unwrap_or_default(),
        }
    }
}

/// What jobs come to together.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Sum {
    pub(super) area_m2: f64,
    /// Of it, under a number that was not true.
    pub(super) untrue_m2: f64,
    pub(super) sown: Sown,
    /// What the targets asked for, kg.
    wanted_kg: f64,
}

impl Sum {
    fn and(mut self, job: &JobUse) -> Self {
        let facts = &job.facts;
        self.area_m2 += facts.area_m2;
        self.untrue_m2 += if job.was_true() { 0.0 } else { facts.area_m2 };
        // Of sums only the masses are shown, which no policy changes.
        self.sown = self.sown.and(facts.seed_used_kg, facts.seed_used_basis, &Policy::default());
        self.wanted_kg += facts.target_rate * facts.area_m2;
        self
    }

    /// Seed per area, kg/m².
    pub(super) fn rate(&self) -> Option<f64> {
        (self.area_m2 > 0.0).then(|| self.sown.all().kg / self.area_m2)
    }

    /// The target, each hectare counting the same, kg/m².
    pub(super) fn target(&self) -> Option<f64> {
        (self.area_m2 > 0.0).then(|| self.wanted_kg / self.area_m2)
    }

    /// Actual / target - 1.
    pub(super) fn deviation(&self) -> Option<f64> {
        (self.wanted_kg > 0.0).then(|| self.sown.all().kg / self.wanted_kg - 1.0)
    }
}

/// All jobs and the groups of them, added up one after the other.
#[derive(Debug)]
pub(super) struct Sums {
    by: By,
    pub(super) all: Sum,
    /// In the order of their names.
    pub(super) groups: BTreeMap<String, Sum>,
}

impl Sums {
    pub(super) fn new(by: By) -> Self {
        Self { by, all: Sum::default(), groups: BTreeMap::new() }
    }

    pub(super) fn add(&mut self, job: &JobUse, names: &Names) {
        self.all = self.all.and(job);
        let group = self.groups.entry(self.by.of(job, names)).or_default();
        *group = group.and(job);
    }
}
