//! What a lot's label states beside purity and germination: kept as it stands there, refused where it cannot be, and shown
//! to whom it concerns.

use super::{drill, hand, kg, lot, wheat};
use crate::on_both;
use crate::people::browser::Browser;
use crate::world::World;
use serde_json::{Value, json};
use sowmark::access::Role;

on_both!(
    everything_on_a_label_is_kept_as_it_stands,
    every_fault_of_a_label_is_named,
    shares_are_no_more_than_the_whole,
    how_much_it_declares_is_stock,
    the_short_form_stays_short,
    a_label_comes_back_with_all_that_was_typed,
    a_plan_takes_hard_seed_from_the_label,
    a_label_in_spanish,
);

/// A label with every item.
fn whole() -> Value {
    json!({
        "origin": "Oregon", "category": "certified seed, first generation", "certifying_authority": "State Seed Service",
        "serial_number": "A 0071 334", "sealed_in": "2027-01", "declared_weight": { "lb": 50, "oz": 0 }, "containers": 40,
        "hermetic": true, "hard_seed_percent": "9", "other_crop_percent": "0.25", "weed_seed_percent": 0.10,
        "inert_matter_percent": "1.10", "noxious_weeds": "dock: 4 in 1 lb\nno dodder",
        "components": "red clover 60 %, timothy 40 %", "additives": "lime coat, 34 % of the weight",
        "inoculant_expires": "2027-06", "test_report": "State laboratory, no. 4711"
    })
}

async fn everything_on_a_label_is_kept_as_it_stands(world: World) {
    let ana = world.ana().await;
    let analysis = json!({ "purity_percent": "98.55", "germination_percent": "85" });
    let sent = wheat("C-1", &json!({ "analysis": analysis, "label": whole() }));
    let created = ana.create("/lots", sent).await;
    let mut wanted = whole();
    wanted["declared_weight"] = json!({ "value": "50.0000", "unit": "lb", "lb": "50", "oz": "0" });
    for name in ["hard_seed_percent", "other_crop_percent", "inert_matter_percent"] {
        let digits = wanted[name].as_str().expect("digits").to_owned();
        assert_eq!(created["label"][name].to_string(), digits, "{name}: the digits that were entered are kept");
        wanted[name] = created["label"][name].clone();
    }
    assert_eq!(created["label"], wanted);
    let path = format!("/lots/{}", super::id(&created));
    assert_eq!(ana.read(&path).await["label"], wanted);
    assert_eq!(ana.read("/lots").await["items"][0]["label"], wanted);
    let page = ana.get(&format!("/page{path}")).await.text;
    for said in [
        "Oregon",
        "certified seed, first generation",
        "A 0071 334",
        "January 2027",
        "50 lb 0 oz",
        "yes, hermetic containers",
        "<dd class=\"num\">9 %</dd>",
        "<dd class=\"num\">0.25 %</dd>",
        "no dodder",
        "lime coat",
        "June 2027",
        "no. 4711",
    ] {
        assert!(page.contains(said), "{said} is not on the page: {page}");
    }
    // Nothing is made up for what is on no label.
    let plain = ana.create("/lots", wheat("C-2", &json!({ "label": {} }))).await;
    assert_eq!(plain["label"], json!(null));
    let page = ana.get(&format!("/page/lots/{}", super::id(&plain))).await.text;
    assert!(!page.contains("Grown in") && !page.contains("Hard or dormant seed"), "{page}");
}

async fn every_fault_of_a_label_is_named(world: World) {
    let ana = world.ana().await;
    let bad = json!({ "label": {
        "origin": "", "category": "a\nb", "certifying_authority": 7, "serial_number": "n".repeat(121), "sealed_in": "01/2027",
        "declared_weight": { "value": "-1", "unit": "kg" }, "containers": "2.5", "hermetic": "perhaps",
        "hard_seed_percent": 101, "other_crop_percent": "some", "weed_seed_percent": -1, "inert_matter_percent": "1e9",
        "noxious_weeds": "x".repeat(1001), "components": ["clover"], "additives": "\u{0}", "inoculant_expires": "2327-06",
        "test_report": " ", "colour": "blue"
    } });
    let faults = ana.post("/lots", wheat("C-1", &bad)).await;
    let names = [
        "origin",
        "category",
        "certifying_authority",
        "serial_number",
        "sealed_in",
        "declared_weight",
        "containers",
        "hermetic",
        "hard_seed_percent",
        "other_crop_percent",
        "weed_seed_percent",
        "inert_matter_percent",
        "noxious_weeds",
        "components",
        "additives",
        "inoculant_expires",
        "test_report",
        "colour",
    ];
    let pointers: Vec<String> = names.iter().map(|name| format!("/label/{name}")).collect();
    assert!(faults.text.contains("\u{201c}01/2027\u{201d} is no month. Write year and month, like 2027-03."));
    assert!(faults.text.contains("The year 2327 is out of reach."));
    faults.refused(422, &pointers.iter().map(String::as_str).collect::<Vec<_>>());
    ana.post("/lots", wheat("C-1", &json!({ "label": "blue" }))).await.refused(422, &["/label"]);
    assert_eq!(ana.read("/lots").await["items"], json!([]));
}

async fn shares_are_no_more_than_the_whole(world: World) {
    let ana = world.ana().await;
    let send = async |purity: &str, germination: &str, label: Value| {
        let analysis = json!({ "purity_percent": purity, "germination_percent": germination });
        ana.post("/lots", wheat("C-1", &json!({ "analysis": analysis, "label": label }))).await
    };
    let much = json!({ "other_crop_percent": "1.00", "weed_seed_percent": "0.50" });
    let answer = send("98.60", "95", much).await;
    assert!(answer.text.contains("come to 100.1 % together"), "{}", answer.text);
    answer.refused(422, &["/label/weed_seed_percent"]);
    let hard = json!({ "hard_seed_percent": "9", "inert_matter_percent": "3" });
    send("98.60", "95", hard).await.refused(422, &["/label/inert_matter_percent", "/label/hard_seed_percent"]);
    // Rounded to whole and half percents, the parts of a hundred can come to more.
    let rounded = json!({ "other_crop_percent": "1", "weed_seed_percent": "0.5", "hard_seed_percent": "5" });
    assert_eq!(send("98.6", "95", rounded).await.status, 201);
}

async fn how_much_it_declares_is_stock(world: World) {
    let ana = world.ana().await;
    let drill = drill(&world, &ana, "Air drill 1").await;
    let cem = hand(&world, &ana, "cem-label@example.org", &[&drill]).await;
    let lot = lot(&ana, "C-1", json!({ "label": whole() })).await;
    let seen = cem.read(&format!("/lots/{lot}")).await;
    assert_eq!(seen["label"]["origin"], "Oregon");
    assert!(seen["label"].get("containers").is_none() && seen["label"].get("declared_weight").is_none(), "{seen}");
    let page = cem.get(&format!("/page/lots/{lot}")).await.text;
    assert!(page.contains("dock: 4 in 1 lb") && !page.contains("50 lb"), "{page}");
    let only = super::lot(&ana, "C-2", json!({ "label": { "containers": 3 } })).await;
    assert_eq!(cem.read(&format!("/lots/{only}")).await["label"], json!(null));
}

async fn the_short_form_stays_short(world: World) {
    let ana = world.ana().await;
    let form = ana.get("/page/lots/new").await.text;
    let (short, folded) = form.split_once("<details class=\"more\">").expect("a folded part");
    assert!(short.contains("name=\"analysis/purity_percent\"") && !short.contains("name=\"label/"), "{short}");
    assert!(folded.contains("What else the label says") && folded.contains("name=\"label/origin\""), "{folded}");
    assert!(folded.contains("id=\"label/sealed_in\" name=\"label/sealed_in\" type=\"month\""), "{folded}");
    assert!(folded.contains("list=\"label/category-list\"") && folded.contains("<option value=\"pre-basic seed\">"));
    // Left alone, it says nothing, although a unit is chosen in it.
    let fields = [("lot_number", "W-1"), ("crop", "wheat"), ("label/declared_weight/unit", "kg"), ("label/origin", "")];
    let there = ana.submit("/page/lots", &fields).await;
    assert_eq!(there.status, 303, "{}", there.text);
    assert_eq!(ana.read("/lots").await["items"][0]["label"], json!(null));
}

async fn a_label_comes_back_with_all_that_was_typed(world: World) {
    let ana = world.ana().await;
    let mut fields = vec![
        ("lot_number", "C-1"),
        ("crop", "red clover"),
        ("analysis/purity_percent", "98,6"),
        ("label/origin", "Oregon"),
        ("label/category", "class of our own"),
        ("label/sealed_in", "January"),
        ("label/declared_weight/value", "50 lb"),
        ("label/declared_weight/unit", "kg"),
        ("label/hermetic", "true"),
        ("label/inert_matter_percent", "2,5"),
        ("label/noxious_weeds", "dock: 4 in 1 lb"),
    ];
    let answer = ana.submit("/page/lots", &fields).await;
    assert_eq!(answer.status, 422);
    for said in [
        "<details class=\"more\" open>",
        "label/sealed_in-error",
        "is no month",
        "value=\"January\"",
        "value=\"Oregon\"",
        "value=\"class of our own\"",
        "value=\"50 lb\"",
        "value=\"true\" checked",
        "value=\"2,5\"",
        "dock: 4 in 1 lb</textarea>",
    ] {
        assert!(answer.text.contains(said), "{said} is lost: {}", answer.text);
    }
    fields[5] = ("label/sealed_in", "2027-01");
    let answer = ana.submit("/page/lots", &fields).await;
    assert_eq!(answer.status, 422, "the shares are too much");
    assert!(answer.text.contains("label/inert_matter_percent-error") && answer.text.contains("come to 101,1 %"));
    fields[9] = ("label/inert_matter_percent", "1,4");
    assert_eq!(ana.submit("/page/lots", &fields).await.status, 303);
    let kept = ana.read("/lots").await["items"][0]["label"].clone();
    assert_eq!((&kept["hermetic"], &kept["sealed_in"]), (&json!(true), &json!("2027-01")));
    assert_eq!(kept["declared_weight"]["unit"], "lb");
}

async fn a_plan_takes_hard_seed_from_the_label(world: World) {
    let ana = world.ana().await;
    let analysis = json!({ "purity_percent": "98.75", "germination_percent": "88" });
    let with = lot(&ana, "C-1", json!({ "analysis": analysis, "label": { "hard_seed_percent": "5" } })).await;
    let page = ana.get(&format!("/page/rate-plan/live?lot_id={with}")).await.text;
    let field = page.split("id=\"hard_seed_percent\"").nth(1).expect("the field").split('>').next().expect("its end");
    assert!(field.contains("value=\"5\""), "{field}");
    // Source: Allamakee SWCD (Iowa), purity 98.75 %, germination 88 %, dormant 5 %: 91.83 % live (truncated); 10 lb/ac of it
    // are 10 / 0.918375 = 10.9 lb/ac from the bag.
    let asked = "pls_rate/value=10&pls_rate/unit=lb/ac&purity_percent=98.75&germination_percent=88&hard_seed_percent=5&count_hard_seed=true";
    let shown = ana.get(&format!("/page/rate-plan/live?lot_id={with}&{asked}")).await.text;
    assert!(shown.contains("10.9") && shown.contains("91.8"), "{shown}");
    let without = lot(&ana, "C-2", json!({})).await;
    let page = ana.get(&format!("/page/rate-plan/live?lot_id={without}")).await.text;
    let field = page.split("id=\"hard_seed_percent\"").nth(1).expect("the field").split('>').next().expect("its end");
    assert!(field.contains("value=\"\""), "{field}");
}

async fn a_label_in_spanish(world: World) {
    let ana = world.ana().await;
    let mut browser = Browser::of(&world, &ana, Role::Office).await;
    let chosen = [("units", "organization"), ("decimal_sign", "comma"), ("language", "es")];
    assert_eq!(browser.submit(&world, "/account/reading", &chosen).await.status, 303);
    let form = browser.get(&world, "/lots/new").await.text;
    assert!(form.contains("Qué más dice el rótulo") && form.contains("value=\"semilla prebásica\""), "{form}");
    let lot =
        lot(&ana, "C-1", json!({ "label": { "weed_seed_percent": "0.15", "declared_weight": kg("25.5") } })).await;
    let page = browser.get(&world, &format!("/lots/{lot}")).await.text;
    assert!(page.contains("Semilla de malezas") && page.contains("0,15 %") && page.contains("25,5 kg"), "{page}");
    let fields = [("lot_number", "C-2"), ("crop", "trébol"), ("label/sealed_in", "enero")];
    let answer = browser.submit(&world, "/lots", &fields).await;
    assert!(answer.text.contains("«enero» no es un mes."), "{}", answer.text);
}
