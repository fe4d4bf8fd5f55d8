//! From plants counted along a metre of row to plants per square metre.
//!
//! Western Australia, Department of Primary Industries and Regional Development: "How many wheat plants do you need?" Its
//! factors have one decimal, and two of the five are not the nearest one.

use sowmark_core::seed::per_m2_of_row;

use crate::{
    check::{Seen, Source, check},
    reckon::{metres},
};

pub(crate) fn source() -> Source {
    let factor = |spacing: &str| per_m2_of_row(1.0, metres(spacing)).expect("plants");
    Source {
        title: "Western Australia DPIRD, wheat plants",
        address: "https://www.agric.wa.gov.au/wheat/how-many-wheat-plants-do-you-need",
        seen: Seen::Read,
        checks: vec![
            check("plants/m² for one a metre", "18 cm", factor("18 cm")).prints("5.6").exactly(5.555_555_555_555_555),
            check("plants/m² for one a metre", "23 cm", factor("23 cm"))
                .prints("4.4")
                .exactly(4.347_826_086_956_521_5)
                .differs("100 / 23 is 4.348, nearer to 4.3"),
            check("plants/m² for one a metre", "25 cm", factor("25 cm")).prints("4").exactly(4.0),
            check("plants/m² for one a metre", "30 cm", factor("30 cm")).prints("3.3").exactly(3.333_333_333_333_333_5),
            check("plants/m² for one a metre", "35 cm", factor("35 cm"))
                .prints("2.8")
                .exactly(2.857_142_857_142_857)
                .differs("100 / 35 is 2.857; the page cuts it"),
            check("plants/m² of nine a metre", "18 cm", 9.0 * factor("18 cm"))
                .prints("50.4")
                .exactly(50.0)
                .differs("the page multiplies by the rounded 5.6"),
        ],
    }
}
