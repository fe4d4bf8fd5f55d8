//! Quantiles of the normal, Student's t and the chi-squared distribution, total over hostile arguments.

use statrs::{
    distribution::{ChiSquared, ContinuousCDF},
    function::{beta::beta_reg, erf::erfc_inv},
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
        Some(nu) => Some(upper(p.min(1.0 - p), nu)?.copysign(p - 0.5)),
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

/// The value above which the share `tail` lies, at most a half.
///
/// Near the middle the share between -t and t is held against its goal, farther out the share beyond: whichever of the two
/// is the smaller, since the larger has lost the digits that matter.
fn upper(tail: f64, nu: f64) -> Option<f64> {
    let beyond = 2.0 * tail;
    let within = 2.0 * (0.5 - tail);
    first_where(|t| {
        let square = t * t;
        if beyond > 0.5 {
            beta_reg(0.5, nu / 2.0, (square / (nu + square)).clamp(0.0, 1.0)) >= within
        } else {
            beta_reg(nu / 2.0, 0.5, (nu / (nu + square)).clamp(0.0, 1.0)) <= beyond
        }
    })
}

/// The least float, from zero, for which `reached` holds as for all above it; `None` where none does. The floats
/// themselves are halved, 63 times, so that it ends for every input, to the last digit, and needs no density. The
/// library's own inverses are not used: one has no bound on its loop, one stops ten digits in.
fn first_where(reached: impl Fn(f64) -> bool) -> Option<f64> {
    let (mut low, mut high) = (0, f64::INFINITY.to_bits());
    while low < high {
        let middle = u64::midpoint(low, high);
        if reached(f64::from_bits(middle)) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    Some(f64::from_bits(low)).filter(|found| found.is_finite())
}

/// The value below which a chi-squared number lies with probability `p`; `None` unless 0 < p < 1 and there is a
/// positive, finite number of degrees of freedom.
pub fn chi_squared_quantile(p: f64, degrees_of_freedom: f64) -> Option<f64> {
    if !inside(p) || !(0.5..=1e6).contains(&degrees_of_freedom) {
        return None;
    }
    let chi = ChiSquared::new(degrees_of_freedom).ok()?;
    first_where(|value| chi.cdf(value) >= p)
}

fn inside(p: f64) -> bool {
    p > 0.0 && p < 1.0
}
