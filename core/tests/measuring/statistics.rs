//! Statistics of few numbers at the edges of what they can say. Published data sets are held in `tests/published`.

use sowmark_core::{
    statistics::{
        chi_squared_quantile, coefficient_of_variation, coefficient_of_variation_interval, correlation, mean,
        ratio_of_sums, relative_range, scatter_is_rounding, standard_deviation, two_level,
    },
    uncertainty::{Component, combine, pool, ratio_of_means},
};

use crate::sheets::close;

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

#[test]
fn few_numbers_say_only_so_much() {
    assert_eq!((mean(&[]), mean(&[7.0])), (None, Some(7.0)));
    assert_eq!((standard_deviation(&[]), standard_deviation(&[7.0])), (None, None));
    assert_eq!(standard_deviation(&[7.0, 7.0]), Some(0.0));
    assert_eq!((relative_range(&[7.0]), relative_range(&[1.0, 3.0])), (None, Some(1.0)));
    assert_eq!(mean(&[f64::MAX, f64::MAX]), None, "no infinity");
    assert_eq!(standard_deviation(&[1e200, -1e200]), None);
}

/// The mean of the two lies between two floats: what it is off by must be taken out of the squares.
#[test]
fn a_mean_that_no_float_holds() {
    assert_eq!(standard_deviation(&[1e16, 1e16 + 2.0]), Some(2_f64.sqrt()));
}

#[test]
fn a_share_needs_a_mean_above_zero() {
    for values in [[-1.0, 1.0], [0.0, 0.0], [-3.0, -1.0], [f64::NAN, 1.0]] {
        assert_eq!(coefficient_of_variation(&values), None, "{values:?}");
        assert_eq!(relative_range(&values), None, "{values:?}");
    }
    assert_eq!(coefficient_of_variation(&[2.0, 2.0]), Some(0.0));
    assert_eq!(ratio_of_sums([1.0, 2.0], [2.0, 4.0]), Some(0.5));
    assert_eq!(ratio_of_sums([1.0], [0.0]), None);
    assert_eq!(ratio_of_sums([1.0], [-1.0]), None);
    assert_eq!(ratio_of_sums([], []), None);
}

/// Three values of which X is 5.5 and 6.5 about the limit of 5.99; and at the limit itself, which is no longer rounding.
#[test]
fn scatter_is_rounding_below_its_limit() {
    // Mean 0, sum of squares 2: X is 2 over the variance.
    let values = [-1.0, 0.0, 1.0];
    assert_eq!(scatter_is_rounding(&values, 2.0 / 5.5), Some(true));
    assert_eq!(scatter_is_rounding(&values, 2.0 / 6.5), Some(false));
    let limit = chi_squared_quantile(0.95, 2.0).unwrap();
    let at_limit = (1..1_000).map(|i| 2.0 / limit * (1.0 + f64::EPSILON * f64::from(i - 500)));
    let exact: Vec<_> = at_limit.filter(|variance| (2.0 / variance).to_bits() == limit.to_bits()).collect();
    assert!(!exact.is_empty());
    for variance in exact {
        assert_eq!(scatter_is_rounding(&values, variance), Some(false));
    }
    assert_eq!(scatter_is_rounding(&values, 0.0), None, "no rounding");
    assert_eq!(scatter_is_rounding(&values, -1.0), None);
    assert_eq!(scatter_is_rounding(&values, f64::NAN), None);
    assert_eq!(scatter_is_rounding(&[1.0], 1.0), None);
    assert_eq!(scatter_is_rounding(&[1.0, 1.0], 1.0), Some(true));
    assert_eq!(scatter_is_rounding(&[1.0, 1.0], 0.0), None);
}

#[test]
fn what_goes_together() {
    let up = [1.0, 2.0, 4.0];
    close(correlation(&up, &[10.0, 20.0, 40.0]).unwrap(), 1.0, 1e-15);
    close(correlation(&up, &[-1.0, -2.0, -4.0]).unwrap(), -1.0, 1e-15);
    // By hand: middle 7/3 and 2; products -4/3 x -1, -1/3 x 1, 5/3 x 0 sum to 1; squares 14/3 and 2.
    close(correlation(&up, &[1.0, 3.0, 2.0]).unwrap(), 1.0 / (14.0_f64 / 3.0 * 2.0).sqrt(), 1e-14);
    assert_eq!(correlation(&up, &[5.0; 3]), None, "one of them does not vary");
    assert_eq!(correlation(&up, &[1.0, 2.0]), None, "not in pairs");
    assert_eq!(correlation(&[1.0], &[1.0]), None);
    assert_eq!(correlation(&[], &[]), None);
}

#[test]
fn scatter_on_two_levels() {
    let scatter = two_level(&[&[99.0, 101.0], &[109.0, 111.0]]).unwrap();
    close(scatter.mean, 105.0, 1e-15);
    close(scatter.within.standard_uncertainty, 2_f64.sqrt(), 1e-14);
    close(scatter.of_means.standard_uncertainty, 50_f64.sqrt(), 1e-14);
    close(scatter.between, 7.0, 1e-13);
    close(scatter.f_ratio, 50.0, 1e-13);
    close(scatter.of_mean.standard_uncertainty, 5.0, 1e-14);
    let degrees = [scatter.within, scatter.of_means, scatter.of_mean].map(|part| part.degrees_of_freedom);
    assert_eq!(degrees, [Some(2.0), Some(1.0), Some(1.0)]);
    // Groups that differ less than their readings do: nothing between them, never the root of less than nothing.
    let alike = two_level(&[&[90.0, 110.0, 100.0], &[91.0, 111.0, 101.0], &[92.0, 112.0, 102.0]]).unwrap();
    close(alike.between, 0.0, 0.0);
    close(alike.f_ratio, 0.03, 1e-12);
    assert_eq!(alike.within.degrees_of_freedom, Some(6.0));
    assert_eq!(two_level(&[]), None);
    assert_eq!(two_level(&[&[1.0, 2.0]]), None, "one group");
    assert_eq!(two_level(&[&[1.0], &[2.0]]), None, "single readings");
    assert_eq!(two_level(&[&[1.0, 2.0], &[1.0, 2.0, 3.0]]), None, "unequal groups");
    assert_eq!(two_level(&[&[1.0, 1.0], &[2.0, 2.0]]), None, "nothing within");
}

#[test]
fn ratios_of_means_need_pairs() {
    let (ratio, u) = ratio_of_means(&[2.0, 4.0, 6.0], &[1.0, 2.0, 3.0]).unwrap();
    close(ratio, 2.0, 1e-15);
    assert!(u.standard_uncertainty < 1e-15, "a longer catch is heavier, and that is no uncertainty");
    assert_eq!(u.degrees_of_freedom, Some(2.0));
    // Residuals 1 and -1 about the ratio 2: s = sqrt(2), over sqrt(2) and the mean of 5.
    let (ratio, u) = ratio_of_means(&[11.0, 9.0], &[5.0, 5.0]).unwrap();
    close(ratio, 2.0, 1e-15);
    close(u.standard_uncertainty, 0.2, 1e-14);
    assert_eq!(ratio_of_means(&[1.0, 2.0], &[1.0]), None);
    assert_eq!(ratio_of_means(&[1.0], &[1.0]), None);
    assert_eq!(ratio_of_means(&[1.0, 2.0], &[1.0, -1.0]), None);
}

#[test]
fn degrees_of_freedom_of_what_is_combined() {
    let none = combine(&[]);
    assert_eq!((none.standard_uncertainty.to_bits(), none.degrees_of_freedom), (0, None));
    assert_eq!(combine(&[Component::known(3.0), Component::known(4.0)]), Component::known(5.0));
    // Nothing estimated contributes: infinitely many.
    assert_eq!(combine(&[Component::known(3.0), Component::estimated(0.0, 2.0)]).degrees_of_freedom, None);
    // 0.6⁴ / 2, the other bound being known.
    let mixed = combine(&[Component::estimated(3.0, 2.0), Component::known(4.0)]);
    close(mixed.standard_uncertainty, 5.0, 1e-15);
    close(mixed.degrees_of_freedom.unwrap(), 2.0 / 0.6_f64.powi(4), 1e-14);
    // An estimate from nothing makes the whole unknown, not well known.
    let unknown = combine(&[Component::estimated(1.0, 0.0), Component::known(1.0)]);
    assert_eq!((unknown.degrees_of_freedom, unknown.coverage_factor(0.95)), (Some(0.0), None));
    assert_eq!(pool(&[(1.5, 0.0)]), None);
    assert_eq!(pool(&[]), None);
    let pooled = pool(&[(1.5, 10.0), (0.2, 1.0)]).unwrap();
    close(pooled.standard_uncertainty, ((10.0 * 2.25 + 0.04) / 11.0_f64).sqrt(), 1e-15);
    assert_eq!(pooled.degrees_of_freedom, Some(11.0));
    assert_eq!(Component::mean_of(&[1.0]), None);
    let opposite = Component::estimated(2.0, 5.0).times(-3.0);
    assert_eq!((opposite.standard_uncertainty, opposite.degrees_of_freedom), (6.0, Some(5.0)));
}
