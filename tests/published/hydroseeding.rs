//! What a pound of pure live seed costs.
//!
//! hydroseeding.org, "Live seeds": germination 96 %, purity 75 %, 2.50 $ a pound.

use crate::{
    check::{Seen, Source, check},
    reckon::{lot},
};

pub(crate) fn source() -> Source {
    let lot = lot(75.0, 96.0);
    Source {
        title: "hydroseeding.org",
        address: "https://hydroseeding.org/live-seeds/",
        seen: Seen::Read,
        checks: vec![
            check("pure live seed", "96 %, 75 %", 100.0 * lot.fraction().expect("live")).prints("72 %").exactly(72.0),
            check("price of a pound of it", "2.50 $/lb", 2.50 * lot.bulk_per_live().expect("live"))
                .prints("3.47 $/lb")
                .exactly(3.472_222_222_222_222_3),
        ],
    }
}
