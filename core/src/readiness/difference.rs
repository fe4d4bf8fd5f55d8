//! The differences between a calibration's basis and what the unit is like: which there are, and when each began.

use jiff::Timestamp;

use crate::readiness::{
    Detail,
    due::Finding,
    machine::{configuration_changed, drive_ratio_changed, gate_changed, roller_changed},
    season,
    seed::{crop_changed, lot_changed, seed_weight_changed},
    timeline::{Calibrated, Condition, Timeline},
};

/// Compares a basis with a condition, in this order: the values where they differ, nothing where they agree.
type Difference = fn(&Timeline<'_>, &Condition<'_>, &Condition<'_>) -> Option<Detail>;

const DIFFERENCES: [Difference; 7] = [
    crop_changed,
    lot_changed,
    seed_weight_changed,
    roller_changed,
    drive_ratio_changed,
    gate_changed,
    configuration_changed,
];

/// Whether a condition at `at` is what the calibration is true for, the season included.
pub(super) fn on_basis<'a>(
    line: &Timeline<'a>,
    calibration: &Calibrated<'a>,
    condition: &Condition<'a>,
    at: Timestamp,
) -> bool {
    // Asked of many pairs, and most differ by their lot: the cheapest question comes first.
    (condition.lot.is_none() || condition.lot == calibration.basis.lot)
        && DIFFERENCES.into_iter().all(|difference| difference(line, &calibration.basis, condition).is_none())
        && season::new_season(line, calibration, line.crop(condition.lot), at).is_none()
}

/// What differs now, each with the record that began it.
pub(super) fn findings<'a>(line: &Timeline<'a>, calibration: &Calibrated<'a>) -> Vec<Finding> {
    let basis = &calibration.basis;
    let finding = |difference: Difference| {
        let detail = difference(line, basis, &line.now)?;
        let began = line.held_since(calibration, |condition| difference(line, basis, condition).is_some())?;
        Some(Finding { since: began.moment.occurred_at, cause: began.cause(), detail })
    };
    DIFFERENCES.into_iter().filter_map(finding).collect()
}
