//! What is asked of a unit's number: a rate, a driving speed, and of a ground drive its wheel.

use crate::access::Units;
use crate::clock::Stamp;
use crate::input;
use crate::web::error::Error;
use crate::web::input::{At, Faults, Input, Line};
use crate::web::quantity::asked;
use sowmark_core::quantity::unit::{self, dimension};
use sowmark_core::quantity::{Decimal, Dimension, Quantity, Unit};
use sowmark_core::rate::Slip;
use sowmark_core::words::Words;

input! {
    /// A rate and a driving speed.
    pub struct RateAsked {
        /// Seed per area, a decimal.
        pub rate: Option<Line<40>>,
        /// `kg/ha` or `lb/ac`; that of the reader unless told.
        pub rate_unit: Option<Line<12>>,
        /// Driving speed, a decimal. A ground drive answers without it.
        pub speed: Option<Line<40>>,
        /// `km/h`, `mph` or `m/s`; that of the reader unless told.
        pub speed_unit: Option<Line<12>>,
        /// RFC 3339; now unless told.
        pub at: Option<Stamp>,
        /// Of a ground drive: the way per turn of the wheel under load, a decimal. That of the calibration in force unless
        /// told, where it was entered over a distance.
        pub circumference: Option<Line<40>>,
        /// `m`, `cm`, `mm`, `ft` or `in`; that of the reader unless told.
        pub circumference_unit: Option<Line<12>>,
        /// Of a ground drive: percent of the way on which the wheel stands still, where the circumference is without it. That
        /// of the calibration in force unless told, where its circumference is taken; else none.
        pub slip_percent: Option<Line<40>>,
        /// Of a ground drive: an area to crank, a decimal.
        pub area: Option<Line<40>>,
        /// `m2`, `ha` or `ac`; that of the reader unless told.
        pub area_unit: Option<Line<12>>,
    }
}

/// What was asked, in SI, and the units that it was asked in.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wanted {
    pub(super) rate: f64,
    pub(super) speed: Option<f64>,
    pub(super) rate_unit: Unit<dimension::Rate>,
    pub(super) speed_unit: Unit<dimension::Speed>,
    pub(super) circumference: Option<f64>,
    pub(super) length_unit: Unit<dimension::Length>,
    /// None where none was asked with.
    pub(super) slip: Option<Slip>,
    pub(super) area: Option<f64>,
    pub(super) area_unit: Unit<dimension::Area>,
}

impl Wanted {
    /// A rate and a driving speed, in the units of who reads it.
    pub(super) fn of(rate: f64, speed: f64, units: Units) -> Self {
        let us = units == Units::Us;
        Self {
            rate,
            speed: Some(speed),
            rate_unit: if us { unit::LB_PER_AC } else { unit::KG_PER_HA },
            speed_unit: if us { unit::MPH } else { unit::KM_PER_H },
            circumference: None,
            length_unit: if us { unit::FT } else { unit::M },
            slip: None,
            area: None,
            area_unit: if us { unit::AC } else { unit::HA },
        }
    }

    /// Reads it with every fault, each at its part of the query. Only a ground drive answers without a speed.
    pub(super) fn read(given: &RateAsked, units: Units, is_ground: bool) -> Result<Self, Error> {
        let us = units == Units::Us;
        let mut faults = Faults::default();
        let rate_unit = if us { unit::LB_PER_AC } else { unit::KG_PER_HA };
        let rate = needed(&mut faults, "rate", given.rate.as_ref(), given.rate_unit.as_ref(), rate_unit);
        let speed_unit = if us { unit::MPH } else { unit::KM_PER_H };
        let speed = if is_ground {
            optional(&mut faults, "speed", given.speed.as_ref(), given.speed_unit.as_ref(), speed_unit)
        } else {
            let read = needed(&mut faults, "speed", given.speed.as_ref(), given.speed_unit.as_ref(), speed_unit);
            read.map(|(speed, unit)| (Some(speed), unit))
        };
        let length_unit = if us { unit::FT } else { unit::M };
        let (around, around_unit) = (given.circumference.as_ref(), given.circumference_unit.as_ref());
        let around = optional(&mut faults, "circumference", around, around_unit, length_unit);
        let area_unit = if us { unit::AC } else { unit::HA };
        let area = optional(&mut faults, "area", given.area.as_ref(), given.area_unit.as_ref(), area_unit);
        let slip = given.slip_percent.as_ref().and_then(|Line(text)| slip(&mut faults, text));
        let read = rate.zip(speed).zip(around).zip(area).map(|(((rate, speed), around), area)| Self {
            rate: rate.0,
            speed: speed.0,
            rate_unit: rate.1,
            speed_unit: speed.1,
            circumference: around.0,
            length_unit: around.1,
            slip,
            area: area.0,
            area_unit: area.1,
        });
        faults.finish(read)
    }
}

fn slip(faults: &mut Faults, text: &str) -> Option<Slip> {
    let at = At::default().key("slip_percent");
    match Decimal::parse(text) {
        Err(error) => faults.add(&at, move |words: Words| error.says(words)),
        Ok(percent) => match Slip::percent(percent.to_f64()) {
            Err(impossible) => faults.add(&at, move |words: Words| impossible.says(words)),
            Ok(slip) => Some(slip),
        },
    }
}

fn needed<D: Dimension>(
    faults: &mut Faults,
    name: &str,
    value: Option<&Line<40>>,
    unit: Option<&Line<12>>,
    default: Unit<D>,
) -> Option<(f64, Unit<D>)>
where
    Quantity<D>: Input,
{
    asked(faults, name, value.map(|line| line.0.as_str()), unit.map(|line| line.0.as_str()), default)
}

fn optional<D: Dimension>(
    faults: &mut Faults,
    name: &str,
    value: Option<&Line<40>>,
    unit: Option<&Line<12>>,
    default: Unit<D>,
) -> Option<(Option<f64>, Unit<D>)>
where
    Quantity<D>: Input,
{
    if value.is_none() {
        return Some((None, default));
    }
    needed(faults, name, value, unit, default).map(|(read, unit)| (Some(read), unit))
}
