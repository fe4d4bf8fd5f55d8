//! Pure live seed of a mixture.
//!
//! Texas A&M AgriLife, turf seed sheet: 30, 32 and 27 % of three kinds, germination 90 %. It prints the purity; what is alive of
//! it follows.

use crate::{
    check::{Seen, Source, check},
    reckon::{lot},
};

pub(crate) fn source() -> Source {
    Source {
        title: "Texas A&M AgriLife, turf seed sheet",
        address: "https://aggieturf.tamu.edu/aggieturf2/calculators/seedsheet.html",
        seen: Seen::Read,
        checks: vec![
            check("pure live seed", "30 + 32 + 27 % pure, 90 %", 100.0 * lot(89.0, 90.0).fraction().expect("live")).exactly(80.1),
        ],
    }
}
