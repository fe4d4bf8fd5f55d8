//! A record that was wrong is entered again on the page of its kind: what was sent for it stands in the form, and what is
//! saved replaces it.

use super::forms::{fields, plain, text, with};
use super::kim;
use crate::on_both;
use crate::readiness::farm::{
    AGREES, DISAGREES, Farm, catch, configuration, fill, id, job, lot_test, service, setup, text as word,
};
use crate::world::{Answer, Person, World};
use serde_json::{Value, json};

on_both!(
    every_kind_is_corrected_on_its_own_form,
    the_first_configuration_came_with_the_seeder,
    a_catch_is_corrected_on_its_sheet,
    what_is_still_wrong_comes_back_as_a_correction,
    a_correction_is_corrected_in_its_turn,
    who_may_void_may_correct,
    what_stands_no_more_is_not_corrected,
    what_has_no_form_is_only_voided,
    of_two_records_of_one_minute_each_keeps_its_place,
    who_did_it_is_who_recorded_it_first,
    what_is_set_up_meanwhile_is_no_matter,
    a_catch_tells_that_its_setup_was_corrected,
    in_spanish,
);

/// The page of what to do about a record, and the form that it leads to.
async fn opened(person: &Person, record: &str) -> Answer {
    let page = person.get(&format!("/page/records/{record}/void")).await;
    assert_eq!(page.status.as_u16(), 200, "{}", page.text);
    let link = page.text.split("<a class=\"act\" href=\"").nth(1).expect("a link to the form");
    let form = person.get(&format!("/page{}", link.split('"').next().unwrap())).await;
    assert_eq!(form.status.as_u16(), 200, "{}", form.text);
    form
}

async fn save(person: &Person, to: &str, fields: &[(String, String)]) -> Answer {
    let pairs: Vec<(&str, &str)> = fields.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    person.submit(&format!("/page{to}"), &pairs).await
}

async fn read(person: &Person, list: &str, record: &str) -> Value {
    let list = person.read(list).await;
    let found = list["items"].as_array().unwrap().iter().find(|item| item["id"] == record);
    found.unwrap_or_else(|| panic!("{record} is not in {list}")).clone()
}

/// What the one field of a corrected record says, and that nothing else of what was recorded differs.
async fn corrected(person: &Person, list: &str, record: &str, changed: (&str, &Value)) {
    let before = read(person, list, record).await;
    let after = read(person, list, before["replaced_by"].as_str().expect("it is replaced")).await;
    assert_eq!((&after["corrects"], &after["void"]), (&json!(record), &Value::Null), "{after}");
    assert_eq!(&after[changed.0], changed.1, "{after}");
    let of_its_own = ["id", "corrects", "replaced_by", "recorded_at", "recorded_by", changed.0];
    for (name, was) in before.as_object().unwrap() {
        let moment = |value: &Value| value.as_str().and_then(|text| text.parse::<jiff::Timestamp>().ok());
        let same = &after[name] == was || (moment(was).is_some() && moment(was) == moment(&after[name]));
        assert!(same || of_its_own.contains(&name.as_str()), "{name}: {was} became {}", after[name]);
    }
}

async fn every_kind_is_corrected_on_its_own_form(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let (unit, seeder) = (format!("/metering-units/{}", farm.unit), format!("/seeders/{}", farm.seeder));
    let lot = format!("/lots/{}", farm.wheat);
    let kg = |value: &str| json!({ "value": value, "unit": "kg" });
    let weighed = |record: Value| {
        let mut record = record;
        record["mass"] = kg("640.5");
        record
    };
    let at = "2027-03-30T08:00:00Z";
    let emptying = json!({ "occurred_at": at, "lot_id": farm.wheat, "mass": kg("12.40"), "to_empty": false });
    let movement = json!({ "occurred_at": at, "kind": "received", "mass": kg("24000"), "note": "two bags" });
    let check = json!({ "occurred_at": at, "reference": kg("10"), "reading": kg("10.02"), "certificate": "C-7" });
    let laid_up = json!({ "occurred_at": at, "laid_up": true, "note": "winter" });
    let cases = [
        (format!("{unit}/setups"), setup(at, &farm.coarse, "5:2", "12"), ("gate", "14"), ("gate", json!("14"))),
        (format!("{unit}/fills"), weighed(fill(at, &farm.wheat)), ("mass/value", "64.05"), ("mass", kg("64.05"))),
        (format!("{unit}/emptyings"), emptying, ("mass/value", "124"), ("mass", kg("124"))),
        (
            format!("{unit}/jobs"),
            job(at, &farm.wheat, "1410", "9"),
            ("area/value", "1.0"),
            ("area", json!({ "value": "1.0", "unit": "ha" })),
        ),
        (
            format!("{seeder}/services"),
            service(at, true),
            ("affects_metering", "false"),
            ("affects_metering", json!(false)),
        ),
        (
            format!("{seeder}/configurations"),
            configuration(at, "8"),
            ("working_width/value", "6"),
            ("working_width", json!({ "value": "6", "unit": "m" })),
        ),
        (format!("{seeder}/lay-ups"), laid_up, ("note", "repair"), ("note", json!("repair"))),
        (format!("/scales/{}/checks", farm.scale), check, ("certificate", "C-8"), ("certificate", json!("C-8"))),
        (
            format!("{lot}/tests"),
            lot_test(at, "4.2"),
            ("thousand_seed_weight/value", "42"),
            ("thousand_seed_weight", json!({ "value": "42", "unit": "g" })),
        ),
        (format!("{lot}/movements"), movement, ("mass/value", "2400"), ("mass", kg("2400"))),
    ];
    for (list, record, change, says) in cases {
        let id = word(&farm.ana.create(&list, record).await["id"]);
        let form = opened(&farm.ana, &id).await;
        assert!(form.text.contains("saved, this takes its place"), "{list}: {}", form.text);
        let shown = fields(&form.text);
        assert_eq!(text(&shown, "corrects"), id, "{list}: {shown:?}");
        assert_ne!(text(&shown, "id"), id, "{list}");
        let saved = save(&farm.ana, &list, &with(shown, &[change])).await;
        assert_eq!(saved.status.as_u16(), 303, "{list}: {}", saved.text);
        corrected(&farm.ana, &list, &id, (says.0, &says.1)).await;
    }
}

async fn the_first_configuration_came_with_the_seeder(world: World) {
    let farm = Farm::new(&world).await;
    let list = format!("/seeders/{}/configurations", farm.seeder);
    let first = word(&farm.ana.read(&list).await["items"][0]["id"]);
    let shown = fields(&opened(&farm.ana, &first).await.text);
    assert_eq!(
        ["occurred_at", "working_width/value", "row_spacing/value"].map(|name| text(&shown, name)),
        ["2021-03-01T00:00", "6", "12.5"]
    );
    let saved = save(&farm.ana, &list, &with(shown, &[("row_spacing/value", "15")])).await;
    assert_eq!(saved.status.as_u16(), 303, "{}", saved.text);
    corrected(&farm.ana, &list, &first, ("row_spacing", &json!({ "value": "15", "unit": "cm" }))).await;
}

async fn a_catch_is_corrected_on_its_sheet(world: World) {
    let farm = Farm::new(&world).await;
    farm.log("setups", setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")).await;
    // One weight is a slip: it does not agree with the first, and is held.
    let sheet = catch("2027-03-28T08:00:00Z", &farm.wheat, Some(&farm.scale), DISAGREES);
    let wrong = farm.log("calibrations", sheet).await;
    let place = format!("/metering-units/{}/catch", farm.unit);
    let form = opened(&farm.ana, &wrong).await;
    assert!(form.text.contains("by the tolerances of today"), "{}", form.text);
    let shown = fields(&form.text);
    assert_eq!(text(&shown, "repeats/1/catches/0/gross/value"), DISAGREES);
    // Asked for the result first: it stays a correction.
    let with_button = |mut fields: Vec<(String, String)>, button: &str| {
        fields.retain(|(name, _)| name != "_do");
        fields.push(("_do".to_owned(), button.to_owned()));
        fields
    };
    let shown = with(shown, &[("repeats/1/catches/0/gross/value", AGREES)]);
    let computed = save(&farm.ana, &place, &with_button(shown, "compute")).await;
    assert_eq!(computed.status.as_u16(), 200, "{}", computed.text);
    let shown = fields(&computed.text);
    assert_eq!(text(&shown, "corrects"), wrong);
    assert!(computed.text.contains("value=\"save\">Save the correction</button>"), "{}", computed.text);
    let saved = save(&farm.ana, &place, &with_button(shown, "save")).await;
    assert_eq!(saved.status.as_u16(), 303, "{}", saved.text);
    let after = farm.ana.read(crate::people::browser::location(&saved)).await;
    assert_eq!((&after["corrects"], &after["status"]), (&json!(wrong), &json!("accepted")), "{after}");
    let before = farm.ana.read(&format!("/calibrations/{wrong}")).await;
    assert_eq!((&before["status"], &before["replaced_by"]), (&json!("void"), &after["id"]));
    assert_eq!(before["repeats"][1]["catches"][0]["gross"]["value"], DISAGREES, "it stays readable");
    let page = farm.ana.get(&format!("/page/calibrations/{wrong}")).await.text;
    assert!(page.contains("Replaced by a correction."), "{page}");
}

async fn what_is_still_wrong_comes_back_as_a_correction(world: World) {
    let farm = Farm::new(&world).await;
    let list = format!("/metering-units/{}/fills", farm.unit);
    let wrong = farm.log("fills", fill("2027-03-22T08:00:00Z", &farm.rape)).await;
    let shown = fields(&opened(&farm.ana, &wrong).await.text);
    let again = save(&farm.ana, &list, &with(shown, &[("mass/value", "much")])).await;
    assert_eq!(again.status.as_u16(), 422);
    // It is not asked again what it replaces.
    assert!(!again.text.contains("It replaces nothing"), "{}", again.text);
    let shown = fields(&again.text);
    assert_eq!((text(&shown, "corrects"), text(&shown, "mass/value")), (wrong.as_str(), "much"));
    let saved = save(&farm.ana, &list, &with(shown, &[("mass/value", ""), ("lot_id", &farm.wheat)])).await;
    assert_eq!(saved.status.as_u16(), 303, "{}", saved.text);
    assert_eq!(read(&farm.ana, &list, &wrong).await["replaced_by"].as_str().map(str::len), Some(36));
}

async fn a_correction_is_corrected_in_its_turn(world: World) {
    let farm = Farm::new(&world).await;
    let list = format!("/metering-units/{}/fills", farm.unit);
    let first = farm.log("fills", fill("2027-03-22T08:00:00Z", &farm.rape)).await;
    let shown = fields(&opened(&farm.ana, &first).await.text);
    save(&farm.ana, &list, &with(shown, &[("lot_id", &farm.other_wheat)])).await;
    let second = word(&read(&farm.ana, &list, &first).await["replaced_by"]);
    let shown = fields(&opened(&farm.ana, &second).await.text);
    assert_eq!((text(&shown, "corrects"), text(&shown, "lot_id")), (second.as_str(), farm.other_wheat.as_str()));
    assert_eq!(save(&farm.ana, &list, &with(shown, &[("lot_id", &farm.wheat)])).await.status.as_u16(), 303);
    let third = word(&read(&farm.ana, &list, &second).await["replaced_by"]);
    assert_eq!(read(&farm.ana, &list, &third).await["corrects"], second);
    // Voided, it lets what it replaced stand again; the page says so, what it is, and who corrected.
    let page = plain(&farm.ana.get(&format!("/page/records/{third}/void")).await.text);
    assert!(page.contains("the record that it had replaced stands again"), "{page}");
    assert!(page.contains("<dd>Drill 1, front tank</dd>") && page.contains("W-16"), "{page}");
    assert!(page.contains(", as a correction"), "{page}");
    farm.ana.create(&format!("/records/{third}/void"), json!({ "reason": "it was right before" })).await;
    assert_eq!(read(&farm.ana, &list, &second).await["replaced_by"], Value::Null);
    // What is replaced already is offered no correction.
    let page = farm.ana.get(&format!("/page/records/{first}/void")).await.text;
    assert!(!page.contains("corrects="), "{page}");
}

async fn who_may_void_may_correct(world: World) {
    let farm = Farm::new(&world).await;
    let kim = kim(&world, &farm).await;
    let own = word(
        &kim.create(&format!("/metering-units/{}/fills", farm.unit), fill("2027-03-22T08:00:00Z", &farm.rape)).await["id"],
    );
    let anas = farm.log("fills", fill("2027-03-23T08:00:00Z", &farm.rape)).await;
    let form = |record: &str| format!("/page/metering-units/{}/fills/new?corrects={record}", farm.unit);
    let status = async |person: &Person, path: &str| person.get(path).await.status.as_u16();
    assert_eq!(status(&kim, &form(&own)).await, 200);
    assert_eq!(status(&kim, &form(&anas)).await, 403);
    assert_eq!(status(&world.ana().await, &form(&own)).await, 404);
    let iris = world.member(farm.ana.organization, "iris@example.org", "agronomist").await;
    assert_eq!(status(&iris, &form(&own)).await, 403);
    // An agronomist logs lot tests, and corrects none.
    let test = farm.at_lot(&farm.wheat, lot_test("2027-03-23T08:00:00Z", "40")).await;
    let tests = format!("/page/lots/{}/tests/new", farm.wheat);
    assert_eq!(status(&iris, &tests).await, 200);
    assert_eq!(status(&iris, &format!("{tests}?corrects={test}")).await, 403);
    // A fill is not corrected on another kind's form, nor what is not there.
    let jobs = format!("/page/metering-units/{}/jobs/new?corrects={own}", farm.unit);
    assert_eq!(status(&farm.ana, &jobs).await, 404);
    assert_eq!(status(&farm.ana, &form(&id(999))).await, 404);
    let shown = fields(&kim.get(&form(&own)).await.text);
    world.set_time("2027-04-02T06:00:00Z");
    assert_eq!(status(&kim, &form(&own)).await, 403);
    let list = format!("/metering-units/{}/fills", farm.unit);
    let late = save(&kim, &list, &shown).await;
    assert!(late.status.is_client_error(), "{}", late.text);
    assert_eq!(read(&farm.ana, &list, &own).await["replaced_by"], Value::Null);
    assert_eq!(status(&farm.ana, &form(&own)).await, 200);
}

async fn what_stands_no_more_is_not_corrected(world: World) {
    let farm = Farm::new(&world).await;
    let list = format!("/metering-units/{}/fills", farm.unit);
    let wrong = farm.log("fills", fill("2027-03-22T08:00:00Z", &farm.rape)).await;
    let shown = fields(&opened(&farm.ana, &wrong).await.text);
    farm.ana.create(&format!("/records/{wrong}/void"), json!({ "reason": "another drill" })).await;
    let page = farm.ana.get(&format!("/page{list}/new?corrects={wrong}")).await;
    assert_eq!(page.status.as_u16(), 409, "{}", page.text);
    // Who had its form open loses nothing of what was typed, and stores nothing.
    let late = save(&farm.ana, &list, &with(shown, &[("mass/value", "640")])).await;
    assert!(late.status.is_client_error(), "{}", late.text);
    assert_eq!(text(&fields(&late.text), "mass/value"), "640");
    assert_eq!(farm.ana.read(&list).await["items"].as_array().unwrap().len(), 1);
}

async fn what_has_no_form_is_only_voided(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.at_seeder("services", service("2027-03-30T08:00:00Z", true)).await;
    let waiver = json!({ "trigger": "component_replaced", "until": "2027-04-20", "reason": "the same motor" });
    let waiver = farm.ana.create(&format!("/metering-units/{}/waivers", farm.unit), waiver).await;
    let page = farm.ana.get(&format!("/page/records/{}/void", word(&waiver["id"]))).await.text;
    assert!(page.contains("Void this") && !page.contains("corrects="), "{page}");
}

/// The form of a new setup begins with what is fitted now, and asks if that is other by the time it is saved; a correction does
/// neither.
async fn what_is_set_up_meanwhile_is_no_matter(world: World) {
    let farm = Farm::new(&world).await;
    let list = format!("/metering-units/{}/setups", farm.unit);
    let wrong = farm.log("setups", setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")).await;
    let shown = fields(&opened(&farm.ana, &wrong).await.text);
    assert_eq!(text(&shown, "_shown"), "");
    farm.log("setups", setup("2027-03-25T08:00:00Z", &farm.coarse, "3:1", "9")).await;
    let saved = save(&farm.ana, &list, &with(shown, &[("gate", "13")])).await;
    assert_eq!(saved.status.as_u16(), 303, "{}", saved.text);
    corrected(&farm.ana, &list, &wrong, ("gate", &json!("13"))).await;
}

/// Forms go by the minute. What was logged first in it comes first, also when it is corrected after the other.
async fn of_two_records_of_one_minute_each_keeps_its_place(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let at = "2027-03-30T09:00:00Z";
    let emptying =
        json!({ "occurred_at": at, "lot_id": farm.wheat, "mass": { "value": "20", "unit": "kg" }, "to_empty": true });
    let emptied = farm.log("emptyings", emptying).await;
    world.set_time("2027-04-01T06:00:10Z");
    farm.log("fills", fill(at, &farm.other_wheat)).await;
    let lot = async || farm.at("2027-03-30T12:00:00Z").await["lot_id"].clone();
    assert_eq!(lot().await, json!(farm.other_wheat));
    world.set_time("2027-04-01T06:00:20Z");
    let list = format!("/metering-units/{}/emptyings", farm.unit);
    let mut emptied = emptied;
    // And once more: a correction of a correction.
    for mass in ["22", "23"] {
        let shown = fields(&opened(&farm.ana, &emptied).await.text);
        let saved = save(&farm.ana, &list, &with(shown, &[("mass/value", mass)])).await;
        assert_eq!(saved.status.as_u16(), 303, "{}", saved.text);
        emptied = word(&read(&farm.ana, &list, &emptied).await["replaced_by"]);
        assert_eq!(lot().await, json!(farm.other_wheat), "{mass}");
        world.set_time("2027-04-01T06:00:30Z");
    }
}

/// The office corrects what the crew fitted; the crew fitted it.
async fn who_did_it_is_who_recorded_it_first(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let kim = kim(&world, &farm).await;
    let list = format!("/metering-units/{}/setups", farm.unit);
    let fitted = word(&kim.create(&list, setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await["id"]);
    let board = async || plain(&farm.ana.get("/page/").await.text);
    assert!(board().await.contains("fitted by kim-sync"), "{}", board().await);
    let shown = fields(&opened(&farm.ana, &fitted).await.text);
    assert_eq!(save(&farm.ana, &list, &with(shown, &[("note", "as told")])).await.status.as_u16(), 303);
    assert!(board().await.contains("fitted by kim-sync"), "{}", board().await);
}

/// A catch says that it was judged with what was corrected since: its figures are no longer those of the board.
async fn a_catch_tells_that_its_setup_was_corrected(world: World) {
    let (farm, caught) = Farm::ready(&world).await;
    let page = format!("/page/calibrations/{caught}");
    let says = "What was fitted at this catch has been corrected since";
    assert!(!farm.ana.get(&page).await.text.contains(says));
    let list = format!("/metering-units/{}/setups", farm.unit);
    let setup = word(&farm.ana.read(&list).await["items"][0]["id"]);
    let shown = fields(&opened(&farm.ana, &setup).await.text);
    assert_eq!(save(&farm.ana, &list, &with(shown, &[("runs", "7")])).await.status.as_u16(), 303);
    let text = farm.ana.get(&page).await.text;
    assert!(text.contains(says), "{text}");
}

async fn in_spanish(world: World) {
    let farm = Farm::new(&world).await;
    let record = farm.log("fills", fill("2027-03-22T08:00:00Z", &farm.rape)).await;
    let mut browser = crate::spanish::reader(&world, &farm.ana, sowmark::access::Role::Office).await;
    let page = plain(&browser.get(&world, &format!("/records/{record}/void")).await.text);
    crate::spanish::says(&page, &["Corregir o anular esta carga", "Ocurrió, pero no así"]);
    let form = format!("/metering-units/{}/fills/new?corrects={record}", farm.unit);
    let page = plain(&browser.get(&world, &form).await.text);
    crate::spanish::says(&page, &["al guardar, esto ocupa su lugar"]);
}
