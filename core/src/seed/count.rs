//! Seeds counted: per mass, along a row, in a bushel.

use crate::{
    figure::{Figure, Impossible},
    quantity::unit,
};

/// A US bushel, 2150.42 cubic inches, in m³.
pub const US_BUSHEL_M3: f64 = 2150.42 * 0.0254 * 0.0254 * 0.0254;

/// Seeds in a kg: 1 000 000 / g per thousand.
///
/// # Errors
/// A seed weight that cannot be so.
pub fn seeds_per_kg(thousand_seed_weight_g: f64) -> Result<f64, Impossible> {
    Ok(1e6 / Figure::SeedWeight.check(thousand_seed_weight_g)?)
}

/// Seeds in a pound of 0.45359237 kg.
///
/// # Errors
/// A seed weight that cannot be so.
///
/// ```
/// use sowmark_core::seed::seeds_per_lb;
///
/// // Source: University of Kentucky: 10 000 seeds a pound, 45.4 g per thousand.
/// assert!((seeds_per_lb(45.359_237)? - 10_000.0).abs() < 1e-9);
/// # Ok::<(), sowmark_core::figure::Impossible>(())
/// ```
pub fn seeds_per_lb(thousand_seed_weight_g: f64) -> Result<f64, Impossible> {
    Ok(seeds_per_kg(thousand_seed_weight_g)? * unit::LB.in_si())
}

/// g per thousand seeds of a lot known by its seeds per kg.
///
/// # Errors
/// A count of which no seed could be that light or heavy.
pub fn thousand_seed_weight_from_per_kg(seeds_per_kg: f64) -> Result<f64, Impossible> {
    Figure::SeedWeight.check(1e6 / Figure::SeedsPerKg.check(seeds_per_kg)?)
}

/// g per thousand seeds of a lot known by its seeds per pound.
///
/// # Errors
/// As [`thousand_seed_weight_from_per_kg`].
pub fn thousand_seed_weight_from_per_lb(seeds_per_lb: f64) -> Result<f64, Impossible> {
    thousand_seed_weight_from_per_kg(seeds_per_lb / unit::LB.in_si())
}

/// g per thousand seeds of a counted sample of that mass in kg.
///
/// # Errors
/// Nothing counted, or nothing weighed.
///
/// ```
/// use sowmark_core::seed::{seeds_per_lb, thousand_seed_weight_counted};
///
/// // Source: University of Kentucky: seeds in 20 g, times 22.68, are the seeds in a pound.
/// let weight = thousand_seed_weight_counted(600.0, 0.020)?;
/// assert!((seeds_per_lb(weight)? - 600.0 * 22.68).abs() < 0.5);
/// # Ok::<(), sowmark_core::figure::Impossible>(())
/// ```
pub fn thousand_seed_weight_counted(seeds: f64, mass_kg: f64) -> Result<f64, Impossible> {
    let weight = Figure::SampleMass.check(mass_kg)? * 1e6 / Figure::SeedsCounted.check(seeds)?;
    Figure::SeedWeight.check(weight)
}

/// Seeds (or plants) per metre of row: per m² x row spacing in m.
///
/// # Errors
/// A figure that cannot be so.
///
/// ```
/// use sowmark_core::seed::per_metre_of_row;
///
/// // 5.4 million seeds per ha in rows of 15 cm: "81 seeds" a metre
/// assert!((per_metre_of_row(540.0, 0.15)? - 81.0).abs() < 1e-9);
/// # Ok::<(), sowmark_core::figure::Impossible>(())
/// ```
pub fn per_metre_of_row(per_m2: f64, row_spacing_m: f64) -> Result<f64, Impossible> {
    Ok(Figure::Seeds.check(per_m2)? * Figure::RowSpacing.check(row_spacing_m)?)
}

/// Plants (or seeds) per m² counted along a row: per metre / row spacing in m.
///
/// # Errors
/// A figure that cannot be so.
pub fn per_m2_of_row(per_metre: f64, row_spacing_m: f64) -> Result<f64, Impossible> {
    Figure::Seeds.check(per_metre / Figure::RowSpacing.check(row_spacing_m)?)
}

/// US bushels per m² of a rate (kg/m²) of seed of a bulk density (kg/m³): rate / density / bushel.
///
/// # Errors
/// A figure that cannot be so.
///
/// ```
/// use sowmark_core::{quantity::unit, seed::bushels_per_m2};
///
/// // 90 lb/ac of seed of 60 lb/bu
/// let bushels = bushels_per_m2(90.0 * unit::LB_PER_AC.in_si(), 60.0 * unit::LB_PER_BU.in_si())?;
/// assert!((bushels * unit::AC.in_si() - 1.5).abs() < 1e-9);
/// # Ok::<(), sowmark_core::figure::Impossible>(())
/// ```
pub fn bushels_per_m2(rate: f64, bulk_density: f64) -> Result<f64, Impossible> {
    Ok(Figure::Rate.check(rate)? / Figure::BulkDensity.check(bulk_density)? / US_BUSHEL_M3)
}
