//! The page of a unit's rate: a form by GET, and what it gives.

use super::asked::{RateAsked, Wanted};
use super::at_work::{AtWork, is_ground, no_number};
use super::ground::{EnteredWheel, Source, Wheel, customary, entered_wheel};
use super::table::{Near, Table, ratios, speeds};
use crate::access::{Permission, Units};
use crate::readiness::act::{self, UnitNow};
use crate::readiness::{Teller, board, policy};
use crate::saying;
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
use sowmark_core::rate::{Range, Slip};
use sowmark_core::say;
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
    /// What the number does not say by itself: what was let pass, and what else is in the tank.
    besides: Vec<String>,
    answer: Option<Answer>,
}

/// What was asked for comes to.
struct Answer {
    /// The largest figure: what to key in or to set.
    roller_speed: Option<Speed>,
    lines: Vec<Answered>,
    /// The drive cannot hold it.
    beyond: Option<String>,
    /// The number was not shown to be true at that roller speed, which the drive can hold.
    far: Option<String>,
    speeds: Option<Table>,
    wheel: Option<WheelPart>,
    /// The way per turn of the wheel is not known, so a ground drive gives nothing more.
    wants_wheel: bool,
}

/// The roller speed, and for what.
struct Speed {
    says: String,
    rpm: String,
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
    let (now, names) =
        act::unit_now(&mut conn.cx(), &signed.actor, signed.actor.reader(), at, MeteringUnitId(id)).await?;
    let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?);
    let title = say!(signed.actor.words(), "rate-title", seeder = &now.unit.seeder, unit = &now.unit.label);
    let is_ground = is_ground(&now);
    let mut page = RatePage {
        page: Page::new(&signed, &cookies, title, "/"),
        unit_id: id,
        seeder_id: now.unit.seeder_id,
        seeder: now.unit.seeder.clone(),
        may_log: signed.actor.may(Permission::Log),
        form: Form::default(),
        no_number: None,
        besides: Vec::new(),
        answer: None,
    };
    let Some(at_work) = AtWork::of(&now)? else {
        page.no_number = Some(no_number(&now, signed.actor.words()));
        return show(&page);
    };
    let scope = &signed.actor.scope;
    let teller = Teller { names: &names, zone: &signed.actor.time_zone, reader: signed.actor.reader(), at };
    page.besides = board::let_pass(&now, &teller);
    page.besides.extend(mixed(&now, &teller));
    let entered = entered_wheel(&mut conn.cx(), scope, &names, &at_work).await?;
    let (history, _) = act::history(&mut conn.cx(), scope, teller.zone, MeteringUnitId(id)).await?;
    let policy = policy::in_force(&mut conn.cx(), scope).await?.policy;
    let near = Near::of(at_work.in_force, &history, &policy);
    page.form = rate_form(id, &signed, is_ground, entered);
    if posted.0.is_empty() {
        return show(&page);
    }
    let posted = posted.spoken_in(signed.actor.language);
    let calibration = at_work.in_force.calibration.0;
    let factor_unit = if signed.actor.units == Units::Us { unit::LB_PER_100REV } else { unit::G_PER_REV };
    let digits = names.digits(calibration, from_si(at_work.in_force.factor, factor_unit));
    let words = signed.actor.words();
    let factor = words.print(at_work.in_force.factor, factor_unit, digits);
    let factor = format!("{factor} {}", words.unit(factor_unit.name()));
    let wanted =
        input::read::<RateAsked>(&posted.query()).and_then(|asked| Wanted::read(&asked, signed.actor.units, is_ground));
    let key_in = now.key_in(&names, signed.actor.reader()).map(|number| number.says()).unwrap_or_default();
    match wanted.and_then(|wanted| answer(&at_work, &wanted, (entered, near), (key_in, factor), &signed)) {
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
    (entered, near): (Option<EnteredWheel>, Option<Near>),
    number: (String, String),
    signed: &Signed,
) -> Result<Answer, Error> {
    let (metering, words) = (at_work.metering, signed.actor.words());
    let rpm = wanted.speed.map(|speed| metering.roller_speed_rpm(wanted.rate, speed));
    if metering.revolutions_per_metre_for(wanted.rate).is_none() || rpm == Some(None) {
        return Err(Error::fault("/rate", saying!("rate-nothing-gives")));
    }
    let rpm = rpm.flatten();
    let wheel = Wheel::of(at_work, wanted, entered).filter(|_| at_work.is_ground);
    let beyond = rpm.and_then(|rpm| beyond(rpm, at_work, words));
    Ok(Answer {
        roller_speed: rpm.zip(wanted.speed).map(|(rpm, speed)| roller_speed(rpm, speed, wanted, words)),
        lines: lines(at_work, wanted, number, words),
        far: rpm.zip(near).filter(|_| beyond.is_none()).and_then(|(rpm, near)| near.warns(rpm, words)),
        beyond,
        speeds: speeds(at_work, wanted, near, words).filter(|_| !at_work.is_ground),
        wheel: wheel.map(|wheel| wheel_part(at_work, wanted, wheel, signed)),
        wants_wheel: at_work.is_ground && wheel.is_none(),
    })
}

/// That other lots are in the tank too.
fn mixed(now: &UnitNow, teller: &Teller<'_>) -> Option<String> {
    let tank = || board::tank(&now.readiness, teller);
    (!now.readiness.mixed_with.is_empty()).then(|| say!(teller.reader.words, "cab-card-in-tank", lot = tank()))
}

fn roller_speed(rpm: f64, speed: f64, wanted: &Wanted, words: Words) -> Speed {
    let (rate, speed) = (in_unit(wanted.rate, wanted.rate_unit, words), in_unit(speed, wanted.speed_unit, words));
    Speed { says: say!(words, "rate-roller-speed", rate = rate, speed = speed), rpm: words.number(rpm, 3) }
}

fn in_unit<D: Dimension>(si: f64, unit: Unit<D>, words: Words) -> String {
    format!("{} {unit}", words.print(si, unit, 3))
}

fn beyond(rpm: f64, at_work: &AtWork, words: Words) -> Option<String> {
    let drive = at_work.drive.filter(|drive| !drive.holds(rpm))?;
    let advice = match (at_work.is_ground, rpm > drive.max_rpm) {
        (false, true) => "slower",
        (false, false) => "faster",
        (true, _) => "ratio",
    };
    Some(say!(
        words,
        "rate-beyond",
        needed = words.number(rpm, 3),
        least = words.exactly(drive.min_rpm),
        most = words.exactly(drive.max_rpm),
        advice = advice
    ))
}

fn lines(at_work: &AtWork, wanted: &Wanted, (key_in, factor): (String, String), words: Words) -> Vec<Answered> {
    let metering = at_work.metering;
    let mut lines = vec![
        Answered::new(say!(words, "rate-number"), key_in, ""),
        Answered::new(say!(words, "rate-number-per-run"), factor, ""),
    ];
    if let Some(turns) = metering.revolutions_per_metre_for(wanted.rate) {
        lines.push(Answered::new(
            say!(words, "rate-turns-needed"),
            words.number(turns, 3),
            &say!(words, "rate-per-metre"),
        ));
    }
    if let Some(range) = at_work.drive.and_then(|drive| metering.speed_range(wanted.rate, drive)) {
        let between = between(range, wanted.speed_unit, words);
        lines.push(Answered::new(say!(words, "rate-speeds"), between, wanted.speed_unit.name()));
    }
    let rates = at_work.drive.zip(wanted.speed).and_then(|(drive, speed)| metering.rate_range(speed, drive));
    if let Some(range) = rates {
        let between = between(range, wanted.rate_unit, words);
        lines.push(Answered::new(say!(words, "rate-rates"), between, wanted.rate_unit.name()));
    }
    lines
}

fn between<D: Dimension>(range: Range, unit: Unit<D>, words: Words) -> String {
    let (least, most) = (words.print(range.min, unit, 3), words.print(range.max, unit, 3));
    say!(words, "rate-between", least = least, most = most)
}

fn wheel_part(at_work: &AtWork, wanted: &Wanted, wheel: Wheel, signed: &Signed) -> WheelPart {
    let (metering, words, drive) = (at_work.metering, signed.actor.words(), wheel.drive);
    let shown = |value: Option<f64>| value.map(|value| words.number(value, 3)).unwrap_or_default();
    let mass_unit = if signed.actor.units == Units::Us { unit::LB } else { unit::KG };
    let rate = metering.ground_rate(drive);
    let per_turn = in_unit(wheel.circumference, wanted.length_unit, words);
    let per_turn = match wheel.source {
        Source::Asked => per_turn,
        Source::Calibration => say!(words, "rate-ground-way-entered", way = per_turn),
    };
    let mut lines = vec![
        Answered::new(
            say!(words, "rate-ground-sows", ratio = words.decimal(&at_work.setup.drive_ratio.to_string())),
            rate.map(|rate| words.print(rate, wanted.rate_unit, 3)).unwrap_or_default(),
            wanted.rate_unit.name(),
        ),
        Answered::new(
            say!(words, "rate-ground-needs"),
            shown(metering.ratio_for_rate(wanted.rate, drive.rolling_circumference_m)),
            &say!(words, "rate-roller-to-wheel"),
        ),
        Answered::new(
            say!(words, "rate-ground-turns"),
            shown(drive.revolutions_per_metre()),
            &say!(words, "rate-per-metre"),
        ),
        Answered::new(say!(words, "rate-ground-way"), per_turn, ""),
    ];
    if wheel.slip.as_percent() != 0.0 {
        lines.push(Answered::new(say!(words, "rate-ground-slip"), words.exactly(wheel.slip.as_percent()), "%"));
    }
    if let Some(speed) = wanted.speed {
        lines.push(Answered::new(say!(words, "rate-ground-speed"), shown(drive.roller_speed_rpm(speed)), "rpm"));
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

fn rate_form(id: Uuid, signed: &Signed, is_ground: bool, entered: Option<EnteredWheel>) -> Form {
    let (us, words) = (signed.actor.units == Units::Us, signed.actor.words());
    let by = |metric, us_unit| if us { us_unit } else { metric };
    let mut fields = vec![
        FormField::new("rate", say!(words, "rate-rate")).measured(&["kg/ha", "lb/ac"], by("kg/ha", "lb/ac")),
        FormField::new("speed", say!(words, "rate-driving-speed")).measured(&["km/h", "mph", "m/s"], by("km/h", "mph")),
    ];
    if is_ground {
        let length = if us { unit::FT } else { unit::M };
        // A way that was measured without load goes with its slip: neither is filled in, so that nobody types over one and leaves
        // the other.
        let (known, left) = match entered {
            Some(wheel) if wheel.slip == Slip::default() => (words.print(wheel.circumference, length, 4), None),
            Some(wheel) => {
                let (way, slip) = (in_unit(wheel.circumference, length, words), words.exactly(wheel.slip.as_percent()));
                (String::new(), Some(say!(words, "rate-way-left", way = way, slip = slip)))
            }
            None => (String::new(), None),
        };
        if let Some(speed) = fields.last_mut() {
            speed.required = false;
        }
        fields.extend([
            FormField::new("circumference", say!(words, "rate-way"))
                .hint(left.unwrap_or_else(|| say!(words, "rate-way-hint")))
                .measured(&["m", "cm", "ft", "in"], by("m", "ft"))
                .value(known)
                .optional(),
            FormField::new("slip_percent", say!(words, "rate-slip"))
                .hint(say!(words, "rate-slip-hint"))
                .kind(Kind::Number)
                .optional(),
            FormField::new("area", say!(words, "rate-area")).measured(&["ha", "m2", "ac"], by("ha", "ac")).optional(),
        ]);
    }
    Form::new(format!("/metering-units/{id}/rate"), say!(words, "rate-submit"), fields)
}
