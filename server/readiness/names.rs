//! What things are called, and who entered a record: what a sentence needs beside the values.

use super::store::{Head, NameRow, SurroundingRows, UnitRecordRows, instant};
use crate::access::{Reach, Scope};
use crate::web::error::Error;
use jiff::Timestamp;
use sowmark_core::ids::LotId;
use sowmark_core::quantity::significant_digits_for;
use std::collections::{HashMap, HashSet};
use uuid::Uuid;

/// What stands for a name that is not there. All of an organization's rollers, seasons and scales are, so nobody meets it;
/// a sign needs no language.
const NAMELESS: &str = "?";

/// A lot's names.
#[derive(Clone, Debug)]
pub struct LotName {
    pub number: String,
    pub crop: String,
    pub variety: Option<String>,
}

/// The names of an organization's things, as far as somebody may know them.
#[derive(Clone, Debug)]
pub struct Names {
    lots: HashMap<Uuid, LotName>,
    rollers: HashMap<Uuid, String>,
    seasons: HashMap<Uuid, String>,
    scales: HashMap<Uuid, String>,
    components: HashMap<Uuid, String>,
    people: HashMap<Uuid, String>,
    records: HashMap<Uuid, (Timestamp, Option<Uuid>)>,
    uncertainties: HashMap<Uuid, f64>,
    verdicts: HashMap<Uuid, String>,
    /// The lots that the reader may not know, and the records of them.
    withheld: HashSet<Uuid>,
}

impl Names {
    pub(super) fn new(
        scope: &Scope,
        around: &SurroundingRows,
        rows: &UnitRecordRows,
        rollers: Vec<NameRow>,
        people: Vec<NameRow>,
    ) -> Result<Self, Error> {
        let lots = around.lots.iter().filter(|lot| scope.lots.includes(&LotId(lot.id))).map(|lot| {
            (lot.id, LotName { number: lot.lot_number.clone(), crop: lot.crop.clone(), variety: lot.variety.clone() })
        });
        let mut records = HashMap::new();
        for head in heads(around, rows) {
            records.insert(head.id, (instant(head.occurred_at)?, head.recorded_by));
        }
        Ok(Self {
            lots: lots.collect(),
            rollers: named(rollers),
            seasons: around.seasons.iter().map(|season| (season.id, season.name.clone())).collect(),
            scales: around.scales.iter().map(|scale| (scale.id, scale.name.clone())).collect(),
            components: rows.services.iter().map(|service| (service.head.id, service.component.clone())).collect(),
            people: named(people),
            records,
            uncertainties: rows
                .calibrations
                .iter()
                .map(|calibration| (calibration.head.id, calibration.expanded_uncertainty_percent))
                .collect(),
            verdicts: rows.calibrations.iter().map(|made| (made.head.id, made.verdict.clone())).collect(),
            withheld: withheld(scope, around, rows),
        })
    }

    /// A lot, if the reader may know it.
    #[must_use]
    pub fn lot(&self, id: Uuid) -> Option<&LotName> {
        self.lots.get(&id)
    }

    /// The id of a lot or a record, unless it is another client's and so not the reader's to know. A judgement must not depend on
    /// who asks, so its cause and the number behind it may be another client's: then they are told without their id.
    #[must_use]
    pub fn told(&self, id: Uuid) -> Option<Uuid> {
        (!self.withheld.contains(&id)).then_some(id)
    }

    #[must_use]
    pub fn roller(&self, id: Uuid) -> &str {
        self.rollers.get(&id).map_or(NAMELESS, String::as_str)
    }

    #[must_use]
    pub fn season(&self, id: Uuid) -> &str {
        self.seasons.get(&id).map_or(NAMELESS, String::as_str)
    }

    #[must_use]
    pub fn scale(&self, id: Uuid) -> &str {
        self.scales.get(&id).map_or(NAMELESS, String::as_str)
    }

    /// The part that a service replaced or repaired.
    #[must_use]
    pub fn component(&self, service: Uuid) -> Option<&str> {
        self.components.get(&service).map(String::as_str)
    }

    /// Who entered a record.
    #[must_use]
    pub fn recorder(&self, record: Uuid) -> Option<&str> {
        let (_, by) = self.records.get(&record)?;
        by.and_then(|by| self.people.get(&by)).map(String::as_str)
    }

    /// How many digits of a calibration's factor mean something.
    #[must_use]
    pub fn digits(&self, calibration: Uuid, factor: f64) -> usize {
        significant_digits_for(factor, self.uncertainty_percent(calibration))
    }

    /// How well a calibration's factor is known; nothing where that is not known.
    #[must_use]
    pub fn uncertainty_percent(&self, calibration: Uuid) -> f64 {
        self.uncertainties.get(&calibration).copied().unwrap_or_default()
    }

    /// What a calibration's checks came to, as the API names it; none for what is no calibration.
    #[must_use]
    pub fn verdict(&self, calibration: Uuid) -> Option<&str> {
        self.verdicts.get(&calibration).map(String::as_str)
    }

    /// When a record happened.
    #[must_use]
    pub fn happened(&self, record: Uuid) -> Option<Timestamp> {
        self.records.get(&record).map(|(at, _)| *at)
    }

    /// People by their account.
    pub(super) fn people(rows: Vec<NameRow>) -> HashMap<Uuid, String> {
        named(rows)
    }

    /// Whether all lots have a name here.
    pub fn is_whole(scope: &Scope) -> bool {
        scope.lots == Reach::All
    }
}

fn named(rows: Vec<NameRow>) -> HashMap<Uuid, String> {
    rows.into_iter().map(|row| (row.id, row.name)).collect()
}

/// The lots out of scope, and the records that are about one of them.
fn withheld(scope: &Scope, around: &SurroundingRows, rows: &UnitRecordRows) -> HashSet<Uuid> {
    if Names::is_whole(scope) {
        return HashSet::new();
    }
    let fills = rows.fills.iter().map(|row| (row.head.id, row.lot_id));
    let emptyings = rows.emptyings.iter().map(|row| (row.head.id, row.lot_id));
    let calibrations = rows.calibrations.iter().map(|row| (row.head.id, row.lot_id));
    let jobs = rows.jobs.iter().map(|row| (row.head.id, row.lot_id));
    let tests = around.lot_tests.iter().map(|row| (row.head.id, row.head.subject));
    let of_a_lot = fills.chain(emptyings).chain(calibrations).chain(jobs).chain(tests);
    let lots = around.lots.iter().map(|lot| (lot.id, lot.id));
    of_a_lot.chain(lots).filter(|(_, lot)| !scope.lots.includes(&LotId(*lot))).map(|(id, _)| id).collect()
}

fn heads<'r>(around: &'r SurroundingRows, rows: &'r UnitRecordRows) -> impl Iterator<Item = Head> + 'r {
    let UnitRecordRows {
        lay_ups,
        configurations,
        services,
        setups,
        fills,
        emptyings,
        calibrations,
        decisions,
        jobs,
        waivers,
    } = rows;
    lay_ups
        .iter()
        .map(|row| row.head)
        .chain(configurations.iter().map(|row| row.head))
        .chain(services.iter().map(|row| row.head))
        .chain(setups.iter().map(|row| row.head))
        .chain(fills.iter().map(|row| row.head))
        .chain(emptyings.iter().map(|row| row.head))
        .chain(calibrations.iter().map(|row| row.head))
        .chain(decisions.iter().map(|row| row.head))
        .chain(jobs.iter().map(|row| row.head))
        .chain(waivers.iter().map(|row| row.head))
        .chain(around.lot_tests.iter().map(|row| row.head))
        .chain(around.scale_checks.iter().map(|row| row.head))
        .chain(around.policies.iter().map(|row| row.head))
}
