//! How old the test is by which a lot's germination is known: counted by calendar months of the organization's time zone (here
//! Vienna's), said wherever the germination is used, judged nowhere.

use super::wheat;
use crate::on_both;
use crate::people::browser::Browser;
use crate::world::{Person, World};
use serde_json::{Value, json};
use sowmark::access::Role;

on_both!(
    the_test_in_use_tells_its_month,
    months_are_those_of_the_organizations_zone,
    what_some_rules_name_depends_on_the_containers,
    a_rate_plan_says_it_where_the_germination_is_used,
    it_is_said_in_spanish
);

async fn made(ana: &Person, number: &str, more: &Value) -> String {
    ana.create("/lots", wheat(number, more)).await["id"].as_str().expect("an id").to_owned()
}

/// What the lot's page and its card say, which is the same.
async fn said(ana: &Person, lot: &str) -> Vec<String> {
    let sentences = async |path: String| {
        let answer = ana.get(&format!("/page{path}")).await;
        assert_eq!(answer.status, 200, "{}", answer.text);
        let lines = answer.text.lines().filter_map(|line| line.split('>').nth(1)?.split('<').next());
        lines
            .filter(|line| line.starts_with("Germination of") || line.starts_with("Some rules"))
            .map(ToOwned::to_owned)
            .collect()
    };
    let page: Vec<String> = sentences(format!("/lots/{lot}")).await;
    let card: Vec<String> = sentences(format!("/reports/lot-card?lot_id={lot}")).await;
    assert_eq!(page, card);
    page
}

fn analysis(tested_on: Option<&str>) -> Value {
    json!({ "analysis": { "germination_percent": "91", "tested_on": tested_on } })
}

async fn the_test_in_use_tells_its_month(world: World) {
    world.set_time("2027-11-26T06:00:00Z");
    let ana = world.ana().await;
    let lot = made(&ana, "A-1", &analysis(Some("2027-03-31"))).await;
    assert_eq!(said(&ana, &lot).await, ["Germination of the label’s test of March 2027, 8 months ago."]);
    let tests = format!("/lots/{lot}/tests");
    // Another measure is no test of the germination.
    ana.create(&tests, json!({ "occurred_at": "2027-10-01T08:00:00Z", "purity_percent": "98" })).await;
    assert_eq!(said(&ana, &lot).await, ["Germination of the label’s test of March 2027, 8 months ago."]);
    let later = ana.create(&tests, json!({ "occurred_at": "2027-10-30T08:00:00Z", "germination_percent": "88" })).await;
    assert_eq!(said(&ana, &lot).await, ["Germination of the test of October 2027, 1 month ago."]);
    let id = later["id"].as_str().expect("an id");
    ana.create(&format!("/records/{id}/void"), json!({ "reason": "another lot" })).await;
    assert_eq!(said(&ana, &lot).await, ["Germination of the label’s test of March 2027, 8 months ago."]);
    // Nobody said when: nothing is said. Without a germination a date is of something else.
    let undated = made(&ana, "A-2", &analysis(None)).await;
    assert_eq!(said(&ana, &undated).await, Vec::<String>::new());
    let other = made(&ana, "A-3", &json!({ "analysis": { "purity_percent": "99", "tested_on": "2027-03-31" } })).await;
    assert_eq!(said(&ana, &other).await, Vec::<String>::new());
    let to_come = made(&ana, "A-4", &analysis(Some("2028-03-31"))).await;
    let says = "Germination of the label’s test of March 2028: that is yet to come, so look at the date.";
    assert_eq!(said(&ana, &to_come).await, [says]);
}

async fn months_are_those_of_the_organizations_zone(world: World) {
    world.set_time("2027-04-30T21:30:00Z");
    let ana = world.ana().await;
    let lot = made(&ana, "A-1", &json!({})).await;
    // In Vienna it was the first of April, half past midnight.
    let test = json!({ "occurred_at": "2027-03-31T22:30:00Z", "germination_percent": "88" });
    ana.create(&format!("/lots/{lot}/tests"), test).await;
    assert_eq!(said(&ana, &lot).await, ["Germination of the test of April 2027, this month."]);
    // Half past midnight on the first of May.
    world.set_time("2027-04-30T22:30:00Z");
    assert_eq!(said(&ana, &lot).await, ["Germination of the test of April 2027, 1 month ago."]);
}

async fn what_some_rules_name_depends_on_the_containers(world: World) {
    let ana = world.ana().await;
    let mut lot = analysis(Some("2026-03-10"));
    let says = "Germination of the label’s test of March 2026, 13 months ago.";
    for (number, hermetic, rule) in [
        (
            "A-1",
            json!(false),
            Some(
                "Some rules for seed that is sold in containers that are not hermetic name 5 calendar months after the month of \
                 the test. The rules where you are bind.",
            ),
        ),
        (
            "A-2",
            json!(true),
            Some(
                "Some rules for seed that is sold in hermetic containers name 24 calendar months after the month of the test. \
                 The rules where you are bind.",
            ),
        ),
        ("A-3", json!(null), None),
    ] {
        lot["label"] = json!({ "hermetic": hermetic });
        let lot = made(&ana, number, &lot).await;
        let expected: Vec<&str> = std::iter::once(says).chain(rule).collect();
        assert_eq!(said(&ana, &lot).await, expected, "{hermetic}");
    }
}

async fn a_rate_plan_says_it_where_the_germination_is_used(world: World) {
    let ana = world.ana().await;
    let lot = made(&ana, "A-1", &analysis(Some("2026-03-10"))).await;
    let says = "Germination of the label’s test of March 2026, 13 months ago.";
    let count = async |path: &str| {
        let answer = ana.get(&format!("/page{path}")).await;
        assert_eq!(answer.status, 200, "{}", answer.text);
        answer.text.matches(says).count()
    };
    // Beside the field that it fills in.
    assert_eq!(count(&format!("/rate-plan?lot_id={lot}")).await, 1);
    assert_eq!(count(&format!("/rate-plan/live?lot_id={lot}")).await, 1);
    assert_eq!(count("/rate-plan").await, 0);
    // And under the working that used it; not where another was typed, or none was needed.
    let live = |germination: &str| {
        format!(
            "/rate-plan/live?lot_id={lot}&pls_rate/value=10&pls_rate/unit=kg/ha&purity_percent=98&germination_percent={germination}"
        )
    };
    assert_eq!((count(&live("91")).await, count(&live("85")).await), (2, 1));
    let plants = |share: &str| {
        format!(
            "/rate-plan?lot_id={lot}&plants/value=280&plants/unit=per+m%C2%B2&weight/value=45&weight/unit=g+per+thousand\
             &germination_percent=91&share/value=60&share/unit={share}"
        )
    };
    assert_eq!(count(&plants("emergence")).await, 2);
    let given = plants("establishment").replace("germination_percent=91", "germination_percent=");
    assert_eq!(count(&given).await, 1);
}

async fn it_is_said_in_spanish(world: World) {
    let ana = world.ana().await;
    let mut more = analysis(Some("2026-03-10"));
    more["label"] = json!({ "hermetic": true });
    let lot = made(&ana, "A-1", &more).await;
    let mut browser = Browser::of(&world, &ana, Role::Office).await;
    let chosen = [("units", "metric"), ("decimal_sign", "comma"), ("language", "es")];
    assert_eq!(browser.submit(&world, "/account/reading", &chosen).await.status, 303);
    let page = browser.get(&world, &format!("/lots/{lot}")).await.text;
    for says in [
        "Poder germinativo según el análisis del rótulo de marzo de 2026, de hace 13 meses.",
        "en envases herméticos mencionan 24 meses calendario después del mes del análisis. Rigen las normas de su lugar.",
    ] {
        assert!(page.contains(says), "{says}: {page}");
    }
}
