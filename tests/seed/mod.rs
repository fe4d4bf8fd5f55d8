//! The seed through the API and on its pages: lots and what is known of them, fills, jobs, and who sees what.

mod age;
mod changed;
mod hostile;
mod jobs;
mod labels;
mod lots;
mod movements;
mod pages;
mod sight;
mod spanish;
mod tanks;
mod tests;
mod unlikely;

use crate::world::{Person, World};
use serde_json::{Value, json};
use sowmark::access::{Via, find_actor};
use sowmark::args;
use sowmark::fleet::seeder::act;
use sowmark::web::door::Signed;
use sowmark::web::input;
use sowmark_core::ids::{AccountId, OrganizationId, SeederId};

/// An air drill of its own with one metering unit.
pub(crate) struct Drill {
    pub(crate) seeder: SeederId,
    pub(crate) unit: String,
}

impl Drill {
    /// Below the drill's unit.
    pub(crate) fn path(&self, what: &str) -> String {
        format!("/metering-units/{}/{what}", self.unit)
    }
}

/// Adds a drill, by the office.
pub(crate) async fn drill(world: &World, office: &Person, name: &str) -> Drill {
    let signed = signed(world, office.organization, office.account).await;
    let sent = json!({
        "name": name, "serial_number": "A-1", "kind": "air_drill", "commissioned_on": "2020-03-01",
        "working_width": { "value": "6", "unit": "m" }, "row_spacing": { "value": "15", "unit": "cm" },
        "metering_units": [{ "label": "tank 1", "runs": 8, "drive": "electric", "roller_speed_rpm": { "min": 10, "max": 120 } }]
    });
    let draft = input::read(&sent).expect("a seeder");
    let seeder = SeederId(act::add_seeder(&signed, draft, sent).await.expect("a seeder").id());
    let mut conn = world.app.read().await.expect("a connection");
    let units = act::units_of(&mut conn.cx(), &signed.actor.scope, seeder).await.expect("units");
    Drill { seeder, unit: units[0].id.to_string() }
}

async fn signed(world: &World, organization: OrganizationId, account: AccountId) -> Signed {
    let mut conn = world.app.read().await.expect("a connection");
    let actor = find_actor(&mut conn.cx(), organization, account, Via::Token).await.expect("the database");
    Signed { app: world.app.clone(), actor: actor.expect("a member") }
}

/// Somebody of a crew that works with these drills and no others.
pub(crate) async fn hand(world: &World, office: &Person, email: &str, drills: &[&Drill]) -> Person {
    let person = world.member(office.organization, email, "crew").await;
    let crew = world.app.clock.new_id().expect("an id");
    let mut tx = world.app.db.begin().await.expect("a transaction");
    let (organization, now) = (office.organization, world.app.clock.now());
    let entry =
        "insert into entry (organization_id, id, kind, recorded_at, fingerprint) values ($1, $2, 'crew', $3, $4)";
    tx.cx().execute(entry, args![organization, crew, now, [0_u8; 32]]).await.expect("an entry");
    let sql = "insert into crew (organization_id, id, name) values ($1, $2, 'yard')";
    tx.cx().execute(sql, args![organization, crew]).await.expect("a crew");
    let sql = "insert into crew_member (organization_id, crew_id, account_id) values ($1, $2, $3)";
    tx.cx().execute(sql, args![organization, crew, person.account]).await.expect("a crew member");
    for drill in drills {
        let sql = "insert into crew_seeder (organization_id, crew_id, seeder_id) values ($1, $2, $3)";
        tx.cx().execute(sql, args![organization, crew, drill.seeder]).await.expect("a crew's seeder");
    }
    tx.commit().await.expect("a commit");
    person
}

/// A plain lot of winter wheat; `more` adds or replaces fields.
pub(crate) fn wheat(number: &str, more: &Value) -> Value {
    let mut lot = json!({ "lot_number": number, "crop": "winter wheat", "variety": "Elmora" });
    for (name, value) in more.as_object().expect("fields") {
        lot[name] = value.clone();
    }
    lot
}

/// Adds a lot and answers its id.
pub(crate) async fn lot(office: &Person, number: &str, more: Value) -> String {
    id(&office.create("/lots", wheat(number, &more)).await)
}

/// The id of what was created.
pub(crate) fn id(created: &Value) -> String {
    created["id"].as_str().expect("an id").to_owned()
}

/// Kilograms.
pub(crate) fn kg(value: &str) -> Value {
    json!({ "value": value, "unit": "kg" })
}

/// A job of 10 ha with a lot on a field that is not kept; `more` adds or replaces fields.
pub(crate) fn job(lot: &str, more: &Value) -> Value {
    let mut job = json!({
        "occurred_at": "2027-04-06T08:00:00+02:00", "ended_at": "2027-04-06T12:30:00+02:00", "field": "Long acre",
        "lot_id": lot, "area": { "value": "10.0", "unit": "ha" }, "seed_used": kg("1410"),
        "target_rate": { "value": "140", "unit": "kg/ha" }
    });
    for (name, value) in more.as_object().expect("fields") {
        job[name] = value.clone();
    }
    job
}

/// The ids of a list.
pub(crate) fn ids(list: &Value) -> Vec<String> {
    list["items"].as_array().expect("items").iter().map(id).collect()
}

/// An id that nothing has.
pub(crate) const NOBODYS: &str = "0196d2a0-0000-7000-8000-00000000dead";
