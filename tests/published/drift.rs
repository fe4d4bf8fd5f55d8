//! The usage chart against published and independently computed numbers.
#![allow(clippy::expect_used, reason = "a test that cannot be set up has failed")]

use sowmark_core::drift::{Chart, Outcome, WeightedChart, ewma, implied_factor, log_ratio, relative_uncertainty};
use sowmark_core::policy::Policy;

#[track_caller]
fn close(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found}, not {expected}");
}

/// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4 (pmc324.htm): data, the averages as printed, start 50, lambda 0.3.
#[test]
fn the_averages_are_those_of_the_nist_handbook() {
    let data = [
        52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4,
        53.6, 52.1,
    ];
    let printed = [
        50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92,
        50.73, 51.23, 51.94, 51.99,
    ];
    let found = ewma(&data, 0.3, 50.0);
    assert_eq!(found.len(), printed.len());
    for (found, printed) in found.into_iter().zip(printed) {
        close(found, printed, 0.005);
    }
}

/// Source: the same page, s = 2.0539, L = 3. The limits printed are those of an endless chart, 52.5884 and 47.4115, with the root
/// rounded to 0.4201; the widths for few points follow from the formula printed with them.
#[test]
fn the_limits_widen_to_those_of_the_nist_handbook() {
    let chart = Chart { lambda: 0.3, limit_width: 3.0, sigma: 2.0539 };
    let widths = chart.half_widths(200);
    for (count, expected) in [(1, 1.8485), (2, 2.2564), (3, 2.4314), (5, 2.5516), (10, 2.5874), (20, 2.5884)] {
        close(widths[count - 1], expected, 5e-5);
    }
    close(50.0 + widths[199], 52.5884, 2e-4);
    close(50.0 - widths[199], 47.4115, 2e-4);
}

/// Area in ha, seed in kg, x, u, and the plain and the weighted chart: z, z, u of z, limit.
///
/// Source: invented jobs at 180 kg/ha with lambda 0.3, L 3, 10 kg, 0.5 % of area and 0.50564 % of calibration; the columns were
/// computed apart from this program with numpy, statsmodels (`SimpleExpSmoothing`, weighted least squares) and pandas.
const JOBS: [[f64; 8]; 10] = [
    [12.4, 2240.0, 0.003_577_8, 0.006_703_0, 0.001_073_3, 0.003_577_8, 0.006_703_0, 0.025_188_8],
    [8.1, 1452.0, -0.004_123_7, 0.008_510_7, -0.000_485_8, -0.000_040_5, 0.005_349_5, 0.022_083_0],
    [20.6, 3745.0, 0.009_929_0, 0.005_668_3, 0.002_638_6, 0.005_961_9, 0.004_022_2, 0.019_383_2],
    [3.2, 583.0, 0.012_079_5, 0.017_866_6, 0.005_470_9, 0.006_449_3, 0.003_966_0, 0.019_278_7],
    [15.0, 2722.0, 0.008_115_1, 0.006_204_6, 0.006_264_2, 0.007_258_1, 0.003_638_5, 0.018_688_3],
    [18.3, 3370.0, 0.022_810_1, 0.005_814_2, 0.011_228_0, 0.014_121_4, 0.003_273_5, 0.018_070_7],
    [9.7, 1791.0, 0.025_446_7, 0.007_495_0, 0.015_493_6, 0.017_236_3, 0.003_143_5, 0.017_861_6],
    [14.2, 2612.0, 0.021_672_7, 0.006_297_4, 0.017_347_3, 0.018_822_6, 0.003_024_7, 0.017_676_0],
    [22.5, 4164.0, 0.027_759_3, 0.005_546_8, 0.020_470_9, 0.022_370_5, 0.002_859_3, 0.017_426_6],
    [11.8, 2186.0, 0.028_772_3, 0.006_776_9, 0.022_961_3, 0.024_133_1, 0.002_788_4, 0.017_322_8],
];

fn outcomes() -> Vec<Outcome> {
    JOBS.iter()
        .map(|[ha, kg, ..]| Outcome {
            x: log_ratio(*kg, ha * 10_000.0, 0.018).expect("a job"),
            u: relative_uncertainty(*kg, 10.0, 0.5),
        })
        .collect()
}

#[test]
fn each_job_of_the_worked_example_has_its_ratio_and_uncertainty() {
    for (found, [_, _, x, u, ..]) in outcomes().into_iter().zip(JOBS) {
        close(found.x, x, 5.1e-8);
        close(found.u, u, 5.1e-8);
    }
}

#[test]
fn the_plain_chart_of_the_worked_example() {
    let values: Vec<f64> = outcomes().iter().map(|outcome| outcome.x).collect();
    let points = Chart::of_policy(&Policy::default()).points(&values);
    for (found, expected) in points.iter().zip(JOBS) {
        close(found.z, expected[4], 5.1e-8);
        assert!(!found.out, "2.3 % is within what single jobs may scatter by default");
    }
    // z as a percentage: +2.3226950626940 %.
    close(100.0 * points[9].z.exp_m1(), 2.322_695_062_694_0, 1e-11);
    close(implied_factor(63.9375, points[9].z), 65.422_573_155_710_0, 1e-11);
}

#[test]
fn the_weighted_chart_of_the_worked_example() {
    let chart = WeightedChart { lambda: 0.3, limit_width: 3.0, common: 0.005_056_4 };
    let points = chart.points(&outcomes());
    for (found, expected) in points.iter().zip(JOBS) {
        close(found.z, expected[5], 5.1e-8);
        close(found.u_z, expected[6], 5.1e-8);
        close(found.limit, expected[7], 2e-7);
    }
    close(points[9].z, 0.024_133_147_688_584, 1e-15);
    close(implied_factor(63.9375, points[9].z), 65.499_282_697_656_8, 1e-11);
    // The first signal: job 8 with the calibration's own uncertainty, job 6 without it.
    assert_eq!(points.iter().position(|point| point.out), Some(7));
    let alone = WeightedChart { common: 0.0, ..chart };
    assert_eq!(alone.points(&outcomes()).iter().position(|point| point.out), Some(5));
}

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
