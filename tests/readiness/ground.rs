//! A ground drive: its ratio gives the rate, whatever the driving speed.

use super::farm::{Farm, fill, id, text};
use crate::on_both;
use crate::plan::near;
use crate::world::World;
use serde_json::{Value, json};

on_both!(
    a_ratio_gives_a_rate,
    a_way_that_was_entered_has_its_slip,
    the_wheel_comes_from_the_catch_or_from_who_asks,
    the_page_tells_turns_and_ratios
);

/// A second drill, driven from the ground at 1:2, with wheat caught over 100 m on a wheel of 2 m: 25 roller turns, 6 kg of
/// eight runs, 0.03 kg a turn and run.
async fn driven(world: &World, revolutions: Value) -> (Farm, String) {
    let farm = Farm::new(world).await;
    let seeder = json!({
        "id": id(31), "name": "Drill 2", "serial_number": "SN-2", "kind": "box_drill", "commissioned_on": "2015-03-01",
        "working_width": { "value": "6", "unit": "m" }, "row_spacing": { "value": "12.5", "unit": "cm" },
        "metering_units": [{ "id": id(32), "label": "box", "runs": 8, "drive": "ground" }]
    });
    farm.ana.create("/seeders", seeder).await;
    let farm = Farm { seeder: id(31), unit: id(32), ..farm };
    let setup = json!({ "occurred_at": "2027-03-21T08:00:00Z", "roller_id": farm.fine, "drive_ratio": "1:2", "gate": "40",
        "runs": 8, "note": "" });
    farm.log("setups", setup).await;
    farm.log("fills", fill("2027-03-22T08:00:00Z", &farm.wheat)).await;
    let kg = |value: &str| json!({ "value": value, "unit": "kg" });
    let repeat = |gross: &str| json!({ "revolutions": revolutions, "catches": [{ "label": "all", "runs": 8, "tare": kg("0"), "gross": kg(gross) }] });
    let catch = json!({ "occurred_at": "2027-03-28T08:00:00Z", "lot_id": farm.wheat, "scale_id": farm.scale,
        "method": "driven", "roller_speed_rpm": null, "planned": null, "note": "",
        "repeats": [repeat("5.990"), repeat("6.010")] });
    let answer = farm.ana.create(&format!("/metering-units/{}/calibrations", farm.unit), catch).await;
    assert_eq!(answer["status"], "accepted", "{}", answer["result"]["checks"]);
    (farm, text(&answer["id"]))
}

fn over_a_distance() -> Value {
    json!({ "distance": { "value": "100", "unit": "m" }, "circumference": { "value": "2.00", "unit": "m" } })
}

/// By hand: a quarter turn to the metre of 0.24 kg over 6 m is 0.01 kg/m², 100 kg/ha; 140 kg/ha needs 0.7 to 1.
async fn a_ratio_gives_a_rate(world: World) {
    let (farm, caught) = driven(&world, over_a_distance()).await;
    let path = format!("/metering-units/{}/rate?rate=140&rate_unit=kg/ha", farm.unit);
    let answer = farm.ana.read(&path).await;
    assert_eq!((&answer["drive"], &answer["calibration_id"]), (&json!("ground"), &json!(caught)));
    assert_eq!((&answer["roller_speed_rpm"], &answer["within_drive_range"]), (&json!(null), &json!(null)));
    near(&answer["revolutions_per_metre"], 0.35, 1e-12);
    let ground = &answer["ground"];
    assert_eq!((&ground["ratio"], &ground["circumference_from"]), (&json!("1:2"), &json!("calibration")));
    near(&ground["circumference"], 2.0, 1e-12);
    near(&ground["revolutions_per_metre"], 0.25, 1e-12);
    near(&ground["rate"], 100.0, 1e-9);
    near(&ground["ratio_for_rate"], 0.7, 1e-12);
    // 1/100 ha at 6 m is 16.67 m: 8.33 turns of the wheel, 4.17 of the roller, 1 kg.
    near(&ground["turns"][0]["wheel_turns"], 100.0 / 6.0 / 2.0, 1e-9);
    near(&ground["turns"][0]["roller_turns"], 100.0 / 6.0 / 4.0, 1e-9);
    near(&ground["turns"][0]["mass"], 1.0, 1e-9);
    near(&ground["turns"][1]["area"], 0.04, 1e-12);
    near(&ground["turns"][2]["wheel_turns"], 404.685_642_24 / 6.0 / 2.0, 1e-9);

    // At a driving speed the roller turns as the wheel makes it; the rate wanted would need more.
    let moving = farm.ana.read(&format!("{path}&speed=9&speed_unit=km/h&area=0.5&area_unit=ac")).await;
    near(&moving["ground"]["roller_speed_rpm"], 37.5, 1e-9);
    near(&moving["roller_speed_rpm"], 52.5, 1e-9);
    near(&moving["ground"]["rate"], 100.0, 1e-9);
    near(&moving["ground"]["turns"][3]["area"], 0.5, 1e-12);
    // 5 % slip sows 5 % less.
    let slipping = farm.ana.read(&format!("{path}&slip_percent=5")).await;
    near(&slipping["ground"]["rate"], 95.0, 1e-9);
    near(&slipping["ground"]["slip_percent"], 5.0, 1e-12);
}

/// The same wheel measured without load, 8 % of 2 m less: it turns as often on the 100 m, so it sows the same.
async fn a_way_that_was_entered_has_its_slip(world: World) {
    let mut unloaded = over_a_distance();
    unloaded["circumference"]["value"] = json!("1.84");
    unloaded["slip_percent"] = json!("8");
    let (farm, _) = driven(&world, unloaded).await;
    let path = format!("/metering-units/{}/rate?rate=140&rate_unit=kg/ha", farm.unit);
    let ground = &farm.ana.read(&path).await["ground"];
    near(&ground["rate"], 100.0, 1e-9);
    near(&ground["circumference"], 1.84, 1e-12);
    near(&ground["slip_percent"], 8.0, 1e-12);
    near(&ground["ratio_for_rate"], 0.7, 1e-12);
    // Another slip that is asked with counts; a way that is asked with is one under load.
    near(&farm.ana.read(&format!("{path}&slip_percent=0")).await["ground"]["rate"], 100.0 / 0.92, 1e-9);
    let asked = &farm.ana.read(&format!("{path}&circumference=2&circumference_unit=m")).await["ground"];
    near(&asked["rate"], 100.0, 1e-9);
    near(&asked["slip_percent"], 0.0, 1e-12);
    let form = farm.ana.get(&format!("/page/metering-units/{}/rate", farm.unit)).await;
    assert!(form.text.contains("1.84 m without load, and 8 % slip"), "{}", form.text);
    assert!(!form.text.contains("value=\"1.84") && !form.text.contains("value=\"8\""), "{}", form.text);
}

async fn the_wheel_comes_from_the_catch_or_from_who_asks(world: World) {
    let (farm, _) = driven(&world, json!("25")).await;
    let path = format!("/metering-units/{}/rate?rate=140&rate_unit=kg/ha", farm.unit);
    assert_eq!(farm.ana.read(&path).await["ground"], json!(null), "no wheel is known");
    let asked = farm.ana.read(&format!("{path}&circumference=200&circumference_unit=cm")).await;
    assert_eq!(asked["ground"]["circumference_from"], "asked");
    near(&asked["ground"]["rate"], 100.0, 1e-9);
    let page = farm.ana.get(&format!("/page/metering-units/{}/rate?rate/value=140&rate/unit=kg/ha", farm.unit)).await;
    assert!(page.text.contains("Give the way per turn of the drive wheel below"), "{}", page.text);
    farm.ana
        .get(&format!("{path}&circumference=0&slip_percent=95&area=-1&speed=x"))
        .await
        .refused(422, &["/circumference", "/slip_percent", "/area", "/speed"]);
}

async fn the_page_tells_turns_and_ratios(world: World) {
    let (farm, _) = driven(&world, over_a_distance()).await;
    let path = format!("/page/metering-units/{}/rate", farm.unit);
    let empty = farm.ana.get(&path).await;
    assert!(empty.status == 200 && empty.text.contains("value=\"2.000\""), "{}", empty.text);
    let page =
        farm.ana.get(&format!("{path}?rate/value=140&rate/unit=kg/ha&slip_percent=&area/value=2&area/unit=ha")).await;
    assert_eq!(page.status, 200, "{}", page.text);
    for part in [
        "The ratio of the setup, 1:2, sows",
        "0.700",
        "1/100 ha",
        "1/25 ha",
        "1/10 ac",
        "2.00 ha",
        "8.33",
        "2.00 m, as entered",
    ] {
        assert!(page.text.contains(part), "{part} is not in {}", page.text);
    }
    assert!(page.text.contains("Another ratio is another setup: log it, and catch again before sowing."));
    let wrong =
        farm.ana.get(&format!("{path}?rate/value=140&rate/unit=kg/ha&slip_percent=lots&circumference/value=0")).await;
    assert_eq!(wrong.status, 422);
    for name in ["slip_percent", "circumference/value"] {
        assert!(wrong.text.contains(&format!("id=\"{name}-error\"")), "{name}: {}", wrong.text);
    }
    assert!(wrong.text.contains("value=\"lots\""));
}
