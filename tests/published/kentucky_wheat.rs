//! Seeds along a row, seeds in a pound, and rates of wheat.
//!
//! Bitzer and Herbek, University of Kentucky: wheat seeding rate and drill calibration.

use sowmark_core::seed::{per_metre_of_row, seeds_per_lb, thousand_seed_weight_counted};

use crate::{
    check::{Check, Seen, Source, check},
    reckon::{lb_per_ac, metres, per_ac, per_ft2, rate_of_seeds, turns_over},
};

pub(crate) fn source() -> Source {
    Source {
        title: "University of Kentucky, wheat",
        address: "http://www.uky.edu/Ag/Wheat/seedrate.html",
        seen: Seen::Read,
        checks: [wheel_and_sample(), along_the_row(), rates()].concat(),
    }
}

fn wheel_and_sample() -> Vec<Check> {
    vec![
        check("turns of a wheel of 60 in over 50 ft", "50 ft", turns_over("50 ft", 60.0 * 0.0254)).exactly(10.0),
        check("seeds in a pound for one in 20 g", "thousand counted", {
            seeds_per_lb(thousand_seed_weight_counted(1_000.0, 0.020).expect("a weight")).expect("seeds") / 1_000.0
        })
            .prints("22.68")
            .exactly(22.679_618_5),
    ]
}

/// Spacing in inches; inches of row for a ft²; seeds per foot of row for 35 and 30 per ft².
const ROWS: [(&str, &str, f64, &str, f64, &str, f64); 5] = [
    ("4 in", "36.0", 36.0, "12", 11.666_666_666_666_666, "10", 10.0),
    ("6 in", "24.0", 24.0, "18", 17.5, "15", 15.0),
    ("7 in", "20.6", 20.571_428_571_428_573, "20", 20.416_666_666_666_668, "17", 17.5),
    ("8 in", "18.0", 18.0, "23", 23.333_333_333_333_332, "20", 20.0),
    ("10 in", "14.4", 14.4, "29", 29.166_666_666_666_668, "25", 25.0),
];

/// The source rounds one 17.5 up and the other down; either is within half a seed.
fn along_the_row() -> Vec<Check> {
    let per_foot = |per_ft2_sown: f64, spacing: &str| {
        per_metre_of_row(per_ft2(per_ft2_sown), metres(spacing)).expect("seeds") * metres("1 ft")
    };
    let row = |(spacing, inches, of_inches, of_35, exact_35, of_30, exact_30): (&str, &str, f64, &str, f64, &str, f64)| {
        // As many inches as hold a single seed, at one seed per ft².
        let length = 12.0 / per_foot(1.0, spacing);
        [
            check("in of row for a ft²", spacing, length).prints(inches).exactly(of_inches),
            check("seeds per foot of row, 35 per ft²", spacing, per_foot(35.0, spacing)).prints(of_35).exactly(exact_35),
            check("seeds per foot of row, 30 per ft²", spacing, per_foot(30.0, spacing)).prints(of_30).exactly(exact_30),
        ]
    };
    ROWS.into_iter().flat_map(row).collect()
}

/// Seeds in a pound, and lb/ac for 35 and 30 seeds per ft².
fn rates() -> Vec<Check> {
    let table = [
        (10_000.0, "150", 152.46, "131", 130.68),
        (12_000.0, "127", 127.05, "109", 108.9),
        (14_000.0, "109", 108.9, "93", 93.342_857_142_857_14),
        (16_000.0, "95", 95.287_5, "82", 81.675),
        (18_000.0, "85", 84.7, "73", 72.6),
        (20_000.0, "76", 76.23, "65", 65.34),
    ];
    let rate = |per_ft2_sown: f64, seeds_per_lb: f64| {
        let seeds_per_ac = per_ft2(per_ft2_sown) / per_ac(1.0);
        lb_per_ac(rate_of_seeds(seeds_per_ac, seeds_per_lb))
    };
    let row = |(seeds, of_35, exact_35, of_30, exact_30)| {
        let inputs = |density: u32| format!("{density} per ft², {seeds} seeds/lb");
        let first = check("lb/ac", inputs(35), rate(35.0, seeds)).prints(of_35).exactly(exact_35);
        let rounded = "the source rounds 152.46 to tens where its other cells are whole pounds";
        [
            if seeds < 11_000.0 { first.differs(rounded) } else { first },
            check("lb/ac", inputs(30), rate(30.0, seeds)).prints(of_30).exactly(exact_30),
        ]
    };
    table.into_iter().flat_map(row).collect()
}
