//! The checks of the verdict, one function each, in the order of their table. A check that has nothing to go by (no
//! expectation, no roller speed, no runs to compare) is left out rather than passed.

use super::{Check, CheckName, Judgement, Outcome};
use crate::{
    circumstances::{Circumstances, ExpectedSource, Planned, ScaleStanding},
    factor::{Measured, MeasuredCatch},
    policy::Policy,
    rate::{DriveRange, Metering},
    words::{self, Words},
};

pub(super) fn all(
    judgement: &Judgement,
    measured: &Measured,
    circumstances: &Circumstances,
    words: Words,
) -> Vec<Check> {
    let policy = &circumstances.policy;
    let checks = [
        Some(repeats(measured.kept().count(), policy)),
        repeat_agreement(judgement, policy, words),
        run_uniformity(judgement, measured, policy, words),
        catches_apart(measured, circumstances.runs_in_use),
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
fn repeats(kept: usize, policy: &Policy) -> Check {
    let least = policy.minimum_repeats as usize;
    let (outcome, says) = match kept.cmp(&least) {
        std::cmp::Ordering::Less => {
            (Outcome::Fail, format!("{} kept, at least {least} are asked for: catch again.", words::repeats(kept)))
        }
        std::cmp::Ordering::Equal => (
            Outcome::Remark,
            format!("{} kept, the least that is allowed; one more would show which to trust.", words::repeats(kept)),
        ),
        std::cmp::Ordering::Greater => {
            (Outcome::Pass, format!("{} kept, at least {least} are asked for.", words::repeats(kept)))
        }
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
    let most = words.exactly(limit);
    let outcome = against(spread, limit / 2.0, limit);
    let advice = match (outcome, judgement.scatter_is_rounding) {
        (Outcome::Pass, _) => "",
        (_, true) => {
            " That is no more than the scale's rounding explains: catch more seed, the meter need not be at fault."
        }
        (_, false) => " That is more than the scale's rounding explains.",
    };
    let says = format!("The repeats differ by {}; the limit is {most} %.{advice}", words.percent(spread));
    Some(in_percent(CheckName::RepeatAgreement, spread, limit, outcome, says))
}

/// Fails with a CV of the runs above the limit, remarks above the policy's remark.
fn run_uniformity(judgement: &Judgement, measured: &Measured, policy: &Policy, words: Words) -> Option<Check> {
    let cv = judgement.run_cv_percent?;
    let limit = policy.run_cv_limit_percent;
    let outcome = against(cv, policy.run_cv_remark_percent, limit);
    let most = measured.kept().map(|repeat| repeat.catches.len()).max().unwrap_or(0);
    let width = judgement.run_cv_interval_percent.map_or_else(String::new, |(low, high)| {
        format!(
            " From so few runs, the true figure may lie anywhere from {} to {}.",
            words.percent(low),
            words.percent(high)
        )
    });
    let farthest = judgement.run_differences.iter().max_by(|a, b| a.percent.abs().total_cmp(&b.percent.abs()));
    let culprit = farthest.filter(|_| outcome != Outcome::Pass).map_or_else(String::new, |run| {
        let side = if run.percent.is_sign_negative() { "below" } else { "above" };
        format!(" Farthest off is {}, {} {side} the mean.", run.label, words.percent(run.percent.abs()))
    });
    let says = format!(
        "The runs vary by {} (coefficient of variation of up to {most} catches); the limit is {} %.{culprit}{width}",
        words.percent(cv),
        words.exactly(limit),
    );
    Some(in_percent(CheckName::RunUniformity, cv, limit, outcome, says))
}

/// Remarks when no kept repeat has two catches to compare; left out where the unit has a single run.
fn catches_apart(measured: &Measured, runs_in_use: u32) -> Option<Check> {
    if runs_in_use < 2 {
        return None;
    }
    let most = measured.kept().map(|repeat| repeat.catches.len()).max().unwrap_or(0);
    let poured_together = measured.kept().flat_map(|repeat| &repeat.catches).any(|catch| catch.runs > 1);
    let (outcome, says) = match (most, poured_together) {
        (2.., false) => (Outcome::Pass, "The runs were weighed apart."),
        (2.., true) => (Outcome::Pass, "Groups of runs were weighed apart; a run within a group cannot be told."),
        (_, true) => (Outcome::Remark, "The runs were poured together, so they could not be compared."),
        (_, false) => (Outcome::Remark, "A single run was caught, so the runs could not be compared."),
    };
    Some(Check {
        check: CheckName::CatchesApart,
        value: Some(most as f64),
        limit: Some(2.0),
        unit: "catches".to_owned(),
        outcome,
        says: says.to_owned(),
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
    let found = format!(
        "The scale's rounding is {} of a catch, the limit is {} %: a catch needs {} for that. The smallest holds {}",
        words.percent(largest_share),
        words.exactly(limit),
        words.mass(judgement.minimum_catch_kg),
        words.mass(smallest),
    );
    let (outcome, says) = if exceeds(largest_share, limit) {
        (Outcome::Fail, format!("{found}: catch more seed or use a finer scale."))
    } else if exceeds(rule, smallest) {
        let seed = if small_seed { " for small seed" } else { "" };
        (Outcome::Remark, format!("{found}, less than the {} of the rule of thumb{seed}.", words.mass(rule)))
    } else {
        (Outcome::Pass, format!("{found}."))
    };
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
        .map_or_else(String::new, |line| format!(" The largest part: {}.", line.says));
    let says = format!(
        "The factor is known within {} (95 %); the limit is {} %.{most}",
        words.percent(expanded),
        words.exactly(limit)
    );
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
        let says = format!(
            "Caught at {}; the drive holds {} to {}.",
            words.rpm(speed),
            words.rpm(min_rpm),
            words.rpm(max_rpm)
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
        let says = format!(
            "Caught at {}; {} at {} needs {}, which is {} away; up to {} % is near enough.",
            words.rpm(speed),
            words.entered(rate),
            words.entered(driving),
            words.rpm(needed),
            words.percent(off),
            words.exactly(tolerance),
        );
        return check(off, tolerance, "%", outcome, says);
    }
    let DriveRange { min_rpm, max_rpm } = range?;
    let says = format!(
        "Caught at {}, within the {} to {} that the drive holds.",
        words.rpm(speed),
        words.rpm(min_rpm),
        words.rpm(max_rpm)
    );
    check(speed, max_rpm, "1/min", Outcome::Pass, says)
}

/// Fails when the scale's last check failed; remarks without a check in force, or without a scale.
fn scale(circumstances: &Circumstances, words: Words) -> Check {
    let limit = circumstances.policy.scale_check_interval_days;
    let days = words.exactly(limit);
    let standing = circumstances.scale.as_ref().map(|scale| scale.last_check);
    let (outcome, says) = match standing {
        Some(ScaleStanding::PassedWithin) => {
            (Outcome::Pass, format!("The scale passed a check within the last {days} days."))
        }
        Some(ScaleStanding::Failed) => {
            (Outcome::Fail, "The scale failed its last check: weigh with another, or mend and check it.".to_owned())
        }
        Some(ScaleStanding::PassedLongAgo) => (
            Outcome::Remark,
            format!("The scale's last check is more than {days} days ago: check it with a known mass."),
        ),
        Some(ScaleStanding::NeverChecked) => {
            (Outcome::Remark, "The scale was never checked: check it with a known mass.".to_owned())
        }
        None => (Outcome::Remark, "No scale was named, so nothing is known of its checks.".to_owned()),
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
        ExpectedSource::LastCalibration { density_ratio: Some(_), .. } => {
            "the last calibration and the seed's bulk density then and now"
        }
        ExpectedSource::LastCalibration { density_ratio: None, .. } => "the last calibration",
        ExpectedSource::Displacement => "the roller's displacement and the seed's bulk density",
    };
    let side = if (ratio - 1.0).is_sign_negative() { "below" } else { "above" };
    let says = format!(
        "The factor is {} {side} what {source} let expect; beyond {} % it is worth a look, beyond {} times it fails.",
        words.percent(off),
        words.exactly(policy.plausibility_remark_percent),
        words.exactly(limit),
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
