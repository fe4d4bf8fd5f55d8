//! Pure live seed, with dormant seed counted.
//!
//! Allamakee Soil and Water Conservation District (Iowa): "Calculate seeding rates in pure live seed".

use sowmark_core::seed::HardSeed;

use crate::{
    check::{Seen, Source, check},
    reckon::{lb_per_ac, lot, rate},
};

pub(crate) fn source() -> Source {
    let grass = sowmark_core::seed::PureLiveSeed { hard_seed: HardSeed::Counted(5.0), ..lot(98.75, 88.0) };
    let milkweed = lot(95.0, 85.0);
    Source {
        title: "Allamakee SWCD, Iowa",
        address: "http://allamakeeswcd.org/calculate-seeding-rates-in-pure-live-seed/",
        seen: Seen::Read,
        checks: vec![
            check("pure live seed", "purity 98.75 %, germination 88 % and dormant 5 %", 100.0 * grass.fraction().expect("live"))
                .prints("91.83 %")
                .exactly(91.837_5)
                .differs("the page cuts 91.8375"),
            check("live seed, percent", "88 and 5 dormant", grass.live_percent().expect("live")).prints("93 %").exactly(93.0),
            check("live seed in 55 lb/ac", "91.8375 %", lb_per_ac(grass.live_rate(rate("55 lb/ac")).expect("a rate")))
                .prints("45.9 lb")
                .exactly(50.510_625)
                .differs("a slip of the page: 45.9 is the answer for 50 lb"),
            check("live seed in 50 lb/ac", "91.8375 %", lb_per_ac(grass.live_rate(rate("50 lb/ac")).expect("a rate")))
                .prints("45.9 lb")
                .exactly(45.918_75),
            check("pure live seed", "TZ 85 %, purity 95 %", 100.0 * milkweed.fraction().expect("live"))
                .prints("80.75 %")
                .exactly(80.75),
            check("rate from the bag", "0.12 PLS lb/ac", lb_per_ac(milkweed.bulk_rate(rate("0.12 lb/ac")).expect("a rate")))
                .prints("0.15 lb/ac")
                .exactly(0.148_606_811_145_510_83),
        ],
    }
}

/// US labels state dormant seed apart (7 CFR 201.21): left out, the same lot has five points less.
#[test]
fn dormant_seed_counts_only_where_it_is_said_to() {
    let left_out = sowmark_core::seed::PureLiveSeed { hard_seed: HardSeed::LeftOut(5.0), ..lot(98.75, 88.0) };
    assert_eq!(left_out.live_percent(), Ok(88.0));
}
