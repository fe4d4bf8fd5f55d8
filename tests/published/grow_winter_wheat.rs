//! A rate of winter wheat of which 70 % survive the winter.
//!
//! Growers' page on winter wheat: `lb/ac = plants/ft² x g / 0.70 / 10`.

use crate::{
    check::{Seen, Source, check},
    reckon::{given, lb_per_ac, per_ft2, planned},
};

pub(crate) fn source() -> Source {
    Source {
        title: "winter wheat growers",
        address: "https://growwinterwheat.ca, seed-heavy",
        seen: Seen::Read,
        checks: vec![
            check("constant", "plants/ft² x g / 0.70 over lb/ac", 1.0 / 0.70 / lb_per_ac(planned(per_ft2(1.0), 1.0, given(70.0))))
                .prints_within("10", 0.05, "a constant that rates are made with")
                .exactly(10.413_047_979_797_98)
                .differs("the page divides by 10; its rates read 4.13 % too high"),
            check("rate", "25 plants/ft², 35 g", lb_per_ac(planned(per_ft2(25.0), 35.0, given(70.0))))
                .exactly(120.041_701_759_665_84),
        ],
    }
}
