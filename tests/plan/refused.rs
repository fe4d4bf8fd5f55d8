//! Every fault of a plan at once, each at its part of the query, and nothing answered that cannot be.

use crate::on_both;
use crate::world::World;

on_both!(
    every_fault_is_named_at_its_place,
    figures_of_both_ways_are_not_mixed,
    hostile_figures_are_refused,
    a_plan_is_for_members
);

async fn every_fault_is_named_at_its_place(world: World) {
    let ana = world.ana().await;
    let refused = async |query: &str, pointers: &[&str]| {
        let answer = ana.get(&format!("/rate-plan?{query}")).await;
        answer.refused(422, pointers);
        let mut found = answer.pointers();
        found.dedup();
        assert_eq!(found.len(), pointers.len(), "{query}: {}", answer.text);
    };
    refused("", &["/plants_per_m2", "/thousand_seed_weight_g", "/establishment_percent"]).await;
    refused("plants_per_m2=300", &["/thousand_seed_weight_g", "/establishment_percent"]).await;
    refused(
        "plants_per_m2=0&thousand_seed_weight_g=-4&establishment_percent=0",
        &["/plants_per_m2", "/thousand_seed_weight_g", "/establishment_percent"],
    )
    .await;
    refused(
        "plants_per_m2=x&thousand_seed_weight_g=45&germination_percent=101&emergence_percent=0",
        &["/plants_per_m2", "/germination_percent", "/emergence_percent"],
    )
    .await;
    refused(
        "plants_per_ft2=30&seeds_per_lb=0&germination_percent=90&loss_percent=90",
        &["/seeds_per_lb", "/loss_percent"],
    )
    .await;
    refused("plants_per_m2=300&thousand_seed_weight_g=45&emergence_percent=90", &["/germination_percent"]).await;
    refused("pls_rate=0&rate_unit=kg", &["/rate_unit", "/pls_rate", "/purity_percent", "/germination_percent"]).await;
    refused(
        "pls_rate=10&purity_percent=0&germination_percent=95&hard_seed_percent=6",
        &["/purity_percent", "/hard_seed_percent"],
    )
    .await;
    refused("pls_rate=10&purity_percent=99&germination_percent=95&hard_seed_percent=6", &["/hard_seed_percent"]).await;
    refused("pls_rate=10&purity_percent=99&germination_percent=0", &["/germination_percent"]).await;
    let good = "plants_per_m2=300&thousand_seed_weight_g=45&establishment_percent=80";
    refused(
        &format!("{good}&row_spacing=0&bulk_density=77&bulk_density_unit=kg"),
        &["/row_spacing", "/bulk_density_unit"],
    )
    .await;
    refused(&format!("{good}&row_spacing=50&row_spacing_unit=ft"), &["/row_spacing"]).await;
    refused(&format!("{good}&seed_plus_minus_points=80"), &["/seed_plus_minus_points"]).await;
    refused(&format!("{good}&germination_seeds_tested=400"), &["/germination_seeds_tested"]).await;
    refused(&format!("{good}&colour=plum"), &["/colour"]).await;
}

async fn figures_of_both_ways_are_not_mixed(world: World) {
    let ana = world.ana().await;
    let refused = async |query: &str, pointer: &str| {
        ana.get(&format!("/rate-plan?{query}")).await.refused(422, &[pointer]);
    };
    let good = "plants_per_m2=300&thousand_seed_weight_g=45&establishment_percent=80";
    refused(&format!("{good}&pls_rate=10"), "/pls_rate").await;
    refused(&format!("{good}&plants_per_ft2=30"), "/plants_per_ft2").await;
    refused(&format!("{good}&seeds_per_kg=20000"), "/seeds_per_kg").await;
    refused(&format!("{good}&loss_percent=5"), "/loss_percent").await;
    refused(&format!("{good}&hard_seed_percent=5"), "/hard_seed_percent").await;
    let both = "plants_per_m2=300&thousand_seed_weight_g=45&germination_percent=90&emergence_percent=90&loss_percent=5";
    refused(both, "/loss_percent").await;
    refused("pls_rate=10&purity_percent=99&germination_percent=90&establishment_percent=80", "/establishment_percent")
        .await;
    let points = "&seed_plus_minus_points=3&germination_seeds_tested=400&germination_percent=90";
    refused(&format!("{good}{points}"), "/germination_seeds_tested").await;
}

async fn hostile_figures_are_refused(world: World) {
    let ana = world.ana().await;
    let long = "9".repeat(60);
    for bad in
        ["NaN", "inf", "-inf", "1e3", "-0", "0", "", "%00", "1%2C2%2C3", "999999999999", long.as_str(), "%EF%BC%95"]
    {
        for query in [
            format!("plants_per_m2={bad}&thousand_seed_weight_g=45&establishment_percent=80"),
            format!("plants_per_m2=300&thousand_seed_weight_g={bad}&establishment_percent=80"),
            format!("plants_per_m2=300&thousand_seed_weight_g=45&establishment_percent={bad}"),
            format!("pls_rate={bad}&purity_percent=99&germination_percent=90"),
            format!("pls_rate=10&purity_percent={bad}&germination_percent=90"),
        ] {
            let answer = ana.get(&format!("/rate-plan?{query}")).await;
            answer.refused(422, &[]);
            assert!(!answer.pointers().is_empty() && answer.text.len() < 2_000, "{query}: {}", answer.text);
        }
    }
    // Each figure can be, but not together: more seed than lies on a square metre.
    ana.get("/rate-plan?plants_per_m2=99999&thousand_seed_weight_g=45&establishment_percent=1")
        .await
        .refused(422, &["/plants_per_m2"]);
    ana.get("/rate-plan?plants_per_m2=%FF").await.refused(400, &[]);
}

async fn a_plan_is_for_members(world: World) {
    world.nobody().get("/rate-plan?plants_per_m2=300").await.refused(401, &[]);
    let organization = world.organization("Halm", "Europe/Vienna").await;
    for role in ["office", "crew", "agronomist"] {
        let member = world.member(organization, &format!("{role}-plan@example.org"), role).await;
        member.read("/rate-plan?plants_per_m2=300&thousand_seed_weight_g=45&establishment_percent=80").await;
    }
}
