//! What surrounds a catch: the air, how full the tank was, the place, who checked it, and the known mass that its scale was checked with. It is kept
//! as it was read and changes nothing of the number.

use super::bench::{Bench, text};
use crate::exchange::csv_lists::{by_python, column, file};
use crate::on_both;
use crate::people::browser::Browser;
use crate::world::World;
use serde_json::{Value, json};
use sowmark::access::Role;

on_both!(
    it_is_kept_as_it_was_read,
    it_changes_nothing_of_the_number,
    what_cannot_be_is_refused,
    a_scale_check_names_its_mass_and_certificate,
    the_sheet_folds_it_away_and_loses_nothing,
    a_correction_from_a_phone_carries_it,
    each_reads_it_on_the_own_scale,
    lists_have_it,
);

fn air(value: &str, unit: &str) -> Value {
    json!({ "value": value, "unit": unit })
}

/// The textbook's catch with all that surrounds it.
fn surrounded(bench: &Bench) -> Value {
    let mut sheet = bench.sheet(2);
    for (name, value) in [
        ("air_temperature", air("12.50", "°C")),
        ("relative_humidity_percent", json!("64.0")),
        ("tank_fill_percent", json!("33.3")),
        ("place", json!("Yard, under the roof")),
        ("checked_by", json!("Cem, foreman")),
    ] {
        sheet[name] = value;
    }
    sheet
}

async fn it_is_kept_as_it_was_read(world: World) {
    let bench = Bench::new(&world).await;
    let record = bench.ana.create(&bench.path(), surrounded(&bench)).await;
    assert_eq!(record["air_temperature"], air("12.50", "°C"));
    assert_eq!(record["relative_humidity_percent"].to_string(), "64.0");
    assert_eq!(record["tank_fill_percent"].to_string(), "33.3");
    assert_eq!((&record["place"], &record["checked_by"]), (&json!("Yard, under the roof"), &json!("Cem, foreman")));
    let path = format!("/calibrations/{}", text(&record["id"]));
    assert_eq!(bench.ana.read(&path).await["air_temperature"], air("12.50", "°C"));
    let page = bench.ana.get(&format!("/page{path}")).await.text;
    for said in [
        "Air temperature",
        "12.50 °C",
        "64.0 %",
        "Tank full to about",
        "33.3 %",
        "Yard, under the roof",
        "Cem, foreman",
    ] {
        assert!(page.contains(said), "{said} is not on the record: {page}");
    }
    let plain = bench.ana.create(&bench.path(), bench.sheet(2)).await;
    for name in ["air_temperature", "relative_humidity_percent", "tank_fill_percent", "place", "checked_by"] {
        assert_eq!(plain[name], json!(null), "{name}");
    }
    let page = bench.ana.get(&format!("/page/calibrations/{}", text(&plain["id"]))).await.text;
    assert!(!page.contains("Air temperature") && !page.contains("Tank full") && !page.contains("Checked by"), "{page}");
}

async fn it_changes_nothing_of_the_number(world: World) {
    let bench = Bench::new(&world).await;
    let ask = async |mut sheet: Value| {
        sheet["metering_unit_id"] = json!(bench.unit);
        let answer = bench.ana.post("/calibrations/preview", sheet).await;
        assert_eq!(answer.status, 200, "{}", answer.text);
        answer.json()["result"].clone()
    };
    assert_eq!(ask(surrounded(&bench)).await, ask(bench.sheet(2)).await);
}

async fn what_cannot_be_is_refused(world: World) {
    let bench = Bench::new(&world).await;
    let mut bad = bench.sheet(2);
    bad["air_temperature"] = air("125", "°C");
    bad["relative_humidity_percent"] = json!(101);
    bad["tank_fill_percent"] = json!("100.5");
    bad["place"] = json!("a\nb");
    bad["checked_by"] = json!(" ");
    let answer = bench.ana.post(&bench.path(), bad).await;
    assert!(answer.text.contains("125 °C is no air in which seed is caught."), "{}", answer.text);
    let pointers = ["/air_temperature", "/relative_humidity_percent", "/tank_fill_percent", "/place", "/checked_by"];
    answer.refused(422, &pointers);
    for (bad, pointers) in [
        (air("285", "K"), vec!["/air_temperature/unit"]),
        (air("warm", "°F"), vec!["/air_temperature/value"]),
        (json!({ "value": "12" }), vec!["/air_temperature/unit"]),
        (json!(12), vec!["/air_temperature"]),
        (air("-80", "°F"), vec!["/air_temperature"]),
    ] {
        let mut sheet = bench.sheet(2);
        sheet["air_temperature"] = bad;
        bench.ana.post(&bench.path(), sheet).await.refused(422, &pointers);
    }
    assert_eq!(bench.ana.read(&bench.path()).await["items"], json!([]));
}

async fn a_scale_check_names_its_mass_and_certificate(world: World) {
    let bench = Bench::new(&world).await;
    let path = format!("/scales/{}/checks", bench.scale);
    let check = |at: &str, identity: Value, certificate: Value| {
        json!({ "occurred_at": at, "reference": { "value": "1", "unit": "kg" }, "reading": { "value": "1", "unit": "kg" },
            "reference_identity": identity, "certificate": certificate })
    };
    let made =
        bench.ana.create(&path, check("2027-03-20T08:00:00Z", json!("M 3"), json!("Weights office, no. 2231"))).await;
    assert_eq!(
        (&made["reference_identity"], &made["certificate"]),
        (&json!("M 3"), &json!("Weights office, no. 2231"))
    );
    assert_eq!(bench.ana.read(&path).await["items"][0], made);
    // A check that came after the catch, and one that does not stand, are not what it rests on.
    bench.ana.create(&path, check("2027-03-31T08:00:00Z", json!("M 9"), json!(null))).await;
    let void = bench.ana.create(&path, check("2027-03-25T08:00:00Z", json!("M 7"), json!(null))).await;
    let reason = json!({ "reason": "another scale" });
    bench.ana.create(&format!("/records/{}/void", text(&void["id"])), reason).await;
    let mut sheet = bench.sheet(2);
    sheet["scale_id"] = json!(bench.scale);
    let record = bench.ana.create(&bench.path(), sheet).await;
    let page = bench.ana.get(&format!("/page/calibrations/{}", text(&record["id"]))).await.text;
    assert!(page.contains("M 3") && page.contains("Weights office, no. 2231"), "{page}");
    assert!(!page.contains("M 7") && !page.contains("M 9"), "{page}");
    let scales = bench.ana.get("/page/scales").await.text;
    assert!(scales.contains("Known mass: M 3. Certificate: Weights office, no. 2231."), "{scales}");
    let bad = check("2027-03-20T08:00:00Z", json!(""), json!("n".repeat(121)));
    bench.ana.post(&path, bad).await.refused(422, &["/reference_identity", "/certificate"]);
    // By its form.
    let form = bench.ana.get(&format!("/page{path}/new")).await.text;
    assert!(form.contains("name=\"reference_identity\"") && form.contains("name=\"certificate\""), "{form}");
    let fields = [
        ("occurred_at", "2027-03-30T07:00"),
        ("reference/value", "1"),
        ("reference/unit", "kg"),
        ("reading/value", "much"),
        ("reading/unit", "kg"),
        ("reference_identity", "M 4"),
        ("certificate", ""),
    ];
    let answer = bench.ana.submit(&format!("/page{path}"), &fields).await;
    assert!(answer.status == 422 && answer.text.contains("value=\"M 4\""), "{}", answer.text);
}

/// A sheet as the page sends it, of two repeats.
fn typed<'a>(bench: &'a Bench, more: &[(&'a str, &'a str)]) -> Vec<(&'a str, &'a str)> {
    let mut fields = vec![
        ("id", "0196d2a0-0000-7000-8000-0000000000e7"),
        ("occurred_at", "2027-03-30T09:40"),
        ("lot_id", bench.lot.as_str()),
        ("method", "stationary"),
        ("_counted", "revolutions"),
        ("_mass_unit", "kg"),
        ("air_temperature/value", ""),
        ("air_temperature/unit", "°C"),
        ("relative_humidity_percent", ""),
        ("tank_fill_percent", ""),
        ("place", ""),
        ("checked_by", ""),
        ("repeats/0/revolutions", "60"),
        ("repeats/0/catches/0/runs", "1"),
        ("repeats/0/catches/0/tare/value", "0.32"),
        ("repeats/0/catches/0/gross/value", "2.11"),
        ("repeats/1/revolutions", "60"),
        ("repeats/1/catches/0/runs", "1"),
        ("repeats/1/catches/0/tare/value", "0.32"),
        ("repeats/1/catches/0/gross/value", "2.12"),
    ];
    for (name, value) in more {
        fields.retain(|(known, _)| known != name);
        fields.push((name, value));
    }
    fields
}

async fn the_sheet_folds_it_away_and_loses_nothing(world: World) {
    let bench = Bench::new(&world).await;
    let path = format!("/page/metering-units/{}/catch", bench.unit);
    let fresh = bench.ana.get(&path).await.text;
    let folded = fresh.split("Air, tank, place and who checked it").nth(1).expect("a folded part");
    let folded = folded.split("</details>").next().expect("its end");
    for name in ["air_temperature/value", "relative_humidity_percent", "tank_fill_percent", "place", "checked_by"] {
        assert!(folded.contains(&format!("name=\"{name}\"")), "{name}: {folded}");
    }
    assert!(!fresh.contains("<details class=\"more\" open>"), "nothing was typed yet");
    let wrong = [
        ("air_temperature/value", "125"),
        ("relative_humidity_percent", "much"),
        ("tank_fill_percent", "-5"),
        ("place", "Yard"),
        ("checked_by", "Cem"),
        ("_do", "save"),
    ];
    let answer = bench.ana.submit(&path, &typed(&bench, &wrong)).await;
    assert_eq!(answer.status, 422);
    for said in [
        "<details class=\"more\" open>",
        "air_temperature/value-error",
        "relative_humidity_percent-error",
        "tank_fill_percent-error",
        "value=\"-5\"",
        "value=\"125\"",
        "value=\"much\"",
        "value=\"Yard\"",
        "value=\"Cem\"",
        "value=\"2.11\"",
    ] {
        assert!(answer.text.contains(said), "{said} is lost: {}", answer.text);
    }
    // One more row keeps it, and a unit typed with the number is taken for what it says.
    let kept = bench.ana.submit(&path, &typed(&bench, &[("place", "Yard"), ("_do", "add_run/0")])).await;
    assert!(kept.status == 200 && kept.text.contains("value=\"Yard\""), "{}", kept.text);
    let right = [("air_temperature/value", "54,5 °F"), ("tank_fill_percent", "62,5"), ("_do", "save")];
    let saved = bench.ana.submit(&path, &typed(&bench, &right)).await;
    assert_eq!(saved.status, 303, "{}", saved.text);
    let record = bench.ana.read(saved.headers["location"].to_str().unwrap()).await;
    assert_eq!(record["air_temperature"], air("54.5", "°F"));
    assert_eq!(record["tank_fill_percent"].to_string(), "62.5");
    assert_eq!((&record["place"], &record["checked_by"]), (&json!(null), &json!(null)));
}

async fn a_correction_from_a_phone_carries_it(world: World) {
    let bench = Bench::new(&world).await;
    let first = bench.ana.create(&bench.path(), bench.sheet(2)).await;
    let mut right = surrounded(&bench);
    right["id"] = json!("0196d2a0-0000-7000-8000-0000000000e8");
    right["corrects"] = first["id"].clone();
    let mut wrong = surrounded(&bench);
    wrong["id"] = json!("0196d2a0-0000-7000-8000-0000000000e9");
    wrong["air_temperature"] = air("900", "°C");
    let entry = |record: &Value| json!({ "kind": "calibration", "parent_id": bench.unit, "record": record });
    let answer = bench.ana.post("/sync", json!({ "entries": [entry(&right), entry(&wrong)] })).await.json();
    assert_eq!(answer["results"][0]["outcome"], "stored", "{answer}");
    assert_eq!(answer["results"][1]["outcome"], "refused", "{answer}");
    let stored = bench.ana.read("/calibrations/0196d2a0-0000-7000-8000-0000000000e8").await;
    assert_eq!((&stored["air_temperature"], &stored["corrects"]), (&air("12.50", "°C"), &first["id"]));
    assert_eq!(stored["tank_fill_percent"].to_string(), "33.3");
    // The same entry again is the same; with another tank it is another, and refused.
    let again = bench.ana.post("/sync", json!({ "entries": [entry(&right)] })).await.json();
    assert_eq!(again["results"][0]["outcome"], "already_stored", "{again}");
    right["tank_fill_percent"] = json!("34");
    bench.ana.post(&bench.path(), right).await.refused(409, &[]);
    // What was refused stands on the sheet as it was sent, to be mended.
    let refused = bench.ana.get("/page/outbox").await;
    assert_eq!(refused.status, 200);
    let mend = format!("/page/metering-units/{}/catch?refused=0196d2a0-0000-7000-8000-0000000000e9", bench.unit);
    let sheet = bench.ana.get(&mend).await.text;
    assert!(sheet.contains("value=\"900\"") && sheet.contains("value=\"Yard, under the roof\""), "{sheet}");
    assert!(sheet.contains("<details class=\"more\" open>"), "{sheet}");
}

async fn each_reads_it_on_the_own_scale(world: World) {
    let bench = Bench::new(&world).await;
    let record = bench.ana.create(&bench.path(), surrounded(&bench)).await;
    let path = format!("/calibrations/{}", text(&record["id"]));
    let mut browser = Browser::of(&world, &bench.ana, Role::Office).await;
    let chosen = [("units", "us"), ("decimal_sign", "point"), ("language", "en")];
    assert_eq!(browser.submit(&world, "/account/reading", &chosen).await.status, 303);
    // By hand: 12.50 x 1.8 + 32 = 54.50.
    let page = browser.get(&world, &path).await.text;
    assert!(page.contains("12.50 °C (54.50 °F)"), "{page}");
    let sheet = browser.get(&world, &format!("/metering-units/{}/catch", bench.unit)).await.text;
    assert!(sheet.contains("<option value=\"°F\" selected>"), "{sheet}");
    let chosen = [("units", "metric"), ("decimal_sign", "comma"), ("language", "es")];
    assert_eq!(browser.submit(&world, "/account/reading", &chosen).await.status, 303);
    let page = browser.get(&world, &path).await.text;
    assert!(page.contains("Temperatura del aire") && page.contains("12,50 °C") && page.contains("64,0 %"), "{page}");
    assert!(page.contains("Tolva llena hasta cerca del") && page.contains("33,3 %"), "{page}");
}

async fn lists_have_it(world: World) {
    let bench = Bench::new(&world).await;
    let mut fahrenheit = surrounded(&bench);
    fahrenheit["air_temperature"] = air("50", "°F");
    bench.ana.create(&bench.path(), fahrenheit).await;
    let check = json!({ "occurred_at": "2027-03-20T08:00:00Z", "reference": { "value": "1", "unit": "kg" },
        "reading": { "value": "1", "unit": "kg" }, "reference_identity": "M 3", "certificate": "no. 2231" });
    bench.ana.create(&format!("/scales/{}/checks", bench.scale), check).await;
    let rows = by_python(&file(&bench.ana, "calibrations", "").await, ',');
    for (heading, cell) in [
        // 50 °F are 10 °C exactly: (50 - 32) / 1.8.
        ("air_temperature [°C]", "10"),
        ("air_temperature_as_entered", "50 °F"),
        ("relative_humidity [%]", "64.0"),
        ("tank_fill [%]", "33.3"),
        ("place", "Yard, under the roof"),
        ("checked_by", "Cem, foreman"),
    ] {
        assert_eq!(column(&rows, heading), [cell], "{heading}");
    }
    let rows = by_python(&file(&bench.ana, "scale-checks", "").await, ',');
    assert_eq!(
        (column(&rows, "reference_identity"), column(&rows, "certificate")),
        (vec!["M 3".to_owned()], vec!["no. 2231".to_owned()])
    );
}
