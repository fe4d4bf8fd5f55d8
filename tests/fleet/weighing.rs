//! Scales and their checks, and seasons.

use super::yard::{Yard, q};
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};

on_both!(
    a_scale_is_added_once,
    a_scale_that_cannot_be_is_refused,
    a_scale_check_is_logged_by_the_crew,
    a_season_is_for_all_crops_or_some,
    others_see_neither,
    the_page_says_which_checks_passed,
);

fn scale() -> Value {
    json!({ "name": "Yard scale", "readability": q("10", "g"), "capacity": q("50", "kg") })
}

async fn a_scale_is_added_once(world: World) {
    let ana = world.ana().await;
    let mut sent = scale();
    sent["id"] = json!("0196d2a0-0000-7000-8000-00000000ae01");
    let first = ana.create("/scales", sent.clone()).await;
    assert_eq!((&first["readability"], &first["capacity"]), (&q("10", "g"), &q("50", "kg")));
    let again = ana.post("/scales", sent.clone()).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, first.clone()));
    sent["capacity"] = q("60", "kg");
    ana.post("/scales", sent).await.refused(409, &[]);
    assert_eq!(ana.read("/scales").await["items"], json!([first]));
    assert_eq!(ana.read("/scales/0196d2a0-0000-7000-8000-00000000ae01").await, first);
}

async fn a_scale_that_cannot_be_is_refused(world: World) {
    let ana = world.ana().await;
    let bad = json!({ "name": "", "readability": q("-1", "g"), "capacity": q("50", "L") });
    ana.post("/scales", bad).await.refused(422, &["/name", "/readability", "/capacity/unit"]);
    let none = json!({ "name": "A", "readability": q("0", "g"), "capacity": q("0", "kg") });
    ana.post("/scales", none).await.refused(422, &["/readability", "/capacity"]);
    let slip = json!({ "name": "A", "readability": q("10", "kg"), "capacity": q("50", "g") });
    ana.post("/scales", slip).await.refused(422, &["/capacity"]);
    assert_eq!(ana.read("/scales").await["items"], json!([]));
}

async fn a_scale_check_is_logged_by_the_crew(world: World) {
    let yard = Yard::new(&world).await;
    let scale = yard.ana.create("/scales", scale()).await;
    let checks = format!("/scales/{}/checks", scale["id"].as_str().unwrap());
    let check = json!({ "id": "0196d2a0-0000-7000-8000-00000000ae02", "occurred_at": "2027-03-31T07:00:00+02:00",
        "reference": q("20.0", "kg"), "reading": { "lb": 44, "oz": "1.5" } });
    let first = yard.kim.create(&checks, check.clone()).await;
    assert_eq!(first["reference"], q("20.0", "kg"));
    assert_eq!((&first["reading"]["lb"], &first["reading"]["oz"]), (&json!("44"), &json!("1.5")));
    let again = yard.kim.post(&checks, check).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, first.clone()));
    let nothing =
        json!({ "occurred_at": "2027-03-31T07:00:00+02:00", "reference": q("0", "kg"), "reading": q("0", "kg") });
    yard.kim.post(&checks, nothing.clone()).await.refused(422, &["/reference"]);
    yard.mia.post(&checks, nothing).await.refused(403, &[]);
    // A scale for 50 kg shows a few steps more, not twice as much.
    let beyond =
        json!({ "occurred_at": "2027-03-31T07:00:00+02:00", "reference": q("51", "kg"), "reading": q("100", "kg") });
    yard.kim.post(&checks, beyond).await.refused(422, &["/reference", "/reading"]);
    assert_eq!(yard.mia.read(&checks).await["items"], json!([first]));

    let void = format!("/records/{}/void", first["id"].as_str().unwrap());
    yard.ole.post(&void, json!({ "reason": "not mine" })).await.refused(403, &[]);
    yard.kim.create(&void, json!({ "reason": "the weight was wet" })).await;
    assert_eq!(yard.ana.read(&checks).await["items"][0]["void"]["reason"], "the weight was wet");
}

/// A step of 10 g and 0.5 % of 10 kg: 60 g, and from the new tolerances on 2 % of it: 210 g.
async fn the_page_says_which_checks_passed(world: World) {
    let yard = Yard::new(&world).await;
    let scale = yard.ana.create("/scales", scale()).await;
    let checks = format!("/scales/{}/checks", scale["id"].as_str().unwrap());
    let mut made = Vec::new();
    for (at, reading) in [("2027-03-29T07:00:00Z", "10.06"), ("2027-03-30T07:00:00Z", "10.20")] {
        let check = json!({ "occurred_at": at, "reference": q("10", "kg"), "reading": q(reading, "kg") });
        made.push(yard.kim.create(&checks, check).await["id"].as_str().unwrap().to_owned());
    }
    yard.ana.put("/policy", json!({ "scale_error_limit_percent": 2 })).await;
    let later =
        json!({ "occurred_at": "2027-04-01T06:00:00Z", "reference": q("10", "kg"), "reading": q("10.20", "kg") });
    made.push(yard.kim.create(&checks, later).await["id"].as_str().unwrap().to_owned());
    let page = yard.ana.get("/page/scales").await.text;
    let entry =
        |id: &str| page.split(&format!("id=\"{id}\"")).nth(1).unwrap().split("</li>").next().unwrap().to_owned();
    let said = [&made[0], &made[1], &made[2]].map(|id| {
        let entry = entry(id);
        let allowed = entry.contains("The tolerances allowed one step of the scale and 0.5 % of the mass.");
        (entry.contains("state-ready"), entry.contains("state-calibrate"), allowed)
    });
    assert_eq!(said, [(true, false, false), (false, true, true), (true, false, false)], "{page}");
    yard.ana.create(&format!("/records/{}/void", made[1]), json!({ "reason": "the weight was wet" })).await;
    let page = yard.ana.get("/page/scales").await.text;
    assert!(!page.contains("state-calibrate"), "of one that does not stand nothing is said: {page}");
}

async fn a_season_is_for_all_crops_or_some(world: World) {
    let ana = world.ana().await;
    let all = ana.create("/seasons", json!({ "name": "Spring 2027", "starts_on": "2027-02-15", "crops": null })).await;
    assert_eq!((&all["starts_on"], &all["crops"]), (&json!("2027-02-15"), &Value::Null));
    let some = json!({ "name": "Maize 2027", "starts_on": "2027-04-20", "crops": ["maize", " sorghum "] });
    let some = ana.create("/seasons", some).await;
    assert_eq!(some["crops"], json!(["maize", "sorghum"]));
    let none = ana.create("/seasons", json!({ "name": "Autumn", "starts_on": "2027-08-01", "crops": [] })).await;
    assert_eq!(none["crops"], Value::Null);
    let listed = ana.read("/seasons").await["items"].clone();
    assert!([all, some, none].iter().all(|season| listed.as_array().unwrap().contains(season)));
    let bad = json!({ "name": 5, "starts_on": "2127-02-15", "crops": "maize" });
    ana.post("/seasons", bad).await.refused(422, &["/name", "/starts_on", "/crops"]);
}

async fn others_see_neither(world: World) {
    let yard = Yard::new(&world).await;
    let scale = yard.ana.create("/scales", scale()).await;
    yard.ana.create("/seasons", json!({ "name": "Spring", "starts_on": "2027-02-15" })).await;
    let ben = world.ana().await;
    let path = format!("/scales/{}", scale["id"].as_str().unwrap());
    ben.get(&path).await.refused(404, &[]);
    let check = json!({ "occurred_at": "2027-03-31T07:00:00Z", "reference": q("1", "kg"), "reading": q("1", "kg") });
    ben.post(&format!("{path}/checks"), check).await.refused(404, &[]);
    assert_eq!(ben.read("/scales").await["items"], json!([]));
    assert_eq!(ben.read("/seasons").await["items"], json!([]));
    for person in [&yard.kim, &yard.mia] {
        person.post("/scales", json!({})).await.refused(403, &[]);
        person.post("/seasons", json!({})).await.refused(403, &[]);
        assert_eq!(person.read("/seasons").await["items"].as_array().map(Vec::len), Some(1));
    }
}
