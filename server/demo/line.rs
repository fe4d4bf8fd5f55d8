//! One metering unit through its year: what is fitted, what is in its tank, which number was keyed in, and what it truly
//! delivers. What a job takes follows from the last two, so a number that is not true shows in the seed that is used.

use super::catch::{Caught, Sheet, Slip, scatter, sheet};
use super::fleet::{Roller, Scale, Turned, Unit};
use super::people::{OWEN, Person};
use super::script::{Act, Script, kg, quantity};
use super::seed::{Field, Lot};
use crate::clock::Chance;
use crate::sync::kind::Logged;
use jiff::{SignedDuration, Timestamp};
use serde_json::{Value, json};
use uuid::Uuid;

/// How the seed that a job used is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Known {
    Weighed,
    Bags,
    MachineTotal,
}

/// A unit at some moment of its year.
pub(super) struct Line {
    unit: &'static Unit,
    pub(super) hand: &'static Person,
    pub(super) roller: &'static Roller,
    pub(super) ratio: &'static str,
    pub(super) gate: Option<&'static str>,
    pub(super) runs: u32,
    pub(super) speed: f64,
    /// What has become of it since it was caught, from wear or weather.
    pub(super) wear: f64,
    /// The number that was keyed in last, kg per revolution and run; nothing before the first catch.
    pub(super) keyed: f64,
    in_tank: f64,
    chance: Chance,
    /// How many records it has, for their ids.
    count: u32,
}

impl Line {
    pub(super) fn of(unit: &'static Unit) -> Self {
        Self {
            unit,
            hand: unit.seeder.hand,
            roller: unit.roller,
            ratio: unit.ratio,
            gate: unit.gate,
            runs: unit.runs,
            speed: unit.speed,
            wear: 1.0,
            keyed: 0.0,
            in_tank: 0.0,
            chance: Chance::of(unit.key),
            count: 0,
        }
    }

    /// A new id for a record of this unit.
    fn new_id(&mut self, at: Timestamp) -> Uuid {
        self.count += 1;
        Chance::of(&format!("{}/record {}", self.unit.key, self.count)).id(at)
    }

    /// What it truly delivers of a lot, kg per revolution and run: volume goes with the roller and the gate, mass with
    /// bulk density, and a roller that turns faster fills a little less.
    fn truth(&self, lot: &Lot, rpm: f64) -> f64 {
        let opening = self.gate.and_then(|gate| gate.parse::<f64>().ok()).map_or(1.0, |gate| gate / 12.0);
        let (litres, kg_per_litre) = (self.roller.cm3 / 1000.0, lot.bulk_density / 100.0);
        litres * kg_per_litre * opening * self.unit.bias * lot.flow * self.wear * (1.0 - 0.0008 * (rpm - 35.0))
    }

    /// The roller speed that a lot's usual rate needs at this driving speed.
    fn needed_rpm(&self, lot: &Lot, speed: f64) -> f64 {
        if let Turned::Ground(circumference) = self.unit.turned {
            return speed / 3.6 / circumference * ratio(self.ratio) * 60.0;
        }
        let flow = lot.crop.rate * self.unit.seeder.width * speed / 600.0;
        flow / (self.truth(lot, 35.0) * f64::from(self.runs))
    }

    fn log(&mut self, script: &mut Script, at: Timestamp, kind: Logged, mut record: Value) -> Uuid {
        let id = self.new_id(at);
        record["id"] = json!(id);
        record["occurred_at"] = json!(script.text(at));
        let parent = if kind == Logged::Service { script.seeder(self.unit.seeder) } else { script.unit(self.unit) };
        script.log(at, self.hand, kind, parent, record);
        id
    }

    /// What is fitted now, from here on.
    pub(super) fn set_up(&mut self, script: &mut Script, day: i64, time: (i64, i64), note: &str) -> Uuid {
        let record = json!({ "roller_id": script.id(self.roller.key), "drive_ratio": self.ratio, "gate": self.gate,
            "runs": self.runs, "note": note });
        self.log(script, script.at(day, time), Logged::Setup, record)
    }

    /// A part was replaced.
    pub(super) fn service(
        &mut self,
        script: &mut Script,
        day: i64,
        time: (i64, i64),
        part: (&str, bool, &str),
    ) -> Uuid {
        let (component, affects_metering, note) = part;
        let record = json!({ "metering_unit_id": script.unit(self.unit), "component": component,
            "affects_metering": affects_metering, "note": note });
        self.log(script, script.at(day, time), Logged::Service, record)
    }

    /// Seed goes into the tank.
    pub(super) fn fill(
        &mut self,
        script: &mut Script,
        day: i64,
        time: (i64, i64),
        lot: &'static Lot,
        mass: f64,
    ) -> Uuid {
        let at = script.at(day, time);
        self.in_tank += mass;
        script.moves(at, lot, mass);
        let record = json!({ "lot_id": script.lot(lot), "mass": kg(mass, usize::from(lot.is_small())) });
        self.log(script, at, Logged::Fill, record)
    }

    /// A fill that was noted and never was: the seed is where it has been.
    pub(super) fn never_filled(
        &mut self,
        script: &mut Script,
        day: i64,
        time: (i64, i64),
        lot: &'static Lot,
        mass: f64,
    ) {
        self.in_tank -= mass;
        script.moves(script.at(day, time), lot, -mass);
    }

    /// The tank is emptied, and what comes out is weighed where it is worth it.
    pub(super) fn empty(&mut self, script: &mut Script, at: Timestamp, lot: &'static Lot) -> Uuid {
        let step = if lot.is_small() { 0.5 } else { 5.0 };
        let mass = (self.in_tank / step).round() * step;
        self.in_tank = 0.0;
        let weighed = if mass >= step { kg(mass, usize::from(lot.is_small())) } else { Value::Null };
        script.moves(at, lot, -mass.max(0.0));
        self.log(script, at, Logged::Emptying, json!({ "lot_id": script.lot(lot), "mass": weighed, "to_empty": true }))
    }

    /// A catch at the speed that the plan needs.
    pub(super) fn catch(
        &mut self,
        script: &mut Script,
        day: i64,
        time: (i64, i64),
        lot: &'static Lot,
        slip: Slip,
    ) -> Uuid {
        let rpm = self.needed_rpm(lot, self.speed).round();
        self.catch_at(script, day, time, lot, rpm, slip, self.unit.scale)
    }

    /// A catch at a roller speed, with a scale.
    #[allow(clippy::too_many_arguments)] // Each is something that differs between the catches of a year.
    pub(super) fn catch_at(
        &mut self,
        script: &mut Script,
        day: i64,
        time: (i64, i64),
        lot: &'static Lot,
        rpm: f64,
        slip: Slip,
        scale: &'static Scale,
    ) -> Uuid {
        let at = script.at(day, time);
        let caught = Caught { factor: self.truth(lot, rpm), is_small: lot.is_small(), runs_in_use: self.runs };
        let (turned, its_ratio) = (self.unit.turned, ratio(self.ratio));
        let is_driven = matches!(turned, Turned::Ground(_)) && self.count.is_multiple_of(2);
        let noted = |revolutions: f64| match turned {
            // The wheel is measured under load and driven or jacked up and cranked.
            Turned::Ground(circumference) if is_driven => json!({
                "distance": quantity(format!("{:.1}", revolutions / its_ratio * circumference), "m"),
                "circumference": quantity(format!("{circumference:.2}"), "m") }),
            Turned::Ground(_) => json!({ "turns": format!("{:.0}", revolutions / its_ratio) }),
            Turned::Electric(..) => json!(format!("{revolutions:.1}")),
            Turned::Hydraulic(..) => json!({ "pulses": format!("{:.0}", revolutions * 36.0), "pulses_per_rev": "36" }),
        };
        let Sheet { repeats, factor } = sheet(self.unit, scale, &caught, slip, &self.chance, noted);
        let is_honest = matches!(slip, Slip::None | Slip::TwoRepeats | Slip::SetAside);
        if is_honest {
            self.keyed = factor;
        }
        let method = match (turned, is_driven) {
            (Turned::Ground(_), true) => "driven",
            (Turned::Ground(_), false) => "hand_turned",
            _ => "stationary",
        };
        // Of the day, by a chance of its own: what else happens stays as it was.
        let day = Chance::of(&format!("{}/air {at}", self.unit.key));
        let (air, humidity) = (format!("{:.1}", 5.0 + 9.0 * day.share()), format!("{:.0}", 55.0 + 35.0 * day.share()));
        let full = format!("{:.0}", 10.0 * (3.0 + 7.0 * day.share()).round());
        let planned = json!({ "rate": quantity(format!("{}", lot.crop.rate), "kg/ha"),
            "speed": quantity(format!("{}", self.speed), "km/h") });
        let record = json!({ "lot_id": script.lot(lot), "scale_id": script.id(scale.key), "method": method,
            "roller_speed_rpm": format!("{rpm}"), "planned": planned, "air_temperature": quantity(air, "°C"),
            "relative_humidity_percent": humidity, "tank_fill_percent": full, "note": "", "repeats": repeats });
        self.log(script, at, Logged::Calibration, record)
    }

    /// A field, or a part of it, is sown from a moment on. Answers the job and its end.
    pub(super) fn sow(
        &mut self,
        script: &mut Script,
        at: Timestamp,
        lot: &'static Lot,
        (field, share): (&'static Field, f64),
        known: Known,
    ) -> (Uuid, Timestamp) {
        let (record, end) = self.job(script, at, lot, (field, share), known);
        // It is noted down when it is over.
        let id = self.new_id(at);
        let record = with(record, &[("id", json!(id)), ("occurred_at", json!(script.text(at)))]);
        let unit = script.unit(self.unit);
        script.log(end, self.hand, Logged::Job, unit, record);
        (id, end)
    }

    /// A field is sown, and its area is typed ten times too large. The office corrects it the next morning.
    pub(super) fn sow_mistyped(
        &mut self,
        script: &mut Script,
        (day, time): (i64, (i64, i64)),
        lot: &'static Lot,
        field: &'static Field,
    ) -> Timestamp {
        let at = script.at(day, time);
        let (right, end) = self.job(script, at, lot, (field, 1.0), Known::Weighed);
        let (wrong_id, right_id) = (self.new_id(at), self.new_id(at));
        let unit = script.unit(self.unit);
        let occurred_at = json!(script.text(at));
        let slipped = quantity(format!("{:.0}", field.area * 10.0), "ha");
        let wrong =
            with(right.clone(), &[("id", json!(wrong_id)), ("occurred_at", occurred_at.clone()), ("area", slipped)]);
        script.log(end, self.hand, Logged::Job, unit, wrong);
        let note = json!("Area: a slip of the decimal sign.");
        let right = with(
            right,
            &[("id", json!(right_id)), ("occurred_at", occurred_at), ("corrects", json!(wrong_id)), ("note", note)],
        );
        script.push(script.at(day - 1, (8, 15)), &OWEN, Act::Log(Logged::Job, unit, right));
        end
    }

    /// What is noted down of a job, and its end.
    pub(super) fn job(
        &mut self,
        script: &Script,
        at: Timestamp,
        lot: &'static Lot,
        (field, share): (&'static Field, f64),
        known: Known,
    ) -> (Value, Timestamp) {
        let area = (field.area * share * 10.0).round() / 10.0;
        let hours = area * 10.0 / (self.unit.seeder.width * self.speed) / 0.72;
        #[allow(clippy::cast_possible_truncation)] // A day's work in minutes.
        let end = at + SignedDuration::from_mins((hours * 60.0) as i64);
        let truth = self.truth(lot, self.needed_rpm(lot, self.speed));
        // Nobody sows without any number: without a catch it is the one on the lid.
        let keyed = if self.keyed > 0.0 { self.keyed } else { truth / 1.08 };
        let wanted = lot.crop.rate * area;
        let used = wanted * truth / keyed * (1.0 + scatter(&self.chance, 0.01));
        self.in_tank -= used;
        let step = match (known, lot.is_small()) {
            (Known::Bags, false) => 25.0,
            (_, true) => 0.5,
            _ => 5.0,
        };
        // The machine multiplies its revolutions by what it was given, so it believes that it did as it was told.
        let told = if known == Known::MachineTotal { wanted * (1.0 + scatter(&self.chance, 0.002)) } else { used };
        let basis = match known {
            Known::Weighed => "weighed",
            Known::Bags => "bags",
            Known::MachineTotal => "machine_total",
        };
        let record = json!({ "ended_at": script.text(end), "field_id": script.id(field.key), "lot_id": script.lot(lot),
            "area": quantity(format!("{area:.1}"), "ha"),
            "seed_used": kg((told / step).round() * step, usize::from(lot.is_small())), "seed_used_basis": basis,
            "target_rate": quantity(format!("{}", lot.crop.rate), "kg/ha"),
            "speed": quantity(format!("{}", self.speed), "km/h"), "note": "" });
        (record, end)
    }

    /// Fills for the fields, catches, sows them two a day, and empties the tank if told. Answers the catch.
    pub(super) fn campaign(
        &mut self,
        script: &mut Script,
        day: i64,
        lot: &'static Lot,
        fields: &[&'static Field],
        known: Known,
        empties: bool,
    ) -> Uuid {
        self.fill_for(script, day, (7, 0), lot, &fields[..fields.len().min(2)]);
        let caught = self.catch(script, day, (7, 25), lot, Slip::None);
        let end = self.sow_all(script, day, lot, fields, known);
        if empties {
            self.empty(script, end + SignedDuration::from_mins(20), lot);
        }
        caught
    }

    /// Fills what two days of fields need and a little more.
    pub(super) fn fill_for(
        &mut self,
        script: &mut Script,
        day: i64,
        time: (i64, i64),
        lot: &'static Lot,
        fields: &[&Field],
    ) -> Uuid {
        let area: f64 = fields.iter().map(|field| field.area).sum();
        let step = if lot.is_small() { 5.0 } else { 50.0 };
        let needed = (area * lot.crop.rate * 1.14 + step - self.in_tank).max(step);
        self.fill(script, day, time, lot, (needed / step).ceil() * step)
    }

    /// Sows fields, two a day, from the first day's tank on. Answers when it is over.
    pub(super) fn sow_all(
        &mut self,
        script: &mut Script,
        first: i64,
        lot: &'static Lot,
        fields: &[&'static Field],
        known: Known,
    ) -> Timestamp {
        let (mut day, mut at) = (first, script.at(first, (8, 30)));
        for (position, pair) in fields.chunks(2).enumerate() {
            if position > 0 {
                day -= 1;
                self.fill_for(script, day, (7, 10), lot, pair);
                at = script.at(day, (8, 30));
            }
            for field in pair {
                let (_, end) = self.sow(script, at, lot, (field, 1.0), known);
                at = end + SignedDuration::from_mins(25);
            }
        }
        at
    }
}

fn with(mut record: Value, fields: &[(&str, Value)]) -> Value {
    for (name, value) in fields {
        record[*name] = value.clone();
    }
    record
}

/// Roller revolutions to one of the drive.
fn ratio(text: &str) -> f64 {
    let part = |text: &str| text.parse::<f64>().unwrap_or(1.0);
    match text.split_once(':') {
        Some((roller, drive)) => part(roller) / part(drive),
        None => part(text),
    }
}
