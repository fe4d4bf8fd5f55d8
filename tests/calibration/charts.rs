//! What a catch still lacks, what its runs tell, and factors drawn: over time, across the fleet, over the roller speed.

use super::bench::{Bench, text};
use crate::on_both;
use crate::world::{Answer, World};
use serde_json::{Value, json};

on_both!(
    what_is_missing_is_said_before_the_next_repeat,
    a_run_that_is_always_low_is_named_and_drawn,
    a_units_factors_are_drawn_over_time,
    a_factor_that_depends_on_speed_is_shown_to_do_so,
    a_lot_is_drawn_across_the_machines_that_one_sees
);

fn grams(value: &str) -> Value {
    json!({ "value": value, "unit": "g" })
}

/// Repeats of 50 revolutions whose runs, weighed apart, gave these net masses in grams.
fn caught(bench: &Bench, on: &str, rpm: u32, repeats: &[&[u32]]) -> Value {
    let repeats = repeats.iter().map(|nets| {
        let catches = nets.iter().enumerate().map(|(i, net)| {
            json!({ "label": format!("run {}", i + 1), "runs": 1, "tare": grams("300"), "gross": grams(&(net + 300).to_string()) })
        });
        json!({ "revolutions": "50", "catches": catches.collect::<Vec<_>>() })
    });
    json!({
        "occurred_at": format!("{on}T09:40:00+02:00"), "lot_id": bench.lot, "scale_id": bench.scale, "method": "stationary",
        "roller_speed_rpm": rpm, "planned": null, "note": "", "repeats": repeats.collect::<Vec<_>>()
    })
}

async fn page(bench: &Bench, path: &str) -> Answer {
    let answer = bench.ana.get(&format!("/page{path}")).await;
    assert_eq!(answer.status, 200, "{}", answer.text);
    answer
}

/// Asserts that the page says each of these.
#[track_caller]
fn says(page: &Answer, all: &[&str]) {
    for words in all {
        assert!(page.text.contains(words), "{words} is missing: {}", page.text);
    }
}

async fn seeder_of(bench: &Bench) -> String {
    let seeders = bench.ana.read("/seeders").await;
    text(&seeders["items"][0]["id"])
}

/// 50 g / sqrt(6) is 2.27 % of 900 g; for 1 % it takes 113.4 revolutions, in handy numbers 115.
async fn what_is_missing_is_said_before_the_next_repeat(world: World) {
    let bench = Bench::new(&world).await;
    let scale = json!({ "name": "Old scale", "readability": { "value": "50", "unit": "g" }, "capacity": { "value": "30", "unit": "kg" } });
    let coarse = bench.ana.create("/scales", scale).await;
    let mut sheet = caught(&bench, "2027-03-30", 40, &[&[900, 900], &[900, 900]]);
    sheet["metering_unit_id"] = json!(bench.unit);
    let fine = bench.ana.post("/calibrations/preview", sheet.clone()).await.json();
    let advice = &fine["result"]["advice"];
    assert_eq!(
        (&advice[0]["goal"], &advice[0]["further"]["repeats"]),
        (&json!("half_uncertainty"), &json!(1)),
        "{advice}"
    );

    sheet["scale_id"] = coarse["id"].clone();
    let preview = bench.ana.post("/calibrations/preview", sheet.clone()).await.json();
    let advice = &preview["result"]["advice"];
    assert_eq!(advice.as_array().map(Vec::len), Some(1), "{advice}");
    assert_eq!((&advice[0]["goal"], &advice[0]["dominant"]), (&json!("catch_mass"), &json!("readability")));
    assert_eq!(advice[0]["further"], json!({ "repeats": 2, "revolutions": 115.0 }));

    sheet.as_object_mut().unwrap().remove("metering_unit_id");
    let record = bench.ana.create(&bench.path(), sheet).await;
    assert_eq!(record["result"]["advice"], *advice);
    let shown = page(&bench, &format!("/calibrations/{}", text(&record["id"]))).await;
    says(&shown, &["Before the next repeat", "65 more revolutions with this scale"]);

    let id = "0196d2a0-0000-7000-8000-0000000000d1";
    let scale = text(&coarse["id"]);
    let typed = [
        ("id", id),
        ("occurred_at", "2027-03-30T09:40"),
        ("lot_id", &bench.lot),
        ("scale_id", &scale),
        ("method", "stationary"),
        ("roller_speed_rpm", ""),
        ("planned/rate/value", ""),
        ("planned/rate/unit", "kg/ha"),
        ("planned/speed/value", ""),
        ("planned/speed/unit", "km/h"),
        ("_counted", "revolutions"),
        ("_per", ""),
        ("_mass_unit", "g"),
        ("repeats/0/revolutions", "50"),
        ("repeats/0/catches/0/label", "run 1"),
        ("repeats/0/catches/0/runs", "1"),
        ("repeats/0/catches/0/tare/value", "300"),
        ("repeats/0/catches/0/gross/value", "1200"),
        ("_do", "work_out"),
    ];
    let worked_out = bench.ana.submit(&format!("/page/metering-units/{}/catch", bench.unit), &typed).await;
    assert_eq!(worked_out.status, 200, "{}", worked_out.text);
    says(&worked_out, &["Worked out, not saved yet", "65 more revolutions with this scale"]);
}

/// By hand: 900 against a mean of 1000 is 10 % low, in both repeats.
async fn a_run_that_is_always_low_is_named_and_drawn(world: World) {
    let bench = Bench::new(&world).await;
    let record = bench
        .ana
        .create(&bench.path(), caught(&bench, "2027-03-30", 40, &[&[900, 1050, 1050], &[900, 1060, 1040]]))
        .await;
    let runs = &record["result"]["runs"];
    assert_eq!(runs["runs"][0]["always"], "low", "{runs}");
    assert!((runs["runs"][0]["mean_percent"].as_f64().unwrap() + 10.0).abs() < 1e-9);
    assert_eq!((&runs["repeats"], &runs["scatter_is_rounding"]), (&json!([0, 1]), &json!(false)));
    let shown = page(&bench, &format!("/calibrations/{}", text(&record["id"]))).await;
    says(
        &shown,
        &[
            "In both repeats run 1 gave less than the mean of the runs, 10 % on average",
            "Each run against the mean of the runs, %",
            "role=\"img\" aria-labelledby=\"runs-t runs-d\"",
            "<path class=\"limit\"",
            "Lowest on average is run 1 (\u{2212}10 %), highest run 2 (+5.5 %).",
            "The same as a table",
        ],
    );
    assert_eq!(shown.text.matches("<path class=\"point\"").count(), 3);
    assert_eq!(shown.text.matches("<path class=\"point-2\"").count(), 3);

    let together = bench.ana.create(&bench.path(), caught(&bench, "2027-03-30", 40, &[&[900], &[905]])).await;
    assert_eq!(together["result"]["runs"], Value::Null);
    let shown = page(&bench, &format!("/calibrations/{}", text(&together["id"]))).await;
    assert!(!shown.text.contains("<svg class=\"chart\""), "there is nothing to compare");
}

/// The second roller's label has what HTML would take for a tag.
async fn a_units_factors_are_drawn_over_time(world: World) {
    let bench = Bench::new(&world).await;
    let seeder = seeder_of(&bench).await;
    let empty = page(&bench, &format!("/seeders/{seeder}")).await;
    assert!(!empty.text.contains("<svg class=\"chart\""));

    bench.ana.create(&bench.path(), caught(&bench, "2027-03-10", 40, &[&[1500], &[1505]])).await;
    let roller = bench.ana.create("/rollers", json!({ "label": "<i>coarse</i>", "kind": "fluted" })).await;
    let setup = json!({ "occurred_at": "2027-03-15T08:00:00+01:00", "roller_id": roller["id"], "drive_ratio": "1", "gate": null, "runs": 25, "note": "" });
    bench.ana.create(&format!("/metering-units/{}/setups", bench.unit), setup).await;
    bench.ana.create(&bench.path(), caught(&bench, "2027-03-20", 40, &[&[2500], &[2505]])).await;
    let void = bench.ana.create(&bench.path(), caught(&bench, "2027-03-21", 40, &[&[2700], &[2705]])).await;
    let reason = json!({ "reason": "wrong lot chosen" });
    let voided = bench.ana.post(&format!("/records/{}/void", text(&void["id"])), reason).await;
    assert!(voided.status.is_success(), "{}", voided.text);
    // One repeat alone fails: it waits for the office.
    bench.ana.create(&bench.path(), caught(&bench, "2027-03-25", 40, &[&[2600]])).await;

    let shown = page(&bench, &format!("/seeders/{seeder}")).await;
    says(
        &shown,
        &[
            "Factor over time, kg/100rev per run",
            "3 catches from 10 March 2027 to 25 March 2027, between 3.00",
            "One waits for the office and is drawn hollow.",
            "One that no longer stands is left out.",
            "Roller: &#60;i&#62;coarse&#60;/i&#62;",
            "W-12, fine",
            "<path class=\"point-2 hollow\"",
        ],
    );
    assert!(!shown.text.contains("<i>coarse"), "a label is escaped");
    assert_eq!(shown.text.matches("<path class=\"error-bar\"").count(), 3);
    assert!(!shown.text.contains("Factor against roller speed"), "all were caught at one speed");
}

async fn a_factor_that_depends_on_speed_is_shown_to_do_so(world: World) {
    let bench = Bench::new(&world).await;
    bench.ana.create(&bench.path(), caught(&bench, "2027-03-10", 30, &[&[1500], &[1505], &[1502]])).await;
    bench.ana.create(&bench.path(), caught(&bench, "2027-03-11", 90, &[&[1300], &[1302], &[1304]])).await;
    let seeder = seeder_of(&bench).await;
    let shown = page(&bench, &format!("/seeders/{seeder}")).await;
    says(
        &shown,
        &[
            "Factor against roller speed, kg/100rev per run: W-12, fine",
            "2 catches at two speeds, with the line through them and its uncertainty (95 %).",
            "All were weighed on one scale",
            "From 30.0 to 90.0 rpm the factor falls by 13.3 % (\u{b1} ",
            "catch at the roller speed that you will sow at.",
            "<path class=\"band\"",
        ],
    );
}

async fn a_lot_is_drawn_across_the_machines_that_one_sees(world: World) {
    let bench = Bench::new(&world).await;
    let ana = &bench.ana;
    bench.ana.create(&bench.path(), caught(&bench, "2027-03-10", 40, &[&[1500], &[1505]])).await;
    let other = json!({
        "name": "Drill 2", "serial_number": "SN-2", "kind": "air_drill", "commissioned_on": "2021-03-01",
        "working_width": { "value": "6.0", "unit": "m" }, "row_spacing": { "value": "20", "unit": "cm" },
        "metering_units": [{ "label": "tank 1", "runs": 8, "drive": "electric" }]
    });
    let other = ana.create("/seeders", other).await;
    let unit = text(&other["metering_units"][0]["id"]);
    let roller = ana.create("/rollers", json!({ "label": "big", "kind": "fluted" })).await;
    let setup = json!({ "occurred_at": "2027-03-01T08:00:00+01:00", "roller_id": roller["id"], "drive_ratio": "1", "gate": null, "runs": 8, "note": "" });
    ana.create(&format!("/metering-units/{unit}/setups"), setup).await;
    let second = Bench { unit, ana: ana.clone(), lot: bench.lot.clone(), scale: bench.scale.clone() };
    ana.create(&second.path(), caught(&second, "2027-03-12", 40, &[&[2900], &[2905]])).await;

    let shown = page(&bench, &format!("/lots/{}", bench.lot)).await;
    says(
        &shown,
        &[
            "Factors of this lot across the fleet, kg/100rev per run",
            "Never a number to key in elsewhere",
            "Drill 1, left",
            "Drill 2, tank 1",
        ],
    );
    let kim = world.member(ana.organization, &format!("kim-{}@example.org", ana.organization), "crew").await;
    let crew = json!({ "name": "Yard", "members": [kim.account], "seeders": [other["id"]] });
    ana.create("/crews", crew).await;
    let hers = kim.get(&format!("/page/lots/{}", bench.lot)).await;
    assert_eq!(hers.status, 200, "{}", hers.text);
    says(&hers, &["Drill 2, tank 1", "One catch, on 12 March 2027."]);
    assert!(!hers.text.contains("Drill 1, left"), "another crew's machine");
}
