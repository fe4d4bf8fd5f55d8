//! The next setting by proportion.

use proptest::prelude::*;
use sowmark_core::{
    figure::Figure,
    rate::{FAR_PERCENT, NextSetting, next_setting},
    words::{DecimalSign, Words},
};

use crate::{HOSTILE, near};

proptest! {
    #[test]
    fn a_proportion_goes_there_and_back(old in 0.1..1_000.0, measured in 0.1..500.0, wanted in 0.1..500.0) {
        let there = next_setting(old, measured, wanted).unwrap();
        let back = next_setting(there.setting, wanted, measured).unwrap();
        prop_assert!(near(back.setting, old));
        prop_assert!(near(there.setting, old * (1.0 + there.change_percent / 100.0)));
        prop_assert!(there.needs_new_catch);
        prop_assert_eq!(there.setting > old, wanted > measured);
    }

    #[test]
    fn the_unit_of_what_was_measured_does_not_matter(
        old in 0.1..1_000.0, measured in 0.1..500.0, wanted in 0.1..500.0, unit in 0.001..1_000.0
    ) {
        let (one, other) = (next_setting(old, measured, wanted), next_setting(old, measured * unit, wanted * unit));
        prop_assert!(near(one.unwrap().setting, other.unwrap().setting));
    }
}

/// In binary, 0.66 / 0.55 is not 1.2; a change of 20 % is still not beyond 20 %.
#[test]
fn far_begins_beyond_a_fifth() {
    for (measured, wanted) in [(5.0, 6.0), (0.55, 0.66), (10.0, 8.0), (0.3, 0.24), (7.0, 8.4)] {
        assert!(!next_setting(40.0, measured, wanted).unwrap().is_far, "{measured} to {wanted}");
    }
    for (measured, wanted) in [(5.0, 6.001), (5.0, 3.999), (5.0, 20.0)] {
        assert!(next_setting(40.0, measured, wanted).unwrap().is_far, "{measured} to {wanted}");
    }
    assert_eq!(FAR_PERCENT, 20.0);
}

#[test]
fn it_says_that_it_is_a_guess() {
    let says = |measured, wanted| next_setting(40.0, measured, wanted).unwrap().says(Words::default());
    assert_eq!(
        says(5.0, 4.5),
        "Begin at 36.0, which is 10.0 % less. This is a first guess by proportion: catch again at it before sowing."
    );
    assert_eq!(
        says(5.0, 5.0),
        "Stay at 40.0, which gives what is wanted already. This is a first guess by proportion: catch again at it before \
         sowing."
    );
    assert_eq!(
        says(5.0, 7.5),
        "Begin at 60.0, which is 50.0 % more. This is a first guess by proportion: catch again at it before sowing. A \
         change of more than 20 % is far: flow does not follow a setting in a straight line, so expect to catch twice."
    );
    let comma = Words { decimal: DecimalSign::Comma, ..Words::default() };
    assert!(next_setting(4.0, 5.0, 5.5).unwrap().says(comma).starts_with("Begin at 4,40, which is 10,0 % more."));
}

#[test]
fn hostile_numbers_are_refused_by_name() {
    for bad in HOSTILE {
        assert_eq!(next_setting(bad, 5.0, 5.5).unwrap_err().figure(), Figure::Setting);
        assert_eq!(next_setting(40.0, bad, 5.5).unwrap_err().figure(), Figure::Measured);
        assert_eq!(next_setting(40.0, 5.0, bad).unwrap_err().figure(), Figure::Wanted);
    }
    assert_eq!(next_setting(1e9, 1.0, 2.0).unwrap_err().figure(), Figure::Setting, "beyond any scale");
}

/// Less than a twentieth of a percent is no change, and that much is one.
#[test]
fn a_setting_that_hardly_changes_stays() {
    let of = |change_percent| {
        let found = next_setting(40.0, 5.0, 5.0).unwrap();
        NextSetting { change_percent, ..found }.says(Words::default())
    };
    assert!(of(0.049).starts_with("Stay at 40.0") && of(-0.049).starts_with("Stay at 40.0"));
    assert!(of(0.05).starts_with("Begin at 40.0, which is 0.050 % more."), "{}", of(0.05));
    assert!(of(-0.05).starts_with("Begin at 40.0, which is 0.050 % less."), "{}", of(-0.05));
}
