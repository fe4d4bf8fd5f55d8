//! The latest job needed another roller speed than the calibration's (`roller_speed_off`).

use crate::readiness::{
    Cause, CauseKind, Change, Detail,
    due::Finding,
    jobs::on_basis_since,
    seed::apart,
    timeline::{Calibrated, Timeline, Worked},
};

/// Jobs without a known speed, and those on another basis, are passed over: they say nothing of this factor. The first of the
/// unbroken run of jobs that were off, counted back from the latest, began it.
pub(super) fn finding<'a>(line: &Timeline<'a>, calibration: &Calibrated<'a>) -> Option<Finding> {
    let calibrated_at = calibration.record.what.roller_speed_rpm?;
    let tolerance_percent = line.policy.roller_speed_tolerance_percent;
    let mut off = on_basis_since(line, calibration)
        .rev()
        .filter_map(|job| Some((job, Change { from: calibrated_at, to: needed_rpm(calibration, job)? })))
        .take_while(|(_, rpm)| apart(*rpm, tolerance_percent));
    let (latest, rpm) = off.next()?;
    let began = off.last().map_or(latest, |(job, _)| job);
    Some(Finding {
        since: began.record.moment.occurred_at,
        cause: Cause { kind: CauseKind::Job, id: began.record.moment.id },
        detail: Detail::RollerSpeedOff { rpm, tolerance_percent },
    })
}

/// Roller speed in 1/min that a job needed: rate [kg/m²] x width [m] x speed [m/s] / (factor [kg/rev/run] x runs), a minute having
/// 60 s. In the trade's units: rate x width x speed / 600 is the mass flow, over the factor of the whole unit.
fn needed_rpm(calibration: &Calibrated<'_>, job: &Worked<'_>) -> Option<f64> {
    let width = job.condition.configuration?.what.working_width_m;
    let runs = f64::from(job.condition.setup?.what.runs);
    let mass_flow = job.record.what.target_rate * width * job.record.what.speed?;
    Some(60.0 * mass_flow / (calibration.record.what.factor * runs))
}
