//! What is fitted to a machine: setups, configurations, services, laying up.

use super::yard::{Yard, q, service, setup};
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};

on_both!(
    a_setup_is_logged_once_and_shown,
    bad_setups_are_refused,
    the_latest_setup_that_stands_is_fitted,
    a_configuration_holds_from_its_moment,
    a_service_names_a_unit_of_its_seeder,
    a_seeder_is_laid_up_and_taken_back,
    the_timeline_tells_everything_newest_first,
);

async fn a_setup_is_logged_once_and_shown(world: World) {
    let yard = Yard::new(&world).await;
    let mut sent = setup(&yard.roller);
    sent["id"] = json!("0196d2a0-0000-7000-8000-00000000ac01");
    let first = yard.kim.create(&yard.front("setups"), sent.clone()).await;
    assert_eq!(
        (&first["drive_ratio"], &first["gate"], &first["runs"], &first["roller"], &first["occurred_at"]),
        (&json!("5:2"), &json!("12"), &json!(8), &json!("fine fluted"), &json!("2027-03-30T08:15:00+02:00"))
    );
    assert_eq!((&first["recorded_at"], &first["void"]), (&json!("2027-04-01T06:00:00Z"), &Value::Null));
    assert_eq!(first["recorded_by"]["id"], json!(yard.kim.account));
    let again = yard.kim.post(&yard.front("setups"), sent.clone()).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, first.clone()));

    // The same id for another unit is another content.
    let rear = format!("/metering-units/{}/setups", yard.units[1]);
    yard.kim.post(&rear, sent).await.refused(409, &[]);
    assert_eq!(yard.ana.read(&yard.front("setups")).await["items"], json!([first]));
    let seeder = yard.ana.read(&format!("/seeders/{}", yard.drill)).await;
    assert_eq!((&seeder["metering_units"][0]["setup"], &seeder["metering_units"][1]["setup"]), (&first, &Value::Null));
}

async fn bad_setups_are_refused(world: World) {
    let yard = Yard::new(&world).await;
    let bad = json!({ "roller_id": "fine", "drive_ratio": "5:0", "gate": "", "runs": "2.5", "note": 3, "speed": 1 });
    let pointers = ["/occurred_at", "/roller_id", "/drive_ratio", "/gate", "/runs", "/note", "/speed"];
    yard.ana.post(&yard.front("setups"), bad).await.refused(422, &pointers);
    let mut many = setup(&yard.roller);
    many["runs"] = json!(25);
    yard.ana.post(&yard.front("setups"), many).await.refused(422, &["/runs"]);
    let unknown = setup("0196d2a0-0000-7000-8000-00000000acff");
    yard.ana.post(&yard.front("setups"), unknown).await.refused(404, &["/roller_id"]);
    let foreign = world.ana().await.create("/rollers", json!({ "label": "theirs", "kind": "cell" })).await;
    let foreign = setup(foreign["id"].as_str().unwrap());
    yard.ana.post(&yard.front("setups"), foreign).await.refused(404, &["/roller_id"]);
    assert_eq!(yard.ana.read(&yard.front("setups")).await["items"], json!([]));
}

async fn the_latest_setup_that_stands_is_fitted(world: World) {
    let yard = Yard::new(&world).await;
    let fitted = async || {
        yard.ana.read(&format!("/seeders/{}", yard.drill)).await["metering_units"][0]["setup"]["drive_ratio"].clone()
    };
    let at = |when: &str, ratio: &str| {
        let mut setup = setup(&yard.roller);
        setup["occurred_at"] = json!(when);
        setup["drive_ratio"] = json!(ratio);
        setup
    };
    let latest = yard.ana.create(&yard.front("setups"), at("2027-03-30T08:00:00Z", "3")).await;
    // It arrives late and lies before; it has not come yet.
    yard.ana.create(&yard.front("setups"), at("2027-03-20T08:00:00Z", "2")).await;
    yard.ana.create(&yard.front("setups"), at("2027-04-20T08:00:00Z", "4")).await;
    assert_eq!(fitted().await, "3");

    let mut correction = at("2027-03-30T08:00:00Z", "3.5");
    correction["corrects"] = latest["id"].clone();
    let correction = yard.ana.create(&yard.front("setups"), correction).await;
    assert_eq!((fitted().await, &correction["corrects"]), (json!("3.5"), &latest["id"]));
    let list = yard.ana.read(&yard.front("setups")).await;
    let old = list["items"].as_array().unwrap().iter().find(|item| item["id"] == latest["id"]).unwrap();
    assert_eq!(old["replaced_by"], correction["id"]);

    // Void, the correction gives way to what it replaced.
    let void = format!("/records/{}/void", correction["id"].as_str().unwrap());
    yard.ana.create(&void, json!({ "reason": "the tag was misread" })).await;
    assert_eq!(fitted().await, "3");
}

async fn a_configuration_holds_from_its_moment(world: World) {
    let yard = Yard::new(&world).await;
    let narrow = json!({ "occurred_at": "2027-03-30T08:00:00+02:00", "working_width": q("4", "m"), "row_spacing": q("5", "in") });
    let added = yard.ana.create(&yard.at("configurations"), narrow).await;
    assert_eq!(yard.ana.read(&format!("/seeders/{}", yard.drill)).await["configuration"], added);
    let coming = json!({ "occurred_at": "2027-06-01T08:00:00+02:00", "working_width": q("3", "m"), "row_spacing": q("5", "in") });
    yard.ana.create(&yard.at("configurations"), coming).await;
    assert_eq!(yard.ana.read(&format!("/seeders/{}", yard.drill)).await["configuration"], added);
    assert_eq!(yard.ana.read(&yard.at("configurations")).await["items"].as_array().map(Vec::len), Some(3));
    let wrong = json!({ "occurred_at": "yesterday", "working_width": q("0", "m"), "row_spacing": null });
    yard.ana
        .post(&yard.at("configurations"), wrong)
        .await
        .refused(422, &["/occurred_at", "/working_width", "/row_spacing"]);
    let inside_out =
        json!({ "occurred_at": "2027-03-30T08:00:00Z", "working_width": q("3", "m"), "row_spacing": q("12.5", "m") });
    yard.ana.post(&yard.at("configurations"), inside_out).await.refused(422, &["/row_spacing"]);
}

async fn a_service_names_a_unit_of_its_seeder(world: World) {
    let yard = Yard::new(&world).await;
    let whole = yard.kim.create(&yard.at("services"), service()).await;
    assert_eq!((&whole["metering_unit_id"], &whole["affects_metering"]), (&Value::Null, &json!(true)));
    let mut on_unit = service();
    on_unit["metering_unit_id"] = json!(yard.units[1]);
    let on_unit = yard.kim.create(&yard.at("services"), on_unit).await;
    assert_eq!((&on_unit["metering_unit_id"], &on_unit["component"]), (&json!(yard.units[1]), &json!("seal")));
    assert_eq!(yard.mia.read(&yard.at("services")).await["items"].as_array().map(Vec::len), Some(2));

    let mut elsewhere = service();
    elsewhere["metering_unit_id"] = json!(yard.other_unit);
    yard.ana.post(&yard.at("services"), elsewhere).await.refused(404, &["/metering_unit_id"]);
    let bad = json!({ "occurred_at": "2027-03-31T10:00:00", "component": "gearbox", "affects_metering": "perhaps" });
    yard.ana.post(&yard.at("services"), bad).await.refused(422, &["/occurred_at", "/component", "/affects_metering"]);
}

async fn a_seeder_is_laid_up_and_taken_back(world: World) {
    let yard = Yard::new(&world).await;
    let laid_up = async || yard.kim.read(&format!("/seeders/{}", yard.drill)).await["laid_up"].clone();
    let record =
        |at: &str, laid_up: bool| json!({ "occurred_at": at, "laid_up": laid_up, "note": "in the back of the shed" });
    let first = yard.ana.create(&yard.at("lay-ups"), record("2026-11-20T12:00:00Z", true)).await;
    assert_eq!((laid_up().await, &first["note"]), (json!(true), &json!("in the back of the shed")));
    yard.ana.create(&yard.at("lay-ups"), record("2027-03-10T12:00:00Z", false)).await;
    assert_eq!(laid_up().await, json!(false));
    let list = yard.kim.get(&yard.at("lay-ups")).await;
    assert_eq!(list.json()["items"].as_array().map(Vec::len), Some(2));
}

async fn the_timeline_tells_everything_newest_first(world: World) {
    let yard = Yard::new(&world).await;
    yard.ana.create(&yard.front("setups"), setup(&yard.roller)).await;
    let service = yard.kim.create(&yard.at("services"), service()).await;
    let lot = yard.ana.create("/lots", json!({ "lot_number": "W-16", "crop": "wheat" })).await;
    let filled = json!({ "occurred_at": "2027-03-31T12:00:00Z", "lot_id": lot["id"], "mass": q("400", "kg") });
    yard.ana.create(&yard.front("fills"), filled).await;
    let void = format!("/records/{}/void", service["id"].as_str().unwrap());
    yard.kim.create(&void, json!({ "reason": "it was the other machine" })).await;

    let told = yard.kim.read(&yard.at("timeline")).await;
    let items = told["items"].as_array().unwrap();
    let kinds: Vec<&str> = items.iter().filter_map(|item| item["kind"].as_str()).collect();
    assert_eq!(kinds, ["fill", "service", "setup", "configuration"]);
    assert_eq!(items[0]["says"], "Tank filled with lot W-16 (wheat), 400 kg.");
    assert_eq!((&items[0]["metering_unit"], &items[1]["metering_unit_id"]), (&json!("front"), &Value::Null));
    assert_eq!(items[1]["void"]["reason"], "it was the other machine");
    assert_eq!(items[1]["void"]["by"]["id"], json!(yard.kim.account));
    assert_eq!(
        items[2]["says"],
        "Set up: roller fine fluted, drive ratio 5:2, gate 12, 8 runs in use. after the winter"
    );
    assert_eq!(items[3]["says"], "Working width 6.00 m, rows 12.5 cm apart.");

    let first = yard.kim.read(&yard.at("timeline?limit=3")).await;
    let rest = yard.kim.read(&yard.at(&format!("timeline?limit=3&after={}", first["next"].as_str().unwrap()))).await;
    assert_eq!((&rest["items"], &rest["next"]), (&json!([items[3]]), &Value::Null));
    let nowhere = yard.at("timeline?after=0196d2a0-0000-7000-8000-00000000adff");
    yard.kim.get(&nowhere).await.refused(422, &["/after"]);
}
