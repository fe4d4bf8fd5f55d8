//! Area sown or days since the calibration exceed the policy (`interval`); off unless the policy sets it.

use jiff::{SignedDuration, Timestamp};

use crate::readiness::{
    Cause, CauseKind, Detail, Exceeded,
    due::Finding,
    timeline::{Calibrated, Timeline},
};

const M2_PER_HA: f64 = 10_000.0;
const SECONDS_PER_DAY: f64 = 86_400.0;

/// One of the two limits, passed.
struct Passed {
    since: Timestamp,
    cause: Cause,
    exceeded: Exceeded,
}

/// Of the two limits the one that was passed first names moment and cause.
pub(super) fn finding(line: &Timeline<'_>, calibration: &Calibrated<'_>) -> Option<Finding> {
    let area = area(line, calibration);
    let days = days(line, calibration);
    let first = area.iter().chain(&days).min_by_key(|passed| passed.since)?;
    Some(Finding {
        since: first.since,
        cause: first.cause,
        detail: Detail::Interval {
            area_ha: area.as_ref().map(|passed| passed.exceeded),
            days: days.as_ref().map(|passed| passed.exceeded),
        },
    })
}

/// The area of all the unit's jobs after the calibration, on whatever basis: the parts wear all the same.
fn area(line: &Timeline<'_>, calibration: &Calibrated<'_>) -> Option<Passed> {
    let limit = line.policy.interval_area_ha?;
    let mut value = 0.0;
    let mut passed_by = None;
    for job in line.jobs.iter().filter(|job| job.record.moment > calibration.moment()) {
        value += job.record.what.area_m2 / M2_PER_HA;
        // Sums of decimal hectares miss their limit by a hair; at the limit itself it is not passed.
        if passed_by.is_none() && value > limit * (1.0 + 1e-9) {
            passed_by = Some(job.record.moment);
        }
    }
    let moment = passed_by?;
    Some(Passed {
        since: moment.occurred_at,
        cause: Cause { kind: CauseKind::Job, id: moment.id },
        exceeded: Exceeded { value, limit },
    })
}

/// Days of 24 hours.
fn days(line: &Timeline<'_>, calibration: &Calibrated<'_>) -> Option<Passed> {
    let limit = line.policy.interval_days?;
    let made = calibration.moment().occurred_at;
    let allowed = SignedDuration::try_from_secs_f64(limit * SECONDS_PER_DAY).ok()?;
    // Beyond the end of the calendar it is never passed.
    let since = made.checked_add(allowed).ok()?;
    let value = line.at.duration_since(made).as_secs_f64() / SECONDS_PER_DAY;
    (line.at > since).then(|| Passed { since, cause: calibration.cause(), exceeded: Exceeded { value, limit } })
}
