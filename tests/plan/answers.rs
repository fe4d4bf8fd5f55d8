//! Published examples through the API. The sources are named with their printed results; the exact ones are derived.

use super::near;
use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(
    plants_of_a_seed_weight_and_an_establishment,
    each_convention_is_named_and_reckons_its_own_way,
    american_figures_are_taken_as_they_are,
    pure_live_seed_comes_from_the_bag,
    rows_bushels_and_ranges_are_told_where_they_are_asked_for,
);

/// Source: Irish Farmers Journal, 280 plants/m², 53 g, 85 %: "175 kg/ha".
async fn plants_of_a_seed_weight_and_an_establishment(world: World) {
    let ana = world.ana().await;
    let plan = ana.read("/rate-plan?plants_per_m2=280&thousand_seed_weight_g=53&establishment_percent=85").await;
    assert_eq!(plan["rate"]["unit"], "kg/ha");
    near(&plan["rate"], 174.588, 5e-4);
    near(&plan["seeds_per_m2"], 280.0 / 0.85, 1e-9);
    near(&plan["seeds_per_kg"], 1e6 / 53.0, 1e-6);
    near(&plan["seeds_per_lb"], 453_592.37 / 53.0, 1e-6);
    assert_eq!(
        (&plan["convention"], &plan["range"], &plan["rate_from_bag"]),
        (&json!("given"), &json!(null), &json!(null))
    );
    assert_eq!(plan["says"], "Establishment 85.0 %: establishment as given.");

    // A decimal comma is a decimal sign too; the lot's germination may stand beside an establishment.
    let comma =
        "/rate-plan?plants_per_m2=280&thousand_seed_weight_g=53,0&establishment_percent=85&germination_percent=95";
    near(&ana.read(comma).await["rate"], 174.588, 5e-4);
}

/// Sources: Teagasc, 280 plants/m², 50.9 g, 95 % less 10 points: "168 kg/ha"; multiplied it is 166.690. An open data set,
/// 28 plants/m², 18.5 g, 96 % x 92 %: "5.87 kg/ha".
async fn each_convention_is_named_and_reckons_its_own_way(world: World) {
    let ana = world.ana().await;
    let lot = "plants_per_m2=280&thousand_seed_weight_g=50.9&germination_percent=95";
    let points = ana.read(&format!("/rate-plan?{lot}&loss_percent=10")).await;
    near(&points["rate"], 167.671, 5e-4);
    near(&points["establishment_percent"], 85.0, 1e-12);
    assert_eq!(points["convention"], "subtracted");
    assert_eq!(points["says"], "Establishment 85.0 %: germination less field loss, in percentage points.");
    let share = ana.read(&format!("/rate-plan?{lot}&emergence_percent=90")).await;
    near(&share["rate"], 166.690, 5e-4);
    assert_eq!(share["convention"], "multiplied");
    assert_eq!(share["says"], "Establishment 85.5 %: germination times emergence.");
    let small = "plants_per_m2=28&thousand_seed_weight_g=18.5&germination_percent=96&emergence_percent=92";
    near(&ana.read(&format!("/rate-plan?{small}")).await["rate"], 5.865_04, 5e-6);
}

/// Sources: Canola Watch, 4 g, 10 plants/ft², 50 %: "7.7 lb/ac". NDSU, 1.1 million plants an acre, 15 % lost, 95 %
/// germination, 12 500 seeds/lb: 108.978 lb/ac exactly ("110").
async fn american_figures_are_taken_as_they_are(world: World) {
    let ana = world.ana().await;
    let canola = "plants_per_ft2=10&thousand_seed_weight_g=4&establishment_percent=50&rate_unit=lb/ac";
    let plan = ana.read(&format!("/rate-plan?{canola}")).await;
    assert_eq!(plan["rate"]["unit"], "lb/ac");
    near(&plan["rate"], 7.682_67, 5e-6);
    let per_ft2 = 1.1e6 / 43_560.0;
    let barley = format!(
        "plants_per_ft2={per_ft2:.9}&seeds_per_lb=12500&germination_percent=95&emergence_percent=85&rate_unit=lb/ac"
    );
    near(&ana.read(&format!("/rate-plan?{barley}")).await["rate"], 108.978, 5e-4);
}

/// Sources: a US conservation office, TZ 85, purity 95, 0.12 PLS lb/ac: "0.15". Allamakee SWCD, purity 98.75, germination 88,
/// dormant 5: "91.83 %".
async fn pure_live_seed_comes_from_the_bag(world: World) {
    let ana = world.ana().await;
    let plan = ana.read("/rate-plan?pls_rate=0.12&rate_unit=lb/ac&purity_percent=95&germination_percent=85").await;
    near(&plan["rate"], 0.148_607, 5e-7);
    near(&plan["pls_fraction"], 0.8075, 1e-12);
    assert_eq!((&plan["rate"]["unit"], &plan["seeds_per_m2"]), (&json!("lb/ac"), &json!(null)));
    assert_eq!((&plan["convention"], &plan["establishment_percent"]), (&json!(null), &json!(null)));

    let hard = "pls_rate=10&purity_percent=98.75&germination_percent=88&hard_seed_percent=5";
    let left_out = ana.read(&format!("/rate-plan?{hard}")).await;
    near(&left_out["pls_fraction"], 0.869, 1e-12);
    assert!(left_out["says"].as_str().unwrap().ends_with("hard or dormant seed left out."), "{left_out}");
    let counted = ana.read(&format!("/rate-plan?{hard}&count_hard_seed=true&thousand_seed_weight_g=2")).await;
    near(&counted["pls_fraction"], 0.918_375, 1e-12);
    assert_eq!(
        counted["says"],
        "Pure live seed 91.8 %: purity times germination, hard or dormant seed counted as live."
    );
    near(&counted["rate"], 10.0 / 0.918_375, 1e-9);
    near(&counted["live_seeds_per_m2"], 500.0, 1e-9);
    near(&counted["seeds_per_m2"], 500.0 / 0.918_375, 1e-9);
}

/// By hand: 400 seeds/m² in rows of 12.5 cm are 50 to the metre; 180 kg/ha of 60 lb/bu are 2.6765 bu/ac; 3 % of the weight
/// and 4 of 80 points are 5.83 % of the rate.
async fn rows_bushels_and_ranges_are_told_where_they_are_asked_for(world: World) {
    let ana = world.ana().await;
    let plan = "/rate-plan?plants_per_m2=320&thousand_seed_weight_g=45&establishment_percent=80";
    let all = format!(
        "{plan}&row_spacing=12.5&bulk_density=60&bulk_density_unit=lb/bu&seed_weight_plus_minus_percent=3\
         &seed_plus_minus_points=4&purity_percent=98"
    );
    let all = ana.read(&all).await;
    near(&all["rate"], 180.0, 1e-9);
    near(&all["rate_from_bag"], 180.0 / 0.98, 1e-9);
    near(&all["seeds_per_metre_of_row"], 50.0, 1e-9);
    near(&all["bushels_per_ac"], 180.0 / 0.98 * 0.892_179_1 / 60.0, 1e-5);
    near(&all["range"]["min"], 180.0 * (1.0 - 0.058_309_5), 1e-4);
    near(&all["range"]["max"], 180.0 * (1.0 + 0.058_309_5), 1e-4);

    let tested = "plants_per_m2=320&thousand_seed_weight_g=45&germination_percent=90&emergence_percent=90";
    let tested = ana.read(&format!("/rate-plan?{tested}&germination_seeds_tested=400")).await;
    let wide = super::number(&tested["range"]["max"]) / super::number(&tested["rate"]) - 1.0;
    assert!((wide - 0.0327).abs() < 5e-4, "400 seeds leave about 3 of 90 points open: {wide}");
}
