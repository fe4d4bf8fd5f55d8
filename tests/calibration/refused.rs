//! What cannot be so is refused, every fault at its field.

use super::bench::{Bench, put};
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};

on_both!(
    impossible_values_are_refused_at_their_field,
    every_fault_is_told_at_once,
    without_a_setup_nobody_can_say_what_was_caught,
    foreign_and_unknown_things_are_not_there,
    bodies_that_cannot_be_read_are_refused,
    roles_are_held_to_their_rights
);

fn grams(value: &str) -> Value {
    json!({ "value": value, "unit": "g" })
}

async fn impossible_values_are_refused_at_their_field(world: World) {
    let bench = Bench::new(&world).await;
    let gross = "/repeats/0/catches/1/gross";
    let table = [
        (gross, json!({ "value": "-1", "unit": "g" }), gross),
        ("/repeats/0/catches/1/tare", grams("40"), gross),
        (gross, grams("NaN"), "/repeats/0/catches/1/gross/value"),
        (gross, json!({ "value": "1", "unit": "stone" }), "/repeats/0/catches/1/gross/unit"),
        ("/repeats/0/revolutions", json!("0"), "/repeats/0/revolutions"),
        ("/repeats/1/revolutions", json!("-50"), "/repeats/1/revolutions"),
        ("/repeats/1/revolutions", json!({ "turns": "0" }), "/repeats/1/revolutions/turns"),
        ("/repeats/1/revolutions", json!({ "laps": 3 }), "/repeats/1/revolutions"),
        ("/repeats/1/revolutions", json!({ "pulses": "30" }), "/repeats/1/revolutions/pulses_per_rev"),
        ("/repeats/0/catches/0/runs", json!(20), "/repeats/0/catches"),
        ("/repeats/0/catches/0/runs", json!(0), "/repeats/0/catches/0/runs"),
        ("/repeats/0/catches", json!([]), "/repeats/0/catches"),
        ("/repeats", json!([]), "/repeats"),
        ("/roller_speed_rpm", json!(0), "/roller_speed_rpm"),
        ("/method", json!("thrown"), "/method"),
        ("/occurred_at", json!("1999-03-30T09:40:00Z"), "/occurred_at"),
    ];
    for (place, value, pointer) in table {
        bench.ana.post(&bench.path(), bench.with(place, value)).await.refused(422, &[pointer]);
    }
    let huge = bench.sheet(2).to_string().replacen("\"50\"", "1e400", 1);
    bench.ana.post_text(&bench.path(), huge).await.refused(422, &["/repeats/0/revolutions"]);
    let mut aside = bench.sheet(1);
    put(&mut aside, "/repeats/0", json!({ "revolutions": "50", "set_aside": "spilled", "catches": bench.sheet(1)["repeats"][0]["catches"] }));
    bench.ana.post(&bench.path(), aside).await.refused(422, &["/repeats"]);
    assert_eq!(bench.ana.read(&bench.path()).await["items"], json!([]));
}

async fn every_fault_is_told_at_once(world: World) {
    let bench = Bench::new(&world).await;
    let mut sheet = bench.with("/method", json!("thrown"));
    put(&mut sheet, "/repeats/0/catches/1/tare", grams("40"));
    put(&mut sheet, "/repeats/0/catches/2/gross", grams("many"));
    put(&mut sheet, "/repeats/1/revolutions", json!("0"));
    put(&mut sheet, "/repeats/1/catches/0/runs", json!(20));
    put(&mut sheet, "/lot_id", json!("0196d2a0-0000-7000-8000-0000000000ff"));
    sheet["colour"] = json!("red");
    let answer = bench.ana.post(&bench.path(), sheet).await;
    let wanted = [
        "/colour",
        "/lot_id",
        "/method",
        "/repeats/0/catches/1/gross",
        "/repeats/0/catches/2/gross/value",
        "/repeats/1/catches",
        "/repeats/1/revolutions",
    ];
    answer.refused(422, &wanted);
    let mut found = answer.pointers();
    found.sort();
    assert_eq!(found, wanted, "each once: {}", answer.text);
}

async fn without_a_setup_nobody_can_say_what_was_caught(world: World) {
    let bench = Bench::new(&world).await;
    let early = bench.with("/occurred_at", json!("2027-02-28T09:40:00+01:00"));
    let answer = bench.ana.post(&bench.path(), early).await;
    answer.refused(422, &["/occurred_at"]);
    assert!(answer.text.contains("No setup of this unit is known for 28 February 2027, 09:40"), "{}", answer.text);
}

async fn foreign_and_unknown_things_are_not_there(world: World) {
    let (bench, other) = (Bench::new(&world).await, Bench::new(&world).await);
    bench.ana.post(&bench.path(), bench.with("/lot_id", json!(other.lot))).await.refused(404, &["/lot_id"]);
    bench.ana.post(&bench.path(), bench.with("/scale_id", json!(other.scale))).await.refused(404, &["/scale_id"]);
    bench.ana.post(&other.path(), bench.sheet(2)).await.refused(404, &[]);
    bench.ana.get(&other.path()).await.refused(404, &[]);
    let record = bench.ana.create(&bench.path(), bench.sheet(2)).await;
    let path = format!("/calibrations/{}", record["id"].as_str().unwrap());
    other.ana.get(&path).await.refused(404, &[]);
    let decision = json!({ "decision": "accepted", "reason": "we looked" });
    other.ana.post(&format!("{path}/decisions"), decision).await.refused(404, &[]);
    assert_eq!(other.ana.get(&format!("/page{path}")).await.status, 404);
    assert_eq!(other.ana.get(&format!("/page/metering-units/{}/catch", bench.unit)).await.status, 404);
}

async fn bodies_that_cannot_be_read_are_refused(world: World) {
    let bench = Bench::new(&world).await;
    bench.ana.post_text(&bench.path(), "x".repeat(10_000_000)).await.refused(413, &[]);
    bench.ana.post_text(&bench.path(), vec![b'{', b'"', 0xff, b'"', b'}']).await.refused(400, &[]);
    bench.ana.post_text(&bench.path(), "{").await.refused(400, &[]);
    bench.ana.post_text(&bench.path(), "[]").await.refused(422, &[""]);
    bench.ana.post(&bench.path(), json!({})).await.refused(422, &["/occurred_at", "/lot_id", "/method", "/repeats"]);
}

async fn roles_are_held_to_their_rights(world: World) {
    let bench = Bench::new(&world).await;
    let crew = world.member(bench.ana.organization, "crew@example.org", "crew").await;
    let agronomist = world.member(bench.ana.organization, "agro@example.org", "agronomist").await;
    // Not this crew's seeder.
    crew.post(&bench.path(), bench.sheet(2)).await.refused(404, &[]);
    agronomist.post(&bench.path(), bench.sheet(2)).await.refused(403, &[]);
    let held = bench.ana.create(&bench.path(), bench.sheet(1)).await;
    let path = format!("/calibrations/{}", held["id"].as_str().unwrap());
    assert_eq!(agronomist.read(&path).await, held);
    crew.get(&path).await.refused(404, &[]);
    let decision = json!({ "decision": "accepted", "reason": "we looked" });
    agronomist.post(&format!("{path}/decisions"), decision).await.refused(403, &[]);
}
