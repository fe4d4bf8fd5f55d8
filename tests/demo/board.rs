//! What the board and the records of the made-up fleet hold.

use super::{DAY, all, id, made, one};
use crate::on_both;
use crate::world::{Person, World};
use serde_json::{Value, json};
use sowmark::access::Role;
use sowmark::audit;
use sowmark_core::readiness::Trigger;
use std::collections::{BTreeMap, BTreeSet};

on_both!(everything_that_there_is_to_see_stands_somewhere);

async fn everything_that_there_is_to_see_stands_somewhere(world: World) {
    let made = made(&world, DAY).await;
    let office = one(&world, &made, Role::Office).await;
    the_board(&office).await;
    the_fleet(&office).await;
    the_catches(&office).await;
    the_jobs(&office).await;
    the_lots(&office).await;
    what_was_refused(&office).await;
    let mut conn = world.app.db.read().await.unwrap();
    let chain = audit::verify(&mut conn.cx(), made.organization).await.unwrap();
    assert!(chain.expect("the chain holds").seq > 500);
}

fn words(items: &[Value], field: &str) -> BTreeSet<String> {
    items.iter().filter_map(|item| item[field].as_str()).map(str::to_owned).collect()
}

fn set(words: &[&str]) -> BTreeSet<String> {
    words.iter().map(|word| (*word).to_owned()).collect()
}

async fn the_board(office: &Person) {
    let board = office.read("/readiness").await;
    let units = board["units"].as_array().unwrap();
    assert_eq!(words(units, "state"), set(&["ready", "check", "calibrate", "empty", "laid_up"]), "{board:#}");
    let due: Vec<Value> = units.iter().flat_map(|unit| unit["due"].as_array().unwrap().clone()).collect();
    let counting: Vec<Value> = due.iter().filter(|due| due["waived"].is_null()).cloned().collect();
    assert_eq!(words(&counting, "trigger"), set(&Trigger::ALL.map(Trigger::as_str)), "{board:#}");
    let waived: Vec<&Value> = due.iter().filter(|due| due["waived"].is_object()).collect();
    assert_eq!(waived.len(), 1, "{board:#}");
    let recalled: Vec<&Value> = units.iter().filter(|unit| unit["recalled"] == true).collect();
    assert_eq!(recalled.len(), 1, "{board:#}");
    assert_eq!(recalled[0]["state"], "ready", "{board:#}");
    let mixed = units.iter().filter(|unit| unit["mixed_with"].as_array().is_some_and(|lots| !lots.is_empty()));
    assert!(mixed.count() >= 1, "{board:#}");
    let due_on = |seeder: &str, label: &str| {
        let unit = units.iter().find(|unit| unit["seeder"] == seeder && unit["label"] == label);
        let unit = unit.unwrap_or_else(|| panic!("no {seeder}, {label}"));
        let due =
            unit["due"].as_array().unwrap().iter().map(|due| due["trigger"].as_str().unwrap()).collect::<Vec<_>>();
        (unit["state"].as_str().unwrap(), due)
    };
    for (seeder, label, state, due) in [
        ("Box drill 3", "grain box", "ready", vec![]),
        ("Box drill 3", "small-seed box", "empty", vec![]),
        ("Box drill 6", "grain box", "calibrate", vec!["roller_changed"]),
        ("Box drill 6", "fertilizer box", "calibrate", vec!["crop_changed", "gate_changed"]),
        ("Air drill 6", "seed tank", "calibrate", vec!["calibration_in_doubt"]),
        ("Air drill 6", "companion seed", "calibrate", vec!["lot_changed", "drive_ratio_changed"]),
        ("Air drill 8", "seed tank", "calibrate", vec!["configuration_changed", "component_replaced"]),
        ("Air drill 12", "seed tank", "ready", vec![]),
        ("Air drill 12", "fertilizer tank", "check", vec!["interval", "scale_unchecked"]),
        ("Cart 18", "front tank", "ready", vec!["lot_changed"]),
        ("Cart 18", "middle tank", "calibrate", vec!["seed_weight_changed"]),
        ("Cart 18", "rear tank", "check", vec!["roller_speed_off"]),
        ("Cart 12", "front tank", "check", vec!["drift"]),
        ("Cart 12", "rear tank", "calibrate", vec!["new_season"]),
        ("Grass drill 4", "seed box", "calibrate", vec!["never_calibrated"]),
        ("Spare drill 4", "grain box", "laid_up", vec!["new_season", "interval"]),
    ] {
        assert_eq!(due_on(seeder, label), (state, due), "{seeder}, {label}");
    }
}

async fn the_fleet(office: &Person) {
    let seeders = all(office, "/seeders").await;
    assert_eq!(seeders.len(), 9);
    assert_eq!(words(&seeders, "kind"), set(&["box_drill", "air_drill", "air_cart"]));
    let units: Vec<Value> =
        seeders.iter().flat_map(|seeder| seeder["metering_units"].as_array().unwrap().clone()).collect();
    assert_eq!(words(&units, "drive"), set(&["ground", "electric", "hydraulic"]));
    let cart = seeders.iter().find(|seeder| seeder["metering_units"].as_array().unwrap().len() == 3);
    assert_eq!(cart.map(|cart| &cart["kind"]), Some(&json!("air_cart")), "a cart with three tanks");
    assert_eq!(all(office, "/clients").await.len(), 2);
    assert_eq!(all(office, "/crews").await.len(), 4);
    assert_eq!(all(office, "/lots").await.len(), 30);
    let policy = office.read("/policy").await;
    assert!(policy["id"].is_string(), "tolerances were set: {policy}");
}

/// The units' records of a kind.
async fn of_units(office: &Person, kind: &str) -> Vec<Value> {
    let mut items = Vec::new();
    for seeder in all(office, "/seeders").await {
        for unit in seeder["metering_units"].as_array().unwrap() {
            items.extend(all(office, &format!("/metering-units/{}/{kind}", id(unit))).await);
        }
    }
    items
}

async fn the_catches(office: &Person) {
    let catches = of_units(office, "calibrations").await;
    assert!((60..=120).contains(&catches.len()), "{} catches", catches.len());
    assert_eq!(words(&catches, "status"), set(&["accepted", "held", "rejected", "void"]));
    assert_eq!(words(&catches, "method"), set(&["stationary", "driven", "hand_turned"]));
    let suspected = |catch: &Value| catch["result"]["suspicions"][0]["cause"].as_str().map(str::to_owned);
    let held: Vec<&Value> = catches.iter().filter(|catch| catch["status"] == "held").collect();
    assert_eq!(held.len(), 1, "one waits for the office");
    assert_eq!(suspected(held[0]).as_deref(), Some("ounces_entered_as_tenths"), "{:#}", held[0]["result"]);
    let causes: BTreeSet<String> = catches.iter().filter_map(suspected).collect();
    for cause in ["tare_left_in", "revolutions_halved", "pounds_entered_as_kilograms", "one_run_low"] {
        assert!(causes.contains(cause), "{cause} is not among {causes:?}");
    }
    assert!(
        catches.iter().any(|catch| catch["repeats"].as_array().unwrap().iter().any(|r| r["set_aside"].is_string()))
    );
    // At three roller speeds with one lot on one machine.
    let mut speeds: BTreeMap<(String, String), BTreeSet<String>> = BTreeMap::new();
    for catch in &catches {
        let of = |field: &str| catch[field].to_string();
        speeds.entry((of("metering_unit_id"), of("lot_id"))).or_default().insert(of("roller_speed_rpm"));
    }
    assert!(speeds.values().any(|speeds| speeds.len() >= 3));
    let accepted = catches.iter().filter(|catch| catch["status"] == "accepted");
    for catch in accepted {
        let result = &catch["result"];
        let percent = |field: &str| result[field].as_f64().unwrap_or(0.0);
        assert!(percent("expanded_uncertainty_percent") < 5.0 && percent("repeat_spread_percent") < 5.0, "{result:#}");
        let expected =
            catch["circumstances"]["expected"]["factor"]["value"].as_str().map(|value| value.parse::<f64>().unwrap());
        let factor: f64 = result["factor"]["value"].as_str().unwrap().parse().unwrap();
        if let Some(expected) = expected {
            assert!((factor / expected - 1.0).abs() < 0.1, "{factor} where {expected} was expected");
        }
    }
    assert!(
        catches.iter().any(|catch| catch["clock_error_seconds"].as_i64().is_some_and(|off| off < -1000)),
        "a phone ahead"
    );
}

async fn the_jobs(office: &Person) {
    let jobs = of_units(office, "jobs").await;
    assert!(jobs.len() >= 100, "{} jobs", jobs.len());
    assert_eq!(words(&jobs, "seed_used_basis"), set(&["weighed", "bags", "machine_total"]));
    let corrected = jobs.iter().find(|job| job["replaced_by"].is_string()).expect("a corrected job");
    assert!(jobs.iter().any(|job| job["id"] == corrected["replaced_by"] && job["corrects"] == corrected["id"]));
    let fills = of_units(office, "fills").await;
    assert!(fills.iter().any(|fill| fill["void"].is_object()), "a voided fill");
    assert!(jobs.iter().any(|job| job["clock_error_seconds"].is_i64()), "sent by a phone");
}

async fn the_lots(office: &Person) {
    let (fills, emptyings) = (of_units(office, "fills").await, of_units(office, "emptyings").await);
    let kg = |record: &Value| record["mass"]["value"].as_str().map_or(0.0, |value| value.parse::<f64>().unwrap());
    let mut movements = Vec::new();
    for lot in all(office, "/lots").await {
        assert!(!all(office, &format!("/lots/{}/tests", id(&lot))).await.is_empty(), "{lot}");
        let of_lot = all(office, &format!("/lots/{}/movements", id(&lot))).await;
        let of_tanks = |records: &[Value]| -> f64 {
            records.iter().filter(|record| record["lot_id"] == lot["id"] && record["void"].is_null()).map(kg).sum()
        };
        let moved: f64 = of_lot
            .iter()
            .map(|record| match record["kind"].as_str().unwrap() {
                "received" | "returned" => kg(record),
                "sold" | "discarded" => -kg(record),
                _ => 0.0,
            })
            .sum();
        let received: f64 = lot["received_mass"]["value"].as_str().unwrap().parse().unwrap();
        let left = received + moved - of_tanks(&fills) + of_tanks(&emptyings);
        assert!(left > 0.0 && left < 0.6 * received + 1100.0, "{left} kg of {received} are left: {lot}");
        movements.extend(of_lot);
    }
    assert_eq!(words(&movements, "kind"), set(&["received", "returned", "sold", "discarded", "counted"]));
}

async fn what_was_refused(office: &Person) {
    let waiting = all(office, "/refused").await;
    assert_eq!(waiting.len(), 2, "{waiting:#?}");
    assert_eq!(words(&waiting, "kind"), set(&["setup", "calibration"]));
    let page = office.read("/refused?ended=true&limit=500").await;
    let items = page["items"].as_array().unwrap();
    let ended: Vec<Value> = items.iter().map(|entry| entry["ended"].clone()).collect();
    assert_eq!(words(&ended, "how"), set(&["mended", "dropped"]), "{page:#}");
}
