//! Plants wanted to seeds and kilograms.

use proptest::prelude::*;
use sowmark_core::{
    figure::Figure,
    seed::{
        Convention, Doubt, Establishment, Plan, US_BUSHEL_M3, bushels_per_m2, germination_doubt, per_m2_of_row,
        per_metre_of_row, plants_expected, rate, seeds_at, seeds_per_kg, seeds_per_lb, seeds_per_m2,
        thousand_seed_weight_counted, thousand_seed_weight_from_per_kg, thousand_seed_weight_from_per_lb,
    },
};

use sowmark_core::words::Words;

use crate::{HOSTILE, near};

fn given(percent: f64) -> Establishment {
    Establishment::Given { percent }
}

fn multiplied(germination_percent: f64, emergence_percent: f64) -> Establishment {
    Establishment::Multiplied { germination_percent, emergence_percent }
}

fn subtracted(germination_percent: f64, loss_percent: f64) -> Establishment {
    Establishment::Subtracted { germination_percent, loss_percent }
}

fn any_establishment() -> impl Strategy<Value = Establishment> {
    prop_oneof![
        (5.0..100.0).prop_map(given),
        (30.0..100.0, 30.0..100.0).prop_map(|(germination, emergence)| multiplied(germination, emergence)),
        (50.0..100.0, 0.0..45.0).prop_map(|(germination, loss)| subtracted(germination, loss)),
    ]
}

fn plan(establishment: Establishment) -> Plan {
    Plan { plants_per_m2: 300.0, thousand_seed_weight_g: 50.0, establishment }
}

proptest! {
    #[test]
    fn what_is_sown_brings_the_plants_back(plants in 1.0..2_000.0, weight in 0.1..500.0, stand in any_establishment()) {
        let plan = Plan { plants_per_m2: plants, thousand_seed_weight_g: weight, establishment: stand };
        let sown = plan.work_out().unwrap();
        prop_assert!(near(plants_expected(sown.rate.min(10.0), weight, stand).unwrap(), plants) || sown.rate > 10.0);
        prop_assert!(near(sown.seeds_per_m2 * sown.establishment_percent / 100.0, plants));
        prop_assert_eq!(sown.convention, stand.convention());
        prop_assert!(plan.faults().is_empty());
    }

    #[test]
    fn twice_the_plants_or_twice_the_weight_is_twice_the_seed(
        plants in 1.0..2_000.0, weight in 0.1..500.0, stand in any_establishment()
    ) {
        let of = |plants, weight| Plan { plants_per_m2: plants, thousand_seed_weight_g: weight, establishment: stand }
            .work_out().unwrap();
        let once = of(plants, weight);
        prop_assert!(near(of(2.0 * plants, weight).rate, 2.0 * once.rate));
        prop_assert!(near(of(plants, 2.0 * weight).rate, 2.0 * once.rate));
        prop_assert_eq!(of(plants, 2.0 * weight).seeds_per_m2, once.seeds_per_m2);
    }

    #[test]
    fn the_better_they_come_up_the_less_is_sown(better in 50.0..99.0, worse in 5.0..49.0, other in 50.0..100.0) {
        for (good, bad) in [
            (given(better), given(worse)),
            (multiplied(better, other), multiplied(worse, other)),
            (multiplied(other, better), multiplied(other, worse)),
            (subtracted(100.0, 100.0 - better), subtracted(100.0, 100.0 - worse)),
        ] {
            prop_assert!(plan(good).work_out().unwrap().rate < plan(bad).work_out().unwrap().rate);
        }
    }

    #[test]
    fn points_off_cost_more_than_the_same_share_off(germination in 60.0..99.9, loss in 0.1..50.0) {
        let (points, share) = (subtracted(germination, loss), multiplied(germination, 100.0 - loss));
        prop_assert!(points.percent().unwrap() < share.percent().unwrap());
    }

    #[test]
    fn a_seed_weight_survives_counts(weight in 0.01..5_000.0) {
        prop_assert!(near(thousand_seed_weight_from_per_kg(seeds_per_kg(weight).unwrap()).unwrap(), weight));
        prop_assert!(near(thousand_seed_weight_from_per_lb(seeds_per_lb(weight).unwrap()).unwrap(), weight));
        prop_assert!(near(thousand_seed_weight_counted(1_000.0, weight / 1_000.0).unwrap(), weight));
        prop_assert!(seeds_per_lb(weight).unwrap() < seeds_per_kg(weight).unwrap());
    }

    #[test]
    fn rows_and_areas_are_two_views_of_one_stand(per_m2 in 1.0..5_000.0, spacing in 0.05..1.5) {
        prop_assert!(near(per_m2_of_row(per_metre_of_row(per_m2, spacing).unwrap(), spacing).unwrap(), per_m2));
    }

    #[test]
    fn the_range_holds_the_rate_and_widens_with_doubt(
        stand in any_establishment(), weight in 0.0..20.0, seed in 0.0..2.0, field in 0.0..2.0, more in 0.1..1.0
    ) {
        let plan = plan(stand);
        let middle = plan.work_out().unwrap().rate;
        let doubt = Doubt { seed_weight_percent: weight, seed_points: seed, field_points: field };
        let range = plan.range(doubt).unwrap();
        prop_assert!(range.min <= middle && middle <= range.max);
        prop_assert!(near(range.max - middle, middle - range.min) || range.max - range.min < 1e-12);
        let wider = plan.range(Doubt { seed_weight_percent: weight + more, ..doubt }).unwrap();
        prop_assert!(wider.min < range.min && wider.max > range.max);
        let wider = plan.range(Doubt { seed_points: seed + more, ..doubt }).unwrap();
        prop_assert!(wider.min < range.min && wider.max > range.max);
        let wider = plan.range(Doubt { field_points: field + more, ..doubt }).unwrap();
        let counts = stand.convention() != Convention::Given;
        prop_assert_eq!(wider.max > range.max, counts);
    }

    #[test]
    fn more_seeds_tested_leave_less_doubt(germination in 0.0..100.0, seeds in 50.0..1_000.0) {
        let doubt = |seeds| germination_doubt(germination, seeds).unwrap();
        prop_assert!(doubt(2.0 * seeds) < doubt(seeds));
        prop_assert!(near(germination_doubt(100.0 - germination, seeds).unwrap(), doubt(seeds)));
    }
}

#[test]
fn without_doubt_the_range_is_the_rate() {
    let plan = plan(given(80.0));
    let (rate, range) = (plan.work_out().unwrap().rate, plan.range(Doubt::default()).unwrap());
    assert_eq!((range.min, range.max), (rate, rate));
}

/// By hand: multiplied, 90 ± 3 and 80 ± 4 points and 2 % of weight: sqrt(0.02² + (3/90)² + (4/80)²) = 6.3333 %;
/// subtracted, 90 ± 3 less 10 ± 4 points: sqrt(0.02² + 5²/80²) = 6.5622 %.
#[test]
fn doubts_add_as_told() {
    let doubt = Doubt { seed_weight_percent: 2.0, seed_points: 3.0, field_points: 4.0 };
    for (stand, percent) in [(multiplied(90.0, 80.0), 6.333_33), (subtracted(90.0, 10.0), 6.562_20)] {
        let plan = plan(stand);
        let wide = plan.range(doubt).unwrap().max / plan.work_out().unwrap().rate - 1.0;
        assert!((100.0 * wide - percent).abs() < 5e-5, "{stand:?}: {wide}");
    }
}

#[test]
fn a_doubt_as_large_as_the_rate_gives_no_range() {
    let refused = plan(given(50.0)).range(Doubt { seed_points: 50.0, ..Doubt::default() }).unwrap_err();
    assert_eq!(refused.figure(), Figure::ShareDoubt);
    assert_eq!(
        refused.to_string(),
        "The figures are known within 100 % only, which gives no range; below 100 % is needed. Test the lot again."
    );
    assert!(plan(given(50.0)).range(Doubt { seed_points: 49.9, ..Doubt::default() }).is_ok());
}

#[test]
fn a_doubt_that_cannot_be_is_named() {
    let doubt = Doubt { seed_weight_percent: -1.0, seed_points: 101.0, field_points: f64::NAN };
    let figures: Vec<_> = doubt.faults().iter().map(sowmark_core::figure::Impossible::figure).collect();
    assert_eq!(figures, [Figure::SeedWeightDoubt, Figure::ShareDoubt, Figure::ShareDoubt]);
    assert!(Doubt::default().faults().is_empty());
    assert!(plan(given(50.0)).range(doubt).is_err());
}

#[test]
fn a_stand_is_above_nothing_and_at_most_all() {
    assert_eq!(given(100.0).percent(), Ok(100.0));
    assert_eq!(multiplied(100.0, 100.0).percent(), Ok(100.0));
    assert_eq!(subtracted(100.0, 0.0).percent(), Ok(100.0));
    let fault = |stand: Establishment| stand.percent().unwrap_err();
    assert_eq!(fault(given(0.0)).figure(), Figure::Establishment);
    assert_eq!(fault(given(100.1)).figure(), Figure::Establishment);
    assert_eq!(
        fault(multiplied(0.0, 80.0)).to_string(),
        "With a germination of 0 % nothing comes up; it must be above 0 %. Give it as the seed test states it."
    );
    assert_eq!(fault(multiplied(80.0, 0.0)).figure(), Figure::Emergence);
    assert_eq!(fault(subtracted(0.0, 0.0)).figure(), Figure::Germination);
    assert_eq!(fault(subtracted(95.0, -1.0)).figure(), Figure::Loss);
    assert_eq!(
        fault(subtracted(10.0, 10.0)).to_string(),
        "A field loss of 10 % leaves nothing of a germination of 10 %; it must be below the germination. Give the \
         percentage points taken off the germination."
    );
    assert!(near(subtracted(10.0, 9.9).percent().unwrap(), 0.1));
}

#[test]
fn every_fault_of_a_plan_is_found_at_once() {
    let figures = |plan: Plan| plan.faults().iter().map(sowmark_core::figure::Impossible::figure).collect::<Vec<_>>();
    let all = Plan { plants_per_m2: 0.0, thousand_seed_weight_g: -5.0, establishment: multiplied(120.0, 0.0) };
    assert_eq!(figures(all), [Figure::Plants, Figure::SeedWeight, Figure::Germination, Figure::Emergence]);
    assert_eq!(
        figures(Plan { establishment: subtracted(101.0, 101.0), ..plan(given(1.0)) }),
        [Figure::Germination, Figure::Loss]
    );
    // Each can be so, but not together: 1 000 000 seeds on a square metre.
    let dense = Plan { plants_per_m2: 10_000.0, ..plan(given(1.0)) };
    assert_eq!(figures(dense), [Figure::Seeds]);
    assert!(dense.work_out().is_err());
}

#[test]
fn hostile_numbers_are_refused_and_never_answered() {
    for bad in HOSTILE {
        assert!(seeds_per_m2(bad, given(80.0)).is_err());
        assert!(seeds_per_m2(300.0, given(bad)).is_err());
        assert!(rate(bad, 50.0).is_err() && rate(300.0, bad).is_err());
        assert!(seeds_at(bad, 50.0).is_err() && seeds_at(0.01, bad).is_err());
        assert!(plants_expected(bad, 50.0, given(80.0)).is_err());
        assert!(seeds_per_kg(bad).is_err() && seeds_per_lb(bad).is_err());
        assert!(thousand_seed_weight_from_per_kg(bad).is_err() && thousand_seed_weight_from_per_lb(bad).is_err());
        assert!(thousand_seed_weight_counted(bad, 0.02).is_err() && thousand_seed_weight_counted(600.0, bad).is_err());
        assert!(per_metre_of_row(bad, 0.2).is_err() && per_metre_of_row(300.0, bad).is_err());
        assert!(per_m2_of_row(bad, 0.2).is_err() && per_m2_of_row(60.0, bad).is_err());
        assert!(bushels_per_m2(bad, 770.0).is_err() && bushels_per_m2(0.01, bad).is_err());
        assert!(germination_doubt(90.0, bad).is_err());
    }
}

/// A bushel of 60 lb/bu weighs 60 lb, whatever the route.
#[test]
fn a_bushel_is_its_own_volume() {
    use sowmark_core::quantity::unit::{LB, LB_PER_BU};
    assert!(near(US_BUSHEL_M3 * 60.0 * LB_PER_BU.in_si(), 60.0 * LB.in_si()));
    assert!(near(US_BUSHEL_M3, 0.035_239_070_166_88));
}

#[test]
fn a_convention_is_named() {
    for (convention, word) in
        [(Convention::Given, "given"), (Convention::Multiplied, "multiplied"), (Convention::Subtracted, "subtracted")]
    {
        assert_eq!(convention.word(), word);
        assert_eq!(serde_json::to_string(&convention).unwrap(), format!("\"{word}\""));
        assert!(!convention.says(Words::default()).is_empty());
    }
    assert_eq!(Convention::Given.says(Words::default()), "establishment as given");
    assert_eq!(Convention::Multiplied.says(Words::default()), "germination times emergence");
    assert_eq!(Convention::Subtracted.says(Words::default()), "germination less field loss, in percentage points");
}

/// Worked out from the formula apart from this program: p = (x + 2) / (n + 4), 196 sqrt(p (1 - p) / (n + 4)).
#[test]
fn counting_leaves_a_germination_in_doubt() {
    for (germination, seeds, points) in [
        (90.0, 400.0, 2.976_205_768_861_994_3),
        (100.0, 400.0, 0.684_403_226_161_324_9),
        (0.0, 100.0, 2.639_496_838_300_66),
        (50.0, 1.0, 43.826_932_358_995_876),
    ] {
        assert!(near(germination_doubt(germination, seeds).unwrap(), points), "{germination} of {seeds}");
    }
}
