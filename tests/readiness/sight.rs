//! Who sees which units: the office all, a crew its seeders, a client's agronomist those with the client's seed.

use super::farm::{Farm, fill, id};
use crate::on_both;
use crate::world::World;
use serde_json::json;
use sowmark::args;

on_both!(a_crew_sees_only_its_seeders, another_organization_sees_nothing, an_agronomist_sees_the_clients_seed);

async fn a_crew_sees_only_its_seeders(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let kim = world.member(farm.ana.organization, "kim-sight@example.org", "crew").await;
    assert_eq!(kim.read("/readiness").await["units"], json!([]));
    kim.get(&format!("/metering-units/{}/readiness", farm.unit)).await.refused(404, &[]);

    let (organization, crew): (_, uuid::Uuid) = (farm.ana.organization, id(500).parse().unwrap());
    let seeder: uuid::Uuid = farm.seeder.parse().unwrap();
    let mut tx = world.app.db.begin().await.unwrap();
    let entry =
        "insert into entry (organization_id, id, kind, recorded_at, fingerprint) values ($1, $2, 'crew', 0, $3)";
    tx.cx().execute(entry, args![organization, crew, vec![0_u8; 32]]).await.unwrap();
    tx.cx()
        .execute("insert into crew (organization_id, id, name) values ($1, $2, 'Yard')", args![organization, crew])
        .await
        .unwrap();
    let member = "insert into crew_member (organization_id, crew_id, account_id) values ($1, $2, $3)";
    tx.cx().execute(member, args![organization, crew, kim.account]).await.unwrap();
    let assigned = "insert into crew_seeder (organization_id, crew_id, seeder_id) values ($1, $2, $3)";
    tx.cx().execute(assigned, args![organization, crew, seeder]).await.unwrap();
    tx.commit().await.unwrap();

    let other = json!({ "name": "Drill 2", "serial_number": "SN-2", "kind": "box_drill", "commissioned_on": "2021-03-01",
        "working_width": { "value": "3", "unit": "m" }, "row_spacing": { "value": "12.5", "unit": "cm" },
        "metering_units": [{ "label": "tank", "runs": 8, "drive": "ground" }] });
    farm.ana.create("/seeders", other).await;
    assert_eq!(farm.ana.read("/readiness").await["units"].as_array().map(Vec::len), Some(2));
    let units = kim.read("/readiness").await["units"].clone();
    assert_eq!(units.as_array().map(Vec::len), Some(1));
    assert_eq!((&units[0]["metering_unit_id"], &units[0]["state"]), (&json!(farm.unit), &json!("ready")));
}

async fn another_organization_sees_nothing(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let ben = world.ana().await;
    assert_eq!(ben.read("/readiness").await["units"], json!([]));
    for path in ["readiness", "rate?rate=1&speed=1", "waivers"] {
        ben.get(&format!("/metering-units/{}/{path}", farm.unit)).await.refused(404, &[]);
    }
    world.nobody().get("/readiness").await.refused(401, &[]);
}

async fn an_agronomist_sees_the_clients_seed(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let client = farm.ana.create("/clients", json!({ "name": "Hollerhof" })).await["id"].as_str().unwrap().to_owned();
    let lot = json!({ "id": id(600), "lot_number": "H-1", "crop": "wheat", "client_id": client });
    farm.ana.create("/lots", lot).await;
    let mia = world.member_for(farm.ana.organization, "mia-sight@example.org", "agronomist", &[&client]).await;
    assert_eq!(mia.read("/readiness").await["units"], json!([]));
    farm.log("fills", fill("2027-03-30T08:00:00Z", &id(600))).await;
    let units = mia.read("/readiness?at=2027-03-30T12:00:00Z").await["units"].clone();
    assert_eq!((&units[0]["lot_id"], &units[0]["due"][0]["trigger"]), (&json!(id(600)), &json!("lot_changed")));
    // The lot that the number was caught with is somebody else's: it has no name for her.
    let says = units[0]["due"][0]["says"].as_str().unwrap();
    assert!(says.contains("lot H-1") && says.contains("caught with another lot") && !says.contains("W-16"), "{says}");
    assert_eq!(mia.read("/readiness?at=2027-03-29T12:00:00Z").await["units"], json!([]));
}
