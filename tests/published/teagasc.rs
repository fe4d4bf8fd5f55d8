//! Spring cereals in Ireland: germination less losses.
//!
//! Teagasc, spring cereals sowing page. It takes 10 points off 95 %; taking 10 % of it would expect 85.5 % and sow 1 kg/ha less, so
//! the convention is part of every answer.

use sowmark_core::seed::Establishment;

use crate::{
    check::{Seen, Source, check},
    reckon::{kg_per_ha, planned},
};

pub(crate) fn source() -> Source {
    let subtracted = Establishment::Subtracted { germination_percent: 95.0, loss_percent: 10.0 };
    let multiplied = Establishment::Multiplied { germination_percent: 95.0, emergence_percent: 90.0 };
    Source {
        title: "Teagasc, spring cereals",
        address: "https://www.teagasc.ie/crops/crops/cereal-crops/spring-cereals/sowing/",
        seen: Seen::Read,
        checks: vec![
            check("rate, germination less loss", "280 plants/m², 50.9 g, 95 % less 10", kg_per_ha(planned(280.0, 50.9, subtracted)))
                .prints("168 kg/ha")
                .exactly(167.670_588_235_294_1),
            check("rate, germination times emergence", "280 plants/m², 50.9 g, 95 % x 90 %", {
                kg_per_ha(planned(280.0, 50.9, multiplied))
            })
            .prints("168 kg/ha")
            .exactly(166.690_058_479_532_15)
            .differs("the page subtracts the loss; multiplied, the stand is 85.5 %"),
            check("expected stand, germination less loss", "95 % less 10", subtracted.percent().expect("a share"))
                .prints("85 %")
                .exactly(85.0),
        ],
    }
}
