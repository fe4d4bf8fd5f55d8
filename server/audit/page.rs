//! The trail as a page: newest first, each line in words, and the head of the chain to compare a print-out with.

use super::StoredLine;
use crate::access::Permission;
use crate::hex;
use crate::records::head::{moment, person_or_host, said};
use crate::web::api::Asked;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::Whole;
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::Response;
use jiff::tz::TimeZone;
use sowmark_core::say;
use sowmark_core::words::Words;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/audit", Need::May(Permission::ReadAudit), audit_page)]
}

crate::input! {
    /// Which part of the trail.
    pub struct TrailAsked {
        /// Only lines before this number.
        pub before: Option<Whole<1, 9_007_199_254_740_991>>,
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
    change: String,
    hash: String,
}

#[derive(Template)]
#[template(path = "audit/trail.html")]
struct TrailPage {
    page: Page,
    lines: Vec<Told>,
    older: Option<i64>,
    /// Who may take everything along is shown where.
    keeps_people: bool,
}

async fn audit_page(signed: Signed, cookies: Cookies, Asked(asked): Asked<TrailAsked>) -> Result<Response, Error> {
    let before = asked.before.map_or(i64::MAX, |before| before.0);
    let mut conn = signed.app.read().await?;
    let mut lines = super::before(&mut conn.cx(), signed.actor.organization(), before, SHOWN + 1).await?;
    let older = if lines.len() > usize::try_from(SHOWN).unwrap_or(usize::MAX) {
        lines.pop();
        lines.last().map(|line| line.seq)
    } else {
        None
    };
    let lines = super::told(&mut conn.cx(), &signed.actor, lines).await?;
    let keeps_people = signed.actor.may(Permission::KeepPeople);
    let words = signed.actor.words();
    let lines = lines.into_iter().map(|line| Told::of(line, &signed.actor.time_zone, words)).collect();
    show(&TrailPage {
        page: Page::new(&signed, &cookies, say!(words, "nav-audit"), "/audit"),
        lines,
        older,
        keeps_people,
    })
}

impl Told {
    fn of(line: StoredLine, zone: &TimeZone, words: Words) -> Self {
        let id = line.subject_id.to_string();
        let is_withheld = line.is_withheld();
        let did = say!(
            words,
            "audit-line",
            who = person_or_host(line.name.as_deref(), words),
            did = &line.action,
            action = line.action.replace('_', " "),
            kind = &line.subject_kind,
            // The end of an id tells two apart; its beginning is the time and alike for all of an hour.
            id = id.get(28..).unwrap_or_default()
        );
        Self {
            seq: line.seq,
            when: said(moment(line.at), zone, words),
            did: if is_withheld { say!(words, "audit-withheld") } else { did },
            change: if is_withheld { String::new() } else { line.change },
            hash: hex::written(line.hash.get(..8).unwrap_or_default()),
        }
    }
}
