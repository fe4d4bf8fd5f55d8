//! The number in the form that the controller wants, wherever a person or a program reads it.

use super::farm::Farm;
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};

on_both!(
    without_a_word_it_is_shown_as_always,
    each_page_shows_it_in_the_controllers_form,
    the_digits_are_those_that_the_uncertainty_supports,
);

/// 9.62 kg in 40 revolutions of 8 runs: 0.2405 kg a revolution from the unit, 0.0300625 from a run.
/// For 100 revolutions of the whole unit 24.05 / 0.45359237 = 53.02117… lb; for one of a run 30.0625 g, 30.0625 /
/// 28.349523125 = 1.060423… oz.
async fn say(farm: &Farm, form: Value) {
    let change = json!({ "metering_units": [{ "id": farm.unit, "keyed_in": form }] });
    let answer = farm.ana.patch(&format!("/seeders/{}", farm.seeder), change).await;
    assert_eq!(answer.status, 200, "{}", answer.text);
}

async fn keyed_in(farm: &Farm) -> Value {
    farm.ana.read(&format!("/metering-units/{}/readiness", farm.unit)).await["keyed_in"].clone()
}

async fn without_a_word_it_is_shown_as_always(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    assert_eq!(keyed_in(&farm).await, json!({ "value": "3.006", "unit": "kg/100rev", "for": "run" }));
    let unit = &farm.ana.read(&format!("/seeders/{}", farm.seeder)).await["metering_units"][0];
    assert_eq!(unit["keyed_in"], Value::Null);
    let board = farm.ana.get("/page/").await.text;
    assert!(
        board.contains(">3.006</strong> <span class=\"key-in-unit\">kg per 100 revolutions <span>per run<"),
        "{board}"
    );
    assert!(board.contains("24.05 kg/100rev whole unit"), "{board}");
    let of_seeder = farm.ana.get(&format!("/page/seeders/{}", farm.seeder)).await.text;
    assert!(of_seeder.contains("nobody has said; shown as kg per 100 revolutions, per run"), "{of_seeder}");

    let empty = Farm::new(&world).await;
    assert_eq!(keyed_in(&empty).await, Value::Null, "no number in any form");
}

async fn each_page_shows_it_in_the_controllers_form(world: World) {
    let (farm, calibration) = Farm::ready(&world).await;
    say(&farm, json!({ "mass_unit": "lb", "per_revolutions": 100, "for": "unit" })).await;
    assert_eq!(keyed_in(&farm).await, json!({ "value": "53.0", "unit": "lb/100rev", "for": "unit" }));
    let all = farm.ana.read("/readiness").await;
    assert_eq!(all["units"][0]["keyed_in"], keyed_in(&farm).await);
    assert_eq!(all["units"][0]["factor"]["unit"], "kg/rev", "what the contract fixes stays");

    let big = ">53.0</strong> <span class=\"key-in-unit\">lb per 100 revolutions <span>whole unit<";
    // The same number for one run, in the same unit: 53.02 / 8.
    let other = "6.63 lb/100rev per run";
    for page in ["/".to_owned(), format!("/seeders/{}", farm.seeder), format!("/calibrations/{calibration}")] {
        let shown = farm.ana.get(&format!("/page{page}")).await.text;
        assert!(shown.contains(big) && shown.contains(other), "{page}: {shown}");
    }
    let rate =
        farm.ana.get(&format!("/page/metering-units/{}/rate?rate/value=140&speed/value=9", farm.unit)).await.text;
    assert!(rate.contains("53.0 lb per 100 revolutions, whole unit"), "{rate}");

    let sheet = [
        ("occurred_at", "2027-03-31T10:00"),
        ("lot_id", farm.wheat.as_str()),
        ("scale_id", farm.scale.as_str()),
        ("method", "stationary"),
        ("roller_speed_rpm", "42"),
        ("repeats/0/revolutions", "40"),
        ("repeats/0/catches/0/runs", "8"),
        ("repeats/0/catches/0/tare/value", "0"),
        ("repeats/0/catches/0/tare/unit", "kg"),
        ("repeats/0/catches/0/gross/value", "9.600"),
        ("repeats/0/catches/0/gross/unit", "kg"),
        ("repeats/1/revolutions", "40"),
        ("repeats/1/catches/0/runs", "8"),
        ("repeats/1/catches/0/tare/value", "0"),
        ("repeats/1/catches/0/tare/unit", "kg"),
        ("repeats/1/catches/0/gross/value", "9.640"),
        ("repeats/1/catches/0/gross/unit", "kg"),
        ("_do", "work_out"),
    ];
    let worked_out = farm.ana.submit(&format!("/page/metering-units/{}/catch", farm.unit), &sheet).await;
    assert!(worked_out.text.contains(big), "{}", worked_out.text);

    say(&farm, json!({ "mass_unit": "oz", "per_revolutions": 1 })).await;
    assert_eq!(keyed_in(&farm).await, json!({ "value": "1.060", "unit": "oz/rev", "for": "run" }));
}

/// The value ends where the second digit of its uncertainty ends (GUM 7.2.6): of 53.02 lb, known to 1.4 lb, with the
/// tenths; of 30.0625 g, known to 0.80 g, with the hundredths.
async fn the_digits_are_those_that_the_uncertainty_supports(world: World) {
    let (farm, calibration) = Farm::ready(&world).await;
    let result = farm.ana.read(&format!("/calibrations/{calibration}")).await["result"].clone();
    let percent = result["expanded_uncertainty_percent"].as_f64().unwrap();
    assert!((2.0..3.0).contains(&percent), "{percent}");
    for (mass_unit, count, is_for, expected) in
        [("g", 1, "run", "30.06"), ("kg", 1, "unit", "0.2405"), ("lb", 100, "unit", "53.0"), ("oz", 100, "unit", "848")]
    {
        say(&farm, json!({ "mass_unit": mass_unit, "per_revolutions": count, "for": is_for })).await;
        assert_eq!(keyed_in(&farm).await["value"], expected, "{mass_unit} per {count} for a {is_for}");
    }
}
