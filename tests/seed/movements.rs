//! Movements change a lot's stock; the crew does not see them.

use super::{ids, kg, lot};
use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(
    a_movement_is_kept_as_it_was_entered,
    a_movement_of_nothing_is_refused_and_a_count_is_not,
    the_crew_sees_no_movements
);

async fn a_movement_is_kept_as_it_was_entered(world: World) {
    let ana = world.ana().await;
    let path = format!("/lots/{}/movements", lot(&ana, "A", json!({})).await);
    let sent = json!({
        "id": "0196d2a0-0000-7000-8000-000000000003", "occurred_at": "2027-03-02T10:00:00+01:00", "kind": "sold",
        "mass": { "value": "1.50", "unit": "t" }, "note": "to the neighbour"
    });
    let movement = ana.create(&path, sent.clone()).await;
    assert_eq!(movement["kind"], "sold");
    assert_eq!(movement["mass"], json!({ "value": "1.50", "unit": "t" }));
    assert_eq!(movement["note"], "to the neighbour");
    let again = ana.post(&path, sent).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, movement));
}

async fn a_movement_of_nothing_is_refused_and_a_count_is_not(world: World) {
    let ana = world.ana().await;
    let path = format!("/lots/{}/movements", lot(&ana, "A", json!({})).await);
    let nothing = json!({ "occurred_at": "2027-03-02T10:00:00Z", "kind": "discarded", "mass": kg("0") });
    ana.post(&path, nothing).await.refused(422, &["/mass"]);
    let count = json!({ "occurred_at": "2027-03-02T10:00:00Z", "kind": "counted", "mass": kg("0") });
    ana.create(&path, count).await;
    let bad = json!({ "occurred_at": "1926-03-02T10:00:00Z", "kind": "lost", "mass": kg("-1") });
    ana.post(&path, bad).await.refused(422, &["/occurred_at", "/kind", "/mass"]);
}

async fn the_crew_sees_no_movements(world: World) {
    let ana = world.ana().await;
    let cem = super::hand(&world, &ana, "cem@example.org", &[]).await;
    let ada = world.member(ana.organization, "ada@example.org", "agronomist").await;
    let path = format!("/lots/{}/movements", lot(&ana, "A", json!({})).await);
    let sent = json!({ "occurred_at": "2027-03-02T10:00:00Z", "kind": "received", "mass": kg("400") });
    let made = ana.create(&path, sent.clone()).await;
    cem.get(&path).await.refused(403, &[]);
    cem.post(&path, sent.clone()).await.refused(403, &[]);
    ada.post(&path, sent).await.refused(403, &[]);
    assert_eq!(ids(&ada.read(&path).await), [super::id(&made)]);
}
