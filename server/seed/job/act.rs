//! What is done with jobs.

use super::store::{self, JobRow};
use crate::access::{Permission, Scope};
use crate::clock::Stamp;
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::fleet::seeder::act::find_unit;
use crate::seed::{field, lot};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::{At, Faults, Name, Note, part};
use crate::web::paging::{Gathered, List, PageAsked};
use crate::web::quantity::LARGEST_RATE;
use crate::{input, saying, words};
use jiff::Timestamp;
use serde_json::{Map, Value};
use sowmark_core::ids::{ClientId, FieldId, LotId, MeteringUnitId, RecordId, SeederId};
use sowmark_core::quantity::{Area, Mass, Rate, Speed};
use sowmark_core::say;
use sowmark_core::usage::Period;
use sowmark_core::words::Words;

words! {
    /// How the seed that was used is known.
    pub enum SeedUsedBasis {
        /// By weighing what went in and what was left.
        Weighed = "weighed",
        /// By counting bags.
        Bags = "bags",
        /// What the machine itself counted: revolutions times the factor it was given, so it cannot reveal a wrong one.
        MachineTotal = "machine_total",
    }
}

impl SeedUsedBasis {
    /// For a person.
    #[must_use]
    pub fn says(self, words: Words) -> String {
        match self {
            Self::Weighed => say!(words, "job-basis-weighed"),
            Self::Bags => say!(words, "job-basis-bags"),
            Self::MachineTotal => say!(words, "job-basis-machine-total"),
        }
    }
}

input! {
    /// One field job of a metering unit.
    pub record struct JobDraft {
        pub ended_at: Option<Stamp>,
        /// One of the fields that are kept; else `field`.
        pub field_id: Option<FieldId>,
        /// The field's name, where it is not kept; else `field_id`.
        pub field: Option<Name>,
        pub lot_id: LotId,
        /// What was sown.
        pub area: Area,
        pub seed_used: Mass,
        /// Weighed unless told.
        pub seed_used_basis: Option<SeedUsedBasis>,
        pub target_rate: Rate,
        pub speed: Option<Speed>,
        pub note: Option<Note>,
    } with check_whole
}

/// One field, an end after its beginning, and no more seed than a seeder sows.
fn check_whole(fields: &Map<String, Value>, at: &At, faults: &mut Faults) {
    let is_there = |key: &str| fields.get(key).is_some_and(|value| !value.is_null());
    match (is_there("field_id"), is_there("field")) {
        (false, false) => faults.add(&at.key("field_id"), saying!("job-field-missing")),
        (true, true) => faults.add(&at.key("field"), saying!("job-field-twice")),
        _ => Some(()),
    };
    let (began, ended) = (part::<Stamp>(fields, "occurred_at"), part::<Stamp>(fields, "ended_at"));
    if began.zip(ended).is_some_and(|(began, ended)| ended.at < began.at) {
        faults.add::<()>(&at.key("ended_at"), saying!("job-ended-too-early"));
    }
    let (area, seed) = (part::<Area>(fields, "area"), part::<Mass>(fields, "seed_used"));
    if let Some((area, seed)) = area.zip(seed).filter(|(area, seed)| seed.si() / area.si() > LARGEST_RATE) {
        faults.add::<()>(&at.key("seed_used"), move |words: Words| {
            say!(words, "job-too-much", seed = words.entered(&seed), area = words.entered(&area))
        });
    }
}

/// Records a job.
///
/// # Errors
/// 403 by role; 404 for a unit, lot or field outside the scope; 422 for faults; 409 for a taken id.
pub async fn record_job(signed: &Signed, unit: MeteringUnitId, draft: JobDraft, sent: Value) -> Result<Outcome, Error> {
    let scope = &signed.actor.scope;
    let mut conn = signed.app.read().await?;
    let found = find_unit(&mut conn.cx(), scope, unit).await?;
    let grant = signed.actor.grant_on(Permission::Log, found.seeder_id())?;
    lot::act::named_lot(&mut conn.cx(), scope, draft.lot_id).await?;
    if let Some(field) = draft.field_id {
        field::act::named_field(&mut conn.cx(), scope, field).await?;
    }
    drop(conn);
    let new = NewEntry {
        id: draft.id,
        kind: Kind::Job,
        parent: Some(unit.0),
        happened: Some(draft.occurred_at),
        corrects: draft.corrects,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, RecordId(id), unit, &draft).await?;
    work.commit(Audit::created(Kind::Job, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// Whether a job is within a scope: on a seeder of theirs, and for who is limited to clients, with their seed or on
/// their field.
fn is_in_scope(scope: &Scope, row: &JobRow) -> bool {
    let theirs = scope.lots.includes(&LotId(row.lot_id))
        || row.field_client_id.is_some_and(|client| scope.clients.includes(&ClientId(client)));
    scope.seeders.includes(&SeederId(row.seeder_id)) && theirs
}

/// A job.
///
/// # Errors
/// 404 when there is none within the scope.
pub async fn find_job(cx: &mut Cx<'_>, scope: &Scope, id: RecordId) -> Result<JobRow, Error> {
    let found = store::find(cx, scope, id).await?;
    found.filter(|row| is_in_scope(scope, row)).ok_or_else(|| Error::not_there("job"))
}

/// A page of the jobs of a metering unit.
///
/// # Errors
/// 404 for a unit outside the scope.
pub async fn page_of_jobs(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    asked: &PageAsked,
) -> Result<List<JobRow>, Error> {
    find_unit(cx, scope, unit).await?;
    let mut gathered = Gathered::new(asked);
    while let Some((after, limit)) = gathered.wants() {
        let rows = store::page(cx, scope, unit, after, limit).await?;
        gathered.add(rows, |row| row.head.id, |row| is_in_scope(scope, row));
    }
    Ok(gathered.page(|row| row.head.id))
}

/// Every job that sowed a lot, within the scope, newest first.
///
/// # Errors
/// The database.
pub async fn jobs_with(cx: &mut Cx<'_>, scope: &Scope, lot: LotId) -> Result<Vec<JobRow>, Error> {
    let mut rows = store::with_lot(cx, scope, lot).await?;
    rows.retain(|row| is_in_scope(scope, row));
    Ok(rows)
}

/// Every job of a period that stands, within the scope, oldest first; of one unit, or of all.
///
/// # Errors
/// The database.
pub async fn standing_jobs(
    cx: &mut Cx<'_>,
    scope: &Scope,
    period: Period,
    only: Option<MeteringUnitId>,
) -> Result<Vec<JobRow>, Error> {
    let from = period.from.map_or(i64::MIN, Timestamp::as_microsecond);
    let to = period.to.map_or(i64::MAX, Timestamp::as_microsecond);
    let mut rows = store::standing_between(cx, scope, (from, to), only).await?;
    rows.retain(|row| is_in_scope(scope, row));
    Ok(rows)
}

/// The target rate that a form begins with: that of the unit's last standing job with the lot.
///
/// # Errors
/// The database.
pub async fn last_target(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    lot: LotId,
) -> Result<Option<String>, Error> {
    Ok(store::last_target(cx, scope, unit, lot).await?)
}
