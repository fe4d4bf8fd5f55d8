//! The rate plan's page: filled in from lot and unit, its working shown, its faults beside the fields.

use crate::on_both;
use crate::readiness::farm::{Farm, configuration, text};
use crate::world::World;
use serde_json::json;

on_both!(
    it_is_filled_in_from_the_lot_and_the_unit,
    plants_become_a_rate_and_a_roller_speed,
    pure_live_seed_has_its_own_form,
    a_number_is_not_used_for_another_lot,
    faults_stand_beside_their_fields_and_what_was_typed_stays,
    what_is_not_this_persons_is_not_there,
);

/// A unit with a number, its wheat tested whole.
async fn tested(world: &World) -> Farm {
    let (farm, _) = Farm::ready(world).await;
    let test = json!({ "occurred_at": "2027-03-30T08:00:00Z", "thousand_seed_weight": { "value": "40.5", "unit": "g" },
        "bulk_density": { "value": "78", "unit": "kg/hL" }, "germination_percent": "95.0", "purity_percent": "98" });
    farm.at_lot(&farm.wheat, test).await;
    farm
}

fn value_of(page: &str, name: &str) -> String {
    let named = format!("name=\"{name}\"");
    let mut inputs = page.split("<input ").skip(1).filter_map(|part| part.split('>').next());
    let input = inputs.find(|tag| tag.contains(&named)).expect("the field");
    let value = input.split("value=\"").nth(1).expect("a value");
    value.split('"').next().unwrap_or_default().to_owned()
}

async fn it_is_filled_in_from_the_lot_and_the_unit(world: World) {
    let farm = tested(&world).await;
    let page = farm.ana.get(&format!("/page/rate-plan?unit_id={}", farm.unit)).await;
    assert_eq!(page.status, 200, "{}", page.text);
    for (name, value) in [
        ("weight/value", "40.5"),
        ("germination_percent", "95.0"),
        ("purity_percent", "98"),
        ("row_spacing/value", "12.5"),
        ("bulk_density/value", "78"),
        ("lot_id", farm.wheat.as_str()),
        ("unit_id", farm.unit.as_str()),
    ] {
        assert_eq!(value_of(&page.text, name), value, "{name}");
    }
    assert!(page.text.contains("From the lot\u{2019}s test of 30 March 2027"), "{}", page.text);
    assert!(!page.text.contains("class=\"error\"") && !page.text.contains("To sow"), "nothing was asked yet");

    // Nothing chosen: an empty form, and the label's analysis where no test is known.
    let empty = farm.ana.get("/page/rate-plan").await;
    assert_eq!((empty.status.as_u16(), value_of(&empty.text, "weight/value")), (200, String::new()));
    let labelled = json!({ "lot_number": "L-9", "crop": "clover", "analysis": { "purity_percent": "99.2", "germination_percent": 88 } });
    let lot = text(&farm.ana.create("/lots", labelled).await["id"]);
    let live = farm.ana.get(&format!("/page/rate-plan/live?lot_id={lot}")).await;
    assert_eq!(
        (value_of(&live.text, "purity_percent"), value_of(&live.text, "germination_percent")),
        ("99.2".into(), "88".into())
    );
    assert!(live.text.contains("From the lot\u{2019}s label."));
}

/// By hand: 280 / 0.85 seeds of 40.5 g, over 98 % purity: 136.1 kg/ha; at 9 km/h on 6 m with 0.2405 kg a turn, 50.9 rpm.
async fn plants_become_a_rate_and_a_roller_speed(world: World) {
    let farm = tested(&world).await;
    let query = "plants/value=280&plants/unit=per+m%C2%B2&weight/value=40.5&weight/unit=g+per+thousand&germination_percent=95\
                 &share/value=10&share/unit=field+loss&purity_percent=98&speed/value=9&speed/unit=km/h&row_spacing/value=12.5\
                 &row_spacing/unit=cm&bulk_density/value=&bulk_density/unit=kg/hL&seed_weight_plus_minus_percent=3";
    let page = farm.ana.get(&format!("/page/rate-plan?unit_id={}&{query}", farm.unit)).await;
    assert_eq!(page.status, 200, "{}", page.text);
    for part in [
        ">136</strong> <span class=\"key-in-unit\">kg/ha",
        "Establishment 85.0 %: germination less field loss, in percentage points.",
        ">50.9</strong> <span class=\"key-in-unit\">rpm <span>roller speed at 9.00 km/h on Drill 1, front tank",
        "280 per m² (26.0 per ft²)",
        "germination 95 % less field loss 10 points",
        "329 per m² (30.6 per ft²)",
        "40.5 g per thousand",
        "133 kg/ha (119 lb/ac)",
        "rate over purity, 98 %",
        "41.2 per m (12.6 per ft)",
        "129 to 137 kg/ha",
        "Other rates and speeds",
    ] {
        assert!(page.text.contains(part), "{part} is not in {}", page.text);
    }
    assert_eq!(value_of(&page.text, "share/value"), "10");
    // The catch that is begun from it has its rate and speed, and names the convention in its note.
    let begun = page.text.split("href=\"").find(|link| link.contains("/catch?")).expect("a link to a catch");
    let begun = begun.split('"').next().unwrap_or_default().replace("&#38;", "&").replace("&amp;", "&");
    let sheet = farm.ana.get(&format!("/page{begun}")).await;
    assert_eq!(sheet.status, 200, "{}", sheet.text);
    assert_eq!(value_of(&sheet.text, "planned/rate/value"), "136.1");
    assert_eq!(value_of(&sheet.text, "planned/speed/value"), "9.000");
    assert_eq!(value_of(&sheet.text, "roller_speed_rpm"), "50.9");
    assert!(
        sheet.text.contains("Rate plan. Establishment 85.0 %: germination less field loss, in percentage points."),
        "{}",
        sheet.text
    );

    // Faster than the drive: said so. A number may carry its own unit.
    let fast = query.replace("speed/value=9", "speed/value=18+mph");
    let page = farm.ana.get(&format!("/page/rate-plan?unit_id={}&{fast}", farm.unit)).await;
    assert!(page.text.contains("The drive cannot hold this: it turns 10 to 120 rpm."), "{}", page.text);
    // Without a speed the rate alone.
    let parked = query.replace("speed/value=9", "speed/value=");
    let page = farm.ana.get(&format!("/page/rate-plan?unit_id={}&{parked}", farm.unit)).await;
    assert!(page.status == 200 && page.text.contains("Give a driving speed to see the roller speed."), "{}", page.text);
}

async fn pure_live_seed_has_its_own_form(world: World) {
    let farm = tested(&world).await;
    let query = "pls_rate/value=10&pls_rate/unit=lb/ac&purity_percent=98.75&germination_percent=88&hard_seed_percent=5\
                 &count_hard_seed=true&weight/value=&weight/unit=g+per+thousand";
    let page = farm.ana.get(&format!("/page/rate-plan/live?{query}")).await;
    assert_eq!(page.status, 200, "{}", page.text);
    for part in [
        ">10.9</strong> <span class=\"key-in-unit\">lb/ac",
        "hard or dormant seed counted as live",
        "germination 88 % and 5 % hard or dormant",
        "91.8 %",
        "10.0 lb/ac (11.2 kg/ha)",
    ] {
        assert!(page.text.contains(part), "{part} is not in {}", page.text);
    }
    let over = query.replace("germination_percent=88", "germination_percent=98");
    let page = farm.ana.get(&format!("/page/rate-plan/live?{over}")).await;
    assert!(page.status == 422 && page.text.contains("id=\"hard_seed_percent-error\""), "{}", page.text);
}

async fn a_number_is_not_used_for_another_lot(world: World) {
    let farm = tested(&world).await;
    let query = "plants/value=280&plants/unit=per+m%C2%B2&weight/value=5&weight/unit=g+per+thousand&share/value=60\
                 &share/unit=establishment&speed/value=9&speed/unit=km/h";
    let page = farm.ana.get(&format!("/page/rate-plan?unit_id={}&lot_id={}&{query}", farm.unit, farm.rape)).await;
    assert!(
        page.status == 200 && page.text.contains("is for the lot in its tank, not for rape, lot R-2"),
        "{}",
        page.text
    );
    assert!(!page.text.contains("roller speed at"), "{}", page.text);
    // And none is used while none is in force.
    farm.at_seeder("configurations", configuration("2027-03-31T08:00:00Z", "5")).await;
    let page = farm.ana.get(&format!("/page/rate-plan?unit_id={}&{query}", farm.unit)).await;
    assert!(page.status == 200 && page.text.contains("No number is in force for Drill 1, front tank"), "{}", page.text);
}

async fn faults_stand_beside_their_fields_and_what_was_typed_stays(world: World) {
    let farm = tested(&world).await;
    let query = "plants/value=many&plants/unit=per+ft%C2%B2&weight/value=0&weight/unit=seeds+per+lb&germination_percent=95\
                 &share/value=95&share/unit=field+loss&speed/value=fast&speed/unit=km/h";
    let page = farm.ana.get(&format!("/page/rate-plan?unit_id={}&{query}", farm.unit)).await;
    assert_eq!(page.status, 422, "{}", page.text);
    for name in ["plants/value", "weight/value", "share/value", "speed/value"] {
        assert!(page.text.contains(&format!("id=\"{name}-error\"")), "{name} has no fault: {}", page.text);
    }
    assert_eq!(value_of(&page.text, "plants/value"), "many");
    assert!(
        page.text.contains("<option value=\"per ft²\" selected>")
            && page.text.contains("<option value=\"field loss\" selected>")
    );
    let empty = farm.ana.get("/page/rate-plan?plants/value=&weight/value=&share/value=").await;
    assert_eq!(empty.status, 422);
    for name in ["plants/value", "weight/value", "share/value"] {
        assert!(empty.text.contains(&format!("id=\"{name}-error\"")), "{name} has no fault: {}", empty.text);
    }
}

async fn what_is_not_this_persons_is_not_there(world: World) {
    let farm = tested(&world).await;
    let other = world.ana().await;
    for query in [format!("unit_id={}", farm.unit), format!("lot_id={}", farm.wheat), "lot_id=none".to_owned()] {
        assert_eq!(other.get(&format!("/page/rate-plan?{query}")).await.status, 404, "{query}");
    }
}
