//! What a meter factor is true for, as far as the machine goes: configuration and setup, and which of them was in force at a moment.
//!
//! The seed's part of the basis (crop, lot, seed weight) and the season are compared in [`crate::readiness`].

use crate::{
    ids::RollerId,
    moment::{Dated, Moment, in_order, latest_before},
    quantity::DriveRatio,
    readiness::UnitHistory,
};

/// A seeder's configuration, from a moment on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Configuration {
    /// Working width, m.
    pub working_width_m: f64,
    /// Row spacing, m.
    pub row_spacing_m: f64,
}

/// A metering unit's setup, from a moment on.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    /// The roller that is in.
    pub roller: RollerId,
    /// Roller revolutions to drive revolutions.
    pub drive_ratio: DriveRatio,
    /// The gate opening as the machine's own scale names it; `None` where there is no gate.
    pub gate: Option<String>,
    /// Runs in use.
    pub runs: u32,
}

impl Setup {
    /// The gate opening without the blanks around it; an empty text is no gate.
    pub(crate) fn gate_opening(&self) -> Option<&str> {
        self.gate.as_deref().map(str::trim).filter(|gate| !gate.is_empty())
    }
}

/// The machine's part of what a factor is true for.
#[derive(Clone, Debug, PartialEq)]
pub struct Basis {
    /// The seeder's configuration in force.
    pub configuration: Dated<Configuration>,
    /// The metering unit's setup in force.
    pub setup: Dated<Setup>,
}

/// The configuration and setup in force for a record at `moment`: the latest of each that come before it in the order of records.
///
/// `None` if the unit has no setup yet, so that a calibration there must be refused. A record from before the first configuration
/// (a machine registered as commissioned today, whose calibration of yesterday is entered as well) takes the first one: the machine
/// had some width then, and nobody has named another.
pub fn basis_at(history: &UnitHistory, moment: Moment) -> Option<Basis> {
    let configuration = latest_before(&history.configurations, moment)
        .or_else(|| history.configurations.iter().min_by(in_order))?
        .clone();
    let setup = latest_before(&history.setups, moment)?.clone();
    Some(Basis { configuration, setup })
}

/// Whether two lengths are the same measure, however they were entered: 6 m and 600 cm may differ in the last bit.
pub(crate) fn same_length(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs())
}

#[cfg(test)]
mod tests {
    use super::same_length;

    #[test]
    fn the_last_digits_of_a_length_do_not_count() {
        assert!(same_length(6.0, 6.0) && same_length(0.1 + 0.2, 0.3) && same_length(0.0, 0.0));
        assert!(same_length(6.0, 6.0 + 5e-9) && same_length(6.0 - 5e-9, 6.0), "within a billionth of it");
        assert!(!same_length(6.0, 6.0 + 7e-9) && !same_length(6.0 + 7e-9, 6.0));
        assert!(same_length(0.125, 0.125 + 1e-10) && !same_length(0.125, 0.125 + 2e-10));
        assert!(!same_length(6.0, 0.0) && !same_length(6.0, f64::NAN));
    }
}
