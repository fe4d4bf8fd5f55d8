//! A drill with something fitted and seed in its tank, ready to be caught.

use crate::world::{Person, World};
use serde_json::{Value, json};

/// What is needed for a catch.
pub struct Bench {
    pub ana: Person,
    pub unit: String,
    pub lot: String,
    pub scale: String,
}

/// Grams caught from twelve units in 50 turns of the wheel.
///
/// Source: a textbook chapter on calibrating equipment ("Metric problems"; probably Field and Solie, Introduction to
/// Agricultural Engineering Technology). Printed there: total 270.9 g, mean 22.575 g.
pub const GRAMS: [&str; 12] =
    ["22.6", "22.4", "22.0", "22.9", "22.7", "22.6", "22.0", "22.8", "22.8", "22.7", "22.6", "22.8"];

/// When the catch is: after the setup.
pub const CAUGHT: &str = "2027-03-30T09:40:00+02:00";

impl Bench {
    /// A drill of 25 units, wheel and roller one to one, as in the textbook.
    pub async fn new(world: &World) -> Self {
        let ana = world.ana().await;
        let seeder = ana
            .create(
                "/seeders",
                json!({
                    "name": "Drill 1", "serial_number": "SN-1", "kind": "box_drill", "commissioned_on": "2021-03-01",
                    "working_width": { "value": "5.0", "unit": "m" }, "row_spacing": { "value": "20", "unit": "cm" },
                    "metering_units": [{ "label": "left", "runs": 25, "drive": "ground", "roller_speed_rpm": { "min": 10, "max": 120 } }]
                }),
            )
            .await;
        let unit = text(&seeder["metering_units"][0]["id"]);
        let roller = ana.create("/rollers", json!({ "label": "fine", "kind": "fluted" })).await;
        let setup = json!({ "occurred_at": "2027-03-01T08:00:00+01:00", "roller_id": roller["id"], "drive_ratio": "1", "gate": null, "runs": 25, "note": "" });
        ana.create(&format!("/metering-units/{unit}/setups"), setup).await;
        let lot = ana
            .create(
                "/lots",
                json!({ "lot_number": "W-12", "crop": "wheat", "variety": "Ida", "treatment": { "product": "Fungicide X", "caution": "Toxic to fish." } }),
            )
            .await;
        let scale = json!({ "name": "Yard scale", "readability": { "value": "0.1", "unit": "g" }, "capacity": { "value": "5", "unit": "kg" } });
        let scale = ana.create("/scales", scale).await;
        Self { ana, unit, lot: text(&lot["id"]), scale: text(&scale["id"]) }
    }

    pub fn path(&self) -> String {
        format!("/metering-units/{}/calibrations", self.unit)
    }

    /// The textbook's catch, that many times.
    pub fn sheet(&self, repeats: usize) -> Value {
        let catches: Vec<Value> = (1..)
            .zip(GRAMS)
            .map(|(run, grams)| {
                json!({ "label": format!("run {run}"), "runs": 1, "tare": { "value": "0", "unit": "g" }, "gross": { "value": grams, "unit": "g" } })
            })
            .collect();
        json!({
            "occurred_at": CAUGHT, "lot_id": self.lot, "scale_id": null, "method": "stationary", "roller_speed_rpm": 42,
            "planned": null, "note": "",
            "repeats": vec![json!({ "revolutions": "50", "catches": catches }); repeats]
        })
    }

    /// A sheet with something else at a place.
    pub fn with(&self, pointer: &str, value: Value) -> Value {
        let mut sheet = self.sheet(2);
        put(&mut sheet, pointer, value);
        sheet
    }
}

pub fn put(sheet: &mut Value, pointer: &str, value: Value) {
    *sheet.pointer_mut(pointer).unwrap_or_else(|| panic!("no {pointer} on the sheet")) = value;
}

pub fn text(value: &Value) -> String {
    value.as_str().unwrap_or_else(|| panic!("{value} is no text")).to_owned()
}

/// A number that stands as text in a quantity.
pub fn amount(quantity: &Value) -> f64 {
    text(&quantity["value"]).parse().expect("a number")
}
