//! `roller_speed_off`, `drift`, `interval`, `scale_unchecked`: raised and cleared, since when and by what.

use sowmark_core::{
    basis::Setup,
    policy::Policy,
    readiness::{
        CalibrationFacts,
        CauseKind::{Calibration, Job, ScaleCheck as Check},
        Change, Detail, Exceeded, JobFacts, ScaleCheck, ScaleDoubt, ScaleStanding, SeedUsedBasis, State,
        Trigger::{Drift, Interval, RollerSpeedOff, ScaleUnchecked},
        passes, scale_standing, usage_chart,
    },
};

use crate::fleet::{Fleet, OTHER_WHEAT, SCALE, WHEAT, at, caught, setup, sown};

/// A job at so many times the calibration's roller speed.
fn at_speed(times: f64) -> JobFacts {
    JobFacts { speed: Some(times * 12.0 / 3.6), ..sown(WHEAT) }
}

/// A job that used so many times its target.
fn used(times: f64) -> JobFacts {
    JobFacts { seed_used_kg: 1400.0 * times, ..sown(WHEAT) }
}

#[test]
fn the_latest_job_with_a_known_speed_says_whether_the_roller_speed_is_off() {
    // The policy's default is 25 %.
    for (times, off) in [(1.0, false), (1.25, false), (1.26, true), (0.75, false), (0.74, true)] {
        let (mut fleet, _) = Fleet::caught_with_wheat();
        let job = fleet.job("04-07 08:00", at_speed(times));
        let expected = [(RollerSpeedOff, "04-07 08:00", Job, job)];
        fleet.assert_due("04-07 09:00", if off { &expected } else { &[] });
        assert_eq!(fleet.readiness("04-07 09:00").state, if off { State::Check } else { State::Ready });
    }
}

#[test]
fn the_first_of_the_unbroken_run_of_jobs_began_the_roller_speed() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.job("04-07 08:00", at_speed(2.0));
    fleet.job("04-07 09:00", at_speed(1.0));
    let began = fleet.job("04-07 10:00", at_speed(1.5));
    fleet.job("04-07 11:00", JobFacts { speed: None, ..sown(WHEAT) });
    fleet.job("04-07 12:00", at_speed(0.5));
    fleet.assert_due("04-07 13:00", &[(RollerSpeedOff, "04-07 10:00", Job, began)]);
    let Detail::RollerSpeedOff { rpm: Change { from, to }, tolerance_percent } =
        fleet.readiness("04-07 13:00").due.remove(0).detail
    else {
        panic!("another detail");
    };
    assert_eq!((from, tolerance_percent), (42.0, 25.0));
    assert!((to - 21.0).abs() < 1e-9, "{to}");
    fleet.job("04-07 14:00", at_speed(1.1));
    fleet.assert_due("04-07 15:00", &[]);
}

#[test]
fn jobs_on_another_basis_or_without_a_calibrated_speed_say_nothing_of_the_roller_speed() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.job("04-06 07:30", at_speed(2.0));
    fleet.job("04-07 08:00", JobFacts { lot: OTHER_WHEAT, ..at_speed(2.0) });
    fleet.setup("04-07 09:00", Setup { gate: None, ..setup() });
    fleet.job("04-07 10:00", at_speed(2.0));
    fleet.setup("04-07 11:00", setup());
    fleet.configuration("04-07 12:00", 8.0, 0.125);
    fleet.job("04-07 13:00", at_speed(2.0));
    fleet.configuration("04-07 14:00", 6.0, 0.125);
    fleet.assert_due("04-07 15:00", &[]);
    fleet.calibration("04-07 16:00", CalibrationFacts { roller_speed_rpm: None, ..caught(WHEAT) });
    fleet.job("04-07 17:00", at_speed(2.0));
    fleet.assert_due("04-07 18:00", &[]);
}

#[test]
fn the_usage_chart_is_out_from_the_job_that_took_it_out_and_in_again_when_it_returns() {
    let (mut fleet, calibration) = Fleet::caught_with_wheat();
    let when = ["04-07 08:00", "04-08 08:00", "04-09 08:00", "04-10 08:00"];
    let jobs = when.map(|when| fleet.job(when, used(1.08)));
    // x = ln 1.08 = 0.0770; z = 0.0231, 0.0393; limits 0.0270, 0.0330: the second job takes it out.
    fleet.assert_due("04-07 09:00", &[]);
    fleet.assert_due("04-10 09:00", &[(Drift, "04-08 08:00", Job, jobs[1])]);
    let Detail::Drift { z, limit, jobs: count } = fleet.readiness("04-08 08:00").due.remove(0).detail else {
        panic!("another detail");
    };
    assert_eq!(count, 2);
    assert!((z - 1.08_f64.ln() * (1.0 - 0.7 * 0.7)).abs() < 1e-12, "{z}");
    assert!((limit - 0.09 * (0.3 / 1.7 * (1.0 - 0.7_f64.powi(4))).sqrt()).abs() < 1e-12, "{limit}");
    let chart = usage_chart(&fleet.history, &fleet.around, calibration.into(), at("04-10 09:00"));
    assert_eq!(chart.iter().map(|job| job.job).collect::<Vec<_>>(), jobs);
    assert_eq!(chart.iter().map(|job| job.point.out).collect::<Vec<_>>(), [false, true, true, true]);
    // The policy knows a weighed balance within 10 kg and an area within 0.5 %.
    let known = (10.0_f64 / 1512.0).hypot(0.005);
    assert!(chart.iter().all(|job| (job.uncertainty / known - 1.0).abs() < 1e-12), "{chart:?}");
    fleet.job("04-11 08:00", used(0.90));
    fleet.assert_due("04-11 09:00", &[]);
    fleet.job("04-12 08:00", used(1.1));
    fleet.job("04-13 08:00", used(1.1));
    let again = fleet.readiness("04-13 09:00").due.remove(0);
    assert_eq!((again.trigger, again.since), (Drift, at("04-13 08:00")));
}

#[test]
fn a_machine_total_never_enters_the_usage_chart() {
    let (mut fleet, calibration) = Fleet::caught_with_wheat();
    for day in 7..20 {
        let total = JobFacts { seed_used_basis: SeedUsedBasis::MachineTotal, ..used(2.0) };
        fleet.job(&format!("04-{day:02} 08:00"), total);
    }
    fleet.job("04-20 08:00", JobFacts { seed_used_kg: 0.0, ..sown(WHEAT) });
    fleet.assert_due("04-21 09:00", &[]);
    assert_eq!(usage_chart(&fleet.history, &fleet.around, calibration.into(), at("04-21 09:00")), []);
    let bags = JobFacts { seed_used_basis: SeedUsedBasis::Bags, ..used(2.0) };
    let job = fleet.job("04-21 10:00", bags);
    fleet.assert_due("04-21 11:00", &[(Drift, "04-21 10:00", Job, job)]);
    // And bags within one of them, 25 kg.
    let chart = usage_chart(&fleet.history, &fleet.around, calibration.into(), at("04-21 11:00"));
    assert!((chart[0].uncertainty / (25.0_f64 / 2800.0).hypot(0.005) - 1.0).abs() < 1e-12, "{chart:?}");
}

#[test]
fn a_new_calibration_begins_a_new_chart() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.job("04-07 08:00", used(2.0));
    fleet.calibration("04-08 08:00", caught(WHEAT));
    fleet.assert_due("04-08 09:00", &[]);
}

#[test]
fn the_interval_is_off_unless_the_policy_sets_it() {
    let (mut fleet, calibration) = Fleet::caught_with_wheat();
    let jobs = ["04-07 08:00", "04-08 08:00", "04-09 08:00"].map(|when| fleet.job(when, sown(WHEAT)));
    fleet.assert_due("04-30 08:00", &[]);
    // 20 ha are not exceeded by 20 ha; the third job of 10 ha does it, on whatever basis.
    fleet.policy("04-01 00:00", |policy| policy.interval_area_ha = Some(20.0));
    fleet.assert_due("04-08 09:00", &[]);
    fleet.assert_due("04-09 08:00", &[(Interval, "04-09 08:00", Job, jobs[2])]);
    let area_ha = Some(Exceeded { value: 30.0, limit: 20.0 });
    assert_eq!(fleet.readiness("04-09 08:00").due[0].detail, Detail::Interval { area_ha, days: None });
    // Days of 24 hours: ten and a half after 6 April 08:00.
    fleet.policy("04-01 00:00", |policy| policy.interval_days = Some(10.5));
    fleet.assert_due("04-16 20:00", &[]);
    fleet.assert_due("04-16 20:01", &[(Interval, "04-16 20:00", Calibration, calibration)]);
    // A quarter of a day later it is ten days and three quarters.
    let days = Some(Exceeded { value: 10.75, limit: 10.5 });
    assert_eq!(fleet.readiness("04-17 02:00").due[0].detail, Detail::Interval { area_ha: None, days });
    // Half a hectare less than was sown is exceeded.
    fleet.policy("04-01 00:00", |policy| policy.interval_area_ha = Some(29.5));
    fleet.assert_due("04-09 08:00", &[(Interval, "04-09 08:00", Job, jobs[2])]);
    // Both: the earlier one is named.
    fleet.policy("04-01 00:00", |policy| {
        policy.interval_days = Some(10.5);
        policy.interval_area_ha = Some(20.0);
    });
    fleet.assert_due("04-17 08:00", &[(Interval, "04-09 08:00", Job, jobs[2])]);
    fleet.policy("04-01 00:00", |policy| {
        policy.interval_days = Some(1.0);
        policy.interval_area_ha = Some(20.0);
    });
    fleet.assert_due("04-17 08:00", &[(Interval, "04-07 08:00", Calibration, calibration)]);
    fleet.calibration("04-17 08:30", caught(WHEAT));
    fleet.scale_check("04-17 08:00", 10.0, 10.0);
    fleet.assert_due("04-17 09:00", &[]);
}

#[test]
fn a_scale_without_a_passing_check_in_the_interval_before_was_in_doubt_from_the_calibration_on() {
    // Checks before the calibration of 6 April 08:00 (reference 10 kg, 10 g steps, 0.5 %: 60 g are allowed), and whether it is due.
    let table: [(&[(&str, f64)], bool); 9] = [
        (&[], true),
        (&[("03-07 08:00", 10.0)], false),
        (&[("03-07 07:59", 10.0)], true),
        (&[("04-06 08:00", 10.0)], false),
        (&[("04-05 08:00", 10.06)], false),
        (&[("04-05 08:00", 9.94)], false),
        (&[("04-05 08:00", 10.061)], true),
        (&[("04-05 08:00", 9.939)], true),
        // A passing check within the interval stands, also with a failed one after it: that failed the calibration's own verdict.
        (&[("04-04 08:00", 10.0), ("04-05 08:00", 11.0)], false),
    ];
    for (checks, due) in table {
        let mut fleet = Fleet::new();
        fleet.setup("03-01 08:00", setup());
        let calibration = fleet.calibration("04-06 08:00", caught(WHEAT));
        for (when, reading) in checks {
            fleet.scale_check(when, 10.0, *reading);
        }
        let expected = [(ScaleUnchecked, "04-06 08:00", Calibration, calibration)];
        fleet.assert_due("04-06 09:00", if due { &expected } else { &[] });
        // A good check afterwards does not mend what was weighed before.
        fleet.scale_check("04-07 08:00", 10.0, 10.0);
        fleet.assert_due("04-07 09:00", if due { &expected } else { &[] });
    }
}

#[test]
fn no_scale_named_is_unchecked_and_a_scale_that_is_not_known_too() {
    for scale in [None, Some(sowmark_core::ids::ScaleId(uuid::Uuid::from_u128(0xff)))] {
        let (mut fleet, _) = Fleet::caught_with_wheat();
        let calibration = fleet.calibration("04-07 08:00", CalibrationFacts { scale, ..caught(WHEAT) });
        fleet.assert_due("04-07 09:00", &[(ScaleUnchecked, "04-07 08:00", Calibration, calibration)]);
        let doubt =
            scale.map_or(ScaleDoubt::NotNamed, |scale| ScaleDoubt::NoPassingCheck { scale, interval_days: 30.0 });
        assert_eq!(fleet.readiness("04-07 09:00").due[0].detail, Detail::ScaleUnchecked(doubt));
    }
}

#[test]
fn only_the_next_check_after_the_calibration_speaks_of_it() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    let failed = fleet.scale_check("04-08 08:00", 10.0, 10.5);
    fleet.scale_check("04-09 08:00", 10.0, 10.0);
    fleet.assert_due("04-07 08:00", &[]);
    fleet.assert_due("04-10 08:00", &[(ScaleUnchecked, "04-08 08:00", Check, failed)]);
    let check = ScaleCheck { reference_kg: 10.0, reading_kg: 10.5 };
    let doubt = ScaleDoubt::FailedNext { scale: SCALE, check };
    assert_eq!(fleet.readiness("04-10 08:00").due[0].detail, Detail::ScaleUnchecked(doubt));

    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.scale_check("04-08 08:00", 10.0, 10.0);
    fleet.scale_check("04-09 08:00", 10.0, 10.5);
    fleet.assert_due("04-10 08:00", &[]);
}

#[test]
fn the_last_check_decides_what_is_known_of_a_scale() {
    let policy = sowmark_core::policy::Policy::default();
    let mut fleet = Fleet::new();
    let standing = |fleet: &Fleet, when| scale_standing(&fleet.around.scales[&SCALE], at(when), &policy);
    fleet.scale_check("04-01 08:00", 10.0, 10.0);
    fleet.scale_check("05-20 08:00", 10.0, 12.0);
    fleet.scale_check("05-21 08:00", 10.0, 10.02);
    for (when, expected) in [
        ("04-01 07:59", ScaleStanding::NeverChecked),
        ("04-01 08:00", ScaleStanding::PassedWithin),
        ("05-01 08:00", ScaleStanding::PassedWithin),
        ("05-01 08:01", ScaleStanding::PassedLongAgo),
        ("05-20 08:00", ScaleStanding::Failed),
        ("05-21 08:00", ScaleStanding::PassedWithin),
    ] {
        assert_eq!(standing(&fleet, when), expected, "at {when}");
    }
}

/// A weighbridge: 10 kg and half a percent of 40 000.7 kg are 210.0035 kg, which binary fractions put a hair lower.
#[test]
fn a_large_scale_passes_at_its_limit_too() {
    let check = |reading_kg| ScaleCheck { reference_kg: 40_000.7, reading_kg };
    assert!(passes(&check(40_210.703_5), 10.0, &Policy::default()));
    assert!(!passes(&check(40_210.704), 10.0, &Policy::default()));
}
