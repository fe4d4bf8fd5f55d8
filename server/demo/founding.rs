//! What is there before anything is sown: people, clients, fields, machines, rollers, scales, seasons, lots; and the checks
//! of the scales and the tests of the lots.

use super::fleet::{BOX3, GRASS4, ROLLERS, SCALES, SEEDERS, Scale, Seeder, Shows, Turned, UNITS, Unit};
use super::people::{ANNA, BEN, CARLA, CLIENTS, CREWS, IRIS, MARTA, OWEN, PEOPLE, Person};
use super::script::{Act, BEGINS, Script, kg, quantity};
use super::seed::{CLOVER_1, FIELDS, LOTS, Lot, POTASH_2, WHEAT_5};
use crate::clock::Chance;
use crate::db::kind::Kind;
use crate::sync::kind::Logged;
use jiff::{SignedDuration, Timestamp};
use serde_json::{Value, json};

/// Days ago on which the two seasons began, and that of the peas alone.
pub(super) const FIRST_SEASON: i64 = 238;
pub(super) const SECOND_SEASON: i64 = 54;
pub(super) const PEA_SEASON: i64 = 4;

/// Everything that is kept.
pub(super) fn write(script: &mut Script) {
    let mut minute = 0;
    let mut next = |script: &Script| {
        minute += 1;
        script.at(BEGINS, (8, minute))
    };
    for client in CLIENTS {
        let at = next(script);
        keep(script, at, Kind::Client, client.key, json!({ "name": client.name }));
    }
    for person in PEOPLE {
        let at = next(script);
        // Whoever begins is there already; all others need the clients to be limited to.
        if person.email != MARTA.email {
            let client = person.client.map(|client| script.id(client.key));
            script.push(at, &MARTA, Act::Join(person, client));
        }
        if let Some((units, decimal_sign, language)) = person.reads {
            let reads = json!({ "units": units, "decimal_sign": decimal_sign, "language": language });
            script.push(at, person, Act::Reading(reads));
        }
    }
    for field in FIELDS {
        let at = next(script);
        let record = json!({ "name": field.name, "area": quantity(format!("{:.1}", field.area), "ha"),
            "client_id": script.id(field.client.key) });
        keep(script, at, Kind::Field, field.key, record);
    }
    for roller in ROLLERS {
        let at = next(script);
        let volume = if roller.is_known { quantity(format!("{}", roller.cm3), "cm3") } else { Value::Null };
        let record = json!({ "label": roller.label, "kind": roller.kind, "displacement_per_rev": volume });
        keep(script, at, Kind::Roller, roller.key, record);
    }
    machines(script, &mut next);
    seasons(script);
    for scale in SCALES {
        let at = next(script);
        weighing(script, at, scale);
    }
    for lot in LOTS {
        tests(script, lot);
    }
}

fn keep(script: &mut Script, at: Timestamp, kind: Kind, key: &str, mut record: Value) {
    record["id"] = json!(script.id(key));
    script.push(at, &MARTA, Act::Keep(kind, record));
}

fn machines(script: &mut Script, next: &mut impl FnMut(&Script) -> Timestamp) {
    for seeder in SEEDERS {
        let at = if seeder.key == GRASS4.key { script.at(seeder.commissioned, (9, 0)) } else { next(script) };
        let record = machine(script, seeder);
        keep(script, at, Kind::Seeder, seeder.key, record);
    }
    for crew in &CREWS {
        // The hired crew comes with the new drill.
        let at =
            if crew.seeders.contains(&GRASS4.key) { script.at(GRASS4.commissioned, (9, 10)) } else { next(script) };
        let seeders: Vec<_> = crew.seeders.iter().map(|key| script.id(key)).collect();
        let record = json!({ "id": script.id(crew.key), "name": crew.name, "seeders": seeders });
        script.push(at, &MARTA, Act::Crew(crew, record));
    }
    // Rows were spaced wider on the old drill until somebody moved its coulters.
    let at = script.at(FIRST_SEASON, (15, 0));
    let record = json!({ "id": Chance::of("configuration/box3").id(at), "occurred_at": script.text(at),
        "working_width": quantity("3.0", "m"), "row_spacing": quantity("12.5", "cm") });
    let seeder = script.seeder(&BOX3);
    script.push(at, &OWEN, Act::Office(Kind::Configuration, seeder, record));
}

fn machine(script: &Script, seeder: &Seeder) -> Value {
    let units: Vec<Value> =
        UNITS.iter().filter(|unit| unit.seeder.key == seeder.key).map(|unit| unit_of(script, unit)).collect();
    json!({ "name": seeder.name, "serial_number": seeder.serial, "kind": seeder.kind,
        "commissioned_on": script.calendar.date(seeder.commissioned).to_string(),
        "working_width": quantity(format!("{:.1}", seeder.width), "m"),
        "row_spacing": quantity(seeder.row_spacing_cm, "cm"), "metering_units": units })
}

fn unit_of(script: &Script, unit: &Unit) -> Value {
    let (drive, range) = match unit.turned {
        Turned::Ground(_) => ("ground", Value::Null),
        Turned::Electric(min, max) => ("electric", json!({ "min": min, "max": max })),
        Turned::Hydraulic(min, max) => ("hydraulic", json!({ "min": min, "max": max })),
    };
    let keyed_in =
        unit.keyed_in.map(|(mass, per, is_for)| json!({ "mass_unit": mass, "per_revolutions": per, "for": is_for }));
    json!({ "id": script.unit(unit), "label": unit.label, "runs": unit.runs, "drive": drive, "roller_speed_rpm": range,
        "keyed_in": keyed_in })
}

fn seasons(script: &mut Script) {
    for (key, starts, name, crops) in [
        ("season/1", FIRST_SEASON, script.calendar.season(FIRST_SEASON), None),
        ("season/2", SECOND_SEASON, script.calendar.season(SECOND_SEASON), None),
        ("season/peas", PEA_SEASON, "Peas, late sowing".to_owned(), Some(["peas"])),
    ] {
        let at = script.at(starts + 1, (16, 0));
        let record = json!({ "name": name, "starts_on": script.calendar.date(starts).to_string(), "crops": crops });
        keep(script, at, Kind::Season, key, record);
    }
}

/// A scale, and its checks with a known mass.
fn weighing(script: &mut Script, at: Timestamp, scale: &'static Scale) {
    let (readability, capacity) = match scale.shows {
        Shows::Grams(step) => (quantity(format!("{step}"), "g"), quantity(scale.capacity, "kg")),
        Shows::PoundsAndOunces => (quantity("1", "oz"), quantity(scale.capacity, "lb")),
    };
    let record = json!({ "name": scale.name, "readability": readability, "capacity": capacity });
    keep(script, at, Kind::Scale, scale.key, record);
    for (position, (day, off)) in scale.checks.iter().enumerate() {
        let at = script.at(*day, (6, 40));
        let (reference, reading) = match scale.shows {
            Shows::Grams(_) => (quantity("10.000", "kg"), kg(10.0 + off / 1000.0, 3)),
            Shows::PoundsAndOunces => (json!({ "lb": "20", "oz": "0" }), json!({ "lb": "20", "oz": "0" })),
        };
        let id = Chance::of(&format!("{}/check {position}", scale.key)).id(at);
        let (mass, certificate) = match scale.shows {
            Shows::Grams(_) => ("10 kg, marked M 3", "Tarnshire Weights, no. 2231"),
            Shows::PoundsAndOunces => ("20 lb, marked P 1", "Tarnshire Weights, no. 2240"),
        };
        let record = json!({ "id": id, "occurred_at": script.text(at), "reference": reference, "reading": reading,
            "reference_identity": mass, "certificate": certificate });
        let (parent, who) = (script.id(scale.key), checker(scale));
        script.log(at, who, Logged::ScaleCheck, parent, record);
    }
}

fn checker(scale: &Scale) -> &'static Person {
    match scale.key {
        "scale/bench" => &OWEN,
        "scale/hanging-1" => &CARLA,
        "scale/hanging-2" => &BEN,
        _ => &ANNA,
    }
}

/// What the agronomist found of a lot: when it came in, and of some again later.
fn tests(script: &mut Script, lot: &'static Lot) {
    let at = script.at(lot.received, (14, 0));
    let weight = lot.seed_weight.map(|grams| quantity(grams, "g"));
    let germination = if lot.crop.is_seed { json!(lot.crop.germination) } else { Value::Null };
    let first = json!({ "thousand_seed_weight": weight, "bulk_density": density(lot.bulk_density),
        "germination_percent": germination, "moisture_percent": if lot.crop.is_seed { json!("13.4") } else { Value::Null } });
    test(script, at, lot, first);
    if lot.key == WHEAT_5.key {
        let again = json!({ "bulk_density": density(lot.bulk_density * 1.006), "germination_percent": "94", "purity_percent": "98.7" });
        test(script, script.at(46, (11, 0)), lot, again);
    } else if lot.key == CLOVER_1.key {
        test(script, script.at(190, (11, 0)), lot, json!({ "germination_percent": "83", "purity_percent": "97.5" }));
    } else if lot.key == POTASH_2.key {
        // It stood in a wet shed and caked, then crumbled to dust: it is lighter by more than the tolerance.
        test(script, script.at(6, (9, 30)), lot, json!({ "bulk_density": density(lot.bulk_density * 0.945) }));
    }
}

fn density(kg_per_hl: f64) -> Value {
    quantity(format!("{kg_per_hl:.1}"), "kg/hL")
}

fn test(script: &mut Script, at: Timestamp, lot: &'static Lot, mut record: Value) {
    record["id"] = json!(Chance::of(&format!("{}/test", lot.key)).id(at));
    record["occurred_at"] = json!(script.text(at));
    let parent = script.lot(lot);
    script.push(at + SignedDuration::from_mins(2), &IRIS, Act::Log(Logged::LotTest, parent, record));
}
