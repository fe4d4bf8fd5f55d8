//! The pages of seeders: the list, the form that adds one, and the seeder's own page with its units and its timeline.

use super::act::{self, Drive, SeederDraft, SeederKind, SeederRow, UnitRow};
use super::key_in;
use crate::access::{Actor, Permission, Units};
use crate::calibration;
use crate::chart::Figure;
use crate::fleet::configuration::act as configurations;
use crate::fleet::label::{self, code::Code};
use crate::fleet::lay_up::act as lay_ups;
use crate::fleet::setup::act as setups;
use crate::readiness::board::{self, Line};
use crate::records::head::said_day;
use crate::records::timeline::{self, TimelineRow};
use crate::seed::lot::stock::CameIn;
use crate::usage;
use crate::web::api::{Asked, PathId};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, FormPage, Page, show};
use crate::web::paging::PageAsked;
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Redirect, Response};
use jiff::Timestamp;
use sowmark_core::ids::SeederId;
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/seeders", Need::May(Permission::ReadFleet), seeders_page),
        crate::route!(page GET "/seeders/new", Need::May(Permission::KeepFleet), new_seeder_page),
        crate::route!(page POST "/seeders", Need::May(Permission::KeepFleet), post_seeder),
        crate::route!(page GET "/seeders/{id}", Need::May(Permission::ReadFleet), seeder_page),
    ]
}

/// How many units the form has rows for; a machine with more is added through the API.
const UNIT_ROWS: usize = 4;

/// A seeder in the list.
struct Listed {
    seeder: SeederRow,
    kind: String,
    units: Vec<String>,
    laid_up: bool,
}

#[derive(Template)]
#[template(path = "fleet/seeders.html")]
struct SeedersPage {
    page: Page,
    seeders: Vec<Listed>,
    may_keep: bool,
}

async fn seeders_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let (scope, now, words) = (&signed.actor.scope, signed.app.clock.now(), signed.actor.words());
    let units = act::units(&mut conn.cx(), scope).await?;
    let mut seeders = Vec::new();
    for seeder in act::seeders(&mut conn.cx(), scope).await? {
        seeders.push(Listed {
            kind: said_kind(&seeder.kind, words),
            units: units.iter().filter(|unit| unit.seeder_id == seeder.id).map(|unit| unit.label.clone()).collect(),
            laid_up: lay_ups::in_force(&mut conn.cx(), scope, SeederId(seeder.id), now)
                .await?
                .is_some_and(|lay_up| lay_up.laid_up),
            seeder,
        });
    }
    let page = Page::new(&signed, &cookies, say!(words, "nav-seeders"), "/seeders");
    show(&SeedersPage { page, seeders, may_keep: signed.actor.may(Permission::KeepFleet) })
}

fn said_kind(word: &str, words: Words) -> String {
    SeederKind::from_word(word).map_or_else(|| word.to_owned(), |kind| kind.says(words))
}

async fn new_seeder_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let form = seeder_form(&signed).creating(signed.app.clock.new_id()?);
    page_of(&signed, &cookies, form).show()
}

async fn post_seeder(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    let posted = without_idle_rows(&posted);
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match input::read::<SeederDraft>(&sent) {
        Ok(draft) => act::add_seeder(&signed, draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(outcome) => Ok(Redirect::to(&format!("/seeders/{}", outcome.id())).into_response()),
        Err(error) => {
            let form = seeder_form(&signed).creating(signed.app.clock.new_id()?).again(&posted, &error);
            page_of(&signed, &cookies, form).show()
        }
    }
}

fn page_of(signed: &Signed, cookies: &Cookies, form: Form) -> FormPage {
    let words = signed.actor.words();
    let page = Page::new(signed, cookies, say!(words, "seeders-add"), "/seeders");
    FormPage::new(page, form).intro(say!(words, "seeder-new-intro"))
}

/// What was typed, without the rows of units that were left empty (a row's drive is always chosen), the others moved up:
/// a fault of the second unit then stands beside the second row.
fn without_idle_rows(posted: &Posted) -> Posted {
    let row = |number: usize| format!("metering_units/{number}/");
    let is_used = |number: &usize| {
        let typed = ["label", "runs", "roller_speed_rpm/min", "roller_speed_rpm/max"];
        typed.iter().any(|field| !posted.text(&format!("{}{field}", row(*number))).trim().is_empty())
    };
    let used: Vec<usize> = (0..UNIT_ROWS).filter(is_used).collect();
    let moved = |name: &str| {
        let number =
            name.strip_prefix("metering_units/").and_then(|rest| rest.split('/').next()?.parse::<usize>().ok());
        match number.filter(|number| *number < UNIT_ROWS) {
            None => Some(name.to_owned()),
            Some(number) => {
                let place = used.iter().position(|other| *other == number)?;
                Some(name.replacen(&row(number), &row(place), 1))
            }
        }
    };
    Posted(posted.0.iter().filter_map(|(name, text)| Some((moved(name)?, text.clone()))).collect())
}

fn seeder_form(signed: &Signed) -> Form {
    let (wide, narrow): (&[&str], &[&str]) = match signed.actor.units {
        Units::Metric => (&["m", "ft"], &["cm", "mm", "in"]),
        Units::Us => (&["ft", "m"], &["in", "cm", "mm"]),
    };
    let words = signed.actor.words();
    let mut fields = vec![
        FormField::new("name", say!(words, "seeder-name")).hint(say!(words, "seeder-name-hint")),
        FormField::new("serial_number", say!(words, "seeder-serial-number")).optional(),
        FormField::new("kind", say!(words, "seeder-kind"))
            .choice(SeederKind::ALL.iter().map(|kind| (kind.word(), kind.says(words)))),
        FormField::new("commissioned_on", say!(words, "seeder-commissioned-on"))
            .kind(Kind::Date)
            .hint(say!(words, "seeder-commissioned-on-hint")),
        FormField::new("working_width", say!(words, "seeder-working-width")).measured(wide, wide[0]),
        FormField::new("row_spacing", say!(words, "seeder-row-spacing")).measured(narrow, narrow[0]),
    ];
    for row in 0..UNIT_ROWS {
        let unit = unit_fields(row, words);
        fields.extend(unit.map(|field| if row == 0 { field } else { field.optional() }));
    }
    Form::new("/seeders", say!(words, "seeder-new-submit"), fields)
}

fn unit_fields(row: usize, words: Words) -> [FormField; 5] {
    let (name, number) = (|field: &str| format!("metering_units/{row}/{field}"), (row + 1).to_string());
    [
        FormField::new(name("label"), say!(words, "seeder-unit-label", number = &number)),
        FormField::new(name("runs"), say!(words, "seeder-unit-runs", number = &number))
            .kind(Kind::Whole)
            .hint(say!(words, "unit-runs-hint")),
        FormField::new(name("drive"), say!(words, "seeder-unit-drive", number = &number))
            .value("electric")
            .choice(Drive::ALL.iter().map(|drive| (drive.word(), drive.says(words)))),
        FormField::new(name("roller_speed_rpm/min"), say!(words, "seeder-unit-speed-least", number = &number))
            .kind(Kind::Number)
            .optional()
            .hint(say!(words, "unit-speed-hint")),
        FormField::new(name("roller_speed_rpm/max"), say!(words, "seeder-unit-speed-most", number = &number))
            .kind(Kind::Number)
            .optional(),
    ]
}

/// What is fitted to a unit now.
struct Fitted {
    unit: UnitRow,
    roller: Option<String>,
    ratio: String,
    gate: String,
    runs: String,
    drive: String,
    /// What its controller wants.
    keyed_in: String,
}

/// A record as the timeline shows it.
struct Told {
    id: Uuid,
    when: String,
    says: String,
    by: String,
    /// What is asked of its figures.
    asks: Vec<String>,
    fallen: Option<String>,
    href: Option<String>,
    may_void: bool,
}

#[derive(Template)]
#[template(path = "fleet/seeder.html")]
struct SeederPage {
    page: Page,
    seeder: SeederRow,
    /// What it is, its number, since when it is in service, in a line.
    about: String,
    laid_up: bool,
    width: String,
    spacing: String,
    lines: Vec<Line>,
    fitted: Vec<Fitted>,
    /// Each unit's factors over time and over the roller speed, and how its jobs agree with the number in force.
    charts: Vec<(String, Vec<Figure>)>,
    timeline: Vec<Told>,
    /// What is asked of records that came lately, with their ids: the timeline stands far down the page.
    lately: Vec<(Uuid, String)>,
    older: Option<String>,
    /// Opens this page, for the machine's door.
    code: Code,
    may_log: bool,
    may_keep: bool,
}

async fn seeder_page(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    Asked(asked): Asked<PageAsked>,
    headers: HeaderMap,
) -> Result<Response, Error> {
    let (scope, now) = (&signed.actor.scope, signed.app.clock.now());
    let id = SeederId(id);
    let mut conn = signed.app.read().await?;
    let cx = &mut conn.cx();
    let seeder = act::find_seeder(cx, scope, id).await?;
    let configuration = configurations::in_force(cx, scope, id, now).await?;
    let (mut fitted, mut charts) = (Vec::new(), Vec::new());
    for unit in act::units_of(cx, scope, id).await? {
        let setup = setups::in_force(cx, scope, unit.id(), now).await?;
        let mut figures = calibration::charts::of_unit(cx, &signed, unit.id()).await?;
        let drift = usage::act::drift_of_unit(cx, &signed, unit.id()).await?;
        let reader = signed.actor.reader();
        figures.extend(drift.map(|drift| usage::chart::figure(&drift, &signed.actor.time_zone, reader)));
        charts.push((unit.label.clone(), figures));
        fitted.push(Fitted::of(unit, setup, &signed.actor));
    }
    let told = timeline::page_of_timeline(cx, &signed.actor, id, &asked).await?;
    let came_in = CameIn::of_seeder(cx, &signed.actor, id).await?;
    let timeline: Vec<Told> =
        told.items.iter().map(|row| Told::of(row, &came_in, &signed)).collect::<Result<_, Error>>()?;
    let page = Page::new(&signed, &cookies, seeder.name.clone(), "/seeders");
    let laid_up = lay_ups::in_force(cx, scope, id, now).await?.is_some_and(|lay_up| lay_up.laid_up);
    show(&SeederPage {
        about: about(&seeder, laid_up, signed.actor.words()),
        laid_up,
        width: configuration.as_ref().map(|row| signed.actor.reader().measured(&row.working_width)).unwrap_or_default(),
        spacing: configuration.as_ref().map(|row| signed.actor.reader().measured(&row.row_spacing)).unwrap_or_default(),
        lines: board::lines_of(cx, &signed, id).await?,
        fitted,
        charts: charts.into_iter().filter(|(_, figures)| !figures.is_empty()).collect(),
        lately: lately(&told.items, &timeline, now),
        timeline,
        older: told.next,
        code: label::code_of(&seeder, &signed.app.base(&headers), signed.actor.words())?,
        may_log: signed.actor.may(Permission::Log),
        may_keep: signed.actor.may(Permission::KeepFleet),
        page,
        seeder,
    })
}

fn lately(rows: &[TimelineRow], timeline: &[Told], now: Timestamp) -> Vec<(Uuid, String)> {
    let new = rows.iter().zip(timeline).filter(|(row, told)| row.head.is_new(now) && !told.asks.is_empty());
    new.map(|(row, told)| (row.head.id, format!("{}: {}", told.when, told.asks.join(" ")))).collect()
}

/// What a seeder is, its number, since when it is in service, in a line.
pub(crate) fn about(seeder: &SeederRow, laid_up: bool, words: Words) -> String {
    let yes_or_no = |yes: bool| if yes { "yes" } else { "no" };
    say!(
        words,
        "seeder-about",
        kind = said_kind(&seeder.kind, words),
        numbered = yes_or_no(seeder.serial_number.is_some()),
        serial = seeder.serial_number.as_deref().unwrap_or_default(),
        day = said_day(&seeder.commissioned_on, words),
        laid_up = yes_or_no(laid_up),
    )
}

impl Fitted {
    fn of(unit: UnitRow, setup: Option<setups::SetupRow>, actor: &Actor) -> Self {
        let words = actor.words();
        let said = unit.keyed_in.0;
        let keyed_in = key_in::in_words(said, actor.reader());
        let keyed_in = if said.is_some() { keyed_in } else { say!(words, "key-in-not-said", form = keyed_in) };
        let drive = Drive::from_word(&unit.drive).map_or_else(|| unit.drive.clone(), |drive| drive.says(words));
        let drive = match (&unit.roller_speed_min, &unit.roller_speed_max) {
            (Some(min), Some(max)) => {
                let (least, most) = (words.decimal(min), words.decimal(max));
                say!(words, "drive-speeds", drive = drive, least = least, most = most)
            }
            _ => drive,
        };
        let Some(setup) = setup else {
            let nothing = String::new;
            return Self { unit, roller: None, ratio: nothing(), gate: nothing(), runs: nothing(), drive, keyed_in };
        };
        let (since, used, runs) =
            (setup.head.when(&actor.time_zone, words), setup.runs.to_string(), unit.runs.to_string());
        Self {
            roller: Some(say!(words, "setup-roller-since", roller = &setup.roller, since = since)),
            ratio: words.decimal(&setup.drive_ratio),
            gate: setup.gate.clone().unwrap_or_else(|| say!(words, "setup-gate-none")),
            runs: say!(words, "setup-runs-of", used = used, runs = runs),
            drive,
            keyed_in,
            unit,
        }
    }
}

impl Told {
    fn of(row: &TimelineRow, came_in: &CameIn, signed: &Signed) -> Result<Self, Error> {
        let (zone, words) = (&signed.actor.time_zone, signed.actor.words());
        let says = row.says(signed.actor.reader(), &signed.actor.scope);
        let says = match &row.unit {
            Some(unit) => say!(words, "timeline-of-unit", unit = unit, says = says),
            None => says,
        };
        Ok(Self {
            id: row.head.id,
            when: row.head.when(zone, words),
            says,
            by: row.head.by_line(words),
            asks: row.asks(came_in, signed.actor.reader(), &signed.actor.scope)?,
            fallen: row.head.fallen(&signed.actor),
            href: (row.head.kind == "calibration").then(|| format!("/calibrations/{}", row.head.id)),
            may_void: row.head.may_void(signed),
        })
    }
}
