//! The ways in which revolutions are counted: whichever it was, the same turning is the same number, and it is known in the
//! steps of what was counted.

use proptest::prelude::*;
use sowmark_core::{
    catch::Revolutions,
    quantity::{Decimal, Length},
};

/// To a millionth, as it is entered.
fn decimal(value: f64) -> Decimal {
    Decimal::parse(&format!("{value:.6}")).expect("a decimal")
}

fn metres(value: f64) -> Length {
    Length::parse_text(&format!("{value:.6} m")).expect("a length")
}

fn driven(distance: f64, around: f64, slip_percent: Option<f64>) -> Revolutions {
    Revolutions::Distance {
        distance: metres(distance),
        circumference: metres(around),
        slip_percent: slip_percent.map(decimal),
    }
}

/// What is entered ends at the sixth decimal, so that a short way may be off by some hundred-thousandths of itself.
fn near(found: f64, expected: f64) -> bool {
    (found / expected - 1.0).abs() < 1e-4
}

proptest! {
    /// A roller that turned so often: counted on itself, by a sensor, at the crank and along the way of a wheel are one number.
    #[test]
    fn every_way_counts_the_same_turning(
        turned in 1.0..500.0,
        per_rev in 1.0..400.0,
        ratio in 0.1..10.0,
        around in 0.5..5.0,
        slip in -50.0..90.0,
    ) {
        let wheel = turned / ratio;
        let pulses = Revolutions::Pulses { pulses: decimal(turned * per_rev), pulses_per_rev: decimal(per_rev) };
        let slipping = wheel * around / (1.0 - slip / 100.0);
        let ways = [
            Revolutions::Counted(decimal(turned)),
            pulses,
            Revolutions::Turns { turns: decimal(wheel) },
            driven(wheel * around, around, None),
            driven(wheel * around, around, Some(0.0)),
            driven(slipping, around, Some(slip)),
        ];
        for way in &ways {
            prop_assert!(near(way.count(ratio), turned), "{way:?}: {} for {turned}", way.count(ratio));
        }
        // The ratio lies between crank or wheel and roller; what is counted on the roller knows nothing of it.
        for (way, share) in ways.iter().zip([1.0, 1.0, 2.0, 2.0, 2.0, 2.0]) {
            prop_assert!(near(way.count(2.0 * ratio), share * turned), "{way:?}");
        }
    }

    /// A step is what one more of the counted would have added: a pulse, a quarter turn of the crank, a tenth of a metre.
    #[test]
    fn a_step_is_one_more_of_what_is_counted(
        counted in 1.0..500.0,
        per_rev in 1.0..400.0,
        ratio in 0.1..10.0,
        around in 0.5..5.0,
        slip in -50.0..90.0,
    ) {
        let pulses = |more: f64| Revolutions::Pulses { pulses: decimal(counted + more), pulses_per_rev: decimal(per_rev) };
        let turns = |more: f64| Revolutions::Turns { turns: decimal(counted + more) };
        let way = |more: f64| driven(counted + more, around, Some(slip));
        for (here, further) in [(pulses(0.0), pulses(1.0)), (turns(0.0), turns(0.25)), (way(0.0), way(0.1))] {
            let added = further.count(ratio) - here.count(ratio);
            // Of two counts that are nearly alike, six decimals leave four digits of the difference.
            prop_assert!((here.step(ratio) / added - 1.0).abs() < 1e-4, "{here:?}: {} and {added}", here.step(ratio));
        }
    }
}

/// One unit of the last place that was written down: "60" may be 59.5 to 60.5, "60.0" a tenth of that.
#[test]
fn what_is_counted_on_the_roller_has_the_step_of_its_last_digit() {
    for (text, step) in [("60", 1.0), ("60.0", 0.1), ("60.00", 0.01), ("0.5", 0.1), ("600", 1.0)] {
        let counted = Revolutions::Counted(Decimal::parse(text).expect("a decimal"));
        assert!((counted.step(3.0) / step - 1.0).abs() < 1e-12, "{text}");
    }
}

#[test]
fn nothing_counted_is_no_turning() {
    let nothing = Revolutions::Pulses { pulses: decimal(10.0), pulses_per_rev: decimal(0.0) };
    assert!(!nothing.count(1.0).is_finite());
    assert!(!driven(10.0, 0.0, None).count(1.0).is_finite());
    // A slip beyond all bounds is a fault of the sheet and moves no number meanwhile.
    assert!(near(driven(10.0, 2.0, Some(100.0)).count(1.0), 5.0));
}
