//! Who is shown which card.

use super::page;
use crate::on_both;
use crate::seed::{drill, hand, id, job, lot};
use crate::world::World;
use serde_json::json;

on_both!(a_crew_has_the_cards_of_its_seeders, an_agronomist_has_the_clients_units, an_organization_has_its_own);

async fn a_crew_has_the_cards_of_its_seeders(world: World) {
    let ana = world.ana().await;
    let (own, other) = (drill(&world, &ana, "Drill 1").await, drill(&world, &ana, "Drill 2").await);
    let ben = hand(&world, &ana, "ben-reports@example.org", &[&own]).await;
    for path in ["/reports", "/reports/cab-card"] {
        let seen = page(&ben, path).await;
        assert!(seen.contains("Drill 1") && !seen.contains("Drill 2"), "{seen}");
    }
    let refused = ben.get(&format!("/page/reports/cab-card?seeder_id={}", other.seeder)).await;
    assert!(refused.status == 422 && !refused.text.contains("Drill 2"), "{}", refused.text);
}

async fn an_agronomist_has_the_clients_units(world: World) {
    let ana = world.ana().await;
    let (first, second) = (drill(&world, &ana, "Drill 1").await, drill(&world, &ana, "Drill 2").await);
    let mill = id(&ana.create("/clients", json!({ "name": "Mill Farm" })).await);
    let theirs = lot(&ana, "M-1", json!({ "client_id": mill })).await;
    let others = lot(&ana, "H-1", json!({})).await;
    ana.create(&first.path("jobs"), job(&theirs, &json!({ "occurred_at": "2027-03-20T08:00:00Z", "ended_at": null })))
        .await;
    ana.create(&second.path("jobs"), job(&others, &json!({ "occurred_at": "2027-03-20T08:00:00Z", "ended_at": null })))
        .await;
    let gus = world.member_for(ana.organization, "gus-reports@example.org", "agronomist", &[&mill]).await;
    let seen = page(&gus, "/reports/cab-card").await;
    assert!(seen.contains("M-1") && !seen.contains("H-1"), "{seen}");
    assert_eq!(seen.matches("<section class=\"card-unit\">").count(), 1, "{seen}");
    assert!(page(&ana, "/reports/cab-card").await.contains("H-1"));
}

async fn an_organization_has_its_own(world: World) {
    let (ana, eve) = (world.ana().await, world.ana().await);
    let drill = drill(&world, &ana, "Drill 1").await;
    assert!(!page(&eve, "/reports/cab-card").await.contains("Drill 1"));
    let refused = eve.get(&format!("/page/reports/cab-card?seeder_id={}", drill.seeder)).await;
    assert_eq!(refused.status, 422, "{}", refused.text);
    assert_eq!(world.nobody().get("/page/reports").await.status, 303);
}
