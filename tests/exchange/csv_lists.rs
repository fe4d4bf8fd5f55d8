//! Lists as CSV: what stands in them, who gets which, and that another reader than ours finds the same cells.

use crate::on_both;
use crate::readiness::farm::{DISAGREES, Farm, catch, service, text};
use crate::seed::{drill, hand, id, job, lot};
use crate::world::{Person, World};
use serde_json::json;
use std::io::Write;
use std::process::{Command, Stdio};

on_both!(
    every_list_is_read_by_another_program,
    numbers_are_converted_and_kept_as_entered,
    text_is_no_formula_and_a_number_stays_one,
    a_crew_member_takes_the_own_jobs_alone,
    an_agronomist_takes_the_clients,
    a_period_leaves_the_rest_out,
    a_long_list_comes_whole,
    the_page_offers_what_one_may_take,
    what_was_decided_let_pass_and_signed,
);

const LISTS: [&str; 27] = [
    "seeders",
    "metering-units",
    "rollers",
    "scales",
    "scale-checks",
    "seasons",
    "crews",
    "configurations",
    "setups",
    "services",
    "lay-ups",
    "clients",
    "fields",
    "lots",
    "lot-tests",
    "movements",
    "fills",
    "emptyings",
    "jobs",
    "calibrations",
    "catches",
    "decisions",
    "waivers",
    "readiness",
    "usage",
    "signatures",
    "audit",
];

/// The rows of files, by the csv module of Python, which shares no code with the program.
fn all_by_python(files: &[(String, char)]) -> Vec<Vec<Vec<String>>> {
    let script = "import csv,io,json,sys\nfiles=json.load(sys.stdin)\nread=lambda text,sign:list(csv.reader(io.StringIO(text,newline=''),delimiter=sign,strict=True))\nprint(json.dumps([read(*file) for file in files]))";
    let mut child = Command::new("python3")
        .args(["-c", script])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python3 is there");
    child.stdin.take().unwrap().write_all(json!(files).to_string().as_bytes()).unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success(), "{files:?}");
    serde_json::from_slice(&output.stdout).expect("rows")
}

/// The rows of one file.
pub(crate) fn by_python(text: &str, delimiter: char) -> Vec<Vec<String>> {
    all_by_python(&[(text.to_owned(), delimiter)]).remove(0)
}

pub(crate) async fn file(person: &Person, list: &str, query: &str) -> String {
    let answer = person.get(&format!("/page/exchange/csv/{list}.csv{query}")).await;
    assert_eq!(answer.status, 200, "{list}: {}", answer.text);
    assert!(answer.headers["content-type"].to_str().unwrap().starts_with("text/csv"));
    answer.text
}

/// The cells of a column, without its heading.
pub(crate) fn column(rows: &[Vec<String>], heading: &str) -> Vec<String> {
    let at = rows[0].iter().position(|cell| cell == heading).unwrap_or_else(|| panic!("{heading} in {:?}", rows[0]));
    rows[1..].iter().map(|row| row[at].clone()).collect()
}

async fn every_list_is_read_by_another_program(world: World) {
    let ana = world.ana().await;
    let drill = drill(&world, &ana, "Drill, \"old\"; red").await;
    let wheat = lot(&ana, "W-1", json!({ "supplier": "Gr\u{fc}n" })).await;
    ana.create(&drill.path("jobs"), job(&wheat, &json!({ "note": "wet,\r\nheavy" }))).await;
    let mut files = Vec::new();
    for list in LISTS {
        files.push((file(&ana, list, "").await, ','));
        files.push((file(&ana, list, "?form=semicolon").await, ';'));
    }
    for ((text, delimiter), rows) in files.iter().zip(all_by_python(&files)) {
        assert!(rows.iter().all(|row| row.len() == rows[0].len() && row.len() > 1), "{rows:?}");
        assert!(text.ends_with("\r\n"), "{text}");
        // Ours finds the same cells.
        let mut reader = csv::ReaderBuilder::new();
        let mut reader = reader.delimiter(*delimiter as u8).has_headers(false).from_reader(text.as_bytes());
        let ours: Vec<Vec<String>> =
            reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
        assert_eq!(ours, rows, "{text}");
    }
    let units = by_python(&file(&ana, "metering-units", "").await, ',');
    assert_eq!(column(&units, "seeder"), ["Drill, \"old\"; red"]);
    assert_eq!(column(&by_python(&file(&ana, "jobs", "").await, ','), "note"), ["wet,\r\nheavy"]);
    assert_eq!(column(&by_python(&file(&ana, "lots", "").await, ','), "supplier"), ["Gr\u{fc}n"]);
    let marked = file(&ana, "lots", "?mark=with").await;
    assert!(marked.starts_with("\u{feff}id,") && file(&ana, "lots", "").await.starts_with("id,"));
    assert_eq!(ana.get("/page/exchange/csv/nothing.csv").await.status, 404);
    assert_eq!(ana.get("/page/exchange/csv/lots").await.status, 404);
}

async fn numbers_are_converted_and_kept_as_entered(world: World) {
    let ana = world.ana().await;
    for (number, value, unit) in [("A", "1250.50", "kg"), ("B", "2000", "lb"), ("C", "1.5", "t")] {
        lot(&ana, number, json!({ "received_mass": { "value": value, "unit": unit } })).await;
    }
    let rows = by_python(&file(&ana, "lots", "").await, ',');
    let mut found: Vec<_> =
        column(&rows, "received_mass [kg]").into_iter().zip(column(&rows, "received_mass_as_entered")).collect();
    found.sort();
    // 2000 lb are 907.18474 kg exactly (NIST SP 811, B.8: 1 lb = 0.453 592 37 kg).
    let wanted = [("1250.50", "1250.50 kg"), ("1500", "1.5 t"), ("907.18474", "2000 lb")];
    assert_eq!(found, wanted.map(|(number, entered)| (number.to_owned(), entered.to_owned())));
    let rows = by_python(&file(&ana, "lots", "?form=semicolon").await, ';');
    assert!(column(&rows, "received_mass [kg]").contains(&"907,18474".to_owned()));
}

async fn text_is_no_formula_and_a_number_stays_one(world: World) {
    let ana = world.ana().await;
    for number in ["=HYPERLINK(\"x\")", "+1", "-2", "@SUM(A1)", "W-1"] {
        lot(&ana, number, json!({})).await;
    }
    let mut numbers = column(&by_python(&file(&ana, "lots", "").await, ','), "lot_number");
    numbers.sort();
    assert_eq!(numbers, ["'+1", "'-2", "'=HYPERLINK(\"x\")", "'@SUM(A1)", "W-1"]);
    let drill = drill(&world, &ana, "Drill 1").await;
    let wheat = lot(&ana, "W-2", json!({})).await;
    ana.create(&drill.path("jobs"), job(&wheat, &json!({ "seed_used": { "value": "1000", "unit": "kg" } }))).await;
    let deviation = column(&by_python(&file(&ana, "usage", "").await, ','), "deviation [%]");
    // 1000 kg on 10 ha against 140 kg/ha: 100 / 140 - 1.
    assert!((deviation[0].parse::<f64>().unwrap() + 100.0 * 4.0 / 14.0).abs() < 1e-9, "{deviation:?}");
}

async fn a_crew_member_takes_the_own_jobs_alone(world: World) {
    let ana = world.ana().await;
    let (drill, other) = (drill(&world, &ana, "Drill 1").await, drill(&world, &ana, "Drill 2").await);
    let ben = hand(&world, &ana, "ben-csv@example.org", &[&drill]).await;
    let wheat = lot(&ana, "W-1", json!({})).await;
    let own = id(&ben.create(&drill.path("jobs"), job(&wheat, &json!({}))).await);
    ana.create(&drill.path("jobs"), job(&wheat, &json!({}))).await;
    ana.create(&other.path("jobs"), job(&wheat, &json!({}))).await;
    assert_eq!(column(&by_python(&file(&ben, "jobs", "").await, ','), "id"), std::slice::from_ref(&own));
    assert_eq!(column(&by_python(&file(&ben, "usage", "").await, ','), "job_id"), [own]);
    for list in LISTS.into_iter().filter(|list| !["jobs", "usage"].contains(list)) {
        assert_eq!(ben.get(&format!("/page/exchange/csv/{list}.csv")).await.status, 403, "{list}");
    }
    assert_eq!(column(&by_python(&file(&ana, "jobs", "").await, ','), "id").len(), 3);
    let eve = world.ana().await;
    assert_eq!(by_python(&file(&eve, "jobs", "").await, ',').len(), 1);
}

async fn an_agronomist_takes_the_clients(world: World) {
    let ana = world.ana().await;
    let drill = drill(&world, &ana, "Drill 1").await;
    let mill = id(&ana.create("/clients", json!({ "name": "Mill Farm" })).await);
    let theirs = lot(&ana, "M-1", json!({ "client_id": mill })).await;
    let others = lot(&ana, "H-1", json!({})).await;
    for lot in [&theirs, &others] {
        ana.create(&drill.path("jobs"), job(lot, &json!({}))).await;
        ana.create(&drill.path("fills"), json!({ "occurred_at": "2027-03-30T08:00:00Z", "lot_id": lot })).await;
        let test = json!({ "occurred_at": "2027-03-20T09:00:00Z", "germination_percent": "95" });
        ana.create(&format!("/lots/{lot}/tests"), test).await;
    }
    let gus = world.member_for(ana.organization, "gus-csv@example.org", "agronomist", &[&mill]).await;
    for list in ["lots", "lot-tests", "fills", "jobs", "usage"] {
        assert_eq!(column(&by_python(&file(&gus, list, "").await, ','), "lot_number"), ["M-1"], "{list}");
    }
    assert_eq!(column(&by_python(&file(&gus, "clients", "").await, ','), "client"), ["Mill Farm"]);
    assert_eq!(gus.get("/page/exchange/csv/crews.csv").await.status, 403);
    // The office takes the same for the client; another client's, or none's, nobody gets by asking.
    let narrowed = format!("?client_id={mill}");
    for list in LISTS.iter().filter(|list| **list != "crews") {
        assert_eq!(file(&ana, list, &narrowed).await, file(&gus, list, "").await, "{list}");
    }
    let page = ana.get(&format!("/page/exchange{narrowed}")).await;
    let link = format!("/exchange/csv/lots.csv?client_id={}", mill.replace('-', "%2D"));
    assert!(page.status == 200 && page.text.contains(&link), "{}", page.text);
    let hill = id(&ana.create("/clients", json!({ "name": "Hill Farm" })).await);
    for wrong in [format!("?client_id={hill}"), "?client_id=0196d2a0-0000-7000-8000-00000000dead".to_owned()] {
        assert_eq!(gus.get(&format!("/page/exchange/csv/lots.csv{wrong}")).await.status, 404);
    }
}

async fn a_period_leaves_the_rest_out(world: World) {
    let ana = world.ana().await;
    let drill = drill(&world, &ana, "Drill 1").await;
    let wheat = lot(&ana, "W-1", json!({})).await;
    for day in ["04", "05", "06"] {
        let at = format!("2027-04-{day}T08:00:00+02:00");
        ana.create(&drill.path("jobs"), job(&wheat, &json!({ "occurred_at": at }))).await;
    }
    let rows = by_python(&file(&ana, "jobs", "?from=2027-04-05&to=2027-04-05").await, ',');
    assert_eq!(column(&rows, "occurred_at"), ["2027-04-05T08:00:00+02:00"]);
    assert_eq!(ana.get("/page/exchange/csv/jobs.csv?from=spring").await.status, 422);
    let page = ana.get("/page/exchange?from=2027-04-06&to=2027-04-05").await;
    assert!(page.status == 422 && page.text.contains("ends before it begins"), "{}", page.text);
}

async fn a_long_list_comes_whole(world: World) {
    let ana = world.ana().await;
    for number in 0..505 {
        lot(
            &ana,
            &format!("N-{number}"),
            json!({ "supplier": "a long name, as suppliers have it, to fill more than one piece of it" }),
        )
        .await;
    }
    let rows = by_python(&file(&ana, "lots", "").await, ',');
    let mut numbers = column(&rows, "lot_number");
    numbers.sort();
    numbers.dedup();
    assert_eq!(numbers.len(), 505);
}

async fn the_page_offers_what_one_may_take(world: World) {
    let ana = world.ana().await;
    let ben = world.member(ana.organization, "ben-page-csv@example.org", "crew").await;
    let page = ana.get("/page/exchange?from=2027-04-05&form=semicolon").await;
    assert_eq!(page.status, 200);
    for list in LISTS {
        assert!(page.text.contains(&format!("/exchange/csv/{list}.csv?from=2027%2D04%2D05")), "{list}: {}", page.text);
    }
    assert!(page.text.contains("form=semicolon"));
    let own = ben.get("/page/exchange").await;
    assert!(
        own.text.contains("/exchange/csv/jobs.csv") && !own.text.contains("/exchange/csv/lots.csv"),
        "{}",
        own.text
    );
    assert!(ana.get("/page/lots").await.text.contains("/exchange/csv/lots.csv?form=comma"));
    assert!(!ben.get("/page/lots").await.text.contains("/exchange/csv"));
}

async fn what_was_decided_let_pass_and_signed(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let (ana, unit) = (&farm.ana, format!("/metering-units/{}", farm.unit));
    let held = catch("2027-03-29T08:00:00Z", &farm.wheat, Some(&farm.scale), DISAGREES);
    let held = text(&ana.create(&format!("{unit}/calibrations"), held).await["id"]);
    let decision = json!({ "decision": "rejected", "reason": "=one bag was torn" });
    ana.create(&format!("/calibrations/{held}/decisions"), decision).await;
    let rows = by_python(&file(ana, "decisions", "").await, ',');
    let cell = |heading: &str| column(&rows, heading).join("|");
    assert_eq!([cell("calibration_id"), cell("decision"), cell("verdict")], [held.as_str(), "rejected", "fail"]);
    // Made harmless, as every text is.
    assert_eq!(
        [cell("reason"), cell("metering_unit"), cell("lot_number")],
        ["'=one bag was torn", "front tank", "W-16"]
    );

    farm.at_seeder("services", service("2027-03-30T08:00:00Z", true)).await;
    let waiver = json!({ "trigger": "component_replaced", "until": "2027-04-20", "reason": "the same motor",
        "occurred_at": "2027-03-31T08:00:00Z" });
    ana.create(&format!("{unit}/waivers"), waiver).await;
    let rows = by_python(&file(ana, "waivers", "?from=2027-03-31&to=2027-03-31").await, ',');
    let cell = |heading: &str| column(&rows, heading).join("|");
    // Until the end of that day in Vienna.
    assert_eq!([cell("trigger"), cell("until")], ["component_replaced", "2027-04-20T22:00:00Z"]);
    assert_eq!([cell("reason"), cell("seeder")], ["the same motor", "Drill 1"]);
    assert_eq!(by_python(&file(ana, "waivers", "?from=2027-04-01").await, ',').len(), 1, "the headings alone");

    let mia = world.member(ana.organization, "mia-csv@example.org", "agronomist").await;
    let sign = json!({ "of": { "from": "2027-03-01", "to": "2027-03-31", "lot_id": farm.wheat }, "remark": "seen" });
    let signed = mia.create("/usage/signatures", sign).await;
    let rows = by_python(&file(&mia, "signatures", "").await, ',');
    let cell = |heading: &str| column(&rows, heading).join("|");
    assert_eq!([cell("id"), cell("chain_head")], [text(&signed["id"]), text(&signed["chain_head"])]);
    assert_eq!([cell("from"), cell("to"), cell("remark")], ["2027-03-01", "2027-03-31", "seen"]);
    assert_eq!(cell("lot"), signed["of_names"]["lot"].as_str().unwrap());
}
