//! What was sown from one tank in a task: the machine's total, the balance that people weighed, what was wanted.

use serde::{Deserialize, Serialize};

use super::finding::Finding;

/// What was wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Setpoint {
    /// Mass per area, mg/m².
    Mass(i64),
    /// Seeds per area, thousandths of a seed per m².
    Count(i64),
    /// Volume per area, hundredths of mm³/m².
    Volume(i64),
}

/// What people weighed into and out of a tank, g.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Balance {
    /// All that was filled.
    pub filled_g: i64,
    /// All that was taken out.
    pub emptied_g: i64,
    /// What was left at the end, where somebody said so.
    pub remainder_g: Option<i64>,
}

impl Balance {
    /// What was used, g; `None` while nobody said what was left, or where more was left than there had been.
    pub fn used_g(&self) -> Option<i64> {
        let used = self.filled_g - self.emptied_g - self.remainder_g?;
        (used > 0).then_some(used)
    }
}

/// What was sown from one tank in a task.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sown {
    /// The id of the device.
    pub device: String,
    /// The id of its element.
    pub element: String,
    /// The element's number within the device, the same in every file.
    pub element_object: i64,
    /// What the element is called.
    pub element_name: Option<String>,
    /// The id of the product.
    pub product: Option<String>,
    /// What was wanted; `None` where it varied or nobody said.
    pub setpoint: Option<Setpoint>,
    /// Area worked, m²: that of the tank, or of the nearest part of the machine above it that counts one.
    pub area_m2: Option<i64>,
    /// The machine's total, g.
    pub mass_g: Option<i64>,
    /// The machine's total as it counts whole kilograms.
    pub mass_kg: Option<i64>,
    /// Revolutions of the meter, in ten-thousandths.
    pub revolutions_e4: Option<i64>,
    /// Time at work, s.
    pub effective_total_time_s: Option<i64>,
    /// What people weighed.
    pub balance: Option<Balance>,
    /// What stands against making a job of it.
    pub faults: Vec<Finding>,
}

/// What one value is to another; `None` where that is none.
fn per(value: i64, by: f64) -> Option<f64> {
    let quotient = value as f64 / by;
    (value > 0 && by > 0.0 && quotient.is_finite()).then_some(quotient)
}

impl Sown {
    /// The rate that was wanted, kg/m²; `None` for seeds or volume.
    pub fn target_rate(&self) -> Option<f64> {
        match self.setpoint? {
            Setpoint::Mass(mg) => per(mg, 1e6),
            Setpoint::Count(_) | Setpoint::Volume(_) => None,
        }
    }

    /// The rate by the machine's total, kg/m².
    pub fn machine_rate(&self) -> Option<f64> {
        per(self.mass_g?, self.area_m2? as f64 * 1e3)
    }

    /// The rate by the balance, kg/m².
    pub fn balance_rate(&self) -> Option<f64> {
        per(self.balance?.used_g()?, self.area_m2? as f64 * 1e3)
    }

    /// Revolutions of the meter.
    pub fn revolutions(&self) -> Option<f64> {
        self.revolutions_e4.map(|ten_thousandths| ten_thousandths as f64 / 1e4)
    }

    /// Grams a revolution by the machine's total: only the factor that it was given, back again.
    pub fn machine_g_per_revolution(&self) -> Option<f64> {
        per(self.mass_g?, self.revolutions()?)
    }

    /// Grams a revolution by the balance: what the meter really delivered.
    pub fn balance_g_per_revolution(&self) -> Option<f64> {
        per(self.balance?.used_g()?, self.revolutions()?)
    }
}
