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

/// The same, computed with mpmath to forty digits as roots of the incomplete beta function.
const EXACT: [&str; 15] = [
    "1.8373372014715831 6.3137515146750431 12.706204736174705 13.967730199244547 63.656741162871581 235.80149796046805",
    "1.3212773729262555 2.9199855803537257 4.3026527297494639 4.5265366874301658 9.9248432009182931 19.206744211508586",
    "1.1968813544031562 2.3533634348018239 3.1824463052837096 3.3068221750056519 5.8409093097333573 9.2189404587002563",
    "1.1416266290909542 2.1318467863266503 2.7764451051977944 2.8693094146288269 4.6040948713499932 6.6202059668158664",
    "1.1105065783609564 2.0150483733330242 2.5705818356363155 2.6486494307027033 4.0321429835552281 5.5070797124692919",
    "1.0905690560916418 1.9431802805153032 2.44691185114497 2.5165240556531187 3.7074280213247798 4.9040646736483574",
    "1.0767133754164625 1.8945786050900074 2.3646242515927853 2.4288051304035684 3.4994832973504939 4.5299736787334268",
    "1.0665284220683794 1.8595480375308984 2.3060041352041667 2.3664157840419837 3.3553873313333955 4.276632543373756",
    "1.058727665741402 1.8331129326562372 2.2621571627982055 2.3198058982591432 3.2498355415921263 4.0942553062092688",
    "1.0525624152573362 1.8124611228116764 2.2281388519862747 2.2836782024779305 3.1692726726169512 3.9569366600027505",
    "1.0344629130512216 1.7530503556925735 2.1314495455597757 2.1811626350751745 2.9467128834752389 3.5864232263449525",
    "1.0256327915369454 1.7247182429207873 2.0859634472658648 2.1330254804541873 2.8453397097861085 3.4221512911272845",
    "1.0101004992314696 1.6759050251630976 2.0085591121007611 2.0512481728816575 2.6777932709408442 3.1571477918370362",
    "1.0050250624472903 1.6602343260853396 1.9839715185235523 2.0253091279034593 2.6258905214380179 3.0767555770966745",
    "1.0 1.6448536269514727 1.9599639845400542 2.0 2.5758293035489008 3.0",
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
    let cell = |degrees: f64, level: f64, printed: &str, exact: &str| -> Check {
        check("t", format!("nu {degrees}, p {:.2} %", 100.0 * level), two_sided(level, degrees))
            .prints(printed)
            .computed(exact.parse().expect("a number"), 1e-12, "mpmath, forty digits")
    };
    let rows = TABLE.iter().zip(EXACT).flat_map(|((degrees, row), exact)| {
        let cells = row.split_whitespace().zip(exact.split_whitespace()).zip(LEVELS);
        cells.map(move |((printed, exact), level)| cell(*degrees, level, printed, exact))
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
