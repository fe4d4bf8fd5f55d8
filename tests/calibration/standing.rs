//! What becomes of a calibration: held, decided, held again, void.

use super::bench::{Bench, text};
use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(a_held_one_is_accepted_with_a_reason, a_decision_that_is_void_holds_it_again, a_void_one_is_void, a_correction_replaces_it);

async fn a_held_one_is_accepted_with_a_reason(world: World) {
    let bench = Bench::new(&world).await;
    let held = bench.ana.create(&bench.path(), bench.sheet(1)).await;
    assert_eq!((&held["status"], &held["result"]["verdict"]), (&json!("held"), &json!("fail")));
    let readiness = format!("/metering-units/{}/readiness?at=2027-04-01T06:00:00Z", bench.unit);
    assert_eq!(bench.ana.read(&readiness).await["factor"], json!(null));

    let path = format!("/calibrations/{}", text(&held["id"]));
    let decisions = format!("{path}/decisions");
    bench.ana.post(&decisions, json!({ "decision": "accepted", "reason": "" })).await.refused(422, &["/reason"]);
    bench.ana.post(&decisions, json!({ "decision": "perhaps" })).await.refused(422, &["/decision", "/reason"]);
    let decision = json!({ "id": "0196d2a0-0000-7000-8000-0000000000d1", "decision": "accepted", "reason": "caught with great care" });
    let accepted = bench.ana.create(&decisions, decision.clone()).await;
    assert_eq!(accepted["status"], "accepted");
    assert_eq!(accepted["decisions"][0]["reason"], "caught with great care");
    assert_eq!(accepted["result"], held["result"]);
    assert_eq!(bench.ana.read(&readiness).await["calibration_id"], held["id"]);

    let again = bench.ana.post(&decisions, decision).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, accepted));
    bench.ana.post(&decisions, json!({ "decision": "rejected", "reason": "no" })).await.refused(409, &[]);
}

async fn a_decision_that_is_void_holds_it_again(world: World) {
    let bench = Bench::new(&world).await;
    let held = bench.ana.create(&bench.path(), bench.sheet(1)).await;
    let decisions = format!("/calibrations/{}/decisions", text(&held["id"]));
    let rejected = bench.ana.create(&decisions, json!({ "decision": "rejected", "reason": "spilled" })).await;
    assert_eq!(rejected["status"], "rejected");
    void(&world, &bench, &text(&rejected["decisions"][0]["id"])).await;
    let again = bench.ana.read(&format!("/calibrations/{}", text(&held["id"]))).await;
    assert_eq!((&again["status"], &again["decisions"][0]["void"]["reason"]), (&json!("held"), &json!("typed wrongly")));
    let accepted = bench.ana.create(&decisions, json!({ "decision": "accepted", "reason": "it was another" })).await;
    assert_eq!((&accepted["status"], accepted["decisions"].as_array().unwrap().len()), (&json!("accepted"), 2));
}

async fn a_void_one_is_void(world: World) {
    let bench = Bench::new(&world).await;
    let record = bench.ana.create(&bench.path(), bench.sheet(2)).await;
    void(&world, &bench, &text(&record["id"])).await;
    let now = bench.ana.read(&format!("/calibrations/{}", text(&record["id"]))).await;
    assert_eq!((&now["status"], &now["void"]["reason"]), (&json!("void"), &json!("typed wrongly")));
    let decision = json!({ "decision": "accepted", "reason": "no" });
    bench.ana.post(&format!("/calibrations/{}/decisions", text(&record["id"])), decision).await.refused(409, &[]);
}

async fn a_correction_replaces_it(world: World) {
    let bench = Bench::new(&world).await;
    let wrong = bench.ana.create(&bench.path(), bench.sheet(2)).await;
    let mut right = bench.sheet(2);
    right["corrects"] = wrong["id"].clone();
    right["note"] = json!("another bag");
    let right = bench.ana.create(&bench.path(), right).await;
    assert_eq!((&right["corrects"], &right["status"]), (&wrong["id"], &json!("accepted")));
    // What was replaced leads nobody to expect anything.
    assert_eq!(right["circumstances"]["expected"], json!(null));
    let now = bench.ana.read(&format!("/calibrations/{}", text(&wrong["id"]))).await;
    assert_eq!((&now["status"], &now["replaced_by"]), (&json!("void"), &right["id"]));
}

/// Voids a record as the office would.
async fn void(world: &World, bench: &Bench, record: &str) {
    let answer = bench.ana.post(&format!("/records/{record}/void"), json!({ "reason": "typed wrongly" })).await;
    if answer.status != 404 {
        assert!(answer.status.is_success(), "{}", answer.text);
        return;
    }
    let (id, record): (uuid::Uuid, uuid::Uuid) = (world.app.clock.new_id().unwrap(), record.parse().unwrap());
    let organization = bench.ana.organization;
    let mut tx = world.app.db.begin().await.unwrap();
    let sql = "insert into entry (organization_id, id, kind, recorded_at, recorded_by, fingerprint) values ($1, $2, 'void', $3, $4, $5)";
    tx.cx().execute(sql, sowmark::args![organization, id, world.app.clock.now(), bench.ana.account, [0_u8; 32]]).await.unwrap();
    let sql = "insert into void (organization_id, id, record_id, reason) values ($1, $2, $3, 'typed wrongly')";
    tx.cx().execute(sql, sowmark::args![organization, id, record]).await.unwrap();
    tx.commit().await.unwrap();
}
