//! A target stand told per square yard and per square metre.
//!
//! University of Kentucky, AEN-81.

use sowmark_core::seed::per_m2_of_row;

use crate::{
    check::{Seen, Source, check},
    reckon::{metres},
};

pub(crate) fn source() -> Source {
    let yard = metres("3 ft");
    Source {
        title: "University of Kentucky, AEN-81",
        address: "http://www.ca.uky.edu/agc/pubs/aen/aen81/aen81.htm",
        seen: Seen::Read,
        checks: vec![
            // A row a yard wide: 375 plants on each yard of it.
            check("plants/m²", "375 plants/yd²", per_m2_of_row(375.0 / yard, yard).expect("plants"))
                .prints("450")
                .exactly(448.496_267_362_905_1)
                .differs("the page rounds to tens; a square yard is 0.83613 m²"),
        ],
    }
}
