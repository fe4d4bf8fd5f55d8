//! Rates of two lots of wheat, one stand: germination less losses.
//!
//! Manitoba Crop Alliance. Its inputs were read, its results are cut off in the copy; exact ones stand for them.

use sowmark_core::seed::Establishment;

use crate::{
    check::{Seen, Source, check},
    reckon::{lb_per_ac, per_ft2, planned},
};

pub(crate) fn source() -> Source {
    let stand = Establishment::Subtracted { germination_percent: 97.0, loss_percent: 6.0 };
    let rate = |weight: f64| lb_per_ac(planned(per_ft2(27.0), weight, stand));
    Source {
        title: "Manitoba Crop Alliance",
        address: "https://mbcropalliance.ca/author/mbcrop_andrew/",
        seen: Seen::Read,
        checks: vec![
            check("expected stand", "97 % less 6", stand.percent().expect("a share")).prints("91 %").exactly(91.0),
            check("rate of the heavy lot", "27 plants/ft², 42 g", rate(42.0)).exactly(119.672_342_677_328_42),
            check("rate of the light lot", "27 plants/ft², 33 g", rate(33.0)).exactly(94.028_269_246_472_32),
        ],
    }
}
