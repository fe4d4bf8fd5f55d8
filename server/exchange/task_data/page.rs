//! The pages of task data: send a file; look at what its tasks would become, say what its names mean, and store them.

use super::act::{self, Outlook, Seen, Standing};
use super::draft::ImportDraft;
use super::lines::{Line, Other, Said, hectares, kg_per_ha, kilograms, revolutions};
use crate::access::{Permission, Units};
use crate::records::head::{moment, said};
use crate::saying;
use crate::seed::client::act::clients_in_choice;
use crate::seed::field::act::fields_in_choice;
use crate::seed::job::act::SeedUsedBasis;
use crate::seed::lot::act::lots_in_choice;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::{Error, Fault};
use crate::web::form::{Form, FormField, Kind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page, show_with};
use crate::web::reader::Reader;
use crate::web::routes::{Need, Route};
use crate::web::upload::{LARGEST_FILE, Uploaded};
use askama::Template;
use axum::extract::Request;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use jiff::tz::TimeZone;
use sowmark_core::quantity::unit;
use sowmark_core::say;
use sowmark_core::task_data::{Finding, Setpoint};
use sowmark_core::words::Words;
use uuid::Uuid;

const HERE: &str = "/exchange/task-data";

pub(super) fn routes() -> Vec<Route> {
    const KEEP: Need = Need::May(Permission::KeepFleet);
    vec![
        crate::route!(page GET "/exchange/task-data", KEEP, task_data_page),
        crate::route!(page POST "/exchange/task-data", KEEP, post_task_data),
        crate::route!(page GET "/exchange/task-data/{id}", KEEP, task_file_page),
        crate::route!(page POST "/exchange/task-data/{id}", KEEP, post_task_file),
    ]
}

/// A file that was sent.
struct FileLine {
    id: Uuid,
    name: String,
    when: String,
    who: String,
}

#[derive(Template)]
#[template(path = "exchange/task_data.html")]
struct TaskDataPage {
    page: Page,
    error: Option<String>,
    most: String,
    files: Vec<FileLine>,
}

async fn task_data_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    upload_page(&signed, &cookies, None).await
}

async fn upload_page(signed: &Signed, cookies: &Cookies, error: Option<Error>) -> Result<Response, Error> {
    let words = signed.actor.words();
    let mut conn = signed.app.read().await?;
    let files = act::last_files(&mut conn.cx(), &signed.actor.scope).await?;
    let files = files.into_iter().map(|file| FileLine {
        id: file.id,
        name: file.name,
        when: said(moment(file.recorded_at), &signed.actor.time_zone, words),
        who: file.sent_by.unwrap_or_default(),
    });
    let status = if error.is_some() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK };
    let error = error.map(|error| match error.faults().first() {
        Some(fault) => fault.says(words),
        None => error.detail(words),
    });
    let page = Page::new(signed, cookies, say!(words, "task-file-title"), "/keeping");
    let most = (LARGEST_FILE / 1024 / 1024).to_string();
    show_with(status, &TaskDataPage { page, error, most, files: files.collect() })
}

async fn post_task_data(signed: Signed, cookies: Cookies, request: Request) -> Result<Response, Error> {
    let taken = match Uploaded::read(request, LARGEST_FILE).await {
        Ok(file) if file.bytes.is_empty() => {
            Err(Error::Faults(vec![Fault::new("/file", saying!("task-file-not-chosen"))]))
        }
        Ok(file) => act::take_file(&signed, &file.name, file.bytes, "/file").await,
        Err(error) => Err(error),
    };
    match taken {
        Ok(id) => Ok(Redirect::to(&format!("{HERE}/{id}")).into_response()),
        Err(error @ (Error::Faults(_) | Error::TooLarge { .. })) => upload_page(&signed, &cookies, Some(error)).await,
        Err(error) => Err(error),
    }
}

/// A line as the page shows it.
struct Shown {
    /// The task and where.
    heading: String,
    /// Label and value.
    facts: Vec<(String, String)>,
    /// What it is, where it can become no job.
    standing: String,
    /// What has changed, where it is a job of other numbers.
    changes: Vec<String>,
    /// The seeder whose job it is.
    seeder: Option<Uuid>,
    faults: Vec<String>,
    remarks: Vec<String>,
    /// What is asked, where it can become a job.
    fields: Vec<FormField>,
}

#[derive(Template)]
#[template(path = "exchange/task_file.html")]
struct TaskFilePage {
    page: Page,
    form: Form,
    /// Lines that can become jobs, then those that are or cannot.
    open: Vec<Shown>,
    closed: Vec<Shown>,
    /// How many more can become jobs, once these have.
    later: usize,
    others: Vec<Shown>,
    remarks: Vec<String>,
}

/// How many lines are asked about at a time: a form must stay one that a phone can hold.
const AT_ONCE: usize = 50;

async fn task_file_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let outlook = look(&signed, id).await?;
    let form = form(&signed, &outlook);
    file_page(&signed, &cookies, &outlook, form)
}

async fn post_task_file(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let outlook = look(&signed, id).await?;
    let stored = match input::read::<ImportDraft>(&posted.tree(&signed.actor.time_zone)) {
        Ok(draft) => act::store_lines(&signed, &outlook, &draft.lines).await,
        Err(error) => Err(error),
    };
    match stored {
        Ok(_) => Ok(Redirect::to(&format!("{HERE}/{id}")).into_response()),
        Err(error) => {
            // Some may have become jobs before one was refused.
            let outlook = look(&signed, id).await?;
            let form = form(&signed, &outlook).again(&posted, &error);
            file_page(&signed, &cookies, &outlook, form)
        }
    }
}

async fn look(signed: &Signed, id: Uuid) -> Result<Outlook, Error> {
    let mut conn = signed.app.read().await?;
    act::outlook(&mut conn.cx(), &signed.actor.scope, &signed.actor.time_zone, id).await
}

/// The lines that are asked about, with their places in the file.
fn asked(outlook: &Outlook) -> impl Iterator<Item = (usize, &Seen)> {
    let open = outlook.seen.iter().enumerate().filter(|(_, seen)| matches!(seen.standing, Standing::New { .. }));
    open.take(AT_ONCE)
}

fn form(signed: &Signed, outlook: &Outlook) -> Form {
    let words = signed.actor.words();
    let fields =
        asked(outlook).enumerate().flat_map(|(at, (number, seen))| fields_of(signed, outlook, at, number, seen));
    Form::new(format!("{HERE}/{}", outlook.file.id), say!(words, "task-file-submit"), fields.collect())
}

/// The beginning of the names of a line's fields.
fn prefix(at: usize) -> String {
    format!("lines/{at}/")
}

fn fields_of(signed: &Signed, outlook: &Outlook, at: usize, number: usize, seen: &Seen) -> Vec<FormField> {
    let words = signed.actor.words();
    let (line, matched, known) = (&seen.line, &seen.matched, &outlook.known);
    let name = |field: &str| format!("{}{field}", prefix(at));
    let text = |id: Option<Uuid>| id.map(|id| id.to_string()).unwrap_or_default();
    let units = known.units.iter().map(|unit| {
        (unit.id.to_string(), say!(words, "task-file-unit-called", seeder = &unit.seeder, unit = &unit.label))
    });
    let none = || (String::new(), say!(words, "task-file-choose"));
    let lots = lots_in_choice(&known.lots, words);
    let rate_unit = match signed.actor.units {
        Units::Metric => "kg/ha",
        Units::Us => "lb/ac",
    };
    let (rate, rate_unit, rate_hint) = match line.setpoint {
        Some(Setpoint::Mass(rate)) => (kg_per_ha(rate), "kg/ha", String::new()),
        Some(Setpoint::Count(milli)) => {
            let seeds = words.short(milli as f64 / 1000.0, unit::M, 6);
            (String::new(), rate_unit, say!(words, "task-file-rate-by-count", seeds = seeds))
        }
        _ => (String::new(), rate_unit, say!(words, "task-file-rate-unknown")),
    };
    let mut fields = vec![
        FormField::hidden(name("line"), number.to_string()),
        FormField::new(name("store"), say!(words, "task-file-store")).kind(Kind::Check).value("true").optional(),
        FormField::new(name("unit"), say!(words, "task-file-unit"))
            .hint(line.machine())
            .value(text(matched.unit))
            .choice(std::iter::once(none()).chain(units)),
        FormField::new(name("lot"), say!(words, "task-file-lot"))
            .hint(line.product.clone().unwrap_or_else(|| say!(words, "task-file-product-unknown")))
            .value(text(matched.lot))
            .choice(std::iter::once(none()).chain(lots)),
    ];
    fields.extend(place_fields(outlook, seen, &name, words));
    fields.push(
        FormField::new(name("target_rate"), say!(words, "task-file-rate"))
            .hint(rate_hint)
            .value(words.decimal(&rate))
            .measured(&["kg/ha", "lb/ac"], rate_unit),
    );
    fields.push(basis_field(line, name("seed_used_basis"), signed.actor.reader()));
    fields
}

/// Where it was sown: one of our fields, a new one (and whose it is), or a name alone.
fn place_fields(outlook: &Outlook, seen: &Seen, name: &impl Fn(&str) -> String, words: Words) -> Vec<FormField> {
    let (line, known) = (&seen.line, &outlook.known);
    let text = |id: Option<Uuid>| id.map(|id| id.to_string()).unwrap_or_default();
    let mut places = vec![(String::new(), say!(words, "task-file-field-by-name", name = line.place()))];
    if let Some(field) = &line.field {
        places.push(("new".to_owned(), say!(words, "task-file-field-new", name = field)));
    }
    places.extend(fields_in_choice(&known.fields, words));
    let mut fields = vec![
        FormField::new(name("field"), say!(words, "task-file-field"))
            .value(text(seen.matched.field))
            .choice(places)
            .optional(),
    ];
    if line.field.is_some() && (line.customer.is_some() || !known.clients.is_empty()) {
        let mut owners = vec![(String::new(), say!(words, "client-own"))];
        if let Some(customer) = &line.customer {
            owners.push(("new".to_owned(), say!(words, "task-file-client-new", name = customer)));
        }
        owners.extend(clients_in_choice(&known.clients));
        fields.push(
            FormField::new(name("client"), say!(words, "task-file-client"))
                .hint(say!(words, "task-file-client-hint"))
                .value(text(seen.matched.client))
                .choice(owners)
                .optional(),
        );
    }
    fields
}

/// Which of the file's masses is the seed used.
fn basis_field(line: &Line, name: String, reader: Reader) -> FormField {
    let (words, mut masses) = (reader.words, Vec::new());
    if let Some(grams) = line.machine_g {
        let mass = reader.measured(&format!("{} kg", kilograms(grams, line.is_coarse)));
        masses.push((SeedUsedBasis::MachineTotal.word(), say!(words, "task-file-machine-mass", mass = mass)));
    }
    if let Some(grams) = line.balance_g {
        let mass = reader.measured(&format!("{} kg", kilograms(grams, false)));
        masses.push((SeedUsedBasis::Weighed.word(), say!(words, "task-file-balance-mass", mass = mass)));
    }
    let likely = masses.first().map(|(word, _)| *word).unwrap_or_default();
    FormField::new(name, say!(words, "task-file-seed-used"))
        .hint(say!(words, "job-basis-hint"))
        .value(likely)
        .choice(masses)
}

fn file_page(signed: &Signed, cookies: &Cookies, outlook: &Outlook, mut form: Form) -> Result<Response, Error> {
    let (words, zone) = (signed.actor.words(), &signed.actor.time_zone);
    let status = form.status();
    // The faults are told at the top with the fields as they are; below, each line has its own.
    let mut fields = form.fields.clone();
    let open = asked(outlook).enumerate().map(|(at, (_, seen))| {
        let own = prefix(at);
        let (of_line, rest) = std::mem::take(&mut fields).into_iter().partition(|field| field.name.starts_with(&own));
        fields = rest;
        Shown { fields: of_line, ..shown(seen, zone, signed.actor.reader()) }
    });
    let open: Vec<Shown> = open.collect();
    let is_open = |seen: &&Seen| matches!(seen.standing, Standing::New { .. });
    let closed = outlook.seen.iter().filter(|seen| !is_open(seen)).map(|seen| {
        let unit = outlook.known.units.iter().find(|unit| Some(unit.id) == seen.matched.unit);
        Shown { seeder: unit.map(|unit| unit.seeder_id), ..shown(seen, zone, signed.actor.reader()) }
    });
    let closed = closed.collect();
    let later = outlook.seen.iter().filter(is_open).count() - open.len();
    let others = outlook.sheet.others.iter().map(|other| other_shown(other, words)).collect();
    let page = Page::new(signed, cookies, &outlook.file.name, "/keeping");
    if open.is_empty() {
        form.submit = String::new();
    }
    let remarks = said_all(&outlook.sheet.remarks, words);
    show_with(status, &TaskFilePage { page, form, open, closed, later, others, remarks })
}

fn said_all(findings: &[Finding], words: Words) -> Vec<String> {
    findings.iter().map(|finding| finding.says(words)).collect()
}

fn other_shown(other: &Other, words: Words) -> Shown {
    let standing = if other.is_only_planned { say!(words, "task-file-planned") } else { String::new() };
    Shown {
        heading: other.name.clone().unwrap_or_else(|| other.task.clone()),
        facts: Vec::new(),
        standing,
        changes: Vec::new(),
        seeder: None,
        faults: said_all(&other.faults, words),
        remarks: Vec::new(),
        fields: Vec::new(),
    }
}

fn shown(seen: &Seen, zone: &TimeZone, reader: Reader) -> Shown {
    let words = reader.words;
    let line = &seen.line;
    let (standing, changes) = match &seen.standing {
        Standing::New { .. } => (String::new(), Vec::new()),
        Standing::Stored { .. } => (say!(words, "task-file-stored"), Vec::new()),
        Standing::Changed { was, .. } => (say!(words, "task-file-changed"), changes(was, line, zone, reader)),
        Standing::Twice => (say!(words, "task-file-twice"), Vec::new()),
        Standing::Faulty if line.start.is_none() && line.faults.is_empty() => {
            (say!(words, "task-file-no-time"), Vec::new())
        }
        Standing::Faulty => (say!(words, "task-file-faulty"), Vec::new()),
    };
    Shown {
        heading: say!(words, "task-file-line", task = line.task_called(), product = product(line, words)),
        facts: facts(line, zone, reader),
        standing,
        changes,
        seeder: None,
        faults: said_all(&line.faults, words),
        remarks: said_all(&line.remarks, words),
        fields: Vec::new(),
    }
}

fn product(line: &Line, words: Words) -> String {
    line.product.clone().unwrap_or_else(|| say!(words, "task-file-product-unknown"))
}

fn facts(line: &Line, zone: &TimeZone, reader: Reader) -> Vec<(String, String)> {
    let words = reader.words;
    let at = |when: Option<sowmark_core::task_data::When>| {
        when.and_then(|when| when.at(zone)).map(|at| said(at, zone, words))
    };
    let mass = |grams: i64, is_coarse: bool| {
        let mass = reader.measured(&format!("{} kg", kilograms(grams, is_coarse)));
        match line.area_m2 {
            Some(area) => {
                // Grams by square metre are a thousand times kilograms by it.
                let rate = reader.rate_sown(grams as f64 / area as f64 / 1000.0);
                say!(words, "task-file-mass-and-rate", mass = mass, rate = rate)
            }
            None => mass,
        }
    };
    let facts = [
        (say!(words, "task-file-field"), line.field.clone()),
        (say!(words, "task-file-customer"), line.customer.clone()),
        (say!(words, "task-file-machine"), Some(line.machine())),
        (say!(words, "job-began"), at(line.start)),
        (say!(words, "job-ended"), at(line.stop)),
        (say!(words, "job-area"), line.area_m2.map(|_| reader.measured(&format!("{} ha", line.hectares())))),
        (say!(words, "task-file-by-machine"), line.machine_g.map(|grams| mass(grams, line.is_coarse))),
        (say!(words, "task-file-by-balance"), line.balance_g.map(|grams| mass(grams, false))),
        (say!(words, "task-file-revolutions"), line.revolutions_e4.map(|count| words.decimal(&revolutions(count)))),
    ];
    facts.into_iter().filter_map(|(label, value)| Some((label, value?))).collect()
}

/// What the file says now and what the job was made of, where the two differ.
fn changes(was: &Said, line: &Line, zone: &TimeZone, reader: Reader) -> Vec<String> {
    let (is, words) = (line.said(zone), reader.words);
    let nothing = || say!(words, "task-file-nothing");
    let area = |m2: Option<i64>| m2.map_or_else(nothing, |m2| reader.measured(&format!("{} ha", hectares(m2))));
    let mass = |grams: Option<i64>| {
        grams.map_or_else(nothing, |grams| reader.measured(&format!("{} kg", kilograms(grams, false))))
    };
    let end = |at: Option<jiff::Timestamp>| at.map_or_else(nothing, |at| said(at, zone, words));
    let rows = [
        (say!(words, "job-area"), area(was.area_m2), area(is.area_m2)),
        (say!(words, "task-file-by-machine"), mass(was.machine_g), mass(is.machine_g)),
        (say!(words, "task-file-by-balance"), mass(was.balance_g), mass(is.balance_g)),
        (say!(words, "job-ended"), end(was.stop), end(is.stop)),
    ];
    let changed = rows.into_iter().filter(|(_, was, is)| was != is);
    changed.map(|(what, was, is)| say!(words, "task-file-change", what = what, was = was, is = is)).collect()
}
