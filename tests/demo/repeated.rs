//! The same date makes the same records; another date makes the same fleet on another day.

use super::{DAY, all, id, made, one};
use crate::on_both;
use crate::world::World;
use jiff::civil::{Date, date};
use serde_json::Value;
use sowmark::access::Role;
use std::collections::BTreeMap;

on_both!(the_same_date_makes_the_same_records);

/// What stands in a database made for a day.
async fn told(world: &World, day: Date) -> BTreeMap<String, Value> {
    let made = made(world, day).await;
    let office = one(world, &made, Role::Office).await;
    let mut told = BTreeMap::new();
    for path in ["/readiness", "/policy", "/me"] {
        told.insert(path.to_owned(), office.read(path).await);
    }
    for list in [
        "/seeders", "/lots", "/rollers", "/scales", "/seasons", "/clients", "/fields", "/crews", "/members", "/refused",
    ] {
        told.insert(list.to_owned(), Value::Array(all(&office, list).await));
    }
    let paths: Vec<String> = told["/seeders"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|seeder| seeder["metering_units"].as_array().unwrap())
        .flat_map(|unit| {
            ["calibrations", "jobs", "fills", "emptyings"].map(|kind| format!("/metering-units/{}/{kind}", id(unit)))
        })
        .collect();
    for path in paths {
        told.insert(path.clone(), Value::Array(all(&office, &path).await));
    }
    told
}

async fn the_same_date_makes_the_same_records(world: World) {
    let first = told(&world, DAY).await;
    let second = told(&World::on_sqlite().await, DAY).await;
    assert_eq!(first.keys().collect::<Vec<_>>(), second.keys().collect::<Vec<_>>());
    for (path, told) in &first {
        assert_eq!(told.to_string(), second[path].to_string(), "{path}");
    }
}

/// Over a leap day and a turn of the year, the board says the same.
#[tokio::test]
async fn another_date_makes_the_same_fleet() {
    let mut boards = Vec::new();
    for day in [DAY, date(2028, 3, 1)] {
        let world = World::on_sqlite().await;
        let made = made(&world, day).await;
        let board = one(&world, &made, Role::Office).await.read("/readiness").await;
        let due = |unit: &Value| {
            let due = unit["due"].as_array().unwrap().iter().map(|due| due["trigger"].to_string());
            (unit["seeder"].to_string(), unit["label"].to_string(), unit["state"].to_string(), due.collect::<Vec<_>>())
        };
        boards.push(board["units"].as_array().unwrap().iter().map(due).collect::<Vec<_>>());
    }
    assert_eq!(boards[0], boards[1]);
}
