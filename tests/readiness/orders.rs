//! Records arrive late and in any order; the answer is the same as if they had come as they happened.

use super::farm::{AGREES, Farm, catch, configuration, fill, id, job, lot_test, service, setup};
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};

on_both!(the_order_of_arrival_does_not_matter);

const MOMENTS: [&str; 6] = [
    "2027-03-22T12:00:00Z",
    "2027-03-24T12:00:00Z",
    "2027-03-26T12:00:00Z",
    "2027-03-28T12:00:00Z",
    "2027-03-30T12:00:00Z",
    "2027-04-02T12:00:00Z",
];

/// What happened, as it happened. The first setup is sent first in every order: a catch without one in force is refused.
fn events(farm: &Farm) -> Vec<(String, Value)> {
    let unit = |what: &str| format!("/metering-units/{}/{what}", farm.unit);
    let seeder = |what: &str| format!("/seeders/{}/{what}", farm.seeder);
    let mut events = vec![
        (unit("fills"), fill("2027-03-22T08:00:00Z", &farm.wheat)),
        (format!("/lots/{}/tests", farm.wheat), lot_test("2027-03-23T08:00:00Z", "40")),
        (unit("calibrations"), catch("2027-03-24T08:00:00Z", &farm.wheat, Some(&farm.scale), AGREES)),
        (unit("jobs"), job("2027-03-25T08:00:00Z", &farm.wheat, "1410", "12")),
        (unit("setups"), setup("2027-03-26T08:00:00Z", &farm.coarse, "5:2", "12")),
        (unit("calibrations"), catch("2027-03-27T08:00:00Z", &farm.wheat, Some(&farm.scale), "9.680")),
        (unit("setups"), setup("2027-03-28T08:00:00Z", &farm.fine, "5:2", "12")),
        (seeder("configurations"), configuration("2027-03-29T08:00:00Z", "5")),
        (seeder("services"), service("2027-03-30T08:00:00Z", true)),
        (unit("fills"), fill("2027-03-31T08:00:00Z", &farm.other_wheat)),
    ];
    for (number, (_, record)) in (100..).zip(&mut events) {
        record["id"] = json!(id(number));
    }
    events
}

async fn the_order_of_arrival_does_not_matter(world: World) {
    let mut told: Option<Vec<Value>> = None;
    let orders: [[usize; 10]; 4] = [
        [0, 1, 2, 3, 4, 5, 6, 7, 8, 9],
        [9, 8, 7, 6, 5, 4, 3, 2, 1, 0],
        [5, 0, 7, 3, 9, 2, 8, 1, 6, 4],
        [3, 6, 9, 1, 4, 7, 0, 2, 5, 8],
    ];
    for order in orders {
        let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
        let ana = world.member(organization, "ana@example.org", "office").await;
        let farm = Farm::of(ana).await;
        let mut first = setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12");
        first["id"] = json!(id(99));
        farm.log("setups", first).await;
        let events = events(&farm);
        for number in order {
            let (path, record) = &events[number];
            farm.ana.create(path, record.clone()).await;
        }
        let mut answers = Vec::new();
        for moment in MOMENTS {
            answers.push(farm.ana.read(&format!("/readiness?at={moment}")).await);
        }
        match &told {
            None => told = Some(answers),
            Some(told) => assert_eq!(told, &answers, "{order:?}"),
        }
    }
    let states: Vec<Value> = told.iter().flatten().map(|answer| answer["units"][0]["state"].clone()).collect();
    assert_eq!(states, ["calibrate", "ready", "calibrate", "check", "calibrate", "calibrate"]);
}
