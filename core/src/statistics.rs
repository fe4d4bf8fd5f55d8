//! Plain statistics of few numbers: means, scatter, and how little few numbers say.
//!
//! Every standard deviation here divides by n - 1. What cannot be computed is `None`, never a NaN. Nothing here knows of
//! seed; [`crate::factor`] and [`crate::verdict`] do.

mod levels;
mod quantile;

pub use levels::{TwoLevel, two_level};
pub use quantile::{chi_squared_quantile, normal_quantile, student_quantile};

/// The arithmetic mean; `None` of nothing.
///
/// Two passes: the second adds what rounding lost in the first (checked against the NIST StRD sets).
pub fn mean(values: &[f64]) -> Option<f64> {
    if values.is_empty() {
        return None;
    }
    let count = values.len() as f64;
    let first = values.iter().sum::<f64>() / count;
    let lost = values.iter().map(|value| value - first).sum::<f64>() / count;
    finite(first + lost)
}

/// The standard deviation with n - 1; `None` of fewer than two values.
///
/// The sum of squares about the mean, less the square of what the mean itself was off. The textbook one-pass formula
/// is not used: it yields negative variances for readings far from zero.
///
/// ```
/// use sowmark_core::statistics::standard_deviation;
///
/// assert_eq!(standard_deviation(&[10_000_001.0, 10_000_003.0, 10_000_002.0]), Some(1.0)); // NIST StRD NumAcc1
/// assert_eq!(standard_deviation(&[7.0]), None);
/// ```
pub fn standard_deviation(values: &[f64]) -> Option<f64> {
    if values.len() < 2 {
        return None;
    }
    let middle = mean(values)?;
    let count = values.len() as f64;
    let squares = values.iter().map(|value| (value - middle).powi(2)).sum::<f64>();
    let off = values.iter().map(|value| value - middle).sum::<f64>();
    finite(((squares - off * off / count).max(0.0) / (count - 1.0)).sqrt())
}

/// Standard deviation (n - 1) over mean, as a ratio; `None` of fewer than two values or about a mean that is not above zero.
pub fn coefficient_of_variation(values: &[f64]) -> Option<f64> {
    over(standard_deviation(values)?, mean(values)?)
}

/// (largest - smallest) / mean, as a ratio; `None` of fewer than two values or about a mean that is not above zero.
pub fn relative_range(values: &[f64]) -> Option<f64> {
    if values.len() < 2 {
        return None;
    }
    let largest = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let smallest = values.iter().copied().fold(f64::INFINITY, f64::min);
    over(largest - smallest, mean(values)?)
}

/// Sum over sum: the estimate of a ratio that gives every revolution the same say. `None` over nothing.
///
/// It is right when the scatter grows with the revolutions (a steadily noisy flow); the mean of the ratios would let a
/// short catch speak as loudly as a long one.
pub fn ratio_of_sums(
    numerators: impl IntoIterator<Item = f64>,
    denominators: impl IntoIterator<Item = f64>,
) -> Option<f64> {
    over(numerators.into_iter().sum(), denominators.into_iter().sum())
}

/// How far two readings taken together go up and down together (Pearson's r, GUM 5.2.2): from -1 to 1. `None` of lists of
/// different lengths, of fewer than two pairs, and where one of the two does not vary.
///
/// ```
/// use sowmark_core::statistics::correlation;
///
/// assert_eq!(correlation(&[1.0, 2.0, 3.0], &[30.0, 20.0, 10.0]), Some(-1.0));
/// assert_eq!(correlation(&[1.0, 2.0, 3.0], &[5.0, 5.0, 5.0]), None);
/// ```
pub fn correlation(left: &[f64], right: &[f64]) -> Option<f64> {
    let (middle_left, middle_right) = (mean(left)?, mean(right)?);
    let scale = standard_deviation(left)? * standard_deviation(right)?;
    if left.len() != right.len() {
        return None;
    }
    let together = left.iter().zip(right).map(|(x, y)| (x - middle_left) * (y - middle_right)).sum::<f64>();
    finite(together / (left.len() as f64 - 1.0) / scale).map(|r| r.clamp(-1.0, 1.0))
}

/// The interval in which the true coefficient of variation lies with that probability, given the one seen in `count`
/// values: Vangel's modified McKay interval. All as ratios. `None` for fewer than two values, for a scatter of zero,
/// and where the scatter is so wide that the interval has no upper end.
///
/// With v = n - 1, u1 and u2 the chi-squared quantiles at 1 - a/2 and a/2:
/// `K / sqrt(((u + 2) / n - 1) K² + u / v)`, lower with u1, upper with u2.
///
/// ```
/// use sowmark_core::statistics::coefficient_of_variation_interval;
///
/// // Three bags that vary by 3 % could come from a meter that varies by 1.6 % or by 19 %.
/// let (low, high) = coefficient_of_variation_interval(0.03, 3, 0.95).unwrap();
/// assert!((low - 0.0156).abs() < 1e-4 && (high - 0.1896).abs() < 1e-4);
/// ```
pub fn coefficient_of_variation_interval(seen: f64, count: usize, level: f64) -> Option<(f64, f64)> {
    if seen <= 0.0 {
        return None;
    }
    let n = count as f64;
    let degrees = n - 1.0;
    let tail = (1.0 - level) / 2.0;
    let end = |u: f64| finite(seen / (((u + 2.0) / n - 1.0) * seen * seen + u / degrees).sqrt());
    Some((end(chi_squared_quantile(1.0 - tail, degrees)?)?, end(chi_squared_quantile(tail, degrees)?)?))
}

/// Whether a scatter is no more than rounding explains: `sum of (x - mean)² / variance of the rounding` below the
/// chi-squared quantile 0.95 at n - 1. `None` of fewer than two values or without any rounding.
///
/// For net masses read with step d the rounding's variance is d² / 6: two readings, each d² / 12.
pub fn scatter_is_rounding(values: &[f64], rounding_variance: f64) -> Option<bool> {
    let degrees = values.len() as f64 - 1.0;
    let scatter = standard_deviation(values)?;
    let statistic = over(degrees * scatter * scatter, rounding_variance)?;
    Some(statistic < chi_squared_quantile(0.95, degrees)?)
}

/// A quotient over what is above zero; over zero there is none that is finite.
fn over(above: f64, below: f64) -> Option<f64> {
    if below.is_sign_positive() { finite(above / below) } else { None }
}

fn finite(value: f64) -> Option<f64> {
    value.is_finite().then_some(value)
}
