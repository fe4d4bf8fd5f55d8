//! What is done with seeders: commission one, change its name, find it and its metering units.

pub use super::draft::{Drive, SeederChange, SeederDraft, SeederKind, SerialNumber, SpeedRange, UnitChange, UnitDraft};
use super::keyed_in::{KeyedIn, KeyedInView};
use super::store;
pub use super::store::{SeederRow, UnitRow};
use crate::access::{Permission, Scope};
use crate::clock::Stamp;
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome, Work};
use crate::fleet::configuration::store as configurations;
use crate::saying;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use serde_json::{Value, json};
use sowmark_core::ids::{MeteringUnitId, SeederId};

/// Adds a seeder with its metering units. Its first configuration is recorded in the same act and holds from midnight
/// of the commissioning date in the organization's time zone.
///
/// # Errors
/// 403 by role; 409 for a taken id; 422 for faults.
pub async fn add_seeder(signed: &Signed, draft: SeederDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let commissioned = midnight(draft.commissioned_on, &signed.actor.time_zone)?;
    let new =
        NewEntry { id: draft.id, kind: Kind::Seeder, parent: None, happened: None, corrects: None, sent: sent.clone() };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, SeederId(id)),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, id, &draft).await?;
    add_units(&mut work, id, &draft, &sent).await?;
    add_first_configuration(&mut work, id, &draft, commissioned).await?;
    work.commit(Audit::created(Kind::Seeder, id.0, sent)).await?;
    Ok(Outcome::Stored(id.0))
}

async fn add_units(work: &mut Work, seeder: SeederId, draft: &SeederDraft, sent: &Value) -> Result<(), Error> {
    for (position, unit) in (0_i64..).zip(&draft.metering_units) {
        let sent = sent.pointer(&format!("/metering_units/{position}")).cloned().unwrap_or(Value::Null);
        let part = NewEntry {
            id: unit.id,
            kind: Kind::MeteringUnit,
            parent: Some(seeder.0),
            happened: None,
            corrects: None,
            sent,
        };
        let id = work.enter_part(part).await?;
        store::add_unit(work, id, seeder, position, unit).await?;
    }
    Ok(())
}

async fn add_first_configuration(
    work: &mut Work,
    seeder: SeederId,
    draft: &SeederDraft,
    commissioned: Stamp,
) -> Result<(), Error> {
    let part = NewEntry {
        id: None,
        kind: Kind::Configuration,
        parent: Some(seeder.0),
        happened: Some(commissioned),
        corrects: None,
        sent: json!({ "working_width": draft.working_width.entered(), "row_spacing": draft.row_spacing.entered() }),
    };
    let id = work.enter_part(part).await?;
    configurations::add(work, id, seeder, &draft.working_width, &draft.row_spacing).await?;
    Ok(())
}

/// The first moment of a day in a zone.
fn midnight(day: Date, zone: &TimeZone) -> Result<Stamp, Error> {
    let zoned = day.to_zoned_datetime(zone.clone()).map_err(Error::broken)?;
    Ok(Stamp { at: zoned.timestamp(), offset_seconds: zoned.offset().seconds() })
}

/// Adds a metering unit to a seeder that is there, after its others.
///
/// # Errors
/// 403 by role; 404 without the seeder; 409 for a taken id; 422 for a label that another of its units has.
pub async fn add_unit(signed: &Signed, seeder: SeederId, draft: UnitDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.actor.grant_on(Permission::KeepFleet, seeder)?;
    let scope = &signed.actor.scope;
    find_seeder(&mut signed.app.read().await?.cx(), scope, seeder).await?;
    let new = NewEntry {
        id: draft.id,
        kind: Kind::MeteringUnit,
        parent: Some(seeder.0),
        happened: None,
        corrects: None,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    let units = store::units_of(&mut work.cx(), scope, seeder).await?;
    if units.iter().any(|unit| unit.label == draft.label.0) {
        return Err(Error::fault("/label", super::draft::label_taken(&draft.label.0)));
    }
    let position = units.iter().map(|unit| unit.position + 1).max().unwrap_or(0);
    store::add_unit(&mut work, id, seeder, position, &draft).await?;
    work.commit(Audit::created(Kind::MeteringUnit, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// Changes a seeder's name, its serial number, or the form in which the controllers of its units take the number.
///
/// # Errors
/// 403 by role; 404 when there is none; 422 for a unit that is another seeder's.
pub async fn change_seeder(signed: &Signed, id: SeederId, change: SeederChange) -> Result<(), Error> {
    let grant = signed.actor.grant_on(Permission::KeepFleet, id)?;
    let mut work = signed.app.work(&grant).await?;
    let old = find_seeder(&mut work.cx(), &signed.actor.scope, id).await?;
    let units = store::units_of(&mut work.cx(), &signed.actor.scope, id).await?;
    let units = changed_units(&units, &change.metering_units.unwrap_or_default())?;
    let name = change.name.map_or_else(|| old.name.clone(), |name| name.0);
    let serial = change.serial_number.map_or_else(|| old.serial_number.clone(), |serial| serial.0);
    if (&name, &serial) == (&old.name, &old.serial_number) && units.is_empty() {
        return Ok(());
    }
    store::change(&mut work, id, &name, serial.as_deref()).await?;
    for unit in &units {
        store::change_unit(&mut work, unit.id, unit.to).await?;
    }
    let mut from = json!({ "name": old.name, "serial_number": old.serial_number });
    let mut to = json!({ "name": name, "serial_number": serial });
    if !units.is_empty() {
        from["metering_units"] = units.iter().map(|unit| told(unit.id, unit.from)).collect();
        to["metering_units"] = units.iter().map(|unit| told(unit.id, unit.to)).collect();
    }
    work.commit(Audit::changed(Kind::Seeder, id.0, &from, &to)).await?;
    Ok(())
}

/// A unit whose controller takes the number in another form than was said.
struct ChangedUnit {
    id: MeteringUnitId,
    from: Option<KeyedIn>,
    to: Option<KeyedIn>,
}

fn changed_units(units: &[UnitRow], changes: &[UnitChange]) -> Result<Vec<ChangedUnit>, Error> {
    let mut changed = Vec::new();
    for (number, change) in changes.iter().enumerate() {
        let is_twice = changes.iter().take(number).any(|other| other.id == change.id);
        let Some(unit) = units.iter().find(|unit| unit.id == change.id && !is_twice) else {
            return Err(Error::fault(format!("/metering_units/{number}/id"), saying!("seeder-unit-not-its-own")));
        };
        let from = unit.keyed_in.0;
        if from != change.keyed_in {
            changed.push(ChangedUnit { id: unit.id(), from, to: change.keyed_in });
        }
    }
    Ok(changed)
}

fn told(id: MeteringUnitId, form: Option<KeyedIn>) -> Value {
    json!({ "id": id.0, "keyed_in": form.map(KeyedInView::from) })
}

/// A seeder within the scope.
///
/// # Errors
/// 404 when there is none, or it is not this person's to see.
pub async fn find_seeder(cx: &mut Cx<'_>, scope: &Scope, id: SeederId) -> Result<SeederRow, Error> {
    let found = if scope.seeders.includes(&id) { store::find(cx, scope.organization, id).await? } else { None };
    found.ok_or_else(|| Error::not_there("seeder"))
}

/// A metering unit within the scope.
///
/// # Errors
/// 404 when there is none, or it is not this person's to see.
pub async fn find_unit(cx: &mut Cx<'_>, scope: &Scope, id: MeteringUnitId) -> Result<UnitRow, Error> {
    let found = store::find_unit(cx, scope, id).await?;
    found.filter(|unit| scope.seeders.includes(&unit.seeder_id())).ok_or_else(|| Error::not_there("metering unit"))
}

/// The metering units of a seeder that was found within the scope, in their order on the machine.
///
/// # Errors
/// The database.
pub async fn units_of(cx: &mut Cx<'_>, scope: &Scope, seeder: SeederId) -> Result<Vec<UnitRow>, Error> {
    Ok(store::units_of(cx, scope, seeder).await?)
}

/// All metering units within the scope, by seeder's name and in their order on the machine.
///
/// # Errors
/// The database.
pub async fn units(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<UnitRow>, Error> {
    let mut units = store::all_units(cx, scope).await?;
    units.retain(|unit| scope.seeders.includes(&unit.seeder_id()));
    Ok(units)
}

/// All seeders within the scope, by name.
///
/// # Errors
/// The database.
pub async fn seeders(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<SeederRow>, Error> {
    let mut seeders = store::list(cx, scope).await?;
    seeders.retain(|seeder| scope.seeders.includes(&SeederId(seeder.id)));
    Ok(seeders)
}

/// A page of the seeders within the scope.
///
/// # Errors
/// The database.
pub async fn page_of_seeders(cx: &mut Cx<'_>, scope: &Scope, asked: &PageAsked) -> Result<List<SeederRow>, Error> {
    // Paged here, not in SQL: a crew sees a few of a fleet that is small anyway.
    let mut rows = seeders(cx, scope).await?;
    rows.sort_by_key(|row| row.id);
    rows.retain(|row| row.id > asked.after());
    rows.truncate(usize::try_from(asked.fetch()).unwrap_or(usize::MAX));
    Ok(asked.page(rows, |row| row.id))
}
