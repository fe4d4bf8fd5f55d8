//! Five runs over 100 ft, and rates for canola.
//!
//! Canola Council of Canada: Canola Watch, "Calibrate the drill between seed lots" (17 May 2010, repeated 9 May 2012), and its
//! quiz of 11 May 2022 (https://www.canolacouncil.org/canola-watch/2022/05/11/quiz-seeding-delays/). Its rate formula is
//! `lb/ac = plants/ft² x g x 9.6 / %`; exact is 9.60334.

use crate::{
    check::{Seen, Source, check},
    reckon::{given, kg_per_ha, lb_per_ac, per_ft2, planned, rate_caught},
};

pub(crate) fn source() -> Source {
    let caught = rate_caught("18.75 g", 5, "9 in", "100 ft");
    // lb/ac = g / runs / inches x constant
    let constant = lb_per_ac(caught) / 18.75 * 5.0 * 9.0;
    let canola = |plants: f64, weight: f64, percent: f64| lb_per_ac(planned(per_ft2(plants), weight, given(percent)));
    let shortcut = "the page multiplies by 12 where 11.524 is exact: its rates read 4.13 % too high";
    Source {
        title: "Canola Council of Canada, Canola Watch",
        address: "https://www.canolawatch.org/2010/05/17/calibrate-the-drill-between-seed-lots/",
        seen: Seen::Read,
        checks: vec![
            check("rate of 18.75 g", "5 runs, 9 in, 100 ft", lb_per_ac(caught))
                .prints("5.0 lb/ac")
                .exactly(4.801_668_070_386_634)
                .differs(shortcut),
            check("rate of 18.75 g", "5 runs, 9 in, 100 ft", kg_per_ha(caught)).exactly(5.381_955_208_354_861),
            check("constant for 100 ft", "lb/ac for g a run and in", constant)
                .prints("12")
                .exactly(11.524_003_368_927_922),
            check("the page's way, 12 in place of 11.524", "18.75 g", lb_per_ac(caught) / constant * 12.0)
                .prints("5.0 lb/ac")
                .exactly(5.0),
            check("rate", "10 plants/ft², 4 g, 50 %", canola(10.0, 4.0, 50.0))
                .prints("7.7 lb/ac")
                .exactly(7.682_668_912_618_614),
            check("rate", "6 plants/ft², 6 g, 50 %", canola(6.0, 6.0, 50.0))
                .prints("6.9 lb/ac")
                .exactly(6.914_402_021_356_753),
            check("rate", "6 plants/ft², 6 g, 80 %", canola(6.0, 6.0, 80.0)).exactly(4.321_501_263_347_971),
        ],
    }
}
