//! What is done with services: record that a part of a seeder was replaced or repaired.

use super::store;
pub use super::store::ServiceRow;
use crate::access::{Permission, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::fleet::seeder::act::{find_seeder, units_of};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::Note;
use crate::web::paging::{List, PageAsked};
use crate::{input, words};
use serde_json::Value;
use sowmark_core::ids::{MeteringUnitId, SeederId};
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

words! {
    /// A part of a seeder.
    pub enum Component {
        HydraulicMotor = "hydraulic_motor",
        ElectricMotor = "electric_motor",
        ControlValve = "control_valve",
        SpeedSensor = "speed_sensor",
        MeterHousing = "meter_housing",
        Seal = "seal",
        DriveTrain = "drive_train",
        Fan = "fan",
        Controller = "controller",
        Other = "other",
    }
}

impl Component {
    /// As a person reads it.
    #[must_use]
    pub fn says(self, words: Words) -> String {
        let key = match self {
            Self::HydraulicMotor => "component-hydraulic-motor",
            Self::ElectricMotor => "component-electric-motor",
            Self::ControlValve => "component-control-valve",
            Self::SpeedSensor => "component-speed-sensor",
            Self::MeterHousing => "component-meter-housing",
            Self::Seal => "component-seal",
            Self::DriveTrain => "component-drive-train",
            Self::Fan => "component-fan",
            Self::Controller => "component-controller",
            Self::Other => "component-other",
        };
        say!(words, key)
    }
}

input! {
    /// A part replaced or repaired on a seeder.
    pub record struct ServiceDraft {
        /// The unit it was done on; none, the whole seeder.
        pub metering_unit_id: Option<MeteringUnitId>,
        pub component: Component,
        /// Whether it can have changed what a roller turn delivers: then the unit is caught again.
        pub affects_metering: bool,
        pub note: Option<Note>,
    }
}

/// Records a service.
///
/// # Errors
/// 403 by role; 404 without the seeder, or with a unit that is not on it; 409 for a taken id.
pub async fn add_service(
    signed: &Signed,
    seeder: SeederId,
    draft: ServiceDraft,
    sent: Value,
) -> Result<Outcome, Error> {
    let grant = signed.actor.grant_on(Permission::Log, seeder)?;
    let scope = &signed.actor.scope;
    {
        let mut conn = signed.app.read().await?;
        find_seeder(&mut conn.cx(), scope, seeder).await?;
        let units = units_of(&mut conn.cx(), scope, seeder).await?;
        if draft.metering_unit_id.is_some_and(|id| units.iter().all(|unit| unit.id() != id)) {
            return Err(Error::not_there_at("/metering_unit_id", "metering unit on this seeder"));
        }
    }
    let new = NewEntry {
        id: draft.id,
        kind: Kind::Service,
        parent: Some(seeder.0),
        happened: Some(draft.occurred_at),
        corrects: draft.corrects,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, id, seeder, &draft).await?;
    work.commit(Audit::created(Kind::Service, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// A service record of a seeder within the scope.
///
/// # Errors
/// 404 when there is none.
pub async fn find_service(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<ServiceRow, Error> {
    let found = store::find(cx, scope, id).await?;
    found.filter(|row| scope.seeders.includes(&SeederId(row.seeder_id))).ok_or_else(|| Error::not_there("service"))
}

/// A page of the services of a seeder.
///
/// # Errors
/// 404 without the seeder.
pub async fn page_of_services(
    cx: &mut Cx<'_>,
    scope: &Scope,
    seeder: SeederId,
    asked: &PageAsked,
) -> Result<List<ServiceRow>, Error> {
    find_seeder(cx, scope, seeder).await?;
    let rows = store::page(cx, scope, seeder, asked.after(), asked.fetch()).await?;
    Ok(asked.page(rows, |row| row.head.id))
}
