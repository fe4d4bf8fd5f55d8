//! "Not taken in": the entries that wait to be mended or dropped, for the office and whoever sent them.

use super::kind::Logged;
use super::refused::{self, DropDraft, RefusedAsked, RefusedRow};
use super::told::{self, Names};
use crate::access::{Actor, Permission};
use crate::records::head::{moment, person_or_host, said};
use crate::web::api::{Asked, PathId};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::Posted;
use crate::web::input;
use crate::web::page::{Cookies, Page, show};
use crate::web::paging::PageAsked;
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::{IntoResponse, Redirect, Response};
use serde_json::Value;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/refused", Need::May(Permission::Send), refused_page),
        crate::route!(page GET "/refused/{id}/machine", Need::May(Permission::Send), machine_page),
        crate::route!(page POST "/refused/{id}/drop", Need::May(Permission::Send), post_drop),
    ]
}

#[derive(Template)]
#[template(path = "sync/refused.html")]
struct RefusedPage {
    page: Page,
    entries: Vec<Told>,
    ended_too: bool,
    next: Option<String>,
}

/// A refused entry as the list tells it.
struct Told {
    id: Uuid,
    what: String,
    /// Empty when nobody can say.
    machine: String,
    sent: String,
    why: Vec<String>,
    lines: Vec<(String, String)>,
    /// Where it is mended; none when this reader cannot.
    mend: Option<String>,
    /// How its wait ended; none while it waits.
    ended: Option<String>,
}

async fn refused_page(signed: Signed, cookies: Cookies, Asked(asked): Asked<RefusedAsked>) -> Result<Response, Error> {
    let actor = &signed.actor;
    let ended_too = asked.ended.unwrap_or(false);
    let part = PageAsked { limit: asked.limit, after: asked.after };
    let mut conn = signed.app.read().await?;
    let list = refused::page_of_refused(&mut conn.cx(), actor, &part, ended_too).await?;
    let names = Names::gather(&mut conn.cx(), &actor.scope).await?;
    let entries = list.items.iter().map(|row| Told::of(row, &names, actor)).collect::<Result<_, Error>>()?;
    let page = Page::new(&signed, &cookies, say!(signed.actor.words(), "refused-title"), "/");
    show(&RefusedPage { page, entries, ended_too, next: list.next })
}

impl Told {
    fn of(row: &RefusedRow, names: &Names, actor: &Actor) -> Result<Self, Error> {
        let record: Value = serde_json::from_str(&row.record)?;
        let problem = refused::why(row, actor.language)?;
        let kind = Logged::from_word(&row.kind);
        let ended = ended(row, actor);
        let mend = kind.filter(|kind| actor.may(kind.permission())).map(|kind| {
            match row.parent_id.filter(|parent| names.parent(kind, *parent).is_some()) {
                Some(parent) => told::form_of(kind, parent, row.id),
                None => format!("/refused/{}/machine", row.id),
            }
        });
        let machine = kind.zip(row.parent_id).and_then(|(kind, parent)| names.parent(kind, parent));
        Ok(Self {
            id: row.id,
            what: told::what(kind, &row.kind, actor.words()),
            machine: machine.unwrap_or_default().to_owned(),
            sent: sent(row, actor),
            why: told::why(&problem, actor),
            lines: told::lines(&record, names, actor),
            mend: mend.filter(|_| ended.is_none()),
            ended,
        })
    }
}

fn sent(row: &RefusedRow, actor: &Actor) -> String {
    let words = actor.words();
    let when = |at: i64| said(moment(at), &actor.time_zone, words);
    let (first, last) = (when(row.first_refused_at), when(row.last_refused_at));
    if first == last {
        say!(words, "refused-sent", who = &row.sent_by_name, last = last)
    } else {
        say!(words, "refused-sent-again", who = &row.sent_by_name, last = last, first = first)
    }
}

fn ended(row: &RefusedRow, actor: &Actor) -> Option<String> {
    let (how, words) = (row.ended.as_deref()?, actor.words());
    let when = row.ended_at.map(|at| said(moment(at), &actor.time_zone, words)).unwrap_or_default();
    let who = person_or_host(row.ended_by_name.as_deref(), words);
    let told = match how {
        "mended" => say!(words, "refused-mended", when = when, who = who),
        _ => say!(words, "refused-dropped", when = when, who = who),
    };
    Some(match row.ended_reason.as_deref() {
        Some(reason) => format!("{told} {reason}"),
        None => told,
    })
}

#[derive(Template)]
#[template(path = "sync/machine.html")]
struct MachinePage {
    page: Page,
    what: String,
    sent: String,
    choices: Vec<(String, String)>,
}

/// Which machine an entry was meant for, when the one that it names is not there.
async fn machine_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let actor = &signed.actor;
    let mut conn = signed.app.read().await?;
    let row = refused::find_refused(&mut conn.cx(), actor, id).await?;
    let kind = Logged::from_word(&row.kind).ok_or_else(|| Error::not_there("form for that kind"))?;
    let names = Names::gather(&mut conn.cx(), &actor.scope).await?;
    let choices = names
        .parents(kind)
        .into_iter()
        .map(|(parent, name)| (told::form_of(kind, parent, id), name.to_owned()))
        .collect();
    let page = Page::new(&signed, &cookies, say!(actor.words(), "refused-machine-title"), "/");
    show(&MachinePage {
        page,
        what: told::what(Some(kind), &row.kind, actor.words()),
        sent: sent(&row, actor),
        choices,
    })
}

async fn post_drop(signed: Signed, PathId(id): PathId, posted: Posted) -> Result<Response, Error> {
    let draft: DropDraft = input::read(&posted.tree(&signed.actor.time_zone))?;
    refused::drop_refused(&signed, id, &draft).await?;
    Ok(Redirect::to("/refused").into_response())
}
