//! A catch is recorded as entered, judged, kept once, and comes out the same when computed again.

use super::bench::{Bench, CAUGHT, amount, put, text};
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};
use sowmark::access;
use sowmark::calibration::stored::recheck;
use sowmark_core::ids::CalibrationId;

on_both!(
    a_published_catch_is_recorded,
    the_same_catch_twice_is_one_record,
    a_preview_stores_nothing,
    revolutions_are_counted_in_four_ways,
    what_was_stored_computes_again_to_the_same,
    the_tolerances_in_force_are_those_when_it_was_recorded,
    the_last_factor_is_what_is_expected_next
);

/// Total, mean and scatter of the textbook's twelve units; see [`super::bench::GRAMS`].
async fn a_published_catch_is_recorded(world: World) {
    let bench = Bench::new(&world).await;
    let record = bench.ana.create(&bench.path(), bench.sheet(2)).await;
    let result = &record["result"];
    let near = |value: f64, wanted: f64| assert!((value / wanted - 1.0).abs() < 1e-12, "{value}, not {wanted}");
    near(amount(&result["repeats"][0]["caught"]), 0.2709);
    near(amount(&result["factor"]), 0.000_451_5);
    near(amount(&result["factor_unit_total"]), 0.000_451_5 * 25.0);
    assert_eq!(result["factor"]["unit"], "kg/rev");
    let cv = result["run_cv_percent"].as_f64().unwrap();
    assert!((cv - 1.323_86).abs() < 1e-5, "{cv}");
    assert_eq!((&record["status"], &result["verdict"]), (&json!("accepted"), &json!("pass_with_remarks")));
    assert_eq!(result["suspicions"], json!([]));
    assert_eq!(result["checks"].as_array().unwrap().iter().filter(|check| check["outcome"] == "fail").count(), 0);
    assert_eq!(result["budget"].as_array().unwrap().len(), 4);

    assert_eq!(record["occurred_at"], CAUGHT);
    assert_eq!((&record["metering_unit_id"], &record["lot_id"]), (&json!(bench.unit), &json!(bench.lot)));
    assert_eq!((&record["roller_speed_rpm"], &record["scale_id"]), (&json!(42), &Value::Null));
    assert_eq!(record["repeats"][1]["catches"][2]["gross"], json!({ "value": "22.0", "unit": "g" }));
    assert_eq!(record["repeats"][1]["revolutions"], "50");
    assert_eq!((&record["policy"]["id"], &record["policy"]["values"]["minimum_repeats"]), (&Value::Null, &json!(2)));
    assert_eq!((&record["decisions"], &record["void"]), (&json!([]), &Value::Null));

    let path = format!("/calibrations/{}", text(&record["id"]));
    assert_eq!(bench.ana.read(&path).await, record);
    assert_eq!(bench.ana.read(&bench.path()).await, json!({ "items": [record], "next": null }));
}

async fn the_same_catch_twice_is_one_record(world: World) {
    let bench = Bench::new(&world).await;
    let mut sheet = bench.sheet(2);
    sheet["id"] = json!("0196d2a0-0000-7000-8000-0000000000c1");
    let first = bench.ana.create(&bench.path(), sheet.clone()).await;
    // The world moved on: it would be judged otherwise now.
    let check = json!({ "occurred_at": "2027-03-30T08:00:00+02:00", "reference": { "value": "1", "unit": "kg" }, "reading": { "value": "1.2", "unit": "kg" } });
    bench.ana.create(&format!("/scales/{}/checks", bench.scale), check).await;
    let again = bench.ana.post(&bench.path(), sheet.clone()).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, first.clone()));
    put(&mut sheet, "/repeats/0/revolutions", json!("60"));
    bench.ana.post(&bench.path(), sheet).await.refused(409, &[]);
    assert_eq!(bench.ana.read(&bench.path()).await["items"], json!([first]));
}

async fn a_preview_stores_nothing(world: World) {
    let bench = Bench::new(&world).await;
    let mut asked = bench.sheet(2);
    asked["metering_unit_id"] = json!(bench.unit);
    let preview = bench.ana.post("/calibrations/preview", asked.clone()).await;
    assert_eq!(preview.status, 200, "{}", preview.text);
    assert_eq!(bench.ana.read(&bench.path()).await["items"], json!([]));
    let audit = bench.ana.read("/audit?limit=500").await.to_string();
    assert!(!audit.contains("\"calibration\""), "{audit}");

    let stored = bench.ana.create(&bench.path(), bench.sheet(2)).await;
    assert_eq!(preview.json()["result"], stored["result"]);
    assert_eq!(preview.json()["status"], "accepted");

    asked["metering_unit_id"] = json!("0196d2a0-0000-7000-8000-0000000000ff");
    bench.ana.post("/calibrations/preview", asked.clone()).await.refused(404, &["/metering_unit_id"]);
    asked.as_object_mut().unwrap().remove("metering_unit_id");
    put(&mut asked, "/method", json!("thrown"));
    bench.ana.post("/calibrations/preview", asked.clone()).await.refused(422, &["/metering_unit_id", "/method"]);
}

/// Sixty turns each way; the ratio is one to one. (Arithmetic.)
async fn revolutions_are_counted_in_four_ways(world: World) {
    let bench = Bench::new(&world).await;
    let metres = |value: &str| json!({ "value": value, "unit": "m" });
    let ways = [
        json!("60"),
        json!(60),
        json!({ "pulses": "1440", "pulses_per_rev": "24" }),
        json!({ "turns": "60" }),
        json!({ "distance": metres("150"), "circumference": metres("2.5") }),
    ];
    for way in ways {
        let mut sheet = bench.with("/repeats/0/revolutions", way.clone());
        put(&mut sheet, "/repeats/1/revolutions", way.clone());
        let record = bench.ana.create(&bench.path(), sheet).await;
        assert_eq!(record["result"]["repeats"][0]["revolutions"].as_f64(), Some(60.0), "{way}");
        let kept = if way.is_number() { json!("60") } else { way };
        assert_eq!(record["repeats"][0]["revolutions"], kept);
    }
}

async fn what_was_stored_computes_again_to_the_same(world: World) {
    let bench = Bench::new(&world).await;
    let mut sheet = bench.sheet(3);
    sheet["scale_id"] = json!(bench.scale);
    sheet["planned"] = json!({ "rate": { "value": "9", "unit": "kg/ha" }, "speed": { "value": "8.5", "unit": "km/h" } });
    sheet["repeats"][2]["set_aside"] = json!("spilled");
    put(&mut sheet, "/repeats/1/catches/0/gross", json!({ "lb": 0, "oz": "0.83" }));
    let record = bench.ana.create(&bench.path(), sheet).await;
    assert_eq!(record["repeats"][1]["catches"][0]["gross"]["oz"], "0.83");
    assert_eq!(record["result"]["repeats"][2]["set_aside"], true);

    let mut conn = world.app.read().await.unwrap();
    let scope = access::Scope {
        organization: bench.ana.organization,
        seeders: access::Reach::All,
        lots: access::Reach::All,
        clients: access::Reach::All,
    };
    let id = CalibrationId(text(&record["id"]).parse().unwrap());
    let found = sowmark::calibration::act::find_calibration(&mut conn.cx(), &scope, id).await.unwrap();
    let row = &found.row;
    assert_eq!(recheck(&row.sheet, &row.circumstances, &row.judgement), Ok(()));
    let heavier = row.sheet.replace("22.6 g", "22.7 g");
    assert_ne!(heavier, row.sheet);
    let says = recheck(&heavier, &row.circumstances, &row.judgement).unwrap_err();
    assert!(says.contains("kg/rev"), "{says}");
    assert!(recheck("{}", &row.circumstances, &row.judgement).is_err());
}

async fn the_tolerances_in_force_are_those_when_it_was_recorded(world: World) {
    let bench = Bench::new(&world).await;
    let lenient = bench.ana.create(&bench.path(), bench.sheet(2)).await;
    assert_eq!(lenient["status"], "accepted");
    let mut policy = lenient["policy"]["values"].clone();
    policy["minimum_repeats"] = json!(3);
    keep_policy(&world, &bench, &policy).await;
    // It happened before the policy was made, and is recorded after it.
    let strict = bench.ana.create(&bench.path(), bench.sheet(2)).await;
    assert_eq!((&strict["status"], &strict["policy"]["values"]["minimum_repeats"]), (&json!("held"), &json!(3)));
    assert!(strict["policy"]["id"].is_string());
    assert_eq!(bench.ana.read(&format!("/calibrations/{}", text(&lenient["id"]))).await, lenient);
}

/// A policy record an hour later, put in as the office's page would.
async fn keep_policy(world: &World, bench: &Bench, tolerances: &Value) {
    world.set_time("2027-04-01T07:00:00Z");
    let id: uuid::Uuid = "0196d2a0-0000-7000-8000-0000000000b0".parse().unwrap();
    let at = world.app.clock.now();
    let mut tx = world.app.db.begin().await.unwrap();
    let organization = bench.ana.organization;
    let sql = "insert into entry (organization_id, id, kind, occurred_at, occurred_offset, recorded_at, recorded_by, fingerprint, corrects)
        values ($1, $2, 'policy', $3, 0, $3, $4, $5, null)";
    tx.cx().execute(sql, sowmark::args![organization, id, at, bench.ana.account, [0_u8; 32]]).await.unwrap();
    let sql = "insert into policy (organization_id, id, tolerances) values ($1, $2, $3)";
    tx.cx().execute(sql, sowmark::args![organization, id, tolerances.to_string()]).await.unwrap();
    tx.commit().await.unwrap();
}

async fn the_last_factor_is_what_is_expected_next(world: World) {
    let bench = Bench::new(&world).await;
    let first = bench.ana.create(&bench.path(), bench.sheet(2)).await;
    assert_eq!(first["circumstances"]["expected"], Value::Null);
    let mut later = bench.sheet(2);
    put(&mut later, "/occurred_at", json!("2027-03-30T11:00:00+02:00"));
    put(&mut later, "/repeats/0/revolutions", json!("25"));
    put(&mut later, "/repeats/1/revolutions", json!("25"));
    let second = bench.ana.create(&bench.path(), later).await;
    let expected = &second["circumstances"]["expected"];
    assert_eq!((&expected["source"], &expected["calibration_id"]), (&json!("last_calibration"), &first["id"]));
    // Twice the factor is off by more than one and a half times.
    assert_eq!((&second["status"], &second["result"]["verdict"]), (&json!("held"), &json!("fail")));
}
