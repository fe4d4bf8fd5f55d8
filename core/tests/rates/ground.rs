//! Ground drive: ratio, turns, slip.

use proptest::prelude::*;
use sowmark_core::{
    figure::Figure,
    rate::{GroundDrive, Metering, Slip},
};

use crate::{HOSTILE, near};

fn unit(factor: f64) -> Metering {
    Metering { factor, runs_in_use: 24, working_width_m: 3.0 }
}

proptest! {
    #[test]
    fn a_ratio_gives_its_rate_and_a_rate_its_ratio(
        factor in 1e-5..0.5, ratio in 0.01..20.0, around in 0.5..10.0
    ) {
        let drive = GroundDrive { ratio, rolling_circumference_m: around };
        let rate = unit(factor).ground_rate(drive).unwrap();
        prop_assert!(near(unit(factor).ratio_for_rate(rate, around).unwrap(), ratio));
        prop_assert!(near(unit(factor).revolutions_per_metre_for(rate).unwrap(), drive.revolutions_per_metre().unwrap()));
        let double = GroundDrive { ratio: 2.0 * ratio, ..drive };
        prop_assert!(near(unit(factor).ground_rate(double).unwrap(), 2.0 * rate));
    }

    #[test]
    fn driving_speed_turns_the_roller_but_does_not_change_the_rate(
        factor in 1e-5..0.5, ratio in 0.01..20.0, around in 0.5..10.0, speed in 0.5..6.0
    ) {
        let drive = GroundDrive { ratio, rolling_circumference_m: around };
        let rate = unit(factor).ground_rate(drive).unwrap();
        let rpm = unit(factor).roller_speed_rpm(rate, speed).unwrap();
        prop_assert!(near(rpm, drive.roller_speed_rpm(speed).unwrap()));
    }

    #[test]
    fn cranked_turns_meter_the_seed_of_the_area(
        factor in 1e-5..0.5, ratio in 0.01..20.0, around in 0.5..10.0, area in 10.0..5_000.0
    ) {
        let (unit, drive) = (unit(factor), GroundDrive { ratio, rolling_circumference_m: around });
        let turns = drive.roller_turns_for_area(area, 3.0).unwrap();
        prop_assert!(near(turns * unit.unit_total(), unit.ground_rate(drive).unwrap() * area));
        prop_assert!(near(turns, drive.turns_for_area(area, 3.0).unwrap() * ratio));
        prop_assert!(near(drive.turns_for_area(2.0 * area, 3.0).unwrap() * ratio, 2.0 * turns));
    }

    #[test]
    fn slip_takes_its_share_of_the_rate(percent in -50.0..90.0, around in 0.5..5.0) {
        let drive = GroundDrive { ratio: 1.5, rolling_circumference_m: around };
        let slipping = drive.with_slip(Slip::percent(percent).unwrap()).unwrap();
        let rate = |drive| unit(0.01).ground_rate(drive).unwrap();
        prop_assert!(near(rate(slipping), rate(drive) * (1.0 - percent / 100.0)));
        prop_assert_eq!(slipping.ratio, drive.ratio);
        // Measured as metres per turn it is the same slip.
        let measured = Slip::of_metres_per_turn(around, slipping.rolling_circumference_m).unwrap();
        prop_assert!((measured.as_percent() - percent).abs() < 1e-9);
    }

    #[test]
    fn a_driven_way_gives_the_circumference(way in 10.0..500.0, turns in 5.0..200.0) {
        prop_assume!(way / turns <= 100.0);
        let drive = GroundDrive::driven(2.5, way, turns).unwrap();
        prop_assert!(near(drive.rolling_circumference_m * turns, way));
        prop_assert_eq!(drive.ratio, 2.5);
    }
}

#[test]
fn no_slip_changes_nothing() {
    let drive = GroundDrive { ratio: 2.5, rolling_circumference_m: 2.1 };
    assert_eq!(drive.with_slip(Slip::default()), Some(drive));
    assert_eq!(Slip::of_metres_per_turn(2.1, 2.1).map(Slip::as_percent), Ok(0.0));
    assert!(Slip::percent(5.0).unwrap() > Slip::default());
}

#[test]
fn slip_has_ends() {
    assert!(Slip::percent(90.0).is_ok() && Slip::percent(-50.0).is_ok());
    assert_eq!(Slip::percent(90.1).unwrap_err().figure(), Figure::Slip);
    assert_eq!(Slip::percent(-50.1).unwrap_err().figure(), Figure::Slip);
    assert_eq!(Slip::of_metres_per_turn(1.0, 11.0).unwrap_err().figure(), Figure::Slip);
    assert_eq!(Slip::of_metres_per_turn(0.0, 2.0).unwrap_err().figure(), Figure::MetresPerTurn);
    assert_eq!(Slip::of_metres_per_turn(2.0, 0.0).unwrap_err().figure(), Figure::MetresPerTurn);
}

#[test]
fn hostile_numbers_give_nothing() {
    let (good, drive) = (unit(0.01), GroundDrive { ratio: 1.0, rolling_circumference_m: 2.0 });
    for bad in HOSTILE.into_iter().filter(|bad| *bad != f64::MAX) {
        assert_eq!(
            GroundDrive { rolling_circumference_m: bad, ..drive }.revolutions_per_metre().filter(|n| *n > 0.0),
            None
        );
        assert_eq!(drive.turns_for_area(100.0, bad).filter(|n| *n > 0.0), None);
        assert_eq!(unit(bad).ratio_for_rate(0.01, 2.0), None);
        assert_eq!(good.ratio_for_rate(bad, 2.0), None);
        assert_eq!(good.ratio_for_rate(0.01, bad), None);
        assert!(GroundDrive::driven(1.0, bad, 10.0).is_err());
        assert!(Slip::percent(bad).is_err() || bad == 0.0 || bad == -1.0 || bad == -f64::MIN_POSITIVE);
        assert!(Slip::of_metres_per_turn(bad, 2.0).is_err());
    }
    assert_eq!(good.ratio_for_rate(f64::MAX, 2.0), None, "beyond any number");
    assert!(GroundDrive::driven(1.0, 100.0, 0.0).is_err());
    assert!(GroundDrive::driven(1.0, 100.0, -5.0).is_err());
}
