//! Grams of one run over 150 ft for each pound an acre, at four row spacings.
//!
//! No-Till Farmer, "5 easy steps to calibrating your no-till drill"; it credits the factors to the University of Kentucky.

use crate::{
    check::{Seen, Source, check},
    reckon::{lb_per_ac, rate_caught},
};

pub(crate) fn source() -> Source {
    let table = [
        ("6 in", "0.78", 0.780_978_598_484_848_5),
        ("7 in", "0.91", 0.911_141_698_232_323_3),
        ("7.5 in", "0.98", 0.976_223_248_106_060_6),
        ("8 in", "1.04", 1.041_304_797_979_798),
    ];
    let factor = |spacing: &str| 1.0 / lb_per_ac(rate_caught("1 g", 1, spacing, "150 ft"));
    Source {
        title: "No-Till Farmer, five easy steps",
        address: "https://www.no-tillfarmer.com/articles/10564-5-easy-steps-to-calibrating-your-no-till-drill",
        seen: Seen::Read,
        checks: table
            .map(|(spacing, printed, exact)| {
                check("g a run for a lb/ac, 150 ft", spacing, factor(spacing)).prints(printed).exactly(exact)
            })
            .into(),
    }
}
