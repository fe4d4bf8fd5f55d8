//! The pages and forms of the seed.

use super::{drill, hand, kg, lot};
use crate::on_both;
use crate::people::browser::Browser;
use crate::world::{Answer, Person, World};
use serde_json::json;
use sowmark::access::Role;

on_both!(
    a_lot_is_added_by_its_form,
    a_form_comes_back_with_all_that_was_typed,
    a_test_and_a_movement_show_on_the_lots_page,
    a_wrong_test_and_a_wrong_movement_are_voided_from_the_lots_page,
    a_tank_is_filled_and_emptied_by_form,
    a_job_is_logged_by_form,
    empty_pages_say_what_belongs_there,
);

fn place(answer: &Answer) -> String {
    assert_eq!(answer.status, 303, "{}", answer.text);
    answer.headers["location"].to_str().unwrap().to_owned()
}

async fn page(person: &Person, path: &str) -> String {
    let answer = person.get(&format!("/page{path}")).await;
    assert_eq!(answer.status, 200, "{path}: {}", answer.text);
    answer.text
}

async fn a_lot_is_added_by_its_form(world: World) {
    let ana = world.ana().await;
    let form = page(&ana, "/lots/new").await;
    assert!(form.contains("name=\"treatment/product\"") && form.contains("name=\"received_mass/unit\""));
    let fields = [
        ("id", "0196d2a0-0000-7000-8000-000000000006"),
        ("lot_number", "WW-1"),
        ("material", "seed"),
        ("crop", "winter wheat"),
        ("variety", "Elmora"),
        ("supplier", ""),
        ("received_on", ""),
        ("received_mass/value", "5 lb 8 oz"),
        ("received_mass/unit", "kg"),
        ("treatment/product", "Fludioxa 25"),
        ("treatment/caution", "Toxic to fish."),
        ("analysis/purity_percent", "99,2"),
        ("analysis/germination_percent", ""),
    ];
    let there = place(&ana.submit("/page/lots", &fields).await);
    assert_eq!(place(&ana.submit("/page/lots", &fields).await), there, "sent twice, it is one lot");
    let shown = page(&ana, &there).await;
    for said in [
        "Lot WW-1",
        "winter wheat",
        "5 lb 8 oz",
        "99.2 %",
        "Treated seed: Fludioxa 25.",
        "Toxic to fish.",
        "seed label",
    ] {
        assert!(shown.contains(said), "{said} is not on the page: {shown}");
    }
    assert!(page(&ana, "/lots").await.contains("2.49 kg"), "5 lb 8 oz are 2.4948 kg");
    // Who fills in a form has mistaken the year; a program may know better.
    let ahead = [("lot_number", "WW-2"), ("material", "seed"), ("crop", "rye"), ("received_on", "2027-09-30")];
    let mut browser = Browser::of(&world, &ana, Role::Office).await;
    let again = browser.submit(&world, "/lots", &ahead).await;
    assert!(again.status == 422 && again.text.contains("That day lies ahead."), "{}", again.text);
    assert_eq!(ana.submit("/page/lots", &ahead).await.status, 303);
}

async fn a_form_comes_back_with_all_that_was_typed(world: World) {
    let ana = world.ana().await;
    let fields = [
        ("id", "0196d2a0-0000-7000-8000-000000000007"),
        ("lot_number", ""),
        ("crop", "winter wheat"),
        ("received_mass/value", "many"),
        ("received_mass/unit", "t"),
        ("treatment/caution", "Toxic to fish."),
    ];
    let answer = ana.submit("/page/lots", &fields).await;
    assert_eq!(answer.status, 422);
    for said in [
        "value=\"winter wheat\"",
        "value=\"many\"",
        "<option value=\"t\" selected>",
        "Toxic to fish.",
        "lot_number-error",
        "received_mass/value-error",
        "treatment/product-error",
        "0196d2a0-0000-7000-8000-000000000007",
    ] {
        assert!(answer.text.contains(said), "{said} is lost: {}", answer.text);
    }
    assert!(page(&ana, "/lots").await.contains("No lot yet."));
}

async fn a_test_and_a_movement_show_on_the_lots_page(world: World) {
    let ana = world.ana().await;
    let lot = lot(&ana, "A", json!({ "received_mass": kg("1000") })).await;
    let form = page(&ana, &format!("/lots/{lot}/tests/new")).await;
    assert!(form.contains("value=\"2027-04-01T08:00\""), "now, in the farm\u{2019}s time zone");
    let empty = ana.submit(&format!("/page/lots/{lot}/tests"), &[("occurred_at", "2027-04-01T08:00")]).await;
    assert_eq!(empty.status, 422);
    assert!(empty.text.contains("This test measured nothing."));
    let test = [
        ("occurred_at", "2027-04-01T08:00"),
        ("thousand_seed_weight/value", "46,2"),
        ("thousand_seed_weight/unit", "g"),
    ];
    assert_eq!(place(&ana.submit(&format!("/page/lots/{lot}/tests"), &test).await), format!("/lots/{lot}"));
    let sold = [("occurred_at", "2027-04-01T08:00"), ("kind", "sold"), ("mass/value", "250"), ("mass/unit", "kg")];
    place(&ana.submit(&format!("/page/lots/{lot}/movements"), &sold).await);
    let counted =
        [("occurred_at", "2027-04-01T09:00"), ("kind", "counted"), ("mass/value", "740"), ("mass/unit", "kg")];
    place(&ana.submit(&format!("/page/lots/{lot}/movements"), &counted).await);
    let shown = page(&ana, &format!("/lots/{lot}")).await;
    for said in
        ["46.2 g", "250 kg", "750 kg", "740 kg on 1 April 2027, 10 kg less than expected then", "1 April 2027, 08:00"]
    {
        assert!(shown.contains(said), "{said} is not on the page: {shown}");
    }
    assert!(!shown.contains("went out than came in"), "{shown}");
    let list = page(&ana, "/lots").await;
    assert!(list.contains("750 kg</td><td>740 kg on 1 April 2027</td>"), "the count stands beside it: {list}");
    let more = [("occurred_at", "2027-04-01T09:30"), ("kind", "sold"), ("mass/value", "800"), ("mass/unit", "kg")];
    place(&ana.submit(&format!("/page/lots/{lot}/movements"), &more).await);
    let below = page(&ana, &format!("/lots/{lot}")).await;
    assert!(below.contains("50 kg more went out than came in: a delivery is not recorded."), "{below}");
    let test = ana.read(&format!("/lots/{lot}/tests")).await["items"][0].clone();
    assert_eq!(test["occurred_at"], "2027-04-01T08:00:00+02:00");
}

async fn a_wrong_test_and_a_wrong_movement_are_voided_from_the_lots_page(world: World) {
    let ana = world.ana().await;
    let cem = hand(&world, &ana, "cem@example.org", &[]).await;
    let lot = lot(&ana, "A", json!({ "received_mass": kg("1000") })).await;
    let test =
        json!({ "occurred_at": "2027-03-31T08:00:00Z", "thousand_seed_weight": { "value": "4.62", "unit": "g" } });
    let test = super::id(&ana.create(&format!("/lots/{lot}/tests"), test).await);
    let sold = json!({ "occurred_at": "2027-03-31T09:00:00Z", "kind": "sold", "mass": kg("250") });
    let sold = super::id(&ana.create(&format!("/lots/{lot}/movements"), sold).await);
    let there = format!("/lots/{lot}");
    let shown = page(&ana, &there).await;
    let of_crew = page(&cem, &there).await;
    for record in [&test, &sold] {
        let link = format!("<a class=\"no-print\" href=\"/records/{record}/void\">This was wrong</a>");
        assert!(shown.contains(&link), "{link} is not on the page: {shown}");
        assert!(!of_crew.contains("/void"), "the crew mends its own only: {of_crew}");
        let why = [("reason", "Of another lot.")];
        assert_eq!(place(&ana.submit(&format!("/page/records/{record}/void"), &why).await), there);
        let after = page(&ana, &there).await;
        assert!(after.contains(&format!("<tr id=\"{record}\" class=\"voided\">")), "it stands struck: {after}");
        assert!(!after.contains(&link) && after.contains("Of another lot."), "and not to be voided again: {after}");
    }
    assert!(page(&ana, "/lots").await.contains("1000 kg"), "what was sold by mistake is in stock again");
}

async fn a_tank_is_filled_and_emptied_by_form(world: World) {
    let ana = world.ana().await;
    let drill = drill(&world, &ana, "Air drill 1").await;
    let cem = hand(&world, &ana, "cem@example.org", &[&drill]).await;
    let treated =
        json!({ "received_mass": kg("2000"), "treatment": { "product": "Fludioxa 25", "caution": "Toxic to fish." } });
    let lot = lot(&ana, "A", treated).await;
    let form = page(&cem, &drill.path("fills/new")).await;
    assert!(form.contains("Air drill 1, tank 1: tank filled") && form.contains("lot A (treated)"), "{form}");
    assert!(form.contains("One person at the control"), "the cautions stand before the form");
    let fill = [("occurred_at", "2027-04-05T18:05"), ("lot_id", &lot), ("mass/value", "820"), ("mass/unit", "kg")];
    let back = place(&cem.submit(&format!("/page{}", drill.path("fills")), &fill).await);
    assert_eq!(back, format!("/seeders/{}", drill.seeder));

    let form = page(&cem, &drill.path("emptyings/new")).await;
    assert!(form.contains(&format!("<option value=\"{lot}\" selected>")), "the lot in the tank is chosen already");
    assert!(form.contains("Treated seed: Fludioxa 25."), "with its own cautions");
    let without = [("occurred_at", "2027-04-05T19:05"), ("lot_id", ""), ("to_empty", "false")];
    let answer = cem.submit(&format!("/page{}", drill.path("emptyings")), &without).await;
    assert_eq!(answer.status, 422);
    assert!(answer.text.contains("lot_id-error") && answer.text.contains("<option value=\"false\" selected>"));
    let emptied = [("occurred_at", "2027-04-05T19:05"), ("lot_id", &lot), ("to_empty", "true")];
    place(&cem.submit(&format!("/page{}", drill.path("emptyings")), &emptied).await);
    let form = page(&cem, &drill.path("fills/new")).await;
    assert!(!form.contains(&format!("<option value=\"{lot}\" selected>")), "an empty tank suggests no lot");

    let shown = page(&ana, &format!("/lots/{lot}")).await;
    for said in ["Filled: 820 kg", "Emptied, to empty: not weighed", "1180 kg", "One fill or emptying was not weighed"]
    {
        assert!(shown.contains(said), "{said} is not on the page: {shown}");
    }
}

async fn a_job_is_logged_by_form(world: World) {
    let ana = world.ana().await;
    let (drill, lot) = (drill(&world, &ana, "Air drill 1").await, lot(&ana, "A", json!({})).await);
    let field = ana.create("/fields", json!({ "name": "Kirchfeld", "area": { "value": "12", "unit": "ha" } })).await;
    let form = page(&ana, &drill.path("jobs/new")).await;
    assert!(form.contains("Kirchfeld, 12 ha"));
    let fields = [
        ("occurred_at", "2027-04-06T08:00"),
        ("ended_at", "2027-04-06T07:00"),
        ("field_id", field["id"].as_str().unwrap()),
        ("field", ""),
        ("lot_id", &lot),
        ("area/value", "11,8"),
        ("area/unit", "ha"),
        ("seed_used/value", "1\u{202f}6 60"),
        ("seed_used/unit", "kg"),
        ("seed_used_basis", "bags"),
        ("target_rate/value", "140"),
        ("target_rate/unit", "kg/ha"),
    ];
    let answer = ana.submit(&format!("/page{}", drill.path("jobs")), &fields).await;
    assert_eq!(answer.status, 422);
    assert!(answer.text.contains("The job ended before it began.") && answer.text.contains("value=\"11,8\""));
    let mut fields = fields;
    fields[1].1 = "2027-04-06T12:00";
    let answer = ana.submit(&format!("/page{}", drill.path("jobs")), &fields).await;
    assert!(answer.text.contains("is not a number"), "blanks that part no thousands: {}", answer.text);
    fields[7].1 = "1\u{202f}660";
    place(&ana.submit(&format!("/page{}", drill.path("jobs")), &fields).await);
    let made = ana.read(&drill.path("jobs")).await["items"][0].clone();
    assert_eq!(made["ended_at"], "2027-04-06T12:00:00+02:00");
    assert_eq!((&made["seed_used_basis"], &made["field"]), (&json!("bags"), &json!("Kirchfeld")));
    let shown = page(&ana, &format!("/lots/{lot}")).await;
    assert!(shown.contains("Sown on Kirchfeld: 1660 kg on 11.8 ha, target 140 kg/ha"), "{shown}");
    assert!(page(&ana, &drill.path("jobs/new")).await.contains("value=\"140\""), "the last target rate is suggested");
}

async fn empty_pages_say_what_belongs_there(world: World) {
    let ana = world.ana().await;
    for (path, says) in [("/lots", "No lot yet."), ("/fields", "No field yet."), ("/clients", "No client yet.")] {
        let shown = page(&ana, path).await;
        assert!(shown.contains(says) && shown.contains(&format!("{path}/new")), "{shown}");
    }
    let cem = hand(&world, &ana, "cem@example.org", &[]).await;
    assert!(!page(&cem, "/lots").await.contains("/lots/new"));
    assert_eq!(cem.get("/page/lots/new").await.status, 403);
    assert_eq!(cem.get("/page/clients").await.status, 403);
}
