//! Jobs together: by field, seeder, lot, crop, month or the person who logged them. Where several crops would come together,
//! each stands apart: what a hectare of wheat takes says nothing of one of rape.

use super::act::JobUse;
use super::lines::Told;
use crate::records::head::said_month;
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
    Month,
    Person,
}

impl By {
    pub(super) const ALL: [Self; 6] = [Self::Field, Self::Seeder, Self::Lot, Self::Crop, Self::Month, Self::Person];

    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Field => "field",
            Self::Seeder => "seeder",
            Self::Lot => "lot",
            Self::Crop => "crop",
            Self::Month => "month",
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
            Self::Month => say!(words, "usage-month"),
            Self::Person => say!(words, "usage-person"),
        }
    }

    /// What a job belongs to: by what groups are put in order, and how it is called.
    fn of(self, job: &JobUse, told: &Told<'_>) -> (String, String) {
        let (row, words) = (&job.row, told.reader.words);
        let lot = told.names.lot(row.lot_id);
        let unseen = || say!(words, "cab-card-lot-unknown");
        let crop = lot.map_or_else(unseen, |lot| lot.crop.clone());
        let of_crop = |name: &str| if name.is_empty() { crop.clone() } else { format!("{name}, {crop}") };
        let name = match self {
            Self::Field => of_crop(row.field()),
            Self::Seeder => of_crop(&row.seeder),
            Self::Lot => lot.map_or_else(unseen, |lot| lot.number.clone()),
            Self::Crop => crop,
            Self::Month => {
                let month = told.zone.to_datetime(row.head.stamp().at).strftime("%Y-%m").to_string();
                return (of_crop(&month), of_crop(&said_month(&month, words)));
            }
            Self::Person => of_crop(row.head.recorded_by_name.as_deref().unwrap_or_default()),
        };
        (name.clone(), name)
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
    /// By their place and name.
    pub(super) groups: BTreeMap<(String, String), Sum>,
}

impl Sums {
    pub(super) fn new(by: By) -> Self {
        Self { by, all: Sum::default(), groups: BTreeMap::new() }
    }

    pub(super) fn add(&mut self, job: &JobUse, told: &Told<'_>) {
        self.all = self.all.and(job);
        let group = self.groups.entry(self.by.of(job, told)).or_default();
        *group = group.and(job);
    }
}
