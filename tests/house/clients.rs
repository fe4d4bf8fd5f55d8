//! A client's agronomist against every route: whatever can be read, with whatever id, nothing of another client comes out.
//! The same walk by the office finds it in many places, so the walk can find what leaks.

use crate::on_both;
use crate::readiness::farm::{AGREES, Farm, catch, fill, job, lot_test, setup};
use crate::world::{Answer, Person, World};
use axum::http::Method;
use serde_json::{Value, json};
use sowmark::app;
use sowmark::exchange::lists::Listed;
use sowmark::web::routes::Surface;
use std::collections::BTreeSet;

on_both!(a_clients_agronomist_is_told_nothing_of_another_client);

/// Stands in every text of the other client's records.
const SECRET: &str = "Quillhaven";
/// Stands in the own client's.
const OWN: &str = "Mellowmere";

/// A client's records on the machine, and their ids.
async fn sown(farm: &Farm, name: &str, month: &str, area: &str) -> Vec<String> {
    let ana = &farm.ana;
    let made = |answer: &Value| answer["id"].as_str().expect("an id").to_owned();
    let at = |day: &str| format!("2027-{month}-{day}T08:00:00Z");
    let client = made(&ana.create("/clients", json!({ "name": format!("{name} Farm") })).await);
    let area = json!({ "value": area, "unit": "ha" });
    let field = json!({ "name": format!("{name} field"), "area": area, "client_id": client });
    let field = made(&ana.create("/fields", field).await);
    let lot = json!({ "lot_number": format!("{name}-1"), "crop": "wheat", "variety": format!("{name} variety"), "client_id": client,
        "supplier": format!("{name} supplier"), "received_mass": { "value": "5000", "unit": "kg" } });
    let lot = made(&ana.create("/lots", lot).await);
    let test = farm.at_lot(&lot, lot_test(&at("02"), "40")).await;
    let note = format!("{name} note");
    let sold =
        json!({ "occurred_at": at("03"), "kind": "sold", "mass": { "value": "100", "unit": "kg" }, "note": note });
    let sold = made(&ana.create(&format!("/lots/{lot}/movements"), sold).await);
    let filled = farm.log("fills", fill(&at("04"), &lot)).await;
    let mut caught = catch(&at("05"), &lot, Some(&farm.scale), AGREES);
    caught["note"] = json!(note);
    let caught = farm.log("calibrations", caught).await;
    let mut sowing = job(&at("06"), &lot, "1400", "7.2");
    sowing["field_id"] = json!(field);
    sowing.as_object_mut().expect("fields").remove("field");
    sowing["note"] = json!(note);
    let sowing = farm.log("jobs", sowing).await;
    let emptied = json!({ "occurred_at": at("07"), "lot_id": lot, "mass": { "value": "50", "unit": "kg" } });
    let emptied = farm.log("emptyings", emptied).await;
    vec![client, field, lot, test, sold, filled, caught, sowing, emptied]
}

/// Every address that can be read: with each of the ids in the place of one, and with each of the queries by which pages and
/// lists are asked.
fn addresses(ids: &[String], queries: &[String]) -> Vec<(Surface, String)> {
    let mut all = Vec::new();
    for route in app::routes().iter().filter(|route| route.method == Method::GET) {
        // Files of the program, and what secrets open, are nobody's records.
        if route.path.contains("{code}") || route.path.contains("{hash}") {
            continue;
        }
        let mut paths = vec![route.path.clone()];
        if route.path.contains("{list}") {
            paths =
                Listed::ALL.iter().map(|list| route.path.replace("{list}", &format!("{}.csv", list.word()))).collect();
        } else if let Some(place) = route.path.find('{') {
            let end = place + route.path[place..].find('}').expect("its end");
            paths = ids.iter().map(|id| format!("{}{id}{}", &route.path[..place], &route.path[end + 1..])).collect();
        } else {
            paths.extend(queries.iter().map(|query| format!("{}?{query}", route.path)));
        }
        all.extend(paths.into_iter().map(|path| (route.surface, path)));
    }
    all
}

async fn read(person: &Person, surface: Surface, path: &str) -> Answer {
    match surface {
        Surface::Page => person.get(&format!("/page{path}")).await,
        Surface::Api => person.get(path.strip_prefix("/api/v1").expect("an API")).await,
    }
}

async fn a_clients_agronomist_is_told_nothing_of_another_client(world: World) {
    world.set_time("2027-06-01T06:00:00Z");
    let farm = Farm::new(&world).await;
    farm.log("setups", setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")).await;
    let own = sown(&farm, OWN, "04", "12").await;
    let others = sown(&farm, SECRET, "05", "34").await;
    let organization = farm.ana.organization;
    let gus = world.member_for(organization, "gus-clients@example.org", "agronomist", &[&own[0]]).await;
    let mia = world.member(organization, "mia-clients@example.org", "agronomist").await;
    let of = json!({ "lot_id": others[2] });
    let signed = mia.create("/usage/signatures", json!({ "of": of, "remark": format!("{SECRET} seen") })).await;
    let shared =
        [farm.seeder.clone(), farm.unit.clone(), farm.scale.clone(), signed["id"].as_str().unwrap().to_owned()];
    let (own_lot, own_catch) = (&own[2], &own[6]);
    let ids: Vec<String> = others.iter().chain(&shared).chain([own_lot, own_catch]).cloned().collect();
    let queries =
        [("client_id", &others[0]), ("field_id", &others[1]), ("lot_id", &others[2]), ("unit_id", &farm.unit)];
    let queries = queries.map(|(name, id)| format!("{name}={id}"));
    let (mut told, mut by_office, mut of_own) = (Vec::new(), BTreeSet::new(), BTreeSet::new());
    for (surface, path) in addresses(&ids, &queries) {
        let answer = read(&gus, surface, &path).await;
        assert!(answer.status.as_u16() < 500, "{path}: {}", answer.text);
        // An id that was asked for may be said back.
        let leaks = others.iter().any(|id| answer.text.contains(id.as_str()) && !path.contains(id.as_str()));
        if answer.text.contains(SECRET) || leaks {
            told.push(path.clone());
        }
        if answer.text.contains(OWN) {
            of_own.insert(path.split('?').next().unwrap_or_default().to_owned());
        }
        if others.iter().any(|id| path.ends_with(id.as_str())) || !path.contains(['?']) {
            let office = read(&farm.ana, surface, &path).await;
            if office.text.contains(SECRET) {
                by_office.insert(path.split('?').next().unwrap_or_default().to_owned());
            }
        }
    }
    assert_eq!(told, Vec::<String>::new(), "of another client");
    assert!(by_office.len() >= 30 && of_own.len() >= 20, "the walk finds little: {by_office:?} {of_own:?}");
    // The trail keeps its chain: every line's place and hash, and the content of those about the own client.
    let lines =
        async |person: &Person| person.read("/audit?limit=500").await["items"].as_array().expect("lines").clone();
    let (whole, seen) = (lines(&farm.ana).await, lines(&gus).await);
    let chain =
        |lines: &[Value]| lines.iter().map(|line| (line["seq"].clone(), line["hash"].clone())).collect::<Vec<_>>();
    assert_eq!(chain(&seen), chain(&whole));
    let content =
        |id: &String| seen.iter().find(|line| line["subject"]["id"] == **id).map(|line| line["change"].to_string());
    for id in [own_lot, own_catch, &own[1], &own[4], &own[7]] {
        assert!(content(id).is_some_and(|change| change != "null"), "{id} is the own client's");
    }
    let withheld: Vec<_> = seen.iter().filter(|line| line["action"] == "withheld").collect();
    assert!(withheld.len() >= others.len() && withheld.iter().all(|line| line["change"].is_null()), "{withheld:?}");
}
