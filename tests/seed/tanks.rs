//! Fills and emptyings of a metering unit's tank.

use super::{NOBODYS, drill, ids, kg, lot};
use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(
    a_fill_need_not_be_weighed,
    an_emptying_is_to_empty_unless_told,
    foreign_lots_and_units_are_not_there,
    a_fill_that_is_repeated_changes_nothing,
);

async fn a_fill_need_not_be_weighed(world: World) {
    let ana = world.ana().await;
    let (drill, lot) = (drill(&world, &ana, "Drill").await, lot(&ana, "A", json!({})).await);
    let path = drill.path("fills");
    let weighed = json!({ "occurred_at": "2027-04-05T18:05:00+02:00", "lot_id": lot, "mass": { "lb": 1807, "oz": 4 } });
    let weighed = ana.create(&path, weighed).await;
    assert_eq!(weighed["mass"]["lb"], "1807");
    assert_eq!((&weighed["lot_id"], &weighed["metering_unit_id"]), (&json!(lot), &json!(drill.unit)));
    let not = ana.create(&path, json!({ "occurred_at": "2027-04-05T19:00:00Z", "lot_id": lot, "mass": null })).await;
    assert_eq!(not["mass"], json!(null));
    for mass in ["0", "-3"] {
        let bad = json!({ "occurred_at": "2027-04-05T19:00:00Z", "lot_id": lot, "mass": kg(mass) });
        ana.post(&path, bad).await.refused(422, &["/mass"]);
    }
    assert_eq!(ids(&ana.read(&path).await).len(), 2);
}

async fn an_emptying_is_to_empty_unless_told(world: World) {
    let ana = world.ana().await;
    let (drill, lot) = (drill(&world, &ana, "Drill").await, lot(&ana, "A", json!({})).await);
    let path = drill.path("emptyings");
    let plain = json!({ "occurred_at": "2027-04-05T18:05:00+02:00", "lot_id": lot, "mass": kg("12.5") });
    assert_eq!(ana.create(&path, plain).await["to_empty"], json!(true));
    let some = json!({ "occurred_at": "2027-04-05T18:05:00+02:00", "lot_id": lot, "to_empty": false });
    let some = ana.create(&path, some).await;
    assert_eq!((&some["to_empty"], &some["mass"]), (&json!(false), &json!(null)));
    let bad = json!({ "occurred_at": "2027-04-05T18:05:00+02:00", "lot_id": lot, "to_empty": "half" });
    ana.post(&path, bad).await.refused(422, &["/to_empty"]);
}

async fn foreign_lots_and_units_are_not_there(world: World) {
    let (ana, ben) = (world.ana().await, world.ana().await);
    let (drill_a, drill_b) = (drill(&world, &ana, "Ana\u{2019}s").await, drill(&world, &ben, "Ben\u{2019}s").await);
    let (lot_a, lot_b) = (lot(&ana, "A", json!({})).await, lot(&ben, "B", json!({})).await);
    for what in ["fills", "emptyings"] {
        for foreign in [lot_b.as_str(), NOBODYS] {
            let sent = json!({ "occurred_at": "2027-04-05T18:05:00Z", "lot_id": foreign });
            ana.post(&drill_a.path(what), sent).await.refused(404, &["/lot_id"]);
        }
        let sent = json!({ "occurred_at": "2027-04-05T18:05:00Z", "lot_id": lot_a });
        ana.post(&drill_b.path(what), sent.clone()).await.refused(404, &[]);
        ana.post(&format!("/metering-units/{NOBODYS}/{what}"), sent).await.refused(404, &[]);
        ana.get(&drill_b.path(what)).await.refused(404, &[]);
    }
}

async fn a_fill_that_is_repeated_changes_nothing(world: World) {
    let ana = world.ana().await;
    let (first, second) = (drill(&world, &ana, "First").await, drill(&world, &ana, "Second").await);
    let lot = lot(&ana, "A", json!({})).await;
    let sent = json!({ "id": "0196d2a0-0000-7000-8000-000000000004", "occurred_at": "2027-04-05T18:05:00Z", "lot_id": lot, "mass": kg("800") });
    let fill = ana.create(&first.path("fills"), sent.clone()).await;
    let again = ana.post(&first.path("fills"), sent.clone()).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, fill));
    ana.post(&second.path("fills"), sent.clone()).await.refused(409, &[]);
    ana.post(&first.path("emptyings"), sent).await.refused(409, &[]);
    assert_eq!(ids(&ana.read(&second.path("fills")).await), Vec::<String>::new());
}
