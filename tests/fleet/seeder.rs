//! Seeders: added with their units and their first configuration, changed with a trace, seen by who may.

use super::yard::{Yard, drill, q, setup};
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};

on_both!(
    a_seeder_comes_with_units_and_a_first_configuration,
    a_seeder_is_added_once,
    a_taken_unit_id_adds_nothing,
    bad_seeders_are_refused_with_every_fault,
    what_no_field_can_know_is_refused,
    a_name_is_changed_with_a_trace,
    only_the_office_keeps_seeders,
    each_sees_their_own_seeders,
    lists_come_in_pages,
);

async fn a_seeder_comes_with_units_and_a_first_configuration(world: World) {
    let ana = world.ana().await;
    let unit = "0196d2a0-0000-7000-8000-00000000ab01";
    let mut sent = drill("Drill 1");
    sent["metering_units"][1]["id"] = json!(unit);
    let drill = ana.create("/seeders", sent).await;
    assert_eq!(
        (&drill["name"], &drill["serial_number"], &drill["kind"], &drill["commissioned_on"], &drill["laid_up"]),
        (&json!("Drill 1"), &json!("BD-104"), &json!("box_drill"), &json!("2019-07-05"), &json!(false))
    );
    let units = drill["metering_units"].as_array().unwrap();
    assert_eq!(units.len(), 2);
    assert!(units[0]["id"].is_string());
    assert_eq!(units[0]["roller_speed_rpm"], json!({ "min": 10, "max": 120.5 }));
    assert_eq!(units[1]["id"], unit);
    assert_eq!(
        (&units[1]["label"], &units[1]["runs"], &units[1]["drive"], &units[1]["roller_speed_rpm"], &units[1]["setup"]),
        (&json!("rear"), &json!(8), &json!("ground"), &Value::Null, &Value::Null)
    );
    // Summer time held in Vienna on that day.
    let configuration = &drill["configuration"];
    assert_eq!(configuration["occurred_at"], "2019-07-05T00:00:00+02:00");
    assert_eq!((&configuration["working_width"], &configuration["row_spacing"]), (&q("6.00", "m"), &q("12.5", "cm")));
    assert_eq!(configuration["recorded_by"]["id"], json!(ana.account));

    let path = format!("/seeders/{}", drill["id"].as_str().unwrap());
    assert_eq!(ana.read(&path).await, drill);
    assert_eq!(ana.read("/seeders").await["items"], json!([drill]));
    assert_eq!(ana.read(&format!("{path}/configurations")).await["items"], json!([configuration]));
}

async fn a_seeder_is_added_once(world: World) {
    let ana = world.ana().await;
    let mut sent = drill("Drill 1");
    sent["id"] = json!("0196d2a0-0000-7000-8000-00000000ab02");
    let first = ana.create("/seeders", sent.clone()).await;
    let again = ana.post("/seeders", sent.clone()).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, first.clone()));
    sent["name"] = json!("Drill 9");
    ana.post("/seeders", sent).await.refused(409, &[]);
    assert_eq!(ana.read("/seeders").await["items"], json!([first]));
}

async fn a_taken_unit_id_adds_nothing(world: World) {
    let ana = world.ana().await;
    let first = ana.create("/seeders", drill("Drill 1")).await;
    let mut sent = drill("Drill 2");
    sent["metering_units"][1]["id"] = first["metering_units"][0]["id"].clone();
    ana.post("/seeders", sent).await.refused(409, &[]);
    assert_eq!(ana.read("/seeders").await["items"], json!([first]));
}

async fn bad_seeders_are_refused_with_every_fault(world: World) {
    let ana = world.ana().await;
    let bad = json!({
        "name": " ", "serial_number": 7, "kind": "plough", "commissioned_on": "5 July 2019", "colour": "red",
        "working_width": q("-6", "m"), "row_spacing": q("12.5", "yd"),
        "metering_units": [
            { "label": "front", "runs": 0, "drive": "steam", "roller_speed_rpm": { "min": 120, "max": 10 } },
            { "runs": 501, "drive": "ground", "roller_speed_rpm": { "min": 0 } }
        ]
    });
    ana.post("/seeders", bad).await.refused(
        422,
        &[
            "/name",
            "/serial_number",
            "/kind",
            "/commissioned_on",
            "/colour",
            "/working_width",
            "/row_spacing/unit",
            "/metering_units/0/runs",
            "/metering_units/0/drive",
            "/metering_units/0/roller_speed_rpm/max",
            "/metering_units/1/label",
            "/metering_units/1/runs",
            "/metering_units/1/roller_speed_rpm/min",
            "/metering_units/1/roller_speed_rpm/max",
        ],
    );
    ana.post("/seeders", json!([])).await.refused(422, &[""]);
    assert_eq!(ana.read("/seeders").await["items"], json!([]));
}

async fn what_no_field_can_know_is_refused(world: World) {
    let ana = world.ana().await;
    let mut alike = drill("Drill 1");
    alike["row_spacing"] = q("7", "m");
    alike["metering_units"][1]["label"] = json!("front");
    ana.post("/seeders", alike.clone()).await.refused(422, &["/row_spacing", "/metering_units/1/label"]);
    // Also while single fields are at fault.
    let mut worse = alike.clone();
    worse["name"] = json!("");
    worse["metering_units"][0]["runs"] = json!("many");
    let worse = ana.post("/seeders", worse).await;
    worse.refused(422, &["/name", "/row_spacing", "/metering_units/0/runs", "/metering_units/1/label"]);
    assert_eq!(worse.pointers().len(), 4, "{}", worse.text);
    let mut wide = drill("Drill 1");
    wide["working_width"] = q("120", "m");
    ana.post("/seeders", wide).await.refused(422, &["/working_width"]);
    let mut bare = drill("Drill 1");
    bare["metering_units"] = json!([]);
    ana.post("/seeders", bare).await.refused(422, &["/metering_units"]);
    assert_eq!(ana.read("/seeders").await["items"], json!([]));
}

async fn a_name_is_changed_with_a_trace(world: World) {
    let yard = Yard::new(&world).await;
    let path = format!("/seeders/{}", yard.drill);
    let changed = yard.ana.patch(&path, json!({ "name": "Old drill" })).await.json();
    assert_eq!((&changed["name"], &changed["serial_number"]), (&json!("Old drill"), &json!("BD-104")));
    let changed = yard.ana.patch(&path, json!({ "serial_number": "" })).await.json();
    assert_eq!((&changed["name"], &changed["serial_number"]), (&json!("Old drill"), &Value::Null));

    let trail = yard.ana.read("/audit?limit=500").await;
    let changes: Vec<&Value> =
        trail["items"].as_array().unwrap().iter().filter(|line| line["action"] == "changed").collect();
    assert_eq!(changes.len(), 2, "{trail}");
    assert_eq!(changes[0]["subject"], json!({ "kind": "seeder", "id": yard.drill }));
    assert_eq!(
        changes[0]["change"],
        json!({ "from": { "name": "Drill 1", "serial_number": "BD-104" }, "to": { "name": "Old drill", "serial_number": "BD-104" } })
    );

    // What says nothing new leaves no trace.
    assert_eq!(yard.ana.patch(&path, json!({ "name": "Old drill" })).await.status, 200);
    let after = yard.ana.read("/audit?limit=500").await;
    assert_eq!(after["items"].as_array().map(Vec::len), trail["items"].as_array().map(Vec::len));

    yard.ana.patch(&path, json!({ "name": "", "kind": "air_cart" })).await.refused(422, &["/name", "/kind"]);
    yard.kim.patch(&path, json!({ "name": "Kim's" })).await.refused(403, &[]);
    world.ana().await.patch(&path, json!({ "name": "Ben's" })).await.refused(404, &[]);
}

async fn only_the_office_keeps_seeders(world: World) {
    let yard = Yard::new(&world).await;
    let configuration =
        json!({ "occurred_at": "2027-03-30T08:00:00Z", "working_width": q("4", "m"), "row_spacing": q("12.5", "cm") });
    let lay_up = json!({ "occurred_at": "2027-03-30T08:00:00Z", "laid_up": true });
    for person in [&yard.kim, &yard.mia] {
        person.post("/seeders", drill("Drill 3")).await.refused(403, &[]);
        person.post(&yard.at("configurations"), configuration.clone()).await.refused(403, &[]);
        person.post(&yard.at("lay-ups"), lay_up.clone()).await.refused(403, &[]);
    }
    yard.mia.post(&yard.front("setups"), setup(&yard.roller)).await.refused(403, &[]);
    world.nobody().get("/seeders").await.refused(401, &[]);
}

async fn each_sees_their_own_seeders(world: World) {
    let yard = Yard::new(&world).await;
    let names = |list: Value| -> Vec<String> {
        list["items"].as_array().unwrap().iter().map(|seeder| seeder["name"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(names(yard.ana.read("/seeders").await).len(), 2);
    assert_eq!(names(yard.mia.read("/seeders").await).len(), 2);
    assert_eq!(names(yard.kim.read("/seeders").await), ["Drill 1"]);
    let ben = world.ana().await;
    assert_eq!(names(ben.read("/seeders").await), [""; 0]);
    for what in ["", "/configurations", "/services", "/lay-ups", "/timeline"] {
        let path = format!("/seeders/{}{what}", yard.other);
        yard.kim.get(&path).await.refused(404, &[]);
        ben.get(&path).await.refused(404, &[]);
        assert_eq!(yard.mia.get(&path).await.status, 200);
    }
    let setups = format!("/metering-units/{}/setups", yard.other_unit);
    yard.kim.get(&setups).await.refused(404, &[]);
    yard.kim.post(&setups, setup(&yard.roller)).await.refused(404, &[]);
    ben.post(&setups, setup(&yard.roller)).await.refused(404, &[]);
}

async fn lists_come_in_pages(world: World) {
    let ana = world.ana().await;
    for number in 1..=3 {
        ana.create("/seeders", drill(&format!("Drill {number}"))).await;
    }
    let whole = ana.read("/seeders").await;
    let first = ana.read("/seeders?limit=2").await;
    let second = ana.read(&format!("/seeders?limit=2&after={}", first["next"].as_str().unwrap())).await;
    assert_eq!((&whole["next"], &second["next"]), (&Value::Null, &Value::Null));
    let both: Vec<Value> = [first, second].iter().flat_map(|page| page["items"].as_array().unwrap().clone()).collect();
    assert_eq!(whole["items"], json!(both));
}
