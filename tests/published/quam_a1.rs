//! A calibration standard: mass times purity over volume.
//!
//! EURACHEM/CITAC Guide, Quantifying Uncertainty in Analytical Measurement (2012), example A1: `c = 1000 m P / V`. Inputs as read
//! in the GTC project's documentation; exact results computed with GTC 1.5.1 and metrolopy 1.1.1, which agree.

use sowmark_core::uncertainty::{Component, combine};

use crate::check::{Seen, Source, check};

pub(crate) fn source() -> Source {
    let volume = combine(&[Component::triangular(0.1), Component::known(0.02), Component::rectangular(0.084)]);
    let of = |mass: f64, purity: Component, volume: Component| {
        let parts = [Component::known(mass / 100.28), purity.times(1.0 / 0.9999), volume.times(1.0 / 100.0)];
        combine(&parts).times(1_002.699_72)
    };
    let concentration = of(0.05, Component::rectangular(0.0001), volume);
    let rounded = of(0.05, Component::known(0.000_058), Component::known(0.07));
    let inputs = "m 100.28 mg, P 0.9999, V 100 mL";
    let by = "computed with GTC and metrolopy";
    Source {
        title: "EURACHEM/CITAC QUAM, example A1",
        address: "http://www.citac.cc/QUAM2012_P1.pdf",
        seen: Seen::Quoted,
        checks: vec![
            check("u of the volume", inputs, volume.standard_uncertainty)
                .prints("0.07 mL")
                .computed(0.066_473_052_184_074_32, 1e-13, by),
            check("u of the concentration", inputs, concentration.standard_uncertainty)
                .prints("0.9 mg/L")
                .computed(0.835_199_226_768_439_4, 1e-12, by)
                .differs("the guide computes on with 0.07 mL; unrounded it is 0.84"),
            check("u with the guide's rounded inputs", "0.07 mL, 0.000058", rounded.standard_uncertainty)
                .prints("0.9 mg/L")
                .computed(0.863_702_590_150_636_7, 1e-12, by),
            check("U with k = 2", inputs, concentration.times(2.0).standard_uncertainty)
                .computed(1.670_398_453_536_878_8, 1e-12, by),
        ],
    }
}
