//! Every known slip that could have happened on this sheet, with the numbers without it.

mod counting;
mod decimal_sign;
mod metering;
mod tare;
mod units;

use super::case::{Case, Slip};

/// A few hundred at most, however large the sheet: of repeats and catches only those farthest off are tried alone.
pub(super) fn all(case: &Case<'_>) -> Vec<Slip> {
    [tare::slips, units::slips, decimal_sign::slips, counting::slips, metering::slips]
        .into_iter()
        .flat_map(|slips| slips(case))
        .collect()
}
