//! The made-up fleet of the demonstration: everything that there is to see stands somewhere in it, and all of it was let in
//! by the same acts that pages and API use.

mod board;
mod pages;
mod repeated;

use crate::world::{Person, World};
use jiff::civil::{Date, date};
use serde_json::Value;
use sowmark::access::Role;
use sowmark::demo::{self, Made};

/// A day in early spring: the second season began before the winter's end.
pub const DAY: Date = date(2027, 4, 10);

/// The fleet as it is on a day, looked at at its noon.
pub async fn made(world: &World, day: Date) -> Made {
    let zone = demo::zone().unwrap();
    world.app.clock.set(demo::noon(day, &zone));
    demo::make(&world.app.db, day, zone, "barley in the yard").await.unwrap_or_else(|fault| panic!("{fault}"))
}

/// The first account of a role.
pub async fn one(world: &World, made: &Made, role: Role) -> Person {
    let account = made.accounts.iter().find(|account| account.role == role).unwrap();
    world.person(made.organization, account.account).await
}

/// Every item of a list, whatever its pages.
pub async fn all(person: &Person, path: &str) -> Vec<Value> {
    let page = person.read(&format!("{path}?limit=500")).await;
    assert_eq!(page["next"], Value::Null, "{path} has more than fits");
    page["items"].as_array().unwrap().clone()
}

pub fn id(value: &Value) -> &str {
    value["id"].as_str().unwrap_or_else(|| panic!("no id: {value}"))
}
