//! Every page, read by somebody who reads Spanish: no word of English that the Spanish texts do not have, and no key in the
//! place of a text. What people named is made of words that neither language has.

use crate::on_both;
use crate::people::browser::Browser;
use crate::readiness::farm::{AGREES, DISAGREES, catch, text};
use crate::world::{Person, World};
use axum::http::Method;
use serde_json::{Value, json};
use sowmark::access::Role;
use sowmark::app;
use sowmark::web::routes::Surface;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

on_both!(no_page_keeps_a_word_of_english_or_a_key);

/// What is named here and by the world of tests: languages are named in themselves; a catch of "all runs", a device and a
/// host called "test".
const NAMED: [&str; 4] = ["all", "english", "runs", "test"];

/// Letters in a row, in small. What has a figure in it is a number or a hash.
fn words(text: &str) -> BTreeSet<String> {
    text.split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| word.chars().count() > 2 && word.chars().all(char::is_alphabetic))
        .map(str::to_lowercase)
        .collect()
}

/// What stands in catalogues: by key, with the words of its text.
fn catalogue(files: &[&str]) -> BTreeMap<String, BTreeSet<String>> {
    let mut found: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    let mut key = String::new();
    for file in files {
        let content = fs::read_to_string(format!("{}/{file}", env!("CARGO_MANIFEST_DIR"))).expect(file);
        for line in content.lines().filter(|line| !line.starts_with('#')) {
            let text = match line.split_once(" =") {
                Some((name, text)) if line.starts_with(|letter: char| letter.is_ascii_lowercase()) => {
                    name.clone_into(&mut key);
                    text
                }
                _ => line,
            };
            found.entry(key.clone()).or_default().extend(words(&without_names(text)));
        }
    }
    found
}

/// Without what stands between brackets: variables, and the names of variants.
fn without_names(text: &str) -> String {
    let mut depth = 0_usize;
    let letters = text.chars().filter(|letter| {
        match letter {
            '{' | '[' => depth += 1,
            '}' | ']' => depth = depth.saturating_sub(1),
            _ => return depth == 0,
        }
        false
    });
    letters.collect()
}

/// What a page shows or reads out: the texts between its elements, and labels and titles of them.
fn shown(page: &str) -> String {
    let mut shown = String::new();
    let mut rest = page;
    while let Some((before, element)) = rest.split_once('<') {
        shown.push_str(before);
        shown.push(' ');
        let (element, mut after) = element.split_once('>').unwrap_or((element, ""));
        for attribute in ["aria-label", "title", "alt", "placeholder"] {
            let value = element.split_once(&format!(" {attribute}=\"")).and_then(|(_, value)| value.split_once('"'));
            if let Some((value, _)) = value {
                shown.push_str(value);
                shown.push(' ');
            }
        }
        for closed in ["style", "script", "code", "pre"] {
            if element.split_whitespace().next() == Some(closed) {
                after = after.split_once(&format!("</{closed}>")).map_or("", |(_, after)| after);
            }
        }
        rest = after;
    }
    shown.push_str(rest);
    shown.replace("&#39;", "'").replace("&quot;", "\"").replace("&amp;", "&")
}

/// Something of everything, named in no language.
struct Things {
    of: BTreeMap<&'static str, String>,
}

fn q(value: &str, unit: &str) -> Value {
    json!({ "value": value, "unit": unit })
}

impl Things {
    async fn new(world: &World, ana: &Person) -> Self {
        let created = |value: Value| text(&value["id"]);
        let seeder = json!({ "name": "Zorv", "serial_number": "ZV-1", "kind": "air_cart", "commissioned_on": "2021-03-01",
            "working_width": q("6", "m"), "row_spacing": q("12.5", "cm"), "metering_units": [
                { "label": "qa", "runs": 8, "drive": "electric", "roller_speed_rpm": { "min": 10, "max": 120 } },
                { "label": "qb", "runs": 8, "drive": "ground", "roller_speed_rpm": null }] });
        let seeder = ana.create("/seeders", seeder).await;
        let unit = text(&seeder["metering_units"][0]["id"]);
        let roller = created(
            ana.create("/rollers", json!({ "label": "Rzk", "kind": "fluted", "displacement_per_rev": q("40", "cm3") }))
                .await,
        );
        let client = created(ana.create("/clients", json!({ "name": "Kvint" })).await);
        let field = json!({ "name": "Pfold", "area": q("12", "ha"), "client_id": client });
        let field = created(ana.create("/fields", field).await);
        let season = created(ana.create("/seasons", json!({ "name": "Xq27", "starts_on": "2027-03-01" })).await);
        let lot = json!({ "lot_number": "L-1", "crop": "vrix", "client_id": client, "received_mass": q("900", "kg"),
            "received_on": "2027-03-02", "treatment": { "product": "Tqol", "caution": "Zzu" }, "analysis": { "germination_percent": "95" } });
        let lot = created(ana.create("/lots", lot).await);
        let other = created(ana.create("/lots", json!({ "lot_number": "L-2", "crop": "vrix" })).await);
        let scale = created(
            ana.create("/scales", json!({ "name": "Wqt", "readability": q("1", "g"), "capacity": q("15", "kg") }))
                .await,
        );
        ana.create(
            &format!("/scales/{scale}/checks"),
            json!({ "occurred_at": "2027-03-20T08:00:00Z", "reference": q("10", "kg"), "reading": q("10.01", "kg") }),
        )
        .await;
        let test = json!({ "occurred_at": "2027-03-20T09:00:00Z", "thousand_seed_weight": q("40", "g"), "bulk_density": q("78", "kg/hL") });
        ana.create(&format!("/lots/{lot}/tests"), test).await;
        for (day, kind, mass) in [(21, "sold", "20"), (22, "discarded", "3"), (30, "counted", "700")] {
            let moved = json!({ "occurred_at": format!("2027-03-{day}T08:00:00Z"), "kind": kind, "mass": q(mass, "kg"), "note": "" });
            ana.create(&format!("/lots/{lot}/movements"), moved).await;
        }
        let at_unit = |what: &str| format!("/metering-units/{unit}/{what}");
        ana.create(&at_unit("setups"), json!({ "occurred_at": "2027-03-21T08:00:00Z", "roller_id": roller, "drive_ratio": "5:2", "gate": "12", "runs": 8, "note": "" })).await;
        ana.create(
            &at_unit("fills"),
            json!({ "occurred_at": "2027-03-22T08:00:00Z", "lot_id": lot, "mass": q("150", "kg") }),
        )
        .await;
        let caught = created(
            ana.create(&at_unit("calibrations"), catch("2027-03-28T08:00:00Z", &lot, Some(&scale), AGREES)).await,
        );
        let held = created(
            ana.create(&at_unit("calibrations"), catch("2027-03-28T09:00:00Z", &lot, Some(&scale), DISAGREES)).await,
        );
        let sown = json!({ "occurred_at": "2027-03-29T08:00:00Z", "ended_at": null, "field": "Pfold", "lot_id": lot, "area": q("1", "ha"),
            "seed_used": q("141", "kg"), "target_rate": q("140", "kg/ha"), "speed": q("7.2", "km/h"), "note": "" });
        let sown = created(ana.create(&at_unit("jobs"), sown).await);
        ana.create(
            &at_unit("emptyings"),
            json!({ "occurred_at": "2027-03-29T09:00:00Z", "lot_id": lot, "mass": q("4", "kg"), "to_empty": true }),
        )
        .await;
        ana.create(&at_unit("fills"), json!({ "occurred_at": "2027-03-29T10:00:00Z", "lot_id": other, "mass": null }))
            .await;
        let service = json!({ "occurred_at": "2027-03-29T11:00:00Z", "metering_unit_id": null, "component": "seal", "affects_metering": true, "note": "" });
        ana.create(&format!("/seeders/{}/services", text(&seeder["id"])), service).await;
        ana.create(
            &at_unit("waivers"),
            json!({ "trigger": "lot_changed", "until": "2027-04-03T08:00:00Z", "reason": "Zzu" }),
        )
        .await;
        let tasks = include_str!("../task_data/example/TASKDATA/TASKDATA.XML");
        let tasks = tasks.lines().map(|line| line.replace("Long Acre", "Pfold").replace(" D=\"Bin ", " D=\"Qb "));
        let tasks = tasks.collect::<Vec<_>>().join("\n");
        let renamed = [
            ("Sow wheat ", "Tvk "),
            ("Lower Field (planned)", "Xk"),
            ("Wheat lot", "Vv"),
            ("Starter granulate", "Gq"),
            ("Beispiel", "Kvint"),
            ("Seeder 6 m", "Zorv"),
        ];
        let tasks = renamed.iter().fold(tasks, |text, (from, to)| text.replace(from, to));
        let file = created(ana.post_text("/imports/task-data?preview=true", tasks).await.json());
        let crew = created(ana.create("/crews", json!({ "name": "Yq" })).await);
        let kim = world.member(ana.organization, "kmq@example.org", "crew").await;
        Self {
            of: BTreeMap::from([
                ("/calibrations/", caught),
                ("/calibrations/ ", held),
                ("/clients/", client),
                ("/crews/", crew),
                ("/exchange/task-data/", file),
                ("/fields/", field),
                ("/lots/", lot),
                ("/metering-units/", unit),
                ("/people/", kim.account.0.to_string()),
                ("/records/", sown),
                ("/rollers/", roller),
                ("/scales/", scale),
                ("/seasons/", season),
                ("/seeders/", text(&seeder["id"])),
            ]),
        }
    }

    /// The addresses of a route: one for each thing that it can be of; none of what is another test's.
    fn addresses(&self, pattern: &str) -> Vec<String> {
        if !pattern.contains('{') {
            return vec![pattern.to_owned()];
        }
        if pattern == "/exchange/import/{kind}" {
            return ["seeders", "lots", "fields", "jobs", "calibrations"]
                .map(|kind| format!("/exchange/import/{kind}"))
                .to_vec();
        }
        if pattern == "/checks/{name}" {
            return sowmark_core::verdict::CheckName::ALL.map(|check| format!("/checks/{}", check.name())).to_vec();
        }
        let of = self.of.iter().filter(|(begins, _)| pattern.starts_with(begins.trim_end()));
        of.map(|(_, id)| pattern.replacen("{id}", id, 1)).collect()
    }
}

async fn no_page_keeps_a_word_of_english_or_a_key(world: World) {
    let english = catalogue(&["core/texts/en.ftl", "texts/en.ftl"]);
    let spanish: BTreeSet<String> = catalogue(&["texts/es.ftl"]).into_values().flatten().collect();
    let keys: BTreeSet<&str> = english.keys().map(String::as_str).filter(|key| key.contains('-')).collect();
    let english: BTreeSet<&String> = english.values().flatten().filter(|word| !spanish.contains(*word)).collect();
    assert!(english.len() > 500, "English is read: {}", english.len());
    let ana = world.ana().await;
    let things = Things::new(&world, &ana).await;
    // Pages for anybody go by the browser's language.
    let mut browser = Browser { language: "es", ..Browser::of(&world, &ana, Role::Office).await };
    let chosen = [("units", "organization"), ("decimal_sign", "comma"), ("language", "es")];
    assert_eq!(browser.submit(&world, "/account/reading", &chosen).await.status, 303);
    let (mut found, mut read) = (Vec::new(), 0);
    for route in app::routes().iter().filter(|route| route.surface == Surface::Page && route.method == Method::GET) {
        for address in things.addresses(&route.path) {
            let page = browser.get(&world, &address).await;
            if page.status != 200 || !page.text.starts_with("<!doctype html>") {
                continue;
            }
            read += 1;
            assert!(page.text.contains("<html lang=\"es\""), "{address}");
            let shown = shown(&page.text);
            let left: Vec<String> = words(&shown)
                .into_iter()
                .filter(|word| english.contains(word) && !NAMED.contains(&word.as_str()))
                .collect();
            let bare: Vec<&str> = shown.split_whitespace().filter(|word| keys.contains(word)).collect();
            if !left.is_empty() || !bare.is_empty() {
                found.push(format!("{address}: {} {}", left.join(" "), bare.join(" ")));
            }
        }
    }
    assert!(read > 55, "only {read} pages were read");
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn english_on_a_page_is_found() {
    let page =
        "<!doctype html><p title=\"Sown\">Sembrado <code>seed</code></p><script>let x;</script><b>lots-title</b>";
    assert_eq!(shown(page).split_whitespace().collect::<Vec<_>>(), ["Sown", "Sembrado", "lots-title"]);
    assert_eq!(without_names("Lote { $number } [one] x { a -> b"), "Lote   x ");
}
