//! Mending a refused entry on the page of its kind: what was sent stands in the form, what is wrong beside its field, and
//! saved it is the same record.

use super::forms::{fields, plain, text, with};
use super::{entry, kim, outcomes, send};
use crate::on_both;
use crate::people::browser::location;
use crate::readiness::farm::{AGREES, Farm, catch, fill, id, job, lot_test, service, setup};
use crate::world::{Answer, Person, World};
use serde_json::{Value, json};

on_both!(
    every_kind_is_mended_on_its_own_form,
    what_is_still_wrong_comes_back_and_mends_the_same,
    a_unit_that_the_form_does_not_offer_is_not_lost,
    what_was_not_sent_is_not_filled_in,
    a_catch_is_mended_on_its_sheet,
    a_refused_catch_is_told_of_in_the_readers_language,
    a_catch_counted_in_pulses_or_by_distance_comes_back,
    a_taken_id_is_mended_under_a_new_one,
    a_correction_stays_one,
    another_machine_can_be_chosen,
    nobody_mends_for_another,
    the_list_says_what_was_sent_and_why_not,
    the_office_is_told_on_the_board,
    dropped_on_the_page,
);

/// Sends one bad entry and opens its form.
async fn refused(person: &Person, sent: &Value, form: &str) -> Answer {
    let results = send(person, std::slice::from_ref(sent)).await;
    assert_eq!(outcomes(&results), ["refused"], "{results:?}");
    opened(person, form, sent["record"]["id"].as_str().unwrap()).await
}

async fn opened(person: &Person, form: &str, refused: &str) -> Answer {
    let page = person.get(&format!("/page{form}?refused={refused}")).await;
    assert_eq!(page.status.as_u16(), 200, "{form}: {}", page.text);
    page
}

async fn save(person: &Person, to: &str, fields: &[(String, String)]) -> Answer {
    let pairs: Vec<(&str, &str)> = fields.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    person.submit(&format!("/page{to}"), &pairs).await
}

async fn ended(person: &Person, number: u32) -> Value {
    person.read(&format!("/refused/{}", id(number))).await["ended"]["how"].clone()
}

struct Case {
    sent: Value,
    /// Where the form stands and where it goes.
    form: String,
    to: String,
    /// A part of what is wrong.
    wrong: &'static str,
    mended: Vec<(&'static str, String)>,
    /// Where the record is read, and what it then says.
    list: String,
    field: &'static str,
    holds: Value,
}

fn cases(farm: &Farm) -> Vec<Case> {
    let unit = |what: &str| format!("/metering-units/{}/{what}", farm.unit);
    let mut no_lot = entry("fill", &farm.unit, 101, fill("2027-03-22T08:00:00Z", &farm.wheat));
    no_lot["record"]["lot_id"] = Value::Null;
    no_lot["record"]["mass"] = json!({ "value": "600", "unit": "kg" });
    let emptying = json!({ "occurred_at": "2027-03-23T08:00:00Z", "lot_id": farm.wheat, "mass": { "value": "-12", "unit": "kg" }, "to_empty": false });
    let mut runs = setup("2027-03-21T08:00:00Z", &farm.coarse, "5:2", "12");
    runs["runs"] = json!(99);
    let mut part = service("2027-03-24T08:00:00Z", false);
    part["component"] = json!("engine");
    let mut no_area = job("2027-03-25T08:00:00Z", &farm.wheat, "1410", "9");
    no_area["area"] = Value::Null;
    let mut too_much = lot_test("2027-03-23T08:00:00Z", "40");
    too_much["germination_percent"] = json!("120");
    let check = json!({ "occurred_at": "2027-03-26T08:00:00Z", "reference": { "value": "10", "unit": "kg" }, "reading": { "value": "ten", "unit": "kg" } });
    let case =
        |sent, form: String, to: String, wrong, mended: &[(&'static str, &str)], list: String, field, holds| Case {
            sent,
            form,
            to,
            wrong,
            mended: mended.iter().map(|(name, text)| (*name, (*text).to_owned())).collect(),
            list,
            field,
            holds,
        };
    vec![
        case(
            no_lot,
            unit("fills/new"),
            unit("fills"),
            "This is missing.",
            &[("lot_id", &farm.rape)],
            unit("fills"),
            "mass",
            json!({ "value": "600", "unit": "kg" }),
        ),
        case(
            entry("emptying", &farm.unit, 102, emptying),
            unit("emptyings/new"),
            unit("emptyings"),
            "is negative",
            &[("mass/value", "12")],
            unit("emptyings"),
            "to_empty",
            json!(false),
        ),
        case(
            entry("setup", &farm.unit, 103, runs),
            unit("setups/new"),
            unit("setups"),
            "99 runs in use",
            &[("runs", "8")],
            unit("setups"),
            "roller_id",
            json!(farm.coarse),
        ),
        case(
            entry("service", &farm.seeder, 104, part),
            format!("/seeders/{}/services/new", farm.seeder),
            format!("/seeders/{}/services", farm.seeder),
            "is not known here",
            &[("component", "fan")],
            format!("/seeders/{}/services", farm.seeder),
            "affects_metering",
            json!(false),
        ),
        case(
            entry("job", &farm.unit, 105, no_area),
            unit("jobs/new"),
            unit("jobs"),
            "This is missing.",
            &[("area/value", "10")],
            unit("jobs"),
            "seed_used",
            json!({ "value": "1410", "unit": "kg" }),
        ),
        case(
            entry("lot_test", &farm.wheat, 106, too_much),
            format!("/lots/{}/tests/new", farm.wheat),
            format!("/lots/{}/tests", farm.wheat),
            "is no share of a whole",
            &[("germination_percent", "95")],
            format!("/lots/{}/tests", farm.wheat),
            "bulk_density",
            json!({ "value": "78", "unit": "kg/hL" }),
        ),
        case(
            entry("scale_check", &farm.scale, 107, check),
            format!("/scales/{}/checks/new", farm.scale),
            format!("/scales/{}/checks", farm.scale),
            "ten",
            &[("reading/value", "10.01")],
            format!("/scales/{}/checks", farm.scale),
            "reading",
            json!({ "value": "10.01", "unit": "kg" }),
        ),
    ]
}

async fn every_kind_is_mended_on_its_own_form(world: World) {
    let farm = Farm::new(&world).await;
    for (number, case) in (101..).zip(cases(&farm)) {
        let page = refused(&farm.ana, &case.sent, &case.form).await;
        assert!(plain(&page.text).contains(case.wrong), "{}: {}", case.form, page.text);
        assert!(page.text.contains("and it was not taken in"), "{}", case.form);
        let shown = fields(&page.text);
        assert_eq!((text(&shown, "id"), text(&shown, "_refused")), (id(number).as_str(), id(number).as_str()));
        let changes: Vec<(&str, &str)> = case.mended.iter().map(|(name, text)| (*name, text.as_str())).collect();
        let saved = save(&farm.ana, &case.to, &with(shown, &changes)).await;
        assert_eq!(saved.status.as_u16(), 303, "{}: {}", case.to, saved.text);
        let list = farm.ana.read(&case.list).await;
        let record = list["items"].as_array().unwrap().iter().find(|record| record["id"] == id(number));
        let record = record.unwrap_or_else(|| panic!("{} is not in {list}", id(number)));
        assert_eq!(record[case.field], case.holds, "{record}");
        // The moment is the one that was sent, in the zone of the organization.
        let moment = |value: &Value| value.as_str().unwrap().parse::<jiff::Timestamp>().unwrap();
        assert_eq!(moment(&record["occurred_at"]), moment(&case.sent["record"]["occurred_at"]));
        assert_eq!(ended(&farm.ana, number).await, "mended");
    }
    assert_eq!(farm.ana.read("/refused").await["items"], json!([]));
}

async fn what_is_still_wrong_comes_back_and_mends_the_same(world: World) {
    let farm = Farm::new(&world).await;
    let case = cases(&farm).swap_remove(2);
    let shown = fields(&refused(&farm.ana, &case.sent, &case.form).await.text);
    let again = save(&farm.ana, &case.to, &with(shown, &[("runs", "77")])).await;
    assert_eq!(again.status.as_u16(), 422);
    let shown = fields(&again.text);
    assert_eq!((text(&shown, "id"), text(&shown, "_refused")), (id(103).as_str(), id(103).as_str()));
    assert_eq!(save(&farm.ana, &case.to, &with(shown, &[("runs", "7")])).await.status.as_u16(), 303);
    assert_eq!(ended(&farm.ana, 103).await, "mended");
}

async fn a_unit_that_the_form_does_not_offer_is_not_lost(world: World) {
    let farm = Farm::new(&world).await;
    let record = json!({ "occurred_at": "2027-03-26T08:00:00Z", "reference": { "value": "0.01", "unit": "t" }, "reading": null });
    let sent = entry("scale_check", &farm.scale, 101, record);
    let place = format!("/scales/{}/checks", farm.scale);
    let shown = fields(&refused(&farm.ana, &sent, &format!("{place}/new")).await.text);
    assert_eq!(text(&shown, "reference/value"), "0.01 t");
    let saved = save(&farm.ana, &place, &with(shown, &[("reading/value", "10.02")])).await;
    assert_eq!(saved.status.as_u16(), 303, "{}", saved.text);
    let checks = farm.ana.read(&place).await;
    let check = checks["items"].as_array().unwrap().iter().find(|check| check["id"] == id(101)).unwrap();
    assert_eq!(check["reference"], json!({ "value": "0.01", "unit": "t" }));
}

async fn what_was_not_sent_is_not_filled_in(world: World) {
    let farm = Farm::new(&world).await;
    farm.log("setups", setup("2027-03-20T08:00:00Z", &farm.fine, "5:2", "12")).await;
    farm.log("fills", fill("2027-03-20T09:00:00Z", &farm.wheat)).await;
    // A form of its own begins with what is fitted now; this one must not.
    let record = json!({ "occurred_at": "2027-03-21T08:00:00Z", "roller_id": farm.coarse, "runs": 8 });
    let sent = entry("setup", &farm.unit, 101, record);
    let shown = fields(&refused(&farm.ana, &sent, &format!("/metering-units/{}/setups/new", farm.unit)).await.text);
    assert_eq!((text(&shown, "gate"), text(&shown, "drive_ratio"), text(&shown, "runs")), ("", "", "8"));
    let sent = entry("fill", &farm.unit, 102, json!({ "occurred_at": "soon" }));
    let shown = fields(&refused(&farm.ana, &sent, &format!("/metering-units/{}/fills/new", farm.unit)).await.text);
    assert_eq!((text(&shown, "lot_id"), text(&shown, "occurred_at")), ("", "soon"));
    // A word that is no choice is not taken for the first choice.
    let sent =
        entry("service", &farm.seeder, 103, json!({ "occurred_at": "2027-03-21T08:00:00Z", "component": "engine" }));
    let shown = fields(&refused(&farm.ana, &sent, &format!("/seeders/{}/services/new", farm.seeder)).await.text);
    assert_eq!((text(&shown, "component"), text(&shown, "affects_metering")), ("", ""));
}

/// A sheet in pounds with one weight in grams and one in pounds and ounces.
fn mixed(farm: &Farm) -> Value {
    let repeat = |gross: Value| {
        json!({ "revolutions": "40", "catches": [
            { "label": "all runs", "runs": 8, "tare": { "value": "500", "unit": "g" }, "gross": gross }] })
    };
    json!({ "occurred_at": "2027-03-28T08:00:12Z", "lot_id": farm.wheat, "scale_id": null, "method": "hand_turned",
        "roller_speed_rpm": 42, "planned": { "rate": { "value": "125", "unit": "lb/ac" }, "speed": { "value": "9", "unit": "km/h" } },
        "note": "windy", "repeats": [repeat(json!({ "value": "22.2", "unit": "lb" })), repeat(json!({ "lb": 22, "oz": 5 }))] })
}

async fn a_catch_is_mended_on_its_sheet(world: World) {
    let farm = Farm::new(&world).await;
    let sent = entry("calibration", &farm.unit, 101, mixed(&farm));
    let place = format!("/metering-units/{}/catch", farm.unit);
    let page = refused(&farm.ana, &sent, &place).await;
    assert!(page.text.contains("No setup of this unit is known for 28 March 2027"), "{}", page.text);
    // The setup was missing, not anything on the sheet: logged meanwhile, it lets the catch in as it was. Who has its sheet
    // open saves it all the same, as a correction.
    farm.log("setups", setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")).await;
    let shown = fields(&page.text);
    assert_eq!(text(&shown, "occurred_at"), "2027-03-28T10:00:12");
    assert_eq!(
        (text(&shown, "scale_id"), text(&shown, "method"), text(&shown, "_mass_unit")),
        ("", "hand_turned", "lb")
    );
    assert_eq!(text(&shown, "repeats/0/catches/0/tare/value"), "500 g");
    assert_eq!(text(&shown, "repeats/0/catches/0/gross/value"), "22.2");
    assert_eq!(text(&shown, "repeats/1/catches/0/gross/value"), "22 lb 5 oz");
    let mut shown = shown;
    shown.retain(|(name, _)| name != "_do");
    shown.push(("_do".to_owned(), "save".to_owned()));
    let saved = save(&farm.ana, &place, &shown).await;
    assert_eq!(saved.status.as_u16(), 303, "{}", saved.text);
    let place = location(&saved);
    let stored = farm.ana.read(place).await;
    assert_eq!(stored["corrects"], id(101));
    let before = farm.ana.read(&format!("/calibrations/{}", id(101))).await;
    assert_eq!((&before["status"], &before["replaced_by"]), (&json!("void"), &stored["id"]), "{before}");
    assert_eq!(stored["repeats"][0]["catches"][0]["tare"], json!({ "value": "500", "unit": "g" }));
    assert_eq!(stored["repeats"][0]["catches"][0]["gross"], json!({ "value": "22.2", "unit": "lb" }));
    assert_eq!(
        (&stored["planned"]["rate"], &stored["note"]),
        (&json!({ "value": "125", "unit": "lb/ac" }), &json!("windy"))
    );
    assert_eq!(stored["planned"]["speed"], json!({ "value": "9", "unit": "km/h" }));
    assert_eq!(ended(&farm.ana, 101).await, "mended");
    // The same as the catch sent well: only the text of its pounds and ounces may be written otherwise.
    let well = entry("calibration", &farm.unit, 102, mixed(&farm));
    assert_eq!(outcomes(&send(&farm.ana, &[well]).await), ["stored"]);
    let well = farm.ana.read(&format!("/calibrations/{}", id(102))).await;
    assert_eq!(stored["result"]["factor"], well["result"]["factor"]);
    assert_eq!(stored["roller_speed_rpm"], well["roller_speed_rpm"]);
}

async fn a_refused_catch_is_told_of_in_the_readers_language(world: World) {
    let farm = Farm::new(&world).await;
    let mut sheet = mixed(&farm);
    // A bag heavier than the bag with its seed, no roller speed, and no roller fitted by then.
    sheet["repeats"][0]["catches"][0]["tare"]["value"] = json!("50000");
    sheet["roller_speed_rpm"] = Value::Null;
    let sent = entry("calibration", &farm.unit, 101, sheet);
    assert_eq!(outcomes(&send(&farm.ana, &[sent]).await), ["refused"]);
    let mut browser = crate::spanish::reader(&world, &farm.ana, sowmark::access::Role::Office).await;
    let place = format!("/metering-units/{}/catch?refused={}", farm.unit, id(101));
    let page = browser.get(&world, &place).await.text;
    crate::spanish::says(&page, &["Un peso bruto de 22.2 lb no deja semilla", "No consta qué"]);
    assert!(!page.contains("leaves no seed"), "{page}");
    let list = browser.get(&world, "/refused").await.text;
    crate::spanish::says(&list, &[]);
}

async fn a_catch_counted_in_pulses_or_by_distance_comes_back(world: World) {
    let farm = Farm::new(&world).await;
    farm.log("setups", setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")).await;
    let place = format!("/metering-units/{}/catch", farm.unit);
    let ways = [
        json!({ "pulses": "14400", "pulses_per_rev": "360" }),
        json!({ "turns": "16" }),
        json!({ "distance": { "value": "100", "unit": "ft" }, "circumference": { "value": "2.1", "unit": "m" }, "slip_percent": "4" }),
    ];
    for (number, way) in (101..).zip(ways) {
        let mut record = catch("2027-03-28T08:00:00Z", &farm.wheat, Some(&farm.scale), AGREES);
        for repeat in record["repeats"].as_array_mut().unwrap() {
            repeat["revolutions"] = way.clone();
        }
        record["lot_id"] = json!(id(999));
        let page = refused(&farm.ana, &entry("calibration", &farm.unit, number, record), &place).await;
        assert!(page.text.contains("There is no such lot here."), "{}", page.text);
        let mut shown = with(fields(&page.text), &[("lot_id", &farm.wheat)]);
        shown.retain(|(name, _)| name != "_do");
        shown.push(("_do".to_owned(), "save".to_owned()));
        let saved = save(&farm.ana, &place, &shown).await;
        assert_eq!(saved.status.as_u16(), 303, "{way}: {}", saved.text);
        let stored = farm.ana.read(&format!("/calibrations/{}", id(number))).await;
        assert_eq!(stored["repeats"][1]["revolutions"], way, "{stored}");
    }
}

async fn a_taken_id_is_mended_under_a_new_one(world: World) {
    let farm = Farm::new(&world).await;
    let first = entry("fill", &farm.unit, 101, fill("2027-03-22T08:00:00Z", &farm.wheat));
    assert_eq!(outcomes(&send(&farm.ana, &[first]).await), ["stored"]);
    let other = entry("fill", &farm.unit, 101, fill("2027-03-23T08:00:00Z", &farm.rape));
    let place = format!("/metering-units/{}/fills", farm.unit);
    let page = refused(&farm.ana, &other, &format!("{place}/new")).await;
    assert!(page.text.contains("already stands for a fill"), "{}", page.text);
    let shown = fields(&page.text);
    assert!(text(&shown, "id") != id(101) && text(&shown, "_refused") == id(101), "{shown:?}");
    assert_eq!(save(&farm.ana, &place, &shown).await.status.as_u16(), 303);
    assert_eq!(farm.ana.read(&place).await["items"].as_array().unwrap().len(), 2);
    assert_eq!(ended(&farm.ana, 101).await, "mended");
}

async fn a_correction_stays_one(world: World) {
    let farm = Farm::new(&world).await;
    let place = format!("/metering-units/{}/fills", farm.unit);
    let mut first = fill("2027-03-22T08:00:00Z", &farm.rape);
    first["id"] = json!(id(100));
    farm.log("fills", first).await;
    let mut sent = entry("fill", &farm.unit, 101, json!({ "occurred_at": "2027-03-22T08:00:00Z" }));
    sent["record"]["corrects"] = json!(id(100));
    let page = refused(&farm.ana, &sent, &format!("{place}/new")).await;
    // It stays one also when the form comes back once more.
    let again = save(&farm.ana, &place, &fields(&page.text)).await;
    assert_eq!(again.status.as_u16(), 422);
    let saved = save(&farm.ana, &place, &with(fields(&again.text), &[("lot_id", &farm.wheat)])).await;
    assert_eq!(saved.status.as_u16(), 303, "{}", saved.text);
    let fills = farm.ana.read(&place).await["items"].clone();
    let of = |number: u32| fills.as_array().unwrap().iter().find(|fill| fill["id"] == id(number)).unwrap().clone();
    assert_eq!((&of(101)["corrects"], &of(100)["replaced_by"]), (&json!(id(100)), &json!(id(101))));
}

async fn another_machine_can_be_chosen(world: World) {
    let farm = Farm::new(&world).await;
    let sent = entry("fill", &id(999), 101, fill("2027-03-22T08:00:00Z", &farm.wheat));
    send(&farm.ana, &[sent]).await;
    let list = farm.ana.get("/page/refused").await.text;
    assert!(list.contains(&format!("href=\"/refused/{}/machine\"", id(101))), "{list}");
    let choose = farm.ana.get(&format!("/page/refused/{}/machine", id(101))).await.text;
    let form = format!("/metering-units/{}/fills/new?refused={}", farm.unit, id(101));
    assert!(choose.contains(&format!("href=\"{form}\">Drill 1, front tank</a>")), "{choose}");
    let page = farm.ana.get(&format!("/page{form}")).await;
    assert_eq!(page.status.as_u16(), 200);
    assert!(!page.text.contains("class=\"errors\""), "only the machine was wrong: {}", page.text);
    let place = format!("/metering-units/{}/fills", farm.unit);
    assert_eq!(save(&farm.ana, &place, &fields(&page.text)).await.status.as_u16(), 303);
    assert_eq!(ended(&farm.ana, 101).await, "mended");
}

async fn nobody_mends_for_another(world: World) {
    let farm = Farm::new(&world).await;
    let kim = kim(&world, &farm).await;
    let ben = world.ana().await;
    let case = cases(&farm).swap_remove(0);
    let page = refused(&farm.ana, &case.sent, &case.form).await;
    for other in [&kim, &ben] {
        assert_eq!(other.get(&format!("/page{}?refused={}", case.form, id(101))).await.status.as_u16(), 404);
        assert_eq!(save(other, &case.to, &fields(&page.text)).await.status.as_u16(), 404);
        let list = other.get("/page/refused").await.text;
        assert!(list.contains("Nothing waits here.") && !list.contains(&id(101)), "{list}");
        assert_eq!(other.submit(&format!("/page/refused/{}/drop", id(101)), &[]).await.status.as_u16(), 404);
    }
    // A fill is not mended on another kind's form.
    let wrong = farm.ana.get(&format!("/page/metering-units/{}/jobs/new?refused={}", farm.unit, id(101))).await;
    assert_eq!(wrong.status.as_u16(), 404);
    // The office mends what the crew sent.
    let of_kim = entry("fill", &farm.unit, 102, json!({ "occurred_at": "2027-03-22T08:00:00Z" }));
    send(&kim, &[of_kim]).await;
    let shown = fields(&opened(&farm.ana, &case.form, &id(102)).await.text);
    assert_eq!(save(&farm.ana, &case.to, &with(shown, &[("lot_id", &farm.wheat)])).await.status.as_u16(), 303);
    assert_eq!(ended(&kim, 102).await, "mended");
}

async fn the_list_says_what_was_sent_and_why_not(world: World) {
    let farm = Farm::new(&world).await;
    let kim = kim(&world, &farm).await;
    let mut caught = mixed(&farm);
    caught["repeats"][1]["catches"][0]["gross"] = json!({ "value": "heavy", "unit": "lb" });
    let mut later = fill("2027-03-22T08:00:00Z", &farm.wheat);
    later["mass"] = json!({ "value": "-4.5", "unit": "kg" });
    send(&kim, &[entry("calibration", &farm.unit, 101, caught), entry("fill", &farm.unit, 102, later)]).await;
    send(&kim, &[json!({ "kind": "sowing", "parent_id": farm.unit, "record": { "id": id(103), "note": "<b>?</b>" } })])
        .await;
    for person in [&kim, &farm.ana] {
        let page = plain(&person.get("/page/refused").await.text);
        for says in [
            "<h2>Catch</h2>",
            "<strong>Drill 1, front tank</strong>. Sent by kim-sync on 1 April 2027, 08:00.",
            "Repeat 2, catch 1, gross: ",
            "<dt>Repeat 1, catch 1 (all runs)</dt><dd class=\"wrap-any\">runs 8, tare 500 g, gross 22.2 lb (10.1 kg)</dd>",
            "<dt>When</dt><dd class=\"wrap-any\">28 March 2027, 10:00</dd>",
            "<dt>Lot</dt><dd class=\"wrap-any\">wheat, lot W-16</dd>",
            "<h2>Tank filled</h2>",
            "Mass: \u{2212}4.5 kg is negative, which no mass can be.",
            "Something of an unknown kind, \u{201c}sowing\u{201d}",
        ] {
            assert!(page.contains(says), "{says} is not said: {page}");
        }
        assert!(
            page.contains(&format!("href=\"/metering-units/{}/catch?refused={}\">Mend it</a>", farm.unit, id(101))),
            "{page}"
        );
        assert_eq!(page.matches("Mend it").count(), 2, "what is of no kind can only be dropped: {page}");
    }
    assert!(!farm.ana.get("/page/refused").await.text.contains("<b>?</b>"), "what was sent is shown, not obeyed");
}

async fn the_office_is_told_on_the_board(world: World) {
    let farm = Farm::new(&world).await;
    let kim = kim(&world, &farm).await;
    assert!(!farm.ana.get("/page/").await.text.contains("not taken in"));
    let bad = |number| entry("fill", &farm.unit, number, json!({}));
    send(&kim, &[bad(101)]).await;
    let one = "One entry from a phone was not taken in. <a href=\"/refused\">";
    for person in [&kim, &farm.ana] {
        let board = person.get("/page/").await.text;
        assert!(board.contains(one), "{board}");
    }
    send(&farm.ana, &[bad(102)]).await;
    assert!(farm.ana.get("/page/").await.text.contains("2 entries from phones were not taken in."));
    assert!(kim.get("/page/").await.text.contains(one), "a crew member is told of their own");
}

async fn dropped_on_the_page(world: World) {
    let farm = Farm::new(&world).await;
    send(&farm.ana, &[entry("fill", &farm.unit, 101, json!({}))]).await;
    let dropped = farm.ana.submit(&format!("/page/refused/{}/drop", id(101)), &[("reason", "Logged twice.")]).await;
    assert_eq!((dropped.status.as_u16(), location(&dropped)), (303, "/refused"));
    assert!(farm.ana.get("/page/refused").await.text.contains("Nothing waits here."));
    let all = farm.ana.get("/page/refused?ended=true").await.text;
    assert!(all.contains("Dropped on 1 April 2027, 08:00 by ana") && all.contains("Logged twice."), "{all}");
    assert!(!all.contains("Mend it"), "{all}");
    // Mended all the same, it is stored; that it was dropped stays said.
    let long = "x".repeat(1001);
    assert_eq!(
        farm.ana.submit(&format!("/page/refused/{}/drop", id(101)), &[("reason", &long)]).await.status.as_u16(),
        422
    );
}
