//! A catch that was sent from a phone: its verdict comes back with the answer, in the sender's words.

use super::{entry, kim, send};
use crate::on_both;
use crate::people::browser::Browser;
use crate::readiness::farm::{AGREES, DISAGREES, Farm, catch, fill, id};
use crate::spanish::reader;
use crate::world::World;
use axum::body::Body;
use axum::http::{Method, Request, header};
use serde_json::{Value, json};
use sowmark::access::Role;

on_both!(
    the_verdict_comes_back_with_the_number,
    a_failed_catch_is_held_for_the_office,
    a_catch_that_was_overtaken_gives_no_number,
    it_is_said_in_the_senders_language,
    only_a_stored_catch_is_told_of
);

fn caught(farm: &Farm, number: u32, at: &str, second: &str) -> Value {
    entry("calibration", &farm.unit, number, catch(at, &farm.wheat, Some(&farm.scale), second))
}

/// The number to key in as the record shows it: "3.01 kg per 100 revolutions, per run".
async fn number_on(farm: &Farm, record: u32) -> String {
    let page = farm.ana.get(&format!("/page/calibrations/{}", id(record))).await.text;
    let between = |text: &str, from: &str, to: &str| {
        let (_, rest) = text.split_once(from).unwrap_or_else(|| panic!("no {from}: {page}"));
        rest.split(to).next().unwrap_or_default().trim().to_owned()
    };
    let value = between(&page, "<strong class=\"key-in-number\">", "</strong>");
    let unit = between(&page, "<span class=\"key-in-unit\">", "<span>");
    let (_, scope) = page.split_once("<span class=\"key-in-unit\">").unwrap();
    format!("{value} {unit}, {}", between(scope, "<span>", "</span>"))
}

async fn the_verdict_comes_back_with_the_number(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let kim = kim(&world, &farm).await;
    let entries = [caught(&farm, 101, "2027-03-31T08:00:00Z", AGREES)];
    let result = &send(&kim, &entries).await[0];
    assert_eq!((&result["outcome"], &result["href"]), (&json!("stored"), &json!(format!("/calibrations/{}", id(101)))));
    let says = result["says"].as_str().unwrap();
    assert!(says.starts_with("The catch of "), "{says}");
    assert!(says.contains(" is judged: pass"), "{says}");
    assert!(says.ends_with(&format!("Number to key in: {}.", number_on(&farm, 101).await)), "{says}");
    // An answer that was lost is asked for again, and says the same.
    let again = &send(&kim, &entries).await[0];
    assert_eq!((&again["outcome"], again["says"].as_str()), (&json!("already_stored"), Some(says)));
}

async fn a_failed_catch_is_held_for_the_office(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let entries = [caught(&farm, 101, "2027-03-31T08:00:00Z", DISAGREES)];
    let says = send(&farm.ana, &entries).await[0]["says"].to_string();
    assert!(says.contains("is judged: a check fails. It is held for the office:"), "{says}");
    assert!(!says.contains("Number to key in"), "{says}");
    let decision = json!({ "decision": "rejected", "reason": "one bag was torn" });
    farm.ana.create(&format!("/calibrations/{}/decisions", id(101)), decision).await;
    let says = send(&farm.ana, &entries).await[0]["says"].to_string();
    assert!(says.contains("The office rejected this calibration."), "{says}");
}

async fn a_catch_that_was_overtaken_gives_no_number(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let entries =
        [caught(&farm, 101, "2027-03-30T08:00:00Z", AGREES), caught(&farm, 102, "2027-03-31T08:00:00Z", AGREES)];
    let results = send(&farm.ana, &entries).await;
    let says = |at: usize| results[at]["says"].to_string();
    assert!(says(0).contains("is judged: pass") && says(0).contains("Not the number in force now."), "{}", says(0));
    assert!(!says(0).contains("Number to key in"), "{}", says(0));
    assert!(says(1).contains("Number to key in"), "{}", says(1));
}

async fn it_is_said_in_the_senders_language(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let Browser { session } = reader(&world, &farm.ana, Role::Office).await;
    let body = json!({ "entries": [caught(&farm, 101, "2027-03-31T08:00:00Z", AGREES)] });
    let request = Request::builder()
        .method(Method::POST)
        .uri("/api/v1/sync")
        .header(header::HOST, "sowmark.test")
        .header("sec-fetch-site", "same-origin")
        .header(header::COOKIE, session.unwrap())
        .header(header::CONTENT_TYPE, "application/json")
        .body(Body::from(body.to_string()))
        .unwrap();
    let answer = world.request(request).await.json();
    let says = answer["results"][0]["says"].to_string();
    let number = number_on(&farm, 101).await;
    let value = number.split(' ').next().unwrap().replace('.', ",");
    assert!(says.contains("El ensayo de ") && says.contains("tiene dictamen: aceptado"), "{says}");
    assert!(says.contains(&format!("Número para el controlador: {value} kg por 100 vueltas, ")), "{says}");
}

async fn only_a_stored_catch_is_told_of(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let no_lot = entry("calibration", &farm.unit, 101, catch("2027-03-31T08:00:00Z", &id(999), None, AGREES));
    let filled = entry("fill", &farm.unit, 102, fill("2027-03-31T08:00:00Z", &farm.wheat));
    let results = send(&farm.ana, &[no_lot, filled]).await;
    assert_eq!((&results[0]["outcome"], &results[1]["outcome"]), (&json!("refused"), &json!("stored")));
    assert!(results.iter().all(|result| result.get("says").is_none() && result.get("href").is_none()), "{results:?}");
}
