//! The roller speed for a rate, as JSON.

use super::asked::{RateAsked, Wanted};
use super::at_work::{AtWork, is_ground, no_number};
use super::ground::{Wheel, customary, entered_wheel};
use crate::access::Permission;
use crate::readiness::act;
use crate::readiness::api::program;
use crate::saying;
use crate::web::api::{Asked, PathId};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::quantity::{Dimension, Unit, unit};
use sowmark_core::rate::Range;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api GET "/metering-units/{id}/rate", Need::May(Permission::ReadFleet), show_rate,
            "The roller speed that a rate needs at a driving speed, what the drive can hold, and what a ground drive gives.")
        .asks::<RateAsked>()
        .answers::<RateView>(),
    ]
}

/// The roller speed for a rate, and the limits of the drive.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct RateView {
    /// Null where no driving speed was asked of a ground drive.
    roller_speed_rpm: Option<f64>,
    /// Null where the drive's range is not known.
    within_drive_range: Option<bool>,
    /// The driving speeds at which the drive can hold this rate.
    speed_range: Option<RangeView>,
    /// The rates that the drive can hold at this driving speed.
    rate_range: Option<RangeView>,
    /// Roller revolutions per metre driven that the rate needs.
    revolutions_per_metre: f64,
    /// The calibration whose factor is in force; null where it is withheld, from who is limited to some clients: it was caught
    /// with another client's seed.
    calibration_id: Option<Uuid>,
    /// The number in force, per run.
    factor: Q,
    /// `ground`, `electric` or `hydraulic`.
    drive: String,
    /// Null for other drives, and while the way per turn of the wheel is not known.
    ground: Option<GroundView>,
}

/// From a smallest to a largest value.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct RangeView {
    min: Q,
    max: Q,
}

impl RangeView {
    fn of<D: Dimension>(range: Range, unit: Unit<D>) -> Self {
        Self { min: Q::computed(range.min, unit), max: Q::computed(range.max, unit) }
    }
}

/// What a ground drive gives.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct GroundView {
    /// The way per turn of the wheel, without the slip.
    circumference: Q,
    /// `asked`, or `calibration` for that of the calibration in force.
    circumference_from: &'static str,
    slip_percent: f64,
    /// Roller to wheel, as the setup names it.
    ratio: String,
    /// Roller revolutions per metre driven at that ratio.
    revolutions_per_metre: f64,
    /// What that ratio sows, at any driving speed.
    rate: Q,
    /// The ratio that the rate asked for needs.
    ratio_for_rate: f64,
    /// The roller's speed at the driving speed and that of the setup; null without a driving speed.
    roller_speed_rpm: Option<f64>,
    /// Turns to crank, for areas in use and the area asked for.
    turns: Vec<TurnsView>,
}

/// Turns to crank for an area.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct TurnsView {
    area: Q,
    /// Of the wheel.
    wheel_turns: f64,
    /// Of the roller, where the crank sits there.
    roller_turns: f64,
    /// The seed that this should give of the whole unit.
    mass: Q,
}

async fn show_rate(
    signed: Signed,
    PathId(id): PathId,
    Asked(asked): Asked<RateAsked>,
) -> Result<Json<RateView>, Error> {
    let mut conn = signed.app.read().await?;
    let reader = program(&signed.actor);
    let at = asked.at.map_or_else(|| signed.app.clock.now(), |stamp| stamp.at);
    let (now, names) = act::unit_now(&mut conn.cx(), &signed.actor, reader, at, MeteringUnitId(id)).await?;
    let wanted = Wanted::read(&asked, signed.actor.units, is_ground(&now))?;
    let at_work = AtWork::of(&now)?.ok_or_else(|| Error::fault("", no_number(&now, reader.words)))?;
    let entered = entered_wheel(&mut conn.cx(), &signed.actor.scope, &names, &at_work).await?;
    let wheel = Wheel::of(&at_work, &wanted, entered).filter(|_| at_work.is_ground);
    let calibration = names.told(at_work.in_force.calibration.0);
    Ok(Json(view(&at_work, calibration, &wanted, wheel, now.unit.drive)?))
}

fn view(
    at_work: &AtWork,
    calibration_id: Option<Uuid>,
    wanted: &Wanted,
    wheel: Option<Wheel>,
    drive: String,
) -> Result<RateView, Error> {
    let metering = at_work.metering;
    let nothing = || Error::fault("/rate", saying!("rate-nothing-gives"));
    let rpm =
        wanted.speed.map(|speed| metering.roller_speed_rpm(wanted.rate, speed).ok_or_else(nothing)).transpose()?;
    let speeds = at_work.drive.and_then(|drive| metering.speed_range(wanted.rate, drive));
    let rates = at_work.drive.zip(wanted.speed).and_then(|(drive, speed)| metering.rate_range(speed, drive));
    Ok(RateView {
        roller_speed_rpm: rpm,
        within_drive_range: at_work.drive.zip(rpm).map(|(drive, rpm)| drive.holds(rpm)),
        speed_range: speeds.map(|range| RangeView::of(range, wanted.speed_unit)),
        rate_range: rates.map(|range| RangeView::of(range, wanted.rate_unit)),
        revolutions_per_metre: metering.revolutions_per_metre_for(wanted.rate).ok_or_else(nothing)?,
        calibration_id,
        factor: Q::computed(at_work.in_force.factor, unit::KG_PER_REV),
        drive,
        ground: wheel.and_then(|wheel| ground_view(at_work, wanted, wheel)),
    })
}

fn ground_view(at_work: &AtWork, wanted: &Wanted, wheel: Wheel) -> Option<GroundView> {
    let (metering, drive) = (at_work.metering, wheel.drive);
    let areas = customary().map(|(_, area)| area).into_iter().chain(wanted.area);
    let turns = areas.filter_map(|area| {
        Some(TurnsView {
            area: Q::computed(area, wanted.area_unit),
            wheel_turns: drive.turns_for_area(area, metering.working_width_m)?,
            roller_turns: drive.roller_turns_for_area(area, metering.working_width_m)?,
            mass: Q::computed(metering.ground_rate(drive)? * area, unit::KG),
        })
    });
    Some(GroundView {
        circumference: Q::computed(wheel.circumference, wanted.length_unit),
        circumference_from: wheel.source.word(),
        slip_percent: wheel.slip.as_percent(),
        ratio: at_work.setup.drive_ratio.to_string(),
        revolutions_per_metre: drive.revolutions_per_metre()?,
        rate: Q::computed(metering.ground_rate(drive)?, wanted.rate_unit),
        ratio_for_rate: metering.ratio_for_rate(wanted.rate, drive.rolling_circumference_m)?,
        roller_speed_rpm: wanted.speed.and_then(|speed| drive.roller_speed_rpm(speed)),
        turns: turns.collect(),
    })
}
