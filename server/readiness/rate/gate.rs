//! The next gate setting by proportion: where to begin the next catch, and that it is a guess.

use super::at_work::AtWork;
use crate::access::{Permission, Units};
use crate::readiness::act;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted, pairs};
use crate::web::input::{self as reading, At, Faults, Line, cut};
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::routes::{Need, Route};
use crate::{input, saying};
use askama::Template;
use axum::extract::RawQuery;
use axum::http::StatusCode;
use axum::response::Response;
use sowmark_core::figure::Figure;
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::quantity::{Decimal, unit};
use sowmark_core::rate::next_setting;
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/metering-units/{id}/gate", Need::May(Permission::ReadFleet), gate_page)]
}

input! {
    /// An old setting, what it gave and what is wanted.
    pub struct GateAsked {
        /// On the machine's own scale.
        pub setting: Option<Line<40>>,
        /// What the old setting gave.
        pub measured: Option<Line<40>>,
        /// Of both measured and wanted.
        pub measured_unit: Option<Line<12>>,
        /// What the new one should give, in the same unit.
        pub wanted: Option<Line<40>>,
    }
}

#[derive(Template)]
#[template(path = "readiness/gate.html")]
struct GatePage {
    page: Page,
    unit_id: Uuid,
    seeder_id: Uuid,
    seeder: String,
    may_log: bool,
    form: Form,
    next: Option<Next>,
}

/// In what the old setting may have been measured.
const UNITS: [&str; 4] = ["g/rev", "lb/100rev", "kg/ha", "lb/ac"];

/// The setting to begin at.
struct Next {
    setting: String,
    change: String,
    how: String,
    says: String,
    is_far: bool,
}

async fn gate_page(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    RawQuery(query): RawQuery,
) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let at = signed.app.clock.now();
    let (now, _) = act::unit_now(&mut conn.cx(), &signed.actor, signed.actor.reader(), at, MeteringUnitId(id)).await?;
    let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?);
    let gate = now.readiness.setup.as_ref().and_then(|setup| setup.what.gate.clone());
    let factor = AtWork::of(&now)?.map(|at_work| at_work.in_force.factor);
    let title = say!(signed.actor.words(), "gate-title", seeder = &now.unit.seeder, unit = &now.unit.label);
    let mut page = GatePage {
        page: Page::new(&signed, &cookies, title, "/"),
        unit_id: id,
        seeder_id: now.unit.seeder_id,
        seeder: now.unit.seeder.clone(),
        may_log: signed.actor.may(Permission::Log),
        form: gate_form(id, &signed, gate, factor),
        next: None,
    };
    if posted.0.is_empty() {
        return show(&page);
    }
    let posted = posted.spoken_in(signed.actor.language);
    match reading::read::<GateAsked>(&posted.query()).and_then(|asked| next(&asked, signed.actor.words())) {
        Ok(next) => {
            page.form = page.form.again(&posted, &Error::Faults(Vec::new()));
            page.form.general.clear();
            page.next = Some(next);
            show(&page)
        }
        Err(error) => {
            page.form = page.form.again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &page)
        }
    }
}

fn next(asked: &GateAsked, words: Words) -> Result<Next, Error> {
    let mut faults = Faults::default();
    let setting = number(&mut faults, "setting", asked.setting.as_ref(), Figure::Setting);
    let measured = number(&mut faults, "measured", asked.measured.as_ref(), Figure::Measured);
    let wanted = number(&mut faults, "wanted", asked.wanted.as_ref(), Figure::Wanted);
    if let Some(unit) = asked.measured_unit.as_ref().filter(|unit| !UNITS.contains(&unit.0.as_str())) {
        let (given, units) = (cut(&unit.0), UNITS.join(", "));
        let says = saying!("gate-unit-unknown", given = &given, units = &units);
        faults.add::<()>(&At::default().key("measured"), says);
    }
    let (setting, measured, wanted) = faults
        .finish(setting.zip(measured).zip(wanted).map(|((setting, measured), wanted)| (setting, measured, wanted)))?;
    let unit = asked.measured_unit.as_ref().map(|unit| format!(" {}", unit.0)).unwrap_or_default();
    let next = next_setting(setting, measured, wanted)
        .map_err(|impossible| Error::fault("/wanted", move |words: Words| impossible.says(words)))?;
    let sign = if next.change_percent < 0.0 { "−" } else { "+" };
    Ok(Next {
        setting: words.number(next.setting, 3),
        change: format!("{sign}{}", words.percent(next.change_percent.abs())),
        how: say!(
            words,
            "gate-how",
            setting = words.exactly(setting),
            wanted = format!("{}{unit}", words.exactly(wanted)),
            measured = format!("{}{unit}", words.exactly(measured))
        ),
        says: next.says(words),
        is_far: next.is_far,
    })
}

fn number(faults: &mut Faults, name: &str, typed: Option<&Line<40>>, figure: Figure) -> Option<f64> {
    let at = At::default().key(name);
    let Some(Line(text)) = typed else { return faults.add(&at, saying!("fault-missing")) };
    match Decimal::parse(text) {
        Err(error) => faults.add(&at, move |words: Words| error.says(words)),
        Ok(number) => match figure.check(number.to_f64()) {
            Ok(number) => Some(number),
            Err(impossible) => faults.add(&at, move |words: Words| impossible.says(words)),
        },
    }
}

fn gate_form(id: Uuid, signed: &Signed, gate: Option<String>, factor: Option<f64>) -> Form {
    let factor_unit = if signed.actor.units == Units::Us { unit::LB_PER_100REV } else { unit::G_PER_REV };
    let words = signed.actor.words();
    let known = factor.map(|factor| words.print(factor, factor_unit, 4)).unwrap_or_default();
    let filled = if factor.is_some() { "yes" } else { "no" };
    let opening = gate.filter(|gate| Decimal::parse(gate).is_ok()).map(|gate| words.decimal(&gate));
    let fields = vec![
        FormField::new("setting", say!(words, "gate-setting"))
            .hint(say!(words, "gate-setting-hint"))
            .value(opening.unwrap_or_default())
            .kind(Kind::Number),
        FormField::new("measured", say!(words, "gate-measured"))
            .hint(say!(words, "gate-measured-hint", filled = filled))
            .measured(&UNITS, factor_unit.name())
            .value(known),
        FormField::new("wanted", say!(words, "gate-wanted")).hint(say!(words, "gate-wanted-hint")).kind(Kind::Number),
    ];
    Form::new(format!("/metering-units/{id}/gate"), say!(words, "gate-submit"), fields)
}
