//! What readiness is computed from: the records of one metering unit, and what surrounds it.
//!
//! Plain values, gathered by whoever keeps the records. Void records are not passed in. The order within each list is of no
//! importance: the moments order them.

use std::collections::HashMap;

use jiff::{Timestamp, civil::Date, tz::TimeZone};

use crate::{
    basis::{Configuration, Setup},
    ids::{LotId, MeteringUnitId, ScaleId, SeasonId, SeederId},
    moment::Dated,
    policy::Policy,
    readiness::Trigger,
};

/// Everything recorded of one metering unit.
#[derive(Clone, Debug, PartialEq)]
pub struct UnitHistory {
    /// The seeder it belongs to.
    pub seeder: SeederId,
    /// The unit.
    pub unit: MeteringUnitId,
    /// When the seeder was commissioned; its first configuration carries the midnight of this day as its moment.
    pub commissioned_on: Date,
    /// Laid up (`true`) and taken into use again (`false`); in use before the first.
    pub laid_up: Vec<Dated<bool>>,
    /// The seeder's configurations.
    pub configurations: Vec<Dated<Configuration>>,
    /// The unit's setups.
    pub setups: Vec<Dated<Setup>>,
    /// Services of this unit or of the whole seeder.
    pub services: Vec<Dated<Service>>,
    /// Seed put into the tank.
    pub fills: Vec<Dated<Fill>>,
    /// Seed taken out of the tank.
    pub emptyings: Vec<Dated<Emptying>>,
    /// The unit's calibrations, whatever became of them.
    pub calibrations: Vec<Dated<CalibrationFacts>>,
    /// The unit's jobs.
    pub jobs: Vec<Dated<JobFacts>>,
    /// Waivers given for this unit.
    pub waivers: Vec<Dated<Waiver>>,
}

/// A part replaced or repaired.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Service {
    /// Whether it can have changed what a revolution delivers.
    pub affects_metering: bool,
}

/// Seed of one lot put into the tank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fill {
    /// The lot.
    pub lot: LotId,
}

/// Seed taken out of the tank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Emptying {
    /// The lot that came out.
    pub lot: LotId,
    /// Whether nothing was left in.
    pub to_empty: bool,
}

/// What became of a calibration, as known now.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Standing {
    /// Passed, or accepted by the office.
    Accepted,
    /// Failed, and waits for the office.
    Held,
    /// Failed, and the office agreed.
    Rejected,
}

/// What a calibration means for readiness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CalibrationFacts {
    /// The lot that was caught.
    pub lot: LotId,
    /// What became of it, as known now.
    pub standing: Standing,
    /// The meter factor, kg per roller revolution per run.
    pub factor: f64,
    /// The roller speed it was made at, 1/min, where known.
    pub roller_speed_rpm: Option<f64>,
    /// The scale it was weighed on, where named.
    pub scale: Option<ScaleId>,
}

/// How the seed used by a job is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SeedUsedBasis {
    /// Weighed in and out.
    Weighed,
    /// Bags counted.
    Bags,
    /// The machine's own total, which is revolutions times the factor it was given and says nothing about that factor.
    MachineTotal,
}

/// What a job means for readiness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JobFacts {
    /// The lot that was sown.
    pub lot: LotId,
    /// Area sown, m².
    pub area_m2: f64,
    /// Seed used, kg.
    pub seed_used_kg: f64,
    /// How the seed used is known.
    pub seed_used_basis: SeedUsedBasis,
    /// Target rate, kg/m².
    pub target_rate: f64,
    /// Driving speed, m/s, where known.
    pub speed: Option<f64>,
}

/// The office lets one trigger pass on this unit for a time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Waiver {
    /// The trigger it lets pass.
    pub trigger: Trigger,
    /// Until when; at this instant it has expired.
    pub until: Timestamp,
    /// Why; none where that is not told to who asks. Nothing is computed from it.
    pub reason: Option<String>,
}

/// What surrounds the unit: its organization's zone, lots, seasons, scales and policies.
#[derive(Clone, Debug)]
pub struct Surroundings {
    /// The organization's time zone, in which dates are days.
    pub time_zone: TimeZone,
    /// At least every lot that the unit's records name.
    pub lots: HashMap<LotId, LotFacts>,
    /// The organization's seasons.
    pub seasons: Vec<Season>,
    /// At least every scale that the unit's calibrations name.
    pub scales: HashMap<ScaleId, ScaleFacts>,
    /// The organization's policies; the latest by the moment asked for counts, the default one before the first.
    pub policies: Vec<Dated<Policy>>,
}

/// What matters of a lot.
#[derive(Clone, Debug, PartialEq)]
pub struct LotFacts {
    /// The crop, or the product of a lot that is not seed; compared without regard to case and the blanks around it.
    pub crop: String,
    /// The lot's tests.
    pub tests: Vec<Dated<LotTest>>,
}

/// The seed weights of a lot: what one test found, or the latest known of each.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LotTest {
    /// Bulk density, kg/m³; any unit will do here, since only ratios of the same lot's or crop's are taken.
    pub bulk_density: Option<f64>,
    /// Mass of a thousand seeds, kg; any unit will do.
    pub thousand_seed_weight: Option<f64>,
}

/// A named season.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Season {
    /// The season.
    pub id: SeasonId,
    /// Its first day, in the organization's time zone.
    pub starts_on: Date,
    /// The crops it is for; `None` (or an empty list) for all.
    pub crops: Option<Vec<String>>,
}

/// What matters of a scale.
#[derive(Clone, Debug, PartialEq)]
pub struct ScaleFacts {
    /// Its smallest step, kg.
    pub readability_kg: f64,
    /// Its checks with known masses.
    pub checks: Vec<Dated<ScaleCheck>>,
}

/// A reading of a known mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScaleCheck {
    /// The known mass, kg.
    pub reference_kg: f64,
    /// What the scale showed, kg.
    pub reading_kg: f64,
}
