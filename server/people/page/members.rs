//! The people of an organization, as the office keeps them: members, crews, and adding a member.

use super::account::OncePage;
use super::role_in_words;
use crate::access::{Permission, Role};
use crate::people::act::{self, AddedMember};
use crate::people::crew::act::{Crew, crews};
use crate::people::draft::{MemberDraft, RoleWord};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, FormOption, Kind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Redirect, Response};
use serde_json::{Value, json};
use sowmark_core::say;
use sowmark_core::words::Words;
use std::collections::HashSet;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    let keep = Need::May(Permission::KeepPeople);
    vec![
        crate::route!(page GET "/people", keep, people_page),
        crate::route!(page GET "/people/new", keep, new_member_page),
        crate::route!(page POST "/people", keep, post_member),
    ]
}

#[derive(Template)]
#[template(path = "people/people.html")]
struct PeoplePage {
    page: Page,
    members: Vec<Member>,
    crews: Vec<Crew>,
}

struct Member {
    id: Uuid,
    name: String,
    email: String,
    role: String,
    active: bool,
    /// What they see, where that is not everything.
    sees: String,
}

async fn people_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let organization = signed.actor.organization();
    let members = act::members(&mut conn.cx(), organization).await?;
    let clients = act::clients(&mut conn.cx(), organization).await?;
    let limits = act::limits(&mut conn.cx(), organization).await?;
    let crews = crews(&mut conn.cx(), &signed.actor.scope).await?;
    let words = signed.actor.words();
    let sees = |account: Uuid, role: &str| -> String {
        if Role::from_word(role) != Some(Role::Crew) {
            let is_own = |client: &Uuid| limits.iter().any(|(of, to)| *of == account && to == client);
            let own: Vec<&str> = clients.iter().filter(|(id, _)| is_own(id)).map(|(_, name)| name.as_str()).collect();
            return own.join(", ");
        }
        let own = crews.iter().filter(|crew| crew.members.iter().any(|(id, _)| *id == account));
        let names: Vec<&str> = own.map(|crew| crew.name.as_str()).collect();
        if names.is_empty() { say!(words, "member-in-no-crew") } else { names.join(", ") }
    };
    let members = members
        .iter()
        .map(|member| Member {
            id: member.account_id,
            name: member.name.clone(),
            email: member.email.clone(),
            role: role_in_words(&member.role, words),
            active: member.active,
            sees: sees(member.account_id, &member.role),
        })
        .collect();
    show(&PeoplePage { page: Page::new(&signed, &cookies, say!(words, "nav-people"), "/people"), members, crews })
}

/// A form about a member: its fields, and boxes for the clients that an agronomist is limited to.
#[derive(Template)]
#[template(path = "people/new.html")]
struct NewMemberPage {
    page: Page,
    form: Form,
    clients: Vec<FormOption>,
}

pub(super) fn role_field(words: Words) -> FormField {
    let choices = RoleWord::ALL.iter().map(|role| (role.word(), say!(words, "role-does", role = role.word())));
    FormField::new("role", say!(words, "role")).choice(choices).value(RoleWord::Crew.word())
}

/// The organization's clients as boxes, with these ticked.
pub(super) async fn client_boxes(signed: &Signed, ticked: &HashSet<String>) -> Result<Vec<FormOption>, Error> {
    let mut conn = signed.app.read().await?;
    let clients = act::clients(&mut conn.cx(), signed.actor.organization()).await?;
    let option = |(id, name): (Uuid, String)| FormOption {
        selected: ticked.contains(&id.to_string()),
        value: id.to_string(),
        label: name,
    };
    Ok(clients.into_iter().map(option).collect())
}

/// What a form about a member sends, with the ticked clients as a list.
pub(super) fn tree(signed: &Signed, posted: &Posted) -> Value {
    let mut sent = posted.tree(&signed.actor.time_zone);
    if let Value::Object(fields) = &mut sent {
        fields.insert("clients".to_owned(), json!(posted.all("clients").collect::<Vec<_>>()));
        return sent;
    }
    json!({})
}

pub(super) fn was_ticked(posted: &Posted) -> HashSet<String> {
    posted.all("clients").map(str::to_owned).collect()
}

fn form(words: Words) -> Form {
    Form::new(
        "/people",
        say!(words, "member-add-submit"),
        vec![
            FormField::new("name", say!(words, "member-name")),
            FormField::new("email", say!(words, "email-address"))
                .hint(say!(words, "member-email-hint"))
                .kind(Kind::Email),
            role_field(words),
        ],
    )
}

async fn drawn(
    signed: &Signed,
    cookies: &Cookies,
    form: Form,
    ticked: &HashSet<String>,
) -> Result<NewMemberPage, Error> {
    let page = Page::new(signed, cookies, say!(signed.actor.words(), "member-add"), "/people");
    Ok(NewMemberPage { page, form, clients: client_boxes(signed, ticked).await? })
}

async fn new_member_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    show(&drawn(&signed, &cookies, form(signed.actor.words()), &HashSet::new()).await?)
}

async fn post_member(signed: Signed, cookies: Cookies, headers: HeaderMap, posted: Posted) -> Result<Response, Error> {
    signed.session()?;
    let grant = signed.grant(Permission::KeepPeople)?;
    let app = &signed.app;
    let added = match input::read::<MemberDraft>(&tree(&signed, &posted)) {
        Ok(draft) => act::add_member(&app.db, &app.clock, &app.hasher, &grant, draft, None).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(AddedMember { link: Some(code), .. }) => show(&link_page(
            &signed,
            &cookies,
            posted.text("name"),
            format!("{}/set-password/{code}", app.base(&headers)),
        )),
        Ok(AddedMember { account, link: None }) => Ok(Redirect::to(&format!("/people/{account}")).into_response()),
        Err(error @ (Error::Faults(_) | Error::NotThere { .. })) => {
            let form = form(signed.actor.words()).again(&posted, &error);
            let page = drawn(&signed, &cookies, form, &was_ticked(&posted)).await?;
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &page)
        }
        Err(error) => Err(error),
    }
}

/// The one time that a link is shown.
pub(super) fn link_page(signed: &Signed, cookies: &Cookies, name: &str, link: String) -> OncePage {
    let words = signed.actor.words();
    OncePage {
        page: Page::new(signed, cookies, say!(words, "link-title", name = name.trim()), "/people"),
        says: say!(words, "link-once"),
        secret: link,
        back: "/people".to_owned(),
    }
}
