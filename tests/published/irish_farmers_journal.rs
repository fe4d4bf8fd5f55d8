//! A rate of spring barley, in kilograms and in stones.
//!
//! Irish Farmers Journal, "Calibrating the seed drill is an essential job".

use crate::{
    check::{Seen, Source, check},
    reckon::{given, kg_per_ha, lb_per_ac, planned},
};

pub(crate) fn source() -> Source {
    let rate = planned(280.0, 53.0, given(85.0));
    Source {
        title: "Irish Farmers Journal",
        address: "https://www.farmersjournal.ie/calibrating-the-seed-drill-is-an-essential-job-752098",
        seen: Seen::Read,
        checks: vec![
            check("rate", "280 plants/m², 53 g, 85 %", kg_per_ha(rate)).prints("175 kg/ha").exactly(174.588_235_294_117_65),
            check("rate in stones of 14 lb", "280 plants/m², 53 g, 85 %", lb_per_ac(rate) / 14.0)
                .prints("11.1 st/ac")
                .exactly(11.125_998_457_845_727),
        ],
    }
}
