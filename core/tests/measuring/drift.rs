//! The usage chart at its edges. Its arithmetic is held against published charts in `tests/published`.

use sowmark_core::{
    drift::{Chart, Outcome, SumChart, WeightedChart, ewma, implied_factor, log_ratio, relative_uncertainty},
    policy::Policy,
};

#[test]
fn a_job_that_has_no_logarithm_has_no_point() {
    for (seed, area, target) in [
        (0.0, 1.0, 1.0),
        (1.0, 0.0, 1.0),
        (1.0, 1.0, 0.0),
        (-1.0, -1.0, 1.0),
        (f64::NAN, 1.0, 1.0),
        (f64::INFINITY, 1.0, 1.0),
        (1e-300, 1e300, 1.0),
    ] {
        assert_eq!(log_ratio(seed, area, target), None, "{seed} {area} {target}");
    }
    assert_eq!(Chart::of_policy(&Policy::default()).points(&[]), []);
}

/// With lambda 1 a chart forgets everything: z is the last x, and the limit is L sigma to the bit.
#[test]
fn a_point_at_its_limit_is_not_out() {
    let chart = Chart { lambda: 1.0, limit_width: 3.0, sigma: 0.5 };
    let out = |x: f64| chart.points(&[x])[0].out;
    assert!(!out(1.5) && !out(-1.5) && !out(0.0));
    assert!(out(1.5_f64.next_up()) && out(-1.5_f64.next_up()));
    let weighted = WeightedChart { lambda: 1.0, limit_width: 3.0, common: 0.0 };
    let out = |x: f64| weighted.points(&[Outcome { x, u: 0.5 }])[0].out;
    assert!(!out(1.5) && !out(-1.5));
    assert!(out(1.500_000_1) && out(-1.500_000_1));
    let sums = SumChart { target: 10.0, slack: 0.5, limit: 1.0 };
    let out = |x: f64| sums.points(&[x])[0].out;
    assert!(!out(11.5) && !out(8.5) && !out(10.0));
    assert!(out(11.75) && out(8.25), "each side by itself");
}

#[test]
fn sums_start_again_from_zero() {
    let chart = SumChart { target: 10.0, slack: 1.0, limit: 3.0 };
    let sums: Vec<_> =
        chart.points(&[12.0, 13.0, 8.0, 8.0, 5.0]).iter().map(|sum| (sum.above, sum.below, sum.out)).collect();
    assert_eq!(sums, [(1.0, 0.0, false), (3.0, 0.0, false), (0.0, 1.0, false), (0.0, 2.0, false), (0.0, 6.0, true)]);
    assert!(chart.points(&[]).is_empty());
}

#[test]
fn the_policy_sets_the_chart() {
    let policy = Policy { drift_lambda: 0.25, drift_limit_width: 2.5, drift_sigma_percent: 4.0, ..Policy::default() };
    assert_eq!(Chart::of_policy(&policy), Chart { lambda: 0.25, limit_width: 2.5, sigma: 0.04 });
    assert_eq!(ewma(&[1.0, 2.0], 0.5, 0.0), [0.5, 1.25]);
    assert!(ewma(&[], 0.5, 3.0).is_empty());
    // 3 % and 4 % make 5 %.
    assert!((relative_uncertainty(1_000.0, 30.0, 4.0) - 0.05).abs() < 1e-15);
    assert!((implied_factor(2.0, 0.5_f64.ln()) - 1.0).abs() < 1e-15);
    assert!((log_ratio(110.0, 100.0, 1.0).unwrap() - 1.1_f64.ln()).abs() < 1e-15);
}

/// An uncertain job moves the weighted mean less; one of which nothing is known moves it not at all.
#[test]
fn what_is_not_known_does_not_count() {
    let chart = WeightedChart { lambda: 0.3, limit_width: 3.0, common: 0.0 };
    let known = [Outcome { x: 0.01, u: 0.005 }, Outcome { x: 0.02, u: 0.01 }];
    let before = chart.points(&known)[1];
    let unknown = Outcome { x: 5.0, u: 1e9 };
    let after = chart.points(&[known[0], known[1], unknown])[2];
    assert!((after.z - before.z).abs() < 1e-12, "{after:?}");
    // Two jobs known alike: the newer weighs 1, the older 0.7.
    let alike = chart.points(&[Outcome { x: 0.01, u: 0.005 }, Outcome { x: 0.03, u: 0.005 }])[1];
    assert!((alike.z - (0.7 * 0.01 + 0.03) / 1.7).abs() < 1e-15);
    assert!((alike.u_z - 0.005 * (0.49_f64 + 1.0).sqrt() / 1.7).abs() < 1e-15);
}
