//! From the number in force to the field: the roller speed for a rate at a driving speed, whether the drive can hold it,
//! and how far rate and speed can go with that drive.

use super::act::{self, UnitNow};
use crate::access::{Permission, Units};
use crate::input;
use crate::web::api::{Asked, PathId};
use crate::web::door::Signed;
use crate::web::error::{Error, Fault};
use crate::web::form::{Form, FormField, Posted, pairs};
use crate::web::input::{At, Faults, Input, Line};
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::Json;
use axum::extract::RawQuery;
use axum::http::StatusCode;
use axum::response::Response;
use serde::Serialize;
use serde_json::json;
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::quantity::unit::{self, dimension};
use sowmark_core::quantity::{Decimal, Dimension, Quantity, Unit, print, print_number};
use sowmark_core::rate::{DriveRange, Metering, Range};
use sowmark_core::readiness::{InForce, Severity, State};
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api GET "/metering-units/{id}/rate", Need::May(Permission::ReadFleet), show_rate,
            "The roller speed that a rate needs at a driving speed, and what the drive can hold.")
        .asks::<RateAsked>()
        .answers::<RateView>(),
        crate::route!(page GET "/metering-units/{id}/rate", Need::May(Permission::ReadFleet), rate_page),
    ]
}

input! {
    /// A rate and a driving speed.
    pub struct RateAsked {
        /// Seed per area, a decimal.
        pub rate: Option<Line<40>>,
        /// `kg/ha` or `lb/ac`; that of the organization unless told.
        pub rate_unit: Option<Line<12>>,
        /// Driving speed, a decimal.
        pub speed: Option<Line<40>>,
        /// `km/h`, `mph` or `m/s`; that of the organization unless told.
        pub speed_unit: Option<Line<12>>,
    }
}

/// The roller speed for a rate, and the limits of the drive.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct RateView {
    roller_speed_rpm: f64,
    /// Null where the drive's range is not known.
    within_drive_range: Option<bool>,
    /// The driving speeds at which the drive can hold this rate.
    speed_range: Option<RangeView>,
    /// The rates that the drive can hold at this driving speed.
    rate_range: Option<RangeView>,
    calibration_id: Uuid,
    /// The number in force, per run.
    factor: Q,
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

/// What was asked, in SI and in the units that it was asked in.
struct Wanted {
    rate: f64,
    speed: f64,
    rate_unit: Unit<dimension::Rate>,
    speed_unit: Unit<dimension::Speed>,
}

impl Wanted {
    /// Reads it with every fault, each at its part of the query.
    fn read(asked: &RateAsked, units: Units) -> Result<Self, Error> {
        let (rate_default, speed_default) = match units {
            Units::Metric => ("kg/ha", "km/h"),
            Units::Us => ("lb/ac", "mph"),
        };
        let rate = quantity::<dimension::Rate>("rate", asked.rate.as_ref(), asked.rate_unit.as_ref(), rate_default);
        let speed =
            quantity::<dimension::Speed>("speed", asked.speed.as_ref(), asked.speed_unit.as_ref(), speed_default);
        match (rate, speed) {
            (Ok((rate, rate_unit)), Ok((speed, speed_unit))) => Ok(Self { rate, speed, rate_unit, speed_unit }),
            (rate, speed) => Err(Error::Faults(rate.err().into_iter().chain(speed.err()).flatten().collect())),
        }
    }
}

fn quantity<D: Dimension>(
    name: &str,
    value: Option<&Line<40>>,
    unit: Option<&Line<12>>,
    default: &str,
) -> Result<(f64, Unit<D>), Vec<Fault>>
where
    Quantity<D>: Input,
{
    let unit = unit.map_or(default, |unit| unit.0.as_str());
    let tree = json!({ "value": value.map(|value| value.0.as_str()), "unit": unit });
    let mut faults = Faults::default();
    let read = Quantity::<D>::read(Some(&tree), &At::default(), &mut faults);
    match (faults.finish(read), D::unit_named(unit)) {
        (Ok(quantity), Ok(unit)) => Ok((quantity.si(), unit)),
        (Ok(_), Err(error)) => Err(vec![Fault::new(format!("/{name}_unit"), error.to_string())]),
        (Err(error), _) => Err(error.faults().into_iter().map(|fault| placed(name, fault)).collect()),
    }
}

fn placed(name: &str, fault: Fault) -> Fault {
    let unit = if fault.pointer == "/unit" { "_unit" } else { "" };
    Fault::new(format!("/{name}{unit}"), fault.detail)
}

/// A unit that has a number, ready to be computed with.
struct AtWork {
    metering: Metering,
    drive: Option<DriveRange>,
    in_force: InForce,
}

impl AtWork {
    /// # Errors
    /// 422 with the reason while no factor is in force.
    fn of(now: &UnitNow) -> Result<Self, Error> {
        let readiness = &now.readiness;
        let number = readiness.in_force.zip(readiness.setup.as_ref()).zip(readiness.configuration.as_ref());
        let ((in_force, setup), configuration) = number.ok_or_else(|| Error::fault("", no_number(now)))?;
        let metering = Metering {
            factor: in_force.factor,
            runs_in_use: setup.what.runs,
            working_width_m: configuration.what.working_width_m,
        };
        Ok(Self { metering, drive: drive_range(now)?, in_force })
    }

    fn view(&self, wanted: &Wanted) -> Result<RateView, Error> {
        let rpm = self
            .metering
            .roller_speed_rpm(wanted.rate, wanted.speed)
            .ok_or_else(|| Error::fault("/rate", "No roller speed gives this rate. Look at rate and speed."))?;
        let speeds = self.drive.and_then(|drive| self.metering.speed_range(wanted.rate, drive));
        let rates = self.drive.and_then(|drive| self.metering.rate_range(wanted.speed, drive));
        Ok(RateView {
            roller_speed_rpm: rpm,
            within_drive_range: self.drive.map(|drive| drive.holds(rpm)),
            speed_range: speeds.map(|range| RangeView::of(range, wanted.speed_unit)),
            rate_range: rates.map(|range| RangeView::of(range, wanted.rate_unit)),
            calibration_id: self.in_force.calibration.0,
            factor: Q::computed(self.in_force.factor, unit::KG_PER_REV),
        })
    }
}

/// The range of the unit's drive, where both of its ends are known.
fn drive_range(now: &UnitNow) -> Result<Option<DriveRange>, Error> {
    let read = |text: &str| {
        Decimal::parse(text).map(|rpm| rpm.to_f64()).map_err(|_| Error::inconsistent("a roller speed", text))
    };
    let ends = now.unit.roller_speed_min.as_deref().zip(now.unit.roller_speed_max.as_deref());
    ends.map(|(min, max)| Ok(DriveRange { min_rpm: read(min)?, max_rpm: read(max)? })).transpose()
}

/// Why there is no number.
pub(super) fn no_number(now: &UnitNow) -> String {
    let unit = format!("{}, {}", now.unit.seeder, now.unit.label);
    let stops = now.readiness.due.iter().zip(&now.says);
    let stop = stops.into_iter().find(|(due, _)| due.severity == Severity::Stop && due.waived.is_none());
    match (now.readiness.state, stop) {
        (State::Empty, _) => format!("No number is in force for {unit}: its tank is empty. Log what is filled."),
        (_, Some((_, says))) => format!("No number is in force for {unit}. {says}"),
        _ => format!("No number is in force for {unit}. Log its setup and a catch."),
    }
}

async fn show_rate(
    signed: Signed,
    PathId(id): PathId,
    Asked(asked): Asked<RateAsked>,
) -> Result<Json<RateView>, Error> {
    let mut conn = signed.app.read().await?;
    let at = signed.app.clock.now();
    let (now, _) = act::unit_now(&mut conn.cx(), &signed.actor, at, MeteringUnitId(id)).await?;
    let wanted = Wanted::read(&asked, signed.actor.units)?;
    Ok(Json(AtWork::of(&now)?.view(&wanted)?))
}

/// A line of the table of the page.
struct Answered {
    what: &'static str,
    value: String,
    unit: String,
}

#[derive(Template)]
#[template(path = "readiness/rate.html")]
struct RatePage {
    page: Page,
    unit_id: Uuid,
    form: Form,
    no_number: Option<String>,
    lines: Vec<Answered>,
    beyond: Option<String>,
}

async fn rate_page(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    RawQuery(query): RawQuery,
) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let at = signed.app.clock.now();
    let (now, _) = act::unit_now(&mut conn.cx(), &signed.actor, at, MeteringUnitId(id)).await?;
    let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?);
    let title = format!("Roller speed: {}, {}", now.unit.seeder, now.unit.label);
    let mut page = RatePage {
        page: Page::new(&signed, &cookies, title, "/"),
        unit_id: id,
        form: rate_form(id, signed.actor.units),
        no_number: None,
        lines: Vec::new(),
        beyond: None,
    };
    let at_work = match AtWork::of(&now) {
        Ok(at_work) => at_work,
        Err(error) => {
            page.no_number = Some(error.problem().detail);
            return show(&page);
        }
    };
    if posted.0.is_empty() {
        return show(&page);
    }
    match asked_on_page(&posted, signed.actor.units).and_then(|wanted| Ok((at_work.view(&wanted)?, wanted))) {
        Ok((view, wanted)) => {
            page.form = page.form.again(&posted, &Error::Faults(Vec::new()));
            page.form.general.clear();
            page.beyond = beyond(&view, at_work.drive);
            page.lines = lines(&at_work, &wanted, &view);
            show(&page)
        }
        Err(error) => {
            page.form = page.form.again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &page)
        }
    }
}

fn asked_on_page(posted: &Posted, units: Units) -> Result<Wanted, Error> {
    let text = |name: &str| Some(posted.text(name).trim()).filter(|text| !text.is_empty()).map(str::to_owned);
    let asked = RateAsked {
        rate: text("rate/value").map(Line),
        rate_unit: text("rate/unit").map(Line),
        speed: text("speed/value").map(Line),
        speed_unit: text("speed/unit").map(Line),
    };
    Wanted::read(&asked, units)
}

fn beyond(view: &RateView, drive: Option<DriveRange>) -> Option<String> {
    let drive = drive.filter(|_| view.within_drive_range == Some(false))?;
    let advice = if view.roller_speed_rpm > drive.max_rpm { "Drive slower" } else { "Drive faster" };
    Some(format!(
        "The drive cannot hold this: it needs {} rpm, the drive turns {} to {} rpm. {advice}, or change the roller or the gate \
         and catch again.",
        print_number(view.roller_speed_rpm, 3),
        drive.min_rpm,
        drive.max_rpm
    ))
}

fn lines(at_work: &AtWork, wanted: &Wanted, view: &RateView) -> Vec<Answered> {
    let line = |what, value: String, unit: &str| Answered { what, value, unit: unit.to_owned() };
    let mut lines = vec![line("Roller speed", print_number(view.roller_speed_rpm, 3), "rpm")];
    if let Some(range) = at_work.drive.and_then(|drive| at_work.metering.speed_range(wanted.rate, drive)) {
        let (unit, shown) = (wanted.speed_unit, |speed| print(speed, wanted.speed_unit, 3));
        lines.push(line("Driving speeds at this rate", between(shown(range.min), &shown(range.max)), unit.name()));
    }
    if let Some(range) = at_work.drive.and_then(|drive| at_work.metering.rate_range(wanted.speed, drive)) {
        let (unit, shown) = (wanted.rate_unit, |rate| print(rate, wanted.rate_unit, 3));
        lines.push(line("Rates at this speed", between(shown(range.min), &shown(range.max)), unit.name()));
    }
    lines
}

fn between(min: String, max: &str) -> String {
    min + " to " + max
}

fn rate_form(id: Uuid, units: Units) -> Form {
    let (rate, speed) = if units == Units::Us { ("lb/ac", "mph") } else { ("kg/ha", "km/h") };
    Form::new(
        format!("/metering-units/{id}/rate"),
        "Show the roller speed",
        vec![
            FormField::new("rate", "Rate").measured(&["kg/ha", "lb/ac"], rate),
            FormField::new("speed", "Driving speed").measured(&["km/h", "mph", "m/s"], speed),
        ],
    )
}
