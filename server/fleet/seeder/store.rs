//! Seeders and their metering units in the database.

use super::act::{SeederDraft, UnitDraft};
use super::keyed_in::{KeyedIn, Said};
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::{args, queries};
use sowmark_core::ids::{MeteringUnitId, OrganizationId, SeederId};
use uuid::Uuid;

queries! {
    ADD = "insert into seeder (organization_id, id, name, serial_number, kind, commissioned_on) values ($1, $2, $3, $4, $5, $6)";
    ADD_UNIT = "insert into metering_unit (organization_id, id, seeder_id, position, label, runs, drive, roller_speed_min, roller_speed_max,
            key_mass_unit, key_per_revolutions, key_for)
        values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)";
    CHANGE = "update seeder set name = $3, serial_number = $4 where organization_id = $1 and id = $2";
    CHANGE_UNIT = "update metering_unit set key_mass_unit = $3, key_per_revolutions = $4, key_for = $5
        where organization_id = $1 and id = $2";
    FIND = "select id, name, serial_number, kind, commissioned_on from seeder where organization_id = $1 and id = $2";
    LIST = "select id, name, serial_number, kind, commissioned_on from seeder where organization_id = $1 order by name, id";
    FIND_UNIT = "select u.id, u.seeder_id, s.name as seeder, u.position, u.label, u.runs, u.drive, u.roller_speed_min, u.roller_speed_max,
            u.key_mass_unit, u.key_per_revolutions, u.key_for
        from metering_unit u join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        where u.organization_id = $1 and u.id = $2";
    UNITS_OF = "select u.id, u.seeder_id, s.name as seeder, u.position, u.label, u.runs, u.drive, u.roller_speed_min, u.roller_speed_max,
            u.key_mass_unit, u.key_per_revolutions, u.key_for
        from metering_unit u join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        where u.organization_id = $1 and u.seeder_id = $2 order by u.position";
    ALL_UNITS = "select u.id, u.seeder_id, s.name as seeder, u.position, u.label, u.runs, u.drive, u.roller_speed_min, u.roller_speed_max,
            u.key_mass_unit, u.key_per_revolutions, u.key_for
        from metering_unit u join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        where u.organization_id = $1 order by s.name, s.id, u.position";
}

/// A seeder as it stands.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct SeederRow {
    pub id: Uuid,
    pub name: String,
    pub serial_number: Option<String>,
    pub kind: String,
    pub commissioned_on: String,
}

/// A metering unit, with its seeder's name.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct UnitRow {
    pub id: Uuid,
    pub seeder_id: Uuid,
    pub seeder: String,
    pub position: i64,
    pub label: String,
    /// How many runs it feeds.
    pub runs: i64,
    pub drive: String,
    /// Revolutions per minute, as entered.
    pub roller_speed_min: Option<String>,
    pub roller_speed_max: Option<String>,
    #[sqlx(flatten)]
    pub keyed_in: Said,
}

impl UnitRow {
    #[must_use]
    pub fn id(&self) -> MeteringUnitId {
        MeteringUnitId(self.id)
    }

    #[must_use]
    pub fn seeder_id(&self) -> SeederId {
        SeederId(self.seeder_id)
    }
}

pub(super) async fn add(work: &mut Work, id: SeederId, draft: &SeederDraft) -> Result<()> {
    let organization = work.organization();
    let serial = draft.serial_number.as_ref().and_then(|serial| serial.0.as_deref());
    work.cx()
        .execute(ADD, args![organization, id, &draft.name.0, serial, draft.kind.word(), draft.commissioned_on])
        .await?;
    Ok(())
}

pub(super) async fn add_unit(
    work: &mut Work,
    id: Uuid,
    seeder: SeederId,
    position: i64,
    draft: &UnitDraft,
) -> Result<()> {
    let organization = work.organization();
    let speeds = draft.roller_speed_rpm.as_ref();
    let (min, max) = (speeds.map(|s| s.min.as_str()), speeds.map(|s| s.max.as_str()));
    let (label, drive) = (&draft.label.0, draft.drive.word());
    let (mass, per, of) = columns(draft.keyed_in);
    let values = args![organization, id, seeder, position, label, draft.runs.0, drive, min, max, mass, per, of];
    work.cx().execute(ADD_UNIT, values).await?;
    Ok(())
}

fn columns(form: Option<KeyedIn>) -> (Option<&'static str>, Option<i64>, Option<&'static str>) {
    (
        form.map(|form| form.mass_unit.word()),
        form.map(|form| i64::from(form.per.count())),
        form.map(|form| form.is_for.word()),
    )
}

pub(super) async fn change_unit(work: &mut Work, id: MeteringUnitId, form: Option<KeyedIn>) -> Result<()> {
    let organization = work.organization();
    let (mass, per, of) = columns(form);
    work.cx().execute(CHANGE_UNIT, args![organization, id, mass, per, of]).await?;
    Ok(())
}

pub(super) async fn change(work: &mut Work, id: SeederId, name: &str, serial_number: Option<&str>) -> Result<()> {
    let organization = work.organization();
    work.cx().execute(CHANGE, args![organization, id, name, serial_number]).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, organization: OrganizationId, id: SeederId) -> Result<Option<SeederRow>> {
    cx.fetch_optional(FIND, args![organization, id]).await
}

pub(super) async fn list(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<SeederRow>> {
    cx.fetch_all(LIST, args![scope.organization]).await
}

pub(super) async fn find_unit(cx: &mut Cx<'_>, scope: &Scope, id: MeteringUnitId) -> Result<Option<UnitRow>> {
    cx.fetch_optional(FIND_UNIT, args![scope.organization, id]).await
}

pub(super) async fn units_of(cx: &mut Cx<'_>, scope: &Scope, seeder: SeederId) -> Result<Vec<UnitRow>> {
    cx.fetch_all(UNITS_OF, args![scope.organization, seeder]).await
}

pub(super) async fn all_units(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<UnitRow>> {
    cx.fetch_all(ALL_UNITS, args![scope.organization]).await
}
