//! Everything besides the weighed seed that a judgement depends on, gathered so that it can be stored with the
//! calibration and the judgement computed again years later, whatever has changed since.

use serde::{Deserialize, Serialize};

use crate::{
    catch::{Finding, Pointer},
    ids::{CalibrationId, RollerId},
    policy::Policy,
    quantity::{DriveRatio, Mass, Rate, Speed},
    rate::DriveRange,
    say,
    words::Words,
};

/// Machine, plan, scale, expectation and policy at the moment of a catch.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Circumstances {
    /// Runs of the unit that sow in its setup.
    pub runs_in_use: u32,
    /// The setup's roller revolutions per drive revolution.
    pub drive_ratio: DriveRatio,
    /// The roller speeds the drive can hold, where known.
    pub drive_range: Option<DriveRange>,
    /// The roller speed at the catch, where known.
    pub roller_speed_rpm: Option<f64>,
    /// What will be sown with it, where known.
    pub planned: Option<Planned>,
    /// m.
    pub working_width_m: f64,
    /// The scale, where one was named.
    pub scale: Option<ScaleFacts>,
    /// The lot's latest, g per thousand seeds.
    pub thousand_seed_weight_g: Option<f64>,
    /// What the factor should be about, where anything is known.
    pub expected: Option<Expected>,
    /// The policy in force.
    pub policy: Policy,
    /// What is known besides that could explain a wrong factor; no check looks at it.
    #[serde(default, skip_serializing_if = "Clues::is_empty")]
    pub clues: Clues,
}

/// What the organization's records know that could explain a wrong factor, for [`crate::suspicion`] alone.
///
/// Clues that make no sense (a roller whose factor is not above zero) explain nothing and are passed over; they are no
/// fault of the sheet.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Clues {
    /// Mean tare of one bag in the unit's last calibration, kg.
    pub usual_tare_kg: Option<f64>,
    /// Drive ratios that the unit was set up with before, or that other units of the organization have.
    pub other_drive_ratios: Vec<DriveRatio>,
    /// Rollers of the organization that could be in instead.
    pub other_rollers: Vec<OtherRoller>,
}

impl Clues {
    /// Nothing is known.
    pub fn is_empty(&self) -> bool {
        self.usual_tare_kg.is_none() && self.other_drive_ratios.is_empty() && self.other_rollers.is_empty()
    }
}

/// A roller that could be in instead of the one on record.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OtherRoller {
    /// Which.
    pub roller_id: RollerId,
    /// What it is called.
    pub label: String,
    /// What it should turn out of the same seed, kg per revolution per run.
    pub expected_factor: f64,
}

/// The rate and driving speed that the catch is for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Planned {
    /// Seed per area.
    pub rate: Rate,
    /// Driving speed.
    pub speed: Speed,
}

/// What is known of the scale at the moment of the catch.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ScaleFacts {
    /// Its smallest step.
    pub readability: Mass,
    /// The most it can weigh.
    pub capacity: Mass,
    /// How its last check went.
    pub last_check: ScaleStanding,
}

/// How the last check of a scale with a known mass stands at the moment of the catch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ScaleStanding {
    /// There was no check.
    NeverChecked,
    /// It passed, within the policy's interval: the check is in force.
    PassedWithin,
    /// It passed, longer ago than the policy's interval.
    PassedLongAgo,
    /// It failed.
    Failed,
}

/// The factor that a catch should give, about.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Expected {
    /// kg per revolution per run.
    pub factor: f64,
    /// Where it comes from.
    pub source: ExpectedSource,
}

/// Where an expectation comes from, best first.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ExpectedSource {
    /// The unit's last accepted factor with the same roller and crop.
    LastCalibration {
        /// That calibration.
        calibration_id: CalibrationId,
        /// Bulk density now over bulk density then, by which its factor was multiplied; `None` where either is unknown.
        density_ratio: Option<f64>,
    },
    /// The roller's displacement times the bulk density.
    Displacement,
}

impl Expected {
    /// From the last accepted factor with the same roller and crop, times bulk density now over bulk density then where
    /// both are known: a meter turns out volume, so the mass follows the density (first-order rule, published as such).
    ///
    /// ```
    /// use sowmark_core::{circumstances::Expected, ids::CalibrationId};
    ///
    /// let id = CalibrationId(uuid::Uuid::nil());
    /// let lighter_seed = Expected::from_last_calibration(id, 0.030, Some(72.1 / 77.2));
    /// assert!((lighter_seed.factor - 0.02802).abs() < 1e-5); // -6.6 %
    /// ```
    pub fn from_last_calibration(calibration_id: CalibrationId, factor: f64, density_ratio: Option<f64>) -> Self {
        let density_ratio = density_ratio.filter(|ratio| ratio.is_finite() && *ratio > 0.0);
        Self {
            factor: factor * density_ratio.unwrap_or(1.0),
            source: ExpectedSource::LastCalibration { calibration_id, density_ratio },
        }
    }

    /// From the roller's displacement (m³ per revolution of one run) and the bulk density (kg/m³).
    pub fn from_displacement(displacement_m3: f64, bulk_density: f64) -> Self {
        Self { factor: displacement_m3 * bulk_density, source: ExpectedSource::Displacement }
    }
}

impl Circumstances {
    /// Everything about them that cannot be so. Pointers name the API's fields where the caller sent them
    /// (`/roller_speed_rpm`, `/planned/rate`), else this struct's.
    pub fn check(&self) -> Vec<Finding> {
        self.check_in(Words::default())
    }

    /// [`Self::check`], said as a person reads.
    pub fn check_in(&self, words: Words) -> Vec<Finding> {
        let mut findings = Vec::new();
        let mut above_zero = |path: &[&str], what: &str, fine: bool| {
            if !fine {
                let at = path.iter().fold(Pointer::root(), |at, segment| at.then(segment));
                findings.push(Finding::new(at, say!(words, "circumstances-not-above-zero", what = what)));
            }
        };
        let positive = |value: f64| value.is_finite() && value > 0.0;
        let absent_or_positive = |value: Option<f64>| value.is_none_or(positive);
        above_zero(&["runs_in_use"], "runs", self.runs_in_use > 0);
        above_zero(&["working_width_m"], "width", positive(self.working_width_m));
        above_zero(&["roller_speed_rpm"], "roller-speed", absent_or_positive(self.roller_speed_rpm));
        above_zero(&["thousand_seed_weight_g"], "seed-weight", absent_or_positive(self.thousand_seed_weight_g));
        above_zero(&["expected"], "expected", absent_or_positive(self.expected.map(|expected| expected.factor)));
        if let Some(Planned { rate, speed }) = &self.planned {
            above_zero(&["planned", "rate"], "rate", rate.is_positive());
            above_zero(&["planned", "speed"], "speed", speed.is_positive());
        }
        if let Some(ScaleFacts { readability, capacity, .. }) = &self.scale {
            above_zero(&["scale", "readability"], "readability", readability.is_positive());
            above_zero(&["scale", "capacity"], "capacity", capacity.is_positive());
        }
        if let Some(DriveRange { min_rpm, max_rpm }) = self.drive_range
            && !(min_rpm >= 0.0 && max_rpm >= min_rpm && positive(max_rpm))
        {
            let says =
                say!(words, "circumstances-drive-range", least = words.exactly(min_rpm), most = words.exactly(max_rpm));
            findings.push(Finding::new(Pointer::root().then("drive_range"), says));
        }
        let policy = Pointer::root().then("policy");
        let faults = self.policy.check_in(words).into_iter();
        findings.extend(faults.map(|(field, says)| Finding::new(policy.then(field), says)));
        findings
    }
}
