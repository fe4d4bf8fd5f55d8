//! What is done with setups: record which roller, ratio, gate and runs a metering unit has from a moment on.

use super::store;
pub use super::store::SetupRow;
use crate::access::{Permission, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::fleet::roller::act::find_roller;
use crate::fleet::seeder::act::find_unit;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::{At, Faults, Input, Line, Note, Whole};
use crate::web::paging::{List, PageAsked};
use crate::{input, saying};
use jiff::Timestamp;
use serde_json::Value;
use sowmark_core::ids::{MeteringUnitId, RollerId};
use sowmark_core::quantity::DriveRatio;
use sowmark_core::words::Words;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, SchemaType, Type};
use uuid::Uuid;

/// Roller revolutions to drive revolutions: `"5:2"`, `"2.5"`, or a number.
impl Input for DriveRatio {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let parsed = match value {
            Some(Value::String(text)) => Self::parse(text),
            Some(Value::Number(number)) => Self::parse(&number.to_string()),
            other => return faults.wrong_kind(other, at, "ratio"),
        };
        match parsed {
            Ok(ratio) => Some(ratio),
            Err(error) => faults.add(at, move |words: Words| error.says(words)),
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(SchemaType::from_iter([Type::String, Type::Number]))
            .description(Some(
                "Roller revolutions to drive revolutions: two positive decimals like 5:2, or one like 2.5.",
            ))
            .into()
    }
}

input! {
    /// What is fitted to a metering unit, from a moment on.
    pub record struct SetupDraft {
        pub roller_id: RollerId,
        pub drive_ratio: DriveRatio,
        /// The gate's opening, as it reads on the machine; none where there is no gate.
        pub gate: Option<Line<60>>,
        /// How many of the unit's runs are in use.
        pub runs: Whole<1, 500>,
        pub note: Option<Note>,
    }
}

/// Records a setup.
///
/// # Errors
/// 403 by role; 404 without the unit or the roller; 409 for a taken id; 422 for more runs than the unit has.
pub async fn add_setup(
    signed: &Signed,
    unit: MeteringUnitId,
    draft: SetupDraft,
    sent: Value,
) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::Log)?;
    let scope = &signed.actor.scope;
    {
        let mut conn = signed.app.read().await?;
        let found = find_unit(&mut conn.cx(), scope, unit).await?;
        if draft.runs.0 > found.runs {
            let (used, runs, label) = (draft.runs.0.to_string(), found.runs.to_string(), found.label);
            let says = saying!("setup-runs-too-many", used = &used, unit = &label, runs = &runs);
            return Err(Error::fault("/runs", says));
        }
        match find_roller(&mut conn.cx(), scope, draft.roller_id).await {
            Err(Error::NotThere { .. }) => return Err(Error::not_there_at("/roller_id", "roller")),
            found => found?,
        };
    }
    let new = NewEntry {
        id: draft.id,
        kind: Kind::Setup,
        parent: Some(unit.0),
        happened: Some(draft.occurred_at),
        corrects: draft.corrects,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, id, unit, &draft).await?;
    work.commit(Audit::created(Kind::Setup, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// A setup record of a unit within the scope.
///
/// # Errors
/// 404 when there is none.
pub async fn find_setup(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<SetupRow, Error> {
    let row = store::find(cx, scope, id).await?.ok_or_else(|| Error::not_there("setup"))?;
    find_unit(cx, scope, MeteringUnitId(row.metering_unit_id)).await?;
    Ok(row)
}

/// A page of the setups of a metering unit.
///
/// # Errors
/// 404 without the unit.
pub async fn page_of_setups(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    asked: &PageAsked,
) -> Result<List<SetupRow>, Error> {
    find_unit(cx, scope, unit).await?;
    let rows = store::page(cx, scope, unit, asked.after(), asked.fetch()).await?;
    Ok(asked.page(rows, |row| row.head.id))
}

/// The setup in force at a moment; none when none was recorded before it.
///
/// # Errors
/// The database.
pub async fn in_force(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    at: Timestamp,
) -> Result<Option<SetupRow>, Error> {
    Ok(store::in_force(cx, scope, unit, at).await?)
}
