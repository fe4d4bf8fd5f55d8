//! Every known slip that could have happened on this sheet, with the numbers without it.

mod counting;
mod decimal_sign;
mod metering;
mod tare;
mod units;

use super::case::{Case, Slip};

/// Some hundred at most, however large the sheet: of repeats and catches only those farthest off are tried alone. One
/// family after the other, so that the largest sheet is not held a hundred times over.
pub(super) fn all<'c, 's>(case: &'c Case<'s>) -> impl Iterator<Item = Slip> + use<'c, 's> {
    [tare::slips, units::slips, decimal_sign::slips, counting::slips, metering::slips]
        .into_iter()
        .flat_map(move |slips| slips(case))
}
