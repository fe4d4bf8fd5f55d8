//! The story of one unit: new, caught, ready, roller changed, and the first roller back again.

use super::farm::{Farm, fill, instant, setup, text};
use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(from_a_new_machine_to_a_recalled_number, an_empty_tank_and_a_laid_up_seeder_have_no_number, a_mix_is_named);

async fn from_a_new_machine_to_a_recalled_number(world: World) {
    let farm = Farm::new(&world).await;
    let now = farm.at("2027-03-20T12:00:00Z").await;
    assert_eq!((&now["state"], &now["lot_id"], &now["factor"]), (&json!("empty"), &json!(null), &json!(null)));

    farm.log("setups", setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")).await;
    farm.log("fills", fill("2027-03-22T08:00:00Z", &farm.wheat)).await;
    let now =
        farm.due("2027-03-22T12:00:00Z", "never_calibrated", "2021-02-28T23:00:00Z", ("seeder", &farm.seeder)).await;
    assert_eq!((&now["state"], &now["lot_id"]), (&json!("calibrate"), &json!(farm.wheat)));

    let first = farm.caught("2027-03-28T08:00:00Z", &farm.wheat).await;
    let now = farm.at("2027-03-28T12:00:00Z").await;
    assert_eq!((&now["state"], &now["recalled"]), (&json!("ready"), &json!(false)), "{now}");
    let stored = farm.ana.read(&format!("/calibrations/{first}")).await;
    assert_eq!(now["factor"], stored["result"]["factor"]);
    assert_eq!(now["factor_unit_total"], stored["result"]["factor_unit_total"]);
    assert_eq!(instant(&now["in_force_since"]), "2027-03-28T08:00:00Z".parse().unwrap());

    let change = farm.log("setups", setup("2027-03-29T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let now = farm.due("2027-03-29T12:00:00Z", "roller_changed", "2027-03-29T08:00:00Z", ("setup", &change)).await;
    assert_eq!(
        (&now["state"], &now["factor"], &now["calibration_id"]),
        (&json!("calibrate"), &json!(null), &json!(null))
    );
    assert_eq!(now["compared_with"], first);
    let says = text(&now["due"][0]["says"]);
    assert!(says.starts_with("Roller changed on 29 March: coarse studded, fitted by ana"), "{says}");
    assert!(says.ends_with("the number was caught with fine fluted. Catch again before sowing."), "{says}");

    let second = farm.caught("2027-03-29T13:00:00Z", &farm.wheat).await;
    farm.clear("2027-03-29T14:00:00Z", &second).await;
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.fine, "10:4", "12")).await;
    let now = farm.at("2027-03-30T12:00:00Z").await;
    assert_eq!(
        (&now["state"], &now["recalled"], &now["calibration_id"]),
        (&json!("ready"), &json!(true), &json!(first)),
        "{now}"
    );
    // The past is answered as it was.
    assert_eq!(farm.at("2027-03-29T12:00:00Z").await["state"], "calibrate");

    // Without recall only the newest catch is looked at.
    world.set_time("2027-03-30T13:00:00Z");
    let put = farm.ana.put("/policy", json!({ "recall_allowed": false })).await;
    assert_eq!(put.status, 200, "{}", put.text);
    let now = farm.at("2027-03-30T14:00:00Z").await;
    assert_eq!((&now["state"], &now["due"][0]["trigger"]), (&json!("calibrate"), &json!("roller_changed")), "{now}");
    assert_eq!(now["compared_with"], second);
    assert_eq!(farm.at("2027-03-30T12:00:00Z").await["recalled"], true);
}

async fn an_empty_tank_and_a_laid_up_seeder_have_no_number(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    let emptying =
        json!({ "occurred_at": "2027-03-30T08:00:00Z", "lot_id": farm.wheat, "mass": null, "to_empty": true });
    farm.log("emptyings", emptying).await;
    let now = farm.at("2027-03-30T12:00:00Z").await;
    assert_eq!((&now["state"], &now["lot_id"], &now["factor"]), (&json!("empty"), &json!(null), &json!(null)), "{now}");
    farm.log("fills", fill("2027-03-30T13:00:00Z", &farm.wheat)).await;
    farm.clear("2027-03-30T14:00:00Z", &first).await;
    farm.at_seeder("lay-ups", json!({ "occurred_at": "2027-03-30T15:00:00Z", "laid_up": true })).await;
    assert_eq!(farm.at("2027-03-30T16:00:00Z").await["state"], "laid_up");
}

async fn a_mix_is_named(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("fills", fill("2027-03-30T08:00:00Z", &farm.other_wheat)).await;
    let now = farm.at("2027-03-30T12:00:00Z").await;
    assert_eq!((&now["lot_id"], &now["mixed_with"]), (&json!(farm.other_wheat), &json!([farm.wheat])), "{now}");
}
