//! The fleet's pages, without JavaScript: forms that add, and that come back as they were typed.

use super::yard::Yard;
use crate::on_both;
use crate::world::{Answer, World};
use serde_json::{Value, json};

on_both!(
    a_seeder_is_added_by_its_form,
    a_bad_seeder_form_comes_back_filled,
    the_short_forms_log,
    nobody_is_offered_a_void_that_would_be_refused,
    a_record_is_voided_from_its_line,
    the_office_keeps_scales_and_seasons,
    each_role_gets_its_pages,
);

/// Whether a page holds an input of this name with this value.
pub(crate) fn holds(page: &Answer, name: &str, value: &str) -> bool {
    let inputs =
        page.text.split('<').filter(|tag| tag.starts_with("input") && tag.contains(&format!("name=\"{name}\"")));
    inputs.into_iter().any(|tag| tag.contains(&format!("value=\"{value}\"")))
}

pub(crate) fn went_to(answer: &Answer) -> String {
    assert_eq!(answer.status, 303, "{}", answer.text);
    answer.headers["location"].to_str().unwrap().to_owned()
}

const DRILL: [(&str, &str); 9] = [
    ("id", "0196d2a0-0000-7000-8000-00000000ba01"),
    ("name", "Drill 1"),
    ("serial_number", ""),
    ("kind", "box_drill"),
    ("commissioned_on", "2019-07-05"),
    ("working_width/value", "6,00"),
    ("working_width/unit", "m"),
    ("row_spacing/value", "12.5"),
    ("row_spacing/unit", "cm"),
];

/// The first row is left empty, apart from the drive that is always chosen.
const UNITS: [(&str, &str); 5] = [
    ("metering_units/0/label", ""),
    ("metering_units/0/runs", ""),
    ("metering_units/0/drive", "electric"),
    ("metering_units/1/label", "rear"),
    ("metering_units/1/drive", "ground"),
];

async fn a_seeder_is_added_by_its_form(world: World) {
    let ana = world.ana().await;
    let form = ana.get("/page/seeders/new").await;
    assert_eq!(form.status, 200);
    assert!(form.text.contains("name=\"metering_units/3/label\""), "{}", form.text);
    let mut fields = [DRILL.as_slice(), &UNITS].concat();
    fields.extend([
        ("metering_units/1/runs", "8"),
        ("metering_units/1/roller_speed_rpm/min", "10"),
        ("metering_units/1/roller_speed_rpm/max", "120"),
    ]);
    let place = went_to(&ana.submit("/page/seeders", &fields).await);
    // Sent twice, it is added once.
    assert_eq!(went_to(&ana.submit("/page/seeders", &fields).await), place);
    let seeders = ana.read("/seeders").await["items"].clone();
    assert_eq!(seeders.as_array().map(Vec::len), Some(1));
    let units = seeders[0]["metering_units"].as_array().unwrap();
    assert_eq!((units.len(), &units[0]["label"], &units[0]["drive"]), (1, &json!("rear"), &json!("ground")));
    assert_eq!(seeders[0]["serial_number"], Value::Null);

    let page = ana.get(&format!("/page{place}")).await;
    assert_eq!(page.status, 200, "{}", page.text);
    for text in [
        "Drill 1",
        "rear",
        "6.00 m",
        "/catch\"",
        "/setups/new\"",
        "/services/new\"",
        "Working width 6.00 m, rows 12.5 cm apart.",
    ] {
        assert!(page.text.contains(text), "{text} is not on the page: {}", page.text);
    }
}

async fn a_bad_seeder_form_comes_back_filled(world: World) {
    let ana = world.ana().await;
    let mut fields = [DRILL.as_slice(), &UNITS].concat();
    fields[5] = ("working_width/value", "six");
    fields.push(("metering_units/1/runs", "eight"));
    let answer = ana.submit("/page/seeders", &fields).await;
    assert_eq!(answer.status, 422);
    assert!(holds(&answer, "id", "0196d2a0-0000-7000-8000-00000000ba01"), "the id stays");
    assert!(holds(&answer, "name", "Drill 1") && holds(&answer, "working_width/value", "six"));
    // The row moved up into the place of the empty one, and its fault stands beside it.
    assert!(holds(&answer, "metering_units/0/label", "rear") && holds(&answer, "metering_units/0/runs", "eight"));
    assert!(answer.text.contains("id=\"metering_units/0/runs-error\""), "{}", answer.text);
    assert!(answer.text.contains("id=\"working_width/value-error\""), "{}", answer.text);
    assert_eq!(ana.read("/seeders").await["items"], json!([]));
}

async fn the_short_forms_log(world: World) {
    let yard = Yard::new(&world).await;
    let home = format!("/seeders/{}", yard.drill);
    let form = yard.kim.get(&format!("/page{}", yard.front("setups/new"))).await;
    assert_eq!(form.status, 200);
    assert!(holds(&form, "occurred_at", "2027-04-01T08:00") && holds(&form, "runs", "24"), "{}", form.text);
    let mut fields = vec![
        ("occurred_at", "2027-04-01T07:45"),
        ("roller_id", yard.roller.as_str()),
        ("drive_ratio", "5:0"),
        ("gate", "12"),
        ("runs", "24"),
        ("note", ""),
    ];
    let again = yard.kim.submit(&format!("/page{}", yard.front("setups")), &fields).await;
    assert_eq!(again.status, 422);
    assert!(holds(&again, "drive_ratio", "5:0") && again.text.contains("drive_ratio-error"));
    fields[2] = ("drive_ratio", "2,5");
    assert_eq!(went_to(&yard.kim.submit(&format!("/page{}", yard.front("setups")), &fields).await), home);
    let setup = yard.ana.read(&yard.front("setups")).await["items"][0].clone();
    assert_eq!((&setup["occurred_at"], &setup["drive_ratio"]), (&json!("2027-04-01T07:45:00+02:00"), &json!("2.5")));

    assert_eq!(yard.kim.get(&format!("/page{}", yard.at("services/new"))).await.status, 200);
    let fields = [
        ("occurred_at", "2027-04-01T07:50"),
        ("metering_unit_id", yard.units[1].as_str()),
        ("component", "seal"),
        ("affects_metering", "true"),
    ];
    assert_eq!(went_to(&yard.kim.submit(&format!("/page{}", yard.at("services")), &fields).await), home);
    assert_eq!(yard.ana.read(&yard.at("services")).await["items"][0]["metering_unit_id"], json!(yard.units[1]));

    assert_eq!(yard.ana.get(&format!("/page{}", yard.at("configurations/new"))).await.status, 200);
    let fields = [
        ("occurred_at", "2027-04-01T07:55"),
        ("working_width/value", "4"),
        ("working_width/unit", "m"),
        ("row_spacing/value", "5"),
        ("row_spacing/unit", "in"),
    ];
    assert_eq!(went_to(&yard.ana.submit(&format!("/page{}", yard.at("configurations")), &fields).await), home);

    assert_eq!(yard.ana.get(&format!("/page{}", yard.at("lay-ups/new"))).await.status, 200);
    let fields = [("occurred_at", "2027-04-01T07:58"), ("laid_up", "true")];
    assert_eq!(went_to(&yard.ana.submit(&format!("/page{}", yard.at("lay-ups")), &fields).await), home);
    let seeder = yard.ana.read(&home).await;
    assert_eq!((&seeder["laid_up"], &seeder["configuration"]["working_width"]["value"]), (&json!(true), &json!("4")));

    assert!(holds(&yard.ana.get(&format!("/page{}", yard.at("change"))).await, "serial_number", "BD-104"));
    let fields = [("name", "Old drill"), ("serial_number", "")];
    assert_eq!(went_to(&yard.ana.submit(&format!("/page{}", yard.at("change")), &fields).await), home);
    let seeder = yard.ana.read(&home).await;
    assert_eq!((&seeder["name"], &seeder["serial_number"]), (&json!("Old drill"), &Value::Null));
}

async fn a_record_is_voided_from_its_line(world: World) {
    let yard = Yard::new(&world).await;
    let record = yard.kim.create(&yard.at("services"), super::yard::service()).await;
    let home = format!("/seeders/{}", yard.drill);
    let form = format!("/records/{}/void", record["id"].as_str().unwrap());
    assert!(yard.kim.get(&format!("/page{home}")).await.text.contains(&form));
    assert!(!yard.ole.get(&format!("/page{home}")).await.text.contains(&form), "Ole cannot void Kim's");
    assert_eq!(yard.kim.get(&format!("/page{form}")).await.status, 200);
    let empty = yard.kim.submit(&format!("/page{form}"), &[("reason", " ")]).await;
    assert_eq!(empty.status, 422);
    assert!(empty.text.contains("reason-error"), "{}", empty.text);
    assert_eq!(yard.ole.submit(&format!("/page{form}"), &[("reason", "not mine")]).await.status, 403);
    assert_eq!(went_to(&yard.kim.submit(&format!("/page{form}"), &[("reason", "the <other> drill")]).await), home);
    let page = yard.kim.get(&format!("/page{home}")).await.text;
    assert!(page.contains("<s>Replaced or repaired: seal."), "{page}");
    assert!(page.contains("the &#60;other&#62; drill") && !page.contains(&form), "{page}");
}

async fn nobody_is_offered_a_void_that_would_be_refused(world: World) {
    let yard = Yard::new(&world).await;
    let record = yard.kim.create(&yard.at("services"), super::yard::service()).await;
    let scale = json!({ "name": "Yard scale", "readability": super::yard::q("10", "g"), "capacity": super::yard::q("50", "kg") });
    let scale = yard.ana.create("/scales", scale).await;
    let check = json!({ "occurred_at": "2027-04-01T07:00:00+02:00", "reference": super::yard::q("20", "kg"), "reading": super::yard::q("20", "kg") });
    let check = yard.kim.create(&format!("/scales/{}/checks", scale["id"].as_str().unwrap()), check).await;
    let pages = [(format!("/page/seeders/{}", yard.drill), &record), ("/page/scales".to_owned(), &check)];
    let offered = async |person: &crate::world::Person| {
        let mut offered = Vec::new();
        for (page, record) in &pages {
            let form = format!("/records/{}/void", record["id"].as_str().unwrap());
            let is_linked = person.get(page).await.text.contains(&form);
            let opens = person.get(&format!("/page{form}")).await.status;
            assert_eq!(is_linked, opens == 200, "{page}: the link and the page agree ({opens})");
            offered.push(is_linked);
        }
        offered
    };
    assert_eq!(offered(&yard.kim).await, [true, true], "her own of today");
    assert_eq!(offered(&yard.ole).await, [false, false], "another's");
    // Two hours before midnight in Vienna, and after it.
    world.set_time("2027-04-01T20:00:00Z");
    assert_eq!(offered(&yard.kim).await, [true, true]);
    world.set_time("2027-04-01T22:00:00Z");
    assert_eq!(offered(&yard.kim).await, [false, false], "yesterday's");
    assert_eq!(offered(&yard.ana).await, [true, true], "the office may always");
}

async fn the_office_keeps_scales_and_seasons(world: World) {
    let ana = world.ana().await;
    for page in ["keeping", "scales", "scales/new", "seasons", "seasons/new", "rollers", "seeders"] {
        assert_eq!(ana.get(&format!("/page/{page}")).await.status, 200, "{page}");
    }
    let mut scale = vec![
        ("name", "Yard scale"),
        ("readability/value", "0"),
        ("readability/unit", "g"),
        ("capacity/value", "50"),
        ("capacity/unit", "kg"),
    ];
    let again = ana.submit("/page/scales", &scale).await;
    assert_eq!(again.status, 422);
    assert!(holds(&again, "name", "Yard scale") && again.text.contains("readability/value-error"), "{}", again.text);
    scale[1] = ("readability/value", "10");
    went_to(&ana.submit("/page/scales", &scale).await);
    let id = ana.read("/scales").await["items"][0]["id"].as_str().unwrap().to_owned();
    assert_eq!(ana.get(&format!("/page/scales/{id}/checks/new")).await.status, 200);
    let check = [
        ("occurred_at", "2027-04-01T07:00"),
        ("reference/value", "20"),
        ("reference/unit", "kg"),
        ("reading/value", "44 lb 1 oz"),
        ("reading/unit", "kg"),
    ];
    went_to(&ana.submit(&format!("/page/scales/{id}/checks"), &check).await);
    let page = ana.get("/page/scales").await.text;
    assert!(page.contains("44 lb 1 oz") && page.contains("20 kg"), "{page}");

    went_to(&ana.submit("/page/seasons", &[("name", "Spring"), ("starts_on", "2027-02-15"), ("crops", "")]).await);
    went_to(
        &ana.submit("/page/seasons", &[("name", "Maize"), ("starts_on", "2027-04-20"), ("crops", "maize, sorghum")])
            .await,
    );
    let seasons = ana.read("/seasons").await["items"].clone();
    let crops = |name: &str| {
        let season = seasons.as_array().unwrap().iter().find(|season| season["name"] == name).unwrap();
        season["crops"].clone()
    };
    assert_eq!((crops("Spring"), crops("Maize")), (Value::Null, json!(["maize", "sorghum"])));
    assert_eq!(ana.submit("/page/seasons", &[("name", "Spring"), ("starts_on", "soon")]).await.status, 422);
}

async fn each_role_gets_its_pages(world: World) {
    let yard = Yard::new(&world).await;
    for page in ["/page/seeders/new", "/page/keeping", "/page/scales/new", "/page/seasons/new"] {
        assert_eq!(
            (yard.kim.get(page).await.status.as_u16(), yard.mia.get(page).await.status.as_u16()),
            (403, 403),
            "{page}"
        );
        assert_eq!(world.nobody().get(page).await.status, 303, "{page}");
    }
    let (own, other) = (format!("/page/seeders/{}", yard.drill), format!("/page/seeders/{}", yard.other));
    assert_eq!((yard.kim.get(&own).await.status.as_u16(), yard.kim.get(&other).await.status.as_u16()), (200, 404));
    let seen = yard.mia.get(&other).await;
    assert_eq!(seen.status, 200);
    assert!(!seen.text.contains("Log a catch"), "an agronomist logs nothing");
    assert_eq!(world.ana().await.get(&own).await.status, 404);
}
