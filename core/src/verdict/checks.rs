//! The checks of the verdict, one function each, in the order of their table. A check that has nothing to go by (no
//! expectation, no roller speed, no runs to compare) is left out rather than passed.

use std::cmp::Ordering;

use super::{Check, CheckName, Judgement, Outcome};
use crate::{
    circumstances::{Circumstances, ExpectedSource, Planned, ScaleStanding},
    factor::{Measured, MeasuredCatch},
    policy::Policy,
    rate::{DriveRange, Metering},
    say,
    words::Words,
};

pub(super) fn all(
    judgement: &Judgement,
    measured: &Measured,
    circumstances: &Circumstances,
    words: Words,
) -> Vec<Check> {
    let policy = &circumstances.policy;
    let checks = [
        Some(repeats(measured.kept().count(), policy, words)),
        repeat_agreement(judgement, policy, words),
        run_uniformity(judgement, measured, policy, words),
        catches_apart(measured, circumstances.runs_in_use, words),
        catch_mass(judgement, measured, circumstances, words),
        Some(uncertainty(judgement, policy, words)),
        roller_speed(judgement, circumstances, words),
        Some(scale(circumstances, words)),
        plausibility(judgement, circumstances, words),
    ];
    checks.into_iter().flatten().collect()
}

/// Above the limit by more than the last digits of a float: a spread of exactly 5 % must not fail a limit of 5 %
/// because 0.1 + 0.2 is not 0.3.
fn exceeds(value: f64, limit: f64) -> bool {
    value > limit * (1.0 + 1e-9)
}

/// Fails above `limit`, remarks above `remark`.
fn against(value: f64, remark: f64, limit: f64) -> Outcome {
    if exceeds(value, limit) {
        Outcome::Fail
    } else if exceeds(value, remark) {
        Outcome::Remark
    } else {
        Outcome::Pass
    }
}

/// Fails below the policy's minimum of kept repeats; only the minimum is a remark.
fn repeats(kept: usize, policy: &Policy, words: Words) -> Check {
    let least = policy.minimum_repeats;
    let (outcome, says) = match kept.cmp(&(least as usize)) {
        Ordering::Less => (Outcome::Fail, say!(words, "check-repeats-too-few", kept = kept, least = least)),
        Ordering::Equal => (Outcome::Remark, say!(words, "check-repeats-least", kept = kept)),
        Ordering::Greater => (Outcome::Pass, say!(words, "check-repeats-enough", kept = kept, least = least)),
    };
    let limit = f64::from(policy.minimum_repeats);
    Check {
        check: CheckName::Repeats,
        value: Some(kept as f64),
        limit: Some(limit),
        unit: "repeats".to_owned(),
        outcome,
        says,
    }
}

/// Fails with a spread above the limit, remarks above half of it; says when the scale's rounding alone explains it.
fn repeat_agreement(judgement: &Judgement, policy: &Policy, words: Words) -> Option<Check> {
    let spread = judgement.repeat_spread_percent?;
    let limit = policy.repeat_spread_limit_percent;
    let outcome = against(spread, limit / 2.0, limit);
    let found = say!(words, "check-repeat-agreement", spread = words.percent(spread), limit = words.exactly(limit));
    let advice = match (outcome, judgement.scatter_is_rounding) {
        (Outcome::Pass, _) => None,
        (_, true) => Some(say!(words, "check-repeat-agreement-rounding")),
        (_, false) => Some(say!(words, "check-repeat-agreement-scatter")),
    };
    let says = sentences([Some(found), advice]);
    Some(in_percent(CheckName::RepeatAgreement, spread, limit, outcome, says))
}

/// Fails with a CV of the runs above the limit, remarks above the policy's remark.
fn run_uniformity(judgement: &Judgement, measured: &Measured, policy: &Policy, words: Words) -> Option<Check> {
    let cv = judgement.run_cv_percent?;
    let limit = policy.run_cv_limit_percent;
    let outcome = against(cv, policy.run_cv_remark_percent, limit);
    let most = measured.kept().map(|repeat| repeat.catches.len()).max().unwrap_or(0);
    let found =
        say!(words, "check-run-uniformity", cv = words.percent(cv), catches = most, limit = words.exactly(limit));
    let farthest = judgement.run_differences.iter().max_by(|a, b| a.percent.abs().total_cmp(&b.percent.abs()));
    let culprit = farthest.filter(|_| outcome != Outcome::Pass).map(|run| {
        say!(
            words,
            "check-run-uniformity-farthest",
            run = words.run(&run.label),
            off = words.percent(run.percent.abs()),
            side = if run.percent.is_sign_negative() { "below" } else { "above" }
        )
    });
    let interval = judgement.run_cv_interval_percent.map(|(low, high)| {
        say!(words, "check-run-uniformity-interval", low = words.percent(low), high = words.percent(high))
    });
    let says = sentences([Some(found), culprit, interval]);
    Some(in_percent(CheckName::RunUniformity, cv, limit, outcome, says))
}

/// Remarks when no kept repeat has two catches to compare; left out where the unit has a single run.
fn catches_apart(measured: &Measured, runs_in_use: u32, words: Words) -> Option<Check> {
    if runs_in_use < 2 {
        return None;
    }
    let most = measured.kept().map(|repeat| repeat.catches.len()).max().unwrap_or(0);
    let poured_together = measured.kept().flat_map(|repeat| &repeat.catches).any(|catch| catch.runs > 1);
    let (outcome, says) = match (most, poured_together) {
        (2.., false) => (Outcome::Pass, say!(words, "check-catches-apart")),
        (2.., true) => (Outcome::Pass, say!(words, "check-catches-apart-in-groups")),
        (_, true) => (Outcome::Remark, say!(words, "check-catches-apart-together")),
        (_, false) => (Outcome::Remark, say!(words, "check-catches-apart-single")),
    };
    Some(Check {
        check: CheckName::CatchesApart,
        value: Some(most as f64),
        limit: Some(2.0),
        unit: "catches".to_owned(),
        outcome,
        says,
    })
}

/// Fails when the scale's rounding, d / sqrt(6), is more than the policy's share of the smallest catch; remarks when
/// that catch is below the rule of thumb. Where readings differ in their step, the catch with the largest share counts.
fn catch_mass(
    judgement: &Judgement,
    measured: &Measured,
    circumstances: &Circumstances,
    words: Words,
) -> Option<Check> {
    let policy = &circumstances.policy;
    let catches = || measured.kept().flat_map(|repeat| &repeat.catches);
    let share = |catch: &MeasuredCatch| 100.0 * catch.rounding_variance.sqrt() / catch.net_kg;
    let largest_share = catches().map(share).max_by(f64::total_cmp)?;
    let smallest = catches().map(|catch| catch.net_kg).min_by(f64::total_cmp)?;
    let limit = policy.catch_resolution_limit_percent;
    let small_seed = circumstances.thousand_seed_weight_g.is_some_and(|weight| weight < policy.small_seed_limit_g);
    let rule = if small_seed { policy.small_seed_catch_kg } else { policy.rule_of_thumb_catch_kg };
    let found = say!(
        words,
        "check-catch-mass-rounding",
        rounding = words.percent(largest_share),
        limit = words.exactly(limit),
        needed = words.mass(judgement.minimum_catch_kg)
    );
    let smallest_kg = words.mass(smallest);
    let (outcome, holds) = if exceeds(largest_share, limit) {
        (Outcome::Fail, say!(words, "check-catch-mass-too-light", smallest = smallest_kg))
    } else if exceeds(rule, smallest) {
        let key = if small_seed { "check-catch-mass-thumb-small-seed" } else { "check-catch-mass-thumb" };
        (Outcome::Remark, say!(words, key, smallest = smallest_kg, rule = words.mass(rule)))
    } else {
        (Outcome::Pass, say!(words, "check-catch-mass-enough", smallest = smallest_kg))
    };
    let says = sentences([Some(found), Some(holds)]);
    Some(in_percent(CheckName::CatchMass, largest_share, limit, outcome, says))
}

/// Fails with U above the limit, remarks above half of it.
fn uncertainty(judgement: &Judgement, policy: &Policy, words: Words) -> Check {
    let expanded = judgement.expanded_uncertainty_percent;
    let limit = policy.uncertainty_limit_percent;
    let outcome = against(expanded, limit / 2.0, limit);
    let largest = judgement.budget.iter().max_by(|left, right| {
        left.relative_standard_uncertainty_percent.total_cmp(&right.relative_standard_uncertainty_percent)
    });
    let most = largest
        .filter(|_| outcome != Outcome::Pass)
        .map(|line| say!(words, "check-uncertainty-most", part = &line.says));
    let found = say!(words, "check-uncertainty", within = words.percent(expanded), limit = words.exactly(limit));
    let says = sentences([Some(found), most]);
    in_percent(CheckName::Uncertainty, expanded, limit, outcome, says)
}

/// Fails outside the drive's range; remarks further than the policy allows from the speed that the planned rate needs
/// with the factor just found. Left out where neither range nor plan is known, or no roller speed was noted.
fn roller_speed(judgement: &Judgement, circumstances: &Circumstances, words: Words) -> Option<Check> {
    let speed = circumstances.roller_speed_rpm?;
    let check = |value, limit, unit: &str, outcome, says| {
        let unit = unit.to_owned();
        Some(Check { check: CheckName::RollerSpeed, value: Some(value), limit: Some(limit), unit, outcome, says })
    };
    let range = circumstances.drive_range;
    if let Some(DriveRange { min_rpm, max_rpm }) = range.filter(|range| !range.holds(speed)) {
        let bound = speed.max(min_rpm).min(max_rpm);
        let says = say!(
            words,
            "check-roller-speed-beyond-drive",
            caught = words.rpm(speed),
            least = words.rpm(min_rpm),
            most = words.rpm(max_rpm)
        );
        return check(speed, bound, "1/min", Outcome::Fail, says);
    }
    if let Some(Planned { rate, speed: driving }) = &circumstances.planned {
        let metering = Metering {
            factor: judgement.factor,
            runs_in_use: circumstances.runs_in_use,
            working_width_m: circumstances.working_width_m,
        };
        let needed = metering.roller_speed_rpm(rate.si(), driving.si()).filter(|&needed| needed > 0.0)?;
        let off = 100.0 * (speed / needed - 1.0).abs();
        let tolerance = circumstances.policy.roller_speed_tolerance_percent;
        let outcome = if exceeds(off, tolerance) { Outcome::Remark } else { Outcome::Pass };
        let says = say!(
            words,
            "check-roller-speed-needed",
            caught = words.rpm(speed),
            rate = words.entered(rate),
            speed = words.entered(driving),
            needed = words.rpm(needed),
            off = words.percent(off),
            tolerance = words.exactly(tolerance)
        );
        return check(off, tolerance, "%", outcome, says);
    }
    let DriveRange { min_rpm, max_rpm } = range?;
    let says = say!(
        words,
        "check-roller-speed-within-drive",
        caught = words.rpm(speed),
        least = words.rpm(min_rpm),
        most = words.rpm(max_rpm)
    );
    check(speed, max_rpm, "1/min", Outcome::Pass, says)
}

/// Fails when the scale's last check failed; remarks without a check in force, or without a scale.
fn scale(circumstances: &Circumstances, words: Words) -> Check {
    let limit = circumstances.policy.scale_check_interval_days;
    let days = words.exactly(limit);
    let standing = circumstances.scale.as_ref().map(|scale| scale.last_check);
    let (outcome, says) = match standing {
        Some(ScaleStanding::PassedWithin) => (Outcome::Pass, say!(words, "check-scale-passed", days = days)),
        Some(ScaleStanding::Failed) => (Outcome::Fail, say!(words, "check-scale-failed")),
        Some(ScaleStanding::PassedLongAgo) => (Outcome::Remark, say!(words, "check-scale-long-ago", days = days)),
        Some(ScaleStanding::NeverChecked) => (Outcome::Remark, say!(words, "check-scale-never")),
        None => (Outcome::Remark, say!(words, "check-scale-not-named")),
    };
    Check { check: CheckName::Scale, value: None, limit: Some(limit), unit: "days".to_owned(), outcome, says }
}

/// Fails when the factor is off the expected by more than the policy's factor either way, remarks beyond its percentage.
fn plausibility(judgement: &Judgement, circumstances: &Circumstances, words: Words) -> Option<Check> {
    let expected = circumstances.expected?;
    let policy = &circumstances.policy;
    let ratio = judgement.factor / expected.factor;
    let times = ratio.max(ratio.recip());
    let off = 100.0 * (ratio - 1.0).abs();
    let limit = policy.plausibility_fail_factor;
    let outcome = if exceeds(times, limit) {
        Outcome::Fail
    } else if exceeds(off, policy.plausibility_remark_percent) {
        Outcome::Remark
    } else {
        Outcome::Pass
    };
    let source = match expected.source {
        ExpectedSource::LastCalibration { density_ratio: Some(_), .. } => "calibration-and-density",
        ExpectedSource::LastCalibration { density_ratio: None, .. } => "calibration",
        ExpectedSource::Displacement => "displacement",
    };
    let says = say!(
        words,
        "check-plausibility",
        off = words.percent(off),
        side = if (ratio - 1.0).is_sign_negative() { "below" } else { "above" },
        source = source,
        remark = words.exactly(policy.plausibility_remark_percent),
        fail = words.exactly(limit)
    );
    Some(Check {
        check: CheckName::Plausibility,
        value: Some(times).filter(|times| times.is_finite()),
        limit: Some(limit),
        unit: "times".to_owned(),
        outcome,
        says,
    })
}

fn in_percent(check: CheckName, value: f64, limit: f64, outcome: Outcome, says: String) -> Check {
    Check { check, value: Some(value), limit: Some(limit), unit: "%".to_owned(), outcome, says }
}

/// One after the other.
fn sentences<const N: usize>(said: [Option<String>; N]) -> String {
    said.into_iter().flatten().collect::<Vec<_>>().join(" ")
}
