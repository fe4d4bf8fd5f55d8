//! Whether a scale is shown to be right, and whether that of a calibration was (`scale_unchecked`).

use jiff::Timestamp;

use crate::{
    ids::ScaleId,
    moment::{Dated, in_order},
    policy::Policy,
    readiness::{
        Cause, CauseKind, Detail, ScaleCheck, ScaleDoubt, ScaleFacts,
        due::Finding,
        timeline::{Calibrated, Timeline},
    },
};

/// What is known of a scale at a moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ScaleStanding {
    /// It was never checked.
    NeverChecked,
    /// It passed its last check, within the policy's interval.
    PassedWithin,
    /// It passed its last check, longer ago than the policy's interval.
    PassedLongAgo,
    /// It failed its last check.
    Failed,
}

/// What is known of a scale at `at`, checks of that instant included: the last check decides.
pub fn scale_standing(scale: &ScaleFacts, at: Timestamp, policy: &Policy) -> ScaleStanding {
    let Some(last) = scale.checks.iter().filter(|check| check.happened_by(at)).max_by(in_order) else {
        return ScaleStanding::NeverChecked;
    };
    if !passes(&last.what, scale.readability_kg, policy) {
        ScaleStanding::Failed
    } else if within(last, at, policy) {
        ScaleStanding::PassedWithin
    } else {
        ScaleStanding::PassedLongAgo
    }
}

/// Whether reading and reference differ by no more than one step of readability plus the policy's share of the reference.
///
/// At the limit it passes, also where binary fractions put 10.06 - 10 a hair above 0.06.
pub fn passes(check: &ScaleCheck, readability_kg: f64, policy: &Policy) -> bool {
    let allowed = readability_kg + check.reference_kg.abs() * policy.scale_error_limit_percent / 100.0;
    (check.reading_kg - check.reference_kg).abs() <= allowed + 1e-9 * check.reference_kg.abs()
}

/// Whether a check was made in the interval that ends at `at`, both ends included.
fn within(check: &Dated<ScaleCheck>, at: Timestamp, policy: &Policy) -> bool {
    let ago = at.duration_since(check.moment.occurred_at).as_secs_f64();
    (0.0..=policy.scale_check_interval_days * 86_400.0).contains(&ago)
}

/// A scale without a name or without a passing check was in doubt from the calibration on; one that failed its next check, from
/// that check on.
///
/// A passing check at the calibration's own instant counts as before it, in whichever order the two were recorded: people note
/// both by the minute.
pub(super) fn finding(line: &Timeline<'_>, calibration: &Calibrated<'_>) -> Option<Finding> {
    let made = calibration.moment();
    let at_calibration =
        |doubt| Finding { since: made.occurred_at, cause: calibration.cause(), detail: Detail::ScaleUnchecked(doubt) };
    let Some(scale) = calibration.record.what.scale else {
        return Some(at_calibration(ScaleDoubt::NotNamed));
    };
    let policy = &line.policy;
    let interval_days = policy.scale_check_interval_days;
    let Some(facts) = line.surroundings.scales.get(&scale) else {
        return Some(at_calibration(ScaleDoubt::NoPassingCheck { scale, interval_days }));
    };
    let passing = |check: &ScaleCheck| passes(check, facts.readability_kg, policy);
    let known = || facts.checks.iter().filter(|check| check.happened_by(line.at));
    if !known().any(|check| within(check, made.occurred_at, policy) && passing(&check.what)) {
        return Some(at_calibration(ScaleDoubt::NoPassingCheck { scale, interval_days }));
    }
    let next = known().filter(|check| check.moment > made).min_by(in_order)?;
    (!passing(&next.what)).then(|| failed_next(scale, next))
}

fn failed_next(scale: ScaleId, check: &Dated<ScaleCheck>) -> Finding {
    Finding {
        since: check.moment.occurred_at,
        cause: Cause { kind: CauseKind::ScaleCheck, id: check.moment.id },
        detail: Detail::ScaleUnchecked(ScaleDoubt::FailedNext { scale, check: check.what }),
    }
}
