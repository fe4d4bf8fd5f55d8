//! Lists taken in from files: what is found before anything is stored, what is stored then, and that what was taken away
//! comes back as it was.

use super::csv_lists::{by_python, column, file};
use crate::on_both;
use crate::people::browser::location;
use crate::readiness::farm::{AGREES, catch};
use crate::seed::{drill, job, lot};
use crate::world::{Answer, Person, World};
use serde_json::{Value, json};
use sowmark::exchange::import::kind::Imported;
use sowmark::exchange::import::sheet::{File, LONGEST_CELL, MOST_COLUMNS, MOST_ROWS, text_of};
use std::time::Duration;

on_both!(
    what_is_taken_away_comes_back_the_same,
    each_fault_is_named_before_anything_is_stored,
    nothing_is_stored_twice,
    a_name_that_is_taken_is_a_fault,
    what_was_taken_away_here_is_there_already,
    a_file_of_a_spreadsheet_with_decimal_commas,
    what_cannot_be_read_is_told_and_not_kept,
    a_restart_loses_nothing,
    a_file_belongs_to_its_organization_and_its_office,
    a_template_can_be_filled_in_and_sent,
);

/// Sends a file and answers the address of its page, once it is checked.
async fn check(world: &World, person: &Person, kind: &str, content: &str) -> (String, String) {
    let answer = person.upload(&format!("/page/exchange/import/{kind}"), "list.csv", content.as_bytes()).await;
    assert_eq!(answer.status, 303, "{kind}: {}", answer.text);
    let page = format!("/page{}", location(&answer));
    let found = settled(world, person, &page).await;
    (page, found)
}

/// The page once nobody is at work on the file.
async fn settled(_: &World, person: &Person, page: &str) -> String {
    for _ in 0..600 {
        let answer = person.get(page).await;
        assert_eq!(answer.status, 200, "{}", answer.text);
        if !answer.text.contains("data-progress") {
            return answer.text;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    panic!("the file is never done")
}

async fn store(world: &World, person: &Person, page: &str) -> String {
    assert_eq!(person.submit(&format!("{page}/store"), &[]).await.status, 303);
    settled(world, person, page).await
}

/// Checks and stores a file of which every row is good.
async fn take_in(world: &World, person: &Person, kind: &str, content: &str) {
    let (page, found) = check(world, person, kind, content).await;
    assert!(!found.contains("has faults") && !found.contains("have faults"), "{kind}: {found}");
    let stored = store(world, person, &page).await;
    assert!(stored.contains("The file was taken in."), "{kind}: {stored}");
}

/// A list without what is a record's own in each organization: ids, and when and by whom it was recorded.
async fn facts(person: &Person, list: &str) -> Vec<Vec<String>> {
    let rows = by_python(&file(person, list, "").await, ',');
    let own = ["id", "seeder_id", "recorded_at", "recorded_by"];
    let kept: Vec<usize> = (0..rows[0].len()).filter(|at| !own.contains(&rows[0][*at].as_str())).collect();
    let mut facts: Vec<Vec<String>> =
        rows[1..].iter().map(|row| kept.iter().map(|at| row[*at].clone()).collect()).collect();
    facts.sort();
    facts
}

async fn farm(world: &World, ana: &Person) -> String {
    let drill = drill(world, ana, "=Drill 1").await;
    let mill = ana.create("/clients", json!({ "name": "Mill Farm" })).await;
    ana.create(
        "/fields",
        json!({ "name": "Long acre", "area": { "value": "30.5", "unit": "ac" }, "client_id": mill["id"] }),
    )
    .await;
    let more = json!({ "supplier": "Gr\u{fc}n; S\u{f6}hne", "received_on": "2027-03-02", "received_mass": { "value": "2000", "unit": "lb" },
        "treatment": { "product": "Tqol", "caution": "Gloves,\nmask" }, "analysis": { "purity_percent": "99.20", "germination_percent": "95" },
        "label": { "origin": "Oregon", "category": "certified, first generation", "serial_number": "=7", "sealed_in": "2027-01",
            "declared_weight": { "lb": 50, "oz": 0 }, "containers": 40, "hermetic": true, "hard_seed_percent": "2.50",
            "other_crop_percent": "0.10", "inert_matter_percent": "0.70", "noxious_weeds": "dock: 4 in 1 lb,\nno dodder",
            "additives": "lime; 34 %", "inoculant_expires": "2027-06", "test_report": "no. 4711" },
        "client_id": mill["id"] });
    let wheat = lot(ana, "W-1", more).await;
    lot(ana, "-2", json!({})).await;
    let roller = ana.create("/rollers", json!({ "label": "fine", "kind": "fluted" })).await;
    let setup = json!({ "occurred_at": "2027-03-21T08:00:00Z", "roller_id": roller["id"], "drive_ratio": "5:2", "runs": 8, "note": "" });
    ana.create(&drill.path("setups"), setup).await;
    let mut caught = catch("2027-03-28T08:00:00Z", &wheat, None, AGREES);
    caught["air_temperature"] = json!({ "value": "54.5", "unit": "\u{b0}F" });
    caught["relative_humidity_percent"] = json!("64.0");
    caught["tank_fill_percent"] = json!("40.0");
    caught["place"] = json!("=yard");
    caught["checked_by"] = json!("Cem; foreman");
    ana.create(&drill.path("calibrations"), caught).await;
    ana.create(
        &drill.path("jobs"),
        job(&wheat, &json!({ "speed": { "value": "5.5", "unit": "mph" }, "note": "wet, \"heavy\"" })),
    )
    .await;
    ana.create(&drill.path("jobs"), job(&wheat, &json!({ "seed_used_basis": "bags" }))).await;
    let void = ana.create(&drill.path("jobs"), job(&wheat, &json!({ "note": "wrong" }))).await;
    ana.create(&format!("/records/{}/void", void["id"].as_str().unwrap()), json!({ "reason": "another field" })).await;
    drill.unit
}

async fn what_is_taken_away_comes_back_the_same(world: World) {
    let (ana, eve) = (world.ana().await, world.ana().await);
    farm(&world, &ana).await;
    eve.create("/clients", json!({ "name": "Mill Farm" })).await;
    let pairs = [("metering-units", "seeders"), ("lots", "lots"), ("fields", "fields"), ("jobs", "jobs")];
    for query in ["", "?form=semicolon&mark=with"] {
        for (list, kind) in pairs {
            take_in(&world, &eve, kind, &file(&ana, list, query).await).await;
            let mut wanted = facts(&ana, list).await;
            // What no longer stood is left out.
            wanted.retain(|row| !row.contains(&"another field".to_owned()));
            assert_eq!(facts(&eve, list).await, wanted, "{list} {query}");
        }
    }
    let units = eve.read("/seeders").await;
    let unit = units["items"][0]["metering_units"][0]["id"].as_str().unwrap().to_owned();
    let roller = eve.create("/rollers", json!({ "label": "fine", "kind": "fluted" })).await;
    let setup = json!({ "occurred_at": "2027-03-21T08:00:00Z", "roller_id": roller["id"], "drive_ratio": "5:2", "runs": 8, "note": "" });
    eve.create(&format!("/metering-units/{unit}/setups"), setup).await;
    take_in(&world, &eve, "calibrations", &file(&ana, "catches", "").await).await;
    assert_eq!(facts(&eve, "catches").await, facts(&ana, "catches").await);
    assert_eq!(facts(&eve, "calibrations").await, facts(&ana, "calibrations").await);
}

async fn each_fault_is_named_before_anything_is_stored(world: World) {
    let ana = world.ana().await;
    let text = "field,area [ha],client\nGood,12.4,\nBad,twelve,\nWorse,-1,Nobody\n,3,\nComma,\"1,5\",\n";
    let (page, found) = check(&world, &ana, "fields", text).await;
    for says in [
        "1 entry is good",
        "4 entries have faults",
        "Row 3, column \u{201c}area [ha]\u{201d}, \u{201c}twelve\u{201d}:",
        "Row 4, column \u{201c}client\u{201d}, \u{201c}Nobody\u{201d}: No client is called",
        "Row 4, column \u{201c}area [ha]\u{201d}, \u{201c}-1\u{201d}:",
        "Row 5, column \u{201c}field\u{201d}, empty:",
        "\u{201c}1,5\u{201d}: the decimal sign of this file is \u{201c}.\u{201d}. Either \u{201c},\u{201d} is meant as one",
        "\u{2212}1 ha is negative, which no area can be.",
    ] {
        assert!(found.contains(says), "{says}: {found}");
    }
    assert_eq!(ana.read("/fields").await["items"], json!([]));
    let stored = store(&world, &ana, &page).await;
    assert!(stored.contains("1 entry was stored") && stored.contains("Nobody"), "{stored}");
    assert_eq!(column(&by_python(&file(&ana, "fields", "").await, ','), "field"), ["Good"]);
    // The other choice.
    let (page, _) = check(&world, &ana, "fields", "field,area [ha]\nOther,1\n").await;
    assert_eq!(ana.submit(&format!("{page}/drop"), &[]).await.status, 303);
    assert!(ana.get(&page).await.text.contains("Nothing of this file was stored"));
    assert_eq!(ana.submit(&format!("{page}/store"), &[]).await.status, 409);
    assert_eq!(column(&by_python(&file(&ana, "fields", "").await, ','), "field"), ["Good"]);
    // More seed is not caught than the bag and the seed weigh, and a unit must be there.
    let drill = drill(&world, &ana, "Drill 1").await;
    let roller = ana.create("/rollers", json!({ "label": "fine", "kind": "fluted" })).await;
    let setup = json!({ "occurred_at": "2027-03-21T08:00:00Z", "roller_id": roller["id"], "drive_ratio": "5:2", "runs": 8, "note": "" });
    ana.create(&drill.path("setups"), setup).await;
    lot(&ana, "W-1", json!({})).await;
    let text = "occurred_at,seeder,metering_unit,lot_number,method,repeat,revolutions,runs,tare [kg],gross [kg]\n\
        2027-03-28T08:00,Drill 1,tank 1,W-1,stationary,1,60,1,0.3,2.1\n\
        2027-03-28T08:00,Drill 1,tank 1,W-1,stationary,1,60,1,0.3,0.1\n\
        2027-03-28T09:00,Drill 1,tank 9,W-1,stationary,1,60,1,0.3,2.1\n";
    let (_, found) = check(&world, &ana, "calibrations", text).await;
    assert!(
        found.contains("2 entries have faults") && found.contains("tank 9") && found.contains("Row 3, column"),
        "{found}"
    );
}

async fn nothing_is_stored_twice(world: World) {
    let ana = world.ana().await;
    let text = "field,area [ha]\nA,1\nB,2\n";
    take_in(&world, &ana, "fields", text).await;
    let (page, found) = check(&world, &ana, "fields", text).await;
    assert!(found.contains("2 entries are stored already"), "{found}");
    assert_eq!(ana.submit(&format!("{page}/store"), &[]).await.status, 303);
    settled(&world, &ana, &page).await;
    // A mended file: what was good in it the first time is there once.
    let (page, found) = check(&world, &ana, "fields", "field,area [ha]\nB,2\nC,3\nA,1\n").await;
    assert!(found.contains("1 entry is good"), "{found}");
    store(&world, &ana, &page).await;
    let mut names = column(&by_python(&file(&ana, "fields", "").await, ','), "field");
    names.sort();
    assert_eq!(names, ["A", "B", "C"]);
    // Nothing was kept of the rehearsals: the trail has a line for each of the three.
    let trail = file(&ana, "audit", "").await;
    let kinds = column(&by_python(&trail, ','), "subject_kind");
    assert_eq!(kinds.iter().filter(|kind| *kind == "field").count(), 3, "{trail}");
}

async fn a_name_that_is_taken_is_a_fault(world: World) {
    let ana = world.ana().await;
    ana.create("/clients", json!({ "name": "Mill Farm" })).await;
    lot(&ana, "W-1", json!({ "crop": "wheat", "variety": "Ardel" })).await;
    drill(&world, &ana, "Drill 1").await;
    // The same but for its case; the same twice in the file; of another client, variety or serial number, so another.
    let seeder = "box_drill,2020-03-01,3,0.125,box,8,electric";
    let seeders = format!(
        "seeder,serial_number,kind,commissioned_on,working_width [m],row_spacing [m],metering_unit,runs,drive\n\
         drill 1,A-1,{seeder}\nDrill 1,X-9,{seeder}\nDrill 2,A-1,{seeder}\n"
    );
    let cases = [
        (
            "fields",
            "field,area [ha],client\nBeck,1,\nbeck ,2,\nBeck,3,Mill Farm\n",
            "Row 3, column \u{201c}field\u{201d}",
        ),
        (
            "lots",
            "lot_number,crop,variety\nw-1,Wheat,Ardel\nW-1,barley,\nW-1,wheat,Corvane\n",
            "Row 2, column \u{201c}lot_number\u{201d}",
        ),
        ("seeders", seeders.as_str(), "Row 2, column \u{201c}seeder\u{201d}"),
    ];
    for (kind, text, told) in cases {
        let (page, found) = check(&world, &ana, kind, text).await;
        assert!(found.contains("2 entries are good") && found.contains("1 entry has faults"), "{kind}: {found}");
        assert!(found.contains(told) && found.contains("called this already"), "{kind}: {found}");
        let stored = store(&world, &ana, &page).await;
        assert!(stored.contains("2 entries were stored"), "{kind}: {stored}");
    }
}

async fn what_was_taken_away_here_is_there_already(world: World) {
    let ana = world.ana().await;
    farm(&world, &ana).await;
    let pairs = [
        ("metering-units", "seeders"),
        ("lots", "lots"),
        ("fields", "fields"),
        ("jobs", "jobs"),
        ("catches", "calibrations"),
    ];
    for (list, kind) in pairs {
        let before = file(&ana, list, "").await;
        let (page, found) = check(&world, &ana, kind, &before).await;
        assert!(
            !found.contains("is good") && !found.contains("are good") && !found.contains("fault"),
            "{kind}: {found}"
        );
        assert!(found.contains("stored already"), "{kind}: {found}");
        ana.submit(&format!("{page}/store"), &[]).await;
        settled(&world, &ana, &page).await;
        assert_eq!(file(&ana, list, "").await, before, "{kind}");
    }
}

async fn a_file_of_a_spreadsheet_with_decimal_commas(world: World) {
    let ana = world.ana().await;
    let text = "\u{feff}Field;Area (ha)\r\n\"Lange; Wiese\";12,50\r\nAcker;1.250\r\n";
    let (page, found) = check(&world, &ana, "fields", text).await;
    // 1.250 could be a thousand or one and a quarter.
    assert!(found.contains("1 entry is good") && found.contains("\u{201c}1.250\u{201d}"), "{found}");
    store(&world, &ana, &page).await;
    let rows = by_python(&file(&ana, "fields", "").await, ',');
    assert_eq!(
        (column(&rows, "field"), column(&rows, "area [ha]")),
        (vec!["Lange; Wiese".into()], vec!["12.50".into()])
    );
}

async fn what_cannot_be_read_is_told_and_not_kept(world: World) {
    let ana = world.ana().await;
    let send = async |bytes: &[u8]| ana.upload("/page/exchange/import/fields", "x.csv", bytes).await;
    let refused = |answer: &Answer, says: &str| {
        assert!(answer.status == 422 && answer.text.contains(says), "{says}: {} {}", answer.status, answer.text);
    };
    refused(&send(b"field,area [ha]\nS\xfcd,1\n").await, "from line 2 on, most likely Windows-1252");
    refused(&send(b"field,area [ha]\nS\0d,1\n").await, "NUL");
    refused(&send(b"").await, "The file is empty");
    refused(&send(b"name,hectares\nA,1\n").await, "No column is headed");
    refused(&send(",x".repeat(700_000).as_bytes()).await, "700001 columns");
    refused(&send(format!("field,area [ha]\n\"{}\n", "x".repeat(1_400_000)).as_bytes()).await, "longer than 5000");
    refused(&send(&vec![b'x'; 1_700_000]).await, "1536 KiB");
    let nothing = ana.submit("/page/exchange/import/fields", &[]).await;
    assert!(nothing.status == 422 && nothing.text.contains("Choose a CSV file"), "{}", nothing.text);
    assert_eq!(ana.submit("/page/exchange/import/stars", &[]).await.status, 404);
    assert!(!ana.get("/page/exchange").await.text.contains("/exchange/imports/"));
}

async fn a_restart_loses_nothing(world: World) {
    let ana = world.ana().await;
    let (page, _) = check(&world, &ana, "fields", "field,area [ha]\nA,1\nB,2\n").await;
    // As if the server had stopped in the middle of storing.
    let id = uuid::Uuid::try_parse(page.rsplit('/').next().unwrap()).unwrap();
    let mut tx = world.app.db.begin().await.unwrap();
    let sql = "update import set stage = 'storing', done = 0 where id = $1";
    tx.cx().execute(sql, sowmark::args![id]).await.unwrap();
    tx.commit().await.unwrap();
    let waiting = ana.get(&page).await.text;
    assert!(waiting.contains("Storing: 0 of 2") && waiting.contains("http-equiv=\"refresh\""), "{waiting}");
    world.set_time("2027-04-01T06:05:00Z");
    let stored = settled(&world, &ana, &page).await;
    assert!(stored.contains("2 entries were stored"), "{stored}");
}

async fn a_file_belongs_to_its_organization_and_its_office(world: World) {
    let (ana, eve) = (world.ana().await, world.ana().await);
    let ben = world.member(ana.organization, "ben-import@example.org", "crew").await;
    let (page, _) = check(&world, &ana, "fields", "field,area [ha]\nA,1\n").await;
    assert_eq!(eve.get(&page).await.status, 404);
    assert_eq!(eve.submit(&format!("{page}/store"), &[]).await.status, 404);
    assert_eq!(ben.get(&page).await.status, 403);
    assert_eq!(ben.upload("/page/exchange/import/fields", "x.csv", b"field,area [ha]\nA,1\n").await.status, 403);
    assert!(!ben.get("/page/exchange").await.text.contains("/exchange/import/"));
    assert!(ana.get("/page/exchange").await.text.contains("waits for your choice"));
}

async fn a_template_can_be_filled_in_and_sent(world: World) {
    let ana = world.ana().await;
    for kind in ["seeders", "lots", "fields"] {
        let template = ana.get(&format!("/page/exchange/import/{kind}/template.csv")).await;
        take_in(&world, &ana, kind, &template.text).await;
    }
    let template = ana.get("/page/exchange/import/jobs/template.csv").await.text;
    take_in(&world, &ana, "jobs", &template).await;
    let jobs: Vec<Value> = ana.read("/usage").await["jobs"].as_array().unwrap().clone();
    // A time without offset is one of the organization's zone; 1736 kg on 12.4 ha are 140 kg/ha.
    assert_eq!(jobs[0]["occurred_at"], "2027-04-06T08:00:00+02:00");
    assert!(jobs[0]["deviation_percent"].as_f64().unwrap().abs() < 1e-9);
}

fn told(text: &str) -> String {
    File::read(Imported::Fields, text).map_or_else(|says| says.plain(), |_| String::new())
}

#[test]
fn a_hostile_file_is_answered_clearly() {
    assert!(text_of(b"field\xe4,area").unwrap_err().plain().contains("UTF-8"));
    assert!(text_of(b"field\0").unwrap_err().plain().contains("NUL"));
    assert!(text_of(b"\xff\xfef\0").unwrap_err().plain().contains("UTF-16"));
    assert_eq!(text_of("\u{feff}field".as_bytes()).unwrap(), "field");
    let wide = ",x".repeat(1_000_000);
    let cases = [
        (String::new(), "empty"),
        (wide, "1000001 columns"),
        ("field,area [ha]\nA,1\nB,1,2\n".to_owned(), "Row 3"),
        (format!("field,area [ha]\n{},1\n", "x".repeat(LONGEST_CELL + 1)), "row 2 is longer"),
        (format!("field,area [ha]\n{}", "A,1\n".repeat(MOST_ROWS + 1)), "10000 rows"),
        ("field,area [ha]\n".to_owned(), "no rows"),
        ("field,area [ha],colour\nA,1,red\n".to_owned(), "colour"),
        ("field,area\nA,1\n".to_owned(), "m2, ha, ac"),
        ("field,area [kg]\nA,1\n".to_owned(), "m2, ha, ac"),
        ("field,area [ha],field\nA,1,B\n".to_owned(), "Two columns are headed"),
        ("area [ha]\n1\n".to_owned(), "field"),
    ];
    for (text, wanted) in cases {
        let says = told(&text);
        assert!(says.contains(wanted), "{wanted}: {says}");
    }
    const { assert!(MOST_COLUMNS < 1_000) };
}

#[test]
fn a_file_is_read_however_it_is_written() {
    for text in [
        "field,area [ha]\nA,1.5\n",
        "field,area [ha]\r\nA,1.5\r\n\r\n",
        "Field;Area (ha)\r\nA;1,5\r\n",
        "field\tarea [ha]\nA\t1.5\n",
        "id,field,area [ha],area_as_entered\nx,A,1.5,1.5 ha\n",
    ] {
        let file = File::read(Imported::Fields, text).unwrap_or_else(|says| panic!("{}", says.plain()));
        assert_eq!((file.rows.len(), file.has_decimal_comma), (1, text.contains("1,5")), "{text}");
    }
}
