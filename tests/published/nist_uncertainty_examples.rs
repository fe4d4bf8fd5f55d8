//! A mass of a hundred grams, stated in the ways of GUM 7.2.2.
//!
//! NIST Reference on Constants, Units, and Uncertainty, examples of uncertainty statements; the form with nine degrees of
//! freedom as quoted elsewhere (GUM 7.2.4).

use sowmark_core::{quantity::print_number, quantity::significant_digits_for, uncertainty::Component};

use crate::check::{Seen, Source, check};

pub(crate) fn source() -> Source {
    let mass = Component::estimated(0.35, 9.0);
    let inputs = "m = 100.02147 g, u = 0.35 mg";
    Source {
        title: "NIST examples of uncertainty statements",
        address: "https://www.physics.nist.gov/cuu/Uncertainty/examples.html",
        seen: Seen::Read,
        checks: vec![
            check("U with k = 2", inputs, mass.times(2.0).standard_uncertainty).prints("0.70 mg").exactly(0.70),
            check("t at 95 % with 9", inputs, mass.coverage_factor(0.95).expect("t"))
                .prints("2.26")
                .computed(2.262_157_162_798_205, 1e-12, "computed with SciPy"),
            check("U at 95 % with 9", inputs, mass.expanded(0.95).expect("U"))
                .prints("0.79 mg")
                .computed(0.791_755_006_979_371_6, 1e-12, "computed with SciPy"),
        ],
    }
}

/// The mass is printed with the digits that its uncertainty leaves it: "100.02147 g" with 0.35 mg.
#[test]
fn digits_end_where_the_uncertainty_does() {
    let digits = significant_digits_for(100.021_470_12, 100.0 * 0.000_35 / 100.021_47);
    assert_eq!(print_number(100.021_470_12, digits), "100.02147");
}
