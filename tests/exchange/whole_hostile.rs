//! Files that nobody exported: each is refused with the place that is wrong, and nothing of it stays.

use super::whole_round::{exported, imported};
use crate::on_both;
use crate::readiness::farm::{Farm, job};
use crate::world::World;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use sowmark::people::act::is_unused;

on_both!(
    what_is_no_whole_export,
    a_file_of_an_earlier_version_lacks_what_was_added,
    rows_that_were_tampered_with,
    evidence_that_does_not_fit
);

/// A small organization, as its lines.
async fn lines() -> Vec<Value> {
    let world = World::on_sqlite().await;
    let (farm, _) = Farm::ready(&world).await;
    let wrong = farm.log("jobs", job("2027-03-29T08:00:00Z", &farm.wheat, "1400", "8")).await;
    let mut right = job("2027-03-29T08:00:00Z", &farm.wheat, "1410", "8");
    right["corrects"] = json!(wrong);
    farm.log("jobs", right).await;
    let file = exported(&world, farm.ana.organization).await;
    file.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

/// The lines as a file whose end fits them: only what they say can be wrong.
fn sealed(lines: &[Value]) -> String {
    let (head, rest) = lines.split_first().unwrap();
    let rows: String = rest[..rest.len() - 1].iter().flat_map(|line| [line.to_string(), "\n".to_owned()]).collect();
    let hash = sowmark::hex::written(&Sha256::digest(&rows));
    format!("{head}\n{rows}{}\n", json!({ "end": { "rows": rest.len() - 1, "sha256": hash } }))
}

async fn refused(world: &World, what: &str, file: &str, parts: &[&str]) {
    let says = match imported(world, file).await {
        Ok(_) => panic!("{what}: taken in"),
        Err(refused) => refused.to_string(),
    };
    for part in parts {
        assert!(says.contains(part), "{what}: {says}");
    }
    assert!(is_unused(&world.app.db).await.unwrap(), "{what}: something of it stayed");
}

fn first<'a>(lines: &'a mut [Value], table: &str) -> &'a mut Value {
    &mut lines.iter_mut().find(|line| line["table"] == table).unwrap_or_else(|| panic!("no {table}"))["row"]
}

async fn what_is_no_whole_export(world: World) {
    let lines = lines().await;
    let file = sealed(&lines);
    let (head, rest) = file.split_once('\n').unwrap();
    let with_head = |head: Value| format!("{head}\n{rest}");
    let mut other = lines[0].clone();
    other["format"] = json!("somebody else's");
    let mut newer = lines[0].clone();
    newer["version"] = json!(4);
    let without_end = &file[..=file.trim_end().rfind('\n').unwrap()];
    let third = rest.lines().nth(2).unwrap();
    let cases: Vec<(&str, String, &[&str])> = vec![
        ("nothing", String::new(), &["empty"]),
        ("no JSON", "PK\u{3}\u{4}\n".to_owned(), &["line 1:", "head"]),
        ("another format", with_head(other), &["line 1, /format", "sowmark organization"]),
        ("another version", with_head(newer), &["line 1, /version", "version 4", "versions 1 to 3"]),
        ("the head alone", format!("{head}\n"), &["cut short"]),
        ("cut in a line", file[..file.len() * 2 / 3].to_owned(), &["cut short"]),
        ("without its end", without_end.to_owned(), &["cut short"]),
        ("a row taken out", file.replacen(&format!("{third}\n"), "", 1), &["/end/rows"]),
        ("a letter changed", file.replacen("fine fluted", "fine flutes", 1), &["/end/sha256"]),
        ("more after the end", format!("{file}{third}\n"), &["follows the end"]),
        ("a line without end", format!("{head}\n{}", "x".repeat(17 << 20)), &["line 2", "longer than"]),
        ("depth", format!("{head}\n{}\n", "[".repeat(100_000)), &["line 2", "row of a table"]),
        ("bytes that are no text", format!("{head}\n{{\"table\":\"\u{0}\"}}\n"), &["line 2"]),
    ];
    for (what, file, parts) in cases {
        refused(&world, what, &file, parts).await;
    }
}

/// As version 1 was written: without what labels state, what surrounds a catch (of that how full the tank was came with version
/// 3) and what a known mass is traced by.
async fn a_file_of_an_earlier_version_lacks_what_was_added(world: World) {
    let whole = lines().await;
    let mut earlier = whole.clone();
    let added = |table: &str| -> &[&str] {
        match table {
            "lot" => &["origin", "category", "hard_seed_percent", "containers", "hermetic", "inoculant_expires"],
            "calibration" => {
                &["air_temperature", "relative_humidity_percent", "place", "checked_by", "tank_fill_percent"]
            }
            "scale_check" => &["reference_identity", "certificate"],
            _ => &[],
        }
    };
    let mut left_out = 0;
    for line in &mut earlier {
        let names = added(line["table"].as_str().unwrap_or_default());
        if let Some(row) = line["row"].as_object_mut() {
            left_out += names.iter().filter(|name| row.remove(**name).is_some()).count();
        }
    }
    assert!(left_out > 10, "{left_out}");
    refused(&world, "of this version", &sealed(&earlier), &["it is missing: every column stands in every row"]).await;
    earlier[0]["version"] = json!(1);
    comes_back(&world, &earlier, &whole).await;
    let mut second = whole.clone();
    second[0]["version"] = json!(2);
    let calibrations = second.iter_mut().filter(|line| line["table"] == "calibration");
    let removed = calibrations.filter_map(|line| line["row"].as_object_mut()?.remove("tank_fill_percent")).count();
    assert!(removed > 0);
    comes_back(&World::on_sqlite().await, &second, &whole).await;
}

async fn comes_back(world: &World, earlier: &[Value], whole: &[Value]) {
    let taken = imported(world, &sealed(earlier)).await.unwrap_or_else(|refused| panic!("{refused}"));
    let again = exported(world, taken.organization).await;
    let again: Vec<Value> = again.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(again[1..again.len() - 1], whole[1..whole.len() - 1]);
}

async fn rows_that_were_tampered_with(world: World) {
    let whole = lines().await;
    let nobody = json!("00000000-0000-7000-8000-000000000007");
    let changes: Vec<(&str, &str, &str, Value, &[&str])> = vec![
        ("an unknown column", "roller", "colour", json!("red"), &["/row/colour", "no such column"]),
        ("a null", "roller", "label", Value::Null, &["/row/label", "never empty"]),
        ("a number for a text", "roller", "label", json!(7), &["/row/label", "a text is wanted"]),
        ("a zero character", "roller", "label", json!("a\u{0}b"), &["/row/label", "zero character"]),
        ("a word of no list", "roller", "kind", json!("magic"), &["/row", "does not take"]),
        ("no id", "roller", "id", json!("7"), &["/row/id", "UUID"]),
        (
            "an id in capitals",
            "roller",
            "id",
            json!("0196D2A0-0000-7000-8000-000000000003"),
            &["/row/id", "lower case"],
        ),
        ("another organization", "organization", "id", nobody.clone(), &["/row/id", "the head names"]),
        ("a zone of nowhere", "organization", "time_zone", json!("Nowhere/Land"), &["time zone"]),
        ("a lot that is not there", "job", "lot_id", nobody.clone(), &["/row", "not in the file"]),
        ("a person who is not there", "entry", "recorded_by", nobody.clone(), &["/row", "not in the file"]),
        ("an entry that is not there", "roller", "id", nobody.clone(), &["/row", "not in the file"]),
        ("runs below one", "setup", "runs", json!(-1), &["/row/runs", "1 to"]),
        ("runs beyond all numbers", "setup", "runs", json!(u64::MAX), &["/row/runs", "1 to"]),
        ("half a run", "setup", "runs", json!(1.5), &["/row/runs", "whole number"]),
        ("a ratio of nothing", "setup", "drive_ratio", json!("0:2"), &["/row/drive_ratio"]),
        ("an area below zero", "job", "area", json!("-10 ha"), &["/row/area"]),
        ("a month that no year has", "lot", "sealed_in", json!("2027-13"), &["/row/sealed_in"]),
        ("a share that is no number", "lot", "weed_seed_percent", json!("some"), &["/row/weed_seed_percent"]),
        ("bags by halves", "lot", "containers", json!(2.5), &["/row/containers"]),
        ("an air in kelvin", "calibration", "air_temperature", json!("285 K"), &["/row/air_temperature"]),
        ("a mass in miles", "job", "seed_used", json!("1400 mi"), &["/row/seed_used"]),
        ("another area in SI", "job", "area_m2", json!(1.0), &["/row/area_m2", "SI value of area"]),
        ("a day that is none", "seeder", "commissioned_on", json!("2027-02-30"), &["/row/commissioned_on"]),
        ("a moment of another age", "entry", "recorded_at", json!("0001-01-01T00:00:00Z"), &["/row/recorded_at"]),
        ("an offset of days", "job", "ended_at", json!("tomorrow"), &["/row/ended_at"]),
        ("no hash", "audit", "hash", json!("00"), &["/row/hash", "64"]),
        ("no JSON in a text", "calibration", "sheet", json!("{"), &["/row/sheet", "JSON"]),
    ];
    for (what, table, column, value, parts) in changes {
        let mut lines = whole.clone();
        first(&mut lines, table)[column] = value;
        refused(&world, what, &sealed(&lines), parts).await;
    }
    let mut lines = whole.clone();
    lines.iter_mut().find(|line| line["table"] == "roller").unwrap()["table"] = json!("sqlite_master");
    refused(&world, "another table", &sealed(&lines), &["/table", "sqlite_master"]).await;
    let mut lines = whole.clone();
    first(&mut lines, "roller").as_object_mut().unwrap().remove("label");
    refused(&world, "a column too few", &sealed(&lines), &["/row/label", "missing"]).await;
    let mut lines = whole.clone();
    let twice = lines.iter().position(|line| line["table"] == "roller").unwrap();
    lines.insert(twice, lines[twice].clone());
    refused(&world, "a row twice", &sealed(&lines), &["/row", "twice"]).await;
    // A number beyond what a computer holds, as a file can say it.
    let factor = whole.iter().find(|line| line["table"] == "calibration").unwrap()["row"]["factor"].to_string();
    let text = sealed(&whole).replacen(&format!("\"factor\":{factor}"), "\"factor\":1e999", 1);
    refused(&world, "an endless number", &text, &["/row/factor"]).await;
}

async fn evidence_that_does_not_fit(world: World) {
    let whole = lines().await;
    let taken = imported(&World::on_sqlite().await, &sealed(&whole)).await;
    assert!(taken.is_ok(), "sealed anew it is taken in: only what is changed below is wrong");

    let mut lines = whole.clone();
    first(&mut lines, "audit")["change"] = json!("{}");
    refused(&world, "a line of the trail", &sealed(&lines), &["audit trail", "line 1"]).await;
    let mut lines = whole.clone();
    let last = lines.iter().rposition(|line| line["table"] == "audit").unwrap();
    lines.remove(last);
    refused(&world, "the trail's end", &sealed(&lines), &["audit trail", "end is missing"]).await;

    let mut lines = whole.clone();
    let row = first(&mut lines, "calibration");
    let mut judgement: Value = serde_json::from_str(row["judgement"].as_str().unwrap()).unwrap();
    let factor = judgement["factor"].as_f64().unwrap() * 1.01;
    judgement["factor"] = json!(factor);
    row["judgement"] = json!(judgement.to_string());
    row["factor"] = json!(factor);
    refused(&world, "a better factor", &sealed(&lines), &["calibration", "computed again"]).await;
    let mut lines = whole.clone();
    first(&mut lines, "calibration")["factor"] = json!(factor);
    refused(&world, "another factor beside it", &sealed(&lines), &["not that of its judgement"]).await;
    let mut lines = whole.clone();
    first(&mut lines, "calibration")["verdict"] = json!("fail");
    refused(&world, "another verdict beside it", &sealed(&lines), &["not that of its judgement"]).await;

    let mut lines = whole.clone();
    let lost = lines.iter().position(|line| line["table"] == "job").unwrap();
    lines.remove(lost);
    refused(&world, "an entry without its record", &sealed(&lines), &["the table job"]).await;
    let kind_of = |lines: &mut [Value], kind: &str, column: &str, value: Value| {
        let entry = lines.iter_mut().find(|line| line["table"] == "entry" && line["row"]["kind"] == kind).unwrap();
        entry["row"][column] = value;
    };
    let mut lines = whole.clone();
    kind_of(&mut lines, "fill", "kind", json!("emptying"));
    refused(&world, "an entry of another kind", &sealed(&lines), &["do not agree"]).await;
    let mut lines = whole.clone();
    kind_of(&mut lines, "fill", "kind", json!("miracle"));
    refused(&world, "an entry of no kind", &sealed(&lines), &["no known kind"]).await;
    let mut lines = whole.clone();
    kind_of(&mut lines, "fill", "occurred_at", Value::Null);
    refused(&world, "a record without its moment", &sealed(&lines), &["when it happened"]).await;
    let nobody = json!("00000000-0000-7000-8000-000000000007");
    let mut lines = whole.clone();
    kind_of(&mut lines, "fill", "corrects", nobody);
    refused(&world, "a correction of nothing", &sealed(&lines), &["/row/corrects", "not in the file"]).await;
    let scale = whole.iter().find(|line| line["table"] == "scale").unwrap()["row"]["id"].clone();
    let mut lines = whole;
    kind_of(&mut lines, "fill", "corrects", scale);
    refused(&world, "a correction of another kind", &sealed(&lines), &["another kind"]).await;
}
