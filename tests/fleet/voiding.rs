//! Who may void or correct which record, and what a void leaves.

use super::yard::{Yard, service, setup};
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};

on_both!(
    a_void_is_told_once,
    the_crew_voids_its_own_of_the_same_day,
    the_same_day_is_one_of_the_organization,
    a_correction_follows_the_same_rule,
    what_is_no_record_cannot_be_voided,
    a_movement_is_not_there_for_the_crew,
);

fn void_of(record: &Value) -> String {
    format!("/records/{}/void", record["id"].as_str().unwrap())
}

async fn a_void_is_told_once(world: World) {
    let yard = Yard::new(&world).await;
    let record = yard.kim.create(&yard.at("services"), service()).await;
    let sent = json!({ "id": "0196d2a0-0000-7000-8000-00000000af01", "reason": "another seeder" });
    let void = yard.ana.create(&void_of(&record), sent.clone()).await;
    assert_eq!((&void["record_id"], &void["reason"]), (&record["id"], &json!("another seeder")));
    let again = yard.ana.post(&void_of(&record), sent).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, void));
    yard.ana.post(&void_of(&record), json!({ "reason": "once more" })).await.refused(409, &[]);

    let shown = &yard.ana.read(&yard.at("services")).await["items"][0];
    assert_eq!(
        (&shown["void"]["reason"], &shown["void"]["by"]["id"]),
        (&json!("another seeder"), &json!(yard.ana.account))
    );
    assert_eq!(shown["note"], record["note"]);
    let trail = yard.ana.read("/audit?limit=500").await;
    let line = trail["items"].as_array().unwrap().iter().find(|line| line["action"] == "voided").unwrap();
    assert_eq!(line["subject"], json!({ "kind": "service", "id": record["id"] }));

    let other = yard.ana.create(&yard.at("services"), service()).await;
    for bad in [json!({}), json!({ "reason": "  " }), json!({ "reason": null })] {
        yard.ana.post(&void_of(&other), bad).await.refused(422, &["/reason"]);
    }
}

async fn the_crew_voids_its_own_of_the_same_day(world: World) {
    let yard = Yard::new(&world).await;
    let reason = json!({ "reason": "a slip" });
    let (kims, anas) = (
        yard.kim.create(&yard.at("services"), service()).await,
        yard.ana.create(&yard.front("setups"), setup(&yard.roller)).await,
    );
    yard.ole.post(&void_of(&kims), reason.clone()).await.refused(403, &[]);
    yard.kim.post(&void_of(&anas), reason.clone()).await.refused(403, &[]);
    yard.mia.post(&void_of(&kims), reason.clone()).await.refused(403, &[]);
    let elsewhere = yard.ana.create(&format!("/seeders/{}/services", yard.other), service()).await;
    yard.kim.post(&void_of(&elsewhere), reason.clone()).await.refused(404, &[]);
    world.ana().await.post(&void_of(&kims), reason.clone()).await.refused(404, &[]);
    yard.kim.create(&void_of(&kims), reason.clone()).await;

    let old = yard.kim.create(&yard.at("services"), service()).await;
    world.set_time("2027-04-02T06:00:00Z");
    yard.kim.post(&void_of(&old), reason.clone()).await.refused(403, &[]);
    yard.ana.create(&void_of(&old), reason).await;
}

/// 06:00 UTC on the first is 08:00 in Vienna; the local day ends at 22:00 UTC.
async fn the_same_day_is_one_of_the_organization(world: World) {
    let yard = Yard::new(&world).await;
    let (first, second) = (
        yard.kim.create(&yard.at("services"), service()).await,
        yard.kim.create(&yard.at("services"), service()).await,
    );
    world.set_time("2027-04-01T21:59:59Z");
    yard.kim.create(&void_of(&first), json!({ "reason": "a slip" })).await;
    world.set_time("2027-04-01T22:00:00Z");
    yard.kim.post(&void_of(&second), json!({ "reason": "a slip" })).await.refused(403, &[]);
}

async fn a_correction_follows_the_same_rule(world: World) {
    let yard = Yard::new(&world).await;
    let correcting = |record: &Value| {
        let mut service = service();
        service["corrects"] = record["id"].clone();
        service["component"] = json!("fan");
        service
    };
    let anas = yard.ana.create(&yard.at("services"), service()).await;
    yard.kim.post(&yard.at("services"), correcting(&anas)).await.refused(403, &[]);
    let kims = yard.kim.create(&yard.at("services"), service()).await;
    yard.ole.post(&yard.at("services"), correcting(&kims)).await.refused(403, &[]);
    let mended = yard.kim.create(&yard.at("services"), correcting(&kims)).await;
    assert_eq!(mended["corrects"], kims["id"]);
    // It stands no longer, so there is nothing to correct.
    yard.kim.post(&yard.at("services"), correcting(&kims)).await.refused(404, &["/corrects"]);
    let setup_of_it = yard.ana.create(&yard.front("setups"), setup(&yard.roller)).await;
    yard.ana.post(&yard.at("services"), correcting(&setup_of_it)).await.refused(404, &["/corrects"]);

    world.set_time("2027-04-02T06:00:00Z");
    yard.kim.post(&yard.at("services"), correcting(&mended)).await.refused(403, &[]);
    yard.ana.create(&yard.at("services"), correcting(&mended)).await;
}

async fn what_is_no_record_cannot_be_voided(world: World) {
    let yard = Yard::new(&world).await;
    let record = yard.ana.create(&yard.at("services"), service()).await;
    let void = yard.ana.create(&void_of(&record), json!({ "reason": "a slip" })).await;
    yard.ana.post(&void_of(&void), json!({ "reason": "back again" })).await.refused(404, &[]);
    for id in [&yard.drill, &yard.units[0], &yard.roller] {
        yard.ana.post(&format!("/records/{id}/void"), json!({ "reason": "sold" })).await.refused(404, &[]);
    }
    let nothing = "/records/0196d2a0-0000-7000-8000-00000000afff/void";
    yard.ana.post(nothing, json!({ "reason": "lost" })).await.refused(404, &[]);
    yard.ana.post("/records/7/void", json!({ "reason": "lost" })).await.refused(404, &[]);
}

async fn a_movement_is_not_there_for_the_crew(world: World) {
    let yard = Yard::new(&world).await;
    let lot = yard.ana.create("/lots", json!({ "lot_number": "W-16", "crop": "wheat" })).await;
    let path = format!("/lots/{}/movements", lot["id"].as_str().unwrap());
    let movement =
        json!({ "occurred_at": "2027-03-31T07:00:00Z", "kind": "received", "mass": { "value": "1", "unit": "t" } });
    let movement = yard.ana.create(&path, movement).await;
    yard.kim.post(&void_of(&movement), json!({ "reason": "a slip" })).await.refused(404, &[]);
    yard.ana.create(&void_of(&movement), json!({ "reason": "a slip" })).await;
}
