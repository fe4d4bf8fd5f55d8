//! The catch sheet without a script: rows are added, nothing typed is lost, faults stand beside their fields.

use super::bench::{Bench, text};
use crate::on_both;
use crate::world::{Answer, World};

on_both!(
    a_catch_from_the_first_row_to_the_record,
    faults_stand_beside_their_fields,
    pounds_and_turns_are_understood,
    the_office_decides_on_the_record
);

/// The value of a field as the page shows it.
fn shown(page: &Answer, name: &str) -> Option<String> {
    let tag = page.text.split('<').find(|tag| tag.starts_with("input") && tag.contains(&format!("name=\"{name}\"")))?;
    let value = tag.split(" value=\"").nth(1)?;
    value.split('"').next().map(str::to_owned)
}

fn sheet<'a>(bench: &'a Bench, typed: &[(&'a str, &'a str)]) -> Vec<(&'a str, &'a str)> {
    let mut fields = vec![
        ("id", "0196d2a0-0000-7000-8000-0000000000e1"),
        ("occurred_at", "2027-03-30T09:40"),
        ("lot_id", bench.lot.as_str()),
        ("scale_id", ""),
        ("method", "stationary"),
        ("roller_speed_rpm", ""),
        ("planned/rate/value", ""),
        ("planned/rate/unit", "kg/ha"),
        ("planned/speed/value", ""),
        ("planned/speed/unit", "km/h"),
        ("_counted", "revolutions"),
        ("_per", ""),
        ("_mass_unit", "kg"),
    ];
    for (name, value) in typed {
        fields.retain(|(known, _)| known != name);
        fields.push((name, value));
    }
    fields
}

/// Two repeats; each second row is blank, though its label is prefilled.
const TYPED: [(&str, &str); 14] = [
    ("repeats/0/revolutions", "60"),
    ("repeats/0/catches/0/label", "run 1"),
    ("repeats/0/catches/0/runs", "1"),
    ("repeats/0/catches/0/tare/value", ""),
    ("repeats/0/catches/0/gross/value", ""),
    ("repeats/0/catches/1/label", "run 2"),
    ("repeats/0/catches/1/runs", "1"),
    ("repeats/0/catches/1/tare/value", "0,32"),
    ("repeats/0/catches/1/gross/value", "2,11"),
    ("repeats/1/revolutions", "60"),
    ("repeats/1/catches/0/label", "run 2"),
    ("repeats/1/catches/0/runs", "1"),
    ("repeats/1/catches/0/tare/value", "0.32"),
    ("repeats/1/catches/0/gross/value", "2.12"),
];

async fn a_catch_from_the_first_row_to_the_record(world: World) {
    let bench = Bench::new(&world).await;
    let path = format!("/page/metering-units/{}/catch", bench.unit);
    let fill = serde_json::json!({ "occurred_at": "2027-03-29T08:00:00+02:00", "lot_id": bench.lot });
    bench.ana.create(&format!("/metering-units/{}/fills", bench.unit), fill).await;
    let fresh = bench.ana.get(&path).await;
    assert_eq!(fresh.status, 200, "{}", fresh.text);
    // The lot in the tank is chosen, so its treatment is told before the form.
    let (treated, form) = (fresh.text.find("Fungicide X"), fresh.text.find("<form class=\"form\""));
    assert!(treated.is_some() && treated < form, "{}", fresh.text);
    assert!(fresh.text.contains("fine, ratio 1, 25 runs in use"));
    assert_eq!(shown(&fresh, "repeats/1/catches/3/label").as_deref(), Some("run 4"));
    assert_eq!(shown(&fresh, "repeats/2/revolutions"), None);

    let mut asked = sheet(&bench, &TYPED);
    asked.push(("_do", "add_repeat"));
    let more = bench.ana.submit(&path, &asked).await;
    assert_eq!(more.status, 200);
    assert!(!more.text.contains("role=\"alert\""), "{}", more.text);
    assert_eq!(shown(&more, "repeats/2/revolutions").as_deref(), Some("60"));
    assert_eq!(shown(&more, "repeats/0/catches/0/gross/value").as_deref(), Some("2,11"), "the filled row comes first");
    assert!(more.text.contains("<output>1.79 kg</output>"), "{}", more.text);

    let mut asked = sheet(&bench, &TYPED);
    asked.push(("_do", "add_run/1"));
    let wider = bench.ana.submit(&path, &asked).await;
    assert_eq!(shown(&wider, "repeats/1/catches/1/label").as_deref(), Some("run 2"));

    let mut asked = sheet(&bench, &TYPED);
    asked.push(("_do", "work_out"));
    let result = bench.ana.submit(&path, &asked).await;
    assert_eq!(result.status, 200, "{}", result.text);
    assert!(result.text.contains("Worked out, not saved yet"));
    assert_eq!(shown(&result, "id").as_deref(), Some("0196d2a0-0000-7000-8000-0000000000e1"));
    assert_eq!(bench.ana.read(&bench.path()).await["items"], serde_json::json!([]));

    let mut asked = sheet(&bench, &TYPED);
    asked.push(("_do", "save"));
    let saved = bench.ana.submit(&path, &asked).await;
    assert_eq!(saved.status, 303, "{}", saved.text);
    let record = saved.headers["location"].to_str().unwrap().to_owned();
    assert_eq!(bench.ana.submit(&path, &asked).await.headers["location"], record.as_str(), "sent twice, saved once");

    let page = bench.ana.get(&format!("/page{record}")).await;
    assert_eq!(page.status, 200, "{}", page.text);
    for words in [
        "Number to key in",
        "Pass with remarks",
        "2.11 kg",
        "lb/100rev",
        "Uncertainty",
        "In force now.",
        "kg per 100 revolutions <span>per run",
    ] {
        assert!(page.text.contains(words), "{words} is missing: {}", page.text);
    }
    let list = bench.ana.get(&format!("/page/metering-units/{}/calibrations", bench.unit)).await;
    assert!(list.status == 200 && list.text.contains(&record), "{}", list.text);
}

async fn faults_stand_beside_their_fields(world: World) {
    let bench = Bench::new(&world).await;
    let path = format!("/page/metering-units/{}/catch", bench.unit);
    let mut typed = TYPED;
    typed[8].1 = "0,11";
    typed[9].1 = "many";
    let mut asked = sheet(&bench, &typed);
    asked.push(("_do", "save"));
    let back = bench.ana.submit(&path, &asked).await;
    assert_eq!(back.status, 422, "{}", back.text);
    for error in ["repeats/0/catches/0/gross/value-error", "repeats/1/revolutions-error"] {
        assert!(back.text.contains(&format!("id=\"{error}\"")), "{error}: {}", back.text);
    }
    assert_eq!(shown(&back, "repeats/0/catches/0/gross/value").as_deref(), Some("0,11"));
    assert_eq!(shown(&back, "repeats/1/revolutions").as_deref(), Some("many"));
    assert!(back.text.contains("<title>Error: "));
    let nothing = bench.ana.submit(&path, &sheet(&bench, &[("_do", "save")])).await;
    assert_eq!(nothing.status, 422);
    assert!(nothing.text.contains("Nothing was typed yet"), "{}", nothing.text);
}

async fn pounds_and_turns_are_understood(world: World) {
    let bench = Bench::new(&world).await;
    let path = format!("/page/metering-units/{}/catch", bench.unit);
    let mut asked = sheet(&bench, &TYPED);
    asked.push(("_do", "unit/lb"));
    let pounds = bench.ana.submit(&path, &asked).await;
    assert_eq!(shown(&pounds, "_mass_unit").as_deref(), Some("lb"));
    assert_eq!(shown(&pounds, "repeats/0/catches/0/gross/unit").as_deref(), Some("lb"));

    let mut typed = TYPED.to_vec();
    typed[8].1 = "5 lb 8 oz";
    typed.extend([("_counted", "pulses"), ("_mass_unit", "lb"), ("_do", "save")]);
    let back = bench.ana.submit(&path, &sheet(&bench, &typed)).await;
    assert!(back.status == 422 && back.text.contains("id=\"_per-error\""), "{}", back.text);
    typed.push(("_per", "24"));
    let saved = bench.ana.submit(&path, &sheet(&bench, &typed)).await;
    assert_eq!(saved.status, 303, "{}", saved.text);
    let record = bench.ana.read(saved.headers["location"].to_str().unwrap()).await;
    assert_eq!(record["repeats"][0]["catches"][0]["gross"]["lb"], "5");
    assert_eq!(record["repeats"][0]["catches"][0]["tare"]["unit"], "lb");
    assert_eq!(record["repeats"][0]["revolutions"]["pulses_per_rev"], "24");
}

async fn the_office_decides_on_the_record(world: World) {
    let bench = Bench::new(&world).await;
    let held = bench.ana.create(&bench.path(), bench.sheet(1)).await;
    let path = format!("/page/calibrations/{}", text(&held["id"]));
    let page = bench.ana.get(&path).await;
    assert!(
        page.text.contains("No number to key in") && page.text.contains("Decide with this reason"),
        "{}",
        page.text
    );
    let back = bench.ana.submit(&format!("{path}/decisions"), &[("decision", "accepted"), ("reason", "")]).await;
    assert!(back.status == 422 && back.text.contains("id=\"reason-error\""), "{}", back.text);
    let decided = bench
        .ana
        .submit(&format!("{path}/decisions"), &[("decision", "rejected"), ("reason", "one bag was torn")])
        .await;
    assert_eq!(decided.status, 303, "{}", decided.text);
    let page = bench.ana.get(&path).await;
    assert!(
        page.text.contains("one bag was torn") && page.text.contains("The office rejected this calibration."),
        "{}",
        page.text
    );
}
