//! How far a rate may be off because weight and tests of the lot are known only so well.

use crate::figure::{Figure, Impossible};

use super::{Establishment, Plan};

/// How well the figures of a [`Plan`] are known: half widths, all at the same level of confidence (95 % is usual).
///
/// With R = plants x w / E, the relative half width of the rate is, to first order and for figures that do not depend on
/// each other (JCGM 100:2008, 5.1.2 and 5.1.6),
///
/// ```text
/// U(R)/R = sqrt( (U(w)/w)² + (U(E)/E)² )
/// given:       U(E) as given
/// multiplied:  (U(E)/E)² = (U(germination)/germination)² + (U(emergence)/emergence)²
/// subtracted:  U(E)²     =  U(germination)²              +  U(loss)²
/// ```
///
/// and the range of the rate is R (1 ± U(R)/R). The plants wanted are a wish and have no doubt.
///
/// ```
/// use sowmark_core::seed::{Doubt, Establishment, Plan};
///
/// let plan = Plan {
///     plants_per_m2: 300.0,
///     thousand_seed_weight_g: 50.0,
///     establishment: Establishment::Given { percent: 80.0 },
/// };
/// // 3 % of the weight and 4 of 80 points (5 %): sqrt(3² + 5²) = 5.83 %
/// let range = plan.range(Doubt { seed_weight_percent: 3.0, seed_points: 4.0, field_points: 0.0 })?;
/// assert!((range.max / 0.01875 - 1.0583).abs() < 1e-4 && (range.min / 0.01875 - 0.9417).abs() < 1e-4);
/// # Ok::<(), sowmark_core::figure::Impossible>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Doubt {
    /// Percent of the thousand-seed weight.
    pub seed_weight_percent: f64,
    /// Percentage points of the germination; of the establishment where that is given.
    pub seed_points: f64,
    /// Percentage points of emergence or loss; without meaning where the establishment is given.
    pub field_points: f64,
}

impl Doubt {
    /// The half width of the rate as a share of it.
    pub(super) fn of_the_rate(self, plan: &Plan) -> Result<f64, Impossible> {
        let weight = Figure::SeedWeightDoubt.check(self.seed_weight_percent)? / 100.0;
        let seed = Figure::ShareDoubt.check(self.seed_points)?;
        let field = Figure::ShareDoubt.check(self.field_points)?;
        let expected = plan.establishment.percent()?;
        let stand = match plan.establishment {
            Establishment::Given { .. } => seed / expected,
            Establishment::Multiplied { germination_percent, emergence_percent } => {
                (seed / germination_percent).hypot(field / emergence_percent)
            }
            Establishment::Subtracted { .. } => seed.hypot(field) / expected,
        };
        let share = weight.hypot(stand);
        if share < 1.0 { Ok(share) } else { Err(Impossible::too_doubtful(Figure::ShareDoubt, share * 100.0)) }
    }

    /// Everything in it that cannot be so.
    pub fn faults(&self) -> Vec<Impossible> {
        [
            Figure::SeedWeightDoubt.check(self.seed_weight_percent).err(),
            Figure::ShareDoubt.check(self.seed_points).err(),
            Figure::ShareDoubt.check(self.field_points).err(),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}

/// Half width in percentage points (95 %) that counting alone leaves to a germination found in so many seeds.
///
/// 1.96 sqrt(p (1 - p) / (n + 4)) with p = (x + 2) / (n + 4): two seeds are added to either side, so that 400 of 400 is
/// not taken for certainty (Agresti and Coull 1998, from memory). Sampling of the lot comes on top.
///
/// # Errors
/// A germination outside 0 to 100 %, and less than one seed.
///
/// ```
/// use sowmark_core::seed::germination_doubt;
///
/// let points = germination_doubt(90.0, 400.0)?;
/// assert!((points - 2.95).abs() < 0.05);
/// assert!(germination_doubt(100.0, 400.0)? > 0.5);
/// # Ok::<(), sowmark_core::figure::Impossible>(())
/// ```
pub fn germination_doubt(germination_percent: f64, seeds_tested: f64) -> Result<f64, Impossible> {
    let seeds = Figure::SeedsCounted.check(seeds_tested)?;
    let grown = Figure::Germination.check(germination_percent)? / 100.0 * seeds;
    let (of, share) = (seeds + 4.0, (grown + 2.0) / (seeds + 4.0));
    Ok(100.0 * 1.96 * (share * (1.0 - share) / of).sqrt())
}
