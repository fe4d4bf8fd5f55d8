//! An agronomist signs an audit; later records that change it are named on it.

use crate::on_both;
use crate::readiness::farm::{Farm, id, job, lot_test, setup};
use crate::seed::{self, drill};
use crate::spanish::{reader, says};
use crate::world::{Person, World};
use serde_json::{Value, json};
use sowmark::access::Role;

on_both!(
    what_changes_later_is_named,
    only_an_agronomist_signs,
    who_sees_some_clients_signs_theirs,
    on_the_page,
    signed_again_it_is_the_same,
);

/// A season with one job under a true number and one after the roller was changed.
async fn season(world: &World) -> (Farm, Person) {
    let (farm, _) = Farm::ready(world).await;
    farm.log("jobs", with_id(job("2027-03-29T08:00:00Z", &farm.wheat, "1410", "9"), 201)).await;
    farm.log("setups", with_id(setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12"), 202)).await;
    farm.log("jobs", with_id(job("2027-03-30T12:00:00Z", &farm.wheat, "1500", "9"), 203)).await;
    let gus = world.member(farm.ana.organization, "gus-signs@example.org", "agronomist").await;
    (farm, gus)
}

fn with_id(mut record: Value, number: u32) -> Value {
    record["id"] = json!(id(number));
    record
}

async fn signed(person: &Person, of: Value) -> String {
    let answer = person.create("/usage/signatures", json!({ "of": of, "remark": "Long Acre seen, stand even." })).await;
    answer["id"].as_str().unwrap().to_owned()
}

async fn standing(person: &Person, signature: &str) -> (String, Vec<(String, String)>) {
    let shown = person.read(&format!("/usage/signatures/{signature}")).await;
    let changes = shown["changes"].as_array().unwrap().iter();
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    let changes = changes.map(|change| {
        let facts: Vec<String> = change["facts"].as_array().unwrap().iter().map(|fact| text(&fact["fact"])).collect();
        (text(&change["id"]), format!("{} {}", text(&change["change"]), facts.join(" ")).trim().to_owned())
    });
    (text(&shown["standing"]), changes.collect())
}

async fn what_changes_later_is_named(world: World) {
    let (farm, gus) = season(&world).await;
    let signature = signed(&gus, json!({ "to": "2027-03-31" })).await;
    let shown = farm.ana.read(&format!("/usage/signatures/{signature}")).await;
    assert_eq!(shown["standing"], "as_signed");
    assert_eq!(shown["signed_by"]["name"], "gus-signs");
    let facts = |number: u32| {
        let jobs = shown["contents"]["jobs"].as_array().unwrap();
        jobs.iter().find(|job| job["id"] == id(number)).unwrap()["facts"].clone()
    };
    assert_eq!((&facts(201)["number"], &facts(203)["number"]), (&json!("true"), &json!("untrue")));
    assert_eq!(facts(203)["reasons"], "roller_changed");
    // The chain's head is that of the line before.
    let trail = farm.ana.read("/audit?limit=500").await;
    let before = trail["items"].as_array().unwrap().iter().find(|line| line["seq"] == shown["chain_seq"]).unwrap();
    assert_eq!(before["hash"], shown["chain_head"]);

    // What happens after its end, or changes nothing of it, is no change.
    farm.log("jobs", with_id(job("2027-04-02T08:00:00Z", &farm.wheat, "1400", "9"), 204)).await;
    farm.at_seeder("services", json!({ "occurred_at": "2027-04-03T08:00:00Z", "metering_unit_id": null, "component": "other", "affects_metering": false, "note": "" })).await;
    let after = standing(&gus, &signature).await;
    // The lot's balance is of the period too.
    assert_eq!(after, ("as_signed".to_owned(), vec![]));

    // A job that comes late, the void of the setup that made the number untrue, and another seed weight.
    farm.log("jobs", with_id(job("2027-03-31T08:00:00Z", &farm.wheat, "1200", "9"), 205)).await;
    farm.ana.create(&format!("/records/{}/void", id(202)), json!({ "reason": "another drill's" })).await;
    let (state, changes) = standing(&farm.ana, &signature).await;
    assert_eq!(state, "changed");
    let of = |number: u32| changes.iter().find(|(of, _)| *of == id(number)).map(|(_, what)| what.as_str());
    assert_eq!((of(205), of(203), of(201)), (Some("added"), Some("changed number reasons"), None), "{changes:?}");
    assert!(changes.iter().any(|(of, what)| *of == farm.wheat && what.contains("sown")), "{changes:?}");
    farm.at_lot(&farm.wheat, lot_test("2027-03-28T08:00:00Z", "50")).await;
    let (_, changes) = standing(&gus, &signature).await;
    assert!(changes.iter().any(|(of, what)| *of == id(201) && what.contains("seeds")), "{changes:?}");
    // What was signed stays as it was.
    let again = gus.read(&format!("/usage/signatures/{signature}")).await;
    assert_eq!(again["contents"], shown["contents"]);
}

async fn only_an_agronomist_signs(world: World) {
    let (farm, gus) = season(&world).await;
    farm.ana.post("/usage/signatures", json!({})).await.refused(403, &[]);
    let ben = seed::hand(&world, &farm.ana, "ben-signs@example.org", &[&crate::sync::drill(&farm)]).await;
    ben.post("/usage/signatures", json!({})).await.refused(403, &[]);
    let signature = signed(&gus, json!({})).await;
    ben.get(&format!("/usage/signatures/{signature}")).await.refused(403, &[]);
    let eve = world.ana().await;
    eve.get(&format!("/usage/signatures/{signature}")).await.refused(404, &[]);
    assert_eq!(eve.read("/usage/signatures").await["items"], json!([]));
    gus.post("/usage/signatures", json!({ "of": { "from": "spring" } })).await.refused(422, &["/of/from"]);
    gus.post("/usage/signatures", json!({ "of": { "lot_id": id(999) } })).await.refused(404, &["/of/lot_id"]);
    gus.post("/usage/signatures", json!({ "remark": "x".repeat(2001) })).await.refused(422, &["/remark"]);
}

async fn who_sees_some_clients_signs_theirs(world: World) {
    let ana = world.ana().await;
    let drill = drill(&world, &ana, "Drill 1").await;
    let mill = seed::id(&ana.create("/clients", json!({ "name": "Mill Farm" })).await);
    let theirs = seed::lot(&ana, "M-1", json!({ "client_id": mill })).await;
    let others = seed::lot(&ana, "H-1", json!({})).await;
    for lot in [&theirs, &others] {
        ana.create(&drill.path("jobs"), seed::job(lot, &json!({}))).await;
    }
    let gus = world.member_for(ana.organization, "gus-mill@example.org", "agronomist", &[&mill]).await;
    let all = world.member(ana.organization, "ida-all@example.org", "agronomist").await;
    let (of_mill, of_all) =
        (signed(&gus, json!({ "to": "2029-12-31" })).await, signed(&all, json!({ "to": "2029-12-31" })).await);
    let jobs = |shown: &Value| shown["contents"]["jobs"].as_array().unwrap().len();
    let shown = ana.read(&format!("/usage/signatures/{of_mill}")).await;
    // The office, who sees more, compares with what its signer sees.
    assert_eq!((jobs(&shown), &shown["standing"]), (1, &json!("as_signed")));
    assert_eq!(jobs(&ana.read(&format!("/usage/signatures/{of_all}")).await), 2);
    gus.get(&format!("/usage/signatures/{of_all}")).await.refused(404, &[]);
    assert_eq!(gus.read("/usage/signatures").await["items"].as_array().unwrap().len(), 1);
    assert_eq!(all.read("/usage/signatures").await["items"].as_array().unwrap().len(), 2);
}

async fn on_the_page(world: World) {
    let (farm, gus) = season(&world).await;
    let usage = gus.get("/page/usage?from=2027-03-01&by=seeder").await;
    assert!(usage.text.contains("/usage/signatures/new?from=2027-03-01"), "{}", usage.text);
    assert!(!farm.ana.get("/page/usage").await.text.contains("/usage/signatures/new"));
    let form = gus.get("/page/usage/signatures/new?from=2027-03-01&to=2027-03-31&by=seeder").await;
    assert_eq!(form.status, 200, "{}", form.text);
    for said in ["20.00 ha", "10.00 ha", "2910 kg", "name=\"of/from\" value=\"2027-03-01\""] {
        assert!(form.text.contains(said), "no {said} in {}", form.text);
    }
    let fields = [("of/from", "2027-03-01"), ("of/to", "2027-03-31"), ("remark", &"x".repeat(2001))];
    let long = gus.submit("/page/usage/signatures", &fields).await;
    assert_eq!(long.status, 422);
    assert!(long.text.contains("2000") && long.text.contains("name=\"of/from\" value=\"2027-03-01\""), "{}", long.text);
    let fields = [
        ("id", id(301)),
        ("of/from", "2027-03-01".to_owned()),
        ("of/to", "2027-03-31".to_owned()),
        ("remark", "Stand even.".to_owned()),
    ];
    let pairs: Vec<(&str, &str)> = fields.iter().map(|(name, text)| (*name, text.as_str())).collect();
    assert_eq!(gus.submit("/page/usage/signatures", &pairs).await.status, 303);
    let place = format!("/page/usage/signatures/{}", id(301));
    let page = farm.ana.get(&place).await.text;
    for said in
        ["Nothing of it has changed", "Stand even.", "not true: Roller changed", "10.00 ha", "of the audit trail"]
    {
        assert!(page.contains(said), "no {said} in {page}");
    }
    farm.ana.create(&format!("/records/{}/void", id(203)), json!({ "reason": "twice" })).await;
    let page = farm.ana.get(&place).await.text;
    for said in ["It is no longer what was signed", "voided, corrected", "Sown: 2910 kg was signed, now 1410 kg."] {
        assert!(page.contains(said), "no {said} in {page}");
    }
    let mut browser = reader(&world, &farm.ana, Role::Office).await;
    let spanish = browser.get(&world, &format!("/usage/signatures/{}", id(301))).await.text;
    says(&spanish, &["Ya no es lo que se firmó", "no válido: Cambio de rodillo"]);
    says(&browser.get(&world, "/usage/signatures").await.text, &["Auditorías firmadas"]);
    assert!(gus.get("/page/usage/signatures").await.text.contains("Stand even."));
}

async fn signed_again_it_is_the_same(world: World) {
    let (_, gus) = season(&world).await;
    let body = json!({ "id": id(301), "of": {}, "remark": "even" });
    let first = gus.create("/usage/signatures", body.clone()).await;
    let second = gus.post("/usage/signatures", body).await;
    assert_eq!((second.status.as_u16(), &second.json()), (200, &first));
    gus.post("/usage/signatures", json!({ "id": id(301), "of": {}, "remark": "odd" })).await.refused(409, &[]);
}
