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
use crate::records::timeline::{self, TimelineRow};
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
use sowmark_core::ids::SeederId;
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
    kind: &'static str,
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
    let (scope, now) = (&signed.actor.scope, signed.app.clock.now());
    let units = act::units(&mut conn.cx(), scope).await?;
    let mut seeders = Vec::new();
    for seeder in act::seeders(&mut conn.cx(), scope).await? {
        seeders.push(Listed {
            kind: said_kind(&seeder.kind),
            units: units.iter().filter(|unit| unit.seeder_id == seeder.id).map(|unit| unit.label.clone()).collect(),
            laid_up: lay_ups::in_force(&mut conn.cx(), scope, SeederId(seeder.id), now)
                .await?
                .is_some_and(|lay_up| lay_up.laid_up),
            seeder,
        });
    }
    let page = Page::new(&signed, &cookies, "Seeders", "/seeders");
    show(&SeedersPage { page, seeders, may_keep: signed.actor.may(Permission::KeepFleet) })
}

fn said_kind(word: &str) -> &'static str {
    SeederKind::from_word(word).map_or("seeder", SeederKind::said)
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
    let page = Page::new(signed, cookies, "Add a seeder", "/seeders");
    FormPage::new(page, form).intro(
        "A metering unit is one roller line under one tank. Name each as your people do; leave the rows that you do not \
         need empty.",
    )
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
    let mut fields = vec![
        FormField::new("name", "Name").hint("What your people call the machine."),
        FormField::new("serial_number", "Serial number").optional(),
        FormField::new("kind", "Kind").choice(SeederKind::ALL.iter().map(|kind| (kind.word(), kind.said()))),
        FormField::new("commissioned_on", "Commissioned on")
            .kind(Kind::Date)
            .hint("From this day on its working width and row spacing hold."),
        FormField::new("working_width", "Working width").measured(wide, wide[0]),
        FormField::new("row_spacing", "Row spacing").measured(narrow, narrow[0]),
    ];
    for row in 0..UNIT_ROWS {
        let (name, number) = (|field: &str| format!("metering_units/{row}/{field}"), row + 1);
        let field = |of: &str, label: &str| {
            let field = FormField::new(name(of), format!("Metering unit {number}: {label}"));
            if row == 0 { field } else { field.optional() }
        };
        fields.push(field("label", "label"));
        fields.push(field("runs", "runs").kind(Kind::Whole).hint("How many seed lines it feeds."));
        fields.push(
            field("drive", "drive")
                .value("electric")
                .choice(Drive::ALL.iter().map(|drive| (drive.word(), drive.said()))),
        );
        fields.push(
            field("roller_speed_rpm/min", "lowest roller speed, 1/min")
                .kind(Kind::Number)
                .optional()
                .hint("The roller speeds that the drive can hold, where known."),
        );
        fields.push(field("roller_speed_rpm/max", "highest roller speed, 1/min").kind(Kind::Number).optional());
    }
    Form::new("/seeders", "Add the seeder", fields)
}

/// What is fitted to a unit now.
struct Fitted {
    unit: UnitRow,
    roller: Option<String>,
    ratio: String,
    gate: String,
    runs: String,
    since: String,
    drive: String,
    /// What its controller wants.
    keyed_in: String,
}

/// A record as the timeline shows it.
struct Told {
    id: Uuid,
    when: String,
    unit: String,
    says: String,
    by: String,
    fallen: Option<String>,
    href: Option<String>,
    may_void: bool,
}

#[derive(Template)]
#[template(path = "fleet/seeder.html")]
struct SeederPage {
    page: Page,
    seeder: SeederRow,
    kind: &'static str,
    laid_up: bool,
    width: String,
    spacing: String,
    lines: Vec<Line>,
    fitted: Vec<Fitted>,
    /// Each unit's factors over time and over the roller speed.
    charts: Vec<(String, Vec<Figure>)>,
    timeline: Vec<Told>,
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
        charts.push((unit.label.clone(), calibration::charts::of_unit(cx, &signed, unit.id()).await?));
        fitted.push(Fitted::of(unit, setup, &signed.actor));
    }
    let told = timeline::page_of_timeline(cx, &signed.actor, id, &asked).await?;
    let page = Page::new(&signed, &cookies, seeder.name.clone(), "/seeders");
    show(&SeederPage {
        kind: said_kind(&seeder.kind),
        laid_up: lay_ups::in_force(cx, scope, id, now).await?.is_some_and(|lay_up| lay_up.laid_up),
        width: configuration.as_ref().map(|row| signed.actor.reader().measured(&row.working_width)).unwrap_or_default(),
        spacing: configuration.as_ref().map(|row| signed.actor.reader().measured(&row.row_spacing)).unwrap_or_default(),
        lines: board::lines_of(cx, &signed, id).await?,
        fitted,
        charts: charts.into_iter().filter(|(_, figures)| !figures.is_empty()).collect(),
        timeline: told.items.iter().map(|row| Told::of(row, &signed)).collect(),
        older: told.next,
        code: label::code_of(&seeder, &signed.app.base(&headers))?,
        may_log: signed.actor.may(Permission::Log),
        may_keep: signed.actor.may(Permission::KeepFleet),
        page,
        seeder,
    })
}

impl Fitted {
    fn of(unit: UnitRow, setup: Option<setups::SetupRow>, actor: &Actor) -> Self {
        let words = actor.words();
        let said = unit.keyed_in.0;
        let keyed_in = key_in::in_words(said, actor.reader());
        let keyed_in = if said.is_some() { keyed_in } else { format!("nobody has said; shown as {keyed_in}") };
        let drive = Drive::from_word(&unit.drive).map_or("drive", Drive::said);
        let drive = match (&unit.roller_speed_min, &unit.roller_speed_max) {
            (Some(min), Some(max)) => format!("{drive}, {} to {} 1/min", words.decimal(min), words.decimal(max)),
            _ => drive.to_owned(),
        };
        let Some(setup) = setup else {
            let nothing = String::new;
            return Self {
                unit,
                roller: None,
                ratio: nothing(),
                gate: nothing(),
                runs: nothing(),
                since: nothing(),
                drive,
                keyed_in,
            };
        };
        Self {
            roller: Some(setup.roller.clone()),
            ratio: words.decimal(&setup.drive_ratio),
            gate: setup.gate.clone().unwrap_or_else(|| "none".to_owned()),
            runs: format!("{} of {}", setup.runs, unit.runs),
            since: setup.head.when(&actor.time_zone, words),
            drive,
            keyed_in,
            unit,
        }
    }
}

impl Told {
    fn of(row: &TimelineRow, signed: &Signed) -> Self {
        let (zone, words) = (&signed.actor.time_zone, signed.actor.words());
        let may_void = signed.actor.may_amend(row.head.recorded(), row.head.recorded_by, signed.app.clock.now());
        Self {
            id: row.head.id,
            when: row.head.when(zone, words),
            unit: row.unit.clone().unwrap_or_default(),
            says: row.says(signed.actor.reader()),
            by: row.head.by_line(words),
            fallen: row.head.fallen(zone, words),
            href: (row.head.kind == "calibration").then(|| format!("/calibrations/{}", row.head.id)),
            may_void: row.head.stands() && may_void,
        }
    }
}
