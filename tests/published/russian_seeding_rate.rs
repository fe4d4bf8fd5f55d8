//! What was really sown on one round: `kg/ha = kg x 5000 / (length x width)`, a round being there and back.
//!
//! A page in Russian on the actual seeding rate of grain drills. The page gives the rule; the usage chart's ratio must agree.

use sowmark_core::drift::log_ratio;

use crate::{
    check::{Seen, Source, check},
    reckon::{kg_per_ha, rate},
};

pub(crate) fn source() -> Source {
    let actual = |kg: f64, length: f64, width: f64| {
        let target = rate("90 kg/ha");
        kg_per_ha(target * log_ratio(kg, 2.0 * length * width, target).expect("a job").exp())
    };
    Source {
        title: "a Russian page on the actual seeding rate",
        address: "https://xn----itbachmidudk6msa.xn--p1ai/fakticheskij-vysev-zernovyx-seyalok.html",
        seen: Seen::Read,
        checks: vec![
            check("rate of one round", "43.2 kg, 600 m, 3.6 m", actual(43.2, 600.0, 3.6)).exactly(100.0),
            check("rate of one round", "180 kg, 1000 m, 6 m", actual(180.0, 1_000.0, 6.0)).exactly(150.0),
        ],
    }
}
