//! A rate of sparse barley: germination times emergence.
//!
//! Open data set of agronomy problems, made by machine and checked by rule (low authority, sound arithmetic).

use sowmark_core::seed::{Establishment, seeds_per_m2};

use crate::{
    check::{Seen, Source, check},
    reckon::{kg_per_ha, planned},
};

pub(crate) fn source() -> Source {
    let stand = Establishment::Multiplied { germination_percent: 96.0, emergence_percent: 92.0 };
    Source {
        title: "verified-agronomy-17k",
        address: "https://huggingface.co/datasets/manifesta/verified-agronomy-17k",
        seen: Seen::Read,
        checks: vec![
            check("seeds/ha", "280 000 plants/ha, 96 % x 92 %", 1e4 * seeds_per_m2(28.0, stand).expect("seeds"))
                .prints("317029")
                .exactly(317_028.985_507_246_4),
            check("rate", "18.5 g", kg_per_ha(planned(28.0, 18.5, stand))).prints("5.87 kg/ha").exactly(5.865_036_231_884_058),
        ],
    }
}
