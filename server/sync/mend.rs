//! Mending a refused entry: the form of its kind, opened with what was sent in its fields and what was wrong beside them
//! (`…/fills/new?refused=ID`). Saved, it is the same record under the same id, and the entry waits no longer. A record that
//! stands and is wrong opens its form the same way (`…/fills/new?corrects=ID`, see [`crate::records::correct`]); saved, that
//! is another record, which replaces it.
//!
//! A form page takes a [`Mend`] and lets it fill the form; the page that takes the form back asks [`mending`] who is
//! saving what.

use super::kind::Logged;
use super::refused::{self, RefusedRow};
use crate::access::Origin;
use crate::db::kind::Kind;
use crate::records::correct::{Wrong, find_wrong};
use crate::records::head::{moment, said};
use crate::web::door::{App, Signed};
use crate::web::error::{Error, Fault, Problem};
use crate::web::form::{Form, Posted, pairs};
use crate::web::refill::{CORRECTS, MENDS};
use axum::extract::FromRequestParts;
use axum::http::request::Parts;
use serde_json::Value;
use sowmark_core::say;
use std::sync::Arc;
use uuid::Uuid;

/// What a form is opened to mend, if anything.
#[derive(Debug)]
pub struct Mend(Option<Opened>);

#[derive(Debug)]
enum Opened {
    Refused(Box<RefusedRow>),
    Wrong(Box<Wrong>),
}

impl FromRequestParts<App> for Mend {
    type Rejection = Error;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, Error> {
        let asked = Posted(pairs(parts.uri.query().unwrap_or_default().as_bytes())?);
        let named = |name: &str| Uuid::try_parse(asked.text(name)).ok();
        let signed = Signed::from_request_parts(parts, app).await?;
        Ok(Self(match (named("refused"), named(CORRECTS)) {
            (Some(id), _) => {
                let mut conn = app.read().await?;
                Some(Opened::Refused(Box::new(refused::find_refused(&mut conn.cx(), &signed.actor, id).await?)))
            }
            (None, Some(id)) => Some(Opened::Wrong(Box::new(find_wrong(&signed, id).await?))),
            (None, None) => None,
        }))
    }
}

/// A refused entry or a wrong record, ready to be put into a form.
#[derive(Debug)]
pub struct Refilling {
    /// The record as sent.
    pub record: Value,
    /// What the form's fields hold, a refused entry's id among them.
    pub sent: Posted,
    /// What is wrong with it, where that was refused; none when only its machine was.
    pub error: Option<Error>,
    /// Where it comes from, in a sentence.
    pub note: String,
}

impl Mend {
    /// The refused entry or the record of this kind that is to be mended.
    ///
    /// # Errors
    /// 404 when it is of another kind.
    pub fn refilling(&self, signed: &Signed, kind: Kind) -> Result<Option<Refilling>, Error> {
        match &self.0 {
            None => Ok(None),
            Some(Opened::Refused(row)) if Logged::from_word(&row.kind).is_some_and(|logged| logged.kind() == kind) => {
                Refilling::of_refused(row, signed).map(Some)
            }
            Some(Opened::Wrong(wrong)) if wrong.kind == kind => Ok(Some(Refilling::of_wrong(wrong, signed))),
            Some(Opened::Refused(_)) => Err(Error::not_there("refused entry")),
            Some(Opened::Wrong(_)) => Err(Error::not_there("record")),
        }
    }

    /// The form with what was sent in it; as it is when there is nothing to mend.
    ///
    /// # Errors
    /// As [`Mend::refilling`].
    pub fn form(&self, signed: &Signed, kind: Kind, form: Form) -> Result<Form, Error> {
        Ok(match self.refilling(signed, kind)? {
            Some(Refilling { sent, error, note, .. }) => Form { note, ..form.refilled(&sent, error.as_ref()) },
            None => form,
        })
    }
}

impl Refilling {
    fn of_refused(row: &RefusedRow, signed: &Signed) -> Result<Self, Error> {
        let record: Value = serde_json::from_str(&row.record)?;
        let problem = refused::why(row, signed.actor.language)?;
        let sent = Posted::of_tree(&record, &signed.actor.time_zone)
            .with(MENDS, row.id.to_string())
            .spoken_in(signed.actor.language);
        // Under a taken id it can never be stored: there the form keeps the new one that it came with.
        let sent = if problem.status == 409 { sent.without("id") } else { sent.with("id", row.id.to_string()) };
        let when = said(moment(row.last_refused_at), &signed.actor.time_zone, signed.actor.words());
        let note = say!(signed.actor.words(), "refused-mending-note", who = &row.sent_by_name, when = when);
        Ok(Self { record, sent, error: still_wrong(problem), note })
    }

    fn of_wrong(wrong: &Wrong, signed: &Signed) -> Self {
        let (zone, words) = (&signed.actor.time_zone, signed.actor.words());
        // What replaces it is a record of its own, with an id of its own.
        let sent = Posted::of_tree(&wrong.sent, zone).without("id").with(CORRECTS, wrong.head.id.to_string());
        let note = say!(words, "correction-note", when = wrong.head.when(zone, words), by = wrong.head.by(words));
        let note = match wrong.kind {
            Kind::Calibration => [note, say!(words, "correction-note-catch")].join(" "),
            _ => note,
        };
        Self { record: wrong.sent.clone(), sent: sent.spoken_in(words.language), error: None, note }
    }
}

/// What is still wrong once somebody has the form of the right machine before them.
fn still_wrong(problem: Problem) -> Option<Error> {
    let around = ["/kind", "/parent_id", "/record", "/id"];
    let faults: Vec<Fault> =
        problem.errors.into_iter().filter(|fault| !around.contains(&fault.pointer.as_str())).collect();
    match problem.status {
        _ if !faults.is_empty() => Some(Error::Faults(faults)),
        409 | 500 => Some(Error::conflict(problem.detail)),
        _ => None,
    }
}

/// Who is saving a form: the same person, whose record ends the wait of the entry that the form mends, if it does.
///
/// # Errors
/// 404 when that entry is not theirs to mend.
pub async fn mending(mut signed: Signed, posted: &Posted) -> Result<Signed, Error> {
    if let Ok(id) = Uuid::try_parse(posted.text(MENDS)) {
        refused::find_refused(&mut signed.app.read().await?.cx(), &signed.actor, id).await?;
        signed.actor.origin = Arc::new(Origin { mends: Some(id), ..Origin::default() });
    }
    Ok(signed)
}
