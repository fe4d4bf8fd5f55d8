//! Which jobs speak of a calibration's factor.

use crate::readiness::{
    machine::same_machine,
    timeline::{Calibrated, Timeline, Worked},
};

/// The jobs after the calibration that were done with its lot, on its setup and configuration, in order.
///
/// Not those on another basis in between: there another factor was keyed in.
pub(super) fn on_basis_since<'t, 'a>(
    line: &'t Timeline<'a>,
    calibration: &'t Calibrated<'a>,
) -> impl DoubleEndedIterator<Item = &'t Worked<'a>> {
    let first = line.jobs.partition_point(|job| job.record.moment < calibration.moment());
    line.jobs[first..].iter().filter(|job| {
        job.record.what.lot == calibration.record.what.lot && same_machine(line, &calibration.basis, &job.condition)
    })
}
