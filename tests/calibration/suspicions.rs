//! What may have gone wrong, with the records of the organization as clues; and the page behind each check.

use super::bench::{Bench, amount, put, text};
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};

on_both!(a_bag_weighed_in_is_suspected_by_the_bags_of_the_last_catch, every_check_has_its_page);

/// Two repeats of two runs. `tare` is what is written down; the bags weigh 0.320 kg.
fn sheet(bench: &Bench, occurred_at: &str, tare: &str) -> Value {
    let caught = |gross: &str| json!({ "runs": 1, "tare": { "value": tare, "unit": "kg" }, "gross": { "value": gross, "unit": "kg" } });
    let mut sheet = bench.sheet(2);
    put(&mut sheet, "/occurred_at", json!(occurred_at));
    put(&mut sheet, "/scale_id", json!(bench.scale));
    put(&mut sheet, "/repeats/0", json!({ "revolutions": "60", "catches": [caught("2.110"), caught("2.136")] }));
    put(&mut sheet, "/repeats/1", json!({ "revolutions": "60", "catches": [caught("2.124"), caught("2.141")] }));
    sheet
}

async fn a_bag_weighed_in_is_suspected_by_the_bags_of_the_last_catch(world: World) {
    let bench = Bench::new(&world).await;
    let first = bench.ana.create(&bench.path(), sheet(&bench, "2027-03-30T09:40:00+02:00", "0.320")).await;
    assert_eq!((&first["status"], &first["result"]["suspicions"]), (&json!("accepted"), &json!([])), "{first}");

    let slip = sheet(&bench, "2027-03-31T09:40:00+02:00", "0");
    let mut asked = slip.clone();
    asked["metering_unit_id"] = json!(bench.unit);
    let preview = bench.ana.post("/calibrations/preview", asked).await;
    assert_eq!(preview.status, 200, "{}", preview.text);
    let second = bench.ana.create(&bench.path(), slip).await;
    for answer in [&preview.json(), &second] {
        let suspicions = answer["result"]["suspicions"].as_array().expect("a list");
        let places: Vec<_> = suspicions.iter().take(3).collect();
        let bags = places.iter().find(|found| found["cause"] == "tare_left_in");
        let bags = bags.unwrap_or_else(|| panic!("the bags are suspected among the first three: {suspicions:?}"));
        let (would_give, first) = (amount(&bags["would_give"]), amount(&first["result"]["factor"]));
        assert!(
            (would_give / first - 1.0).abs() < 1e-9,
            "{bags}: without the bags it is the first catch again, {first}"
        );
        assert!(text(&bags["says"]).contains("0.320 kg"), "{bags}");
    }
    let record = bench.ana.get(&format!("/page/calibrations/{}", text(&second["id"]))).await;
    assert!(record.text.contains("What may have gone wrong") && record.text.contains("The bags were weighed in"));
    let first_id = text(&first["id"]);
    assert!(record.text.contains(&format!("href=\"/calibrations/{first_id}\"")), "what it was expected from is linked");
    // Read back, it says the same: the clues are kept with the record.
    let again = bench.ana.read(&format!("/calibrations/{}", text(&second["id"]))).await;
    assert_eq!(again["result"]["suspicions"], second["result"]["suspicions"]);
}

async fn every_check_has_its_page(world: World) {
    let bench = Bench::new(&world).await;
    let first = bench.ana.create(&bench.path(), sheet(&bench, "2027-03-30T09:40:00+02:00", "0.320")).await;
    let record = bench.ana.get(&format!("/page/calibrations/{}", text(&first["id"]))).await;
    for check in first["result"]["checks"].as_array().expect("checks") {
        let href = format!("/checks/{}", text(&check["check"]));
        assert!(record.text.contains(&format!("href=\"{href}\"")), "{href} is linked");
        let page = bench.ana.get(&format!("/page{href}")).await;
        assert!(page.status == 200 && page.text.contains("Source: "), "{}", page.text);
    }
    assert_eq!(bench.ana.get("/page/checks").await.text.matches("Source: ").count(), 9);
    assert_eq!(bench.ana.get("/page/checks/luck").await.status, 404);
}
