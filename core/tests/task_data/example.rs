//! A whole file against what must be found in it.
//!
//! Source: `tests/task_data/example`, an invented scenario written with the npm package `isoxml` 1.11.2, whose file holds against
//! the schema of version 4.3 (xmllint) and was read back by that library without a warning; `expected.json` was read from it
//! with Python's `ElementTree` and worked out with Python's numbers, both apart from this project.

use serde_json::Value;
use sowmark_core::task_data::{Customer, Setpoint, Sown, Status, When, Worker};

use crate::{EXAMPLE, read};

fn expected() -> Value {
    let text = include_str!("../../../tests/task_data/example/expected.json");
    serde_json::from_str(text).expect("JSON")
}

fn close(found: Option<f64>, expected: &Value, name: &str) {
    let (found, expected) = (found.expect(name), expected.as_f64().expect(name));
    assert!((found / expected - 1.0).abs() < 1e-12, "{name}: {found} instead of {expected}");
}

#[test]
fn who_and_where() {
    let (read, expected) = (read(EXAMPLE), expected());
    assert_eq!(read.version, (4, 2));
    let customer = &expected["customer"];
    let [Customer { id, last, first }] = &read.customers[..] else { panic!("one customer") };
    assert_eq!((&customer["id"], &customer["last"]), (&id.as_str().into(), &last.as_str().into()));
    assert_eq!(customer["first"], first.as_deref().expect("a first name"));
    assert_eq!(read.customers[0].name(), "Ada Beispiel");
    let [Worker { id, last, first }] = &read.workers[..] else { panic!("one worker") };
    assert_eq!(expected["worker"]["id"], id.as_str());
    assert_eq!(expected["worker"]["last"], last.as_str());
    assert_eq!(expected["worker"]["first"], first.as_deref().expect("a first name"));
    assert_eq!(expected["farm"]["name"], read.farms[0].name.as_str());
    let field = &read.fields[0];
    assert_eq!(expected["field"]["id"], field.id.as_str());
    assert_eq!(expected["field"]["code"], field.code.as_deref().expect("a code"));
    assert_eq!(expected["field"]["name"], field.name.as_str());
    assert_eq!(expected["field"]["area_m2"], field.area_m2.expect("an area"));
    let device = &read.devices[0];
    assert_eq!(expected["device"]["serial"], device.serial.as_deref().expect("a serial number"));
    assert_eq!(expected["device"]["working_width_mm"], device.working_width_mm().expect("a width"));
}

#[test]
fn the_products() {
    let (read, expected) = (read(EXAMPLE), expected());
    for (product, expected) in read.products.iter().zip(expected["products"].as_array().expect("products")) {
        assert_eq!(expected["id"], product.id.as_str());
        assert_eq!(expected["name"], product.name.as_str());
        let density = product.bulk_density_mg_per_l.expect("a density") as f64 / 1e6;
        close(Some(density), &expected["bulk_density_kg_per_L_v4only"], "bulk density");
        match product.thousand_seed_mass_mg {
            Some(mass) => {
                close(Some(mass as f64 / 1e3), &expected["thousand_seed_mass_g_v4only"], "thousand-seed mass");
            }
            None => assert!(expected.get("thousand_seed_mass_g_v4only").is_none()),
        }
    }
    assert_eq!(read.products.len(), 2);
}

#[test]
fn the_task_and_its_totals() {
    let (read, expected) = (read(EXAMPLE), expected());
    let (task, expected) = (&read.tasks[0], &expected["tasks"][0]);
    assert_eq!(task.status, Status::Completed);
    assert_eq!(expected["status"], 4);
    assert_eq!(expected["name"], task.name.as_deref().expect("a name"));
    assert_eq!(expected["field"], task.field.as_deref().expect("a field"));
    assert_eq!(expected["worker"], task.worker.as_deref().expect("a worker"));
    let effective = task.effective.expect("times");
    let exactly = |when: When| match when {
        When::Exact(instant) => instant.to_string(),
        When::Local(local) => panic!("{local} has no offset"),
    };
    assert_eq!(expected["first_effective_start_utc"], exactly(effective.first_start));
    assert_eq!(expected["last_effective_stop_utc"], exactly(effective.last_stop.expect("an end")));
    assert_eq!(expected["effective_time_elements"], effective.sessions);
    assert_eq!(expected["sum_effective_duration_s"], effective.seconds);
    let sown = expected["by_product"].as_array().expect("products");
    assert_eq!((task.sown.len(), sown.len()), (2, 2));
    for (found, expected_of_product) in task.sown.iter().zip(sown) {
        assert_eq!(expected["area_m2"], found.area_m2.expect("an area"));
        assert_eq!(expected["effective_total_time_ddi0077_s"], found.effective_total_time_s.expect("a time"));
        sown_as_expected(found, expected_of_product);
    }
    assert!(task.faults.is_empty() && task.remarks.is_empty());
}

fn sown_as_expected(found: &Sown, expected: &Value) {
    assert_eq!(expected["product"], found.product.as_deref().expect("a product"));
    assert_eq!(expected["element"], found.element.as_str());
    let Some(Setpoint::Mass(setpoint)) = found.setpoint else { panic!("a setpoint by mass") };
    assert_eq!(expected["setpoint_mg_per_m2"], setpoint);
    close(found.target_rate().map(|rate| rate * 1e4), &expected["setpoint_kg_per_ha"], "target");
    assert_eq!(expected["machine_total_g"], found.mass_g.expect("grams"));
    assert_eq!(expected["machine_total_kg_ddi0051"], found.mass_kg.expect("kilograms"));
    let balance = found.balance.expect("a balance");
    assert_eq!(expected["filled_g"], balance.filled_g);
    assert_eq!(expected["remainder_g"], balance.remainder_g.expect("a remainder"));
    assert_eq!(expected["balance_used_g"], balance.used_g().expect("a use"));
    close(found.machine_rate().map(|rate| rate * 1e4), &expected["machine_rate_kg_per_ha"], "machine's rate");
    close(found.balance_rate().map(|rate| rate * 1e4), &expected["balance_rate_kg_per_ha"], "rate of the balance");
    let ratio = |rate: Option<f64>| Some(rate? / found.target_rate()?);
    close(ratio(found.machine_rate()), &expected["machine_ratio"], "machine's ratio");
    if let Some(balance_ratio) = expected.get("balance_ratio") {
        close(ratio(found.balance_rate()), balance_ratio, "ratio of the balance");
    }
    match expected.get("meter_revolutions") {
        Some(revolutions) => {
            close(found.revolutions(), revolutions, "revolutions");
            close(found.machine_g_per_revolution(), &expected["g_per_rev_machine"], "grams a revolution");
            close(found.balance_g_per_revolution(), &expected["g_per_rev_balance"], "grams a revolution, weighed");
        }
        None => assert_eq!(found.revolutions(), None),
    }
    assert!(found.faults.is_empty());
}

/// The sums of the time elements give a rate that looks right, and lifetime totals lie beside those of the task.
#[test]
fn time_elements_are_not_added_up_and_lifetimes_are_not_taken() {
    let (read, expected) = (read(EXAMPLE), expected());
    let wrong = &expected["tasks"][0]["wrong_if_time_elements_are_summed"];
    let sown = &read.tasks[0].sown[0];
    assert_ne!(wrong["area_m2"], sown.area_m2.expect("an area"));
    assert_ne!(wrong["PDT1_g"], sown.mass_g.expect("grams"));
    let rate = sown.machine_rate().expect("a rate") * 1e4;
    let wrong_rate = wrong["rate_kg_per_ha"].as_f64().expect("a rate");
    assert!((rate - wrong_rate).abs() > 0.02 && (rate - wrong_rate).abs() < 0.03, "{rate} and {wrong_rate} look alike");
    let lifetime = &expected["tasks"][0]["must_not_be_imported_as_task_totals"];
    for sown in &read.tasks[0].sown {
        assert_ne!(lifetime["DET1:010F"], sown.area_m2.expect("an area"));
        assert_ne!(lifetime["DET1:010A"], sown.mass_kg.expect("kilograms"));
    }
}

#[test]
fn the_planned_task_has_no_totals() {
    let (read, expected) = (read(EXAMPLE), expected());
    let (task, expected) = (&read.tasks[1], &expected["tasks"][1]);
    assert_eq!(expected["id"], task.id.as_str());
    assert_eq!(expected["name"], task.name.as_deref().expect("a name"));
    assert!(task.is_only_planned() && task.sown.is_empty() && task.field.is_none() && task.effective.is_none());
    let [(_, Setpoint::Count(setpoint))] = task.wanted[..] else { panic!("a setpoint by count") };
    assert_eq!(expected["setpoint_count_milli_per_m2"], setpoint);
    close(Some(setpoint as f64 / 1e3), &expected["setpoint_seeds_per_m2"], "seeds");
}

/// What was read is kept as JSON until somebody decides on it.
#[test]
fn what_was_read_survives_as_json() {
    let found = read(EXAMPLE);
    let text = serde_json::to_string(&found).expect("JSON");
    assert_eq!(serde_json::from_str::<sowmark_core::task_data::TaskData>(&text).expect("what was written"), found);
}
