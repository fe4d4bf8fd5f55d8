//! What a changed entry does to what is due, as known now, and what it leaves alone: everything that was judged before.

use super::farm::{Farm, LATER, fill, lot_test, setup};
use crate::exchange::whole_round::{exported, imported, rows};
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};
use sowmark::args;
use sowmark::calibration::stored::recheck;

on_both!(
    the_crop_of_a_lot_counts_as_it_stands,
    a_season_counts_as_it_stands,
    a_scale_s_checks_are_judged_by_its_step,
    what_was_judged_stays_as_it_was_judged,
);

async fn changed(farm: &Farm, path: &str, change: Value) {
    let answer = farm.ana.patch(path, change).await;
    assert_eq!(answer.status, 200, "{path}: {}", answer.text);
}

async fn the_crop_of_a_lot_counts_as_it_stands(world: World) {
    let (farm, caught) = Farm::ready(&world).await;
    let filled = farm.log("fills", fill("2027-03-28T20:00:00Z", &farm.other_wheat)).await;
    let cause = ("fill", filled.as_str());
    farm.due(LATER, "lot_changed", "2027-03-28T20:00:00Z", cause).await;
    let path = format!("/lots/{}", farm.other_wheat);
    changed(&farm, &path, json!({ "crop": "rye" })).await;
    farm.due(LATER, "crop_changed", "2027-03-28T20:00:00Z", cause).await;
    changed(&farm, &path, json!({ "crop": "wheat" })).await;
    farm.due(LATER, "lot_changed", "2027-03-28T20:00:00Z", cause).await;
    // The lot that was caught is what it is called: then and now alike.
    changed(&farm, &format!("/lots/{}", farm.wheat), json!({ "crop": "spelt", "lot_number": "S-1" })).await;
    farm.due(LATER, "crop_changed", "2027-03-28T20:00:00Z", cause).await;
    farm.clear("2027-03-28T19:00:00Z", &caught).await;
}

async fn a_season_counts_as_it_stands(world: World) {
    let (farm, caught) = Farm::ready(&world).await;
    let season = farm.ana.create("/seasons", json!({ "name": "Spring", "starts_on": "2027-03-01" })).await;
    let season = season["id"].as_str().unwrap();
    let path = format!("/seasons/{season}");
    farm.clear(LATER, &caught).await;
    changed(&farm, &path, json!({ "starts_on": "2027-03-29" })).await;
    farm.due(LATER, "new_season", "2027-03-28T22:00:00Z", ("season", season)).await;
    changed(&farm, &path, json!({ "crops": ["rape"] })).await;
    farm.clear(LATER, &caught).await;
    changed(&farm, &path, json!({ "crops": ["wheat"], "name": "Spring 2027" })).await;
    farm.due(LATER, "new_season", "2027-03-28T22:00:00Z", ("season", season)).await;
    changed(&farm, &path, json!({ "starts_on": "2027-03-01", "crops": null })).await;
    farm.clear(LATER, &caught).await;
}

async fn a_scale_s_checks_are_judged_by_its_step(world: World) {
    let (farm, caught) = Farm::ready(&world).await;
    // It read 10.060 kg of 10 kg after the catch: more than a step of 1 g and half a percent together.
    let check = json!({ "occurred_at": "2027-03-28T20:00:00Z", "reference": { "value": "10", "unit": "kg" },
        "reading": { "value": "10.060", "unit": "kg" } });
    let check = farm.ana.create(&format!("/scales/{}/checks", farm.scale), check).await;
    let cause = ("scale_check", check["id"].as_str().unwrap());
    farm.due(LATER, "scale_unchecked", "2027-03-28T20:00:00Z", cause).await;
    let path = format!("/scales/{}", farm.scale);
    changed(&farm, &path, json!({ "readability": { "value": "20", "unit": "g" } })).await;
    farm.clear(LATER, &caught).await;
    changed(&farm, &path, json!({ "readability": { "value": "1", "unit": "g" } })).await;
    farm.due(LATER, "scale_unchecked", "2027-03-28T20:00:00Z", cause).await;
}

/// Every stored calibration, computed again from what is stored with it.
async fn all_recheck(world: &World, farm: &Farm) -> usize {
    let mut conn = world.app.read().await.unwrap();
    let sql = "select sheet, circumstances, judgement from calibration where organization_id = $1";
    let rows: Vec<(String, String, String)> = conn.cx().fetch_all(sql, args![farm.ana.organization]).await.unwrap();
    for (sheet, circumstances, judgement) in &rows {
        recheck(sheet, circumstances, judgement).unwrap();
    }
    rows.len()
}

async fn what_was_judged_stays_as_it_was_judged(world: World) {
    let farm = Farm::new(&world).await;
    let volume = |value: &str| json!({ "displacement_per_rev": { "value": value, "unit": "cm3" } });
    changed(&farm, &format!("/rollers/{}", farm.fine), volume("38.5")).await;
    changed(&farm, &format!("/rollers/{}", farm.coarse), volume("77")).await;
    farm.log("setups", setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")).await;
    farm.log("fills", fill("2027-03-22T08:00:00Z", &farm.wheat)).await;
    farm.at_lot(&farm.wheat, lot_test("2027-03-23T08:00:00Z", "40")).await;
    let caught = farm.caught("2027-03-28T08:00:00Z", &farm.wheat).await;
    let path = format!("/calibrations/{caught}");
    let before = farm.ana.read(&path).await;
    assert_eq!(before["circumstances"]["expected"]["source"], "displacement", "{before}");

    changed(&farm, &format!("/rollers/{}", farm.fine), json!({ "label": "worn", "kind": "cell" })).await;
    changed(&farm, &format!("/rollers/{}", farm.fine), volume("900")).await;
    changed(&farm, &format!("/rollers/{}", farm.coarse), json!({ "displacement_per_rev": null })).await;
    let scale = json!({ "name": "Barn scale", "readability": { "value": "2", "unit": "kg" }, "capacity": { "lb": 5, "oz": 8 } });
    changed(&farm, &format!("/scales/{}", farm.scale), scale).await;
    changed(&farm, &format!("/lots/{}", farm.wheat), json!({ "crop": "spelt" })).await;
    let after = farm.ana.read(&path).await;
    for part in ["status", "result", "circumstances"] {
        assert_eq!(after[part], before[part], "{part} is as it was judged");
    }
    assert_eq!(all_recheck(&world, &farm).await, 1);

    // The next one is judged by what stands now: a roller of another size, and a scale too coarse for it.
    let record = super::farm::catch("2027-03-28T12:00:00Z", &farm.wheat, Some(&farm.scale), super::farm::AGREES);
    let next = farm.ana.post(&format!("/metering-units/{}/calibrations", farm.unit), record).await;
    assert_eq!(next.status, 422, "more was weighed than the scale can: {}", next.text);
    let whole = exported(&world, farm.ana.organization).await;
    let there = World::on_sqlite().await;
    imported(&there, &whole).await.unwrap_or_else(|refused| panic!("{refused}"));
    assert!(rows(&exported(&there, farm.ana.organization).await) == rows(&whole));
}
