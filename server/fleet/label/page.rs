//! The label of one seeder, the sheet of labels that the office prints, and the short address on both.

use super::code::Code;
use super::paper::Paper;
use super::short;
use crate::access::Permission;
use crate::fleet::seeder::act::{SeederRow, find_seeder, seeders};
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{FormField, FormOption, Posted, pairs};
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::{Path, RawQuery};
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::SeederId;
use sowmark_core::say;
use sowmark_core::words::Words;

pub(in crate::fleet) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/seeders/{id}/label", Need::May(Permission::ReadFleet), label_page),
        crate::route!(page GET "/seeders/labels", Need::May(Permission::KeepFleet), labels_page),
        crate::route!(page GET "/s/{digits}", Need::May(Permission::ReadFleet), short_address),
    ]
}

/// What stands on a label.
struct Label {
    name: String,
    serial_number: Option<String>,
    code: Code,
    /// Of the short address: the host, without the scheme, and the path.
    host: String,
    path: String,
}

impl Label {
    fn of(seeder: SeederRow, base: &str, words: Words) -> Result<Self, Error> {
        // Without the scheme: a browser finds it, and every sign less is one that is not mistyped.
        let host = base.split_once("://").map_or(base, |(_, host)| host);
        Ok(Self {
            code: code_of(&seeder, base, words)?,
            host: host.to_owned(),
            path: short::path(seeder.id),
            name: seeder.name,
            serial_number: seeder.serial_number,
        })
    }
}

/// The code that opens a seeder's page.
///
/// # Errors
/// For an address that no code can hold.
pub fn code_of(seeder: &SeederRow, base: &str, words: Words) -> Result<Code, Error> {
    let says = say!(words, "label-code", seeder = &seeder.name);
    Code::of(&format!("{base}/seeders/{}", seeder.id), says)
}

/// Whether only the machine that the server runs on can reach the address. A label with it opens nothing on a phone.
fn is_of_this_machine_only(base: &str) -> bool {
    let host = base.split_once("://").map_or(base, |(_, host)| host);
    ["localhost", "127.", "[::1]"].iter().any(|own| host.starts_with(own))
}

#[derive(Template)]
#[template(path = "fleet/label.html")]
struct LabelPage {
    page: Page,
    seeder_id: uuid::Uuid,
    label: Label,
    unreachable: Option<String>,
    may_keep: bool,
}

fn unreachable(base: &str, words: Words) -> Option<String> {
    is_of_this_machine_only(base).then(|| say!(words, "label-unreachable", address = base, option = "--public-url"))
}

async fn label_page(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    headers: HeaderMap,
) -> Result<Response, Error> {
    let seeder = find_seeder(&mut signed.app.read().await?.cx(), &signed.actor.scope, SeederId(id)).await?;
    let (base, words) = (signed.app.base(&headers), signed.actor.words());
    show(&LabelPage {
        page: Page::new(&signed, &cookies, say!(words, "label-title", seeder = &seeder.name), "/seeders"),
        seeder_id: id,
        label: Label::of(seeder, &base, words)?,
        unreachable: unreachable(&base, words),
        may_keep: signed.actor.may(Permission::KeepFleet),
    })
}

#[derive(Template)]
#[template(path = "fleet/labels.html")]
struct LabelsPage {
    page: Page,
    seeders: Vec<FormOption>,
    paper_field: FormField,
    paper: Paper,
    lines: bool,
    sheets: Vec<Vec<Label>>,
    unreachable: Option<String>,
}

async fn labels_page(
    signed: Signed,
    cookies: Cookies,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
) -> Result<Response, Error> {
    let asked = Posted(pairs(query.unwrap_or_default().as_bytes())?);
    // First opened, all are ticked; once the form was sent, those that are ticked in it.
    let is_first = asked.text("paper").is_empty();
    let known = Paper::ALL.iter().copied();
    let paper = known.into_iter().find(|paper| paper.word() == asked.text("paper")).unwrap_or(Paper::A4);
    let (base, words) = (signed.app.base(&headers), signed.actor.words());
    let (mut options, mut labels) = (Vec::new(), Vec::new());
    for seeder in seeders(&mut signed.app.read().await?.cx(), &signed.actor.scope).await? {
        let id = seeder.id.to_string();
        let selected = is_first || asked.all("seeder").any(|ticked| ticked == id);
        options.push(FormOption { value: id, label: seeder.name.clone(), selected });
        if selected {
            labels.push(Label::of(seeder, &base, words)?);
        }
    }
    let papers = Paper::ALL.iter().map(|paper| (paper.word(), paper.says(words)));
    show(&LabelsPage {
        page: Page::new(&signed, &cookies, say!(words, "labels-title"), "/seeders"),
        seeders: options,
        paper_field: FormField::new("paper", say!(words, "labels-paper")).choice(papers).value(paper.word()),
        paper,
        lines: is_first || !asked.text("lines").is_empty(),
        sheets: in_sheets(labels, paper.labels()),
        unreachable: unreachable(&base, words),
    })
}

fn in_sheets(labels: Vec<Label>, size: usize) -> Vec<Vec<Label>> {
    let mut sheets: Vec<Vec<Label>> = Vec::new();
    for label in labels {
        match sheets.last_mut().filter(|sheet| sheet.len() < size) {
            Some(sheet) => sheet.push(label),
            None => sheets.push(vec![label]),
        }
    }
    sheets
}

async fn short_address(
    signed: Signed,
    digits: Result<Path<String>, axum::extract::rejection::PathRejection>,
) -> Result<Response, Error> {
    let missing = || Error::not_there("seeder");
    let Path(digits) = digits.map_err(|_| missing())?;
    let mut found = seeders(&mut signed.app.read().await?.cx(), &signed.actor.scope).await?;
    found.retain(|seeder| short::is_of(&digits, seeder.id));
    match found.as_slice() {
        [] => Err(missing()),
        [seeder] => Ok(Redirect::to(&format!("/seeders/{}", seeder.id)).into_response()),
        // The digits are short: where two seeders share them, the person knows which one they stand before.
        _ => Ok(Redirect::to("/seeders").into_response()),
    }
}
