//! How a person reads: the organization's units or their own, a point or a comma, which language.

use super::browser::Browser;
use crate::on_both;
use crate::world::World;
use serde_json::json;
use sowmark::access::Role;

on_both!(
    a_person_reads_in_their_own_units_and_decimal_sign,
    a_person_is_spoken_to_in_their_own_language,
    a_choice_that_is_none_is_refused_beside_its_field
);

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

async fn a_person_is_spoken_to_in_their_own_language(world: World) {
    let ana = world.ana().await;
    let mut browser = Browser::of(&world, &ana, Role::Office).await;
    let english = "Weighed apart, each run can be seen.";
    let spanish = "Pesadas por separado, se ve cada bajada.";
    assert!(browser.get(&world, "/checks/catches_apart").await.text.contains(english));
    let account = browser.get(&world, "/account").await.text;
    assert!(account.contains("<option value=\"es\">Español</option>"), "{account}");

    let chosen = [("units", "organization"), ("decimal_sign", "comma"), ("language", "es")];
    assert_eq!(browser.submit(&world, "/account/reading", &chosen).await.status, 303);
    let page = browser.get(&world, "/checks/catches_apart").await.text;
    assert!(page.contains(spanish) && !page.contains(english), "{page}");
    let sources = browser.get(&world, "/tolerances").await.text;
    assert!(sources.contains("repiten dentro de 0,5 a 1,3 %"), "decimals in the reader's sign: {sources}");
    assert!(browser.get(&world, "/account").await.text.contains("value=\"es\" selected"));

    // What programs read stays English.
    let fields = ana.read("/policy").await["fields"].to_string();
    assert!(fields.contains("published meters repeat within 0.5 to 1.3 %"), "{fields}");

    let as_asked = [("units", "organization"), ("decimal_sign", "point"), ("language", "")];
    assert_eq!(browser.submit(&world, "/account/reading", &as_asked).await.status, 303);
    assert!(browser.get(&world, "/checks/catches_apart").await.text.contains(english));
    let refused = browser
        .submit(&world, "/account/reading", &[("units", "us"), ("decimal_sign", "comma"), ("language", "tlh")])
        .await;
    assert_eq!(refused.status, 422);
    assert!(refused.text.contains("language-error"), "{}", refused.text);
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
