//! Random seasons of random drills, played through the server's own acts: what a second implementation, which knows the
//! exported file alone, is held against.
//!
//! `scripts/recompute` runs this test with `SOWMARK_TIMELINES` set to a folder and reads what it leaves there: for each
//! organization the export and what `GET /usage` says. Without a folder a single organization is played.

// Without the star the item of a list is taken for a `str`, which has no size.
#![allow(clippy::explicit_auto_deref)]

use super::whole_round::exported;
use crate::readiness::farm::text;
use crate::world::{Person, World};
use jiff::{Timestamp, ToSpan};
use serde_json::{Value, json};
use std::path::PathBuf;

/// Units of an organization, a timeline each.
const UNITS: usize = 22;
const ORGANIZATIONS: u64 = 10;

/// Chance that can be repeated (xorshift, Marsaglia 2003).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) % sides
    }

    fn is_one_in(&mut self, sides: u64) -> bool {
        self.roll(sides) == 0
    }

    fn of<'a, T>(&mut self, some: &'a [T]) -> &'a T {
        let at = self.roll(some.len() as u64);
        &some[usize::try_from(at).unwrap()]
    }
}

/// An organization at play.
struct Play {
    world: World,
    ana: Person,
    dice: Dice,
    rollers: Vec<String>,
    lots: Vec<String>,
    scale: String,
    units: Vec<Unit>,
    refused: usize,
    taken: usize,
}

/// A drill with one unit, and what has come to it.
struct Unit {
    seeder: String,
    id: String,
    /// What is believed to be in the tank.
    lot: String,
    records: Vec<String>,
    jobs: Vec<String>,
}

fn quantity(value: &str, unit: &str) -> Value {
    json!({ "value": value, "unit": unit })
}

impl Play {
    async fn begin(seed: u64) -> Self {
        let world = World::on_sqlite().await;
        world.set_time("2027-01-01T06:00:00Z");
        let organization = world.organization(&format!("Farm {seed}"), "Europe/Vienna").await;
        let ana = world.member(organization, &format!("ana-{seed}@example.org"), "office").await;
        let mut dice = Dice(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1);
        if dice.is_one_in(2) {
            let tolerances = json!({ "recall_allowed": dice.is_one_in(2), "seed_weight_tolerance_percent": *dice.of(&["1", "2.5", "6"]) });
            assert_eq!(ana.put("/policy", tolerances).await.status, 200);
        }
        for (name, starts_on, crops) in [
            ("last", "2026-08-01", Value::Null),
            ("spring", "2027-04-15", json!(["Rape"])),
            ("autumn", "2027-08-20", Value::Null),
        ] {
            if !dice.is_one_in(3) {
                ana.create("/seasons", json!({ "name": name, "starts_on": starts_on, "crops": crops })).await;
            }
        }
        let mut rollers = Vec::new();
        for label in ["fine", "coarse"] {
            rollers.push(text(&ana.create("/rollers", json!({ "label": label, "kind": "fluted" })).await["id"]));
        }
        let mut lots = Vec::new();
        for (number, crop) in [("W-1", "wheat"), ("W-2", " Wheat"), ("R-1", "rape")] {
            lots.push(text(&ana.create("/lots", json!({ "lot_number": number, "crop": crop })).await["id"]));
        }
        let scale = json!({ "name": "Yard", "readability": quantity("1", "g"), "capacity": quantity("15", "kg") });
        let scale = text(&ana.create("/scales", scale).await["id"]);
        let mut play = Self { world, ana, dice, rollers, lots, scale, units: Vec::new(), refused: 0, taken: 0 };
        for at in 0..UNITS {
            play.add_unit(at).await;
        }
        play
    }

    async fn add_unit(&mut self, at: usize) {
        let seeder = json!({
            "name": format!("Drill {at}"), "kind": "box_drill", "commissioned_on": "2021-03-01",
            "working_width": quantity("6", "m"), "row_spacing": quantity("12.5", "cm"),
            "metering_units": [{ "label": "tank", "runs": 8, "drive": "electric", "roller_speed_rpm": { "min": 10, "max": 120 } }]
        });
        let seeder = self.ana.create("/seeders", seeder).await;
        let (id, lot) = (text(&seeder["metering_units"][0]["id"]), self.dice.of(&self.lots).clone());
        self.units.push(Unit { seeder: text(&seeder["id"]), id, lot, records: Vec::new(), jobs: Vec::new() });
        let first = json!({ "occurred_at": "2027-01-01T05:00:00Z", "roller_id": self.rollers[0], "drive_ratio": "5:2",
            "gate": "12", "runs": 8, "note": "" });
        let path = format!("/metering-units/{}/setups", self.units[at].id);
        self.ana.create(&path, first).await;
    }

    /// Sends a record; what the rules refuse is no part of the timeline.
    async fn send(&mut self, unit: usize, path: &str, record: Value) -> Option<Value> {
        let answer = self.ana.post(path, record).await;
        if answer.status != 201 {
            assert!(matches!(answer.status.as_u16(), 404 | 409 | 422), "{path}: {}", answer.text);
            self.refused += 1;
            return None;
        }
        self.taken += 1;
        let record = answer.json();
        if let Some(id) = record["id"].as_str() {
            self.units[unit].records.push(id.to_owned());
        }
        Some(record)
    }

    async fn happen(&mut self, unit: usize, at: &str) {
        let of_unit = |what: &str| format!("/metering-units/{}/{what}", self.units[unit].id);
        match self.dice.roll(24) {
            0 => {
                let setup = json!({ "occurred_at": at, "roller_id": self.dice.of(&self.rollers), "note": "",
                    "drive_ratio": self.dice.of(&["5:2", "5:2", "10:4", "3"]), "gate": self.dice.of(&[Some("12"), Some(" 12 "), None]),
                    "runs": self.dice.of(&[8, 8, 6]) });
                let path = of_unit("setups");
                self.send(unit, &path, setup).await;
            }
            1 | 2 => {
                let (path, lot) = (of_unit("fills"), self.dice.of(&self.lots).clone());
                if self.send(unit, &path, json!({ "occurred_at": at, "lot_id": lot, "mass": null })).await.is_some() {
                    self.units[unit].lot = lot;
                }
            }
            3 => {
                let path = of_unit("emptyings");
                let emptying = json!({ "occurred_at": at, "lot_id": self.units[unit].lot, "mass": null, "to_empty": self.dice.is_one_in(2) });
                self.send(unit, &path, emptying).await;
            }
            4..=8 => self.catch(unit, at).await,
            9 => {
                let test = json!({ "occurred_at": at, "thousand_seed_weight": quantity(*self.dice.of(&["40", "40.8", "43", "45"]), "g"),
                    "bulk_density": self.dice.is_one_in(2).then(|| quantity(*self.dice.of(&["76", "78", "80.1"]), "kg/hL")) });
                let path = format!("/lots/{}/tests", self.units[unit].lot);
                self.send(unit, &path, test).await;
            }
            10 => {
                let path = format!("/seeders/{}/services", self.units[unit].seeder);
                let service = json!({ "occurred_at": at, "metering_unit_id": null, "component": "seal",
                    "affects_metering": self.dice.is_one_in(2), "note": "" });
                self.send(unit, &path, service).await;
            }
            11 if self.dice.is_one_in(2) => {
                let path = format!("/seeders/{}/configurations", self.units[unit].seeder);
                let width = quantity(*self.dice.of(&["6", "600", "5.5"]), *self.dice.of(&["m", "m", "cm"]));
                self.send(
                    unit,
                    &path,
                    json!({ "occurred_at": at, "working_width": width, "row_spacing": quantity("12.5", "cm") }),
                )
                .await;
            }
            12 | 13 => {
                let path = of_unit("waivers");
                let trigger = self.dice.of(&[
                    "new_season",
                    "lot_changed",
                    "crop_changed",
                    "component_replaced",
                    "gate_changed",
                    "roller_changed",
                    "calibration_in_doubt",
                    "seed_weight_changed",
                    "drive_ratio_changed",
                ]);
                let until =
                    at.parse::<Timestamp>().unwrap() + (24 * (5 + i64::try_from(self.dice.roll(40)).unwrap())).hours();
                let waiver =
                    json!({ "occurred_at": at, "trigger": trigger, "until": until.to_string(), "reason": "seen" });
                self.send(unit, &path, waiver).await;
            }
            14 if !self.units[unit].records.is_empty() => {
                let record = self.dice.of(&self.units[unit].records).clone();
                self.send(unit, &format!("/records/{record}/void"), json!({ "reason": "a slip" })).await;
            }
            15 => {
                let path = format!("/seeders/{}/lay-ups", self.units[unit].seeder);
                let laid_up = self.dice.is_one_in(2);
                self.send(unit, &path, json!({ "occurred_at": at, "laid_up": laid_up, "note": "" })).await;
            }
            _ => self.work(unit, at).await,
        }
    }

    /// A catch that agrees, or one that is held and that the office may decide about.
    async fn catch(&mut self, unit: usize, at: &str) {
        let lot = if self.dice.is_one_in(6) { self.dice.of(&self.lots).clone() } else { self.units[unit].lot.clone() };
        let second = *self.dice.of(&["7.230", "7.230", "9.000"]);
        let repeat = |gross: &str| {
            json!({ "revolutions": "40", "catches": [
                { "label": "six runs", "runs": 6, "tare": quantity("0", "kg"), "gross": quantity(gross, "kg") }] })
        };
        let scale = if self.dice.is_one_in(3) { None } else { Some(&self.scale) };
        let record = json!({ "occurred_at": at, "lot_id": lot, "scale_id": scale, "method": "stationary",
            "roller_speed_rpm": 42, "planned": null, "note": "", "repeats": [repeat("7.200"), repeat(second)] });
        let path = format!("/metering-units/{}/calibrations", self.units[unit].id);
        let Some(caught) = self.send(unit, &path, record).await else { return };
        if caught["status"] == "held" && !self.dice.is_one_in(3) {
            let decision = self.dice.of(&["accepted", "rejected"]);
            let path = format!("/calibrations/{}/decisions", text(&caught["id"]));
            self.send(unit, &path, json!({ "decision": decision, "reason": "looked at" })).await;
        }
    }

    async fn work(&mut self, unit: usize, at: &str) {
        let lot = if self.dice.is_one_in(8) { self.dice.of(&self.lots).clone() } else { self.units[unit].lot.clone() };
        let area = format!("{}.{:02}", 1 + self.dice.roll(30), self.dice.roll(100));
        let mut job = json!({ "occurred_at": at, "field": "Long Acre", "lot_id": lot, "note": "",
            "area": quantity(&area, *self.dice.of(&["ha", "ha", "ac"])), "seed_used": quantity("500", "kg"),
            "target_rate": quantity("140", "kg/ha"), "speed": null });
        if self.dice.is_one_in(6) && !self.units[unit].jobs.is_empty() {
            job["corrects"] = json!(self.dice.of(&self.units[unit].jobs));
        }
        let path = format!("/metering-units/{}/jobs", self.units[unit].id);
        if let Some(job) = self.send(unit, &path, job).await {
            self.units[unit].jobs.push(text(&job["id"]));
        }
    }

    /// The year: most of it told as it happens, the rest late and in any order.
    async fn play(&mut self) {
        let begin: Timestamp = "2027-01-02T06:00:00Z".parse().unwrap();
        let mut happenings: Vec<(Timestamp, usize)> = Vec::new();
        for unit in 0..self.units.len() {
            for _ in 0..14 + self.dice.roll(14) {
                let minutes = i64::try_from(self.dice.roll(300 * 24 * 60)).unwrap();
                happenings.push((begin + minutes.minutes(), unit));
            }
        }
        happenings.sort_unstable();
        let (mut late, mut told) = (Vec::new(), Vec::new());
        for happening in happenings {
            if self.dice.is_one_in(5) { late.push(happening) } else { told.push(happening) }
        }
        for (at, unit) in told {
            self.world.app.clock.set(at + 3.minutes());
            self.happen(unit, &at.to_string()).await;
        }
        self.world.set_time("2027-12-01T06:00:00Z");
        while !late.is_empty() {
            let at = usize::try_from(self.dice.roll(late.len() as u64)).unwrap();
            let (at, unit) = late.swap_remove(at);
            self.happen(unit, &at.to_string()).await;
        }
    }
}

#[tokio::test]
async fn random_timelines_have_true_and_untrue_jobs() {
    let folder = std::env::var_os("SOWMARK_TIMELINES").map(PathBuf::from);
    let seed: u64 = std::env::var("SOWMARK_SEED").map_or(20_261_126, |seed| seed.parse().unwrap());
    let organizations = if folder.is_some() { ORGANIZATIONS } else { 1 };
    let (mut jobs, mut untrue) = (0, 0);
    for at in 0..organizations {
        let mut play = Play::begin(seed + at).await;
        play.play().await;
        assert!(play.taken > 10 * play.refused, "{} refused of {}", play.refused, play.taken);
        let usage = play.ana.read("/usage").await;
        let of = usage["jobs"].as_array().unwrap();
        jobs += of.len();
        untrue += of.iter().filter(|job| job["calibration_valid"] == false).count();
        if let Some(folder) = &folder {
            let file = exported(&play.world, play.ana.organization).await;
            std::fs::write(folder.join(format!("{at:02}.jsonl")), file).unwrap();
            std::fs::write(folder.join(format!("{at:02}.usage.json")), usage.to_string()).unwrap();
        }
    }
    let share = f64::from(u32::try_from(untrue).unwrap()) / f64::from(u32::try_from(jobs).unwrap());
    assert!(jobs > UNITS && (0.15..0.85).contains(&share), "{untrue} of {jobs}");
}
