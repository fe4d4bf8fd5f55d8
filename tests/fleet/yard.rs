//! A yard with two machines, and the people around it.

use crate::world::{Person, World};
use serde_json::{Value, json};

pub fn q(value: &str, unit: &str) -> Value {
    json!({ "value": value, "unit": unit })
}

pub fn text(value: &Value) -> String {
    value.as_str().unwrap_or_else(|| panic!("{value} is no text")).to_owned()
}

/// A drill of two units, as it is sent.
pub fn drill(name: &str) -> Value {
    json!({
        "name": name, "serial_number": "BD-104", "kind": "box_drill", "commissioned_on": "2019-07-05",
        "working_width": q("6.00", "m"), "row_spacing": q("12.5", "cm"),
        "metering_units": [
            { "label": "front", "runs": 24, "drive": "hydraulic", "roller_speed_rpm": { "min": 10, "max": "120.5" } },
            { "label": "rear", "runs": 8, "drive": "ground", "roller_speed_rpm": null }
        ]
    })
}

pub fn setup(roller: &str) -> Value {
    json!({ "occurred_at": "2027-03-30T08:15:00+02:00", "roller_id": roller, "drive_ratio": "5:2", "gate": " 12 ",
        "runs": 8, "note": "after the winter" })
}

pub fn service() -> Value {
    json!({ "occurred_at": "2027-03-31T10:00:00+02:00", "metering_unit_id": null, "component": "seal",
        "affects_metering": true, "note": "" })
}

/// Ana's yard: a drill, another that no crew has, a roller; Kim and Ole of the drill's crew, and Mia, who advises.
pub struct Yard {
    pub ana: Person,
    pub kim: Person,
    pub ole: Person,
    pub mia: Person,
    pub drill: String,
    /// The drill's units, front and rear.
    pub units: [String; 2],
    pub other: String,
    pub other_unit: String,
    pub roller: String,
}

impl Yard {
    pub async fn new(world: &World) -> Self {
        let ana = world.ana().await;
        let organization = ana.organization;
        let kim = world.member(organization, &format!("kim-{organization}@example.org"), "crew").await;
        let ole = world.member(organization, &format!("ole-{organization}@example.org"), "crew").await;
        let mia = world.member(organization, &format!("mia-{organization}@example.org"), "agronomist").await;
        let first = ana.create("/seeders", drill("Drill 1")).await;
        let other = ana.create("/seeders", drill("Drill 2")).await;
        let roller = ana.create("/rollers", json!({ "label": "fine fluted", "kind": "fluted" })).await;
        let crew = json!({ "name": "Yard", "members": [kim.account, ole.account], "seeders": [first["id"]] });
        ana.create("/crews", crew).await;
        Self {
            drill: text(&first["id"]),
            units: [text(&first["metering_units"][0]["id"]), text(&first["metering_units"][1]["id"])],
            other: text(&other["id"]),
            other_unit: text(&other["metering_units"][0]["id"]),
            roller: text(&roller["id"]),
            ana,
            kim,
            ole,
            mia,
        }
    }

    /// The address of something of the drill.
    pub fn at(&self, what: &str) -> String {
        format!("/seeders/{}/{what}", self.drill)
    }

    /// The address of something of the drill's front unit.
    pub fn front(&self, what: &str) -> String {
        format!("/metering-units/{}/{what}", self.units[0])
    }
}
