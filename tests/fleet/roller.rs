//! Rollers are added once, listed in pages, and belong to one organization.

use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(a_roller_is_added_once, bad_rollers_are_refused_with_every_fault, another_organization_sees_nothing);

async fn a_roller_is_added_once(world: World) {
    let ana = world.ana().await;
    let id = "0196d2a0-0000-7000-8000-000000000001";
    let roller = json!({ "id": id, "label": "fine fluted", "kind": "fluted", "displacement_per_rev": { "value": "82.0", "unit": "cm3" } });
    let first = ana.create("/rollers", roller.clone()).await;
    assert_eq!(first["displacement_per_rev"], json!({ "value": "82.0", "unit": "cm3" }));

    let again = ana.post("/rollers", roller).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, first.clone()));

    let other = ana.post("/rollers", json!({ "id": id, "label": "coarse", "kind": "fluted" })).await;
    other.refused(409, &[]);
    assert_eq!(ana.read("/rollers").await["items"], json!([first]));
}

async fn bad_rollers_are_refused_with_every_fault(world: World) {
    let ana = world.ana().await;
    let bad = json!({ "label": "", "kind": "square", "displacement_per_rev": { "value": "NaN", "unit": "pt" }, "colour": "red" });
    let answer = ana.post("/rollers", bad).await;
    answer.refused(422, &["/label", "/kind", "/displacement_per_rev/value", "/displacement_per_rev/unit", "/colour"]);
    assert_eq!(ana.read("/rollers").await["items"], json!([]));
}

async fn another_organization_sees_nothing(world: World) {
    let (ana, ben) = (world.ana().await, world.ana().await);
    let roller = ana.create("/rollers", json!({ "label": "fine", "kind": "fluted" })).await;
    let path = format!("/rollers/{}", roller["id"].as_str().unwrap());
    assert_eq!(ana.get(&path).await.status, 200);
    ben.get(&path).await.refused(404, &[]);
}
