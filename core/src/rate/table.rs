//! Roller speeds for many rates and driving speeds, as they are printed for the cab.

use super::{DriveRange, Metering};

/// Roller speeds in revolutions per minute, a row per rate and a column per driving speed.
#[derive(Clone, Debug, PartialEq)]
pub struct RateTable {
    /// kg/m², as asked.
    pub rates: Vec<f64>,
    /// m/s, as asked.
    pub speeds: Vec<f64>,
    /// A row per rate, a cell per speed; `None` where the drive cannot hold the speed or nothing gives the rate.
    pub rows: Vec<Vec<Option<f64>>>,
}

impl RateTable {
    /// Some cell is blank.
    pub fn has_blanks(&self) -> bool {
        self.rows.iter().flatten().any(Option::is_none)
    }
}

impl Metering {
    /// The roller speed for every rate (kg/m²) at every driving speed (m/s). Without a drive range every speed can be held.
    ///
    /// ```
    /// use sowmark_core::rate::{DriveRange, Metering};
    ///
    /// let unit = Metering { factor: 0.03, runs_in_use: 8, working_width_m: 6.0 };
    /// let drive = DriveRange { min_rpm: 10.0, max_rpm: 60.0 };
    /// let table = unit.table(&[0.012, 0.016], &[2.5, 3.0], Some(drive));
    /// // 120 kg/ha at 9 km/h is 10.8 kg a minute of 0.24 kg a revolution
    /// assert!((table.rows[0][0].unwrap() - 45.0).abs() < 1e-9);
    /// assert_eq!(table.rows[1][1], None); // 72 rpm
    /// assert!(table.has_blanks());
    /// ```
    pub fn table(&self, rates: &[f64], speeds: &[f64], drive: Option<DriveRange>) -> RateTable {
        let cell = |rate: f64, speed: f64| {
            // Backwards at less than nothing would come out as a roller speed.
            let rpm = self.roller_speed_rpm(rate, speed).filter(|rpm| *rpm > 0.0 && rate.is_sign_positive())?;
            drive.is_none_or(|drive| drive.holds(rpm)).then_some(rpm)
        };
        let row = |rate: &f64| speeds.iter().map(|speed| cell(*rate, *speed)).collect();
        RateTable { rates: rates.to_vec(), speeds: speeds.to_vec(), rows: rates.iter().map(row).collect() }
    }
}

/// Five round steps around a value, as the head of a table: the value itself, and two whole steps of 1, 2 or 5 to either
/// side, each about `share` of the value (0.1 for a tenth). What is not above zero is left out; nothing around what is no
/// number above zero.
///
/// ```
/// use sowmark_core::rate::steps_around;
///
/// assert_eq!(steps_around(140.0, 0.1), [120.0, 130.0, 140.0, 150.0, 160.0]);
/// assert_eq!(steps_around(5.5, 0.1), [4.5, 5.0, 5.5, 6.0, 6.5]);
/// assert!(steps_around(0.0, 0.1).is_empty());
/// ```
pub fn steps_around(value: f64, share: f64) -> Vec<f64> {
    around(value, round_step(value * share), value)
}

/// The same on whole steps, for a value that is not round itself, such as one converted from other units: the step nearest to
/// the value, and two to either side.
///
/// ```
/// use sowmark_core::rate::whole_steps_around;
///
/// // 7.39 km/h and 135.2 kg/ha in other units.
/// assert_eq!(whole_steps_around(4.592, 0.1), [3.5, 4.0, 4.5, 5.0, 5.5]);
/// assert_eq!(whole_steps_around(120.6, 0.1), [100.0, 110.0, 120.0, 130.0, 140.0]);
/// assert!(whole_steps_around(0.0, 0.1).is_empty());
/// ```
pub fn whole_steps_around(value: f64, share: f64) -> Vec<f64> {
    let step = round_step(value * share);
    around((value / step).round() * step, step, value)
}

/// The step of 1, 2 or 5 that lies nearest as a ratio: 1 up to sqrt(2), 2 up to sqrt(10), 5 up to sqrt(50).
fn round_step(wanted: f64) -> f64 {
    let decade = 10_f64.powf(wanted.log10().floor());
    match wanted / decade {
        few if few < 2_f64.sqrt() => decade,
        few if few < 10_f64.sqrt() => 2.0 * decade,
        few if few < 50_f64.sqrt() => 5.0 * decade,
        _ => 10.0 * decade,
    }
}

fn around(middle: f64, step: f64, value: f64) -> Vec<f64> {
    let around = (-2..=2).map(|steps| middle + f64::from(steps) * step);
    around.filter(|step| value.is_sign_positive() && *step > 1e-9 * value && step.is_finite()).collect()
}
