//! From the number in force to the roller speed.

use super::farm::Farm;
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};

on_both!(a_rate_needs_a_roller_speed, no_number_no_roller_speed);

fn number(value: &Value) -> f64 {
    value
        .as_str()
        .map_or_else(|| value.as_f64(), |text| text.parse().ok())
        .unwrap_or_else(|| panic!("{value} is no number"))
}

/// Trade's formula: rate x width x speed / 600 kg/min over the factor of the whole unit.
async fn a_rate_needs_a_roller_speed(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    let path = format!("/metering-units/{}/rate?rate=140&rate_unit=kg/ha&speed=9&speed_unit=km/h", farm.unit);
    let answer = farm.ana.read(&path).await;
    let total = number(&farm.at("2027-04-01T06:00:00Z").await["factor_unit_total"]["value"]);
    let expected = 140.0 * 6.0 * 9.0 / 600.0 / total;
    assert!((number(&answer["roller_speed_rpm"]) - expected).abs() < 1e-9, "{answer}");
    assert_eq!((&answer["within_drive_range"], &answer["calibration_id"]), (&json!(true), &json!(first)));
    let fastest = total * 120.0 * 600.0 / (140.0 * 6.0);
    assert!((number(&answer["speed_range"]["max"]["value"]) - fastest).abs() < 1e-9, "{answer}");
    assert_eq!(answer["speed_range"]["max"]["unit"], "km/h");
    let least = total * 10.0 * 600.0 / (6.0 * 9.0);
    assert!((number(&answer["rate_range"]["min"]["value"]) - least).abs() < 1e-9, "{answer}");

    let page = farm
        .ana
        .get(&format!(
            "/page/metering-units/{}/rate?rate%2Fvalue=140&rate%2Funit=kg%2Fha&speed%2Fvalue=40&speed%2Funit=km%2Fh",
            farm.unit
        ))
        .await;
    assert!(page.status == 200 && page.text.contains("The drive cannot hold this"), "{}", page.text);
    farm.ana
        .get(&format!("/metering-units/{}/rate?rate=0&rate_unit=kg&speed=-1", farm.unit))
        .await
        .refused(422, &["/rate_unit", "/speed"]);
}

async fn no_number_no_roller_speed(world: World) {
    let farm = Farm::new(&world).await;
    let answer = farm.ana.get(&format!("/metering-units/{}/rate?rate=140&speed=9", farm.unit)).await;
    answer.refused(422, &[]);
    assert!(answer.text.contains("its tank is empty"), "{}", answer.text);
}
