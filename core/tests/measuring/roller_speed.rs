//! From the factor to the roller's speed and back.

use sowmark_core::rate::{DriveRange, Metering};

use crate::sheets::close;

/// Source: arithmetic of the trade, `R w v / 600` in kg/min; the inverse ranges must meet the drive's ends.
#[test]
fn roller_speed_and_its_ranges() {
    let metering = Metering { factor: 0.0298, runs_in_use: 8, working_width_m: 6.0 };
    let (rate, speed) = (140.0 / 10_000.0, 9.0 / 3.6);
    let needed = metering.roller_speed_rpm(rate, speed).unwrap();
    close(needed, 140.0 * 6.0 * 9.0 / 600.0 / (0.0298 * 8.0), 1e-14);
    let drive = DriveRange { min_rpm: 10.0, max_rpm: 120.0 };
    assert!(drive.holds(needed) && !drive.holds(121.0) && !drive.holds(f64::NAN));
    let speeds = metering.speed_range(rate, drive).unwrap();
    close(metering.roller_speed_rpm(rate, speeds.min).unwrap(), 10.0, 1e-14);
    close(metering.roller_speed_rpm(rate, speeds.max).unwrap(), 120.0, 1e-14);
    let rates = metering.rate_range(speed, drive).unwrap();
    close(metering.roller_speed_rpm(rates.min, speed).unwrap(), 10.0, 1e-14);
    close(metering.roller_speed_rpm(rates.max, speed).unwrap(), 120.0, 1e-14);
    let nothing = Metering { factor: 0.0, ..metering };
    assert_eq!(nothing.roller_speed_rpm(rate, speed), None);
    assert_eq!(metering.speed_range(0.0, drive), None);
    assert_eq!(metering.rate_range(f64::NAN, drive), None);
}
