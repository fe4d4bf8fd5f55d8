//! Uncertainty as the GUM has it (JCGM 100:2008): components with their degrees of freedom, combined in quadrature.
//!
//! The functions here are general; the budget of a calibration ([`budget`]) goes through them, and so do the GUM's own
//! worked examples in the tests. Nothing is rounded on the way: rounded inputs spoil the effective degrees of freedom.

pub mod budget;

use serde::{Deserialize, Serialize};

use crate::statistics::{mean, ratio_of_sums, standard_deviation, student_quantile};

/// One contribution to an uncertainty, or several combined: a standard uncertainty and how well it is known.
///
/// ```
/// use sowmark_core::uncertainty::{Component, combine};
///
/// // A net mass from two readings of a scale that steps by 5 g (GUM F.2.2.1): 5 g / sqrt(6)
/// let reading = Component::resolution(5.0);
/// let net = combine(&[reading, reading]);
/// assert!((net.standard_uncertainty - 2.041_241_452_319_315).abs() < 1e-12);
/// assert_eq!(net.degrees_of_freedom, None);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Component {
    /// In the unit of the result, or relative; all components of one sum alike.
    pub standard_uncertainty: f64,
    /// `None` for infinitely many: a bound that is known, not estimated from few readings.
    pub degrees_of_freedom: Option<f64>,
}

impl Component {
    /// A known standard uncertainty.
    pub const fn known(standard_uncertainty: f64) -> Self {
        Self { standard_uncertainty, degrees_of_freedom: None }
    }

    /// An estimated one.
    pub const fn estimated(standard_uncertainty: f64, degrees_of_freedom: f64) -> Self {
        Self { standard_uncertainty, degrees_of_freedom: Some(degrees_of_freedom) }
    }

    /// Anything within ± `half_width` is as likely (GUM 4.3.7): half width / sqrt(3).
    pub fn rectangular(half_width: f64) -> Self {
        Self::known(half_width / 3_f64.sqrt())
    }

    /// The middle is likelier, in a straight line to ± `half_width` (GUM 4.3.9): half width / sqrt(6).
    pub fn triangular(half_width: f64) -> Self {
        Self::known(half_width / 6_f64.sqrt())
    }

    /// Swinging to and fro between ± `half_width`: half width / sqrt(2).
    pub fn arcsine(half_width: f64) -> Self {
        Self::known(half_width / 2_f64.sqrt())
    }

    /// A display that steps by `step` (GUM F.2.2.1): step / sqrt(12).
    pub fn resolution(step: f64) -> Self {
        Self::known(step / 12_f64.sqrt())
    }

    /// The mean of repeated readings (GUM 4.2.3): s / sqrt(n) with n - 1 degrees of freedom. `None` of fewer than two.
    pub fn mean_of(readings: &[f64]) -> Option<Self> {
        let count = readings.len() as f64;
        standard_deviation(readings).map(|s| Self::estimated(s / count.sqrt(), count - 1.0))
    }

    /// Seen through a sensitivity coefficient.
    #[must_use]
    pub fn times(self, sensitivity: f64) -> Self {
        Self { standard_uncertainty: self.standard_uncertainty * sensitivity.abs(), ..self }
    }

    /// How many standard uncertainties to either side hold `level` of all (0.95 for 95 %): Student's t at the degrees of
    /// freedom, not rounded. `None` for a level outside 0 to 1 or less than half a degree of freedom.
    pub fn coverage_factor(self, level: f64) -> Option<f64> {
        student_quantile(f64::midpoint(1.0, level), self.degrees_of_freedom)
    }

    /// The half width that holds `level` of all: coverage factor times standard uncertainty.
    pub fn expanded(self, level: f64) -> Option<f64> {
        self.coverage_factor(level).map(|factor| factor * self.standard_uncertainty)
    }
}

/// Independent components in quadrature (GUM 5.1.2), with the effective degrees of freedom of Welch and Satterthwaite
/// (GUM G.4.1): `nu = u_c⁴ / sum(u_i⁴ / nu_i)`. Infinitely many when nothing estimated contributes.
pub fn combine(components: &[Component]) -> Component {
    let total = components.iter().map(|part| part.standard_uncertainty.powi(2)).sum::<f64>().sqrt();
    if total <= 0.0 {
        return Component::known(0.0);
    }
    // Shares instead of fourth powers, which for relative uncertainties would fall to the edge of what a float holds.
    let inverse = components
        .iter()
        .filter_map(|part| part.degrees_of_freedom.map(|nu| (part.standard_uncertainty / total).powi(4) / nu))
        .sum::<f64>();
    let degrees_of_freedom = Some(inverse.recip()).filter(|nu| nu.is_finite());
    Component { standard_uncertainty: total, degrees_of_freedom }
}

/// Standard deviations with their degrees of freedom pooled to one (GUM 4.2.4): sqrt(sum(nu s²) / sum(nu)).
/// `None` where there are no degrees of freedom at all: nothing estimated nothing.
///
/// ```
/// use sowmark_core::uncertainty::pool;
///
/// let known = (1.5, 10.0);
/// let two_repeats = (0.2, 1.0);
/// assert_eq!(pool(&[known, two_repeats]).and_then(|pooled| pooled.degrees_of_freedom), Some(11.0));
/// assert_eq!(pool(&[(1.5, 0.0)]), None);
/// ```
pub fn pool(deviations: &[(f64, f64)]) -> Option<Component> {
    let degrees = deviations.iter().map(|(_, nu)| nu).sum::<f64>();
    let squares = deviations.iter().map(|(s, nu)| nu * s * s).sum::<f64>();
    (degrees > 0.0).then(|| Component::estimated((squares / degrees).sqrt(), degrees))
}

/// The ratio of the means of readings taken in pairs, with its standard uncertainty from their scatter, n - 1 degrees of
/// freedom (GUM H.2). What the two share, a longer catch being a heavier one, is no uncertainty of the ratio.
///
/// `R = sum(a) / sum(b)`; `u = s / (sqrt(n) mean(b))`, s the standard deviation of `a - R b`. That is the law of propagation
/// with the correlation of the two means (GUM 5.2.2), in a form that loses no digits to their cancelling. Of net masses and
/// revolutions it is the meter factor of unequal repeats.
///
/// `None` of lists of different lengths, of fewer than two pairs, and over a sum that is not above zero.
///
/// ```
/// use sowmark_core::uncertainty::ratio_of_means;
///
/// // Four catches, g, of 20, 40, 20 and 30 revolutions
/// let (factor, u) = ratio_of_means(&[1275.0, 2555.0, 1265.0, 1930.0], &[20.0, 40.0, 20.0, 30.0]).unwrap();
/// assert!((factor - 7025.0 / 110.0).abs() < 1e-12);
/// assert!((u.standard_uncertainty - 0.197_657_202_365_311_56).abs() < 1e-12);
/// ```
pub fn ratio_of_means(above: &[f64], below: &[f64]) -> Option<(f64, Component)> {
    if above.len() != below.len() {
        return None;
    }
    let ratio = ratio_of_sums(above.iter().copied(), below.iter().copied())?;
    let residuals: Vec<_> = above.iter().zip(below).map(|(a, b)| a - ratio * b).collect();
    let of_residuals = Component::mean_of(&residuals)?;
    Some((ratio, of_residuals.times(mean(below)?.recip())))
}
