//! The pages of crews: a name, and boxes to tick for its members and seeders.

use super::act::{self, Crew};
use crate::access::Permission;
use crate::db::kind::Kind;
use crate::people::act::{members, seeders};
use crate::people::draft::{CrewChange, CrewDraft};
use crate::people::page::role_in_words;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, FormOption, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use serde_json::{Value, json};
use sowmark_core::ids::CrewId;
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    let keep = Need::May(Permission::KeepFleet);
    vec![
        crate::route!(page GET "/crews/new", keep, new_crew_page),
        crate::route!(page POST "/crews", keep, post_crew),
        crate::route!(page GET "/crews/{id}", keep, crew_page),
        crate::route!(page POST "/crews/{id}", keep, post_crew_change),
    ]
}

#[derive(Template)]
#[template(path = "people/crew.html")]
struct CrewPage {
    page: Page,
    form: Form,
    members: Vec<FormOption>,
    seeders: Vec<FormOption>,
}

/// The boxes of a crew.
struct Boxes {
    members: Vec<FormOption>,
    seeders: Vec<FormOption>,
}

/// The boxes, of which these are ticked.
async fn boxes(signed: &Signed, ticked: impl Fn(&str, Uuid) -> bool) -> Result<Boxes, Error> {
    let mut conn = signed.app.read().await?;
    let organization = signed.actor.organization();
    let everybody = members(&mut conn.cx(), organization).await?;
    let machines = seeders(&mut conn.cx(), organization).await?;
    let option =
        |list: &str, id: Uuid, label: String| FormOption { value: id.to_string(), label, selected: ticked(list, id) };
    Ok(Boxes {
        members: everybody
            .into_iter()
            .filter(|member| member.active)
            .map(|member| option("members", member.account_id, member_in_words(&member.name, &member.role, signed)))
            .collect(),
        seeders: machines.into_iter().map(|(id, name)| option("seeders", id, name)).collect(),
    })
}

/// A crew's page.
fn page_of(signed: &Signed, cookies: &Cookies, title: &str, form: Form, boxes: Boxes) -> CrewPage {
    let Boxes { members, seeders } = boxes;
    CrewPage { page: Page::new(signed, cookies, title, "/people"), form, members, seeders }
}

fn member_in_words(name: &str, role: &str, signed: &Signed) -> String {
    let words = signed.actor.words();
    format!("{name} ({})", role_in_words(role, words))
}

fn form(action: &str, submit: String, words: Words) -> Form {
    let name = FormField::new("name", say!(words, "crew-name")).hint(say!(words, "crew-name-hint"));
    Form::new(action, submit, vec![name])
}

fn new_form(signed: &Signed) -> Result<Form, Error> {
    let words = signed.actor.words();
    Ok(form("/crews", say!(words, "crew-add-submit"), words).creating(signed.app.clock.new_id()?))
}

/// What there is of a crew: itself, its form, its boxes.
async fn known(signed: &Signed, id: Uuid) -> Result<(Crew, Form, Boxes), Error> {
    let crew = act::find_crew(&mut signed.app.read().await?.cx(), &signed.actor.scope, CrewId(id)).await?;
    let boxes = boxes(signed, |list, id| {
        let all = if list == "members" { &crew.members } else { &crew.seeders };
        all.iter().any(|(of, _)| *of == id)
    });
    let boxes = boxes.await?;
    let words = signed.actor.words();
    let mut form = form(&format!("/crews/{id}"), say!(words, "keep-the-change"), words);
    for field in &mut form.fields {
        field.value.clone_from(&crew.name);
    }
    let form = form.showing(&[("members", &boxes.members), ("seeders", &boxes.seeders)]);
    Ok((crew, form, boxes))
}

async fn new_crew_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let title = say!(signed.actor.words(), "crew-add");
    show(&page_of(&signed, &cookies, &title, new_form(&signed)?, boxes(&signed, |_, _| false).await?))
}

async fn post_crew(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    let mut sent = tree(&posted);
    sent["id"] = json!(posted.text("id"));
    let added = match input::read::<CrewDraft>(&sent) {
        Ok(draft) => act::add_crew(&signed, draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(_) => Ok(Redirect::to("/people").into_response()),
        Err(error) => {
            let form = new_form(&signed)?.again(&posted, &error);
            let title = say!(signed.actor.words(), "crew-add");
            let boxes = boxes(&signed, was_ticked(&posted)).await?;
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &page_of(&signed, &cookies, &title, form, boxes))
        }
    }
}

async fn crew_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let (crew, form, boxes) = known(&signed, id).await?;
    show(&page_of(&signed, &cookies, &crew.name, form, boxes))
}

async fn post_crew_change(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let signed = signed.as_of_now(&posted).await?;
    let (crew, form, _) = known(&signed, id).await?;
    let mine = form.mine(&signed, (Kind::Crew, Some(id)), &posted).await?;
    let wished = mine.may_be_stored().and_then(|()| input::read::<CrewChange>(&tree(&mine.posted)));
    let changed = match wished {
        Ok(_) if mine.is_nothing => Ok(()),
        Ok(change) => act::change_crew(&signed, CrewId(id), change).await,
        Err(error) => Err(error),
    };
    match changed {
        Ok(()) => Ok(Redirect::to("/people").into_response()),
        Err(error) => {
            let boxes = boxes(&signed, was_ticked(&mine.posted)).await?;
            let page = page_of(&signed, &cookies, &crew.name, form.again(&mine.posted, &error), boxes);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &page)
        }
    }
}

/// Boxes share a name and send one pair for each that is ticked.
fn tree(posted: &Posted) -> Value {
    let list = |name: &str| posted.all(name).map(Value::from).collect::<Vec<_>>();
    json!({ "name": posted.text("name"), "members": list("members"), "seeders": list("seeders") })
}

fn was_ticked(posted: &Posted) -> impl Fn(&str, Uuid) -> bool {
    |list, id| posted.0.iter().any(|(name, value)| name == list && *value == id.to_string())
}
