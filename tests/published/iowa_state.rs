//! Seeds and pounds of soybean.
//!
//! Iowa State University, Agronomy 212: seeds per acre.

use sowmark_core::seed::{seeds_at, seeds_per_lb, thousand_seed_weight_from_per_lb};

use crate::{
    check::{Seen, Source, check},
    reckon::{lb_per_ac, rate, rate_of_seeds, square_metres},
};

pub(crate) fn source() -> Source {
    let seeds = |seeds_per_lb: f64| {
        let weight = thousand_seed_weight_from_per_lb(seeds_per_lb).expect("a seed weight");
        seeds_at(rate("60 lb/ac"), weight).expect("seeds") * square_metres("1 ac")
    };
    Source {
        title: "Iowa State University, Agronomy 212",
        address: "Agron 212, Calculations/Seed_acre.htm",
        seen: Seen::Read,
        checks: vec![
            check("rate", "150 000 seeds/ac, 2750 seeds/lb", lb_per_ac(rate_of_seeds(150_000.0, 2_750.0)))
                .prints("54.5 lb/ac")
                .exactly(54.545_454_545_454_54),
            check("seeds/ac", "60 lb/ac, 2200 seeds/lb", seeds(2_200.0)).prints("132000").exactly(132_000.0),
            check("seeds/ac", "60 lb/ac, 3000 seeds/lb", seeds(3_000.0)).prints("180000").exactly(180_000.0),
            check("percent more of the smaller seed", "3000 for 2200", 100.0 * (seeds(3_000.0) / seeds(2_200.0) - 1.0))
                .exactly(36.363_636_363_636_36),
            check("seeds/lb back from the seed weight", "2600 seeds/lb", {
                seeds_per_lb(thousand_seed_weight_from_per_lb(2_600.0).expect("a seed weight")).expect("seeds")
            })
            .prints("2600")
            .exactly(2_600.0),
        ],
    }
}
