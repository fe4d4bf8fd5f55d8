//! A client's agronomist against every route: whatever can be read, with whatever id, nothing of another client comes out.
//! The same walk by the office finds it in many places, so the walk can find what leaks. The machine's own records belong to no
//! client: their facts are told, what the office typed beside them is not.

use crate::feeds::{fetched, made};
use crate::on_both;
use crate::people::browser::Browser;
use crate::readiness::farm::{
    AGREES, DISAGREES, Farm, catch, configuration, fill, job, lot_test, service, setup, text,
};
use crate::world::{Answer, Person, World};
use axum::http::Method;
use serde_json::{Value, json};
use sowmark::access::Role;
use sowmark::app;
use sowmark::exchange::lists::Listed;
use sowmark::web::routes::Surface;
use std::collections::BTreeSet;

on_both!(a_clients_agronomist_is_told_nothing_of_another_client);

/// Stands in every text of the other client's records, and in all that the office typed beside the machine's.
const SECRET: &str = "Quillhaven";
/// Stands in the own client's.
const OWN: &str = "Mellowmere";

/// A client's records on the machine, and their ids.
async fn sown(farm: &Farm, name: &str, month: &str, area: &str) -> Vec<String> {
    let ana = &farm.ana;
    let made = |answer: &Value| answer["id"].as_str().expect("an id").to_owned();
    let at = |day: &str| format!("2027-{month}-{day}T08:00:00Z");
    let client = made(&ana.create("/clients", json!({ "name": format!("{name} Farm") })).await);
    let area = json!({ "value": area, "unit": "ha" });
    let field = json!({ "name": format!("{name} field"), "area": area, "client_id": client });
    let field = made(&ana.create("/fields", field).await);
    let lot = json!({ "lot_number": format!("{name}-1"), "crop": "wheat", "variety": format!("{name} variety"), "client_id": client,
        "supplier": format!("{name} supplier"), "received_mass": { "value": "5000", "unit": "kg" } });
    let lot = made(&ana.create("/lots", lot).await);
    let test = farm.at_lot(&lot, lot_test(&at("02"), "40")).await;
    let note = format!("{name} note");
    let sold =
        json!({ "occurred_at": at("03"), "kind": "sold", "mass": { "value": "100", "unit": "kg" }, "note": note });
    let sold = made(&ana.create(&format!("/lots/{lot}/movements"), sold).await);
    let filled = farm.log("fills", fill(&at("04"), &lot)).await;
    let mut caught = catch(&at("05"), &lot, Some(&farm.scale), AGREES);
    caught["note"] = json!(note);
    let caught = farm.log("calibrations", caught).await;
    let mut sowing = job(&at("06"), &lot, "1400", "7.2");
    sowing["field_id"] = json!(field);
    sowing.as_object_mut().expect("fields").remove("field");
    sowing["note"] = json!(note);
    let sowing = farm.log("jobs", sowing).await;
    let emptied = json!({ "occurred_at": at("07"), "lot_id": lot, "mass": { "value": "50", "unit": "kg" } });
    let emptied = farm.log("emptyings", emptied).await;
    let mut held = catch(&at("08"), &lot, Some(&farm.scale), DISAGREES);
    let again = held["repeats"][0].clone();
    held["repeats"].as_array_mut().expect("repeats").push(again);
    held["repeats"][0]["set_aside"] = json!(format!("{name} set aside"));
    let held = farm.log("calibrations", held).await;
    let decision = json!({ "decision": "rejected", "reason": format!("{name} decided") });
    ana.create(&format!("/calibrations/{held}/decisions"), decision).await;
    let wrong = farm.log("jobs", job(&at("09"), &lot, "1400", "7.2")).await;
    ana.create(&format!("/records/{wrong}/void"), json!({ "reason": format!("{name} voided") })).await;
    vec![client, field, lot, test, sold, filled, caught, sowing, emptied, held, wrong]
}

/// What the office typed beside the machine's records, each text its own.
const TYPED: [&str; 11] = [
    "fitted",
    "worn part",
    "laid up for",
    "taken back for",
    "let pass for",
    "void setup",
    "void service",
    "void configuration",
    "void lay-up",
    "void check",
    "void waiver",
];

/// The machine's own records with free text in each field that takes one, and their ids.
async fn kept(farm: &Farm) -> Vec<String> {
    let typed = |what: &str| {
        assert!(TYPED.contains(&what), "{what}");
        json!(format!("{SECRET} {what}"))
    };
    let noted = |mut record: Value, what: &str| {
        record["note"] = typed(what);
        record
    };
    let at = |day: &str| format!("2027-05-{day}T08:00:00Z");
    let waiver = |trigger: &str| json!({ "occurred_at": at("22"), "trigger": trigger, "until": "2027-07-01", "reason": typed("let pass for") });
    let laid_up = |day: &str, laid_up: bool| json!({ "occurred_at": at(day), "laid_up": laid_up });
    let check = json!({ "occurred_at": at("20"), "reference": { "value": "10", "unit": "kg" },
        "reading": { "value": "9", "unit": "kg" } });
    let check = text(&farm.ana.create(&format!("/scales/{}/checks", farm.scale), check).await["id"]);
    let ids = vec![
        farm.log("setups", noted(setup(&at("20"), &farm.coarse, "5:2", "12"), "fitted")).await,
        farm.at_seeder("services", noted(service(&at("20"), false), "worn part")).await,
        farm.at_seeder("lay-ups", noted(laid_up("20", true), "laid up for")).await,
        farm.at_seeder("lay-ups", noted(laid_up("21", false), "taken back for")).await,
        farm.log("waivers", waiver("roller_changed")).await,
        farm.log("setups", setup(&at("23"), &farm.fine, "5:2", "12")).await,
        farm.at_seeder("services", service(&at("23"), false)).await,
        farm.at_seeder("configurations", configuration(&at("23"), "5")).await,
        farm.at_seeder("lay-ups", laid_up("23", true)).await,
        check,
        farm.log("waivers", waiver("gate_changed")).await,
    ];
    let voids = TYPED.iter().filter(|what| what.starts_with("void"));
    for (record, what) in ids[5..].iter().zip(voids) {
        farm.ana.create(&format!("/records/{record}/void"), json!({ "reason": typed(what) })).await;
    }
    ids
}

/// A second machine, on which the own client's seed lies upon the other's and is judged by the other's catches: on its front
/// tank against one that a later one puts in doubt, on its rear tank under one that was let pass. Its units, and the other
/// client's records on it.
struct Second {
    seeder: String,
    front: String,
    rear: String,
    others: Vec<String>,
}

impl Second {
    async fn new(farm: &Farm, others_lot: &str, own_lot: &str) -> Self {
        let Farm { ana, fine, scale, .. } = farm;
        let rpm = json!({ "min": 10, "max": 120 });
        let unit = |label: &str| json!({ "label": label, "runs": 8, "drive": "electric", "roller_speed_rpm": rpm });
        let seeder = json!({ "name": "Drill 2", "serial_number": "SN-2", "kind": "box_drill", "commissioned_on": "2021-03-01",
            "working_width": { "value": "6", "unit": "m" }, "row_spacing": { "value": "12.5", "unit": "cm" },
            "metering_units": [unit("front"), unit("rear")] });
        let seeder = ana.create("/seeders", seeder).await;
        let at = |day: &str| format!("2027-05-{day}T08:00:00Z");
        let mut others = Vec::new();
        let unit = |place: usize| text(&seeder["metering_units"][place]["id"]);
        let (front, rear) = (unit(0), unit(1));
        for unit in [&front, &rear] {
            let log = async |what: &str, record: Value| {
                text(&ana.create(&format!("/metering-units/{unit}/{what}"), record).await["id"])
            };
            log("setups", setup("2027-03-21T08:00:00Z", fine, "5:2", "12")).await;
            others.push(log("fills", fill(&at("10"), others_lot)).await);
            others.push(log("calibrations", catch(&at("11"), others_lot, Some(scale), AGREES)).await);
            if unit == &front {
                others.push(log("calibrations", catch(&at("12"), others_lot, Some(scale), DISAGREES)).await);
            }
            others.push(log("jobs", job(&at("13"), others_lot, "1400", "7.2")).await);
            log("fills", fill(&at("14"), own_lot)).await;
            if unit == &rear {
                let waiver = json!({ "occurred_at": at("15"), "trigger": "lot_changed", "until": "2027-07-01", "reason": "dry" });
                log("waivers", waiver).await;
            }
            log("jobs", job(&at("16"), own_lot, "1400", "7.2")).await;
        }
        Self { seeder: text(&seeder["id"]), front, rear, others }
    }

    /// The judgement is the same whoever asks: who is limited to a client is told it without the ids behind it.
    async fn is_told_without_the_others_ids(&self, office: &Person, gus: &Person, own_lot: &str) {
        let ids = |now: &Value| {
            let due = now["due"].as_array().expect("a list").iter();
            let doubt =
                due.clone().find(|due| due["trigger"] == "calibration_in_doubt").map(|due| due["cause"].clone());
            let (in_force, compared) = (now["calibration_id"].clone(), now["compared_with"].clone());
            (in_force, compared, now["mixed_with"].as_array().expect("a list").len(), doubt)
        };
        for unit in [&self.front, &self.rear] {
            let path = format!("/metering-units/{unit}/readiness");
            let (whole, told) = (office.read(&path).await, gus.read(&path).await);
            for same in ["state", "factor", "in_force_since", "recalled"] {
                assert_eq!(told[same], whole[same], "{same}: {told}");
            }
            assert_eq!(told["lot_id"], *own_lot, "{told}");
            let names = |now: &Value| {
                let due = now["due"].as_array().expect("a list").iter();
                due.map(|due| (due["trigger"].clone(), due["since"].clone())).collect::<Vec<_>>()
            };
            assert_eq!(names(&told), names(&whole));
            let [.., caught, failed, _] = &self.others[..4] else { panic!("{:?}", self.others) };
            let (in_force, compared, doubt) = if unit == &self.front {
                (json!(null), json!(caught), Some(json!({ "kind": "calibration", "id": failed })))
            } else {
                (json!(self.others[5]), json!(self.others[5]), None)
            };
            assert_eq!(ids(&whole), (in_force, compared, 1, doubt.clone()), "{whole}");
            let doubt = doubt.map(|_| json!({ "kind": "calibration", "id": null }));
            assert_eq!(ids(&told), (json!(null), json!(null), 0, doubt), "{told}");
        }
        let rate = format!("/metering-units/{}/rate?rate=140&rate_unit=kg/ha&speed=8&speed_unit=km/h", self.rear);
        let (whole, told) = (office.read(&rate).await, gus.read(&rate).await);
        assert_eq!((&told["calibration_id"], &told["factor"]), (&json!(null), &whole["factor"]), "{told}");
        assert_eq!(whole["calibration_id"], self.others[5], "{whole}");
        let jobs = gus.read("/usage").await;
        let jobs = jobs["jobs"].as_array().expect("a list").iter();
        let valid: Vec<_> = jobs.filter(|job| job["metering_unit_id"] == self.rear).collect();
        assert!(
            valid.len() == 1 && valid[0]["calibration_valid"] == true && valid[0]["calibration_id"].is_null(),
            "{valid:?}"
        );
    }
}

/// Every address that can be read: with each of the ids in the place of one, and with each of the queries by which pages and
/// lists are asked.
fn addresses(ids: &[String], queries: &[String]) -> Vec<(Surface, String)> {
    let mut all = Vec::new();
    for route in app::routes().iter().filter(|route| route.method == Method::GET) {
        // Files of the program, and what secrets open, are nobody's records.
        if route.path.contains("{code}") || route.path.contains("{hash}") {
            continue;
        }
        let mut paths = vec![route.path.clone()];
        if route.path.contains("{list}") {
            paths =
                Listed::ALL.iter().map(|list| route.path.replace("{list}", &format!("{}.csv", list.word()))).collect();
        } else if let Some(place) = route.path.find('{') {
            let end = place + route.path[place..].find('}').expect("its end");
            paths = ids.iter().map(|id| format!("{}{id}{}", &route.path[..place], &route.path[end + 1..])).collect();
        } else {
            paths.extend(queries.iter().map(|query| format!("{}?{query}", route.path)));
        }
        all.extend(paths.into_iter().map(|path| (route.surface, path)));
    }
    all
}

async fn read(person: &Person, surface: Surface, path: &str) -> Answer {
    match surface {
        Surface::Page => person.get(&format!("/page{path}")).await,
        Surface::Api => person.get(path.strip_prefix("/api/v1").expect("an API")).await,
    }
}

async fn a_clients_agronomist_is_told_nothing_of_another_client(world: World) {
    world.set_time("2027-06-01T06:00:00Z");
    let farm = Farm::new(&world).await;
    farm.log("setups", setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")).await;
    let others = sown(&farm, SECRET, "04", "34").await;
    let own = sown(&farm, OWN, "05", "12").await;
    farm.log("fills", fill("2027-05-10T08:00:00Z", &own[2])).await;
    let second = Second::new(&farm, &others[2], &own[2]).await;
    let machines = kept(&farm).await;
    let organization = farm.ana.organization;
    let gus = world.member_for(organization, "gus-clients@example.org", "agronomist", &[&own[0]]).await;
    let mia = world.member(organization, "mia-clients@example.org", "agronomist").await;
    let of = json!({ "lot_id": others[2] });
    let signed = mia.create("/usage/signatures", json!({ "of": of, "remark": format!("{SECRET} seen") })).await;
    let signed = text(&signed["id"]);
    let shared = [&farm.seeder, &farm.unit, &farm.scale, &signed, &second.seeder, &second.front, &second.rear];
    let (own_lot, own_catch) = (&own[2], &own[6]);
    // The machine's records are read where its seeder, unit and scale are; of their own ids one stands for all.
    let ids: Vec<String> =
        others.iter().chain(shared).chain([&machines[4], own_lot, own_catch, &own[9]]).cloned().collect();
    let others: Vec<String> = others.iter().chain(&second.others).cloned().collect();
    let queries = [
        ("client_id", &others[0]),
        ("client_id", &own[0]),
        ("field_id", &others[1]),
        ("lot_id", &others[2]),
        ("unit_id", &farm.unit),
        ("unit_id", &second.front),
        ("unit_id", &second.rear),
        ("seeder_id", &farm.seeder),
        ("seeder_id", &second.seeder),
    ];
    let queries = queries.map(|(name, id)| format!("{name}={id}"));
    let (mut told, mut by_office, mut of_own) = (Vec::new(), BTreeSet::new(), BTreeSet::new());
    let (mut unread, mut unread_of_own) = (BTreeSet::from(TYPED), BTreeSet::from(["decided", "voided", "set aside"]));
    for (surface, path) in addresses(&ids, &queries) {
        let answer = read(&gus, surface, &path).await;
        assert!(answer.status.as_u16() < 500, "{path}: {}", answer.text);
        // An id that was asked for may be said back.
        let leaks = others.iter().any(|id| answer.text.contains(id.as_str()) && !path.contains(id.as_str()));
        if answer.text.contains(SECRET) || leaks {
            told.push(path.clone());
        }
        if answer.text.contains(OWN) {
            of_own.insert(path.split('?').next().unwrap_or_default().to_owned());
            unread_of_own.retain(|what| !answer.text.contains(&format!("{OWN} {what}")));
        }
        if others.iter().any(|id| path.ends_with(id.as_str())) || !path.contains(['?']) {
            let office = read(&farm.ana, surface, &path).await;
            if office.text.contains(SECRET) {
                unread.retain(|what| !office.text.contains(&format!("{SECRET} {what}")));
                by_office.insert(path.split('?').next().unwrap_or_default().to_owned());
            }
        }
    }
    assert_eq!(told, Vec::<String>::new(), "of another client");
    assert!(by_office.len() >= 30 && of_own.len() >= 20, "the walk finds little: {by_office:?} {of_own:?}");
    assert!(unread.is_empty() && unread_of_own.is_empty(), "found nowhere: {unread:?}, {unread_of_own:?}");
    second.is_told_without_the_others_ids(&farm.ana, &gus, own_lot).await;
    what_stands_in_its_place(&farm, &gus, &machines).await;
    what_the_office_cuts_out_for_a_client_is_alike(&farm, &own[0]).await;
    let mut browser = Browser::of(&world, &gus, Role::Agronomist).await;
    let feed = made(&world, &mut browser).await;
    for file in ["due.ics", "due.atom"] {
        let read = fetched(&world, &format!("{feed}/{file}")).await;
        assert!(read.status == 200 && !read.text.contains(SECRET), "{}", read.text);
    }
    // The trail keeps its chain: every line's place and hash, and the content of those about the own client.
    let lines =
        async |person: &Person| person.read("/audit?limit=500").await["items"].as_array().expect("lines").clone();
    let (whole, seen) = (lines(&farm.ana).await, lines(&gus).await);
    let chain =
        |lines: &[Value]| lines.iter().map(|line| (line["seq"].clone(), line["hash"].clone())).collect::<Vec<_>>();
    assert_eq!(chain(&seen), chain(&whole));
    let content =
        |id: &String| seen.iter().find(|line| line["subject"]["id"] == **id).map(|line| line["change"].to_string());
    for id in [own_lot, own_catch, &own[1], &own[4], &own[7]] {
        assert!(content(id).is_some_and(|change| change != "null"), "{id} is the own client's");
    }
    let of_setup = seen.iter().find(|line| line["subject"]["id"] == *machines[0]).expect("the machine's record");
    assert_eq!((&of_setup["change"]["note"], &of_setup["change"]["drive_ratio"]), (&json!(null), &json!("5:2")));
    let withheld: Vec<_> = seen.iter().filter(|line| line["action"] == "withheld").collect();
    assert!(withheld.len() >= others.len() && withheld.iter().all(|line| line["change"].is_null()), "{withheld:?}");
}

/// The facts of a machine's records are told, who entered them and until when; in the place of the text stands that there is one.
async fn what_stands_in_its_place(farm: &Farm, gus: &Person, machines: &[String]) {
    let now = gus.read(&format!("/metering-units/{}/readiness", farm.unit)).await;
    let due = now["due"].as_array().expect("a list").iter().find(|due| due["trigger"] == "roller_changed");
    let waived = &due.unwrap_or_else(|| panic!("{now}"))["waived"];
    assert_eq!((&waived["id"], &waived["reason"]), (&json!(machines[4]), &json!(null)), "{now}");
    assert!(text(&waived["by"]).starts_with("ana") && text(&waived["until"]).starts_with("2027-07-0"), "{now}");
    let board = gus.get("/page/").await.text;
    assert!(board.contains("The reason is the office’s own."), "{board}");
    let found = |list: &Value, id: &str| {
        let items = list["items"].as_array().expect("a list");
        items.iter().find(|item| item["id"] == *id).unwrap_or_else(|| panic!("{id} in {list}")).clone()
    };
    let waivers = gus.read(&format!("/metering-units/{}/waivers", farm.unit)).await;
    assert_eq!(found(&waivers, &machines[4])["reason"], json!(null));
    let setups = gus.read(&format!("/metering-units/{}/setups", farm.unit)).await;
    let fitted = found(&setups, &machines[0]);
    assert_eq!((&fitted["roller"], &fitted["note"]), (&json!("coarse studded"), &json!(null)));
    let void = &found(&setups, &machines[5])["void"];
    assert!(void["reason"].is_null() && !void["at"].is_null() && !void["by"].is_null(), "{void}");
    // An empty cell would make a void record one that stands.
    let list = gus.get("/page/exchange/csv/setups.csv").await;
    let line = list.text.lines().find(|line| line.starts_with(&machines[5])).unwrap_or_else(|| panic!("{}", list.text));
    assert!(line.contains(",withheld,"), "{line}");
    let page = gus.get(&format!("/page/seeders/{}", farm.seeder)).await.text;
    assert!(page.contains("coarse studded") && page.contains("The reason is the office’s own."), "{page}");
}

/// A report and a list that the office makes for one client hold what that client's agronomist would read.
async fn what_the_office_cuts_out_for_a_client_is_alike(farm: &Farm, client: &str) {
    let mut answers = vec![farm.ana.get(&format!("/page/reports/season?client_id={client}")).await];
    for list in Listed::ALL.iter().filter(|list| **list != Listed::Crews) {
        answers.push(farm.ana.get(&format!("/page/exchange/csv/{}.csv?client_id={client}", list.word())).await);
    }
    // The office chooses among all its clients.
    let choice = format!(">{SECRET} Farm</option>");
    for answer in &answers {
        assert!(answer.status == 200 && !answer.text.replace(&choice, "").contains(SECRET), "{}", answer.text);
    }
    assert!(answers[0].text.contains("for a reason of its own"), "{}", answers[0].text);
}
