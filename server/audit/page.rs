//! The trail as a page: newest first, each line in words with what it is about, and the head of the chain to compare a
//! print-out with. It can be asked for one kind or one person alone.

use super::StoredLine;
use super::subject::{self, About, NamedLine, Wanted};
use crate::access::{Actor, Permission, Reach};
use crate::db::kind::Kind;
use crate::hex;
use crate::records::head::{moment, person_or_host, said};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted, pairs};
use crate::web::input::{self, Line, Whole};
use crate::web::page::{Cookies, Page, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::RawQuery;
use axum::http::StatusCode;
use axum::response::Response;
use jiff::tz::TimeZone;
use percent_encoding::{NON_ALPHANUMERIC, utf8_percent_encode};
use sowmark_core::ids::AccountId;
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/audit", Need::May(Permission::ReadAudit), audit_page)]
}

crate::input! {
    /// Which part of the trail.
    pub struct TrailAsked {
        /// Only lines before this number.
        pub before: Option<Whole<1, 9_007_199_254_740_991>>,
        /// Only lines about this kind.
        pub kind: Option<Line<40>>,
        /// Only lines of this person.
        pub who: Option<AccountId>,
    }
}

/// Lines on a page.
const SHOWN: i64 = 50;

/// A line in words.
struct Told {
    seq: i64,
    when: String,
    /// Who did what to what.
    did: String,
    /// The page of what it was done to.
    href: Option<String>,
    change: String,
    hash: String,
}

#[derive(Template)]
#[template(path = "audit/trail.html")]
struct TrailPage {
    page: Page,
    /// None for who is told of some lines only: what they ask for would tell what the others are about.
    form: Option<Form>,
    lines: Vec<Told>,
    /// Where the lines before these are.
    older: Option<String>,
}

async fn audit_page(signed: Signed, cookies: Cookies, RawQuery(query): RawQuery) -> Result<Response, Error> {
    let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?).spoken_in(signed.actor.language);
    let (actor, words) = (&signed.actor, signed.actor.words());
    let mut conn = signed.app.read().await?;
    let is_whole = actor.scope.clients == Reach::All;
    let form = if is_whole {
        Some(trail_form(subject::people(&mut conn.cx(), actor.organization()).await?, words))
    } else {
        None
    };
    let page = Page::new(&signed, &cookies, say!(words, "nav-audit"), "/audit");
    let wanted = match input::read::<TrailAsked>(&posted.tree(&actor.time_zone)) {
        Ok(asked) => Wanted {
            before: asked.before.map_or(i64::MAX, |before| before.0),
            kind: asked.kind.map(|kind| kind.0).filter(|_| is_whole),
            who: asked.who.filter(|_| is_whole),
        },
        Err(error) => {
            let Some(form) = form.map(|form| form.again(&posted, &error)) else { return Err(error) };
            return show_with(form.status(), &TrailPage { page, form: Some(form), lines: Vec::new(), older: None });
        }
    };
    let mut lines = subject::named(&mut conn.cx(), actor.organization(), &wanted, SHOWN + 1).await?;
    let older = if lines.len() > usize::try_from(SHOWN).unwrap_or(usize::MAX) {
        lines.pop();
        lines.last().map(|line| address(&Wanted { before: line.line.seq, ..wanted.clone() }))
    } else {
        None
    };
    let (stored, about): (Vec<StoredLine>, Vec<About>) =
        lines.into_iter().map(|NamedLine { line, about }| (line, about)).unzip();
    let told = super::told(&mut conn.cx(), actor, stored).await?;
    let lines = told.into_iter().zip(about).map(|(line, about)| Told::of(line, &about, actor)).collect();
    let form = form.map(|form| form.filled(&posted));
    show_with(StatusCode::OK, &TrailPage { page, form, lines, older })
}

/// The page of the lines that are wanted.
fn address(wanted: &Wanted) -> String {
    let kind = wanted.kind.as_ref().map(|kind| format!("&kind={}", utf8_percent_encode(kind, NON_ALPHANUMERIC)));
    let kind = kind.unwrap_or_default();
    let who = wanted.who.map(|who| format!("&who={who}")).unwrap_or_default();
    format!("/audit?before={}{kind}{who}", wanted.before)
}

/// The choice of a kind and a person.
fn trail_form(people: Vec<(Uuid, String)>, words: Words) -> Form {
    let all = || std::iter::once((String::new(), say!(words, "audit-all")));
    let mut kinds: Vec<(String, String)> =
        Kind::ALL.iter().map(|kind| (kind.word().to_owned(), say!(words, "kind-name", kind = kind.word()))).collect();
    kinds.sort_by(|a, b| a.1.cmp(&b.1));
    let people = people.into_iter().map(|(id, name)| (id.to_string(), name));
    let fields = vec![
        FormField::new("kind", say!(words, "audit-kind")).choice(all().chain(kinds).collect::<Vec<_>>()).optional(),
        FormField::new("who", say!(words, "audit-who")).choice(all().chain(people).collect::<Vec<_>>()).optional(),
    ];
    Form::new("/audit", say!(words, "audit-show"), fields)
}

impl Told {
    fn of(line: StoredLine, about: &About, actor: &Actor) -> Self {
        let (zone, words): (&TimeZone, Words) = (&actor.time_zone, actor.words());
        let is_withheld = line.is_withheld();
        let (id, name) = (line.subject_id.to_string(), about.name());
        let did = say!(
            words,
            "audit-line",
            who = person_or_host(line.name.as_deref(), words),
            did = &line.action,
            action = line.action.replace('_', " "),
            kind = &line.subject_kind,
            named = if name.is_empty() { "no" } else { "yes" },
            name = name,
            // The end of an id tells two apart; its beginning is the time and alike for all of an hour.
            id = id.get(28..).unwrap_or_default()
        );
        Self {
            seq: line.seq,
            when: said(moment(line.at), zone, words),
            did: if is_withheld { say!(words, "audit-withheld") } else { did },
            href: about.href(&line, actor).filter(|_| !is_withheld),
            change: if is_withheld { String::new() } else { line.change },
            hash: hex::written(line.hash.get(..8).unwrap_or_default()),
        }
    }
}
