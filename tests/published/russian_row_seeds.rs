//! Seeds on a metre of row.
//!
//! A talk in Russian on row spacing (a weak source, sound arithmetic): a hectare has 66 666 m of rows of 15 cm; 5.4 million
//! seeds are 81 on each metre.

use sowmark_core::seed::{per_m2_of_row, per_metre_of_row};

use crate::{
    check::{Seen, Source, check},
    reckon::{metres},
};

pub(crate) fn source() -> Source {
    Source {
        title: "a Russian talk on row spacing",
        address: "http://gameruns.ru/player.php?video=sKanjPLvfxo",
        seen: Seen::Read,
        checks: vec![
            check("seeds on a metre of row", "5.4 million/ha, 0.15 m", per_metre_of_row(540.0, metres("15 cm")).expect("seeds"))
                .prints("81")
                .exactly(81.0),
            check("m of row in a ha", "0.15 m", 1e4 * per_m2_of_row(1.0, metres("15 cm")).expect("a length"))
                .prints("66666 m")
                .exactly(66_666.666_666_666_67)
                .differs("the talk cuts the last two thirds of a metre"),
        ],
    }
}
