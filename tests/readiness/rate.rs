//! From the number in force to the roller speed.

use super::farm::Farm;
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};

on_both!(
    a_rate_needs_a_roller_speed,
    no_number_no_roller_speed,
    a_rate_is_of_its_moment,
    the_table_leaves_blank_what_the_drive_cannot_hold
);

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

async fn a_rate_is_of_its_moment(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    let path = format!("/metering-units/{}/rate?rate=140&speed=9", farm.unit);
    farm.ana.get(&format!("{path}&at=2027-03-27T08:00:00Z")).await.refused(422, &[]);
    let then = farm.ana.read(&format!("{path}&at=2027-03-29T08:00:00%2B02:00")).await;
    assert_eq!(
        (&then["calibration_id"], &then["drive"], &then["ground"]),
        (&json!(first), &json!("electric"), &json!(null))
    );
    farm.ana.get(&format!("{path}&at=yesterday")).await.refused(422, &["/at"]);
}

/// 140 kg/ha at 9 km/h needs 52.4 rpm; 160 kg/ha at 22 km/h would need 146.
async fn the_table_leaves_blank_what_the_drive_cannot_hold(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let path = format!("/page/metering-units/{}/rate", farm.unit);
    let page = farm.ana.get(&format!("{path}?rate/value=140&rate/unit=kg/ha&speed/value=9&speed/unit=km/h")).await;
    for part in [">52.4</strong>", "120 kg/ha", "160 kg/ha", "11 km/h", "The drive, 10 to 120 rpm, holds all of them."]
    {
        assert!(page.text.contains(part), "{part} is not in {}", page.text);
    }
    let fast = farm.ana.get(&format!("{path}?rate/value=140&rate/unit=kg/ha&speed/value=20&speed/unit=km/h")).await;
    assert!(fast.text.contains("<td class=\"num\"></td>"), "{}", fast.text);
    assert!(fast.text.contains("Blank: the drive cannot hold it; it turns 10 to 120 rpm."), "{}", fast.text);
    let wrong = farm.ana.get(&format!("{path}?rate/value=much&rate/unit=kg/ha&speed/value=9&speed/unit=km/h")).await;
    assert!(
        wrong.status == 422 && wrong.text.contains("value=\"much\"") && wrong.text.contains("rate/value-error"),
        "{}",
        wrong.text
    );
}
