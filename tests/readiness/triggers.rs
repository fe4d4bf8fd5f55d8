//! Each of the fifteen triggers raised and cleared, with the moment from which it held and the record that began it.
//! `never_calibrated` and its clearing stand in `sequence.rs`, in the story it belongs to.

use super::farm::{AGREES, DISAGREES, Farm, LATER, catch, configuration, fill, job, lot_test, service, setup, text};
use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(
    a_season_begins,
    the_seed_changes,
    the_setup_changes,
    the_machine_changes,
    a_later_catch_fails,
    the_roller_turns_faster,
    the_seed_used_drifts,
    the_interval_passes,
    the_scale_is_not_shown_to_be_right,
    a_correction_clears_a_trigger,
    a_void_clears_a_trigger
);

const HALF: &str = "2027-03-30T12:00:00Z";
const RAISED: &str = "2027-03-30T08:00:00Z";
const CLEARED: &str = "2027-03-31T08:00:00Z";
const AFTER: &str = "2027-03-31T12:00:00Z";

async fn a_season_begins(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let season = farm
        .ana
        .create("/seasons", json!({ "name": "Spring 2027", "starts_on": "2027-03-30", "crops": ["wheat"] }))
        .await;
    farm.ana.create("/seasons", json!({ "name": "Rape 2027", "starts_on": "2027-03-31", "crops": ["rape"] })).await;
    farm.due(HALF, "new_season", "2027-03-29T22:00:00Z", ("season", &text(&season["id"]))).await;
    let again = farm.caught(CLEARED, &farm.wheat).await;
    farm.clear(AFTER, &again).await;
}

async fn the_seed_changes(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    let change = farm.log("fills", fill(RAISED, &farm.rape)).await;
    farm.due(HALF, "crop_changed", RAISED, ("fill", &change)).await;
    farm.log("fills", fill(CLEARED, &farm.wheat)).await;
    farm.clear(AFTER, &first).await;

    let (farm, first) = Farm::ready(&world).await;
    let change = farm.log("fills", fill(RAISED, &farm.other_wheat)).await;
    farm.due(HALF, "lot_changed", RAISED, ("fill", &change)).await;
    farm.log("fills", fill(CLEARED, &farm.wheat)).await;
    farm.clear(AFTER, &first).await;

    let (farm, first) = Farm::ready(&world).await;
    let test = farm.at_lot(&farm.wheat, lot_test(RAISED, "44")).await;
    let now = farm.due(HALF, "seed_weight_changed", RAISED, ("lot_test", &test)).await;
    let says = text(&now["due"][0]["says"]);
    assert!(says.contains("thousand-seed weight 44.0 g, 40.0 g at the catch; the tolerances allow 3 %"), "{says}");
    farm.at_lot(&farm.wheat, lot_test(CLEARED, "40.5")).await;
    farm.clear(AFTER, &first).await;
}

async fn the_setup_changes(world: World) {
    for (trigger, ratio, gate) in [("drive_ratio_changed", "3:1", "12"), ("gate_changed", "5:2", "14")] {
        let (farm, first) = Farm::ready(&world).await;
        let change = farm.log("setups", setup(RAISED, &farm.fine, ratio, gate)).await;
        farm.due(HALF, trigger, RAISED, ("setup", &change)).await;
        farm.log("setups", setup(CLEARED, &farm.fine, "2.5", " 12 ")).await;
        farm.clear(AFTER, &first).await;
    }
}

async fn the_machine_changes(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    let change = farm.at_seeder("configurations", configuration(RAISED, "5")).await;
    let now = farm.due(HALF, "configuration_changed", RAISED, ("configuration", &change)).await;
    assert!(text(&now["due"][0]["says"]).contains("working width 5 m, 6 m at the catch"), "{now}");
    farm.at_seeder("configurations", configuration(CLEARED, "6.00")).await;
    farm.clear(AFTER, &first).await;

    let (farm, first) = Farm::ready(&world).await;
    farm.at_seeder("services", service("2027-03-29T15:00:00Z", false)).await;
    farm.clear("2027-03-29T16:00:00Z", &first).await;
    let change = farm.at_seeder("services", service(RAISED, true)).await;
    farm.at_seeder("services", service("2027-03-30T09:00:00Z", true)).await;
    let now = farm.due(HALF, "component_replaced", RAISED, ("service", &change)).await;
    assert!(text(&now["due"][0]["says"]).starts_with("Hydraulic motor replaced or repaired on 30 March"), "{now}");
    let again = farm.caught(CLEARED, &farm.wheat).await;
    farm.clear(AFTER, &again).await;
}

async fn a_later_catch_fails(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let held = farm.log("calibrations", catch(RAISED, &farm.wheat, Some(&farm.scale), DISAGREES)).await;
    farm.due(HALF, "calibration_in_doubt", RAISED, ("calibration", &held)).await;
    let path = format!("/calibrations/{held}/decisions");
    farm.ana.create(&path, json!({ "decision": "rejected", "reason": "A bucket was spilt." })).await;
    let now = farm.due(HALF, "calibration_in_doubt", RAISED, ("calibration", &held)).await;
    assert!(text(&now["due"][0]["says"]).contains("was rejected"), "{now}");
    let again = farm.caught(CLEARED, &farm.wheat).await;
    farm.clear(AFTER, &again).await;
}

async fn the_roller_turns_faster(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    // 140 kg/ha x 6 m x 12 km/h / 600 = 16.8 kg/min, over 0.2405 kg per revolution of the unit: 69.9 rpm, not 42.
    let sown = farm.log("jobs", job(RAISED, &farm.wheat, "1400", "12")).await;
    let now = farm.due(HALF, "roller_speed_off", RAISED, ("job", &sown)).await;
    assert_eq!((&now["state"], &now["calibration_id"]), (&json!("check"), &json!(first)), "{now}");
    assert!(text(&now["due"][0]["says"]).contains("needed 69.9 rpm, the number was caught at 42 rpm"), "{now}");
    farm.log("jobs", job(CLEARED, &farm.wheat, "1400", "7.2")).await;
    farm.clear(AFTER, &first).await;
}

async fn the_seed_used_drifts(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let sown = farm.log("jobs", job(RAISED, &farm.wheat, "2800", "7.2")).await;
    let now = farm.due(HALF, "drift", RAISED, ("job", &sown)).await;
    assert_eq!(now["state"], "check");
    let again = farm.caught(CLEARED, &farm.wheat).await;
    farm.clear(AFTER, &again).await;
}

async fn the_interval_passes(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    world.set_time("2027-03-29T13:00:00Z");
    assert_eq!(farm.ana.put("/policy", json!({ "interval_days": 2 })).await.status, 200);
    farm.clear("2027-03-29T14:00:00Z", &first).await;
    farm.due(HALF, "interval", RAISED, ("calibration", &first)).await;
    let again = farm.caught(CLEARED, &farm.wheat).await;
    farm.clear(AFTER, &again).await;
}

async fn the_scale_is_not_shown_to_be_right(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let unnamed = farm.log("calibrations", catch(RAISED, &farm.wheat, None, AGREES)).await;
    let now = farm.due(HALF, "scale_unchecked", RAISED, ("calibration", &unnamed)).await;
    assert!(text(&now["due"][0]["says"]).starts_with("No scale was named for the catch on 30 March."), "{now}");
    let again = farm.caught(CLEARED, &farm.wheat).await;
    farm.clear(AFTER, &again).await;

    let (farm, _) = Farm::ready(&world).await;
    let check = json!({ "occurred_at": RAISED, "reference": { "value": "10", "unit": "kg" }, "reading": { "value": "10.2", "unit": "kg" } });
    let failed = text(&farm.ana.create(&format!("/scales/{}/checks", farm.scale), check).await["id"]);
    farm.due(HALF, "scale_unchecked", RAISED, ("scale_check", &failed)).await;
}

/// A wrong setup that was corrected never was.
async fn a_correction_clears_a_trigger(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    let wrong = farm.log("setups", setup(RAISED, &farm.coarse, "5:2", "12")).await;
    farm.due(HALF, "roller_changed", RAISED, ("setup", &wrong)).await;
    let mut right = setup(RAISED, &farm.fine, "5:2", "12");
    right["corrects"] = json!(wrong);
    farm.log("setups", right).await;
    farm.clear(HALF, &first).await;
    farm.clear(LATER, &first).await;
}

async fn a_void_clears_a_trigger(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    let wrong = farm.log("setups", setup(RAISED, &farm.coarse, "5:2", "12")).await;
    farm.due(HALF, "roller_changed", RAISED, ("setup", &wrong)).await;
    let void = farm.ana.post(&format!("/records/{wrong}/void"), json!({ "reason": "On the other drill." })).await;
    assert!(void.status.is_success(), "{}", void.text);
    farm.clear(HALF, &first).await;
    let void = farm.ana.post(&format!("/records/{first}/void"), json!({ "reason": "Spilt." })).await;
    assert!(void.status.is_success(), "{}", void.text);
    let now = farm.at(HALF).await;
    assert_eq!(now["due"][0]["trigger"], "never_calibrated", "{now}");
}
