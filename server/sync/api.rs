//! Entries logged off line as JSON: the batch, and what was refused of it.

use super::act::{self, Taken};
use super::entry::{Batch, Entry};
use super::kind::Logged;
use super::refused::{self, DropDraft, RefusedAsked, RefusedRow};
use crate::access::Permission;
use crate::calibration::told::told;
use crate::db::Cx;
use crate::records::head::{Who, moment};
use crate::web::api::{Asked, PathId, Sent, body_up_to, is_json, parse};
use crate::web::door::{App, Signed};
use crate::web::error::{Error, Problem};
use crate::web::input;
use crate::web::paging::{List, PageAsked};
use crate::web::routes::{Need, Route};
use axum::Json;
use axum::extract::{FromRequest, Request};
use serde::Serialize;
use serde_json::Value;
use sowmark_core::ids::CalibrationId;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/sync", Need::May(Permission::Send), sync, "Send entries that were logged off line.")
            .takes::<Batch>()
            .answers::<Results>(),
        crate::route!(api GET "/refused", Need::May(Permission::Send), list_refused,
            "List entries that were not taken in: one's own, for the office all.")
        .asks::<RefusedAsked>()
        .answers::<List<RefusedView>>(),
        crate::route!(api GET "/refused/{id}", Need::May(Permission::Send), show_refused, "Show an entry that was not taken in.")
            .answers::<RefusedView>(),
        crate::route!(api POST "/refused/{id}/drop", Need::May(Permission::Send), drop_refused,
            "Drop an entry that was not taken in: it stays kept and waits no longer.")
        .takes::<DropDraft>()
        .answers::<RefusedView>(),
    ]
}

/// The largest batch: two hundred catches of many runs, several times over.
const LARGEST_BATCH: usize = 4 * 1024 * 1024;

impl FromRequest<App> for Batch {
    type Rejection = Error;

    async fn from_request(request: Request, _: &App) -> Result<Self, Error> {
        if !is_json(&request) {
            return Err(Error::WrongType { wanted: "application/json" });
        }
        input::read(&parse(&body_up_to(request.into_body(), LARGEST_BATCH).await?)?)
    }
}

/// What became of the entries, in the order in which they were sent.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct Results {
    results: Vec<TakenView>,
}

/// What became of an entry.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct TakenView {
    /// The record's, as sent; null when it had none.
    id: Option<String>,
    /// `stored`, `already_stored` or `refused`.
    outcome: &'static str,
    /// Why it was refused. Its faults point into the record, or at `/kind`, `/parent_id`, `/record`.
    problem: Option<Problem>,
    /// Of a calibration that is there: how it was judged and what to do with it, in sentences for who sent it.
    #[serde(skip_serializing_if = "Option::is_none")]
    says: Option<String>,
    /// The page of that calibration.
    #[serde(skip_serializing_if = "Option::is_none")]
    href: Option<String>,
}

impl TakenView {
    fn of(entry: Entry, taken: Taken, says: Option<String>) -> Self {
        let (outcome, problem) = match taken {
            Taken::Stored => ("stored", None),
            Taken::AlreadyStored => ("already_stored", None),
            Taken::Refused(problem) => ("refused", Some(problem)),
        };
        let href = says.is_some().then(|| format!("/calibrations/{}", entry.id));
        Self { id: entry.sent_id, outcome, problem, says, href }
    }
}

/// An entry that was not taken in.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct RefusedView {
    id: Uuid,
    /// As sent.
    kind: String,
    /// Null: none that could be read.
    parent_id: Option<Uuid>,
    /// As sent.
    #[schema(value_type = Object)]
    record: Value,
    problem: Problem,
    /// Who sent it last.
    sent_by: Who,
    first_refused_at: String,
    last_refused_at: String,
    /// Null while it waits.
    ended: Option<EndedView>,
}

/// How the wait of a refused entry ended.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct EndedView {
    /// `mended` (stored, as it was or with changes) or `dropped`.
    how: String,
    at: String,
    /// Null: the command line of the host.
    by: Option<Who>,
    reason: Option<String>,
    /// Of a calibration that is there now, where one entry is shown: how it was judged and what to do with it.
    #[serde(skip_serializing_if = "Option::is_none")]
    says: Option<String>,
    /// The page of that calibration.
    #[serde(skip_serializing_if = "Option::is_none")]
    href: Option<String>,
}

impl TryFrom<RefusedRow> for RefusedView {
    type Error = Error;

    fn try_from(row: RefusedRow) -> Result<Self, Error> {
        let (by, at) = (row.ended_by.zip(row.ended_by_name), row.ended_at);
        let ended = row.ended.map(|how| EndedView {
            how,
            at: at.map(|at| moment(at).to_string()).unwrap_or_default(),
            by: by.map(|(id, name)| Who { id, name }),
            reason: row.ended_reason,
            says: None,
            href: None,
        });
        Ok(Self {
            id: row.id,
            kind: row.kind,
            parent_id: row.parent_id,
            record: serde_json::from_str(&row.record)?,
            problem: serde_json::from_str(&row.problem)?,
            sent_by: Who { id: row.sent_by, name: row.sent_by_name },
            first_refused_at: moment(row.first_refused_at).to_string(),
            last_refused_at: moment(row.last_refused_at).to_string(),
            ended,
        })
    }
}

async fn sync(signed: Signed, batch: Batch) -> Result<Json<Results>, Error> {
    let taken = act::take_in(&signed, &batch).await?;
    let mut conn = signed.app.read().await?;
    let mut results = Vec::with_capacity(taken.len());
    for (entry, taken) in taken {
        let is_catch = entry.kind == Some(Logged::Calibration) && !matches!(taken, Taken::Refused(_));
        let says = if is_catch { judged(&mut conn.cx(), &signed, entry.id).await? } else { None };
        results.push(TakenView::of(entry, taken, says));
    }
    Ok(Json(Results { results }))
}

/// What became of a catch. It is stored already: where that cannot be told, it is told without.
async fn judged(cx: &mut Cx<'_>, signed: &Signed, id: Uuid) -> Result<Option<String>, Error> {
    match told(cx, &signed.actor, signed.app.clock.now(), CalibrationId(id)).await {
        Ok(says) => Ok(Some(says)),
        Err(error) if error.will_pass() => Err(error),
        Err(error) => {
            error.log();
            Ok(None)
        }
    }
}

async fn list_refused(signed: Signed, Asked(asked): Asked<RefusedAsked>) -> Result<Json<List<RefusedView>>, Error> {
    let mut conn = signed.app.read().await?;
    let page = PageAsked { limit: asked.limit, after: asked.after };
    let list = refused::page_of_refused(&mut conn.cx(), &signed.actor, &page, asked.ended.unwrap_or(false)).await?;
    Ok(Json(list.try_map(RefusedView::try_from)?))
}

async fn show_refused(signed: Signed, PathId(id): PathId) -> Result<Json<RefusedView>, Error> {
    let mut conn = signed.app.read().await?;
    let row = refused::find_refused(&mut conn.cx(), &signed.actor, id).await?;
    let is_catch = Logged::from_word(&row.kind) == Some(Logged::Calibration);
    let mut view = RefusedView::try_from(row)?;
    if let Some(ended) = view.ended.as_mut().filter(|ended| is_catch && ended.how == "mended") {
        ended.says = judged(&mut conn.cx(), &signed, id).await?;
        ended.href = ended.says.is_some().then(|| format!("/calibrations/{id}"));
    }
    Ok(Json(view))
}

async fn drop_refused(signed: Signed, PathId(id): PathId, sent: Sent<DropDraft>) -> Result<Json<RefusedView>, Error> {
    refused::drop_refused(&signed, id, &sent.draft).await?;
    show_refused(signed, PathId(id)).await
}
