//! How little the CV of a few readings says: Vangel's modified McKay interval.
//!
//! The formula as coded in a public forum of biostatisticians, and described beside five others in the manual of NIST's
//! Dataplot (https://itl.nist.gov/div898/software/dataplot/refman1/auxillar/coefvacl.htm). Results computed with SciPy 1.17.1.

use sowmark_core::statistics::{chi_squared_quantile, coefficient_of_variation, coefficient_of_variation_interval};

use crate::check::{Seen, Source, check};

pub(crate) fn source() -> Source {
    let strengths = [326.0, 302.0, 307.0, 299.0, 329.0];
    let seen = coefficient_of_variation(&strengths).expect("five");
    let (low, high) = coefficient_of_variation_interval(seen, 5, 0.95).expect("an interval");
    let (low_of_four, high_of_four) =
        coefficient_of_variation_interval(0.008_670_012_835_223_246, 4, 0.95).expect("an interval");
    let chi = |p, degrees| chi_squared_quantile(p, degrees).expect("a quantile");
    let by = "computed with SciPy";
    let five = "326 302 307 299 329";
    Source {
        title: "modified McKay interval of a CV",
        address: "https://forum.bebac.at/mix_entry.php?id=18574&view=mix",
        seen: Seen::Quoted,
        checks: vec![
            check("CV", five, seen).exactly(0.044_591_022_038_906_77),
            check("lower end", five, low).computed(0.026_700_444_660_6, 1e-10, by),
            check("upper end", five, high).computed(0.128_667_308_007, 1e-10, by),
            check("lower end", "0.867 % of four", low_of_four).computed(0.004_911_362_816, 1e-9, by),
            check("upper end", "0.867 % of four", high_of_four).computed(0.032_334_089_499, 1e-9, by),
            check("chi-squared", "0.95, 2", chi(0.95, 2.0)).prints("5.991").computed(5.991_464_547_107_98, 1e-12, by),
            check("chi-squared", "0.95, 3", chi(0.95, 3.0)).prints("7.815").computed(7.814_727_903_251_18, 1e-12, by),
        ],
    }
}
