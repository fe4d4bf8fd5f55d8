//! The latest job needed another roller speed than the calibration's (`roller_speed_off`).

use crate::rate::Metering;
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

/// Roller speed in 1/min that a job needed, with the width and the runs of its day.
fn needed_rpm(calibration: &Calibrated<'_>, job: &Worked<'_>) -> Option<f64> {
    let unit = Metering {
        factor: calibration.record.what.factor,
        runs_in_use: job.condition.setup?.what.runs,
        working_width_m: job.condition.configuration?.what.working_width_m,
    };
    unit.roller_speed_rpm(job.record.what.target_rate, job.record.what.speed?)
}
