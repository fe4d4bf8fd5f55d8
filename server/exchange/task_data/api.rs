//! Task data as bytes in, and as JSON what became of it.

use super::act::{self, Outlook, Seen, Standing};
use super::draft::{LineDraft, MatchesDraft};
use super::lines::{Line, Other, kg_per_ha, kilograms};
use super::matches::{Kind, Known};
use crate::access::Permission;
use crate::clock::Stamp;
use crate::input;
use crate::web::api::{Asked, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::{self, Name};
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use crate::web::upload::Bytes;
use axum::Json;
use jiff::tz::TimeZone;
use serde::Serialize;
use serde_json::json;
use sowmark_core::task_data::{Setpoint, When};
use sowmark_core::words::Words;
use std::collections::HashMap;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    const KEEP: Need = Need::May(Permission::KeepFleet);
    vec![
        crate::route!(api POST "/imports/task-data", KEEP, import_task_data, "Make jobs of task data (ISO 11783-10: TASKDATA.XML, or a zip that holds it).")
            .takes_bytes(&["application/xml", "application/zip"])
            .asks::<ImportAsked>()
            .answers::<ImportView>(),
        crate::route!(api PUT "/imports/task-data/matches", KEEP, keep_task_data_matches, "Say what names in task data mean: metering units, lots, fields, clients.")
            .takes::<MatchesDraft>()
            .answers::<MatchesView>(),
    ]
}

input! {
    /// How task data is taken.
    pub struct ImportAsked {
        /// Show what would become of it and store no job.
        pub preview: Option<bool>,
        /// What the file is called.
        pub name: Option<Name>,
    }
}

/// A file of task data and what became of it.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct ImportView {
    /// The file's.
    id: Uuid,
    /// Of the format.
    version: String,
    /// How many jobs were stored now.
    stored: usize,
    /// One for each tank that something was sown from in a task.
    lines: Vec<LineView>,
    /// Tasks that nothing was sown in.
    other_tasks: Vec<OtherView>,
    /// What is wrong besides, and what is not read.
    remarks: Vec<String>,
}

/// What was sown from a tank in a task.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct LineView {
    /// `stored`, `already_stored`, `ready` (in a preview), `not_matched` (say what the names mean), `changed` (it is a job
    /// already, of other numbers), `refused`, `faulty` (the file stands against it).
    outcome: &'static str,
    job_id: Option<Uuid>,
    task: String,
    field: Option<String>,
    customer: Option<String>,
    product: Option<String>,
    machine: String,
    occurred_at: Option<String>,
    ended_at: Option<String>,
    area: Option<Q>,
    /// What the machine counted: revolutions times the factor it was given.
    machine_total: Option<Q>,
    /// What people weighed in and out.
    balance: Option<Q>,
    target_rate: Option<Q>,
    /// What its names mean here.
    matches: Vec<MatchView>,
    faults: Vec<String>,
    remarks: Vec<String>,
}

/// What a name means here.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct MatchView {
    /// `unit`, `lot`, `field` or `client`.
    kind: &'static str,
    name: String,
    /// Null while nobody has said so.
    id: Option<Uuid>,
}

/// A task that nothing was sown in.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct OtherView {
    task: String,
    name: Option<String>,
    is_only_planned: bool,
    faults: Vec<String>,
}

async fn import_task_data(
    signed: Signed,
    Asked(asked): Asked<ImportAsked>,
    Bytes(bytes): Bytes,
) -> Result<Json<ImportView>, Error> {
    let name = asked.name.map_or_else(|| "TASKDATA.XML".to_owned(), |name| name.0);
    let file = act::take_file(&signed, &name, bytes, "").await?;
    let before = look(&signed, file).await?;
    let mut stored = 0;
    let mut refused = HashMap::new();
    if asked.preview != Some(true) {
        for (number, seen) in before.seen.iter().enumerate() {
            let Some(draft) = ready(number, seen) else { continue };
            match act::store_lines(&signed, &before, &[draft]).await {
                Ok(count) => stored += count,
                Err(error) if error.will_pass() => return Err(error),
                Err(error) => {
                    refused.insert(number, error);
                }
            }
        }
    }
    let after = look(&signed, file).await?;
    let words = signed.actor.told_in();
    let lines = before.seen.iter().zip(&after.seen).enumerate().map(|(number, (was, is))| {
        let faults = refused.get(&number).map(|error| error.faults().iter().map(|fault| fault.says(words)).collect());
        LineView::of(was, is, faults, &signed.actor.time_zone, words)
    });
    Ok(Json(ImportView {
        id: file,
        version: format!("{}.{}", after.sheet.version.0, after.sheet.version.1),
        stored,
        lines: lines.collect(),
        other_tasks: after.sheet.others.iter().map(|other| OtherView::of(other, words)).collect(),
        remarks: after.sheet.remarks.iter().map(|remark| remark.says(words)).collect(),
    }))
}

async fn look(signed: &Signed, file: Uuid) -> Result<Outlook, Error> {
    let mut conn = signed.app.read().await?;
    act::outlook(&mut conn.cx(), &signed.actor.scope, &signed.actor.time_zone, file).await
}

/// What a line becomes without anybody being asked: its names are matched and its rate is a mass.
fn ready(number: usize, seen: &Seen) -> Option<LineDraft> {
    let Standing::New { .. } = seen.standing else { return None };
    let (unit, lot) = (seen.matched.unit?, seen.matched.lot?);
    let Some(Setpoint::Mass(rate)) = seen.line.setpoint else { return None };
    let draft = json!({
        "line": number, "store": true, "unit": unit, "lot": lot, "field": seen.matched.field, "client": seen.matched.client,
        "target_rate": { "value": kg_per_ha(rate), "unit": "kg/ha" }
    });
    input::read(&draft).ok()
}

impl LineView {
    fn of(was: &Seen, is: &Seen, refused: Option<Vec<String>>, zone: &TimeZone, words: Words) -> Self {
        let line = &is.line;
        let is_ready = ready(0, was).is_some();
        let (outcome, job_id) = match (&was.standing, &is.standing) {
            (Standing::New { .. }, Standing::Stored { job }) => ("stored", Some(*job)),
            (_, Standing::Stored { job }) => ("already_stored", Some(*job)),
            (_, Standing::Changed { job, .. }) => ("changed", Some(*job)),
            (_, Standing::Twice | Standing::Faulty) => ("faulty", None),
            (_, Standing::New { .. }) if refused.is_some() => ("refused", None),
            (_, Standing::New { .. }) => (if is_ready { "ready" } else { "not_matched" }, None),
        };
        let stamped = |when: When| {
            let at = when.at(zone)?;
            Some(Stamp { at, offset_seconds: zone.to_offset(at).seconds() }.rfc3339())
        };
        let q = |value: String, unit: &'static str| Q { value, unit, lb: None, oz: None };
        let rate = match line.setpoint {
            Some(Setpoint::Mass(rate)) => Some(q(kg_per_ha(rate), "kg/ha")),
            _ => None,
        };
        Self {
            outcome,
            job_id,
            task: line.task_called().to_owned(),
            field: line.field.clone(),
            customer: line.customer.clone(),
            product: line.product.clone(),
            machine: line.machine(),
            occurred_at: line.start.and_then(stamped),
            ended_at: line.stop.and_then(stamped),
            area: line.area_m2.map(|_| q(line.hectares(), "ha")),
            machine_total: line.machine_g.map(|grams| q(kilograms(grams, line.is_coarse), "kg")),
            balance: line.balance_g.map(|grams| q(kilograms(grams, false), "kg")),
            target_rate: rate,
            matches: matches(line, is),
            faults: refused.unwrap_or_else(|| line.faults.iter().map(|fault| fault.says(words)).collect()),
            remarks: line.remarks.iter().map(|remark| remark.says(words)).collect(),
        }
    }
}

fn matches(line: &Line, seen: &Seen) -> Vec<MatchView> {
    let view = |kind: Kind, name: Option<String>, id| Some(MatchView { kind: kind.word(), name: name?, id });
    let matched = &seen.matched;
    [
        view(Kind::Unit, Some(line.unit_name()), matched.unit),
        view(Kind::Lot, line.product.clone(), matched.lot),
        view(Kind::Field, line.field_name(), matched.field),
        view(Kind::Client, line.customer.clone(), matched.client),
    ]
    .into_iter()
    .flatten()
    .collect()
}

impl OtherView {
    fn of(other: &Other, words: Words) -> Self {
        Self {
            task: other.task.clone(),
            name: other.name.clone(),
            is_only_planned: other.is_only_planned,
            faults: other.faults.iter().map(|fault| fault.says(words)).collect(),
        }
    }
}

/// What names mean here from now on.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct MatchesView {
    matches: Vec<MatchView>,
}

async fn keep_task_data_matches(signed: Signed, sent: Sent<MatchesDraft>) -> Result<Json<MatchesView>, Error> {
    let mut conn = signed.app.read().await?;
    let known = Known::find(&mut conn.cx(), &signed.actor.scope).await?;
    drop(conn);
    let matches: Vec<_> = sent.draft.matches.into_iter().map(|one| (one.kind, one.name.0, one.id)).collect();
    act::keep_matches(&signed, &known, &matches).await?;
    let kept = matches.into_iter().map(|(kind, name, id)| MatchView { kind: kind.word(), name, id: Some(id) });
    Ok(Json(MatchesView { matches: kept.collect() }))
}
