//! What a server counts for whoever watches it.

use super::place::{Place, Server, request_at};
use crate::on_both_places;
use std::collections::BTreeMap;

on_both_places!(what_is_counted_stands_on_a_second_address_alone, made_up_addresses_make_no_new_series);

/// A server that is watched, and the second address.
fn watched(place: &Place) -> (Server, String) {
    let mut server = Server::start(place.command(&["serve", "--listen", "127.0.0.1:0", "--metrics", "127.0.0.1:0"]));
    let line = server.line();
    let address = line.split("http://").nth(1).and_then(|rest| rest.strip_suffix("/metrics"));
    let address = address.unwrap_or_else(|| panic!("no second address: {line}")).to_owned();
    (server, address)
}

/// The samples of the text format (version 0.0.4): each with its name and labels as written.
fn samples(text: &str) -> BTreeMap<String, String> {
    let mut samples = BTreeMap::new();
    let mut kinds = BTreeMap::new();
    for line in text.lines() {
        if let Some(kind) = line.strip_prefix("# TYPE ") {
            let (name, kind) = kind.split_once(' ').unwrap();
            assert!(kinds.insert(name, kind).is_none(), "{name} is declared twice");
        } else if !line.starts_with("# HELP ") {
            let (name, value) = line.rsplit_once(' ').unwrap_or_else(|| panic!("no sample: {line}"));
            let family = name.split('{').next().unwrap();
            let declared = ["", "_bucket", "_sum", "_count"]
                .iter()
                .any(|end| family.strip_suffix(end).is_some_and(|family| kinds.contains_key(family)));
            assert!(declared, "{family} is not declared before its samples");
            assert!(value.parse::<f64>().is_ok_and(f64::is_finite), "{line}");
            assert!(samples.insert(name.to_owned(), value.to_owned()).is_none(), "{name} stands twice");
        }
    }
    samples
}

fn read(address: &str) -> BTreeMap<String, String> {
    let (status, text) = request_at(address, "GET", "/metrics", &[], "");
    assert_eq!(status, 200, "{text}");
    samples(&text)
}

async fn what_is_counted_stands_on_a_second_address_alone(place: Place) {
    let organization = place.say(&["organization", "add", "Watched Yard"]);
    place.say(&["member", "add", "ona@example.org", "--organization", &organization, "--role", "office"]);
    let token =
        place.say(&["token", "add", "ona@example.org", "--organization", &organization, "--label", "yard display"]);
    let authorization = format!("Bearer {}", token.split_whitespace().last().unwrap());
    let headers = [("Authorization", authorization.as_str()), ("Content-Type", "application/json")];
    let (server, address) = watched(&place);
    assert_eq!(server.request("GET", "/metrics", &[], "").0, 404, "the address that people reach tells nothing");
    let before = read(&address);
    for number in 0..3 {
        let lot = format!(r#"{{"lot_number": "L-{number}", "crop": "wheat"}}"#);
        assert_eq!(server.request("POST", "/api/v1/lots", &headers, &lot).0, 201);
    }
    assert_eq!(server.request("POST", "/api/v1/lots", &headers, "{}").0, 422);
    let after = read(&address);
    let count = |code: &str| {
        let name = format!(r#"sowmark_http_requests_total{{code="{code}",method="POST",route="/api/v1/lots"}}"#);
        after.get(&name).map(String::as_str)
    };
    assert_eq!((count("201"), count("422"), count("200")), (Some("3"), Some("1"), None), "{after:?}");
    let took = |end: &str| {
        after[&format!(r#"sowmark_http_request_duration_seconds_{end}{{method="POST",route="/api/v1/lots"}}"#)].as_str()
    };
    assert!(took("count") == "4" && took("sum") > "0", "{after:?}");
    let lines = |samples: &BTreeMap<String, String>| whole(&samples["sowmark_audit_lines"]);
    assert_eq!(lines(&after) - lines(&before), 3);
    assert_eq!((after["sowmark_ready"].as_str(), after["sowmark_organizations"].as_str()), ("1", "1"));
    let pool = if place.url().starts_with("sqlite") { "write" } else { "all" };
    assert!(whole(&after[&format!(r#"sowmark_database_connections{{pool="{pool}",state="open"}}"#)]) >= 1);
    // Unless it is asked for there is no such address.
    let unwatched = place.serve();
    assert_eq!(unwatched.request("GET", "/metrics", &[], "").0, 404);
    assert!(unwatched.stop());
}

async fn made_up_addresses_make_no_new_series(place: Place) {
    let (server, address) = watched(&place);
    for method in ["GET", "BREW"] {
        server.request(method, "/nowhere", &[], "");
        server.request(method, "/lots/0196d2a0-0000-7000-8000-000000000001", &[], "");
    }
    let before = read(&address);
    for number in 0..100 {
        let method = if number % 2 == 0 { "GET" } else { &format!("BREW{number}") };
        server.request(method, &format!("/nowhere/{number}?{number}"), &[], "");
        server.request(method, &format!("/lots/0196d2a0-0000-7000-8000-{number:012x}"), &[], "");
    }
    let after = read(&address);
    assert!(after.keys().eq(before.keys()), "{after:?}");
    let is_none = |name: &str| name.contains(r#"route="none""#) && name.starts_with("sowmark_http_requests_total");
    let none: u64 = after.iter().filter(|(name, _)| is_none(name)).map(|(_, count)| whole(count)).sum();
    assert!(none >= 100, "{after:?}");
}

fn whole(value: &str) -> u64 {
    value.parse().unwrap_or_else(|_| panic!("{value} is no whole number"))
}
