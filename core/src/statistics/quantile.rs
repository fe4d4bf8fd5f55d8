//! Quantiles of the normal, Student's t and the chi-squared distribution, total over hostile arguments.

use statrs::{
    distribution::{ChiSquared, Continuous, ContinuousCDF},
    function::{beta::beta_reg, erf::erfc_inv, gamma::ln_gamma},
};

/// The value below which a standard normal number lies with probability `p`; `None` unless 0 < p < 1.
pub fn normal_quantile(p: f64) -> Option<f64> {
    inside(p).then(|| -std::f64::consts::SQRT_2 * erfc_inv(2.0 * p))
}

/// The value below which a number of Student's t distribution lies with probability `p`; `degrees_of_freedom` may be
/// any real number from 0.5 (a pooled estimate is seldom whole), `None` means infinitely many. `None` for arguments
/// outside.
///
/// ```
/// use sowmark_core::statistics::student_quantile;
///
/// let at_95_percent = |degrees| student_quantile(0.975, degrees).unwrap();
/// assert!((at_95_percent(Some(9.0)) - 2.262_157).abs() < 5e-7); // GUM table G.2
/// assert!((at_95_percent(None) - 1.959_964).abs() < 5e-7);
/// ```
pub fn student_quantile(p: f64, degrees_of_freedom: Option<f64>) -> Option<f64> {
    const SERIES_FROM: f64 = 1_000.0;
    let normal = normal_quantile(p)?;
    match degrees_of_freedom {
        None => Some(normal),
        Some(nu) if nu.is_nan() || nu < 0.5 => None,
        Some(nu) if nu >= SERIES_FROM => Some(series(normal, nu)),
        Some(nu) if p < 0.5 => Some(-upper(p, nu)),
        Some(nu) => Some(upper(1.0 - p, nu)),
    }
}

/// The expansion about the normal quantile (Abramowitz and Stegun 26.7.5); from a thousand degrees of freedom on it
/// is exact to the last digits, where the incomplete beta function loses some.
fn series(z: f64, nu: f64) -> f64 {
    let square = z * z;
    let g1 = z * (square + 1.0) / 4.0;
    let g2 = z * ((5.0 * square + 16.0) * square + 3.0) / 96.0;
    let g3 = z * (((3.0 * square + 19.0) * square + 17.0) * square - 15.0) / 384.0;
    let g4 = z * ((((79.0 * square + 776.0) * square + 1_482.0) * square - 1_920.0) * square - 945.0) / 92_160.0;
    z + (g1 + (g2 + (g3 + g4 / nu) / nu) / nu) / nu
}

/// The value above which the share `tail` lies, at most a half: Newton's steps inside a bracket that only ever shrinks, so
/// that it ends for every input. The library's own inverse is not used, because its loop has no bound.
///
/// Near the middle the share between -t and t is held against its goal, farther out the share beyond: whichever of the two
/// is the smaller, since the larger has lost the digits that matter.
fn upper(tail: f64, nu: f64) -> f64 {
    let beyond = 2.0 * tail;
    let within = 2.0 * (0.5 - tail);
    let excess_at = |t: f64| {
        let square = t * t;
        if beyond > 0.5 {
            within - beta_reg(0.5, nu / 2.0, (square / (nu + square)).clamp(0.0, 1.0))
        } else {
            beta_reg(nu / 2.0, 0.5, (nu / (nu + square)).clamp(0.0, 1.0)) - beyond
        }
    };
    let log_scale = ln_gamma(f64::midpoint(nu, 1.0)) - ln_gamma(nu / 2.0) - 0.5 * (nu * std::f64::consts::PI).ln();
    let density = |t: f64| (log_scale - f64::midpoint(nu, 1.0) * (t * t / nu).ln_1p()).exp();
    let (mut low, mut high) = (0.0, 1.0);
    while excess_at(high) > 0.0 && high < 1e150 {
        low = high;
        high *= 2.0;
    }
    let mut t = f64::midpoint(low, high);
    for _ in 0..200 {
        let excess = excess_at(t);
        if excess > 0.0 {
            low = t;
        } else {
            high = t;
        }
        let newton = t + excess / (2.0 * density(t));
        let next = if newton > low && newton < high { newton } else { f64::midpoint(low, high) };
        if (next - t).abs() <= 4.0 * f64::EPSILON * t {
            return next;
        }
        t = next;
    }
    t
}

/// The value below which a chi-squared number lies with probability `p`; `None` unless 0 < p < 1 and there is a
/// positive, finite number of degrees of freedom.
pub fn chi_squared_quantile(p: f64, degrees_of_freedom: f64) -> Option<f64> {
    if !inside(p) || !(0.5..=1e6).contains(&degrees_of_freedom) {
        return None;
    }
    let chi = ChiSquared::new(degrees_of_freedom).ok()?;
    // The library stops ten digits in, in the far tails earlier. Newton's steps along the logarithm give the rest: they
    // stay above zero, and converge where the density has no bound at zero.
    let mut found = Some(chi.inverse_cdf(p)).filter(|start| *start > 0.0).unwrap_or(f64::MIN_POSITIVE);
    for _ in 0..50 {
        let step = ((chi.cdf(found) - p) / (chi.pdf(found) * found)).clamp(-1.0, 1.0);
        found *= (-step).exp();
        if step.abs() <= 4.0 * f64::EPSILON {
            break;
        }
    }
    (found.is_finite() && found > 0.0).then_some(found)
}

fn inside(p: f64) -> bool {
    p > 0.0 && p < 1.0
}
