//! Metering units: added to a seeder that is there, and the form in which their controllers take the number.

use super::yard::{Yard, drill};
use crate::on_both;
use crate::world::{Answer, Person, World};
use serde_json::{Value, json};

on_both!(
    a_unit_is_added_after_the_others,
    a_unit_that_cannot_be_is_refused,
    the_form_adds_a_unit,
    a_seeder_comes_with_what_its_controllers_want,
    what_a_controller_wants_is_changed_with_a_trace,
    what_no_controller_wants_is_refused,
    the_change_page_says_what_a_controller_wants,
);

fn unit(label: &str) -> Value {
    json!({ "label": label, "runs": 6, "drive": "electric", "roller_speed_rpm": { "min": 5, "max": 90 } })
}

fn labels(seeder: &Value) -> Vec<&str> {
    seeder["metering_units"].as_array().unwrap().iter().map(|unit| unit["label"].as_str().unwrap()).collect()
}

async fn last_line(ana: &Person) -> Value {
    let trail = ana.read("/audit?limit=500").await;
    trail["items"].as_array().unwrap().last().unwrap().clone()
}

async fn a_unit_is_added_after_the_others(world: World) {
    let yard = Yard::new(&world).await;
    let (home, path) = (format!("/seeders/{}", yard.drill), yard.at("metering-units"));
    let mut sent = unit("small seeds");
    sent["id"] = json!("0196d2a0-0000-7000-8000-00000000ad01");
    let added = yard.ana.create(&path, sent.clone()).await;
    assert_eq!(
        (&added["label"], &added["runs"], &added["drive"], &added["setup"], &added["keyed_in"]),
        (&json!("small seeds"), &json!(6), &json!("electric"), &Value::Null, &Value::Null)
    );
    let line = last_line(&yard.ana).await;
    assert_eq!(
        (&line["action"], &line["subject"]["kind"], &line["subject"]["id"]),
        (&json!("created"), &json!("metering_unit"), &added["id"])
    );
    let again = yard.ana.post(&path, sent.clone()).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, added.clone()), "sent twice, added once");
    assert_eq!(labels(&yard.ana.read(&home).await), ["front", "rear", "small seeds"]);
    sent["runs"] = json!(7);
    yard.ana.post(&path, sent).await.refused(409, &[]);

    let ready = yard.kim.read(&format!("/metering-units/{}/readiness", added["id"].as_str().unwrap())).await;
    assert_eq!(ready["factor"], Value::Null, "a new unit has no number");
    yard.ana.create(&path, unit("last")).await;
    assert_eq!(labels(&yard.kim.read(&home).await), ["front", "rear", "small seeds", "last"]);
}

async fn a_unit_that_cannot_be_is_refused(world: World) {
    let yard = Yard::new(&world).await;
    let path = yard.at("metering-units");
    yard.ana.post(&path, unit("rear")).await.refused(422, &["/label"]);
    yard.ana
        .post(&path, json!({ "label": "", "runs": 0, "drive": "steam", "wheels": 4 }))
        .await
        .refused(422, &["/label", "/runs", "/drive", "/wheels"]);
    yard.kim.post(&path, unit("Kim's")).await.refused(403, &[]);
    yard.mia.post(&path, unit("Mia's")).await.refused(403, &[]);
    world.ana().await.post(&path, unit("Ben's")).await.refused(404, &[]);
    world.nobody().post(&path, unit("nobody's")).await.refused(401, &[]);
    assert_eq!(labels(&yard.ana.read(&format!("/seeders/{}", yard.drill)).await), ["front", "rear"]);
    // The label is free on another machine.
    yard.ana.create(&format!("/seeders/{}/metering-units", yard.other), unit("small seeds")).await;
}

fn went_to(answer: &Answer) -> &str {
    assert_eq!(answer.status, 303, "{}", answer.text);
    answer.headers["location"].to_str().unwrap()
}

async fn the_form_adds_a_unit(world: World) {
    let yard = Yard::new(&world).await;
    let home = format!("/seeders/{}", yard.drill);
    let (form, path) =
        (format!("/page{}", yard.at("metering-units/new")), format!("/page{}", yard.at("metering-units")));
    assert!(yard.ana.get(&format!("/page{home}")).await.text.contains("/metering-units/new\""));
    assert!(!yard.kim.get(&format!("/page{home}")).await.text.contains("/metering-units/new\""));
    assert_eq!(yard.kim.get(&form).await.status, 403);
    let page = yard.ana.get(&form).await;
    assert_eq!(page.status, 200);
    let mut fields = vec![
        ("id", "0196d2a0-0000-7000-8000-00000000ad02"),
        ("label", "rear"),
        ("runs", "6"),
        ("drive", "ground"),
        ("roller_speed_rpm/min", ""),
        ("roller_speed_rpm/max", ""),
    ];
    let back = yard.ana.submit(&path, &fields).await;
    assert_eq!(back.status, 422);
    assert!(back.text.contains("label-error") && back.text.contains("value=\"rear\""), "{}", back.text);
    fields[1] = ("label", "small seeds");
    assert_eq!(went_to(&yard.ana.submit(&path, &fields).await), home);
    assert_eq!(went_to(&yard.ana.submit(&path, &fields).await), home, "sent twice, added once");
    assert_eq!(labels(&yard.ana.read(&home).await), ["front", "rear", "small seeds"]);
    assert!(yard.ana.get(&format!("/page{home}")).await.text.contains("small seeds"));
}

async fn a_seeder_comes_with_what_its_controllers_want(world: World) {
    let ana = world.ana().await;
    let mut sent = drill("Drill 1");
    sent["metering_units"][0]["keyed_in"] = json!({ "mass_unit": "lb", "per_revolutions": 100, "for": "unit" });
    sent["metering_units"][1]["keyed_in"] = json!({ "mass_unit": "g" });
    let seeder = ana.create("/seeders", sent).await;
    let forms: Vec<&Value> =
        seeder["metering_units"].as_array().unwrap().iter().map(|unit| &unit["keyed_in"]).collect();
    assert_eq!(
        forms,
        [
            &json!({ "mass_unit": "lb", "per_revolutions": 100, "for": "unit" }),
            &json!({ "mass_unit": "g", "per_revolutions": 100, "for": "run" })
        ]
    );
}

async fn what_a_controller_wants_is_changed_with_a_trace(world: World) {
    let yard = Yard::new(&world).await;
    let home = format!("/seeders/{}", yard.drill);
    let form = json!({ "mass_unit": "oz", "per_revolutions": 1, "for": "run" });
    let change = json!({ "metering_units": [{ "id": yard.units[1], "keyed_in": form }] });
    let changed = yard.ana.patch(&home, change.clone()).await;
    assert_eq!(changed.status, 200, "{}", changed.text);
    let units = changed.json()["metering_units"].clone();
    assert_eq!((&units[0]["keyed_in"], &units[1]["keyed_in"]), (&Value::Null, &form));
    assert_eq!(changed.json()["name"], "Drill 1");
    let line = last_line(&yard.ana).await;
    assert_eq!((&line["action"], &line["subject"]["id"]), (&json!("changed"), &json!(yard.drill)));
    assert_eq!(line["change"]["from"]["metering_units"], json!([{ "id": yard.units[1], "keyed_in": null }]));
    assert_eq!(line["change"]["to"]["metering_units"], json!([{ "id": yard.units[1], "keyed_in": form }]));

    // What says nothing new leaves no trace; null takes back what was said.
    assert_eq!(yard.ana.patch(&home, change).await.status, 200);
    assert_eq!(last_line(&yard.ana).await["seq"], line["seq"]);
    let back = yard.ana.patch(&home, json!({ "metering_units": [{ "id": yard.units[1], "keyed_in": null }] })).await;
    assert_eq!(back.json()["metering_units"][1]["keyed_in"], Value::Null);
    assert_ne!(last_line(&yard.ana).await["seq"], line["seq"]);
}

async fn what_no_controller_wants_is_refused(world: World) {
    let yard = Yard::new(&world).await;
    let home = format!("/seeders/{}", yard.drill);
    let of = |id: &str, form: Value| json!({ "metering_units": [{ "id": id, "keyed_in": form }] });
    let bad = of(&yard.units[0], json!({ "mass_unit": "t", "per_revolutions": 10, "for": "drill", "colour": "red" }));
    let pointers =
        ["mass_unit", "per_revolutions", "for", "colour"].map(|field| format!("/metering_units/0/keyed_in/{field}"));
    let answer = yard.ana.patch(&home, bad).await;
    answer.refused(422, &pointers.each_ref().map(String::as_str));
    let good = json!({ "mass_unit": "kg" });
    yard.ana.patch(&home, of(&yard.units[0], json!({}))).await.refused(422, &["/metering_units/0/keyed_in/mass_unit"]);
    yard.ana.patch(&home, of(&yard.other_unit, good.clone())).await.refused(422, &["/metering_units/0/id"]);
    let twice = json!({ "metering_units": [{ "id": yard.units[0], "keyed_in": good }, { "id": yard.units[0] }] });
    yard.ana.patch(&home, twice).await.refused(422, &["/metering_units/1/id"]);
    yard.kim.patch(&home, of(&yard.units[0], good)).await.refused(403, &[]);
    for unit in yard.ana.read(&home).await["metering_units"].as_array().unwrap() {
        assert_eq!(unit["keyed_in"], Value::Null, "nothing was changed");
    }
}

async fn the_change_page_says_what_a_controller_wants(world: World) {
    let yard = Yard::new(&world).await;
    let (home, path) = (format!("/seeders/{}", yard.drill), format!("/page{}", yard.at("change")));
    let page = yard.ana.get(&path).await.text;
    assert!(page.contains("Nobody has said: shown as kg per 100 revolutions, per run"), "{page}");
    let (front, rear) = ("metering_units/0/keyed_in", "metering_units/1/keyed_in");
    let names = [
        format!("{front}/mass_unit"),
        format!("{front}/per_revolutions"),
        format!("{front}/for"),
        format!("{rear}/mass_unit"),
        format!("{rear}/per_revolutions"),
        format!("{rear}/for"),
    ];
    let fields = |texts: [&'static str; 6]| {
        let mut fields = vec![("name", "Drill 1"), ("serial_number", "BD-104")];
        fields.extend(names.iter().map(String::as_str).zip(texts));
        fields
    };
    assert_eq!(went_to(&yard.ana.submit(&path, &fields(["lb", "100", "unit", "", "100", "run"])).await), home);
    let seeder = yard.ana.read(&home).await;
    assert_eq!(
        seeder["metering_units"][0]["keyed_in"],
        json!({ "mass_unit": "lb", "per_revolutions": 100, "for": "unit" })
    );
    assert_eq!(seeder["metering_units"][1]["keyed_in"], Value::Null);
    let again = yard.ana.get(&path).await.text;
    assert!(again.contains("<option value=\"lb\" selected>pounds</option>"), "{again}");
    for person in [&yard.ana, &yard.kim] {
        let page = person.get(&format!("/page{home}")).await.text;
        assert!(page.contains("lb per 100 revolutions, whole unit"), "{page}");
    }

    let bad = yard.ana.submit(&path, &fields(["stone", "100", "unit", "", "100", "run"])).await;
    assert_eq!(bad.status, 422);
    assert!(bad.text.contains("metering_units/0/keyed_in/mass_unit-error"), "{}", bad.text);
    assert_eq!(went_to(&yard.ana.submit(&path, &fields(["", "100", "unit", "g", "1", "run"])).await), home);
    let seeder = yard.ana.read(&home).await;
    assert_eq!(seeder["metering_units"][0]["keyed_in"], Value::Null, "taken back");
    assert_eq!(seeder["metering_units"][1]["keyed_in"]["mass_unit"], "g");
    assert_eq!(yard.kim.submit(&path, &fields(["g", "1", "run", "", "1", "run"])).await.status, 403);
}
