//! The pages of seasons: the list, and the form that adds one.

use super::act::{self, SeasonDraft};
use crate::access::Permission;
use crate::records::head::said_day;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, FormPage, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::{IntoResponse, Redirect, Response};
use serde_json::Value;
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/seasons", Need::May(Permission::KeepFleet), seasons_page),
        crate::route!(page GET "/seasons/new", Need::May(Permission::KeepFleet), new_season_page),
        crate::route!(page POST "/seasons", Need::May(Permission::KeepFleet), post_season),
    ]
}

/// A season in the list.
struct Listed {
    id: Uuid,
    name: String,
    starts_on: String,
    crops: String,
}

#[derive(Template)]
#[template(path = "fleet/seasons.html")]
struct SeasonsPage {
    page: Page,
    seasons: Vec<Listed>,
}

async fn seasons_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let words = signed.actor.words();
    let mut seasons = Vec::new();
    for season in act::seasons(&mut conn.cx(), &signed.actor.scope).await? {
        let crops = season.crop_list()?.filter(|crops| !crops.is_empty());
        seasons.push(Listed {
            id: season.id,
            crops: crops.map_or_else(|| say!(words, "seasons-all-crops"), |crops| crops.join(", ")),
            name: season.name,
            starts_on: said_day(&season.starts_on, words),
        });
    }
    show(&SeasonsPage { page: Page::new(&signed, &cookies, say!(words, "seasons-title"), "/keeping"), seasons })
}

async fn new_season_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    page_of(&signed, &cookies, season_form(&signed)?).show()
}

async fn post_season(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    let sent = with_crops(posted.tree(&signed.actor.time_zone));
    let added = match input::read::<SeasonDraft>(&sent) {
        Ok(draft) => act::add_season(&signed, draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(_) => Ok(Redirect::to("/seasons").into_response()),
        Err(error) => page_of(&signed, &cookies, season_form(&signed)?.again(&posted, &error)).show(),
    }
}

fn with_crops(mut sent: Value) -> Value {
    if let Some(typed) = sent.get("crops") {
        sent["crops"] = crops_typed(typed);
    }
    sent
}

/// The crops are typed in one line, with commas between them.
pub(super) fn crops_typed(typed: &Value) -> Value {
    let Some(text) = typed.as_str() else { return typed.clone() };
    text.split(',').map(str::trim).filter(|crop| !crop.is_empty()).collect()
}

fn page_of(signed: &Signed, cookies: &Cookies, form: Form) -> FormPage {
    let words = signed.actor.words();
    FormPage::new(Page::new(signed, cookies, say!(words, "seasons-add"), "/keeping"), form)
        .intro(say!(words, "season-intro"))
}

fn season_form(signed: &Signed) -> Result<Form, Error> {
    let words = signed.actor.words();
    Ok(Form::new("/seasons", say!(words, "season-submit"), season_fields(words)).creating(signed.app.clock.new_id()?))
}

pub(super) fn season_fields(words: Words) -> Vec<FormField> {
    vec![
        FormField::new("name", say!(words, "season-name")).hint(say!(words, "season-name-hint")),
        FormField::new("starts_on", say!(words, "season-first-day")).kind(Kind::Date),
        FormField::new("crops", say!(words, "season-crops")).hint(say!(words, "season-crops-hint")).optional(),
    ]
}
