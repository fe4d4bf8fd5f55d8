//! Statistics of few numbers at the edges of what they can say. Published data sets are held in `tests/published`.

use sowmark_core::statistics::{chi_squared_quantile, coefficient_of_variation_interval};

/// Three runs that differ by two fifths say so little that the interval has no upper end: nothing is shown, not an infinity.
#[test]
fn an_interval_without_an_upper_end_is_none() {
    assert_eq!(coefficient_of_variation_interval(0.4, 3, 0.95), None);
    assert_eq!(coefficient_of_variation_interval(0.0, 3, 0.95), None);
    assert_eq!(coefficient_of_variation_interval(f64::NAN, 3, 0.95), None);
    assert_eq!(coefficient_of_variation_interval(0.1, 1, 0.95), None);
}

#[test]
fn quantiles_outside_their_arguments_are_none() {
    assert_eq!(chi_squared_quantile(0.95, f64::NAN), None);
    assert_eq!(chi_squared_quantile(1.0, 3.0), None);
}
