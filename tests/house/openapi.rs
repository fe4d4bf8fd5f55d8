//! The OpenAPI document names every route of the API, and every shape that it refers to.

use crate::on_both;
use crate::world::World;
use serde_json::Value;
use sowmark::app;
use sowmark::web::routes::Surface;
use std::collections::BTreeSet;

on_both!(the_document_describes_every_route_of_the_api);

async fn the_document_describes_every_route_of_the_api(world: World) {
    let document = world.nobody().read("/openapi.json").await;
    assert!(document["openapi"].as_str().unwrap().starts_with("3.1"));
    let mut described = BTreeSet::new();
    let mut operations = BTreeSet::new();
    for (path, item) in document["paths"].as_object().unwrap() {
        for (method, operation) in item.as_object().unwrap() {
            described.insert(format!("{} {path}", method.to_uppercase()));
            let id = operation["operationId"].as_str().unwrap().to_owned();
            assert!(operations.insert(id.clone()), "two operations are called {id}");
            assert!(!operation["summary"].as_str().unwrap().is_empty(), "{id} has no summary");
        }
    }
    let declared: BTreeSet<String> = app::routes()
        .iter()
        .filter(|route| route.surface == Surface::Api)
        .map(|route| format!("{} {}", route.method, route.path))
        .collect();
    assert_eq!(described, declared);

    let mut missing = Vec::new();
    references(&document, &mut |reference| {
        let pointer = reference.trim_start_matches('#');
        if document.pointer(pointer).is_none() {
            missing.push(reference.to_owned());
        }
    });
    assert!(missing.is_empty(), "the document refers to what it does not hold: {missing:?}");
}

fn references(value: &Value, see: &mut impl FnMut(&str)) {
    match value {
        Value::Object(fields) => {
            if let Some(Value::String(reference)) = fields.get("$ref") {
                see(reference);
            }
            fields.values().for_each(|value| references(value, see));
        }
        Value::Array(items) => items.iter().for_each(|value| references(value, see)),
        _ => {}
    }
}
