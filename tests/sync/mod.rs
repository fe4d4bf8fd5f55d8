//! Entries logged off line, sent together: each is stored or refused by itself, in any order, as often as it is sent.

mod clocks;
mod correcting;
mod forms;
mod judged;
mod mending;
mod order;
mod refill;
mod refused;
mod taking;

use crate::readiness::farm::{Farm, id};
use crate::seed::{Drill, hand};
use crate::world::{Person, World};
use serde_json::{Value, json};

/// An entry of the farm's, with its record's id.
pub fn entry(kind: &str, parent: &str, number: u32, mut record: Value) -> Value {
    record["id"] = json!(id(number));
    json!({ "kind": kind, "parent_id": parent, "record": record })
}

/// Sends entries; answers the results, one for each.
pub async fn send(person: &Person, entries: &[Value]) -> Vec<Value> {
    let answer = person.post("/sync", json!({ "entries": entries })).await;
    assert_eq!(answer.status.as_u16(), 200, "{}", answer.text);
    let results = answer.json()["results"].as_array().unwrap().clone();
    assert_eq!(results.len(), entries.len(), "{}", answer.text);
    results
}

/// The outcomes alone.
pub fn outcomes(results: &[Value]) -> Vec<&str> {
    results.iter().map(|result| result["outcome"].as_str().unwrap()).collect()
}

/// The pointers of the faults of a result.
pub fn pointers(result: &Value) -> Vec<&str> {
    let errors = result["problem"]["errors"].as_array();
    errors.into_iter().flatten().map(|error| error["pointer"].as_str().unwrap()).collect()
}

/// The farm's drill, as the crew's maker in the tests of the seed wants it.
pub fn drill(farm: &Farm) -> Drill {
    Drill { seeder: sowmark_core::ids::SeederId(farm.seeder.parse().unwrap()), unit: farm.unit.clone() }
}

/// Somebody of the farm's crew.
pub async fn kim(world: &World, farm: &Farm) -> Person {
    hand(world, &farm.ana, "kim-sync@example.org", &[&drill(farm)]).await
}
