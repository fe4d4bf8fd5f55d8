//! A rate of flax: germination times what survives, and a constant that is rounded.
//!
//! CropChatter (Manitoba): `lb/ac = plants/ft² x g / stand / 10`. With 10 in place of 10.413 its rates read 4.13 % too high, most of
//! what a tolerance of 5 % allows.

use sowmark_core::seed::Establishment;

use crate::{
    check::{Seen, Source, check},
    reckon::{given, lb_per_ac, per_ft2, planned},
};

pub(crate) fn source() -> Source {
    let stand = Establishment::Multiplied { germination_percent: 88.0, emergence_percent: 60.0 };
    Source {
        title: "CropChatter, Manitoba",
        address: "http://cropchatter.com/tag/seeding-rate/",
        seen: Seen::Read,
        checks: vec![
            check("rate of flax", "45 plants/ft², 5 g, 88 % x 60 %", lb_per_ac(planned(per_ft2(45.0), 5.0, stand)))
                .prints("43 lb/ac")
                .exactly(40.923_307_418_067_9)
                .differs("the page divides by 10 where 10.413 is exact"),
            check("constant", "plants/ft² x g over lb/ac", 1.0 / lb_per_ac(planned(per_ft2(1.0), 1.0, given(100.0))))
                .prints("10")
                .exactly(10.413_047_979_797_98),
        ],
    }
}
