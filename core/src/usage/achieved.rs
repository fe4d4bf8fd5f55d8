//! What a job came to: the rate that was really sown against the one that was wanted.

use super::mass_uncertainty_kg;
use crate::{drift::relative_uncertainty, policy::Policy, readiness::SeedUsedBasis, seed::seeds_at};

/// The seed and the ground of a job.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JobMasses {
    /// Area sown, m².
    pub area_m2: f64,
    /// Seed used, kg.
    pub seed_used_kg: f64,
    /// How that is known.
    pub basis: SeedUsedBasis,
    /// Target rate, kg/m².
    pub target_rate: f64,
    /// Of the lot as it was known when it was sown, g; `None` where nobody measured it, or for what is no seed.
    pub thousand_seed_weight_g: Option<f64>,
}

/// What a job came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Achieved {
    /// Seed used / area, kg/m².
    pub rate: f64,
    /// Actual / target - 1, a share.
    pub deviation: f64,
    /// The relative standard uncertainty of the rate; `None` for a machine total, which cannot reveal a wrong factor.
    pub uncertainty: Option<f64>,
    /// Seeds per m² that the rate put there.
    pub seeds_per_m2: Option<f64>,
}

/// What a job came to; `None` for a job without seed, ground or target, which has no rate.
///
/// ```
/// use sowmark_core::{policy::Policy, readiness::SeedUsedBasis, usage::{JobMasses, achieved}};
///
/// // 2240 kg on 12.4 ha, where 180 kg/ha were wanted; seed of 45 g per thousand.
/// let job = JobMasses {
///     area_m2: 124_000.0,
///     seed_used_kg: 2240.0,
///     basis: SeedUsedBasis::Weighed,
///     target_rate: 0.018,
///     thousand_seed_weight_g: Some(45.0),
/// };
/// let came_to = achieved(&job, &Policy::default()).unwrap();
/// assert!((came_to.rate * 1e4 - 180.645).abs() < 5e-4); // kg/ha
/// assert!((came_to.deviation - 0.003_584).abs() < 5e-7);
/// assert!((came_to.seeds_per_m2.unwrap() - 401.43).abs() < 5e-3);
/// ```
pub fn achieved(job: &JobMasses, policy: &Policy) -> Option<Achieved> {
    let given = [job.area_m2, job.seed_used_kg, job.target_rate];
    if !given.iter().all(|value| value.is_finite() && *value > 0.0) {
        return None;
    }
    let rate = job.seed_used_kg / job.area_m2;
    let deviation = rate / job.target_rate - 1.0;
    let uncertainty = mass_uncertainty_kg(job.basis, policy)
        .map(|mass| relative_uncertainty(job.seed_used_kg, mass, policy.area_uncertainty_percent));
    // A rate that no field could have has no count of seeds either; the rate itself stands for people to see.
    let seeds_per_m2 = job.thousand_seed_weight_g.and_then(|weight| seeds_at(rate, weight).ok());
    (rate.is_finite() && deviation.is_finite()).then_some(Achieved { rate, deviation, uncertainty, seeds_per_m2 })
}
