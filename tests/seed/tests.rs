//! A lot's tests: each measure is known by its latest test that stands.

use super::{NOBODYS, ids, lot};
use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(
    a_test_says_what_was_measured_and_by_whom,
    each_measure_is_known_by_its_latest_test,
    a_correction_takes_the_place_of_what_it_corrects,
    a_test_of_nothing_is_refused,
    an_agronomist_tests_and_a_hand_does_not,
);

async fn a_test_says_what_was_measured_and_by_whom(world: World) {
    let ana = world.ana().await;
    let path = format!("/lots/{}/tests", lot(&ana, "A", json!({})).await);
    let sent = json!({
        "id": "0196d2a0-0000-7000-8000-000000000002", "occurred_at": "2027-03-30T09:15:00+02:00",
        "thousand_seed_weight": { "value": "46.20", "unit": "g" }, "bulk_density": { "value": "61", "unit": "lb/bu" },
        "germination_percent": "93.5", "moisture_percent": 13.4
    });
    let test = ana.create(&path, sent.clone()).await;
    assert_eq!(test["occurred_at"], "2027-03-30T09:15:00+02:00", "the offset it was sent with stays");
    assert_eq!(test["recorded_at"], "2027-04-01T06:00:00Z");
    assert_eq!(test["recorded_by"]["id"], json!(ana.account.0));
    assert_eq!((&test["void"], &test["corrects"]), (&json!(null), &json!(null)));
    assert_eq!(test["thousand_seed_weight"], json!({ "value": "46.20", "unit": "g" }));
    assert_eq!(test["germination_percent"].to_string(), "93.5");
    assert_eq!(test["purity_percent"], json!(null));
    let again = ana.post(&path, sent.clone()).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, test));
    let elsewhere = format!("/lots/{}/tests", lot(&ana, "B", json!({})).await);
    ana.post(&elsewhere, sent).await.refused(409, &[]);
}

async fn each_measure_is_known_by_its_latest_test(world: World) {
    let ana = world.ana().await;
    let lot = lot(&ana, "A", json!({})).await;
    let path = format!("/lots/{lot}/tests");
    let late = json!({ "occurred_at": "2027-03-30T09:00:00Z", "bulk_density": { "value": "79.1", "unit": "kg/hL" } });
    let late = ana.create(&path, late).await;
    let early = json!({
        "occurred_at": "2027-03-01T09:00:00Z", "bulk_density": { "value": "77", "unit": "kg/hL" },
        "thousand_seed_weight": { "value": "46", "unit": "g" }
    });
    let early = ana.create(&path, early).await;
    let known = ana.read(&format!("/lots/{lot}")).await["latest_tests"].clone();
    assert_eq!(known["bulk_density"]["value"]["value"], "79.1");
    assert_eq!(known["bulk_density"]["lot_test_id"], late["id"]);
    assert_eq!(known["thousand_seed_weight"]["value"]["value"], "46");
    assert_eq!(known["thousand_seed_weight"]["lot_test_id"], early["id"]);
    assert_eq!(known["purity_percent"], json!(null));
}

async fn a_correction_takes_the_place_of_what_it_corrects(world: World) {
    let ana = world.ana().await;
    let lot = lot(&ana, "A", json!({})).await;
    let path = format!("/lots/{lot}/tests");
    let slip =
        json!({ "occurred_at": "2027-03-30T09:00:00Z", "thousand_seed_weight": { "value": "64.2", "unit": "g" } });
    let slip = ana.create(&path, slip).await;
    let mended = json!({
        "occurred_at": "2027-03-29T09:00:00Z", "thousand_seed_weight": { "value": "46.2", "unit": "g" },
        "corrects": slip["id"]
    });
    let mended = ana.create(&path, mended).await;
    assert_eq!(mended["corrects"], slip["id"]);
    let known = ana.read(&format!("/lots/{lot}")).await["latest_tests"].clone();
    assert_eq!(known["thousand_seed_weight"]["lot_test_id"], mended["id"]);
    let listed = ana.read(&path).await;
    let old = listed["items"].as_array().unwrap().iter().find(|item| item["id"] == slip["id"]).unwrap();
    assert_eq!(old["replaced_by"], mended["id"], "the old one stays readable");
}

async fn a_test_of_nothing_is_refused(world: World) {
    let ana = world.ana().await;
    let path = format!("/lots/{}/tests", lot(&ana, "A", json!({})).await);
    let empty = json!({ "occurred_at": "2027-03-30T09:00:00Z", "bulk_density": null });
    ana.post(&path, empty).await.refused(422, &[""]);
    let bad = json!({
        "occurred_at": "yesterday", "thousand_seed_weight": { "value": "0", "unit": "g" },
        "bulk_density": { "value": "79", "unit": "kg" }, "moisture_percent": -1
    });
    ana.post(&path, bad)
        .await
        .refused(422, &["/occurred_at", "/thousand_seed_weight", "/bulk_density/unit", "/moisture_percent"]);
    // 78 kg/hL, and a slip of the decimal sign.
    let light = json!({ "occurred_at": "2027-03-30T09:00:00Z", "bulk_density": { "value": "0.78", "unit": "kg/hL" } });
    ana.post(&path, light).await.refused(422, &["/bulk_density"]);
    let fine = json!({ "occurred_at": "2027-03-30T09:00:00Z", "moisture_percent": 13 });
    ana.post(&format!("/lots/{NOBODYS}/tests"), fine).await.refused(404, &[]);
    assert_eq!(ids(&ana.read(&path).await), Vec::<String>::new());
}

async fn an_agronomist_tests_and_a_hand_does_not(world: World) {
    let ana = world.ana().await;
    let ada = world.member(ana.organization, "ada@example.org", "agronomist").await;
    let cem = super::hand(&world, &ana, "cem@example.org", &[]).await;
    let path = format!("/lots/{}/tests", lot(&ana, "A", json!({})).await);
    let test = json!({ "occurred_at": "2027-03-30T09:00:00Z", "moisture_percent": 13 });
    let made = ada.create(&path, test.clone()).await;
    cem.post(&path, test).await.refused(403, &[]);
    assert_eq!(ids(&cem.read(&path).await), [super::id(&made)], "the crew reads what was measured");
}
