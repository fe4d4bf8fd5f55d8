//! A weighing with repeatability, drift and readability: the nearest published kin of a catch on a scale.
//!
//! University of Tartu, a teaching file for a budget calculator.

use sowmark_core::uncertainty::{Component, combine};

use crate::check::{Seen, Source, check};

pub(crate) fn source() -> Source {
    let mass = combine(&[
        Component::estimated(0.000_17, 15.0),
        Component::rectangular(0.000_2),
        Component::rectangular(0.000_05),
    ]);
    let inputs = "0.3240 g; 0.00017 g of 16, drift 0.0002 g, readability 0.00005 g";
    Source {
        title: "University of Tartu, weighing",
        address: "http://www.ut.ee/katsekoda/GUM_examples/weighing.smu",
        seen: Seen::Read,
        checks: vec![
            check("u", inputs, mass.standard_uncertainty)
                .certified("0.000207525098883645", 1e-14, "doubles hold no more")
                .computed(0.000_207_525_098_883_645_1, 1e-13, "computed with GTC"),
            check("effective degrees of freedom, cut", inputs, mass.degrees_of_freedom.expect("finite").floor())
                .prints("33")
                .exactly(33.0),
            check("effective degrees of freedom", inputs, mass.degrees_of_freedom.expect("finite"))
                .computed(33.310_265_282_583_62, 1e-12, "computed with GTC"),
        ],
    }
}
