//! A batch taken in: what is stored, what is refused, and that nothing stops the others.

use super::{entry, kim, outcomes, pointers, send};
use crate::on_both;
use crate::people::browser::Browser;
use crate::readiness::farm::{AGREES, Farm, catch, fill, id, job, lot_test, service, setup};
use crate::seed::hand;
use crate::world::World;
use axum::body::Body;
use axum::http::{Method, Request, header};
use serde_json::{Value, json};
use sowmark::access::Role;
use sowmark::db::Db;

on_both!(
    every_kind_is_stored_as_by_its_own_address,
    sent_again_it_is_already_stored,
    other_content_under_the_same_id_is_refused,
    a_bad_entry_stops_no_other,
    every_fault_of_an_entry_is_told,
    a_broken_transaction_stops_no_other,
    what_is_no_list_of_entries_is_refused_as_a_whole,
    a_crew_logs_for_its_seeders_alone,
    an_agronomist_tests_lots_and_logs_nothing_else,
    another_organizations_machine_is_not_there,
    a_browser_sends_with_its_session,
    each_stored_entry_has_its_line_in_the_trail,
);

fn emptying(at: &str, lot: &str) -> Value {
    json!({ "occurred_at": at, "lot_id": lot, "mass": null, "to_empty": true })
}

fn scale_check(at: &str) -> Value {
    json!({ "occurred_at": at, "reference": { "value": "10", "unit": "kg" }, "reading": { "value": "10.01", "unit": "kg" } })
}

/// One of each kind, the catch first and its setup last.
fn one_of_each(farm: &Farm) -> Vec<Value> {
    vec![
        entry("calibration", &farm.unit, 101, catch("2027-03-28T08:00:00Z", &farm.wheat, Some(&farm.scale), AGREES)),
        entry("job", &farm.unit, 102, job("2027-03-29T08:00:00Z", &farm.wheat, "1410", "9")),
        entry("emptying", &farm.unit, 103, emptying("2027-03-30T08:00:00Z", &farm.wheat)),
        entry("fill", &farm.unit, 104, fill("2027-03-22T08:00:00Z", &farm.wheat)),
        entry("service", &farm.seeder, 105, service("2027-03-27T08:00:00Z", true)),
        entry("scale_check", &farm.scale, 106, scale_check("2027-03-26T08:00:00Z")),
        entry("lot_test", &farm.wheat, 107, lot_test("2027-03-23T08:00:00Z", "40")),
        entry("setup", &farm.unit, 108, setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")),
    ]
}

async fn every_kind_is_stored_as_by_its_own_address(world: World) {
    let farm = Farm::new(&world).await;
    let entries = one_of_each(&farm);
    let mut results = send(&farm.ana, &entries).await;
    // A catch is told of besides: `judged.rs`.
    let told = results[0].as_object_mut().and_then(|result| result.remove("says").zip(result.remove("href")));
    assert!(told.is_some());
    for (result, number) in results.iter().zip(101..) {
        assert_eq!(result, &json!({ "id": id(number), "outcome": "stored", "problem": null }));
    }
    let caught = farm.ana.read(&format!("/calibrations/{}", id(101))).await;
    assert_eq!((&caught["status"], &caught["lot_id"]), (&json!("accepted"), &json!(farm.wheat)));
    let timeline = farm.ana.read(&format!("/seeders/{}/timeline", farm.seeder)).await;
    let kinds: Vec<&str> =
        timeline["items"].as_array().unwrap().iter().map(|item| item["kind"].as_str().unwrap()).collect();
    assert_eq!(kinds, ["emptying", "job", "calibration", "service", "fill", "setup", "configuration"]);
    let checks = farm.ana.read(&format!("/scales/{}/checks", farm.scale)).await;
    assert!(checks["items"].as_array().unwrap().iter().any(|check| check["id"] == id(106)), "{checks}");
    let tests = farm.ana.read(&format!("/lots/{}/tests", farm.wheat)).await;
    assert_eq!(tests["items"][0]["id"], id(107));
    // By its own address the same is there already.
    let setup = farm.ana.post(&format!("/metering-units/{}/setups", farm.unit), entries[7]["record"].clone()).await;
    assert_eq!(setup.status.as_u16(), 200, "{}", setup.text);
}

async fn sent_again_it_is_already_stored(world: World) {
    let farm = Farm::new(&world).await;
    let entries = one_of_each(&farm);
    send(&farm.ana, &entries).await;
    let trail = farm.ana.read("/audit?limit=500").await;
    let again = send(&farm.ana, &entries).await;
    assert_eq!(outcomes(&again), ["already_stored"; 8]);
    assert_eq!(farm.ana.read("/audit?limit=500").await, trail, "nothing was written");
    // Twice in one batch: stored once.
    let fill = entry("fill", &farm.unit, 120, fill("2027-03-31T08:00:00Z", &farm.wheat));
    assert_eq!(outcomes(&send(&farm.ana, &[fill.clone(), fill]).await), ["stored", "already_stored"]);
}

async fn other_content_under_the_same_id_is_refused(world: World) {
    let farm = Farm::new(&world).await;
    let first = entry("fill", &farm.unit, 101, fill("2027-03-22T08:00:00Z", &farm.wheat));
    let other = entry("fill", &farm.unit, 101, fill("2027-03-22T08:00:00Z", &farm.rape));
    assert_eq!(outcomes(&send(&farm.ana, &[first]).await), ["stored"]);
    let results = send(&farm.ana, &[other]).await;
    assert_eq!(outcomes(&results), ["refused"]);
    assert_eq!(results[0]["problem"]["status"], 409);
    assert_eq!(results[0]["problem"]["type"], "/problems/conflict");
    assert_eq!(farm.ana.read(&format!("/metering-units/{}/fills", farm.unit)).await["items"][0]["lot_id"], farm.wheat);
}

/// What is wrong with an entry, and the status and a pointer of its problem.
fn bad_entries(farm: &Farm) -> Vec<(Value, u16, &'static str)> {
    let (logged, at) = (fill, "2027-03-22T08:00:00Z");
    let fill = || logged(at, &farm.wheat);
    let nowhere = id(9999);
    let mut without_id = entry("fill", &farm.unit, 0, fill());
    without_id["record"].as_object_mut().unwrap().remove("id");
    let mut no_id = entry("fill", &farm.unit, 0, fill());
    no_id["record"]["id"] = json!("first fill");
    let mut id_is_a_number = entry("fill", &farm.unit, 0, fill());
    id_is_a_number["record"]["id"] = json!(7);
    let mut more = entry("fill", &farm.unit, 201, fill());
    more["colour"] = json!("red");
    let mut more_in_record = entry("fill", &farm.unit, 202, fill());
    more_in_record["record"]["colour"] = json!("red");
    vec![
        (json!(null), 422, ""),
        (json!("a fill"), 422, ""),
        (json!([]), 422, ""),
        (json!({}), 422, "/kind"),
        (entry("sowing", &farm.unit, 203, fill()), 422, "/kind"),
        (json!({ "kind": 7, "parent_id": farm.unit, "record": {} }), 422, "/kind"),
        (json!({ "kind": "fill", "parent_id": farm.unit }), 422, "/record"),
        (json!({ "kind": "fill", "parent_id": farm.unit, "record": [] }), 422, "/record"),
        (json!({ "kind": "fill", "record": entry("fill", &farm.unit, 204, fill())["record"] }), 422, "/parent_id"),
        (entry("fill", "the left one", 205, fill()), 422, "/parent_id"),
        (without_id, 422, "/id"),
        (no_id, 422, "/id"),
        (id_is_a_number, 422, "/id"),
        (more, 422, "/colour"),
        (more_in_record, 422, "/colour"),
        (entry("fill", &nowhere, 206, fill()), 404, ""),
        // A seeder is no metering unit.
        (entry("fill", &farm.seeder, 207, fill()), 404, ""),
        (entry("service", &farm.unit, 208, service("2027-03-27T08:00:00Z", true)), 404, ""),
        (entry("fill", &farm.unit, 209, logged("yesterday", &farm.wheat)), 422, "/occurred_at"),
        (entry("fill", &farm.unit, 210, logged(at, &nowhere)), 404, "/lot_id"),
        (
            entry("calibration", &farm.unit, 211, catch("2020-03-28T08:00:00Z", &farm.wheat, None, AGREES)),
            422,
            "/occurred_at",
        ),
    ]
}

async fn a_bad_entry_stops_no_other(world: World) {
    let farm = Farm::new(&world).await;
    let bad = bad_entries(&farm);
    let mut entries = Vec::new();
    for (number, (bad, ..)) in (300..).zip(&bad) {
        entries.push(entry("fill", &farm.unit, number, fill("2027-03-22T08:00:00Z", &farm.wheat)));
        entries.push(bad.clone());
    }
    let results = send(&farm.ana, &entries).await;
    for (pair, (sent, status, pointer)) in results.chunks(2).zip(&bad) {
        assert_eq!(pair[0]["outcome"], "stored", "before {sent}: {}", pair[0]);
        assert_eq!(pair[1]["outcome"], "refused", "{sent}");
        assert_eq!(pair[1]["problem"]["status"], json!(status), "{sent}: {}", pair[1]);
        assert!(pair[1]["problem"]["title"].as_str().is_some_and(|title| !title.is_empty()), "{sent}");
        if !pointer.is_empty() {
            assert!(pointers(&pair[1]).contains(pointer), "{sent}: {}", pair[1]);
        }
        assert_eq!(pair[1]["id"], sent["record"]["id"].as_str().map_or(Value::Null, Value::from), "{sent}");
    }
}

async fn every_fault_of_an_entry_is_told(world: World) {
    let farm = Farm::new(&world).await;
    let record = json!({ "lot_id": "W-16", "occurred_at": "soon", "mass": { "value": "-1", "unit": "kg" } });
    let results = send(&farm.ana, &[json!({ "kind": "fill", "parent_id": "left", "record": record })]).await;
    let mut found = pointers(&results[0]);
    found.sort_unstable();
    assert_eq!(found, ["/id", "/lot_id", "/mass", "/occurred_at", "/parent_id"], "{}", results[0]);
}

async fn a_broken_transaction_stops_no_other(world: World) {
    let farm = Farm::new(&world).await;
    let mut tx = world.app.db.begin().await.unwrap();
    tx.cx().execute("alter table emptying rename to emptied", &[]).await.unwrap();
    tx.commit().await.unwrap();
    let entries = one_of_each(&farm);
    let results = send(&farm.ana, &entries).await;
    let broken: Vec<&str> = results
        .iter()
        .zip(&entries)
        .filter(|(result, _)| result["outcome"] != "stored")
        .map(|(_, entry)| entry["kind"].as_str().unwrap())
        .collect();
    // The catch and the emptying itself need that table; the others have nothing to do with it.
    assert!(
        broken.contains(&"emptying") && broken.iter().all(|kind| ["emptying", "calibration"].contains(kind)),
        "{broken:?}"
    );
    assert_eq!(results[2]["problem"]["status"], 500);
    assert_eq!(results[2]["problem"]["detail"], "Nothing was stored. The server's log says more.");
    let mut tx = world.app.db.begin().await.unwrap();
    tx.cx().execute("alter table emptied rename to emptying", &[]).await.unwrap();
    tx.commit().await.unwrap();
    let again = send(&farm.ana, &entries).await;
    assert!(outcomes(&again).iter().all(|outcome| *outcome != "refused"), "{again:?}");
}

async fn what_is_no_list_of_entries_is_refused_as_a_whole(world: World) {
    let farm = Farm::new(&world).await;
    let good = entry("fill", &farm.unit, 101, fill("2027-03-22T08:00:00Z", &farm.wheat));
    for (body, pointer) in [
        (json!({}), "/entries"),
        (json!({ "entries": null }), "/entries"),
        (json!({ "entries": good }), "/entries"),
        (json!({ "entries": vec![good.clone(); 201] }), "/entries"),
        (json!([good]), ""),
        (json!(null), ""),
    ] {
        farm.ana.post("/sync", body).await.refused(422, &[pointer]);
    }
    farm.ana.post_text("/sync", "entries=1").await.refused(400, &[]);
    farm.ana.post_text("/sync", vec![0xff, 0xfe]).await.refused(400, &[]);
    farm.ana.post_text("/sync", vec![b' '; 4 * 1024 * 1024 + 1]).await.refused(413, &[]);
    world.nobody().post("/sync", json!({ "entries": [] })).await.refused(401, &[]);
    assert_eq!(send(&farm.ana, &[]).await, Vec::<Value>::new());
    // What the phone says of itself keeps no entry out, however odd.
    let odd = json!({ "entries": [good], "sent_at": "1970-01-01", "device": { "name": "7" }, "version": 3 });
    let answer = farm.ana.post("/sync", odd).await.json();
    assert_eq!(answer["results"][0]["outcome"], "stored", "{answer}");
}

async fn a_crew_logs_for_its_seeders_alone(world: World) {
    let farm = Farm::new(&world).await;
    let (kim, lee) = (kim(&world, &farm).await, hand(&world, &farm.ana, "lee-sync@example.org", &[]).await);
    let entries = one_of_each(&farm);
    let results = send(&lee, &entries).await;
    for (result, sent) in results.iter().zip(&entries) {
        // Scales are everybody's; who may test lots is the role's matter.
        let (outcome, status) = match sent["kind"].as_str().unwrap() {
            "scale_check" => ("stored", Value::Null),
            "lot_test" => ("refused", json!(403)),
            _ => ("refused", json!(404)),
        };
        assert_eq!((&result["outcome"], &result["problem"]["status"]), (&json!(outcome), &status), "{sent}: {result}");
    }
    let results = send(&kim, &entries[..5]).await;
    assert_eq!(results[0]["problem"]["errors"][0]["pointer"], "/occurred_at", "no setup yet: {}", results[0]);
    assert_eq!(outcomes(&results), ["refused", "stored", "stored", "stored", "stored"]);
    let results = send(&kim, &entries).await;
    assert_eq!(
        outcomes(&results),
        [
            "stored",
            "already_stored",
            "already_stored",
            "already_stored",
            "already_stored",
            "already_stored",
            "refused",
            "stored"
        ]
    );
    let who = farm.ana.read(&format!("/calibrations/{}", id(101))).await["recorded_by"]["name"].clone();
    assert_eq!(who, "kim-sync");
}

async fn an_agronomist_tests_lots_and_logs_nothing_else(world: World) {
    let farm = Farm::new(&world).await;
    let mia = world.member(farm.ana.organization, "mia-sync@example.org", "agronomist").await;
    let results = send(&mia, &one_of_each(&farm)).await;
    let expected = ["refused", "refused", "refused", "refused", "refused", "refused", "stored", "refused"];
    assert_eq!(outcomes(&results), expected);
    assert!(
        results.iter().filter(|result| result["outcome"] == "refused").all(|result| result["problem"]["status"] == 403)
    );
}

async fn another_organizations_machine_is_not_there(world: World) {
    let farm = Farm::new(&world).await;
    let ben = world.ana().await;
    let results = send(&ben, &one_of_each(&farm)).await;
    assert_eq!(outcomes(&results), ["refused"; 8]);
    for result in &results {
        assert_eq!(
            (&result["problem"]["status"], &result["problem"]["type"]),
            (&json!(404), &json!("/problems/not-there"))
        );
    }
    assert_eq!(outcomes(&send(&farm.ana, &one_of_each(&farm)).await), ["stored"; 8], "nothing of it was taken");
}

async fn a_browser_sends_with_its_session(world: World) {
    let farm = Farm::new(&world).await;
    let kim = kim(&world, &farm).await;
    let session = Browser::of(&world, &kim, Role::Crew).await.session.unwrap();
    let body = json!({ "entries": [entry("fill", &farm.unit, 101, fill("2027-03-22T08:00:00Z", &farm.wheat))] });
    let request = |site: &str| {
        Request::builder()
            .method(Method::POST)
            .uri("/api/v1/sync")
            .header(header::HOST, "sowmark.test")
            .header("sec-fetch-site", site)
            .header(header::COOKIE, session.clone())
            .header(header::CONTENT_TYPE, "application/json")
            .body(Body::from(body.to_string()))
            .unwrap()
    };
    assert_eq!(world.request(request("cross-site")).await.status.as_u16(), 403);
    let answer = world.request(request("same-origin")).await;
    assert_eq!(answer.json()["results"][0]["outcome"], "stored", "{}", answer.text);
}

async fn each_stored_entry_has_its_line_in_the_trail(world: World) {
    let farm = Farm::new(&world).await;
    let before = farm.ana.read("/audit?limit=500").await["items"].as_array().unwrap().len();
    send(&farm.ana, &one_of_each(&farm)).await;
    let items = farm.ana.read("/audit?limit=500").await["items"].as_array().unwrap().clone();
    let mut kinds: Vec<&str> = items[before..].iter().map(|line| line["subject"]["kind"].as_str().unwrap()).collect();
    assert!(items[before..].iter().all(|line| line["action"] == "created"), "{items:?}");
    kinds.sort_unstable();
    assert_eq!(kinds, ["calibration", "emptying", "fill", "job", "lot_test", "scale_check", "service", "setup"]);
}

/// When the database does not answer, nobody has anything to mend: nothing is refused.
#[tokio::test]
async fn a_database_that_is_away_refuses_nothing() {
    let world = World::on_sqlite().await;
    let farm = Farm::new(&world).await;
    let Db::Sqlite { write, .. } = &world.app.db else { panic!("this is SQLite") };
    write.close().await;
    // A session or token is touched once in a while; not at once after it was made.
    let answer = farm.ana.post("/sync", json!({ "entries": one_of_each(&farm) })).await;
    answer.refused(503, &[]);
    assert_eq!(answer.headers[header::RETRY_AFTER], "5");
    assert_eq!(farm.ana.read("/refused").await["items"], json!([]));
}
