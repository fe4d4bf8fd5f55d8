//! Who is shown which card, and what of a season and of a seeder's book.

use super::{between, page};
use crate::on_both;
use crate::seed::{drill, hand, id, job, kg, lot};
use crate::world::World;
use serde_json::json;

on_both!(
    a_crew_has_the_cards_of_its_seeders,
    an_agronomist_has_the_clients_units,
    an_organization_has_its_own,
    a_crew_has_the_books_of_its_seeders,
    an_agronomist_has_the_clients_part_of_a_book,
    an_organization_has_its_own_books,
);

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

/// The season report and the book, as the cab card: a crew has its seeders.
async fn a_crew_has_the_books_of_its_seeders(world: World) {
    let ana = world.ana().await;
    let (own, other) = (drill(&world, &ana, "Drill 1").await, drill(&world, &ana, "Drill 2").await);
    let ben = hand(&world, &ana, "ben-books@example.org", &[&own]).await;
    let theirs = lot(&ana, "H-1", json!({})).await;
    let at = |at: &str| json!({ "occurred_at": at, "ended_at": null });
    ana.create(&own.path("jobs"), job(&theirs, &at("2027-03-20T08:00:00Z"))).await;
    ben.create(
        &own.path("jobs"),
        job(&theirs, &json!({ "occurred_at": "2027-03-21T08:00:00Z", "ended_at": null, "seed_used": kg("700") })),
    )
    .await;
    let choice = page(&ben, "/reports/seeder-book").await;
    assert!(choice.contains("Drill 1") && !choice.contains("Drill 2"), "{choice}");
    let book = page(&ben, &format!("/reports/seeder-book?seeder_id={}", own.seeder)).await;
    let tank = between(&book, "<h2>tank 1</h2>", "</section>");
    // Of the jobs their own; the drift of the machine is the agronomist's.
    assert!(tank.contains("700 kg") && !tank.contains("1410 kg") && !tank.contains("<figure"), "{tank}");
    let refused = ben.get(&format!("/page/reports/seeder-book?seeder_id={}", other.seeder)).await;
    assert!(refused.status == 422 && !refused.text.contains("Drill 2"), "{}", refused.text);
}

async fn an_agronomist_has_the_clients_part_of_a_book(world: World) {
    let ana = world.ana().await;
    let drill = drill(&world, &ana, "Drill 1").await;
    let mill = id(&ana.create("/clients", json!({ "name": "Mill Farm" })).await);
    let theirs = lot(&ana, "M-1", json!({ "client_id": mill })).await;
    let others = lot(&ana, "H-1", json!({})).await;
    let emptied = |at: &str, lot: &str| json!({ "occurred_at": at, "lot_id": lot, "to_empty": true });
    let sown = |at: &str, used: &str| json!({ "occurred_at": at, "ended_at": null, "seed_used": kg(used) });
    ana.create(&drill.path("jobs"), job(&theirs, &sown("2027-03-20T08:00:00Z", "1300"))).await;
    ana.create(&drill.path("emptyings"), emptied("2027-03-20T12:00:00Z", &theirs)).await;
    ana.create(&drill.path("jobs"), job(&others, &sown("2027-03-21T08:00:00Z", "1500"))).await;
    let gus = world.member_for(ana.organization, "gus-books@example.org", "agronomist", &[&mill]).await;
    for path in [format!("/reports/seeder-book?seeder_id={}", drill.seeder), "/reports/season".to_owned()] {
        let seen = page(&gus, &path).await;
        assert!(seen.contains("1300 kg") && !seen.contains("1500 kg") && !seen.contains("H-1"), "{path}: {seen}");
        let whole = page(&ana, &path).await;
        assert!(whole.contains("H-1") || whole.contains("2800 kg"), "{path}: {whole}");
    }
    // What is in the tank now is another's: neither its state nor a number is told.
    let book = page(&gus, &format!("/reports/seeder-book?seeder_id={}", drill.seeder)).await;
    let machine = between(&book, "id=\"machine\"", "</section>");
    assert!(!machine.contains("class=\"state") && machine.contains("<td>none</td>"), "{machine}");
}

async fn an_organization_has_its_own_books(world: World) {
    let (ana, eve) = (world.ana().await, world.ana().await);
    let drill = drill(&world, &ana, "Drill 1").await;
    assert!(!page(&eve, "/reports/season").await.contains("Drill 1"));
    let refused = eve.get(&format!("/page/reports/seeder-book?seeder_id={}", drill.seeder)).await;
    assert!(refused.status == 422 && !refused.text.contains("Drill 1"), "{}", refused.text);
    assert_eq!(world.nobody().get("/page/reports/season").await.status, 303);
}
