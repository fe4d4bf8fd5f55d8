//! The least catch and the fewest revolutions for a wanted relative standard uncertainty (metrology: the real reason behind
//! any "minimum catch" rule). All relative uncertainties are ratios, not percent; `weighings` is catches times repeats.

/// The least net mass (kg) of each catch so that the scale's step alone stays within `wanted`: `d / (w sqrt(6 n))`, gross and
/// tare of each catch read off in steps of `step_kg`. `None` where nothing sensible was asked.
///
/// ```
/// use sowmark_core::advice::minimum_catch_kg;
///
/// // 5 g steps, 0.25 %, four weighings
/// assert!((minimum_catch_kg(0.005, 0.0025, 4).unwrap() - 0.408_248_290_463_863).abs() < 1e-12);
/// ```
pub fn minimum_catch_kg(step_kg: f64, wanted: f64, weighings: u32) -> Option<f64> {
    minimum_catch_with_scatter_kg(step_kg, wanted, weighings, 0.0)
}

/// The same with one tare weighed once and used for all catches: `d / (w sqrt(12)) sqrt(1 + 1 / n)`. More catches hardly help,
/// since the tare's rounding is common to them.
pub fn minimum_catch_shared_tare_kg(step_kg: f64, wanted: f64, weighings: u32) -> Option<f64> {
    let shared = 1.0 + f64::from(weighings).recip();
    possible(step_kg / (wanted * 12_f64.sqrt()) * shared.sqrt(), wanted)
}

/// The least net mass (kg) of each catch where the catches also scatter by `scatter` (relative standard deviation):
/// `d / sqrt(6 (n w² - c²))`. `None` where the scatter alone is more than wanted, which no scale can mend.
pub fn minimum_catch_with_scatter_kg(step_kg: f64, wanted: f64, weighings: u32, scatter: f64) -> Option<f64> {
    let left = f64::from(weighings) * wanted * wanted - scatter * scatter;
    possible(step_kg / (6.0 * left).sqrt(), wanted)
}

/// The fewest revolutions of each repeat so that counting in steps of `step`, at the start and at the end, stays within
/// `wanted`: `delta / (w sqrt(6 n))`.
pub fn minimum_revolutions(step: f64, wanted: f64, repeats: u32) -> Option<f64> {
    possible(step / (wanted * (6.0 * f64::from(repeats)).sqrt()), wanted)
}

fn possible(found: f64, wanted: f64) -> Option<f64> {
    // Nothing wanted and nothing counted make it infinite or no number.
    (wanted.is_sign_positive() && found.is_finite() && found >= 0.0).then_some(found)
}
