//! The pages of an import: which columns a kind has and where its file is chosen; how far it is; what was found.

use super::act;
use super::kind::Imported;
use super::sheet::{LARGEST, text_of};
use super::store::{self, EntryRow, ImportRow};
use crate::access::Permission;
use crate::saying;
use crate::web::api::PathId;
use crate::web::assets;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Posted, pairs};
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::routes::{Need, Route};
use crate::web::upload::Uploaded;
use askama::Template;
use axum::extract::{Path, RawQuery, Request};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::say;
use sowmark_core::words::{DecimalSign, Words};

/// How many entries a page shows.
const SHOWN: i64 = 100;

pub(in crate::exchange) fn routes() -> Vec<Route> {
    let keep = Need::May(Permission::KeepFleet);
    vec![
        crate::route!(page GET "/exchange/import/{kind}", keep, import_page),
        crate::route!(page POST "/exchange/import/{kind}", keep, post_import),
        crate::route!(page GET "/exchange/import/{kind}/template.csv", keep, take_template),
        crate::route!(page GET "/exchange/imports/{id}", keep, show_import),
        crate::route!(page POST "/exchange/imports/{id}/store", keep, store_import),
        crate::route!(page POST "/exchange/imports/{id}/drop", keep, drop_import),
    ]
}

#[derive(Template)]
#[template(path = "exchange/import.html")]
struct ImportPage {
    page: Page,
    kind: &'static str,
    columns: Vec<ColumnLine>,
    error: Option<String>,
    most: usize,
}

/// A column, as the page names it.
struct ColumnLine {
    heading: String,
    is_required: bool,
    example: &'static str,
}

fn kind_of(word: &str) -> Result<Imported, Error> {
    Imported::from_word(word).ok_or_else(|| Error::not_there("page"))
}

fn page_of(signed: &Signed, cookies: &Cookies, kind: Imported, error: Option<&Error>) -> Result<Response, Error> {
    let words = signed.actor.words();
    let title = say!(words, "import-title", kind = kind.word());
    let columns = kind.columns().iter().map(|column| ColumnLine {
        heading: column.heading(signed.actor.units),
        is_required: column.is_required,
        example: column.example,
    });
    let status = if error.is_some() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK };
    let page = ImportPage {
        page: Page::new(signed, cookies, title, "/exchange"),
        kind: kind.word(),
        columns: columns.collect(),
        error: error.map(|error| error.detail(words)),
        most: LARGEST / 1024,
    };
    show_with(status, &page)
}

async fn import_page(signed: Signed, cookies: Cookies, Path(kind): Path<String>) -> Result<Response, Error> {
    page_of(&signed, &cookies, kind_of(&kind)?, None)
}

async fn take_template(signed: Signed, Path(kind): Path<String>) -> Result<Response, Error> {
    let kind = kind_of(&kind)?;
    let is_comma = signed.actor.decimal_sign == DecimalSign::Comma;
    let units = signed.actor.units;
    let mut lines = csv::WriterBuilder::new()
        .delimiter(if is_comma { b';' } else { b',' })
        .terminator(csv::Terminator::CRLF)
        .from_writer("\u{feff}".as_bytes().to_vec());
    lines.write_record(kind.columns().iter().map(|column| column.heading(units))).map_err(Error::broken)?;
    let written = |example: &str| if is_comma { decimal_comma(example) } else { example.to_owned() };
    lines.write_record(kind.columns().iter().map(|column| written(column.example))).map_err(Error::broken)?;
    let bytes = lines.into_inner().map_err(|_| Error::broken("a template could not be written to memory"))?;
    let name = format!("attachment; filename=\"sowmark-{}-template.csv\"", kind.word());
    let headers = [(header::CONTENT_TYPE, "text/csv; charset=utf-8".to_owned()), (header::CONTENT_DISPOSITION, name)];
    Ok((headers, bytes).into_response())
}

/// An example with a decimal comma, if it is a number.
fn decimal_comma(example: &str) -> String {
    if example.parse::<f64>().is_ok() { example.replace('.', ",") } else { example.to_owned() }
}

/// The file of a form.
async fn sent_file(request: Request) -> Result<Uploaded, Error> {
    match Uploaded::read(request, LARGEST).await {
        Ok(file) if !file.name.is_empty() || !file.bytes.is_empty() => Ok(file),
        Ok(_) | Err(Error::WrongType { .. }) => Err(Error::fault("/file", saying!("import-no-file"))),
        Err(error) => Err(error),
    }
}

async fn post_import(
    signed: Signed,
    cookies: Cookies,
    Path(kind): Path<String>,
    request: Request,
) -> Result<Response, Error> {
    let kind = kind_of(&kind)?;
    let begun = match sent_file(request).await {
        Ok(file) => match text_of(&file.bytes) {
            Ok(text) => act::begin(&signed, kind, &file.name, text).await,
            Err(says) => Err(Error::fault("/file", says)),
        },
        Err(error) => Err(error),
    };
    match begun {
        Ok(id) => Ok(Redirect::to(&format!("/exchange/imports/{id}")).into_response()),
        Err(error @ (Error::Faults(_) | Error::TooLarge { .. })) => page_of(&signed, &cookies, kind, Some(&error)),
        Err(error) => Err(error),
    }
}

#[derive(Template)]
#[template(path = "exchange/found.html")]
struct FoundPage {
    page: Page,
    row: ImportRow,
    /// How far it is, while somebody is at work.
    progress: Option<String>,
    /// What became of the entries, in sentences.
    counts: Vec<String>,
    good: i64,
    faulty: Vec<EntryLine>,
    entries: Vec<EntryLine>,
    next: Option<i64>,
    script_href: String,
}

/// An entry, as its row shows it.
struct EntryLine {
    row: i64,
    called: String,
    outcome: String,
    faults: Vec<String>,
}

impl EntryLine {
    fn of(row: EntryRow, words: Words) -> Self {
        Self {
            row: row.row_number,
            outcome: say!(words, "import-outcome", outcome = &row.outcome),
            faults: serde_json::from_str(&row.faults).unwrap_or_default(),
            called: row.called,
        }
    }
}

async fn show_import(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    RawQuery(query): RawQuery,
) -> Result<Response, Error> {
    let row = act::find(&signed, id).await?;
    act::go_on(&signed, &row).await?;
    let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?);
    let after = posted.text("after").parse().unwrap_or(0);
    let (words, scope) = (signed.actor.words(), &signed.actor.scope);
    let is_under_way = matches!(row.stage.as_str(), "checking" | "storing");
    let mut conn = signed.app.read().await?;
    let mut found = (Vec::new(), Vec::new(), Vec::new());
    if !is_under_way {
        found.0 = store::counts(&mut conn.cx(), scope, id).await?;
        found.1 = store::faulty(&mut conn.cx(), scope, id, SHOWN).await?;
        found.2 = store::entries(&mut conn.cx(), scope, id, after, SHOWN + 1).await?;
    }
    drop(conn);
    let (counts, faulty, mut entries) = found;
    let more = i64::try_from(entries.len()).is_ok_and(|count| count > SHOWN);
    if more {
        entries.pop();
    }
    let next = if more { entries.last().map(|entry| entry.row_number) } else { None };
    let count_of = |word: &str| counts.iter().find(|(outcome, _)| outcome == word).map_or(0, |(_, count)| *count);
    let said_count = |word: &str| {
        let count = u64::try_from(count_of(word)).unwrap_or(0);
        (count > 0).then(|| say!(words, "import-count", outcome = word, count = count))
    };
    let kind = kind_of(&row.kind)?;
    let progress = is_under_way.then(|| {
        let (done, all) = (row.done.to_string(), row.entries.to_string());
        say!(words, "import-progress", stage = &row.stage, done = done, all = all)
    });
    let good = if row.stage == "checked" { count_of("good") } else { 0 };
    show(&FoundPage {
        page: Page::new(&signed, &cookies, say!(words, "import-title", kind = kind.word()), "/exchange"),
        progress,
        counts: ["good", "stored", "already", "left_out", "faulty"].into_iter().filter_map(said_count).collect(),
        good,
        faulty: faulty.into_iter().map(|row| EntryLine::of(row, words)).collect(),
        entries: entries.into_iter().map(|row| EntryLine::of(row, words)).collect(),
        next,
        script_href: assets::href("import.js"),
        row,
    })
}

async fn store_import(signed: Signed, PathId(id): PathId) -> Result<Response, Error> {
    act::store_good(&signed, id).await?;
    Ok(Redirect::to(&format!("/exchange/imports/{id}")).into_response())
}

async fn drop_import(signed: Signed, PathId(id): PathId) -> Result<Response, Error> {
    act::drop_it(&signed, id).await?;
    Ok(Redirect::to(&format!("/exchange/imports/{id}")).into_response())
}
