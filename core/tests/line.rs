//! Straight lines: what must hold for any points, and that no points break them. Published sets are checked elsewhere.
#![allow(clippy::expect_used, clippy::unwrap_used)] // A test that cannot fit its line has failed.
#![allow(clippy::float_cmp)] // Where a value is exact by construction, it is held exactly.

use proptest::{collection::vec, prelude::*};
use sowmark_core::{line::Line, uncertainty::Component};

#[track_caller]
fn close(found: f64, expected: f64, tolerance: f64) {
    let size = tolerance * expected.abs().max(tolerance);
    assert!((found - expected).abs() <= size, "{found:?} is not {expected:?} within {tolerance:e}");
}

/// Points at x = 0, 1, 2, ... moved off a line by something.
fn points() -> impl Strategy<Value = Vec<(f64, f64)>> {
    (vec((0.5_f64..3.0, -1.0_f64..1.0), 3..12), -50.0_f64..50.0, -5.0_f64..5.0).prop_map(|(steps, start, slope)| {
        let mut x = start;
        let point = |(step, off): (f64, f64)| {
            x += step;
            (x, 2.0 + slope * x + off)
        };
        steps.into_iter().map(point).collect()
    })
}

fn squares(points: &[(f64, f64)], intercept: f64, slope: f64) -> f64 {
    points.iter().map(|(x, y)| (y - intercept - slope * x).powi(2)).sum()
}

proptest! {
    #[test]
    fn no_other_line_lies_closer(points in points(), shift in -0.5_f64..0.5, turn in -0.1_f64..0.1) {
        let line = Line::ordinary(&points).unwrap();
        let least = squares(&points, line.intercept(), line.slope());
        close(line.sum_of_squares(), least, 1e-8);
        prop_assert!(squares(&points, line.intercept() + shift, line.slope() + turn) >= least * (1.0 - 1e-9));
        let residuals: f64 = points.iter().map(|(x, y)| y - line.value_at(*x)).sum();
        prop_assert!(residuals.abs() < 1e-9);
    }

    #[test]
    fn shifting_and_stretching_the_points_does_the_same_to_the_line(
        points in points(), along in -100.0_f64..100.0, up in -100.0_f64..100.0, wide in 0.1_f64..10.0, high in 0.1_f64..10.0,
    ) {
        let line = Line::ordinary(&points).unwrap();
        let mut moved: Vec<_> = points.iter().map(|(x, y)| (along + wide * x, up + high * y)).collect();
        moved.reverse();
        let other = Line::ordinary(&moved).unwrap();
        close(other.slope(), line.slope() * high / wide, 1e-7);
        let (x, u) = (points[0].0, |line: &Line, x| line.uncertainty_at(x).unwrap().standard_uncertainty);
        prop_assert!((other.value_at(along + wide * x) - up - high * line.value_at(x)).abs() < 1e-7);
        close(u(&other, along + wide * x), high * u(&line, x), 1e-7);
        close(other.slope_uncertainty().unwrap().standard_uncertainty, line.slope_uncertainty().unwrap().standard_uncertainty * high / wide, 1e-7);
    }

    /// With one uncertainty for all points the weighted line is the ordinary one, and its uncertainty that of a known scatter.
    #[test]
    fn equal_weights_weigh_nothing(points in points(), u in 0.01_f64..10.0, nu in 2.0_f64..20.0) {
        let ordinary = Line::ordinary(&points).unwrap();
        let known: Vec<_> = points.iter().map(|(x, y)| (*x, *y, Component::estimated(u, nu))).collect();
        let weighted = Line::weighted(&known).unwrap();
        close(weighted.slope(), ordinary.slope(), 1e-9);
        let scale = u / ordinary.scatter().unwrap();
        let (found, plain) = (weighted.uncertainty_at(3.0).unwrap(), ordinary.uncertainty_at(3.0).unwrap());
        close(found.standard_uncertainty, plain.standard_uncertainty * scale, 1e-7);
        prop_assert!(found.degrees_of_freedom.unwrap() >= nu - 1e-9);
        close(weighted.birge_ratio().unwrap(), scale.recip(), 1e-7);
        prop_assert_eq!(ordinary.birge_ratio(), None);
        close(weighted.correlation().unwrap(), ordinary.correlation().unwrap(), 1e-7);
    }

    /// The slope's and the line's uncertainty agree with the law for a + b x: u² = u_a² + x² u_b² + 2 x r u_a u_b (GUM H.3).
    #[test]
    fn the_band_is_that_of_intercept_and_slope(points in points(), x in -100.0_f64..100.0) {
        let line = Line::ordinary(&points).unwrap();
        let a = line.intercept_uncertainty().unwrap().standard_uncertainty;
        let b = line.slope_uncertainty().unwrap().standard_uncertainty;
        let variance = a * a + x * x * b * b + 2.0 * x * line.correlation().unwrap() * a * b;
        let found = line.uncertainty_at(x).unwrap().standard_uncertainty.powi(2);
        // Far out, the terms cancel; as close as they allow.
        prop_assert!((found - variance).abs() <= 1e-9 * (a * a + x * x * b * b));
    }

    #[test]
    fn whatever_the_numbers_a_line_is_a_line(points in vec((any::<f64>(), any::<f64>(), any::<f64>()), 0..6), x in any::<f64>()) {
        let plain: Vec<_> = points.iter().map(|(x, y, _)| (*x, *y)).collect();
        let known: Vec<_> = points.iter().map(|(x, y, u)| (*x, *y, Component::known(*u))).collect();
        for line in [Line::ordinary(&plain), Line::through_origin(&plain), Line::weighted(&known)].into_iter().flatten() {
            prop_assert!(line.slope().is_finite() && line.sum_of_squares().is_finite());
            for component in [line.slope_uncertainty(), line.uncertainty_at(x), line.intercept_uncertainty()].into_iter().flatten() {
                prop_assert!(component.standard_uncertainty.is_finite() && component.standard_uncertainty >= 0.0);
            }
            prop_assert!(line.correlation().is_none_or(|r| (-1.0..=1.0).contains(&r)));
            prop_assert!(line.determination().is_none_or(|r| (0.0..=1.0).contains(&r)));
        }
    }
}

#[test]
fn two_points_have_a_line_and_no_scatter() {
    let line = Line::ordinary(&[(10.0, 3.0), (30.0, 4.0)]).unwrap();
    close(line.slope(), 0.05, 1e-12);
    close(line.intercept(), 2.5, 1e-12);
    assert_eq!((line.degrees_of_freedom(), line.scatter(), line.slope_uncertainty()), (0.0, None, None));
    let known = [(10.0, 3.0, Component::estimated(0.3, 5.0)), (30.0, 4.0, Component::estimated(0.4, 5.0))];
    let slope = Line::weighted(&known).unwrap().slope_uncertainty().unwrap();
    close(slope.standard_uncertainty, 0.5 / 20.0, 1e-12);
    // Welch and Satterthwaite: 0.5⁴ / (0.3⁴ / 5 + 0.4⁴ / 5)
    close(slope.degrees_of_freedom.unwrap(), 0.0625 / ((0.0081 + 0.0256) / 5.0), 1e-12);
}

/// Worked by hand: b = (1·1 + 2·3) / (1 + 4) = 1.4, residuals -0.4 and 0.2, s² = 0.2 / 1, u(b)² = 0.2 / 5.
#[test]
fn through_the_origin() {
    let line = Line::through_origin(&[(1.0, 1.0), (2.0, 3.0)]).unwrap();
    close(line.slope(), 1.4, 1e-14);
    assert_eq!((line.intercept(), line.degrees_of_freedom(), line.correlation()), (0.0, 1.0, None));
    close(line.sum_of_squares(), 0.2, 1e-12);
    close(line.slope_uncertainty().unwrap().standard_uncertainty, 0.2, 1e-12);
    assert_eq!(line.intercept_uncertainty().unwrap().standard_uncertainty, 0.0);
    close(line.determination().unwrap(), 1.0 - 0.2 / 10.0, 1e-14);
    assert!(Line::through_origin(&[(2.0, 3.0)]).is_some_and(|line| line.slope() == 1.5));
}

#[test]
fn points_that_have_no_line() {
    for points in [&[][..], &[(1.0, 2.0)], &[(0.1, 1.0), (0.1, 2.0), (0.1, 3.0)], &[(f64::NAN, 1.0), (2.0, 2.0)]] {
        assert_eq!(Line::ordinary(points), None, "{points:?}");
    }
    assert_eq!(Line::through_origin(&[(0.0, 1.0), (0.0, 2.0)]), None);
    assert_eq!(Line::through_origin(&[]), None);
    for u in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let known = [(1.0, 1.0, Component::known(1.0)), (2.0, 2.0, Component::known(u))];
        assert_eq!(Line::weighted(&known), None, "{u}");
    }
}

/// Far from zero and very small: nothing is lost where the points' differences still exist as floats.
#[test]
fn points_far_out_keep_their_line() {
    let far = [(1e9 + 1.0, 1e9 + 2.0), (1e9 + 2.0, 1e9 + 4.0), (1e9 + 3.0, 1e9 + 6.0)];
    close(Line::ordinary(&far).unwrap().slope(), 2.0, 1e-14);
    let tiny = [(1e-200, 3e-200), (2e-200, 5e-200), (3e-200, 7e-200)];
    close(Line::ordinary(&tiny).unwrap().slope(), 2.0, 1e-12);
    let level = Line::ordinary(&[(1.0, 4.0), (2.0, 4.0), (3.0, 4.0)]).unwrap();
    assert_eq!((level.slope(), level.determination(), level.sum_of_squares()), (0.0, None, 0.0));
}

/// The middle of these points lies between two floats; what it is off by must be taken out of the sums again.
#[test]
fn a_middle_that_no_float_holds() {
    let up = [(1e16, 1e16), (1e16 + 2.0, 1e16 + 2.0)];
    assert_eq!(Line::ordinary(&up).unwrap().slope(), 1.0);
    let flatter = [(1e16, 0.0), (1e16 + 2.0, 1.0)];
    assert_eq!(Line::ordinary(&flatter).unwrap().slope(), 0.5);
}

/// Squares of what is this small are zero, of what is this large infinite; the share of them is not. By hand: y of 1, 2, 2
/// at 0, 1, 2 lie on 7/6 + x/2 but for 1/6, 1/3, 1/6, whose squares are a quarter of those about the middle.
#[test]
fn determination_does_not_depend_on_the_unit() {
    for unit in [1.0, 1e-170, 1e153] {
        let line = Line::ordinary(&[(0.0, unit), (1.0, 2.0 * unit), (2.0, 2.0 * unit)]).unwrap();
        close(line.determination().unwrap(), 0.75, 1e-14);
        close(line.slope(), 0.5 * unit, 1e-14);
    }
    let level = Line::through_origin(&[(1.0, 0.0), (2.0, 0.0)]).unwrap();
    assert_eq!(level.determination(), None);
}
