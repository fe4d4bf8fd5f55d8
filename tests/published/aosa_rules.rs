//! Eight replicates of a hundred seeds: which divisor a seed laboratory's standard deviation has.
//!
//! AOSA Rules, appendix 4 tutorial (workshop of July 2001): `variance = (n sum(x²) - (sum x)²) / (n (n - 1))`. The printed
//! result is cut off in the copy read; the exact ones follow from data and formula.

use sowmark_core::statistics::{coefficient_of_variation, mean, standard_deviation};

use crate::check::{Seen, Source, check};

const GRAMS: [f64; 8] = [0.2224, 0.2134, 0.2130, 0.2116, 0.2145, 0.2071, 0.2116, 0.2125];

pub(crate) fn source() -> Source {
    let inputs = "8 replicates, g per 100 seeds";
    let deviation = standard_deviation(&GRAMS).expect("eight");
    Source {
        title: "AOSA Rules, appendix 4",
        address: "http://www.frsa.org/SAfacts/App4tutorial.html",
        seen: Seen::Read,
        checks: vec![
            check("mean", inputs, mean(&GRAMS).expect("eight")).exactly(0.213_262_5),
            check("variance", inputs, deviation * deviation).exactly(1.845_696_428_571_428_7e-5),
            check("standard deviation, n - 1", inputs, deviation).exactly(0.004_296_156_920_517_951),
            check("CV, n - 1", inputs, 100.0 * coefficient_of_variation(&GRAMS).expect("eight"))
                .exactly(2.014_492_430_932_747_7),
            check("g per thousand seeds", inputs, 10.0 * mean(&GRAMS).expect("eight")).exactly(2.132_625),
        ],
    }
}
