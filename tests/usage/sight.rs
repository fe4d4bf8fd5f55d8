//! Who sees what of where the seed went.

use crate::on_both;
use crate::seed::{drill, hand, id, job, lot};
use crate::world::World;
use serde_json::json;

on_both!(a_crew_member_sees_the_own_jobs, an_agronomist_sees_the_clients, an_organization_sees_its_own);

async fn a_crew_member_sees_the_own_jobs(world: World) {
    let ana = world.ana().await;
    let (drill, other) = (drill(&world, &ana, "Drill 1").await, drill(&world, &ana, "Drill 2").await);
    let ben = hand(&world, &ana, "ben-usage@example.org", &[&drill]).await;
    let wheat = lot(&ana, "W-1", json!({ "received_mass": { "value": "5000", "unit": "kg" } })).await;
    let own = id(&ben.create(&drill.path("jobs"), job(&wheat, &json!({}))).await);
    ana.create(&drill.path("jobs"), job(&wheat, &json!({ "note": "by the office" }))).await;
    ana.create(&other.path("jobs"), job(&wheat, &json!({}))).await;
    let seen = ben.read("/usage").await;
    let jobs: Vec<_> = seen["jobs"].as_array().unwrap().iter().map(id).collect();
    assert_eq!(jobs, [own]);
    assert_eq!((&seen["lots"], &seen["tanks"], &seen["drift"]), (&json!([]), &json!([]), &json!([])));
    ben.get(&format!("/usage?seeder_id={}", other.seeder)).await.refused(404, &["/seeder_id"]);
    let page = ben.get("/page/usage").await;
    assert_eq!(page.status, 200);
    assert!(page.text.contains("The jobs that you logged") && !page.text.contains("Drill 2"), "{}", page.text);
    assert_eq!(ana.read("/usage").await["jobs"].as_array().unwrap().len(), 3);
}

async fn an_agronomist_sees_the_clients(world: World) {
    let ana = world.ana().await;
    let drill = drill(&world, &ana, "Drill 1").await;
    let mill = id(&ana.create("/clients", json!({ "name": "Mill Farm" })).await);
    let hill = id(&ana.create("/clients", json!({ "name": "Hill Farm" })).await);
    let theirs = lot(&ana, "M-1", json!({ "client_id": mill })).await;
    let others = lot(&ana, "H-1", json!({ "client_id": hill })).await;
    for lot in [&theirs, &others] {
        ana.create(&drill.path("jobs"), job(lot, &json!({}))).await;
    }
    let gus = world.member_for(ana.organization, "gus-usage@example.org", "agronomist", &[&mill]).await;
    let seen = gus.read("/usage").await;
    let lots =
        |of: &serde_json::Value| of.as_array().unwrap().iter().map(|item| item["lot_id"].clone()).collect::<Vec<_>>();
    assert_eq!((lots(&seen["jobs"]), lots(&seen["lots"])), (vec![json!(theirs)], vec![json!(theirs)]));
    // A tank holds others' seed too.
    assert_eq!((&seen["tanks"], &seen["drift"]), (&json!([]), &json!([])));
    gus.get(&format!("/usage?client_id={hill}")).await.refused(404, &["/client_id"]);
    gus.get(&format!("/usage?lot_id={others}")).await.refused(404, &["/lot_id"]);
    let of_hill = ana.read(&format!("/usage?client_id={hill}")).await;
    assert_eq!((lots(&of_hill["jobs"]), lots(&of_hill["lots"])), (vec![json!(others)], vec![json!(others)]));
}

async fn an_organization_sees_its_own(world: World) {
    let (ana, eve) = (world.ana().await, world.ana().await);
    let drill = drill(&world, &ana, "Drill 1").await;
    let wheat = lot(&ana, "W-1", json!({})).await;
    ana.create(&drill.path("jobs"), job(&wheat, &json!({}))).await;
    let seen = eve.read("/usage").await;
    assert_eq!((&seen["jobs"], &seen["lots"], &seen["tanks"]), (&json!([]), &json!([]), &json!([])));
    eve.get(&format!("/usage?lot_id={wheat}")).await.refused(404, &["/lot_id"]);
    world.nobody().get("/usage").await.refused(401, &[]);
}
