//! The pages of crews: a name, and boxes to tick for its members and seeders.

use super::act;
use crate::access::Permission;
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

/// A crew's page with these boxes ticked.
async fn drawn(
    signed: &Signed,
    cookies: &Cookies,
    title: &str,
    form: Form,
    ticked: impl Fn(&str, Uuid) -> bool,
) -> Result<CrewPage, Error> {
    let mut conn = signed.app.read().await?;
    let organization = signed.actor.organization();
    let everybody = members(&mut conn.cx(), organization).await?;
    let machines = seeders(&mut conn.cx(), organization).await?;
    let option =
        |list: &str, id: Uuid, label: String| FormOption { value: id.to_string(), label, selected: ticked(list, id) };
    Ok(CrewPage {
        page: Page::new(signed, cookies, title, "/people"),
        form,
        members: everybody
            .into_iter()
            .filter(|member| member.active)
            .map(|member| option("members", member.account_id, member_in_words(&member.name, &member.role, signed)))
            .collect(),
        seeders: machines.into_iter().map(|(id, name)| option("seeders", id, name)).collect(),
    })
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

fn change_form(signed: &Signed, id: Uuid) -> Form {
    let words = signed.actor.words();
    form(&format!("/crews/{id}"), say!(words, "keep-the-change"), words)
}

async fn new_crew_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let title = say!(signed.actor.words(), "crew-add");
    show(&drawn(&signed, &cookies, &title, new_form(&signed)?, |_, _| false).await?)
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
            let page = drawn(&signed, &cookies, &title, form, was_ticked(&posted)).await?;
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &page)
        }
    }
}

async fn crew_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let crew = {
        let mut conn = signed.app.read().await?;
        act::find_crew(&mut conn.cx(), &signed.actor.scope, CrewId(id)).await?
    };
    let mut form = change_form(&signed, id);
    for field in &mut form.fields {
        field.value.clone_from(&crew.name);
    }
    let ticked = |list: &str, id: Uuid| {
        let all = if list == "members" { &crew.members } else { &crew.seeders };
        all.iter().any(|(of, _)| *of == id)
    };
    show(&drawn(&signed, &cookies, &crew.name, form, ticked).await?)
}

async fn post_crew_change(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let title = {
        let mut conn = signed.app.read().await?;
        act::find_crew(&mut conn.cx(), &signed.actor.scope, CrewId(id)).await?.name
    };
    let changed = match input::read::<CrewChange>(&tree(&posted)) {
        Ok(change) => act::change_crew(&signed, CrewId(id), change).await,
        Err(error) => Err(error),
    };
    match changed {
        Ok(()) => Ok(Redirect::to("/people").into_response()),
        Err(error) => {
            let form = change_form(&signed, id).again(&posted, &error);
            let page = drawn(&signed, &cookies, &title, form, was_ticked(&posted)).await?;
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
