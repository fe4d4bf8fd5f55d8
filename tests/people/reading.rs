//! How a person reads numbers: the organization's units or their own, a point or a comma.

use super::browser::Browser;
use crate::on_both;
use crate::world::World;
use serde_json::json;
use sowmark::access::Role;

on_both!(a_person_reads_in_their_own_units_and_decimal_sign, a_choice_that_is_none_is_refused_beside_its_field);

async fn a_person_reads_in_their_own_units_and_decimal_sign(world: World) {
    let ana = world.ana().await;
    let mut browser = Browser::of(&world, &ana, Role::Office).await;
    ana.create("/fields", json!({ "name": "Long strip", "area": { "value": "12.40", "unit": "ha" } })).await;
    assert!(browser.get(&world, "/fields").await.text.contains(">12.40 ha<"));
    let chosen = [("units", "us"), ("decimal_sign", "comma")];
    assert_eq!(browser.submit(&world, "/account/reading", &chosen).await.status, 303);
    // 12.40 ha / 0.404 685 642 24 ha per acre
    let fields = browser.get(&world, "/fields").await.text;
    assert!(fields.contains(">12,40 ha (30,64 ac)<"), "{fields}");
    let account = browser.get(&world, "/account").await.text;
    assert!(account.contains("value=\"us\" selected") && account.contains("value=\"comma\" selected"), "{account}");

    // What programs read stays: the organization's units, a point.
    assert_eq!(ana.read("/me").await["organization"]["units"], "metric");
    assert_eq!(ana.read("/fields").await["items"][0]["area"], json!({ "value": "12.40", "unit": "ha" }));

    let back = [("units", "organization"), ("decimal_sign", "point")];
    assert_eq!(browser.submit(&world, "/account/reading", &back).await.status, 303);
    assert!(browser.get(&world, "/fields").await.text.contains(">12.40 ha<"));
}

async fn a_choice_that_is_none_is_refused_beside_its_field(world: World) {
    let ana = world.ana().await;
    let mut browser = Browser::of(&world, &ana, Role::Office).await;
    let refused = browser.submit(&world, "/account/reading", &[("units", "stones"), ("decimal_sign", "comma")]).await;
    assert_eq!(refused.status, 422);
    assert!(
        refused.text.contains("units-error") && refused.text.contains("value=\"comma\" selected"),
        "{}",
        refused.text
    );
}
