//! The rate plan's page: a lot and a unit to fill in from, a form by GET, and what it comes to with its working.

use super::answer::Answer;
use super::asked::{Asked, PlanAsked, SQUARE_FOOT, Wanted, Way};
use super::filled::Filled;
use super::form::{DOUBTS, at_fields, form, query};
use crate::access::{Permission, Units};
use crate::readiness::rate::AtWork;
use crate::seed::lot::age::Age;
use crate::web::door::Signed;
use crate::web::error::{Error, Fault};
use crate::web::form::{Form, FormField, FormOption, Posted, pairs};
use crate::web::input::{self, Faults};
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::quantity;
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::RawQuery;
use axum::http::StatusCode;
use axum::response::Response;
use sowmark_core::quantity::unit::{self, dimension};
use sowmark_core::quantity::{Dimension, Unit};
use sowmark_core::say;
use sowmark_core::seed::{Establishment, HardSeed, Plan, PureLiveSeed, seeds_per_kg, seeds_per_lb};
use sowmark_core::words::Words;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/rate-plan", Need::May(Permission::ReadLots), plants_page),
        crate::route!(page GET "/rate-plan/live", Need::May(Permission::ReadLots), live_page),
    ]
}

#[derive(Template)]
#[template(path = "plan/plan.html")]
struct PlanPage {
    page: Page,
    is_live: bool,
    lots: Vec<FormOption>,
    units: Vec<FormOption>,
    /// What was chosen, to go over to the other way with.
    chosen: String,
    form: Form,
    shown: Option<Shown>,
}

impl PlanPage {
    fn fields(&self) -> impl Iterator<Item = &FormField> {
        self.form.fields.iter().filter(|field| !DOUBTS.contains(&field.name.as_str()))
    }

    fn doubts(&self) -> impl Iterator<Item = &FormField> {
        self.form.fields.iter().filter(|field| DOUBTS.contains(&field.name.as_str()))
    }

    /// What is folded away stands open where something was typed or is wrong.
    fn doubts_open(&self) -> bool {
        self.doubts().any(|field| !field.value.is_empty() || field.error.is_some())
    }
}

/// What a plan comes to, as it is shown.
struct Shown {
    rate: String,
    unit: &'static str,
    also: String,
    says: String,
    roller: Option<Roller>,
    /// Why there is no roller speed though a unit was chosen.
    no_roller: Option<String>,
    working: Vec<Step>,
    /// How old the test is by which the lot's germination is known; none where it was not that germination that was reckoned with.
    age: Option<Age>,
}

/// The roller speed with the unit's number.
struct Roller {
    rpm: String,
    at: String,
    beyond: Option<String>,
    table_href: String,
    /// A catch for this plan, which is named on its sheet; none for who logs none.
    catch_href: Option<String>,
}

/// A line of the working.
struct Step {
    what: String,
    how: String,
    result: String,
}

impl Step {
    fn new(what: impl Into<String>, how: impl Into<String>, result: impl Into<String>) -> Self {
        Self { what: what.into(), how: how.into(), result: result.into() }
    }
}

async fn plants_page(signed: Signed, cookies: Cookies, RawQuery(query): RawQuery) -> Result<Response, Error> {
    plan_page(&signed, &cookies, Way::Plants, query.as_deref().unwrap_or_default()).await
}

async fn live_page(signed: Signed, cookies: Cookies, RawQuery(query): RawQuery) -> Result<Response, Error> {
    plan_page(&signed, &cookies, Way::Live, query.as_deref().unwrap_or_default()).await
}

async fn plan_page(signed: &Signed, cookies: &Cookies, way: Way, sent: &str) -> Result<Response, Error> {
    let posted = Posted(pairs(sent.as_bytes())?).spoken_in(signed.actor.language);
    let mut conn = signed.app.read().await?;
    let filled = Filled::of(&mut conn.cx(), signed, &posted).await?;
    let words = signed.actor.words();
    let title = match way {
        Way::Plants => say!(words, "plan-title"),
        Way::Live => say!(words, "plan-live-title"),
    };
    let ids = [("lot_id", filled.lot.as_ref().map(|lot| lot.id)), ("unit_id", filled.unit().map(|now| now.unit.id))];
    let chosen: Vec<_> = ids.iter().filter_map(|(name, id)| id.map(|id| format!("{name}={id}"))).collect();
    let mut page = PlanPage {
        page: Page::new(signed, cookies, title, "/lots"),
        is_live: way == Way::Live,
        lots: filled.lot_options(),
        units: filled.unit_options(),
        chosen: chosen.join("&"),
        form: form(way, &filled, signed.actor.units),
        shown: None,
    };
    if !posted.0.iter().any(|(name, _)| name == way.first_field()) {
        return show(&page);
    }
    match shown(&posted, &filled, way, signed.actor.units) {
        Ok(shown) => {
            page.form = page.form.again(&posted, &Error::Faults(Vec::new()));
            page.form.general.clear();
            page.shown = Some(shown);
            show(&page)
        }
        Err(error) => {
            page.form = page.form.again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &page)
        }
    }
}

type Driving = (f64, Unit<dimension::Speed>);

fn shown(posted: &Posted, filled: &Filled, way: Way, units: Units) -> Result<Shown, Error> {
    let speed = driving_speed(posted, units);
    let asked = input::read::<PlanAsked>(&query(posted))
        .and_then(|asked| Asked::read(&asked, units, Some(way)))
        .map_err(at_fields);
    let (asked, speed) = match (asked, speed) {
        (Ok(asked), Ok(speed)) => (asked, speed),
        (asked, speed) => return Err(together(asked.err(), speed.err())),
    };
    let answer = Answer::of(&asked).map_err(at_fields)?;
    let words = filled.words;
    let to_sow = answer.sown_rate();
    let mut working = working(&asked, &answer, words);
    let at_work = filled.at_work();
    let mut roller = None;
    if let (Some(Ok(at_work)), Some(speed)) = (&at_work, speed) {
        working.push(roller_step(at_work, to_sow, speed, words));
        roller = roller_speed(at_work, filled, (to_sow, asked.rate_unit), speed, &answer.says(words));
    }
    Ok(Shown {
        rate: words.print(to_sow, asked.rate_unit, 3),
        unit: asked.rate_unit.name(),
        also: other_rate(to_sow, asked.rate_unit, words),
        says: answer.says(words),
        no_roller: match at_work {
            Some(Err(why)) => Some(why),
            Some(Ok(_)) if speed.is_none() => Some(say!(words, "plan-give-speed")),
            _ => None,
        },
        roller,
        working,
        age: filled.age.clone().filter(|_| uses_known_germination(&asked, posted, filled)),
    })
}

/// Whether it was reckoned with a germination, and with the lot's own, as it was filled in.
fn uses_known_germination(asked: &Asked, posted: &Posted, filled: &Filled) -> bool {
    let is_used = match asked.wanted {
        Wanted::Plants { plan, .. } => !matches!(plan.establishment, Establishment::Given { .. }),
        Wanted::Live { .. } => true,
    };
    let known = filled.germination().text;
    is_used && !known.is_empty() && posted.text("germination_percent").trim() == known
}

/// The faults of both.
fn together(first: Option<Error>, second: Option<Error>) -> Error {
    match (first, second) {
        (Some(Error::Faults(first)), Some(Error::Faults(second))) => {
            Error::Faults(first.into_iter().chain(second).collect())
        }
        (Some(error), _) | (None, Some(error)) => error,
        (None, None) => Error::Faults(Vec::<Fault>::new()),
    }
}

fn driving_speed(posted: &Posted, units: Units) -> Result<Option<Driving>, Error> {
    let sent = posted.query();
    let text = |name: &str| sent.get(name).and_then(serde_json::Value::as_str);
    let Some(number) = text("speed") else { return Ok(None) };
    let mut faults = Faults::default();
    let default = if units == Units::Us { unit::MPH } else { unit::KM_PER_H };
    let read = quantity::asked(&mut faults, "speed", Some(number), text("speed_unit"), default);
    faults.finish(read).map(Some)
}

fn in_unit<D: Dimension>(si: f64, unit: Unit<D>, words: Words) -> String {
    format!("{} {unit}", words.print(si, unit, 3))
}

/// The same rate in the other system's unit.
fn other_rate(rate: f64, shown: Unit<dimension::Rate>, words: Words) -> String {
    let other = if shown == unit::KG_PER_HA { unit::LB_PER_AC } else { unit::KG_PER_HA };
    in_unit(rate, other, words)
}

fn both_rates(rate: f64, shown: Unit<dimension::Rate>, words: Words) -> String {
    format!("{} ({})", in_unit(rate, shown, words), other_rate(rate, shown, words))
}

fn per_area(per_m2: f64, words: Words) -> String {
    let per_ft2 = words.number(per_m2 * SQUARE_FOOT, 3);
    say!(words, "plan-step-per-area", per_m2 = words.number(per_m2, 3), per_ft2 = per_ft2)
}

fn working(asked: &Asked, answer: &Answer, words: Words) -> Vec<Step> {
    let mut steps = match asked.wanted {
        Wanted::Plants { plan, purity, .. } => plants_steps(asked, answer, (plan, purity), words),
        Wanted::Live { lot, rate, .. } => live_steps(asked, answer, lot, rate, words),
    };
    if let Some((along, spacing)) = answer.per_metre_of_row.zip(asked.row_spacing) {
        let how = say!(words, "plan-step-along-how", spacing = in_unit(spacing, unit::CM, words));
        let (per_m, per_ft) = (words.number(along, 3), words.number(along * 0.3048, 3));
        let result = say!(words, "plan-step-along-result", per_m = per_m, per_ft = per_ft);
        steps.push(Step::new(say!(words, "plan-step-along"), how, result));
    }
    if let Some((bushels, density)) = answer.bushels_per_m2.zip(asked.bulk_density) {
        let how = say!(words, "plan-step-bushels-how", density = in_unit(density, unit::LB_PER_BU, words));
        let result = format!("{} bu/ac", words.number(bushels * unit::AC.in_si(), 3));
        steps.push(Step::new(say!(words, "plan-step-bushels"), how, result));
    }
    if let Some(range) = answer.range {
        let (min, max) = (words.print(range.min, asked.rate_unit, 3), words.print(range.max, asked.rate_unit, 3));
        let unit = asked.rate_unit.name();
        let result = say!(words, "plan-step-range-result", least = min, most = max, unit = unit);
        steps.push(Step::new(say!(words, "plan-step-range"), say!(words, "plan-step-range-how"), result));
    }
    steps
}

fn plants_steps(asked: &Asked, answer: &Answer, (plan, purity): (Plan, Option<f64>), words: Words) -> Vec<Step> {
    let mut steps = vec![Step::new(say!(words, "plan-step-plants"), "", per_area(plan.plants_per_m2, words))];
    if let Some((_, percent)) = answer.establishment {
        let how = stand_in_words(plan.establishment, words);
        steps.push(Step::new(say!(words, "plan-step-come-up"), how, words.percent(percent)));
    }
    if let Some(seeds) = answer.seeds_per_m2 {
        let how = say!(words, "plan-step-seeds-how");
        steps.push(Step::new(say!(words, "plan-step-seeds"), how, per_area(seeds, words)));
    }
    steps.extend(answer.thousand_seed_weight_g.map(|weight| weight_step(weight, words)));
    let rate = both_rates(answer.rate, asked.rate_unit, words);
    steps.push(Step::new(say!(words, "plan-step-rate"), say!(words, "plan-step-rate-how"), rate));
    if let Some((rate, purity)) = answer.rate_from_bag.zip(purity) {
        let how = say!(words, "plan-step-bag-how", purity = words.exactly(purity));
        steps.push(Step::new(say!(words, "plan-step-bag"), how, both_rates(rate, asked.rate_unit, words)));
    }
    steps
}

fn live_steps(asked: &Asked, answer: &Answer, lot: PureLiveSeed, rate: f64, words: Words) -> Vec<Step> {
    let wanted = say!(words, "plan-step-live-wanted");
    let mut steps = vec![Step::new(wanted, "", both_rates(rate, asked.rate_unit, words))];
    let how = alive_in_words(lot, words);
    let alive = say!(words, "plan-step-alive");
    steps.extend(lot.live_percent().ok().map(|live| Step::new(alive, how, words.percent(live))));
    if let Some((_, fraction)) = answer.live {
        let how = say!(words, "plan-step-live-in-bag-how", purity = words.exactly(lot.purity_percent));
        steps.push(Step::new(say!(words, "plan-step-live-in-bag"), how, words.percent(100.0 * fraction)));
    }
    let bag = both_rates(answer.rate, asked.rate_unit, words);
    steps.push(Step::new(say!(words, "plan-step-bag-rate"), say!(words, "plan-step-bag-rate-how"), bag));
    steps.extend(answer.thousand_seed_weight_g.map(|weight| weight_step(weight, words)));
    let counts = [
        ("plan-step-seeds", "plan-step-seeds-of-rate", answer.seeds_per_m2),
        ("plan-step-live-seeds", "plan-step-live-seeds-how", answer.live_seeds_per_m2),
    ];
    for (what, how, seeds) in counts {
        steps.extend(seeds.map(|seeds| Step::new(say!(words, what), say!(words, how), per_area(seeds, words))));
    }
    steps
}

/// What of the pure seed is alive.
fn alive_in_words(lot: PureLiveSeed, words: Words) -> String {
    let (hard_seed, hard) = match lot.hard_seed {
        HardSeed::NotStated => ("not-stated", String::new()),
        HardSeed::Counted(hard) => ("counted", words.exactly(hard)),
        HardSeed::LeftOut(hard) => ("left-out", words.exactly(hard)),
    };
    let germination = words.exactly(lot.germination_percent);
    say!(words, "plan-step-alive-how", hard_seed = hard_seed, germination = germination, hard = hard)
}

fn weight_step(weight: f64, words: Words) -> Step {
    // A seed weight of three digits says no more of a count in thousands.
    let rounded = |count: f64| format!("{count:.2e}").parse().unwrap_or(count);
    let count = |of: Result<f64, _>| of.map(|count: f64| words.number(rounded(count), 3)).unwrap_or_default();
    let (kg, lb) = (count(seeds_per_kg(weight)), count(seeds_per_lb(weight)));
    let how = say!(words, "plan-step-weight-how", per_kg = kg, per_lb = lb);
    let result = say!(words, "plan-step-weight-result", weight = words.number(weight, 3));
    Step::new(say!(words, "plan-step-weight"), how, result)
}

fn stand_in_words(stand: Establishment, words: Words) -> String {
    match stand {
        Establishment::Given { .. } => say!(words, "plan-step-establishment-given"),
        Establishment::Multiplied { germination_percent, emergence_percent } => say!(
            words,
            "plan-step-times-emergence",
            germination = words.exactly(germination_percent),
            emergence = words.exactly(emergence_percent)
        ),
        Establishment::Subtracted { germination_percent, loss_percent } => say!(
            words,
            "plan-step-less-loss",
            germination = words.exactly(germination_percent),
            loss = words.exactly(loss_percent)
        ),
    }
}

fn roller_step(at_work: &AtWork, rate: f64, (speed, speed_unit): Driving, words: Words) -> Step {
    let metering = at_work.metering;
    let how = say!(
        words,
        "plan-step-roller-how",
        width = in_unit(metering.working_width_m, unit::M, words),
        speed = in_unit(speed, speed_unit, words),
        runs = metering.runs_in_use.to_string(),
        factor = in_unit(metering.factor, unit::G_PER_REV, words)
    );
    let rpm = metering.roller_speed_rpm(rate, speed).map(|rpm| format!("{} rpm", words.number(rpm, 3)));
    Step::new(say!(words, "plan-step-roller"), how, rpm.unwrap_or_default())
}

fn roller_speed(
    at_work: &AtWork,
    filled: &Filled,
    (rate, rate_unit): (f64, Unit<dimension::Rate>),
    (speed, speed_unit): Driving,
    says: &str,
) -> Option<Roller> {
    let (now, words) = (filled.unit()?, filled.words);
    let rpm = at_work.metering.roller_speed_rpm(rate, speed)?;
    let beyond = at_work.drive.filter(|drive| !drive.holds(rpm)).map(|drive| {
        let (least, most) = (words.exactly(drive.min_rpm), words.exactly(drive.max_rpm));
        say!(words, "plan-beyond-drive", least = least, most = most)
    });
    let part = |text: &str| percent_encoding::utf8_percent_encode(text, percent_encoding::NON_ALPHANUMERIC).to_string();
    let planned = |before: &str| {
        format!(
            "{before}rate/value={}&{before}rate/unit={}&{before}speed/value={}&{before}speed/unit={}",
            part(&words.print(rate, rate_unit, 4)),
            part(rate_unit.name()),
            part(&words.print(speed, speed_unit, 4)),
            part(speed_unit.name()),
        )
    };
    let unit = now.unit.id;
    let catch_href = filled.may_log.then(|| {
        let (note, rpm) = (say!(words, "plan-noted", how = says), words.number(rpm, 3));
        let lot = filled.lot.as_ref().map(|lot| format!("&lot_id={}", lot.id)).unwrap_or_default();
        let (planned, note, rpm) = (planned("planned/"), part(&note), part(&rpm));
        format!("/metering-units/{unit}/catch?{planned}&roller_speed_rpm={rpm}&note={note}{lot}")
    });
    let table_href = format!("/metering-units/{unit}/rate?{}", planned(""));
    Some(Roller {
        rpm: words.number(rpm, 3),
        at: say!(
            words,
            "plan-roller-at",
            speed = in_unit(speed, speed_unit, words),
            seeder = &now.unit.seeder,
            unit = &now.unit.label
        ),
        beyond,
        table_href,
        catch_href,
    })
}
