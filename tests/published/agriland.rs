//! A rate of spring barley.
//!
//! Agriland UK, "Getting the right seed rate in your spring cereals".

use crate::{
    check::{Seen, Source, check},
    reckon::{given, kg_per_ha, planned},
};

pub(crate) fn source() -> Source {
    Source {
        title: "Agriland UK",
        address: "https://www.agriland.co.uk/farming-news/getting-the-right-seed-rate-in-your-spring-cereals/",
        seen: Seen::Read,
        checks: vec![
            check("rate", "300 plants/m², 50 g, 85 %", kg_per_ha(planned(300.0, 50.0, given(85.0))))
                .prints("176 kg/ha")
                .exactly(176.470_588_235_294_13),
        ],
    }
}
