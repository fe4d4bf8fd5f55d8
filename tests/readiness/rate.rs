//! From the number in force to the roller speed.

use super::farm::{Farm, fill, setup};
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};

on_both!(
    a_rate_needs_a_roller_speed,
    no_number_no_roller_speed,
    a_rate_is_of_its_moment,
    the_table_leaves_blank_what_the_drive_cannot_hold,
    the_page_warns_as_the_card_does
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

/// Caught at 42 rpm; 25 % around that are 31.5 to 52.5. By hand: 160 kg/ha x 6 m x 9 km/h is 14.4 kg/min, / 0.2405 kg is 59.9 rpm.
async fn the_page_warns_as_the_card_does(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let at = |speed: u32| {
        let query = format!("rate/value=140&rate/unit=kg/ha&speed/value={speed}&speed/unit=km/h");
        format!("/page/metering-units/{}/rate?{query}", farm.unit)
    };
    let near = farm.ana.get(&at(9)).await.text;
    assert!(near.contains("<td class=\"num\">* 59.9</td>") && near.contains("<td class=\"num\">52.4</td>"), "{near}");
    assert!(near.contains("* More than 25 % from the roller speed of the catch"), "{near}");
    assert!(!near.contains("<strong>More than 25 %"), "what was asked for lies near: {near}");
    let far = farm.ana.get(&at(11)).await.text;
    assert!(far.contains("<strong>More than 25 % from the roller speed of the catch"), "{far}");
    assert!(!far.contains("Let pass until") && !far.contains("mixed with"), "{far}");

    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let waiver = json!({ "occurred_at": "2027-03-30T10:00:00Z", "trigger": "roller_changed", "until": "2027-05-31",
        "reason": "Worn alike." });
    farm.ana.create(&format!("/metering-units/{}/waivers", farm.unit), waiver).await;
    let passed = farm.ana.get(&at(9)).await.text;
    assert!(passed.contains("Roller changed on 30 March") && passed.contains("Worn alike."), "{passed}");
    farm.log("fills", fill("2027-03-31T08:00:00Z", &farm.other_wheat)).await;
    farm.caught("2027-03-31T09:00:00Z", &farm.other_wheat).await;
    let mixed = farm.ana.get(&at(9)).await.text;
    assert!(mixed.contains("In the tank: ") && mixed.contains("lot W-17; mixed with lot W-16"), "{mixed}");
}
