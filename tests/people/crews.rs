//! Crews: kept by the office, and the only reason why a crew member sees a seeder.

use super::browser::Browser;
use crate::on_both;
use crate::world::{Person, World};
use serde_json::{Value, json};
use sowmark::access::Role;

on_both!(
    a_crew_member_sees_the_seeders_of_their_crews_alone,
    crews_are_kept_through_the_api,
    bad_crews_are_refused,
    crews_are_kept_on_pages_with_boxes_to_tick,
);

async fn seeder(ana: &Person, name: &str) -> String {
    let sent = json!({
        "name": name, "kind": "box_drill", "commissioned_on": "2019-07-05",
        "working_width": { "value": "6", "unit": "m" }, "row_spacing": { "value": "12.5", "unit": "cm" },
        "metering_units": [{ "label": "front", "runs": 24, "drive": "hydraulic" }]
    });
    ana.create("/seeders", sent).await["id"].as_str().unwrap().to_owned()
}

fn names(list: &Value) -> Vec<String> {
    list.as_array().unwrap().iter().map(|item| item["name"].as_str().unwrap().to_owned()).collect()
}

async fn a_crew_member_sees_the_seeders_of_their_crews_alone(world: World) {
    let ana = world.ana().await;
    let (one, two) = (seeder(&ana, "Drill 1").await, seeder(&ana, "Drill 2").await);
    let kim = world.member(ana.organization, "kim@example.org", "crew").await;
    let ole = world.member(ana.organization, "ole@example.org", "crew").await;
    assert_eq!(kim.read("/seeders").await["items"], json!([]));
    let crew = ana.create("/crews", json!({ "name": "yard", "members": [kim.account], "seeders": [one] })).await;
    assert_eq!(names(&kim.read("/seeders").await["items"]), ["Drill 1"]);
    assert_eq!(kim.get(&format!("/seeders/{one}")).await.status, 200);
    kim.get(&format!("/seeders/{two}")).await.refused(404, &[]);
    ole.get(&format!("/seeders/{one}")).await.refused(404, &[]);

    let path = format!("/crews/{}", crew["id"].as_str().unwrap());
    let changed = ana.put(&path, json!({ "name": "field", "members": [ole.account], "seeders": [two] })).await;
    assert_eq!(changed.status, 200, "{}", changed.text);
    kim.get(&format!("/seeders/{one}")).await.refused(404, &[]);
    assert_eq!(names(&ole.read("/seeders").await["items"]), ["Drill 2"]);
    kim.get("/crews").await.refused(403, &[]);
    ole.put(&path, json!({ "name": "mine", "members": [], "seeders": [] })).await.refused(403, &[]);
}

async fn crews_are_kept_through_the_api(world: World) {
    let ana = world.ana().await;
    let kim = world.member(ana.organization, "kim@example.org", "crew").await;
    let id = "0196d2a0-0000-7000-8000-000000000077";
    let sent = json!({ "id": id, "name": "yard", "members": [kim.account], "seeders": [] });
    let first = ana.create("/crews", sent.clone()).await;
    assert_eq!(
        first,
        json!({ "id": id, "name": "yard", "members": [{ "id": kim.account, "name": "kim" }], "seeders": [] })
    );
    let again = ana.post("/crews", sent).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, first.clone()));
    ana.post("/crews", json!({ "id": id, "name": "other" })).await.refused(409, &[]);
    assert_eq!(ana.read("/crews").await["items"], json!([first]));
    let changed = ana.put(&format!("/crews/{id}"), json!({ "name": "field", "members": [], "seeders": [] })).await;
    assert_eq!(changed.json(), json!({ "id": id, "name": "field", "members": [], "seeders": [] }));
    let trail = ana.read("/audit?limit=500").await;
    let last = trail["items"].as_array().unwrap().last().unwrap().clone();
    assert_eq!((&last["action"], &last["subject"]), (&json!("changed"), &json!({ "kind": "crew", "id": id })));
    assert_eq!(last["change"]["from"], json!({ "name": "yard", "members": [kim.account], "seeders": [] }));
    assert_eq!(last["change"]["to"]["name"], "field");
}

async fn bad_crews_are_refused(world: World) {
    let (ana, ben) = (world.ana().await, world.ana().await);
    let foreign = seeder(&ben, "Foreign drill").await;
    let kim = world.member(ana.organization, "kim@example.org", "crew").await;
    ana.post("/crews", json!({ "name": "", "members": "kim", "leader": 1 }))
        .await
        .refused(422, &["/name", "/members", "/leader"]);
    ana.post("/crews", json!({ "name": "yard", "members": [kim.account, kim.account] }))
        .await
        .refused(422, &["/members/1"]);
    ana.post("/crews", json!({ "name": "yard", "members": [ben.account] })).await.refused(404, &["/members/0"]);
    ana.post("/crews", json!({ "name": "yard", "seeders": [foreign] })).await.refused(404, &["/seeders/0"]);
    assert_eq!(ana.read("/crews").await["items"], json!([]));
    let crew = ana.create("/crews", json!({ "name": "yard", "members": [kim.account] })).await;
    let path = format!("/crews/{}", crew["id"].as_str().unwrap());
    ana.put(&path, json!({ "name": "yard" })).await.refused(422, &["/members", "/seeders"]);
    ana.put(&path, json!({ "name": "yard", "members": [], "seeders": [foreign] })).await.refused(404, &["/seeders/0"]);
    assert_eq!(ana.read(&path).await, crew, "a refused change leaves all as it was");
    ben.get(&path).await.refused(404, &[]);
    ben.put(&path, json!({ "name": "mine", "members": [], "seeders": [] })).await.refused(404, &[]);
}

async fn crews_are_kept_on_pages_with_boxes_to_tick(world: World) {
    let ana = world.ana().await;
    let drill = seeder(&ana, "Drill <1>").await;
    let kim = world.member(ana.organization, "kim@example.org", "crew").await;
    let kim_id = kim.account.to_string();
    let mut browser = Browser::of(&world, &ana, Role::Office).await;
    let page = browser.get(&world, "/crews/new").await.text;
    assert!(page.contains(&format!("value=\"{drill}\"")) && page.contains("Drill &#60;1&#62;"), "{page}");
    let id = "0196d2a0-0000-7000-8000-000000000078";
    let bad = browser.submit(&world, "/crews", &[("id", id), ("name", ""), ("seeders", &drill)]).await;
    assert_eq!(bad.status, 422);
    assert!(bad.text.contains(&format!("value=\"{drill}\" checked")), "the tick is kept: {}", bad.text);
    let fields = [("id", id), ("name", "yard"), ("members", kim_id.as_str()), ("seeders", drill.as_str())];
    assert_eq!(browser.submit(&world, "/crews", &fields).await.status, 303);
    assert_eq!(browser.submit(&world, "/crews", &fields).await.status, 303, "sent twice, made once");
    assert_eq!(ana.read("/crews").await["items"].as_array().unwrap().len(), 1);
    assert_eq!(names(&kim.read("/seeders").await["items"]), ["Drill <1>"]);
    let page = browser.get(&world, &format!("/crews/{id}")).await.text;
    assert!(page.contains(&format!("value=\"{kim_id}\" checked")));
    assert_eq!(browser.submit(&world, &format!("/crews/{id}"), &[("name", "yard")]).await.status, 303);
    assert_eq!(kim.read("/seeders").await["items"], json!([]), "nothing ticked, nothing seen");
}
