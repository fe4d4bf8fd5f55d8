//! Turns of the drive wheel for a twenty-fifth of a hectare: `N = 400 / (pi D W)`, `kg/ha = 25 x kg caught`.
//!
//! Lecture 22/29 on seed drill calibration, Indian agricultural engineering course (slides). The slides give the rule.

use std::f64::consts::PI;

use sowmark_core::rate::{GroundDrive, Metering};

use crate::{
    check::{Seen, Source, check},
    reckon::{kg_per_ha, turns_for},
};

pub(crate) fn source() -> Source {
    let (diameter, width) = (0.60, 2.25);
    let turns = turns_for(400.0, width, PI * diameter);
    let caught_kg = 4.0;
    let metering = Metering { factor: caught_kg / turns / 9.0, runs_in_use: 9, working_width_m: width };
    let wheel = GroundDrive { ratio: 1.0, rolling_circumference_m: PI * diameter };
    Source {
        title: "an Indian lecture on seed drills",
        address: "https://www.scribd.com/presentation/739498931/Lecture-22-29-Seed-Drill-Calibration",
        seen: Seen::Read,
        checks: vec![
            check("turns for 400 m²", "D 0.60 m, W 2.25 m", turns).exactly(94.314_040_350_752_79),
            check("rate of 4 kg caught on them", "25 x kg", kg_per_ha(metering.ground_rate(wheel).expect("a rate")))
                .prints("100 kg/ha")
                .exactly(100.0),
        ],
    }
}
