//! The table of Student's t.
//!
//! NIST Technical Note 1297 (1994), table B.1; the same layout as GUM table G.2. The columns of 68.27, 95.45 and 99.73 % are
//! those of one, two and three standard deviations exactly: with 0.9973 in place of 0.9973002 the first row would read
//! 235.78. Six further decimals of the 95 % column were computed with SciPy 1.17.1.

use sowmark_core::uncertainty::Component;

use crate::check::{Check, Seen, Source, check};

const LEVELS: [f64; 6] = [0.682_689_492_137_086, 0.90, 0.95, 0.954_499_736_103_642, 0.99, 0.997_300_203_936_740];

/// Degrees of freedom and the six columns, as printed.
const TABLE: [(f64, &str); 15] = [
    (1.0, "1.84 6.31 12.71 13.97 63.66 235.80"),
    (2.0, "1.32 2.92 4.30 4.53 9.92 19.21"),
    (3.0, "1.20 2.35 3.18 3.31 5.84 9.22"),
    (4.0, "1.14 2.13 2.78 2.87 4.60 6.62"),
    (5.0, "1.11 2.02 2.57 2.65 4.03 5.51"),
    (6.0, "1.09 1.94 2.45 2.52 3.71 4.90"),
    (7.0, "1.08 1.89 2.36 2.43 3.50 4.53"),
    (8.0, "1.07 1.86 2.31 2.37 3.36 4.28"),
    (9.0, "1.06 1.83 2.26 2.32 3.25 4.09"),
    (10.0, "1.05 1.81 2.23 2.28 3.17 3.96"),
    (15.0, "1.03 1.75 2.13 2.18 2.95 3.59"),
    (20.0, "1.03 1.72 2.09 2.13 2.85 3.42"),
    (50.0, "1.01 1.68 2.01 2.05 2.68 3.16"),
    (100.0, "1.005 1.660 1.984 2.025 2.626 3.077"),
    (f64::INFINITY, "1.000 1.645 1.960 2.000 2.576 3.000"),
];

const SIX_DECIMALS: [(f64, &str); 17] = [
    (1.0, "12.706205"),
    (2.0, "4.302653"),
    (3.0, "3.182446"),
    (4.0, "2.776445"),
    (5.0, "2.570582"),
    (6.0, "2.446912"),
    (7.0, "2.364624"),
    (8.0, "2.306004"),
    (9.0, "2.262157"),
    (10.0, "2.228139"),
    (15.0, "2.131450"),
    (16.0, "2.119905"),
    (19.0, "2.093024"),
    (20.0, "2.085963"),
    (30.0, "2.042272"),
    (50.0, "2.008559"),
    (100.0, "1.983972"),
];

fn two_sided(level: f64, degrees: f64) -> f64 {
    let known = if degrees.is_finite() { Component::estimated(1.0, degrees) } else { Component::known(1.0) };
    known.coverage_factor(level).expect("a level and degrees of freedom")
}

pub(crate) fn source() -> Source {
    let cell = |degrees: f64, level: f64, printed: &str| -> Check {
        check("t", format!("nu {degrees}, p {:.2} %", 100.0 * level), two_sided(level, degrees)).prints(printed)
    };
    let rows = TABLE.iter().flat_map(|(degrees, row)| {
        row.split_whitespace().zip(LEVELS).map(move |(printed, level)| cell(*degrees, level, printed))
    });
    let mut checks: Vec<_> = rows.collect();
    assert_eq!(checks.len(), 90, "fifteen rows of six");
    checks.extend(SIX_DECIMALS.map(|(degrees, value)| {
        let value: f64 = value.parse().expect("a number");
        check("t to six decimals", format!("nu {degrees}, p 95 %"), two_sided(0.95, degrees))
            .computed(value, 0.51e-6 / value, "SciPy, half a unit of the sixth decimal")
    }));
    Source {
        title: "NIST Technical Note 1297, table B.1",
        address: "https://www.nist.gov/physical-measurement-laboratory/nist-tn-1297-guidelines-appendix-b-table-b1",
        seen: Seen::Read,
        checks,
    }
}

/// So many degrees of freedom are as good as infinitely many.
#[test]
fn the_last_row_is_the_limit_of_the_others() {
    for level in LEVELS {
        let (many, all) = (two_sided(level, 1e9), two_sided(level, f64::INFINITY));
        assert!((many / all - 1.0).abs() < 1e-8, "{level}: {many}, {all}");
    }
}
