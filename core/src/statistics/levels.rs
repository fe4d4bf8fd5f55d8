//! Scatter on two levels: readings within a group, and the groups against each other.

use super::{finite, mean, standard_deviation};
use crate::uncertainty::{Component, pool};

/// How readings scatter within groups of equal size, and the groups among themselves.
///
/// Of a catch, the groups are repeats and the readings their runs: runs that differ alike in every repeat widen the scatter
/// within, a drive that slips once widens the scatter of the means. In the unit of the readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoLevel {
    /// Mean of all readings.
    pub mean: f64,
    /// Standard deviation of one reading within its group, pooled over the groups, with its degrees of freedom.
    pub within: Component,
    /// Standard deviation of the groups' means, with its degrees of freedom: what one sees.
    pub of_means: Component,
    /// Standard deviation of the groups beyond what readings within them explain; zero where they explain it all.
    pub between: f64,
    /// Scatter of the means over what readings within groups let expect of it, squared: about 1 where groups do not differ.
    pub f_ratio: f64,
    /// Of the mean of all readings, from the scatter of the means: right whether or not the groups differ.
    pub of_mean: Component,
}

/// Analysis of variance of groups of equal size (GUM H.5), J groups of K readings:
///
/// `s_w² = mean of the groups' s²` with J (K - 1) degrees of freedom; `s_m` = standard deviation of the means with J - 1;
/// `F = K s_m² / s_w²`; `s_b² = s_m² - s_w² / K`, at least zero; `u(mean) = s_m / sqrt(J)` with J - 1.
///
/// `None` of fewer than two groups, of groups of fewer than two readings or of unequal size, and where no reading differs
/// from its group's mean.
///
/// ```
/// use sowmark_core::statistics::two_level;
///
/// // Two repeats of two runs: the runs differ by 2 g, the repeats by 10 g.
/// let scatter = two_level(&[&[99.0, 101.0], &[109.0, 111.0]]).unwrap();
/// assert!((scatter.mean - 105.0).abs() < 1e-12 && (scatter.f_ratio - 50.0).abs() < 1e-12);
/// assert_eq!(scatter.within.degrees_of_freedom, Some(2.0));
/// assert!((scatter.between - 7.0).abs() < 1e-12); // sqrt(50 - 2 / 2)
/// ```
pub fn two_level(groups: &[&[f64]]) -> Option<TwoLevel> {
    let size = groups.first()?.len();
    if groups.iter().any(|group| group.len() != size) {
        return None;
    }
    let (count, readings) = (groups.len() as f64, size as f64);
    let means = groups.iter().map(|group| mean(group)).collect::<Option<Vec<_>>>()?;
    let own = groups.iter().map(|group| standard_deviation(group).map(|s| (s, readings - 1.0)));
    let within = pool(&own.collect::<Option<Vec<_>>>()?)?;
    let seen = standard_deviation(&means)?;
    let explained = within.standard_uncertainty.powi(2) / readings;
    Some(TwoLevel {
        mean: mean(&means)?,
        within,
        of_means: Component::estimated(seen, count - 1.0),
        between: (seen * seen - explained).max(0.0).sqrt(),
        f_ratio: finite(seen * seen / explained)?,
        of_mean: Component::mean_of(&means)?,
    })
}
