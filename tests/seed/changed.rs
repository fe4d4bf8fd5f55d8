//! What is changed of lots and fields: everything of a label but what stays, and who sees them then.

use super::{drill, id, ids, job, kg, lot};
use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};
use std::collections::BTreeSet;

on_both!(
    nothing_of_a_lot_is_lost_by_a_change,
    what_a_lot_is_of_and_came_with_stays,
    a_group_is_changed_field_by_field,
    another_client_is_seen_by_others,
    jobs_keep_their_area_and_show_the_fields_name,
);

/// A lot of which everything is known.
fn whole(client: &str) -> Value {
    json!({
        "lot_number": "C-1", "material": "seed", "crop": "red clover", "variety": "Elmora", "supplier": "Feldmark Seed",
        "received_on": "2027-03-02", "received_mass": { "lb": 1200, "oz": 8 }, "client_id": client,
        "treatment": { "product": "Tefin", "caution": "Gloves.\nNo feed." },
        "analysis": { "purity_percent": "98.50", "germination_percent": "85", "tested_on": "2027-02-01" },
        "label": {
            "origin": "Oregon", "category": "certified seed, first generation", "certifying_authority": "State Seed Service",
            "serial_number": "A 0071 334", "sealed_in": "2027-01", "declared_weight": { "lb": 50, "oz": 0 },
            "containers": 40, "hermetic": false, "hard_seed_percent": "9", "other_crop_percent": "0.25",
            "weed_seed_percent": "0.10", "inert_matter_percent": "1.10", "noxious_weeds": "dock: 4 in 1 lb\nno dodder",
            "components": "red clover 60 %, timothy 40 %", "additives": "lime coat", "inoculant_expires": "2027-06",
            "test_report": "State laboratory, no. 4711"
        }
    })
}

/// The fields of a body, those of its groups by their places.
fn places(of: &Value, below: &str) -> BTreeSet<String> {
    let fields = of["properties"].as_object().or_else(|| of.as_object()).into_iter().flatten();
    fields
        .flat_map(|(name, value)| {
            let place = format!("{below}/{name}");
            let is_group = ["treatment", "analysis", "label"].contains(&name.as_str());
            if is_group { places(value, &place) } else { BTreeSet::from([place]) }
        })
        .collect()
}

async fn nothing_of_a_lot_is_lost_by_a_change(world: World) {
    let ana = world.ana().await;
    let client = id(&ana.create("/clients", json!({ "name": "Halm" })).await);
    // A field that is new to lots belongs into this test, and into the tree that a change is put onto.
    let document = ana.read("/openapi.json").await;
    let taken = &document["paths"]["/api/v1/lots"]["post"]["requestBody"]["content"]["application/json"]["schema"];
    let mut known = places(taken, "");
    known.remove("/id");
    assert_eq!(known, places(&whole(&client), ""));

    let added = ana.create("/lots", whole(&client)).await;
    let path = format!("/lots/{}", id(&added));
    let before = ana.read(&path).await;
    let mut wanted = added.clone();
    wanted["lot_number"] = json!("C-2");
    assert_eq!(ana.patch(&path, json!({ "lot_number": "C-2" })).await.json(), wanted);
    // From the form as a browser sends it: with nothing else touched, nothing else is changed.
    let form = format!("/page{path}/change");
    let page = ana.get(&form).await.text;
    for shown in ["1200 lb 8 oz", "name=\"material\"", "name=\"received_mass/value\""] {
        assert!(!page.contains(shown), "what stays is not asked for: {page}");
    }
    assert!(page.contains("<details class=\"more\" open>"), "what is known stands open: {page}");
    let typed = [
        ("lot_number", "C-1"),
        ("treatment/caution", "Gloves.\r\nNo feed."),
        ("label/declared_weight/value", "50 lb 0 oz"),
        ("label/declared_weight/unit", "lb"),
        ("label/noxious_weeds", "dock: 4 in 1 lb\r\nno dodder"),
        ("label/containers", "40"),
    ];
    assert_eq!(ana.submit(&form, &typed).await.status, 303);
    assert_eq!(ana.read(&path).await, before);
    let lines = ana.read("/audit?limit=500").await["items"].clone();
    let last = lines.as_array().unwrap().last().unwrap();
    assert_eq!(last["change"], json!({ "from": { "lot_number": "C-2" }, "to": { "lot_number": "C-1" } }));
}

async fn what_a_lot_is_of_and_came_with_stays(world: World) {
    let ana = world.ana().await;
    let received = json!({ "received_mass": kg("1000"), "received_on": "2027-03-02" });
    let path = format!("/lots/{}", lot(&ana, "A", received).await);
    let answer = ana.patch(&path, json!({ "material": "fertilizer", "received_mass": kg("900"), "crop": "rye" })).await;
    answer.refused(422, &["/material", "/received_mass"]);
    assert!(answer.text.contains("Record a movement or a count"), "{}", answer.text);
    ana.patch(&path, json!({ "received_mass": null })).await.refused(422, &["/received_mass"]);
    assert_eq!(ana.patch(&path, json!({ "crop": "rye" })).await.status, 200);
    let now = ana.read(&path).await;
    assert_eq!((&now["material"], &now["received_mass"], &now["crop"]), (&json!("seed"), &kg("1000"), &json!("rye")));
    let usage = ana.read("/usage").await;
    assert_eq!(usage["lots"][0]["received"]["value"], "1000", "{usage}");
}

async fn a_group_is_changed_field_by_field(world: World) {
    let ana = world.ana().await;
    let path = format!("/lots/{}", lot(&ana, "A", json!({ "treatment": { "product": "Tefin" } })).await);
    let changed = async |change: Value| {
        let answer = ana.patch(&path, change).await;
        assert_eq!(answer.status, 200, "{}", answer.text);
        answer.json()
    };
    let now = changed(json!({ "treatment": { "caution": "Gloves." }, "analysis": { "purity_percent": 98.5 } })).await;
    assert_eq!(now["treatment"], json!({ "product": "Tefin", "caution": "Gloves." }));
    assert_eq!(now["analysis"]["purity_percent"].to_string(), "98.5");
    let now = changed(json!({ "label": { "weed_seed_percent": "1", "origin": "Oregon" } })).await;
    assert_eq!(now["label"]["origin"], "Oregon");
    // Together with what stands, shares are no more than the whole.
    let more = json!({ "label": { "inert_matter_percent": "6" } });
    ana.patch(&path, more).await.refused(422, &["/label/inert_matter_percent"]);
    ana.patch(&path, json!({ "treatment": { "product": null } })).await.refused(422, &["/treatment/product"]);
    let now = changed(json!({ "treatment": null, "label": { "weed_seed_percent": null, "origin": null } })).await;
    assert_eq!((&now["treatment"], &now["label"]), (&Value::Null, &Value::Null));
    ana.patch(&path, json!({ "treatment": { "caution": "Gloves." } })).await.refused(422, &["/treatment/product"]);
}

async fn another_client_is_seen_by_others(world: World) {
    let ana = world.ana().await;
    let halm = id(&ana.create("/clients", json!({ "name": "Halm" })).await);
    let rain = id(&ana.create("/clients", json!({ "name": "Rain" })).await);
    let lea = world.member_for(ana.organization, "lea@example.org", "agronomist", &[halm.as_str()]).await;
    let tom = world.member_for(ana.organization, "tom@example.org", "agronomist", &[rain.as_str()]).await;
    let field = json!({ "name": "Long acre", "area": { "value": "9", "unit": "ha" }, "client_id": halm });
    let field = id(&ana.create("/fields", field).await);
    let (theirs, own) = (lot(&ana, "T", json!({ "client_id": halm })).await, lot(&ana, "O", json!({})).await);
    let (with_lot, on_field) = (drill(&world, &ana, "1").await, drill(&world, &ana, "2").await);
    let fill = json!({ "occurred_at": "2027-03-30T18:05:00Z", "lot_id": theirs });
    let fill = id(&ana.create(&with_lot.path("fills"), fill).await);
    let sown = json!({ "occurred_at": "2027-03-31T08:00:00Z", "ended_at": null, "field": null, "field_id": field });
    let sown = id(&ana.create(&on_field.path("jobs"), job(&own, &sown)).await);

    for (sees, not) in [(&lea, &tom), (&tom, &lea)] {
        assert_eq!(ids(&sees.read("/lots").await), std::slice::from_ref(&theirs));
        assert_eq!(ids(&sees.read("/fields").await), std::slice::from_ref(&field));
        assert_eq!(ids(&sees.read(&with_lot.path("fills")).await), std::slice::from_ref(&fill));
        assert_eq!(ids(&sees.read(&on_field.path("jobs")).await), std::slice::from_ref(&sown));
        assert_eq!((ids(&not.read("/lots").await), ids(&not.read("/fields").await)), (vec![], vec![]));
        not.get(&format!("/lots/{theirs}")).await.refused(404, &[]);
        not.get(&format!("/fields/{field}")).await.refused(404, &[]);
        not.get(&with_lot.path("fills")).await.refused(404, &[]);
        not.get(&on_field.path("jobs")).await.refused(404, &[]);
        // On the pages of the forms; the second time it changes nothing.
        for page in [format!("/page/lots/{theirs}/change"), format!("/page/fields/{field}/change")] {
            assert_eq!(ana.submit(&page, &[("client_id", rain.as_str())]).await.status, 303, "{page}");
        }
    }
    for path in [format!("/lots/{theirs}"), format!("/fields/{field}")] {
        assert_eq!(ana.patch(&path, json!({ "client_id": null })).await.status, 200);
        tom.get(&path).await.refused(404, &[]);
    }
}

async fn jobs_keep_their_area_and_show_the_fields_name(world: World) {
    let ana = world.ana().await;
    let field = json!({ "name": "Long acre", "area": { "value": "9", "unit": "ha" } });
    let field = id(&ana.create("/fields", field).await);
    let (lot, drill) = (lot(&ana, "A", json!({})).await, drill(&world, &ana, "1").await);
    let sown = json!({ "occurred_at": "2027-03-31T08:00:00Z", "ended_at": null, "field": null, "field_id": field });
    ana.create(&drill.path("jobs"), job(&lot, &sown)).await;
    let before = ana.read("/usage").await;
    let change = json!({ "name": "Far acre", "area": { "value": "12", "unit": "ha" } });
    assert_eq!(ana.patch(&format!("/fields/{field}"), change).await.status, 200);
    let after = ana.read("/usage").await;
    assert_eq!(after["jobs"][0]["actual_rate"], before["jobs"][0]["actual_rate"]);
    let page = ana.get("/page/usage").await.text;
    assert!(page.contains("Far acre") && !page.contains("Long acre"), "{page}");
}
