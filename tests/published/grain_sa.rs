//! One tube caught over ten metres: `kg/ha = g / row spacing in m`.
//!
//! Grain SA, Grain Guide 2018, page 37. The page gives the rule; the numbers put into it are ours.

use crate::{
    check::{Seen, Source, check},
    reckon::{kg_per_ha, rate_caught},
};

pub(crate) fn source() -> Source {
    let by_the_rule = |grams: f64, spacing_m: f64| grams / spacing_m;
    let case = |net: &str, grams: f64, spacing: &str, spacing_m: f64| {
        let found = kg_per_ha(rate_caught(net, 1, spacing, "10 m"));
        check("rate of one tube over 10 m", format!("{net}, {spacing}"), found).exactly(by_the_rule(grams, spacing_m))
    };
    Source {
        title: "Grain SA, Grain Guide 2018",
        address: "https://grainsa.co.za/grainguide2018/39",
        seen: Seen::Read,
        checks: vec![case("10 g", 10.0, "0.50 m", 0.50), case("27.5 g", 27.5, "0.30 m", 0.30), case("9 g", 9.0, "0.9 m", 0.9)],
    }
}
