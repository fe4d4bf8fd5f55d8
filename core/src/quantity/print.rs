//! Computed values on their way to a person: in their unit, with as many digits as are known, never with an exponent.

use super::{Dimension, Unit};

/// An SI value in another unit.
///
/// ```
/// use sowmark_core::quantity::{from_si, unit};
///
/// assert_eq!(from_si(2.2352, unit::MPH), 5.0);
/// ```
pub fn from_si<D: Dimension>(si: f64, unit: Unit<D>) -> f64 {
    si * unit.factor().inverse().to_f64()
}

/// An SI value in another unit as text with that many significant digits, without the unit's name.
///
/// ```
/// use sowmark_core::quantity::{print, unit};
///
/// assert_eq!(print(0.000_451_5, unit::G_PER_REV, 4), "0.4515");
/// assert_eq!(print(0.014, unit::KG_PER_HA, 2), "140");
/// ```
pub fn print<D: Dimension>(si: f64, unit: Unit<D>, significant_digits: usize) -> String {
    print_number(from_si(si, unit), significant_digits)
}

/// An SI value in another unit as text, to the place in which a step of it stands, without the unit's name: a difference or a
/// sum of readings, which is known to the step of the finest. At most 12 places.
///
/// ```
/// use sowmark_core::quantity::{print_to_step, unit};
///
/// assert_eq!(print_to_step(12.345, unit::KG, 0.005), "12.345");
/// assert_eq!(print_to_step(1.79, unit::KG, 0.001), "1.790");
/// // A gram is 0.0022 lb: three places show it.
/// assert_eq!(print_to_step(1.79, unit::LB, 0.001), "3.946");
/// ```
pub fn print_to_step<D: Dimension>(si: f64, unit: Unit<D>, step: f64) -> String {
    let value = from_si(si, unit);
    // A step of exactly 0.001 is computed with an error in its last bits: it needs three places and not four.
    let places = (-from_si(step, unit).log10() - 1e-9).ceil();
    // Clamped before the cast, so nothing is lost by it; what is no number needs no place.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let places = if places.is_finite() { places.clamp(0.0, 12.0) as usize } else { 0 };
    if value.is_finite() { format!("{value:.places$}") } else { print_number(value, 1) }
}

/// A number as text with that many significant digits (at least one, at most 17), a point as decimal sign and no
/// exponent. What is not a number is a dash: no caller has one to show, and none should ever read "NaN".
///
/// ```
/// use sowmark_core::quantity::print_number;
///
/// assert_eq!(print_number(0.012_345, 3), "0.0123");
/// assert_eq!(print_number(9.996, 3), "10.0");
/// assert_eq!(print_number(123_456.0, 2), "123456");
/// assert_eq!(print_number(-0.000_04, 1), "-0.00004");
/// ```
pub fn print_number(value: f64, significant_digits: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    if value == 0.0 {
        return "0".to_owned();
    }
    // Rounding may carry into a new place (9.996 to 10.0), so ask the rounded form for its exponent.
    let after_point = significant_digits.clamp(1, 17) - 1;
    let scientific = format!("{value:.after_point$e}");
    let exponent = scientific.rsplit('e').next().and_then(|e| e.parse::<i32>().ok()).unwrap_or(0);
    let wanted = i32::try_from(after_point).unwrap_or(0) - exponent;
    let places = usize::try_from(wanted.max(0)).unwrap_or(0);
    format!("{value:.places$}")
}

/// How many significant digits of a value mean something, given its relative uncertainty in percent: the value ends
/// where the second digit of its uncertainty ends (GUM 7.2.6). Between 2 and 8; 6 where the uncertainty is not known.
///
/// ```
/// use sowmark_core::quantity::significant_digits_for;
///
/// // 63.9375 with 1.26 % is 63.94 ± 0.81
/// assert_eq!(significant_digits_for(63.9375, 1.26), 4);
/// ```
pub fn significant_digits_for(value: f64, relative_uncertainty_percent: f64) -> usize {
    let uncertainty = value.abs() * relative_uncertainty_percent / 100.0;
    if !uncertainty.is_finite() || uncertainty <= 0.0 {
        return 6;
    }
    let digits = value.abs().log10().floor() - uncertainty.log10().floor() + 2.0;
    // Clamped before the cast, so nothing is lost by it.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let digits = digits.clamp(2.0, 8.0) as usize;
    digits
}
