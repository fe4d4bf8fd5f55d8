//! One run caught over 50 m, on the flat and on beds of two rows.
//!
//! A leaflet in Spanish on calibrating a seeder of small grains. It wants 120 kg/ha and weighs each run's bag; its results
//! are cut off in the copy read, so what is held is that those bags give the rate that it wants.

use crate::{
    check::{Seen, Source, check},
    reckon::{kg_per_ha, rate_caught},
};

pub(crate) fn source() -> Source {
    Source {
        title: "a Spanish leaflet on small grain seeders",
        address: "https://tr.scribd.com/document/378521377/Calibracion-de-Una-Sembradora-de-Granos-Pequenos",
        seen: Seen::Read,
        checks: vec![
            check("rate of 120 g", "0.2 m, 50 m", kg_per_ha(rate_caught("120 g", 1, "0.2 m", "50 m")))
                .prints("120 kg/ha")
                .exactly(120.0),
            check("rate of 240 g a row", "bed of 0.80 m with 2 rows", kg_per_ha(rate_caught("240 g", 1, "0.40 m", "50 m")))
                .prints("120 kg/ha")
                .exactly(120.0),
        ],
    }
}
