//! A drill of one tank, with what a catch needs, and the acts of its season in one line each.

use crate::world::{Person, World};
use serde_json::{Value, json};

/// A drill, its rollers and its seed. Ids are given by the sender, so that two farms can hold the same records.
pub struct Farm {
    pub ana: Person,
    pub seeder: String,
    pub unit: String,
    pub fine: String,
    pub coarse: String,
    pub wheat: String,
    pub other_wheat: String,
    pub rape: String,
    pub scale: String,
}

/// An id that every farm uses for the same thing.
pub fn id(number: u32) -> String {
    format!("0196d2a0-0000-7000-8000-{number:012x}")
}

pub fn text(value: &Value) -> String {
    value.as_str().unwrap_or_else(|| panic!("{value} is no text")).to_owned()
}

/// An instant, however its offset is written.
pub fn instant(value: &Value) -> jiff::Timestamp {
    text(value).parse().unwrap_or_else(|error| panic!("{value}: {error}"))
}

fn quantity(value: &str, unit: &str) -> Value {
    json!({ "value": value, "unit": unit })
}

pub fn setup(at: &str, roller: &str, ratio: &str, gate: &str) -> Value {
    json!({ "occurred_at": at, "roller_id": roller, "drive_ratio": ratio, "gate": gate, "runs": 8, "note": "" })
}

pub fn fill(at: &str, lot: &str) -> Value {
    json!({ "occurred_at": at, "lot_id": lot, "mass": null })
}

/// A catch of all eight runs, twice; `second` decides whether the two agree.
pub fn catch(at: &str, lot: &str, scale: Option<&str>, second: &str) -> Value {
    let repeat = |gross: &str| {
        json!({ "revolutions": "40", "catches": [
            { "label": "all runs", "runs": 8, "tare": quantity("0", "kg"), "gross": quantity(gross, "kg") }] })
    };
    json!({ "occurred_at": at, "lot_id": lot, "scale_id": scale, "method": "stationary", "roller_speed_rpm": 42, "planned": null,
        "note": "", "repeats": [repeat("9.600"), repeat(second)] })
}

pub const AGREES: &str = "9.640";
pub const DISAGREES: &str = "12.000";

pub fn job(at: &str, lot: &str, seed_used_kg: &str, speed_km_h: &str) -> Value {
    json!({ "occurred_at": at, "ended_at": null, "field": "Long Acre", "lot_id": lot, "area": quantity("10", "ha"),
        "seed_used": quantity(seed_used_kg, "kg"), "target_rate": quantity("140", "kg/ha"), "speed": quantity(speed_km_h, "km/h"),
        "note": "" })
}

pub fn lot_test(at: &str, thousand: &str) -> Value {
    json!({ "occurred_at": at, "thousand_seed_weight": quantity(thousand, "g"), "bulk_density": quantity("78", "kg/hL") })
}

pub fn service(at: &str, affects: bool) -> Value {
    json!({ "occurred_at": at, "metering_unit_id": null, "component": "hydraulic_motor", "affects_metering": affects, "note": "" })
}

pub fn configuration(at: &str, width: &str) -> Value {
    json!({ "occurred_at": at, "working_width": quantity(width, "m"), "row_spacing": quantity("12.5", "cm") })
}

impl Farm {
    /// The machine and the things around it; nothing has happened to it yet.
    pub async fn new(world: &World) -> Self {
        Self::of(world.ana().await).await
    }

    pub async fn of(ana: Person) -> Self {
        let seeder = json!({
            "id": id(1), "name": "Drill 1", "serial_number": "SN-1", "kind": "box_drill", "commissioned_on": "2021-03-01",
            "working_width": quantity("6", "m"), "row_spacing": quantity("12.5", "cm"),
            "metering_units": [{ "id": id(2), "label": "front tank", "runs": 8, "drive": "electric", "roller_speed_rpm": { "min": 10, "max": 120 } }]
        });
        ana.create("/seeders", seeder).await;
        for (number, label, kind) in [(3, "fine fluted", "fluted"), (4, "coarse studded", "studded")] {
            ana.create("/rollers", json!({ "id": id(number), "label": label, "kind": kind })).await;
        }
        for (number, lot, crop) in [(5, "W-16", "wheat"), (6, "W-17", "Wheat "), (7, "R-2", "rape")] {
            ana.create("/lots", json!({ "id": id(number), "lot_number": lot, "crop": crop })).await;
        }
        let scale = json!({ "id": id(8), "name": "Yard scale", "readability": quantity("1", "g"), "capacity": quantity("15", "kg") });
        ana.create("/scales", scale).await;
        let farm = Self {
            ana,
            seeder: id(1),
            unit: id(2),
            fine: id(3),
            coarse: id(4),
            wheat: id(5),
            other_wheat: id(6),
            rape: id(7),
            scale: id(8),
        };
        let check = json!({ "occurred_at": "2027-03-20T08:00:00Z", "reference": quantity("10", "kg"), "reading": quantity("10.01", "kg") });
        farm.ana.create(&format!("/scales/{}/checks", farm.scale), check).await;
        farm
    }

    /// The same with a setup, wheat in the tank and an accepted catch of 28 March, 08:00 UTC.
    pub async fn ready(world: &World) -> (Self, String) {
        let farm = Self::new(world).await;
        farm.log("setups", setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")).await;
        farm.log("fills", fill("2027-03-22T08:00:00Z", &farm.wheat)).await;
        farm.at_lot(&farm.wheat, lot_test("2027-03-23T08:00:00Z", "40")).await;
        let caught = farm.caught("2027-03-28T08:00:00Z", &farm.wheat).await;
        let now = farm.at(LATER).await;
        assert_eq!((&now["state"], &now["due"]), (&json!("ready"), &json!([])), "{now}");
        (farm, caught)
    }

    /// Logs a record of the unit; answers its id.
    pub async fn log(&self, what: &str, record: Value) -> String {
        text(&self.ana.create(&format!("/metering-units/{}/{what}", self.unit), record).await["id"])
    }

    pub async fn at_seeder(&self, what: &str, record: Value) -> String {
        text(&self.ana.create(&format!("/seeders/{}/{what}", self.seeder), record).await["id"])
    }

    pub async fn at_lot(&self, lot: &str, test: Value) -> String {
        text(&self.ana.create(&format!("/lots/{lot}/tests"), test).await["id"])
    }

    /// An accepted catch of a lot, on the checked scale.
    pub async fn caught(&self, at: &str, lot: &str) -> String {
        let record = catch(at, lot, Some(&self.scale), AGREES);
        let answer = self.ana.create(&format!("/metering-units/{}/calibrations", self.unit), record).await;
        assert_eq!(answer["status"], "accepted", "{}", answer["result"]["checks"]);
        text(&answer["id"])
    }

    /// The unit at a moment.
    pub async fn at(&self, moment: &str) -> Value {
        self.ana.read(&format!("/metering-units/{}/readiness?at={moment}", self.unit)).await
    }

    /// Asserts exactly one trigger due at a moment.
    pub async fn due(&self, moment: &str, trigger: &str, since: &str, cause: (&str, &str)) -> Value {
        let now = self.at(moment).await;
        let due = now["due"].as_array().expect("a list").clone();
        let names: Vec<&str> = due.iter().filter_map(|due| due["trigger"].as_str()).collect();
        assert_eq!(names, [trigger], "{now}");
        assert_eq!(instant(&due[0]["since"]), since.parse::<jiff::Timestamp>().unwrap(), "{now}");
        assert_eq!(due[0]["cause"], json!({ "kind": cause.0, "id": cause.1 }), "{now}");
        now
    }

    /// Asserts that nothing is due at a moment and that a number of that calibration is in force.
    pub async fn clear(&self, moment: &str, calibration: &str) {
        let now = self.at(moment).await;
        assert_eq!((&now["state"], &now["due"]), (&json!("ready"), &json!([])), "{now}");
        assert_eq!(now["calibration_id"], calibration, "{now}");
    }
}

/// A moment after the base season and before what the tests let happen.
pub const LATER: &str = "2027-03-29T12:00:00Z";
