//! Pure live seed along roads.
//!
//! Texas Department of Transportation, "Pure live seed": Bermuda grass, purity 85 %, germination 75 %.

use crate::{
    check::{Seen, Source, check},
    reckon::{lot},
};

pub(crate) fn source() -> Source {
    let lot = lot(85.0, 75.0);
    Source {
        title: "Texas Department of Transportation, pure live seed",
        address: "https://www.txdot.gov/about/campaigns-outreach/bluebonnets-wildflowers/pure-live-seed.html",
        seen: Seen::Read,
        checks: vec![
            check("pure live seed", "85 %, 75 %", lot.fraction().expect("live")).prints("0.64").exactly(0.637_5),
            check("lb from the bag for a lb of it", "85 %, 75 %", lot.bulk_per_live().expect("live"))
                .prints("1.56 lb")
                .exactly(1.568_627_450_980_392_1)
                .differs("the page divides by the rounded 0.64"),
        ],
    }
}
