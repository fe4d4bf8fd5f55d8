//! An organization goes to another server and is the same there: over the demonstration, which has every kind of record,
//! and between the databases.

use crate::demo::{DAY, made, one};
use crate::on_both;
use crate::readiness::farm::Farm;
use crate::world::World;
use axum::http::StatusCode;
use serde_json::{Value, json};
use sowmark::access::Role;
use sowmark::exchange::whole::export::Export;
use sowmark::exchange::whole::tables::TABLES;
use sowmark::exchange::whole::{Imported, Refused, import};
use sowmark_core::ids::OrganizationId;
use std::collections::BTreeSet;

on_both!(only_the_office_takes_everything_along, who_has_an_account_keeps_it, people_set_a_password_there);

/// What is exported, as one text.
pub async fn exported(world: &World, organization: OrganizationId) -> String {
    let (pieces, mut received) = tokio::sync::mpsc::channel(2);
    let export = Export::begin(&world.app.db, organization, pieces).await.unwrap();
    let sent = tokio::spawn(export.send(world.app.clock.now()));
    let mut text = Vec::new();
    while let Some(piece) = received.recv().await {
        text.extend_from_slice(&piece.unwrap());
    }
    sent.await.unwrap();
    String::from_utf8(text).unwrap()
}

pub async fn imported(world: &World, file: &str) -> Result<Imported, Refused> {
    import(&world.app.db, &world.app.clock, &mut file.as_bytes()).await
}

/// All but the head, which is the stamp.
pub fn rows(file: &str) -> &str {
    file.split_once('\n').unwrap().1
}

/// The demonstration, with what it has not: something sent under an id that stands for something else, a signed audit,
/// and a machine's task data.
async fn demonstration(world: &World) -> OrganizationId {
    let made = made(world, DAY).await;
    let office = one(world, &made, Role::Office).await;
    let id = "0196d2a0-0000-7000-8000-00000000c0f1";
    office.create("/rollers", json!({ "id": id, "label": "spare", "kind": "fluted" })).await;
    let other = office.post("/rollers", json!({ "id": id, "label": "another", "kind": "belt" })).await;
    assert_eq!(other.status, StatusCode::CONFLICT);
    let agronomist = one(world, &made, Role::Agronomist).await;
    agronomist.create("/usage/signatures", json!({ "of": {}, "remark": "seen" })).await;
    let yard = super::Yard::of(world, office).await;
    yard.match_all().await;
    assert_eq!(yard.import(super::EXAMPLE, "").await["stored"], 2);
    made.organization
}

#[tokio::test]
async fn the_demonstration_goes_round_all_databases_and_stays_the_same() {
    let first = World::on_sqlite().await;
    let organization = demonstration(&first).await;
    let file = exported(&first, organization).await;
    let tables: BTreeSet<String> = rows(&file)
        .lines()
        .filter_map(|line| serde_json::from_str::<Value>(line).unwrap()["table"].as_str().map(ToOwned::to_owned))
        .collect();
    let all: BTreeSet<String> = TABLES.iter().map(|table| table.name.to_owned()).collect();
    assert_eq!(tables, all, "every table has a row in this test");

    let mut file = file;
    let servers = [World::on_sqlite().await, World::on_postgres().await, World::on_sqlite().await];
    for (day, next) in (1..).zip(servers) {
        let taken = imported(&next, &file).await.unwrap_or_else(|refused| panic!("{refused}"));
        assert_eq!((taken.organization, taken.rows), (organization, rows(&file).lines().count() as u64 - 1));
        next.app.clock.set(format!("2027-05-0{day}T00:00:00Z").parse().unwrap());
        let again = exported(&next, organization).await;
        assert!(rows(&again) == rows(&file), "written again it is the same");
        assert_ne!(again, file, "but for the stamp");
        file = again;
    }
}

#[tokio::test]
async fn the_board_and_the_usage_say_the_same_there() {
    let here = World::on_postgres().await;
    let made = made(&here, DAY).await;
    let there = World::on_sqlite().await;
    imported(&there, &exported(&here, made.organization).await).await.unwrap();
    let now = here.app.clock.now();
    there.app.clock.set(now);
    let (before, after) = (one(&here, &made, Role::Office).await, one(&there, &made, Role::Office).await);
    for path in ["/readiness", "/usage", "/policy", "/lots?limit=500", "/refused?limit=500", "/crews?limit=500"] {
        assert_eq!(before.read(path).await, after.read(path).await, "{path}");
    }
}

async fn only_the_office_takes_everything_along(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let answer = farm.ana.get("/export").await;
    assert_eq!(answer.status, StatusCode::OK);
    assert_eq!(answer.headers["content-type"], "application/x-ndjson");
    assert_eq!(rows(&answer.text), rows(&exported(&world, farm.ana.organization).await));
    assert!(!answer.text.contains("password") && !answer.text.contains("token_hash"), "no way in");
    for role in ["crew", "agronomist"] {
        let other = world.member(farm.ana.organization, &format!("{role}@example.org"), role).await;
        for path in ["/export", "/page/exchange/whole"] {
            assert_eq!(other.get(path).await.status, StatusCode::FORBIDDEN, "{role} {path}");
        }
        let trail = other.get("/page/audit").await;
        assert!(!trail.text.contains("/exchange/whole"), "{role}");
    }
    assert!(farm.ana.get("/page/exchange").await.text.contains("href=\"/exchange/whole\""));
    let page = farm.ana.get("/page/exchange/whole").await;
    assert_eq!(page.status, StatusCode::OK);
    assert!(page.text.contains("href=\"/api/v1/export\""), "{}", page.text);
}

async fn who_has_an_account_keeps_it(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let file = exported(&world, farm.ana.organization).await;
    let email = file.lines().find_map(|line| {
        let line: Value = serde_json::from_str(line).unwrap();
        (line["table"] == "account").then(|| line["row"]["email"].as_str().unwrap().to_owned())
    });
    let email = email.unwrap();
    // The same person came with another organization before.
    let there = World::on_sqlite().await;
    let first = imported(&there, &file).await.unwrap();
    assert_eq!(first.links.len(), 1);
    let second = world.organization("Hollerbach", "UTC").await;
    world.member(second, &email, "office").await;
    imported(&there, &exported(&world, second).await).await.unwrap();
    // Somebody else has the address.
    let elsewhere = World::on_sqlite().await;
    let other = elsewhere.organization("Elsewhere", "UTC").await;
    elsewhere.member(other, &email, "office").await;
    let says = imported(&elsewhere, &file).await.unwrap_err().to_string();
    assert!(says.contains("/row/email") && says.contains("under another id"), "{says}");
}

async fn people_set_a_password_there(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let file = exported(&world, farm.ana.organization).await;
    let there = World::on_postgres().await;
    let taken = imported(&there, &file).await.unwrap();
    let (email, code) = taken.links.first().unwrap();
    let set =
        there.nobody().submit(&format!("/page/set-password/{code}"), &[("password", "three slow tractors")]).await;
    assert_eq!(set.status, StatusCode::SEE_OTHER, "{}", set.text);
    let fields = [("email", email.as_str()), ("password", "three slow tractors")];
    let signed_in = there.nobody().submit("/page/sign-in", &fields).await;
    assert_eq!(signed_in.status, StatusCode::SEE_OTHER, "{}", signed_in.text);
    let again = imported(&there, &file).await.unwrap_err().to_string();
    assert!(again.contains("is on this server already") && again.contains("Birkenfeld"), "{again}");
}
