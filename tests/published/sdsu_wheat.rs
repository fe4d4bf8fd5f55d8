//! Pure live seeds to bushels.
//!
//! South Dakota State University, research note on spring wheat seeding rates: 1.2 million pure live seeds an acre of seed that is
//! 95 % viable and 99 % pure, 16 000 seeds to the pound, 60 lb to the bushel.

use sowmark_core::{quantity::unit, seed::bushels_per_m2};

use crate::{
    check::{Seen, Source, check},
    reckon::{lot, per_ac, per_ft2, rate_of_seeds, square_metres},
};

pub(crate) fn source() -> Source {
    let lot = lot(99.0, 95.0);
    let sown = lot.bulk_rate(rate_of_seeds(1.2e6, 16_000.0)).expect("a rate");
    let bushels = bushels_per_m2(sown, 60.0 * unit::LB_PER_BU.in_si()).expect("bushels");
    Source {
        title: "South Dakota State University, spring wheat",
        address: "http://www.agprofessional.com/news/New-SDSU-research-on-spring-wheat-seeding-rates--254253241.html",
        seen: Seen::Read,
        checks: vec![
            check("pure live seed", "95 %, 99 %", 100.0 * lot.fraction().expect("live")).exactly(94.05),
            check("million seeds/ac", "1.2 million live", 1.2 * lot.bulk_per_live().expect("live"))
                .prints("1.3")
                .exactly(1.275_917_065_390_749_6),
            check("live seeds per ft²", "1.2 million/ac", per_ac(1.2e6) / per_ft2(1.0)).prints("28").exactly(27.548_209_366_391_184),
            check("bushels/ac", "60 lb/bu", bushels * square_metres("1 ac")).prints("1.3 bu/ac").exactly(1.329_080_276_448_697_5),
        ],
    }
}
