//! Turns of the wheel in 100 ft: `100 / (3.14 x diameter in ft)`.
//!
//! University of Maryland Extension, "Calibrating your grain drill". The page gives the rule, with 3.14 for pi.

use std::f64::consts::PI;

use crate::{
    check::{Seen, Source, check},
    reckon::turns_over,
};

pub(crate) fn source() -> Source {
    let page_pi: f64 = "3.14".parse().expect("a number");
    let turns = |pi: f64| turns_over("100 ft", pi * 2.5 * 0.3048);
    Source {
        title: "University of Maryland Extension, grain drill",
        address: "https://blog.umd.edu/agronomynews/2019/05/03/calibrating-your-grain-drill",
        seen: Seen::Read,
        checks: vec![
            check("turns in 100 ft, with 3.14", "wheel of 2.5 ft", turns(page_pi)).exactly(12.738_853_503_184_714),
            check("turns in 100 ft, with pi", "wheel of 2.5 ft", turns(PI)).exactly(12.732_395_447_351_627),
        ],
    }
}
