//! Another content under an id that stands: refused, and what was sent is kept.

use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(what_conflicts_is_refused_and_kept);

async fn what_conflicts_is_refused_and_kept(world: World) {
    let ana = world.ana().await;
    let id = "0196d2a0-0000-7000-8000-00000000000b";
    ana.create("/rollers", json!({ "id": id, "label": "fine", "kind": "fluted" })).await;
    ana.post("/rollers", json!({ "id": id, "label": "coarse", "kind": "fluted" })).await.refused(409, &[]);
    // Another kind of thing under the same id is other content too.
    ana.post("/clients", json!({ "id": id, "name": "Hollerhof" })).await.refused(409, &[]);
    let mut conn = world.app.db.read().await.unwrap();
    let kept: Vec<(String,)> =
        conn.cx().fetch_all("select sent from conflict order by sent_at, id", &[]).await.unwrap();
    assert_eq!(kept.len(), 2);
    assert!(kept.iter().any(|(sent,)| sent.contains("coarse")));
    // The same id in another organization is another thing, and says nothing of the first.
    let ben = world.ana().await;
    ben.create("/rollers", json!({ "id": id, "label": "belt", "kind": "belt" })).await;
}
