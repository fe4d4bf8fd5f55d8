//! From the factor to the field: roller speed for a rate, and how far rate and speed can go with a drive.
//!
//! All in SI: rate kg/m², width m, speed m/s, factor kg per revolution per run, roller speed in revolutions per minute
//! because drives are rated so. What the numbers are for is shown by [`crate::verdict`] (was it caught at the speed it
//! will run at?) and by the rate page.
//!
//! | question | answer |
//! | --- | --- |
//! | which roller speed for a rate at a driving speed | [`Metering::roller_speed_rpm`], for many at once [`Metering::table`] |
//! | how fast, how slow, how much, how little can the drive do | [`Metering::speed_range`], [`Metering::rate_range`] |
//! | which rate at a ratio of a wheel, which ratio for a rate | [`Metering::ground_rate`], [`Metering::ratio_for_rate`] |
//! | how many turns of the wheel or the roller for an area | [`GroundDrive::turns_for_area`], [`GroundDrive::roller_turns_for_area`] |
//! | which gate setting next | [`next_setting`], a first guess |

mod gate;
mod ground;
mod table;

pub use gate::{FAR_PERCENT, NextSetting, next_setting};
pub use ground::{GroundDrive, Slip};
pub use table::{RateTable, steps_around, whole_steps_around};

use serde::{Deserialize, Serialize};

/// The roller speeds that a drive can hold, in revolutions per minute.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct DriveRange {
    /// The slowest.
    pub min_rpm: f64,
    /// The fastest.
    pub max_rpm: f64,
}

impl DriveRange {
    /// The drive can hold this speed.
    pub fn holds(&self, roller_speed_rpm: f64) -> bool {
        (self.min_rpm..=self.max_rpm).contains(&roller_speed_rpm)
    }
}

/// From a smallest to a largest value.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Range {
    /// The smallest.
    pub min: f64,
    /// The largest.
    pub max: f64,
}

/// A metering unit at work: its factor, its runs in use and the width it sows.
///
/// ```
/// use sowmark_core::rate::{DriveRange, Metering};
///
/// // 6 m, 8 runs, 0.029 kg per revolution per run; 140 kg/ha at 9 km/h is 12.6 kg a minute
/// let unit = Metering { factor: 0.029, runs_in_use: 8, working_width_m: 6.0 };
/// let roller_speed = unit.roller_speed_rpm(0.0140, 2.5).unwrap();
/// assert!((roller_speed - 12.6 / (0.029 * 8.0)).abs() < 1e-9);
///
/// let drive = DriveRange { min_rpm: 10.0, max_rpm: 120.0 };
/// assert!(drive.holds(roller_speed));
/// let speeds = unit.speed_range(0.0140, drive).unwrap();
/// assert!(speeds.min < 2.5 && 2.5 < speeds.max);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Metering {
    /// kg per roller revolution per run.
    pub factor: f64,
    /// Runs that sow.
    pub runs_in_use: u32,
    /// m.
    pub working_width_m: f64,
}

impl Metering {
    /// kg per roller revolution of the whole unit.
    pub fn unit_total(&self) -> f64 {
        self.factor * f64::from(self.runs_in_use)
    }

    /// Mass flow R w v in kg/s. With R in kg/ha and v in km/h this is the trade's R w v / 600 in kg/min.
    pub fn mass_flow(&self, rate: f64, speed: f64) -> f64 {
        rate * self.working_width_m * speed
    }

    /// The roller speed that a rate at a driving speed needs: mass flow / (factor x runs). `None` without a factor or runs.
    pub fn roller_speed_rpm(&self, rate: f64, speed: f64) -> Option<f64> {
        divide(self.mass_flow(rate, speed) * 60.0, self.unit_total())
    }

    /// The driving speeds (m/s) at which the drive can hold a rate.
    pub fn speed_range(&self, rate: f64, drive: DriveRange) -> Option<Range> {
        self.over_drive(drive, rate * self.working_width_m)
    }

    /// The rates (kg/m²) that the drive can hold at a driving speed.
    pub fn rate_range(&self, speed: f64, drive: DriveRange) -> Option<Range> {
        self.over_drive(drive, speed * self.working_width_m)
    }

    fn over_drive(&self, drive: DriveRange, mass_per_unknown: f64) -> Option<Range> {
        let at = |rpm: f64| divide(self.unit_total() * rpm / 60.0, mass_per_unknown);
        Some(Range { min: at(drive.min_rpm)?, max: at(drive.max_rpm)? })
    }
}

pub(crate) fn divide(above: f64, below: f64) -> Option<f64> {
    let quotient = above / below;
    // Over zero nothing is finite.
    (below.is_sign_positive() && quotient.is_finite()).then_some(quotient)
}
