//! What a job came to, against task data in the form of ISO 11783-10 made from an invented scenario: masses and areas as the
//! file has them, rates and ratios worked out with Python's decimals.

use proptest::prelude::*;
use sowmark_core::{
    policy::Policy,
    readiness::SeedUsedBasis,
    usage::{JobMasses, Sown, achieved, mass_uncertainty_kg},
};

/// Area of the task, m².
const AREA_M2: f64 = 123_450.0;

struct Printed {
    grams: f64,
    basis: SeedUsedBasis,
    target_kg_per_ha: f64,
    kg_per_ha: f64,
    ratio: f64,
}

#[test]
fn the_rates_of_the_task_data() {
    use SeedUsedBasis::{MachineTotal, Weighed};
    let printed = [
        (2_247_310.0, MachineTotal, 180.0, 182.042_122_316_727_41, 1.011_345_123_981_819),
        (2_260_000.0, Weighed, 180.0, 183.070_068_853_786_95, 1.017_055_938_076_594_2),
        (925_880.0, MachineTotal, 75.0, 75.000_405_022_276_23, 1.000_005_400_297_016_2),
        (925_000.0, Weighed, 75.0, 74.929_121_101_660_58, 74.929_121_101_660_58 / 75.0),
    ];
    for (grams, basis, target_kg_per_ha, kg_per_ha, ratio) in printed {
        holds(&Printed { grams, basis, target_kg_per_ha, kg_per_ha, ratio });
    }
}

fn holds(printed: &Printed) {
    let job = JobMasses {
        area_m2: AREA_M2,
        seed_used_kg: printed.grams / 1000.0,
        basis: printed.basis,
        target_rate: printed.target_kg_per_ha / 1e4,
        thousand_seed_weight_g: Some(45.2),
    };
    let came_to = achieved(&job, &Policy::default()).expect("a rate");
    assert!((came_to.rate * 1e4 - printed.kg_per_ha).abs() < 1e-9, "{} kg/ha", came_to.rate * 1e4);
    assert!((came_to.deviation + 1.0 - printed.ratio).abs() < 1e-12, "{}", came_to.deviation);
    // Seeds per m² are kg/ha x 100 / g per thousand.
    let seeds = came_to.seeds_per_m2.expect("a seed weight");
    assert!((seeds - printed.kg_per_ha * 100.0 / 45.2).abs() < 1e-9, "{seeds} per m²");
    assert_eq!(came_to.uncertainty.is_none(), printed.basis == SeedUsedBasis::MachineTotal);
}

/// The first job of the drift example: 2240 kg weighed with 10 kg, an area known within 0.5 %; u = 0.0067030.
#[test]
fn its_uncertainty_is_that_of_mass_and_area() {
    let job = JobMasses {
        area_m2: 124_000.0,
        seed_used_kg: 2240.0,
        basis: SeedUsedBasis::Weighed,
        target_rate: 0.018,
        thousand_seed_weight_g: None,
    };
    let weighed = achieved(&job, &Policy::default()).expect("a rate");
    assert!((weighed.uncertainty.expect("weighed") - 0.006_703_0).abs() < 5e-8);
    assert_eq!(weighed.seeds_per_m2, None);
    let bags = JobMasses { basis: SeedUsedBasis::Bags, ..job };
    let counted = achieved(&bags, &Policy::default()).expect("a rate");
    assert!((counted.uncertainty.expect("counted") - (25.0_f64 / 2240.0).hypot(0.005)).abs() < 1e-12);
}

#[test]
fn weighed_bags_and_machine_totals_are_told_apart() {
    let policy = Policy::default();
    let sown = Sown::default()
        .and(300.0, SeedUsedBasis::Weighed, &policy)
        .and(500.0, SeedUsedBasis::Bags, &policy)
        .and(200.0, SeedUsedBasis::Bags, &policy)
        .and(90.0, SeedUsedBasis::MachineTotal, &policy);
    let kilograms = [sown.weighed.kg, sown.bags.kg, sown.machine_total.kg, sown.all().kg];
    assert!(kilograms.iter().zip([300.0, 700.0, 90.0, 1090.0]).all(|(found, kg)| (found - kg).abs() < 1e-9));
    assert!((sown.bags.uncertainty_kg() - 1250.0_f64.sqrt()).abs() < 1e-9);
    assert!(sown.machine_total.variance.abs() < 1e-12);
    assert_eq!(mass_uncertainty_kg(SeedUsedBasis::MachineTotal, &policy), None);
}

proptest! {
    /// Numbers that no form should send and some form will.
    #[test]
    fn hostile_numbers_have_no_rate_or_a_finite_one(
        area_m2 in any::<f64>(),
        seed_used_kg in any::<f64>(),
        target_rate in any::<f64>(),
        weight in any::<f64>(),
    ) {
        let basis = SeedUsedBasis::Weighed;
        let job = JobMasses { area_m2, seed_used_kg, basis, target_rate, thousand_seed_weight_g: Some(weight) };
        if let Some(came_to) = achieved(&job, &Policy::default()) {
            prop_assert!(came_to.rate.is_finite() && came_to.deviation.is_finite());
            prop_assert!(came_to.seeds_per_m2.is_none_or(f64::is_finite));
            prop_assert!(area_m2 > 0.0 && seed_used_kg > 0.0 && target_rate > 0.0);
        }
    }
}

/// A target that is next to nothing: the rate is a number, how far it is off is none.
#[test]
fn a_deviation_beyond_all_numbers_is_no_rate() {
    let job = JobMasses {
        area_m2: 1.0,
        seed_used_kg: 1.0,
        basis: SeedUsedBasis::Weighed,
        target_rate: f64::from_bits(1),
        thousand_seed_weight_g: None,
    };
    assert!(achieved(&job, &Policy::default()).is_none());
    assert!(achieved(&JobMasses { target_rate: 1.0, ..job }, &Policy::default()).is_some());
}

/// A seed weight that is next to nothing: the rate stands, the seeds of it are more than a square metre holds.
#[test]
fn seeds_beyond_what_a_square_metre_holds_are_not_told() {
    let job = |weight| JobMasses {
        area_m2: 124_000.0,
        seed_used_kg: 2240.0,
        basis: SeedUsedBasis::Weighed,
        target_rate: 0.018,
        thousand_seed_weight_g: Some(weight),
    };
    let seeds = |weight| achieved(&job(weight), &Policy::default()).expect("a rate").seeds_per_m2;
    assert!(seeds(0.2).is_some_and(|count| (count - 90_322.6).abs() < 0.05));
    assert_eq!([seeds(0.1), seeds(1e-300), seeds(f64::from_bits(1))], [None; 3]);
}
