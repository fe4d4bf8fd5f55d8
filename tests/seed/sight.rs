//! Who sees and does what: the crew its own seeders and no stock, an agronomist of some clients only what is theirs.

use super::{drill, hand, id, ids, job, kg, lot};
use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(
    the_crew_reads_lots_without_supplier_and_stock,
    the_crew_logs_on_its_own_seeders_only,
    an_agronomist_logs_nothing,
    an_agronomist_of_some_clients_sees_only_theirs,
    only_the_office_keeps_lots_fields_and_clients,
);

async fn the_crew_reads_lots_without_supplier_and_stock(world: World) {
    let ana = world.ana().await;
    let cem = hand(&world, &ana, "cem@example.org", &[]).await;
    let stock = json!({ "supplier": "Feldmark Seed", "received_mass": kg("12400"), "received_on": "2027-03-02" });
    let path = format!("/lots/{}", lot(&ana, "A", stock).await);
    for seen in [cem.read(&path).await, cem.read("/lots").await["items"][0].clone()] {
        assert_eq!(seen["received_on"], "2027-03-02");
        assert!(seen.get("supplier").is_none() && seen.get("received_mass").is_none(), "{seen}");
    }
    let page = cem.get(&format!("/page{path}")).await;
    assert_eq!(page.status, 200);
    assert!(!page.text.contains("Feldmark") && !page.text.contains("12400"), "{}", page.text);
    let ada = world.member(ana.organization, "ada@example.org", "agronomist").await;
    assert_eq!(ada.read(&path).await["supplier"], "Feldmark Seed");
}

async fn the_crew_logs_on_its_own_seeders_only(world: World) {
    let ana = world.ana().await;
    let (own, other) = (drill(&world, &ana, "Own").await, drill(&world, &ana, "Other").await);
    let cem = hand(&world, &ana, "cem@example.org", &[&own]).await;
    let lot = lot(&ana, "A", json!({})).await;
    let fill = json!({ "occurred_at": "2027-04-05T18:05:00Z", "lot_id": lot });
    for what in ["fills", "emptyings"] {
        cem.create(&own.path(what), fill.clone()).await;
        cem.post(&other.path(what), fill.clone()).await.refused(404, &[]);
        cem.get(&other.path(what)).await.refused(404, &[]);
    }
    let made = cem.create(&own.path("jobs"), job(&lot, &json!({}))).await;
    cem.post(&other.path("jobs"), job(&lot, &json!({}))).await.refused(404, &[]);
    assert_eq!(ids(&cem.read(&own.path("jobs")).await), [id(&made)]);
    assert_eq!(cem.get(&format!("/page{}", other.path("fills/new"))).await.status, 404);
}

async fn an_agronomist_logs_nothing(world: World) {
    let ana = world.ana().await;
    let ada = world.member(ana.organization, "ada@example.org", "agronomist").await;
    let (drill, lot) = (drill(&world, &ana, "Drill").await, lot(&ana, "A", json!({})).await);
    let fill = json!({ "occurred_at": "2027-04-05T18:05:00Z", "lot_id": lot });
    ada.post(&drill.path("fills"), fill.clone()).await.refused(403, &[]);
    ada.post(&drill.path("emptyings"), fill).await.refused(403, &[]);
    ada.post(&drill.path("jobs"), job(&lot, &json!({}))).await.refused(403, &[]);
}

async fn an_agronomist_of_some_clients_sees_only_theirs(world: World) {
    let ana = world.ana().await;
    let client = id(&ana.create("/clients", json!({ "name": "Halm" })).await);
    ana.create("/clients", json!({ "name": "Other" })).await;
    let field = json!({ "name": "Halm\u{2019}s", "area": { "value": "9", "unit": "ha" }, "client_id": client });
    let field = id(&ana.create("/fields", field).await);
    ana.create("/fields", json!({ "name": "Own", "area": { "value": "9", "unit": "ha" } })).await;
    let theirs = lot(&ana, "T", json!({ "client_id": client })).await;
    let own = lot(&ana, "O", json!({})).await;
    let (with_lot, on_field, apart) =
        (drill(&world, &ana, "1").await, drill(&world, &ana, "2").await, drill(&world, &ana, "3").await);

    let fill = |lot: &str| json!({ "occurred_at": "2027-04-05T18:05:00Z", "lot_id": lot });
    let seen_fill = ana.create(&with_lot.path("fills"), fill(&theirs)).await;
    ana.create(&with_lot.path("fills"), fill(&own)).await;
    let seen_job = ana.create(&on_field.path("jobs"), job(&own, &json!({ "field": null, "field_id": field }))).await;
    ana.create(&on_field.path("jobs"), job(&own, &json!({}))).await;
    ana.create(&apart.path("fills"), fill(&own)).await;

    let lea = world.member_for(ana.organization, "lea@example.org", "agronomist", &[client.as_str()]).await;
    assert_eq!(ids(&lea.read("/lots").await), std::slice::from_ref(&theirs));
    assert_eq!(ids(&lea.read("/fields").await), [field]);
    assert_eq!(ids(&lea.read("/clients").await), [client]);
    assert_eq!(ids(&lea.read(&with_lot.path("fills")).await), [id(&seen_fill)]);
    assert_eq!(ids(&lea.read(&on_field.path("jobs")).await), [id(&seen_job)]);
    lea.get(&apart.path("fills")).await.refused(404, &[]);
    lea.get(&format!("/lots/{own}")).await.refused(404, &[]);
    lea.get(&format!("/lots/{own}/tests")).await.refused(404, &[]);
    let test = json!({ "occurred_at": "2027-03-30T09:00:00Z", "moisture_percent": 13 });
    lea.post(&format!("/lots/{own}/tests"), test.clone()).await.refused(404, &[]);
    lea.create(&format!("/lots/{theirs}/tests"), test).await;
    let page = lea.get("/page/lots").await;
    assert!(page.text.contains(&theirs) && !page.text.contains(&own));
    let first = lea.read("/lots?limit=1").await;
    assert_eq!((ids(&first), &first["next"]), (vec![theirs], &json!(null)), "what is not theirs takes no place");
}

async fn only_the_office_keeps_lots_fields_and_clients(world: World) {
    let ana = world.ana().await;
    let cem = hand(&world, &ana, "cem@example.org", &[]).await;
    let ada = world.member(ana.organization, "ada@example.org", "agronomist").await;
    for person in [&cem, &ada] {
        person.post("/lots", super::wheat("A", &json!({}))).await.refused(403, &[]);
        person.post("/clients", json!({ "name": "A" })).await.refused(403, &[]);
        let field = json!({ "name": "A", "area": { "value": "1", "unit": "ha" } });
        person.post("/fields", field).await.refused(403, &[]);
    }
    world.nobody().get("/lots").await.refused(401, &[]);
}
