//! What is done with calibrations: compute one, record one, decide about one that is held.

use super::draft::{CalibrationDraft, DecisionDraft};
use super::store;
use super::stored::{self, Calibration, Status};
use super::weigh::{self, Weighed};
use crate::access::{Permission, Scope};
use crate::clock::Stamp;
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::saying;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input;
use crate::web::paging::{List, PageAsked};
use serde_json::Value;
use sowmark_core::ids::{CalibrationId, MeteringUnitId, SeederId};

/// Records a calibration of a unit: judged by what stands at this moment, accepted at once unless a check failed.
///
/// # Errors
/// 404 for a unit, lot or scale that is not there; 403 by role; 409 for a taken id; 422 with every fault of the sheet.
pub async fn log_calibration(signed: &Signed, unit: MeteringUnitId, sent: Value) -> Result<Outcome, Error> {
    let actor = &signed.actor;
    let mut conn = signed.app.read().await?;
    let found = find_unit(&mut conn.cx(), &actor.scope, unit).await?;
    let grant = actor.grant_on(Permission::Log, SeederId(found.seeder_id))?;
    let draft = match input::read::<CalibrationDraft>(&sent) {
        Ok(draft) => draft,
        Err(error) => return Err(all_faults(&mut conn.cx(), signed, &found, &sent, error).await),
    };
    drop(conn);
    let new = NewEntry {
        id: draft.id,
        kind: Kind::Calibration,
        parent: Some(unit.0),
        happened: Some(draft.occurred_at),
        corrects: draft.corrects,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    // Judged within the act, so that it sees exactly the records that it is stored after.
    let now = work.now();
    let weighed = weigh::weigh(&mut work.cx(), actor, &found, &draft, now, id).await?;
    let texts = stored::texts(&weighed)?;
    store::add(&mut work, CalibrationId(id), unit, &draft, &weighed, texts).await?;
    work.commit(Audit::created(Kind::Calibration, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// Computes a calibration and stores nothing.
///
/// # Errors
/// As [`log_calibration`].
pub async fn preview(
    signed: &Signed,
    unit: MeteringUnitId,
    sent: &Value,
) -> Result<(CalibrationDraft, Weighed), Error> {
    let mut conn = signed.app.read().await?;
    let found = find_unit(&mut conn.cx(), &signed.actor.scope, unit).await?;
    signed.actor.grant_on(Permission::Log, SeederId(found.seeder_id))?;
    let draft = match input::read::<CalibrationDraft>(sent) {
        Ok(draft) => draft,
        Err(error) => return Err(all_faults(&mut conn.cx(), signed, &found, sent, error).await),
    };
    let (now, id) = (signed.app.clock.now(), signed.app.clock.new_id()?);
    let weighed = weigh::weigh(&mut conn.cx(), &signed.actor, &found, &draft, now, id).await?;
    Ok((draft, weighed))
}

/// The faults of reading a sheet, and those that show in the rest of it.
async fn all_faults(cx: &mut Cx<'_>, signed: &Signed, unit: &store::UnitRow, sent: &Value, error: Error) -> Error {
    let Error::Faults(read) = error else { return error };
    match weigh::faults_of(cx, &signed.actor, unit, sent, read, signed.app.clock.now()).await {
        Ok(faults) => Error::Faults(faults),
        Err(error) => error,
    }
}

/// Accepts or rejects a held calibration, with a reason.
///
/// # Errors
/// 404; 403 by role; 409 when it is not held; 422 without a reason.
pub async fn decide(
    signed: &Signed,
    calibration: CalibrationId,
    draft: DecisionDraft,
    sent: Value,
) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::Decide)?;
    let mut conn = signed.app.read().await?;
    find_calibration(&mut conn.cx(), &signed.actor.scope, calibration).await?;
    drop(conn);
    if draft.reason.0.is_empty() {
        return Err(Error::fault("/reason", saying!("calibration-decision-without-reason")));
    }
    let new = NewEntry {
        id: draft.id,
        kind: Kind::Decision,
        parent: Some(calibration.0),
        happened: Some(draft.occurred_at.unwrap_or(Stamp::utc(signed.app.clock.now()))),
        corrects: None,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    let found = find_calibration(&mut work.cx(), &signed.actor.scope, calibration).await?;
    if found.status() != Status::Held {
        return Err(Error::conflict(saying!("calibration-not-held", status = found.status().word())));
    }
    store::add_decision(&mut work, id, calibration, &draft).await?;
    work.commit(Audit::created(Kind::Decision, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// A metering unit that somebody sees.
///
/// # Errors
/// 404 when there is none.
pub(super) async fn find_unit(cx: &mut Cx<'_>, scope: &Scope, id: MeteringUnitId) -> Result<store::UnitRow, Error> {
    store::unit(cx, scope, id).await?.ok_or_else(|| Error::not_there("metering unit"))
}

/// A calibration with the decisions about it.
///
/// # Errors
/// 404 when there is none.
pub async fn find_calibration(cx: &mut Cx<'_>, scope: &Scope, id: CalibrationId) -> Result<Calibration, Error> {
    let row = store::find(cx, scope, id).await?.ok_or_else(|| Error::not_there("calibration"))?;
    let decisions = store::decisions(cx, scope, row.metering_unit_id).await?;
    Calibration::read(row, &decisions)
}

/// A page of a unit's calibrations.
///
/// # Errors
/// 404 when there is no such unit.
pub async fn calibrations_of_unit(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    asked: &PageAsked,
) -> Result<List<Calibration>, Error> {
    find_unit(cx, scope, unit).await?;
    let decisions = store::decisions(cx, scope, unit.0).await?;
    let rows = store::of_unit(cx, scope, unit, asked.after(), asked.fetch()).await?;
    asked.page(rows, |row| row.head.id).try_map(|row| Calibration::read(row, &decisions))
}
