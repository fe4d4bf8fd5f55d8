//! A trigger that is due: since when, by what, and the values behind it.
//!
//! Values, not sentences: whoever shows them knows the reader's units and the labels of lots and rollers.

use jiff::{Timestamp, civil::Date};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::{
    ids::{LotId, RollerId, ScaleId, SeasonId},
    quantity::DriveRatio,
    readiness::{ScaleCheck, Severity, Standing, Trigger},
};

/// A trigger that is due.
#[derive(Clone, Debug, PartialEq)]
pub struct Due {
    /// Which one.
    pub trigger: Trigger,
    /// Its severity.
    pub severity: Severity,
    /// The moment from which it has held without a break.
    pub since: Timestamp,
    /// The record that began it.
    pub cause: Cause,
    /// The values behind it, for the sentence that explains it.
    pub detail: Detail,
    /// The waiver that takes it out of the state, if there is one.
    pub waived: Option<Waived>,
}

/// A waiver in force for a trigger.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Waived {
    /// The waiver's record.
    pub waiver: Uuid,
    /// Until when.
    pub until: Timestamp,
    /// Why; none where that is not told to who asks.
    pub reason: Option<String>,
}

/// The record that began a trigger.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Cause {
    /// What kind of record it is.
    pub kind: CauseKind,
    /// Its id.
    pub id: Uuid,
}

/// Kinds of records, and of registry entries, that can begin a trigger.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CauseKind {
    /// The seeder and its commissioning.
    Seeder,
    /// A season and its start.
    Season,
    /// A configuration of the seeder.
    Configuration,
    /// A setup of the unit.
    Setup,
    /// A service.
    Service,
    /// A fill of the tank.
    Fill,
    /// An emptying of the tank.
    Emptying,
    /// A calibration.
    Calibration,
    /// A job.
    Job,
    /// A test of a lot.
    LotTest,
    /// A check of a scale.
    ScaleCheck,
}

impl CauseKind {
    /// Its name in the API.
    pub fn as_str(self) -> &'static str {
        match self {
            CauseKind::Seeder => "seeder",
            CauseKind::Season => "season",
            CauseKind::Configuration => "configuration",
            CauseKind::Setup => "setup",
            CauseKind::Service => "service",
            CauseKind::Fill => "fill",
            CauseKind::Emptying => "emptying",
            CauseKind::Calibration => "calibration",
            CauseKind::Job => "job",
            CauseKind::LotTest => "lot_test",
            CauseKind::ScaleCheck => "scale_check",
        }
    }
}

/// A value at the calibration and the value now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Change<T> {
    /// At the calibration.
    pub from: T,
    /// Now.
    pub to: T,
}

/// The values behind a trigger, at the calibration and now.
#[derive(Clone, Debug, PartialEq)]
pub enum Detail {
    /// See [`Trigger::NeverCalibrated`].
    NeverCalibrated {
        /// When the seeder was commissioned.
        commissioned_on: Date,
    },
    /// See [`Trigger::NewSeason`].
    NewSeason {
        /// The season in force.
        season: SeasonId,
        /// Its first day.
        starts_on: Date,
    },
    /// See [`Trigger::CropChanged`].
    CropChanged {
        /// The crops, as written at their lots.
        crop: Change<String>,
        /// The lots.
        lot: Change<LotId>,
    },
    /// See [`Trigger::LotChanged`].
    LotChanged(Change<LotId>),
    /// See [`Trigger::SeedWeightChanged`]: those of the two that differ by more than is allowed.
    SeedWeightChanged {
        /// The lot.
        lot: LotId,
        /// Bulk density, in the unit that the tests were given in.
        bulk_density: Option<Change<f64>>,
        /// Thousand-seed weight, in the unit that the tests were given in.
        thousand_seed_weight: Option<Change<f64>>,
        /// What the policy allows, percent.
        tolerance_percent: f64,
    },
    /// See [`Trigger::RollerChanged`]; `None` where no setup is known (the calibration's was voided).
    RollerChanged(Change<Option<RollerId>>),
    /// See [`Trigger::DriveRatioChanged`].
    DriveRatioChanged(Change<DriveRatio>),
    /// See [`Trigger::GateChanged`].
    GateChanged(Change<Option<String>>),
    /// See [`Trigger::ConfigurationChanged`]: those of the three that differ.
    ConfigurationChanged {
        /// Working width, m.
        working_width_m: Option<Change<f64>>,
        /// Row spacing, m.
        row_spacing_m: Option<Change<f64>>,
        /// Runs in use.
        runs: Option<Change<u32>>,
    },
    /// See [`Trigger::ComponentReplaced`].
    ComponentReplaced {
        /// How many services that affect metering came after the calibration.
        services: usize,
    },
    /// See [`Trigger::CalibrationInDoubt`].
    CalibrationInDoubt {
        /// What became of the later calibration.
        standing: Standing,
    },
    /// See [`Trigger::RollerSpeedOff`].
    RollerSpeedOff {
        /// The calibration's roller speed and the one the latest job needed, 1/min.
        rpm: Change<f64>,
        /// What the policy allows, percent.
        tolerance_percent: f64,
    },
    /// See [`Trigger::Drift`].
    Drift {
        /// The chart's latest point: the smoothed natural logarithm of actual over target rate.
        z: f64,
        /// Its limit, above and below zero.
        limit: f64,
        /// How many jobs the chart holds.
        jobs: usize,
    },
    /// See [`Trigger::Interval`]: those of the two that were exceeded.
    Interval {
        /// Area sown since the calibration and the policy's limit, ha.
        area_ha: Option<Exceeded>,
        /// Days since the calibration and the policy's limit.
        days: Option<Exceeded>,
    },
    /// See [`Trigger::ScaleUnchecked`].
    ScaleUnchecked(ScaleDoubt),
}

/// A value beyond its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exceeded {
    /// The value.
    pub value: f64,
    /// The limit.
    pub limit: f64,
}

/// Why the scale of a calibration was not shown to be right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ScaleDoubt {
    /// No scale was named.
    NotNamed,
    /// It passed no check within the policy's interval before the calibration.
    NoPassingCheck {
        /// The scale.
        scale: ScaleId,
        /// The policy's interval, days.
        interval_days: f64,
    },
    /// It failed its next check after the calibration.
    FailedNext {
        /// The scale.
        scale: ScaleId,
        /// The check it failed.
        check: ScaleCheck,
    },
}

impl Detail {
    /// The trigger that these values belong to.
    pub fn trigger(&self) -> Trigger {
        match self {
            Detail::NeverCalibrated { .. } => Trigger::NeverCalibrated,
            Detail::NewSeason { .. } => Trigger::NewSeason,
            Detail::CropChanged { .. } => Trigger::CropChanged,
            Detail::LotChanged(_) => Trigger::LotChanged,
            Detail::SeedWeightChanged { .. } => Trigger::SeedWeightChanged,
            Detail::RollerChanged(_) => Trigger::RollerChanged,
            Detail::DriveRatioChanged(_) => Trigger::DriveRatioChanged,
            Detail::GateChanged(_) => Trigger::GateChanged,
            Detail::ConfigurationChanged { .. } => Trigger::ConfigurationChanged,
            Detail::ComponentReplaced { .. } => Trigger::ComponentReplaced,
            Detail::CalibrationInDoubt { .. } => Trigger::CalibrationInDoubt,
            Detail::RollerSpeedOff { .. } => Trigger::RollerSpeedOff,
            Detail::Drift { .. } => Trigger::Drift,
            Detail::Interval { .. } => Trigger::Interval,
            Detail::ScaleUnchecked(_) => Trigger::ScaleUnchecked,
        }
    }
}
