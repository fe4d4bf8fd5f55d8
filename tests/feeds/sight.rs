//! A feed shows what its owner would see: a crew its seeders, a client's agronomist the units with the client's seed.

use super::{events, fetched, made};
use crate::on_both;
use crate::people::browser::Browser;
use crate::readiness::farm::{Farm, fill, id, setup};
use crate::seed::{drill, hand};
use crate::world::World;
use serde_json::json;
use sowmark::access::Role;

on_both!(a_crew_reads_of_its_seeders, a_clients_agronomist_reads_of_the_clients_seed, an_office_reads_of_its_own);

async fn a_crew_reads_of_its_seeders(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let other = drill(&world, &farm.ana, "Drill 2").await;
    let ben = hand(&world, &farm.ana, "ben-feeds@example.org", &[&other]).await;
    let mut browser = Browser::of(&world, &ben, Role::Crew).await;
    let address = made(&world, &mut browser).await;
    let text = fetched(&world, &format!("{address}/due.ics")).await.text;
    assert!(!text.contains("Drill 1") && !text.contains("Yard scale"), "{text}");
    assert!(!browser.get(&world, "/notices").await.text.contains("Drill 1"));
    // The office sees both; what a crew reads changes with what it is given, at once.
    let mut office = Browser::of(&world, &farm.ana, Role::Office).await;
    let page = office.get(&world, "/notices").await.text;
    assert!(page.contains("Drill 1, front tank: Roller changed"), "{page}");
}

async fn a_clients_agronomist_reads_of_the_clients_seed(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let client = farm.ana.create("/clients", json!({ "name": "Hollerhof" })).await["id"].as_str().unwrap().to_owned();
    let lot = json!({ "id": id(600), "lot_number": "H-1", "crop": "wheat", "client_id": client });
    farm.ana.create("/lots", lot).await;
    let mia = world.member_for(farm.ana.organization, "mia-feeds@example.org", "agronomist", &[&client]).await;
    let mut browser = Browser::of(&world, &mia, Role::Agronomist).await;
    let address = made(&world, &mut browser).await;
    assert!(events(&fetched(&world, &format!("{address}/due.ics")).await.text).is_empty());
    farm.log("fills", fill("2027-03-30T08:00:00Z", &id(600))).await;
    let seen = events(&fetched(&world, &format!("{address}/due.ics")).await.text);
    assert_eq!(seen.keys().collect::<Vec<_>>(), ["Drill 1, front tank: Lot changed"]);
    let event = &seen["Drill 1, front tank: Lot changed"];
    assert!(event["DESCRIPTION"].contains("H-1") && !event["DESCRIPTION"].contains("W-16"), "{event:?}");
    // The office reads the client's part at its own address; a crew's other client, or none, is not there.
    let mut office = Browser::of(&world, &farm.ana, Role::Office).await;
    let whole = made(&world, &mut office).await;
    let part = fetched(&world, &format!("{whole}/due.ics?client_id={client}")).await;
    assert_eq!(events(&part.text).keys().collect::<Vec<_>>(), ["Drill 1, front tank: Lot changed"]);
    let other = farm.ana.create("/clients", json!({ "name": "Mill Farm" })).await["id"].as_str().unwrap().to_owned();
    let none = fetched(&world, &format!("{whole}/due.ics?client_id={other}")).await;
    assert!(none.status == 200 && events(&none.text).is_empty(), "{}", none.text);
    for wrong in [
        format!("{address}/due.ics?client_id={other}"),
        format!("{whole}/due.atom?client_id=mine"),
        format!("{whole}/due.ics?client_id={}", id(999)),
    ] {
        assert_eq!(fetched(&world, &wrong).await.status, 404, "{wrong}");
    }
}

async fn an_office_reads_of_its_own(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let mut eve = Browser::of(&world, &world.ana().await, Role::Office).await;
    let address = made(&world, &mut eve).await;
    assert!(events(&fetched(&world, &format!("{address}/due.ics")).await.text).is_empty());
}
