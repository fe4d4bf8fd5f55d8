//! A rate of barley: germination less losses again, unsaid.
//!
//! North Dakota State University, optimal seeding rates. Its 110 lb/ac is what 95 % less 15 gives; multiplied, the same
//! figures give 109.0.

use sowmark_core::seed::{Establishment, thousand_seed_weight_from_per_lb};

use crate::{
    check::{Seen, Source, check},
    reckon::{lb_per_ac, per_ac, planned},
};

pub(crate) fn source() -> Source {
    let weight = thousand_seed_weight_from_per_lb(12_500.0).expect("a seed weight");
    let rate = |stand: Establishment| lb_per_ac(planned(per_ac(1_100_000.0), weight, stand));
    let subtracted = Establishment::Subtracted { germination_percent: 95.0, loss_percent: 15.0 };
    let multiplied = Establishment::Multiplied { germination_percent: 95.0, emergence_percent: 85.0 };
    Source {
        title: "North Dakota State University, barley",
        address: "https://miv.ext.nodak.edu/ag-hub/ag-topics/crops/barley/optimal-seeding-rates",
        seen: Seen::Read,
        checks: vec![
            check("rate, germination less loss", "1.1 million/ac, 12 500 seeds/lb, 95 % less 15", rate(subtracted))
                .prints("110 lb/ac")
                .exactly(110.0),
            check("rate, germination times emergence", "1.1 million/ac, 12 500 seeds/lb, 95 % x 85 %", rate(multiplied))
                .prints("110 lb/ac")
                .exactly(108.978_328_173_374_6)
                .differs("the page subtracts the loss; multiplied, the stand is 80.75 %, not 80 %"),
        ],
    }
}
