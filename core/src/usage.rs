//! Where the seed went: what of a lot should be left, what was sown of what was put into a tank, and what a job came to.
//!
//! Every mass here was weighed by people or counted in bags, except where a job knows no better than the machine's own total
//! ([`SeedUsedBasis::MachineTotal`]): that is revolutions times the factor it was given. It is told apart throughout, and
//! its uncertainty is not known, since it is the factor that is in question.
//!
//! Void records are not passed in. Records may come in any order: what depends on the order in time looks at their moments.

mod achieved;
mod lot;
mod tank;

pub use achieved::{Achieved, JobMasses, achieved};
pub use lot::{Count, Flow, LotBalance, Moved, Period};
pub use tank::{TankFlow, TankSpan, tank_spans};

use crate::{policy::Policy, readiness::SeedUsedBasis};

/// Masses of the same kind: their sum, and how far it may be off.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Total {
    /// Their sum, kg.
    pub kg: f64,
    /// The square of the sum's standard uncertainty, kg²: each was weighed by itself, so that their squares add.
    pub variance: f64,
}

impl Total {
    fn add(&mut self, kg: f64, standard_uncertainty_kg: f64) {
        self.kg += kg;
        self.variance += standard_uncertainty_kg.powi(2);
    }

    /// The sum's standard uncertainty, kg.
    pub fn uncertainty_kg(self) -> f64 {
        self.variance.sqrt()
    }
}

impl std::ops::Add for Total {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self { kg: self.kg + other.kg, variance: self.variance + other.variance }
    }
}

impl std::ops::Sub for Total {
    type Output = Self;

    /// What one is more than the other; both uncertainties stand against it.
    fn sub(self, other: Self) -> Self {
        Self { kg: self.kg - other.kg, variance: self.variance + other.variance }
    }
}

/// The seed of jobs, by how it was known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sown {
    /// Weighed in and out.
    pub weighed: Total,
    /// Bags counted.
    pub bags: Total,
    /// As the machine reported it; of unknown uncertainty.
    pub machine_total: Total,
}

impl Sown {
    /// With a job's seed, kg.
    #[must_use]
    pub fn and(mut self, kg: f64, basis: SeedUsedBasis, policy: &Policy) -> Self {
        let uncertainty = mass_uncertainty_kg(basis, policy).unwrap_or(0.0);
        match basis {
            SeedUsedBasis::Weighed => self.weighed.add(kg, uncertainty),
            SeedUsedBasis::Bags => self.bags.add(kg, uncertainty),
            SeedUsedBasis::MachineTotal => self.machine_total.add(kg, uncertainty),
        }
        self
    }

    /// All of it.
    pub fn all(&self) -> Total {
        self.weighed + self.bags + self.machine_total
    }
}

/// The standard uncertainty (kg) of the seed of a job: the policy's for a weighed balance, one bag for bags; `None` for a
/// machine total.
pub fn mass_uncertainty_kg(basis: SeedUsedBasis, policy: &Policy) -> Option<f64> {
    match basis {
        SeedUsedBasis::Weighed => Some(policy.weighed_balance_uncertainty_kg),
        SeedUsedBasis::Bags => Some(policy.bag_mass_kg),
        SeedUsedBasis::MachineTotal => None,
    }
}
