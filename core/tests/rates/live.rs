//! Pure live seed.

use proptest::prelude::*;
use sowmark_core::{
    figure::{Figure, Impossible},
    seed::{HardSeed, PureLiveSeed},
};

use crate::{HOSTILE, near};

fn lot(purity_percent: f64, germination_percent: f64, hard_seed: HardSeed) -> PureLiveSeed {
    PureLiveSeed { purity_percent, germination_percent, hard_seed }
}

fn figures(lot: PureLiveSeed) -> Vec<Figure> {
    lot.faults().iter().map(Impossible::figure).collect()
}

proptest! {
    #[test]
    fn bulk_and_live_are_two_views_of_one_rate(purity in 1.0..100.0, germination in 1.0..100.0, rate in 0.0001..0.09) {
        let lot = lot(purity, germination, HardSeed::NotStated);
        let bulk = lot.bulk_rate(rate).unwrap();
        prop_assert!(bulk >= rate);
        prop_assert!(bulk > 10.0 || near(lot.live_rate(bulk).unwrap(), rate));
        prop_assert!(near(lot.bulk_per_live().unwrap() * lot.fraction().unwrap(), 1.0));
    }

    #[test]
    fn purity_and_germination_have_the_same_say(purity in 1.0..100.0, germination in 1.0..100.0) {
        let fraction = |purity, germination| lot(purity, germination, HardSeed::NotStated).fraction().unwrap();
        prop_assert!(near(fraction(purity, germination), fraction(germination, purity)));
        prop_assert!(fraction(purity * 0.9, germination) < fraction(purity, germination));
    }

    #[test]
    fn hard_seed_counts_only_where_it_is_counted(purity in 1.0..100.0, germination in 1.0..90.0, hard in 0.1..10.0) {
        let fraction = |hard_seed| lot(purity, germination, hard_seed).fraction().unwrap();
        let none = fraction(HardSeed::NotStated);
        prop_assert_eq!(fraction(HardSeed::LeftOut(hard)), none);
        prop_assert!(near(fraction(HardSeed::Counted(hard)), none * (germination + hard) / germination));
    }
}

#[test]
fn all_is_all_and_more_is_refused() {
    assert_eq!(lot(100.0, 100.0, HardSeed::NotStated).fraction(), Ok(1.0));
    assert_eq!(lot(100.0, 92.0, HardSeed::Counted(8.0)).fraction(), Ok(1.0));
    // 66.6 + 33.4 is a little more than 100 in binary on some labels; that is no fault of the label.
    assert_eq!(lot(100.0, 86.7, HardSeed::Counted(13.3)).live_percent(), Ok(100.0));
    for hard in [HardSeed::Counted(8.1), HardSeed::LeftOut(8.1)] {
        let refused = lot(100.0, 92.0, hard).fraction().unwrap_err();
        assert_eq!(refused.figure(), Figure::HardSeed);
        assert_eq!(
            refused.to_string(),
            "A germination of 92 % and 8.1 % of hard or dormant seed are more than 100 % together. Labels that state hard \
             seed apart leave it out of the germination: give the germination without it."
        );
    }
}

#[test]
fn dead_seed_has_no_rate_and_hard_seed_alone_has_one() {
    let dead = lot(98.0, 0.0, HardSeed::NotStated);
    assert_eq!(dead.bulk_rate(0.01).unwrap_err().figure(), Figure::Germination);
    assert_eq!(figures(dead), [Figure::Germination]);
    assert_eq!(figures(lot(98.0, 0.0, HardSeed::LeftOut(40.0))), [Figure::Germination]);
    let hard = lot(50.0, 0.0, HardSeed::Counted(40.0)).fraction().unwrap();
    assert!(near(hard, 0.2));
}

#[test]
fn every_fault_is_found_at_once() {
    assert_eq!(
        figures(lot(0.0, 101.0, HardSeed::Counted(-1.0))),
        [Figure::Purity, Figure::Germination, Figure::HardSeed]
    );
    assert_eq!(figures(lot(101.0, 95.0, HardSeed::LeftOut(6.0))), [Figure::Purity, Figure::HardSeed]);
    assert_eq!(figures(lot(99.0, 95.0, HardSeed::LeftOut(5.0))), []);
}

#[test]
fn what_is_stated_is_kept() {
    assert_eq!(HardSeed::NotStated.stated(), None);
    assert_eq!(HardSeed::Counted(5.0).stated(), Some(5.0));
    assert_eq!(HardSeed::LeftOut(5.0).stated(), Some(5.0));
}

#[test]
fn hostile_numbers_are_refused() {
    let good = lot(99.0, 90.0, HardSeed::NotStated);
    for bad in HOSTILE {
        assert!(good.bulk_rate(bad).is_err() && good.live_rate(bad).is_err());
        assert!(lot(bad, 90.0, HardSeed::NotStated).fraction().is_err());
        assert!(lot(99.0, bad, HardSeed::NotStated).bulk_per_live().is_err());
        // Nothing stated as hard is no fault.
        assert_eq!(lot(99.0, 90.0, HardSeed::Counted(bad)).fraction().is_ok(), bad == 0.0);
    }
}

/// A figure that cannot be so is named once, not again for what it makes of the others.
#[test]
fn each_fault_of_a_lot_is_named_once() {
    let faults = |germination: f64, hard: f64| figures(lot(98.0, germination, HardSeed::Counted(hard)));
    assert_eq!(faults(120.0, 5.0), [Figure::Germination]);
    assert_eq!(faults(90.0, -5.0), [Figure::HardSeed]);
    assert_eq!(faults(120.0, 120.0), [Figure::Germination, Figure::HardSeed]);
    assert_eq!(faults(96.0, 5.0), [Figure::HardSeed], "more than all together");
    assert_eq!(faults(90.0, 5.0), []);
}

/// What the sum may be off by in binary, to the last digit: a billionth of a percent beyond all is all.
#[test]
fn a_billionth_beyond_all_is_all() {
    assert_eq!(lot(100.0, 100.0, HardSeed::Counted(1e-9)).live_percent(), Ok(100.0));
    assert!(lot(100.0, 100.0, HardSeed::Counted(2e-9)).live_percent().is_err());
}
