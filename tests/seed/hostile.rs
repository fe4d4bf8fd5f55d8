//! What somebody might send in bad faith or by a slip of the hand.

use super::{drill, id, job, lot, wheat};
use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(text_is_text, what_is_too_long_is_refused, numbers_that_are_none_are_refused);

const SCRIPT: &str = "<script>alert('seed')</script>";
const DROP: &str = "'; drop table lot; --";

async fn text_is_text(world: World) {
    let ana = world.ana().await;
    let more = json!({ "crop": DROP, "variety": SCRIPT, "treatment": { "product": SCRIPT, "caution": SCRIPT } });
    let made = ana.create("/lots", wheat(SCRIPT, &more)).await;
    assert_eq!((&made["lot_number"], &made["crop"]), (&json!(SCRIPT), &json!(DROP)), "kept as it was sent");
    ana.create("/clients", json!({ "name": SCRIPT })).await;
    ana.create("/fields", json!({ "name": SCRIPT, "area": { "value": "1", "unit": "ha" } })).await;
    let drill = drill(&world, &ana, SCRIPT).await;
    ana.create(&drill.path("jobs"), job(&id(&made), &json!({ "field": SCRIPT, "note": DROP }))).await;
    let lot_page = format!("/page/lots/{}", id(&made));
    let job_page = format!("/page{}", drill.path("jobs/new"));
    let fill_page = format!("/page{}", drill.path("fills/new"));
    for page in ["/page/lots", &lot_page, &job_page, &fill_page, "/page/clients", "/page/fields", "/page/lots/new"] {
        let answer = ana.get(page).await;
        assert_eq!(answer.status, 200, "{page}: {}", answer.text);
        assert!(!answer.text.contains("<script>alert"), "{page} is not escaped");
    }
    assert!(ana.get("/page/lots").await.text.contains("drop table lot"));
}

async fn what_is_too_long_is_refused(world: World) {
    let ana = world.ana().await;
    let long = "x".repeat(100_000);
    ana.post("/lots", wheat(&long, &json!({ "variety": long }))).await.refused(422, &["/lot_number", "/variety"]);
    ana.post("/clients", json!({ "name": long })).await.refused(422, &["/name"]);
    let (drill, lot) = (drill(&world, &ana, "Drill").await, lot(&ana, "A", json!({})).await);
    ana.post(&drill.path("jobs"), job(&lot, &json!({ "note": long }))).await.refused(422, &["/note"]);
    let answer = ana.submit("/page/lots", &[("lot_number", &long), ("crop", "wheat")]).await;
    assert_eq!(answer.status, 422);
    assert!(answer.text.contains(&long), "all that was typed is still there");
}

async fn numbers_that_are_none_are_refused(world: World) {
    let ana = world.ana().await;
    let (drill, lot) = (drill(&world, &ana, "Drill").await, lot(&ana, "A", json!({})).await);
    for value in ["NaN", "Infinity", "1e9", "1.234,5", "", "\u{0}"] {
        let mass = json!({ "value": value, "unit": "kg" });
        let fill = json!({ "occurred_at": "2027-04-05T18:05:00Z", "lot_id": lot, "mass": mass });
        ana.post(&drill.path("fills"), fill).await.refused(422, &["/mass/value"]);
    }
    let heavy = json!({ "occurred_at": "2027-04-05T18:05:00Z", "lot_id": lot, "mass": super::kg("99999999999") });
    ana.post(&drill.path("fills"), heavy).await.refused(422, &["/mass"]);
    let nul = wheat("A\u{0}B", &json!({}));
    ana.post("/lots", nul).await.refused(422, &["/lot_number"]);
}
