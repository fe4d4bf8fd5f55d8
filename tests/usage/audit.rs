//! One season of one drill, with the masses and the area of task data in the form of ISO 11783-10 made from an invented
//! scenario: 123,450 m², 2,500 kg filled, 240 kg left, 2,247.31 kg by the machine's own count.

use crate::on_both;
use crate::readiness::farm::{Farm, job, setup, text};
use crate::world::World;
use serde_json::{Value, json};

on_both!(masses_and_rates, hectares_under_an_untrue_number, periods, what_cannot_be_asked, the_page);

fn kg(value: &str) -> Value {
    json!({ "value": value, "unit": "kg" })
}

/// The job of the task data.
fn task(farm: &Farm, at: &str, seed: &str, basis: &str) -> Value {
    let mut task = job(at, &farm.wheat, seed, "8");
    task["area"] = json!({ "value": "12.345", "unit": "ha" });
    task["target_rate"] = json!({ "value": "180", "unit": "kg/ha" });
    task["seed_used_basis"] = json!(basis);
    task
}

async fn fill(farm: &Farm, at: &str, mass: &str) {
    farm.log("fills", json!({ "occurred_at": at, "lot_id": farm.wheat, "mass": kg(mass) })).await;
}

/// A farm whose tank was filled, sown from, and emptied to empty; and whose store was counted.
async fn season(world: &World, seed: &str, basis: &str) -> Farm {
    let (farm, _) = Farm::ready(world).await;
    let movement =
        |at: &str, kind: &str, mass: &str| json!({ "occurred_at": at, "kind": kind, "mass": kg(mass), "note": "" });
    let path = format!("/lots/{}/movements", farm.wheat);
    farm.ana.create(&path, movement("2027-03-10T08:00:00Z", "received", "4000")).await;
    farm.ana.create(&path, movement("2027-03-11T08:00:00Z", "sold", "300")).await;
    // The fill of the ready farm was not weighed: it is void here, as if it had never been.
    let fills = farm.ana.read(&format!("/metering-units/{}/fills", farm.unit)).await;
    farm.ana
        .create(&format!("/records/{}/void", text(&fills["items"][0]["id"])), json!({ "reason": "no such fill" }))
        .await;
    fill(&farm, "2027-03-29T08:00:00Z", "1500").await;
    farm.log("jobs", task(&farm, "2027-03-29T09:00:00Z", seed, basis)).await;
    fill(&farm, "2027-03-29T10:00:00Z", "1000").await;
    let emptying =
        json!({ "occurred_at": "2027-03-29T15:00:00Z", "lot_id": farm.wheat, "mass": kg("240"), "to_empty": true });
    farm.log("emptyings", emptying).await;
    farm.ana.create(&path, movement("2027-03-30T08:00:00Z", "counted", "1425")).await;
    farm
}

fn number(quantity: &Value) -> f64 {
    text(&quantity["value"]).parse().expect("a number")
}

#[track_caller]
fn near(quantity: &Value, wanted: f64) {
    assert!((number(quantity) - wanted).abs() < 1e-6, "{quantity} for {wanted}");
}

async fn masses_and_rates(world: World) {
    let farm = season(&world, "2260", "weighed").await;
    let usage = farm.ana.read("/usage").await;
    let lot = usage["lots"].as_array().unwrap().iter().find(|lot| lot["lot_id"] == farm.wheat.as_str()).unwrap();
    let parts = ["received", "filled", "returned", "sown", "sold", "discarded", "expected_on_hand", "counted"];
    for (part, wanted) in parts.into_iter().zip([4000.0, 2500.0, 240.0, 2260.0, 300.0, 0.0, 1440.0, 1425.0]) {
        near(&lot[part], wanted);
    }
    near(&lot["unaccounted"], -15.0);
    // Received, sold, two fills, an emptying and the count, each weighed within 10 kg.
    near(&lot["unaccounted_uncertainty"], 600_f64.sqrt());
    let sown = &usage["jobs"][0];
    near(&sown["actual_rate"], 183.070_068_853_786_95);
    assert!((sown["deviation_percent"].as_f64().unwrap() - 1.705_593_807_659_42).abs() < 1e-9, "{sown}");
    assert!((sown["seeds_per_m2"].as_f64().unwrap() - 18_307.006_885_378_695 / 40.0).abs() < 1e-6, "{sown}");
    assert_eq!(sown["calibration_valid"], true, "{sown}");
    let tank = &usage["tanks"][0];
    near(&tank["unaccounted"], 0.0);
    assert_eq!(usage["area"]["without_valid_calibration"]["value"], "0");

    // The machine's own count: 12.69 kg more left the tank than the machine believes, and the chart learns nothing of it.
    let farm = season(&world, "2247.31", "machine_total").await;
    let usage = farm.ana.read("/usage").await;
    near(&usage["tanks"][0]["unaccounted"], 12.69);
    near(&usage["tanks"][0]["sown_by_basis"]["machine_total"], 2247.31);
    near(&usage["jobs"][0]["actual_rate"], 182.042_122_316_727_41);
    assert_eq!((&usage["jobs"][0]["rate_uncertainty_percent"], &usage["drift"]), (&Value::Null, &json!([])));
}

async fn hectares_under_an_untrue_number(world: World) {
    let (farm, caught) = Farm::ready(&world).await;
    farm.log("jobs", job("2027-03-28T10:00:00Z", &farm.wheat, "1400", "7.2")).await;
    let changed = farm.log("setups", setup("2027-03-28T15:00:00Z", &farm.coarse, "5:2", "12")).await;
    farm.log("jobs", job("2027-03-29T08:00:00Z", &farm.wheat, "1500", "7.2")).await;
    let usage = farm.ana.read("/usage").await;
    near(&usage["area"]["sown"], 20.0);
    near(&usage["area"]["without_valid_calibration"], 10.0);
    let jobs = usage["jobs"].as_array().unwrap();
    assert_eq!((&jobs[0]["calibration_id"], &jobs[0]["calibration_valid"]), (&json!(caught), &json!(true)));
    assert_eq!((&jobs[1]["calibration_id"], &jobs[1]["calibration_valid"]), (&Value::Null, &json!(false)));
    let due = &jobs[1]["due"][0];
    assert_eq!(
        (&due["trigger"], &due["cause"]),
        (&json!("roller_changed"), &json!({ "kind": "setup", "id": changed }))
    );
    // Had the office let the change pass, the number would have been true, and nothing would have been due.
    let waiver = json!({ "occurred_at": "2027-03-28T16:00:00Z", "trigger": "roller_changed", "until": "2027-04-01",
        "reason": "worn alike" });
    let waiver = farm.log("waivers", waiver).await;
    let page = farm.ana.get("/page/usage").await.text;
    assert!(page.contains(">true, a reason was let pass<") && !page.contains("check was due"), "{page}");
    assert!(page.contains("10.00 ha were sown while a reason to catch again was let pass"), "{page}");
    let list = farm.ana.get("/page/exchange/csv/usage.csv").await.text;
    assert!(list.lines().nth(2).is_some_and(|line| line.trim_end().ends_with(",yes,,roller_changed")), "{list}");
    farm.ana.create(&format!("/records/{waiver}/void"), json!({ "reason": "given for another unit" })).await;
    near(&farm.ana.read("/usage").await["area"]["without_valid_calibration"], 10.0);
    // It was the right roller after all: the record is void, and the hectares were never under an untrue number.
    farm.ana.create(&format!("/records/{changed}/void"), json!({ "reason": "wrong machine" })).await;
    near(&farm.ana.read("/usage").await["area"]["without_valid_calibration"], 0.0);
}

async fn periods(world: World) {
    let farm = season(&world, "2260", "weighed").await;
    // In Vienna the day of the job is 29 March; the count came a day later.
    let before = farm.ana.read("/usage?to=2027-03-28").await;
    let after = farm.ana.read("/usage?from=2027-03-30").await;
    let day = farm.ana.read("/usage?from=2027-03-29&to=2027-03-29").await;
    let jobs = |usage: &Value| usage["jobs"].as_array().unwrap().len();
    assert_eq!((jobs(&before), jobs(&day), jobs(&after)), (0, 1, 0));
    let lot = |usage: &Value| {
        usage["lots"].as_array().unwrap().iter().find(|lot| lot["lot_id"] == farm.wheat.as_str()).cloned().unwrap()
    };
    near(&lot(&before)["expected_on_hand"], 3700.0);
    near(&lot(&day)["opening"], 3700.0);
    near(&lot(&day)["filled"], 2500.0);
    near(&lot(&after)["opening"], 1440.0);
    near(&lot(&after)["unaccounted"], -15.0);
    assert_eq!(lot(&day)["counted"], Value::Null);
    let none = farm.ana.read(&format!("/usage?lot_id={}", farm.rape)).await;
    assert_eq!((jobs(&none), none["lots"].as_array().unwrap().len()), (0, 1));
}

async fn what_cannot_be_asked(world: World) {
    let farm = Farm::new(&world).await;
    let wrong = farm.ana.get("/usage?from=spring&to=2027-13-01").await;
    wrong.refused(422, &["/from", "/to"]);
    farm.ana.get("/usage?from=2027-04-02&to=2027-04-01").await.refused(422, &["/to"]);
    farm.ana.get("/usage?speed=9").await.refused(422, &["/speed"]);
    let stranger = world.ana().await;
    let elsewhere = stranger.read("/usage").await;
    assert_eq!(elsewhere["jobs"], json!([]));
    let page = farm.ana.get("/page/usage?from=spring").await;
    assert_eq!(page.status, 422);
    assert!(page.text.contains("is no day") && page.text.contains("value=\"spring\""), "{}", page.text);
}

async fn the_page(world: World) {
    let farm = season(&world, "2260", "weighed").await;
    farm.log("setups", setup("2027-03-30T15:00:00Z", &farm.coarse, "5:2", "12")).await;
    farm.log("jobs", job("2027-03-31T08:00:00Z", &farm.wheat, "1500", "7.2")).await;
    let page = farm.ana.get("/page/usage?by=seeder").await;
    assert_eq!(page.status, 200, "{}", page.text);
    for said in [
        "<h1>Where the seed went</h1>",
        "Roller changed on 30 March",
        "183 kg/ha",
        "<td class=\"num\">+1.7 %</td><td class=\"num\">458</td>",
        "1440 kg",
        "\u{2212}15 kg \u{b1} 49 kg",
        "0 kg \u{b1} 40 kg",
        "<option value=\"seeder\" selected>",
    ] {
        assert!(page.text.contains(said), "no {said} in {}", page.text);
    }
    // What was sown under an untrue number leads to its row.
    let (_, link) = page.text.split_once("<a href=\"#").unwrap_or_else(|| panic!("{}", page.text));
    let job = link.split('"').next().unwrap();
    assert!(page.text.contains(&format!("<tr id=\"{job}\"><th scope=\"row\">31 March 2027")), "{}", page.text);
}
