//! Control charts: moving averages that are weighted, and sums that gather.
//!
//! NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4 (pmc324.htm) and 6.3.2.3 (pmc323.htm). Data and printed results as
//! quoted in public test suites; exact ones in fractions. Unrounded weighted averages agree with pandas and statsmodels.

use sowmark_core::drift::{Chart, SumChart, ewma};

use crate::check::{Check, Seen, Source, check};

const AVERAGED: [f64; 20] = [
    52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6,
    52.1,
];

const AVERAGES: &str = "50.60 49.52 50.56 50.18 50.16 49.21 49.75 49.85 50.26 50.33 50.11 49.36 49.52 50.05 49.38 49.92 \
    50.73 51.23 51.94 51.99";

/// The same in exact fractions, rounded once.
const AVERAGES_EXACT: [f64; 20] = [
    50.6, 49.52, 50.564, 50.1848, 50.15936, 49.211552, 49.7480864, 49.85366048, 50.257562336, 50.3302936352,
    50.11120554464, 49.357843881248, 49.5204907168736, 50.05434350181152, 49.37804045126806, 49.924628315887645,
    50.72723982112135, 51.229067874784946, 51.94034751234946, 51.98824325864462,
];

const SUMMED: [f64; 20] = [
    324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600, 324.625, 325.150,
    328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350,
];

/// Sums above and below the target, after each mean.
const SUMS: [(f64, f64); 20] = [
    (0.0, 0.0),
    (0.0, 0.0075),
    (0.0, 0.0),
    (0.0, 0.3325),
    (0.0325, 0.0),
    (0.0, 0.0),
    (0.0, 0.5575),
    (0.0, 0.715),
    (0.0, 0.1725),
    (0.0, 0.255),
    (0.0, 0.3125),
    (0.0, 0.0),
    (3.0075, 0.0),
    (4.94, 0.0),
    (7.4475, 0.0),
    (10.63, 0.0),
    (11.9875, 0.0),
    (14.445, 0.0),
    (16.0025, 0.0),
    (19.035, 0.0),
];

/// Lambda 0.3, 3 sigma, sigma 2.0539, from 50.
fn averages() -> Vec<Check> {
    let found = ewma(&AVERAGED, 0.3, 50.0);
    let printed = AVERAGES.split_whitespace();
    let mut checks: Vec<_> = (1..)
        .zip(printed.zip(AVERAGES_EXACT).zip(&found))
        .map(|(t, ((printed, exact), found))| {
            check("EWMA", format!("6.3.2.4, t = {t}"), *found).prints(printed).exactly(exact)
        })
        .collect();
    assert_eq!(checks.len(), 20);
    let chart = Chart { lambda: 0.3, limit_width: 3.0, sigma: 2.0539 };
    let widths = chart.half_widths(400);
    for (t, exact) in [
        (1, 1.848_51),
        (2, 2.256_394_012_123_990_7),
        (3, 2.431_405_570_795_421_6),
        (5, 2.551_611_460_073_961),
        (10, 2.587_398_847_871_154),
        (20, 2.588_430_914_124_380),
    ] {
        checks.push(check("half width of the limits", format!("6.3.2.4, t = {t}"), widths[t - 1]).exactly(exact));
    }
    let why = "the page rounds the root to 0.4201";
    checks.push(
        check("upper limit of an endless chart", "6.3.2.4", 50.0 + widths[399])
            .prints_within("52.5884", 2e-4, why)
            .exactly(52.588_431_738_126_616),
    );
    checks.push(
        check("lower limit of an endless chart", "6.3.2.4", 50.0 - widths[399])
            .prints_within("47.4115", 2e-4, why)
            .exactly(47.411_568_261_873_384),
    );
    checks
}

fn chart() -> SumChart {
    SumChart { target: 325.0, slack: 0.3175, limit: 4.1959 }
}

/// Target 325, slack half of the means' sigma of 0.635, limit 6.6077 sigma; the page prints two decimals.
fn sums() -> Vec<Check> {
    let sums = chart().points(&SUMMED);
    assert_eq!(sums.len(), SUMS.len());
    let mut checks = Vec::new();
    let two_decimals = |exact: f64| format!("{exact:.2}");
    for (t, (found, (above, below))) in (1..).zip(sums.iter().zip(SUMS)) {
        for (side, found, exact) in [("above", found.above, above), ("below", found.below, below)] {
            checks.push(
                check(format!("sum {side}"), format!("6.3.2.3, t = {t}"), found)
                    .prints_within(&two_decimals(exact), 0.0051, "the page cuts or rounds to two decimals")
                    .computed(exact, 5e-11, "data with three decimals near 325 leave twelve digits"),
            );
        }
    }
    checks
}

pub(crate) fn source() -> Source {
    Source {
        title: "NIST/SEMATECH e-Handbook, 6.3.2",
        address: "https://www.itl.nist.gov/div898/handbook/pmc/section3/",
        seen: Seen::Quoted,
        checks: [averages(), sums()].concat(),
    }
}

/// The handbook's first signal is the fourteenth mean; its moving averages give none.
#[test]
fn signals_come_where_the_handbook_has_them() {
    let sums = chart().points(&SUMMED);
    assert_eq!(sums.iter().position(|sum| sum.out).map(|at| at + 1), Some(14));
    let chart = Chart { lambda: 0.3, limit_width: 3.0, sigma: 2.0539 };
    let moved: Vec<_> = AVERAGED.iter().map(|x| x - 50.0).collect();
    assert!(chart.points(&moved).iter().all(|point| !point.out));
}

/// A shift down is found by the other sum.
#[test]
fn the_two_sums_are_mirror_images() {
    let upside_down: Vec<_> = SUMMED.iter().map(|x| 650.0 - x).collect();
    for (up, down) in chart().points(&SUMMED).iter().zip(chart().points(&upside_down)) {
        assert!((up.above - down.below).abs() < 1e-9 && (up.below - down.above).abs() < 1e-9);
        assert_eq!(up.out, down.out);
    }
}
