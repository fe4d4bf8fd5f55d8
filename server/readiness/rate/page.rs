//! The page of a unit's rate: a form by GET, and what it gives.

use super::asked::{RateAsked, Wanted};
use super::at_work::{AtWork, is_ground};
use super::ground::{Source, Wheel, customary, entered_circumference};
use super::table::{Table, ratios, speeds};
use crate::access::{Permission, Units};
use crate::readiness::act;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted, pairs};
use crate::web::input;
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::RawQuery;
use axum::http::StatusCode;
use axum::response::Response;
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::quantity::{Dimension, Unit, from_si, unit};
use sowmark_core::rate::Range;
use sowmark_core::words::Words;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/metering-units/{id}/rate", Need::May(Permission::ReadFleet), rate_page)]
}

/// A line of what the page answers.
struct Answered {
    what: String,
    value: String,
    unit: String,
}

impl Answered {
    fn new(what: impl Into<String>, value: String, unit: &str) -> Self {
        Self { what: what.into(), value, unit: unit.to_owned() }
    }
}

#[derive(Template)]
#[template(path = "readiness/rate.html")]
struct RatePage {
    page: Page,
    unit_id: Uuid,
    seeder_id: Uuid,
    seeder: String,
    may_log: bool,
    form: Form,
    no_number: Option<String>,
    answer: Option<Answer>,
}

/// What was asked for comes to.
struct Answer {
    /// The largest figure: what to key in or to set.
    roller_speed: Option<String>,
    asked: String,
    lines: Vec<Answered>,
    beyond: Option<String>,
    speeds: Option<Table>,
    wheel: Option<WheelPart>,
    /// The way per turn of the wheel is not known, so a ground drive gives nothing more.
    wants_wheel: bool,
}

/// What a ground drive gives.
struct WheelPart {
    lines: Vec<Answered>,
    turns: Vec<Turns>,
    ratios: Table,
}

/// Turns to crank for an area.
struct Turns {
    area: String,
    wheel: String,
    roller: String,
    mass: String,
}

async fn rate_page(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    RawQuery(query): RawQuery,
) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let at = signed.app.clock.now();
    let (now, names) = act::unit_now(&mut conn.cx(), &signed.actor, at, MeteringUnitId(id)).await?;
    let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?);
    let title = format!("Roller speed: {}, {}", now.unit.seeder, now.unit.label);
    let is_ground = is_ground(&now);
    let mut page = RatePage {
        page: Page::new(&signed, &cookies, title, "/"),
        unit_id: id,
        seeder_id: now.unit.seeder_id,
        seeder: now.unit.seeder.clone(),
        may_log: signed.actor.may(Permission::Log),
        form: Form::default(),
        no_number: None,
        answer: None,
    };
    let at_work = match AtWork::of(&now) {
        Ok(at_work) => at_work,
        Err(error) => {
            page.no_number = Some(error.problem().detail);
            return show(&page);
        }
    };
    let entered = entered_circumference(&mut conn.cx(), &signed.actor.scope, &at_work).await?;
    page.form = rate_form(id, &signed, is_ground, entered);
    if posted.0.is_empty() {
        return show(&page);
    }
    let calibration = at_work.in_force.calibration.0;
    let factor_unit = if signed.actor.units == Units::Us { unit::LB_PER_100REV } else { unit::G_PER_REV };
    let digits = names.digits(calibration, from_si(at_work.in_force.factor, factor_unit));
    let factor = format!("{} {factor_unit}", signed.actor.words().print(at_work.in_force.factor, factor_unit, digits));
    let wanted =
        input::read::<RateAsked>(&posted.query()).and_then(|asked| Wanted::read(&asked, signed.actor.units, is_ground));
    let key_in = now.key_in(&names, signed.actor.reader()).map(|number| number.says()).unwrap_or_default();
    match wanted.and_then(|wanted| answer(&at_work, &wanted, entered, (key_in, factor), &signed)) {
        Ok(answer) => {
            page.form = page.form.again(&posted, &Error::Faults(Vec::new()));
            page.form.general.clear();
            page.answer = Some(answer);
            show(&page)
        }
        Err(error) => {
            page.form = page.form.again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &page)
        }
    }
}

fn answer(
    at_work: &AtWork,
    wanted: &Wanted,
    entered: Option<f64>,
    number: (String, String),
    signed: &Signed,
) -> Result<Answer, Error> {
    let (metering, words) = (at_work.metering, signed.actor.words());
    let rpm = wanted.speed.map(|speed| metering.roller_speed_rpm(wanted.rate, speed));
    if metering.revolutions_per_metre_for(wanted.rate).is_none() || rpm == Some(None) {
        return Err(Error::fault("/rate", "No roller speed gives this rate. Look at rate and speed."));
    }
    let rpm = rpm.flatten();
    let wheel = Wheel::of(at_work, wanted, entered).filter(|_| at_work.is_ground);
    Ok(Answer {
        roller_speed: rpm.map(|rpm| words.number(rpm, 3)),
        asked: asked_in_words(wanted, words),
        lines: lines(at_work, wanted, number, words),
        beyond: rpm.and_then(|rpm| beyond(rpm, at_work, words)),
        speeds: speeds(at_work, wanted, words).filter(|_| !at_work.is_ground),
        wheel: wheel.map(|wheel| wheel_part(at_work, wanted, wheel, signed)),
        wants_wheel: at_work.is_ground && wheel.is_none(),
    })
}

fn asked_in_words(wanted: &Wanted, words: Words) -> String {
    let rate = in_unit(wanted.rate, wanted.rate_unit, words);
    match wanted.speed {
        Some(speed) => format!("for {rate} at {}", in_unit(speed, wanted.speed_unit, words)),
        None => format!("for {rate}"),
    }
}

fn in_unit<D: Dimension>(si: f64, unit: Unit<D>, words: Words) -> String {
    format!("{} {unit}", words.print(si, unit, 3))
}

fn beyond(rpm: f64, at_work: &AtWork, words: Words) -> Option<String> {
    let drive = at_work.drive.filter(|drive| !drive.holds(rpm))?;
    let advice = match (at_work.is_ground, rpm > drive.max_rpm) {
        (false, true) => "Drive slower",
        (false, false) => "Drive faster",
        (true, _) => "Take another ratio",
    };
    Some(format!(
        "The drive cannot hold this: it needs {} rpm, the drive turns {} to {} rpm. {advice}, or change the roller or the gate \
         and catch again.",
        words.number(rpm, 3),
        words.exactly(drive.min_rpm),
        words.exactly(drive.max_rpm)
    ))
}

fn lines(at_work: &AtWork, wanted: &Wanted, (key_in, factor): (String, String), words: Words) -> Vec<Answered> {
    let metering = at_work.metering;
    let mut lines = vec![Answered::new("Number to key in", key_in, ""), Answered::new("The same, per run", factor, "")];
    if let Some(turns) = metering.revolutions_per_metre_for(wanted.rate) {
        lines.push(Answered::new("Roller turns that the rate needs", words.number(turns, 3), "per metre driven"));
    }
    if let Some(range) = at_work.drive.and_then(|drive| metering.speed_range(wanted.rate, drive)) {
        let between = between(range, wanted.speed_unit, words);
        lines.push(Answered::new("Driving speeds at this rate", between, wanted.speed_unit.name()));
    }
    let rates = at_work.drive.zip(wanted.speed).and_then(|(drive, speed)| metering.rate_range(speed, drive));
    if let Some(range) = rates {
        let between = between(range, wanted.rate_unit, words);
        lines.push(Answered::new("Rates at this speed", between, wanted.rate_unit.name()));
    }
    lines
}

fn between<D: Dimension>(range: Range, unit: Unit<D>, words: Words) -> String {
    format!("{} to {}", words.print(range.min, unit, 3), words.print(range.max, unit, 3))
}

fn wheel_part(at_work: &AtWork, wanted: &Wanted, wheel: Wheel, signed: &Signed) -> WheelPart {
    let (metering, words, drive) = (at_work.metering, signed.actor.words(), wheel.drive);
    let shown = |value: Option<f64>| value.map(|value| words.number(value, 3)).unwrap_or_default();
    let mass_unit = if signed.actor.units == Units::Us { unit::LB } else { unit::KG };
    let rate = metering.ground_rate(drive);
    let per_turn = in_unit(wheel.circumference, wanted.length_unit, words);
    let per_turn = match wheel.source {
        Source::Asked => per_turn,
        Source::Calibration => format!("{per_turn}, as entered with the catch"),
    };
    let mut lines = vec![
        Answered::new(
            format!("The ratio of the setup, {}, sows", words.decimal(&at_work.setup.drive_ratio.to_string())),
            rate.map(|rate| words.print(rate, wanted.rate_unit, 3)).unwrap_or_default(),
            wanted.rate_unit.name(),
        ),
        Answered::new(
            "The rate wanted needs the ratio",
            shown(metering.ratio_for_rate(wanted.rate, drive.rolling_circumference_m)),
            "roller to wheel",
        ),
        Answered::new(
            "Roller turns at the ratio of the setup",
            shown(drive.revolutions_per_metre()),
            "per metre driven",
        ),
        Answered::new("Way per turn of the wheel", per_turn, ""),
    ];
    if wanted.slip.as_percent() != 0.0 {
        lines.push(Answered::new("Slip reckoned with", words.exactly(wanted.slip.as_percent()), "%"));
    }
    if let Some(speed) = wanted.speed {
        lines.push(Answered::new(
            "Roller speed at the ratio of the setup",
            shown(drive.roller_speed_rpm(speed)),
            "rpm",
        ));
    }
    let asked = wanted.area.map(|area| (in_unit(area, wanted.area_unit, words), area));
    let areas = customary().map(|(name, area)| (name.to_owned(), area)).into_iter().chain(asked);
    let turns = areas.map(|(name, area)| Turns {
        area: name,
        wheel: shown(drive.turns_for_area(area, metering.working_width_m)),
        roller: shown(drive.roller_turns_for_area(area, metering.working_width_m)),
        mass: rate.map(|rate| in_unit(rate * area, mass_unit, words)).unwrap_or_default(),
    });
    WheelPart { lines, turns: turns.collect(), ratios: ratios(at_work, wanted, wheel, words) }
}

fn rate_form(id: Uuid, signed: &Signed, is_ground: bool, entered: Option<f64>) -> Form {
    let us = signed.actor.units == Units::Us;
    let by = |metric, us_unit| if us { us_unit } else { metric };
    let mut fields = vec![
        FormField::new("rate", "Rate").measured(&["kg/ha", "lb/ac"], by("kg/ha", "lb/ac")),
        FormField::new("speed", "Driving speed").measured(&["km/h", "mph", "m/s"], by("km/h", "mph")),
    ];
    if is_ground {
        let length = if us { unit::FT } else { unit::M };
        let known = entered.map(|m| signed.actor.words().print(m, length, 4)).unwrap_or_default();
        if let Some(speed) = fields.last_mut() {
            speed.required = false;
        }
        fields.extend([
            FormField::new("circumference", "Way per turn of the drive wheel")
                .hint("Under load, at working depth: drive a measured way and divide it by the turns of the wheel.")
                .measured(&["m", "cm", "ft", "in"], by("m", "ft"))
                .value(known)
                .optional(),
            FormField::new("slip_percent", "Slip, %")
                .hint("Only where the way per turn was measured without load.")
                .kind(Kind::Number)
                .optional(),
            FormField::new("area", "Area to crank").measured(&["ha", "m2", "ac"], by("ha", "ac")).optional(),
        ]);
    }
    Form::new(format!("/metering-units/{id}/rate"), "Show the roller speed", fields)
}
