//! A later calibration on the same basis was held or rejected, and none accepted since (`calibration_in_doubt`).
//!
//! "On the same basis" is judged from the older calibration: compared with the state at the later one it shows no difference in
//! machine, seed or season. Services are no part of a basis; they raise a trigger of their own.

use crate::readiness::{
    Detail,
    difference::on_basis,
    due::Finding,
    timeline::{Calibrated, Timeline},
};

/// The first that failed since the last one accepted on the basis.
pub(super) fn finding<'a>(line: &Timeline<'a>, calibration: &Calibrated<'a>) -> Option<Finding> {
    let began = later_on_basis(line, calibration).take_while(|later| !later.accepted()).last()?;
    Some(Finding {
        since: began.moment().occurred_at,
        cause: began.cause(),
        detail: Detail::CalibrationInDoubt { standing: began.record.what.standing },
    })
}

/// Whether there is a doubt at all: the newest calibration on the basis decides it.
pub(super) fn exists<'a>(line: &Timeline<'a>, calibration: &Calibrated<'a>) -> bool {
    later_on_basis(line, calibration).next().is_some_and(|newest| !newest.accepted())
}

/// The later calibrations on the same basis, newest first.
fn later_on_basis<'t, 'a>(
    line: &'t Timeline<'a>,
    calibration: &'t Calibrated<'a>,
) -> impl Iterator<Item = &'t Calibrated<'a>> {
    line.calibrations
        .iter()
        .rev()
        .take_while(|later| later.moment() > calibration.moment())
        .filter(|later| on_basis(line, calibration, &later.basis, later.moment().occurred_at))
}
