//! A unit that has a number, ready to be computed with; or why it has none.

use crate::fleet::seeder::Drive;
use crate::readiness::act::UnitNow;
use crate::web::error::Error;
use sowmark_core::basis::{Configuration, Setup};
use sowmark_core::quantity::Decimal;
use sowmark_core::rate::{DriveRange, Metering};
use sowmark_core::readiness::{InForce, Severity, State};
use sowmark_core::say;
use sowmark_core::words::Words;

/// A unit with the number in force and what it is fitted with.
#[derive(Clone, Debug)]
pub struct AtWork {
    pub metering: Metering,
    /// What the drive can hold, where known.
    pub drive: Option<DriveRange>,
    /// The roller is driven from a wheel on the ground.
    pub is_ground: bool,
    pub in_force: InForce,
    pub setup: Setup,
    pub configuration: Configuration,
}

impl AtWork {
    /// None while no factor is in force; [`no_number`] says why.
    ///
    /// # Errors
    /// When what is stored of its drive is not what this program writes.
    pub fn of(now: &UnitNow) -> Result<Option<Self>, Error> {
        let readiness = &now.readiness;
        let number = readiness.in_force.zip(readiness.setup.as_ref()).zip(readiness.configuration.as_ref());
        let Some(((in_force, setup), configuration)) = number else { return Ok(None) };
        let metering = Metering {
            factor: in_force.factor,
            runs_in_use: setup.what.runs,
            working_width_m: configuration.what.working_width_m,
        };
        Ok(Some(Self {
            metering,
            drive: drive_range(now)?,
            is_ground: is_ground(now),
            in_force,
            setup: setup.what.clone(),
            configuration: configuration.what,
        }))
    }
}

/// Its roller is driven from a wheel on the ground.
pub(super) fn is_ground(now: &UnitNow) -> bool {
    now.unit.drive == Drive::Ground.word()
}

/// The range of the unit's drive, where both of its ends are known.
fn drive_range(now: &UnitNow) -> Result<Option<DriveRange>, Error> {
    let read = |text: &str| {
        Decimal::parse(text).map(|rpm| rpm.to_f64()).map_err(|_| Error::inconsistent("a roller speed", text))
    };
    let ends = now.unit.roller_speed_min.as_deref().zip(now.unit.roller_speed_max.as_deref());
    ends.map(|(min, max)| Ok(DriveRange { min_rpm: read(min)?, max_rpm: read(max)? })).transpose()
}

/// Why there is no number; in the words in which what is due was said.
#[must_use]
pub fn no_number(now: &UnitNow, words: Words) -> String {
    let due = now.readiness.due.iter().zip(&now.says);
    let stops = due.filter(|(due, _)| due.severity == Severity::Stop && due.waived.is_none());
    let stop = stops.map(|(_, says)| says.as_str()).collect::<Vec<_>>().join(" ");
    let (why, stop) = match (now.readiness.state, stop.as_str()) {
        (State::Empty, _) => ("empty", ""),
        (_, "") => ("nothing", ""),
        (_, stop) => ("stopped", stop),
    };
    say!(words, "rate-no-number", why = why, seeder = &now.unit.seeder, unit = &now.unit.label, stop = stop)
}
