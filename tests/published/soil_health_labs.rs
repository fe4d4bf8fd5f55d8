//! A wheel of 8 ft turned twenty times over one row of 7.5 in: how much must fall for 25 lb/ac?
//!
//! Soil Health Labs (University of South Carolina), grain drill calibration, parts 2, 4 and 5.

use crate::{
    check::{Seen, Source, check},
    reckon::{lb_per_ac, rate_caught, square_metres, turns_for},
};

pub(crate) fn source() -> Source {
    // The rate grows with the catch, so the catch for a rate is the rate over that of one gram.
    let of_one_gram = lb_per_ac(rate_caught("1 g", 1, "7.5 in", "160 ft"));
    let foot = 0.3048;
    Source {
        title: "Soil Health Labs, grain drill",
        address: "https://soilhealthlabs.com/post/how-to-calibrate-a-grain-drill-getting-the-right-calculations-for-planting",
        seen: Seen::Read,
        checks: vec![
            check("turns for 100 ft²", "8 ft, 7.5 in", turns_for(100.0 * foot * foot, 7.5 * 0.0254, 8.0 * foot))
                .prints("20 turns")
                .exactly(20.0),
            check("g for 25 lb/ac", "20 turns of 8 ft, 7.5 in", 25.0 / of_one_gram).exactly(26.032_619_949_494_95),
            // The page's own way, with its 454 g to the pound and 43 560 ft² to the acre.
            check("ft² in an acre", "1 ac", square_metres("1 ac") / (foot * foot)).prints("43560 ft²").exactly(43_560.0),
            check("g in a pound", "1 lb", 1_000.0 * sowmark_core::quantity::unit::LB.in_si())
                .prints("454 g")
                .exactly(453.592_37),
        ],
    }
}
