//! Jobs: one field, by name or by id; what was sown, and how that is known.

use super::{NOBODYS, drill, ids, job, kg, lot};
use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(
    a_job_says_what_was_sown_where,
    a_job_has_one_field,
    a_job_that_cannot_be_is_refused_with_every_fault,
    what_a_job_names_must_be_there,
);

async fn a_job_says_what_was_sown_where(world: World) {
    let ana = world.ana().await;
    let (drill, lot) = (drill(&world, &ana, "Drill").await, lot(&ana, "A", json!({})).await);
    let more = json!({
        "id": "0196d2a0-0000-7000-8000-000000000005", "speed": { "value": "9", "unit": "km/h" }, "note": "wet corner left out"
    });
    let sent = job(&lot, &more);
    let made = ana.create(&drill.path("jobs"), sent.clone()).await;
    assert_eq!(made["field"], "Long acre");
    assert_eq!(made["seed_used_basis"], "weighed");
    assert_eq!(made["ended_at"], "2027-04-06T12:30:00+02:00");
    assert_eq!(made["area"], json!({ "value": "10.0", "unit": "ha" }));
    assert_eq!(made["speed"], json!({ "value": "9", "unit": "km/h" }));
    assert_eq!(made["note"], "wet corner left out");
    let again = ana.post(&drill.path("jobs"), sent).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, made.clone()));
    let none = job(&lot, &json!({ "seed_used": kg("0"), "ended_at": null, "seed_used_basis": "machine_total" }));
    let none = ana.create(&drill.path("jobs"), none).await;
    assert_eq!((&none["ended_at"], &none["note"]), (&json!(null), &json!("")));
    assert_eq!(ids(&ana.read(&drill.path("jobs")).await).len(), 2);
}

async fn a_job_has_one_field(world: World) {
    let ana = world.ana().await;
    let (drill, lot) = (drill(&world, &ana, "Drill").await, lot(&ana, "A", json!({})).await);
    let field = ana.create("/fields", json!({ "name": "Kirchfeld", "area": { "value": "12", "unit": "ha" } })).await;
    let kept = job(&lot, &json!({ "field": null, "field_id": field["id"] }));
    let kept = ana.create(&drill.path("jobs"), kept).await;
    assert_eq!((&kept["field_id"], &kept["field"]), (&field["id"], &json!("Kirchfeld")));
    let both = job(&lot, &json!({ "field_id": field["id"] }));
    ana.post(&drill.path("jobs"), both).await.refused(422, &["/field"]);
    let neither = job(&lot, &json!({ "field": null }));
    ana.post(&drill.path("jobs"), neither).await.refused(422, &["/field_id"]);
}

async fn a_job_that_cannot_be_is_refused_with_every_fault(world: World) {
    let ana = world.ana().await;
    let (drill, lot) = (drill(&world, &ana, "Drill").await, lot(&ana, "A", json!({})).await);
    let bad = job(
        &lot,
        &json!({
            "area": { "value": "0", "unit": "ha" }, "seed_used": kg("-1"), "seed_used_basis": "guessed",
            "target_rate": { "value": "140", "unit": "kg" }, "speed": { "value": "900", "unit": "km/h" },
            "occurred_at": "1926-04-06T08:00:00Z"
        }),
    );
    ana.post(&drill.path("jobs"), bad)
        .await
        .refused(422, &["/area", "/seed_used", "/seed_used_basis", "/target_rate/unit", "/speed", "/occurred_at"]);
    let backwards = job(&lot, &json!({ "ended_at": "2027-04-06T05:59:59Z", "field": null }));
    ana.post(&drill.path("jobs"), backwards).await.refused(422, &["/ended_at", "/field_id"]);
    let all = json!({
        "ended_at": "2027-04-06T05:59:59Z", "field": null, "seed_used": kg("-3"),
        "target_rate": { "value": "180000", "unit": "kg/ha" }
    });
    let all = ana.post(&drill.path("jobs"), job(&lot, &all)).await;
    all.refused(422, &["/ended_at", "/field_id", "/seed_used", "/target_rate"]);
    assert_eq!(all.pointers().len(), 4, "{}", all.text);
    // A slip of the decimal sign: twenty tonnes a hectare.
    let heavy = job(&lot, &json!({ "seed_used": kg("200000"), "ended_at": "2027-04-06T05:59:59Z" }));
    ana.post(&drill.path("jobs"), heavy).await.refused(422, &["/ended_at", "/seed_used"]);
    let wanted = job(&lot, &json!({ "target_rate": { "value": "14000", "unit": "kg/ha" } }));
    ana.post(&drill.path("jobs"), wanted).await.refused(422, &["/target_rate"]);
    assert_eq!(ids(&ana.read(&drill.path("jobs")).await), Vec::<String>::new());
}

async fn what_a_job_names_must_be_there(world: World) {
    let (ana, ben) = (world.ana().await, world.ana().await);
    let (drill_a, drill_b) = (drill(&world, &ana, "Ana\u{2019}s").await, drill(&world, &ben, "Ben\u{2019}s").await);
    let (lot_a, lot_b) = (lot(&ana, "A", json!({})).await, lot(&ben, "B", json!({})).await);
    let field = ben.create("/fields", json!({ "name": "Ben\u{2019}s", "area": { "value": "12", "unit": "ha" } })).await;
    let field = super::id(&field);
    for foreign in [field.as_str(), NOBODYS] {
        let sent = job(&lot_a, &json!({ "field": null, "field_id": foreign }));
        ana.post(&drill_a.path("jobs"), sent).await.refused(404, &["/field_id"]);
    }
    ana.post(&drill_a.path("jobs"), job(&lot_b, &json!({}))).await.refused(404, &["/lot_id"]);
    ana.post(&drill_b.path("jobs"), job(&lot_a, &json!({}))).await.refused(404, &[]);
}
