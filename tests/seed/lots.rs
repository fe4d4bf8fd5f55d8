//! Lots, clients and fields are added once, say what their label says, and can be wrong in many ways at once.

use super::{NOBODYS, ids, wheat};
use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(
    a_lot_says_what_its_label_says,
    the_same_lot_twice_is_one,
    every_fault_of_a_lot_is_named,
    lots_of_another_farm_are_not_there,
    a_field_belongs_to_a_client_that_is_there,
    lists_come_in_pages,
);

async fn a_lot_says_what_its_label_says(world: World) {
    let ana = world.ana().await;
    let client = ana.create("/clients", json!({ "name": "Halm & Sons" })).await;
    let sent = json!({
        "lot_number": " WW-2607-114 ", "crop": "  winter wheat ", "variety": "Elmora", "supplier": "Feldmark Seed",
        "received_on": "2027-03-02", "received_mass": { "lb": 5, "oz": 8 },
        "treatment": { "product": "Fludioxa 25", "caution": "Toxic to fish." },
        "analysis": { "purity_percent": "99.20", "germination_percent": 94, "tested_on": "2027-01-11" },
        "client_id": client["id"]
    });
    let lot = ana.create("/lots", sent).await;
    assert_eq!(lot["lot_number"], "WW-2607-114");
    assert_eq!((&lot["material"], &lot["crop"]), (&json!("seed"), &json!("winter wheat")));
    assert_eq!(lot["received_mass"], json!({ "value": "5.5000", "unit": "lb", "lb": "5", "oz": "8" }));
    assert_eq!(lot["treatment"], json!({ "product": "Fludioxa 25", "caution": "Toxic to fish." }));
    assert_eq!(lot["analysis"]["purity_percent"].to_string(), "99.20", "the digits that were entered are kept");
    assert_eq!(lot["analysis"]["germination_percent"].to_string(), "94");
    assert_eq!(lot["client_id"], client["id"]);

    let path = format!("/lots/{}", super::id(&lot));
    let shown = ana.read(&path).await;
    assert_eq!(shown["supplier"], "Feldmark Seed");
    assert_eq!(shown["latest_tests"]["thousand_seed_weight"], json!(null));

    let plain = ana.create("/lots", json!({ "lot_number": "D-1", "crop": "DAP", "material": "fertilizer" })).await;
    assert_eq!(
        (&plain["treatment"], &plain["analysis"], &plain["supplier"]),
        (&json!(null), &json!(null), &json!(null))
    );
}

async fn the_same_lot_twice_is_one(world: World) {
    let ana = world.ana().await;
    let sent = wheat("A", &json!({ "id": "0196d2a0-0000-7000-8000-000000000001" }));
    let first = ana.create("/lots", sent.clone()).await;
    let again = ana.post("/lots", sent).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, first.clone()));
    let other = wheat("B", &json!({ "id": first["id"] }));
    ana.post("/lots", other).await.refused(409, &[]);
    ana.post("/clients", json!({ "id": first["id"], "name": "A" })).await.refused(409, &[]);
    assert_eq!(ids(&ana.read("/lots").await), [super::id(&first)]);
}

async fn every_fault_of_a_lot_is_named(world: World) {
    let ana = world.ana().await;
    let bad = json!({
        "lot_number": "", "crop": "wheat\nbarley", "material": "gravel", "received_on": "1926-03-02",
        "received_mass": { "value": "-4", "unit": "kg" }, "treatment": { "caution": "hot" },
        "analysis": { "purity_percent": 101, "germination_percent": "most", "tested_on": "2027-02-30" },
        "supplier": 7, "client_id": "none", "price": 12
    });
    ana.post("/lots", bad).await.refused(
        422,
        &[
            "/lot_number",
            "/crop",
            "/material",
            "/received_on",
            "/received_mass",
            "/treatment/product",
            "/analysis/purity_percent",
            "/analysis/germination_percent",
            "/analysis/tested_on",
            "/supplier",
            "/client_id",
            "/price",
        ],
    );
    let stones = wheat("A", &json!({ "received_mass": { "value": "4", "unit": "stone" } }));
    ana.post("/lots", stones).await.refused(422, &["/received_mass/unit"]);
    assert_eq!(ana.read("/lots").await["items"], json!([]));
}

async fn lots_of_another_farm_are_not_there(world: World) {
    let (ana, ben) = (world.ana().await, world.ana().await);
    let client = super::id(&ben.create("/clients", json!({ "name": "Ben\u{2019}s client" })).await);
    for foreign in [client.as_str(), NOBODYS] {
        ana.post("/lots", wheat("A", &json!({ "client_id": foreign }))).await.refused(404, &["/client_id"]);
    }
    let lot = super::lot(&ben, "B", json!({})).await;
    ana.get(&format!("/lots/{lot}")).await.refused(404, &[]);
    ana.get(&format!("/clients/{client}")).await.refused(404, &[]);
    ana.get("/lots/that-one").await.refused(404, &[]);
}

async fn a_field_belongs_to_a_client_that_is_there(world: World) {
    let ana = world.ana().await;
    let client = super::id(&ana.create("/clients", json!({ "name": "Halm" })).await);
    let sent = json!({ "name": "Long acre", "area": { "value": "12,40", "unit": "ha" }, "client_id": client });
    let field = ana.create("/fields", sent).await;
    assert_eq!(field["area"], json!({ "value": "12.40", "unit": "ha" }));
    assert_eq!(ana.read(&format!("/fields/{}", super::id(&field))).await, field);
    let lost = json!({ "name": "Lost", "area": { "value": "1", "unit": "ac" }, "client_id": NOBODYS });
    ana.post("/fields", lost).await.refused(404, &["/client_id"]);
    let none = json!({ "name": "None", "area": { "value": "0", "unit": "ha" } });
    ana.post("/fields", none).await.refused(422, &["/area"]);
    let yards = json!({ "name": "Yard", "area": { "value": "3", "unit": "m" } });
    ana.post("/fields", yards).await.refused(422, &["/area/unit"]);
    assert_eq!(ids(&ana.read("/fields").await).len(), 1);
}

async fn lists_come_in_pages(world: World) {
    let ana = world.ana().await;
    for number in ["A", "B", "C"] {
        super::lot(&ana, number, json!({})).await;
    }
    let all = ids(&ana.read("/lots").await);
    let first = ana.read("/lots?limit=2").await;
    let rest = ana.read(&format!("/lots?limit=2&after={}", first["next"].as_str().expect("a cursor"))).await;
    assert_eq!([ids(&first), ids(&rest)].concat(), all);
    assert_eq!(rest["next"], json!(null));
}
