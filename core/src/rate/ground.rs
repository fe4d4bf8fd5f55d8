//! A roller driven from a wheel on the ground: turns, way, slip, and the rate that a ratio gives.

use crate::figure::{Figure, Impossible};

use super::{Metering, divide};

/// A roller driven from a wheel on the ground.
///
/// ```
/// use sowmark_core::rate::{GroundDrive, Metering, Slip};
///
/// let unit = Metering { factor: 0.0045, runs_in_use: 24, working_width_m: 3.0 };
/// let drive = GroundDrive { ratio: 0.5, rolling_circumference_m: 2.0 };
/// // a quarter turn of the roller to the metre: 0.027 kg over 3 m
/// assert_eq!(drive.revolutions_per_metre(), Some(0.25));
/// assert!((unit.ground_rate(drive).unwrap() - 0.009).abs() < 1e-12);
/// assert!((unit.ratio_for_rate(0.009, 2.0).unwrap() - 0.5).abs() < 1e-12);
/// // 1/100 ha is 33.3 m at 3 m: 16.7 turns of the wheel, 8.33 of the roller
/// assert!((drive.turns_for_area(100.0, 3.0).unwrap() - 16.667).abs() < 1e-3);
/// assert!((drive.roller_turns_for_area(100.0, 3.0).unwrap() - 8.333).abs() < 1e-3);
/// // a wheel that slips by 5 % sows 5 % less
/// let slipping = drive.with_slip(Slip::percent(5.0)?).unwrap();
/// assert!((unit.ground_rate(slipping).unwrap() - 0.95 * 0.009).abs() < 1e-12);
/// # Ok::<(), sowmark_core::figure::Impossible>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GroundDrive {
    /// Roller revolutions per wheel revolution.
    pub ratio: f64,
    /// m, rolling, under load.
    pub rolling_circumference_m: f64,
}

impl GroundDrive {
    /// Roller revolutions per metre driven: ratio / rolling circumference.
    pub fn revolutions_per_metre(&self) -> Option<f64> {
        divide(self.ratio, self.rolling_circumference_m)
    }

    /// The roller's speed at a driving speed (m/s), in revolutions per minute.
    pub fn roller_speed_rpm(&self, speed: f64) -> Option<f64> {
        divide(self.ratio * speed * 60.0, self.rolling_circumference_m)
    }

    /// Wheel turns to crank for an area (m²) at a width (m): area / width / rolling circumference.
    ///
    /// The area is the person's: 1/100 ha, 1/25 ha and a tenth of an acre are in use.
    pub fn turns_for_area(&self, area: f64, working_width_m: f64) -> Option<f64> {
        divide(divide(area, working_width_m)?, self.rolling_circumference_m)
    }

    /// Turns of the roller for an area (m²), where the crank sits on the roller: wheel turns x ratio.
    pub fn roller_turns_for_area(&self, area: f64, working_width_m: f64) -> Option<f64> {
        divide(self.turns_for_area(area, working_width_m)? * self.ratio, 1.0)
    }

    /// The same drive in the field, where the wheel slips: each turn takes it further, by 1 / (1 - slip).
    /// Only for a circumference that was measured without slip; one measured at work has it in it.
    #[must_use]
    pub fn with_slip(self, slip: Slip) -> Option<Self> {
        let rolling_circumference_m = divide(self.rolling_circumference_m, slip.rolling_share())?;
        Some(Self { rolling_circumference_m, ..self })
    }

    /// From a way driven in the field under load and the turns of the wheel on it; its slip is in it.
    ///
    /// # Errors
    /// A way per turn that no wheel has.
    ///
    /// ```
    /// use sowmark_core::rate::GroundDrive;
    ///
    /// let drive = GroundDrive::driven(2.5, 100.0, 48.0)?;
    /// assert!((drive.rolling_circumference_m - 2.0833).abs() < 1e-4);
    /// # Ok::<(), sowmark_core::figure::Impossible>(())
    /// ```
    pub fn driven(ratio: f64, way_m: f64, wheel_turns: f64) -> Result<Self, Impossible> {
        Ok(Self { ratio, rolling_circumference_m: Figure::MetresPerTurn.check(way_m / wheel_turns)? })
    }
}

/// The share of the way on which a driven wheel stands still; below zero for a wheel that turns too often, as one does
/// whose tyre was measured too hard.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Slip(f64);

impl Slip {
    /// From a percentage.
    ///
    /// # Errors
    /// Below -50 % or above 90 %.
    pub fn percent(percent: f64) -> Result<Self, Impossible> {
        Figure::Slip.check(percent).map(Self)
    }

    /// From the metres driven per turn of the wheel without load and with it: 1 - unloaded / loaded.
    ///
    /// # Errors
    /// A way per turn that no wheel has, and a slip as at [`Self::percent`].
    ///
    /// ```
    /// use sowmark_core::rate::Slip;
    ///
    /// let slip = Slip::of_metres_per_turn(2.00, 2.10)?;
    /// assert!((slip.as_percent() - 4.762).abs() < 1e-3);
    /// # Ok::<(), sowmark_core::figure::Impossible>(())
    /// ```
    pub fn of_metres_per_turn(unloaded: f64, loaded: f64) -> Result<Self, Impossible> {
        let (unloaded, loaded) = (Figure::MetresPerTurn.check(unloaded)?, Figure::MetresPerTurn.check(loaded)?);
        Self::percent(100.0 * (1.0 - unloaded / loaded))
    }

    /// In percent.
    pub const fn as_percent(self) -> f64 {
        self.0
    }

    /// The share of a way over which the wheel turns.
    pub fn rolling_share(self) -> f64 {
        1.0 - self.0 / 100.0
    }
}

impl Metering {
    /// The rate (kg/m²) of a ground drive: factor x runs x roller revolutions per metre / width. Its speed does not matter.
    pub fn ground_rate(&self, drive: GroundDrive) -> Option<f64> {
        divide(self.unit_total() * drive.revolutions_per_metre()?, self.working_width_m)
    }

    /// Roller revolutions per metre driven that a rate (kg/m²) needs: rate x width / (factor x runs), whatever drives it.
    pub fn revolutions_per_metre_for(&self, rate: f64) -> Option<f64> {
        divide(rate * self.working_width_m, self.unit_total())
    }

    /// The ratio, roller to wheel, that gives a rate (kg/m²) on a wheel of that rolling circumference (m).
    pub fn ratio_for_rate(&self, rate: f64, rolling_circumference_m: f64) -> Option<f64> {
        let ratio = self.revolutions_per_metre_for(rate)? * rolling_circumference_m;
        (ratio > 0.0 && ratio.is_finite()).then_some(ratio)
    }
}
