//! The factor over the roller speed.

use proptest::{collection::vec, prelude::*};
use sowmark_core::{
    ids::ScaleId,
    speed::{SAME_SPEED, SpeedPoint, dependence},
    uncertainty::{
        Component,
        budget::{BudgetLine, BudgetTerm},
    },
    words::Words,
};
use uuid::Uuid;

use crate::sheets::close;

fn scale(id: u128) -> ScaleId {
    Uuid::from_u128(id).into()
}

fn point(rpm: f64, factor: f64, u: f64, nu: f64) -> SpeedPoint {
    SpeedPoint {
        rpm,
        factor,
        own: Component::estimated(u, nu),
        from_scale: Component::known(0.004),
        scale: Some(scale(1)),
    }
}

/// By hand: 0.3 and 0.4 g in quadrature are 0.5 g; Welch and Satterthwaite 0.5⁴ / (0.3⁴/10 + 0.4⁴/10) = 18.546.
#[test]
fn two_calibrations_differ_by_their_difference() {
    let found = dependence(&[point(90.0, 28.0, 0.4, 10.0), point(30.0, 30.0, 0.3, 10.0)]).expect("two speeds");
    close(found.change, -2.0, 1e-12);
    close(found.change_percent, -100.0 / 15.0, 1e-12);
    close(found.change_uncertainty.standard_uncertainty, 0.5, 1e-12);
    close(found.change_uncertainty.degrees_of_freedom.expect("estimated"), 0.625 / 0.0337, 1e-9);
    // t(0.975, 18.546) is between the tables' 2.101 (18) and 2.093 (19).
    assert!(found.expanded_percent > 100.0 * 0.5 * 2.093 / 30.0 && found.expanded_percent < 100.0 * 0.5 * 2.101 / 30.0);
    assert!(found.differs && found.one_scale && found.speeds == 2);
    let (at_slowest, width) = found.band_at(30.0).expect("within");
    close(at_slowest, 30.0, 1e-12);
    assert!(width > 0.3 * 2.2 && width < 0.3 * 2.3); // t(0.975, 10) = 2.228
    assert_eq!((found.band_at(29.9), found.band_at(90.1)), (None, None));
}

#[test]
fn the_error_of_a_common_scale_is_left_out_and_of_two_scales_is_not() {
    let own = point(30.0, 30.0, 0.3, 10.0);
    let other = SpeedPoint { scale: Some(scale(2)), ..point(90.0, 28.0, 0.4, 10.0) };
    let found = dependence(&[own, other]).expect("two speeds");
    assert!(!found.one_scale);
    close(found.change_uncertainty.standard_uncertainty, (0.25_f64 + 2.0 * 0.004 * 0.004).sqrt(), 1e-12);
    let unnamed = |point| SpeedPoint { scale: None, ..point };
    assert!(!dependence(&[unnamed(own), unnamed(other)]).expect("two speeds").one_scale);
}

#[test]
fn a_budget_gives_the_parts() {
    let line = |term, percent, nu| BudgetLine {
        term,
        relative_standard_uncertainty_percent: percent,
        degrees_of_freedom: nu,
        says: String::new(),
    };
    let budget = [
        line(BudgetTerm::Repeatability, 0.3, Some(11.0)),
        line(BudgetTerm::Readability, 0.4, None),
        line(BudgetTerm::Scale, 0.29, None),
    ];
    let found = SpeedPoint::of_budget(50.0, 0.03, &budget, None);
    close(found.own.standard_uncertainty, 0.005 * 0.03, 1e-12);
    close(found.from_scale.standard_uncertainty, 0.0029 * 0.03, 1e-12);
    close(found.own.degrees_of_freedom.expect("estimated"), 11.0 * (0.5_f64 / 0.3).powi(4), 1e-9);
}

#[test]
fn what_is_no_dependence() {
    assert_eq!(dependence(&[]), None);
    assert_eq!(dependence(&[point(30.0, 30.0, 0.3, 9.0)]), None);
    assert_eq!(dependence(&[point(30.0, 30.0, 0.3, 9.0), point(31.5, 29.0, 0.3, 9.0)]), None);
    assert!(dependence(&[point(30.0, 30.0, 0.3, 9.0), point(31.6, 29.0, 0.3, 9.0)]).is_some());
    assert_eq!(dependence(&[point(30.0, 30.0, 0.0, 9.0), point(60.0, 29.0, 0.3, 9.0)]), None);
    for nothing in [0.0, -30.0] {
        assert_eq!(
            dependence(&[point(30.0, nothing, 0.3, 9.0), point(60.0, 29.0, 0.3, 9.0)]),
            None,
            "no share of {nothing}"
        );
    }
    assert_eq!(dependence(&[point(f64::NAN, 30.0, 0.1, 9.0), point(60.0, 29.0, 0.3, 9.0)]), None);
    let slight = dependence(&[point(30.0, 30.0, 0.3, 9.0), point(60.0, 29.8, 0.3, 9.0)]).expect("two speeds");
    assert!(!slight.differs);
    assert_eq!(
        slight.says(Words::default()),
        "From 30.0 to 60.0 rpm the factor changes by 0.67 %, within the ± 3.0 % (95 %) that these catches can tell: no dependence \
         on roller speed is shown."
    );
}

/// Three points that scatter five times more than they say: the excess comes in with its one degree of freedom.
#[test]
fn points_that_scatter_more_than_they_say_are_believed_less() {
    let tight = [point(30.0, 30.0, 0.1, 50.0), point(60.0, 31.0, 0.1, 50.0), point(90.0, 30.0, 0.1, 50.0)];
    let found = dependence(&tight).expect("three speeds");
    assert_eq!(found.speeds, 3);
    let birge = found.line.birge_ratio().expect("a scatter");
    assert!(birge > 5.0);
    // The slope's share from the points alone: 0.1 sqrt(1/2) / 30 per 1/min, over 60 rpm.
    close(found.change_uncertainty.standard_uncertainty, 0.1 * 2_f64.sqrt() * birge, 1e-9);
    assert!(found.change_uncertainty.degrees_of_freedom.expect("estimated") < 1.2);
    assert!(!found.differs);
}

#[test]
fn the_side_is_named_in_words() {
    let says = |slow: f64, fast: f64| {
        let found = dependence(&[point(30.0, slow, 0.32, 10.0), point(90.0, fast, 0.32, 10.0)]).expect("two speeds");
        found.says(Words::default())
    };
    let end = ": catch at the roller speed that you will sow at.";
    assert_eq!(says(30.0, 28.0), format!("From 30.0 to 90.0 rpm the factor falls by 6.7 % (± 3.1 %, 95 %){end}"));
    assert_eq!(says(28.0, 30.0), format!("From 30.0 to 90.0 rpm the factor rises by 7.1 % (± 3.4 %, 95 %){end}"));
}

proptest! {
    /// Nothing depends on the order, on the unit of the factor, or on which direction is called up.
    #[test]
    fn order_and_unit_do_not_matter(
        points in vec((20.0_f64..120.0, 25.0_f64..35.0, 0.05_f64..1.0, 2.0_f64..30.0), 2..8), by in 1e-4_f64..1e3,
    ) {
        let points: Vec<_> = points.into_iter().map(|(rpm, factor, u, nu)| point(rpm, factor, u, nu)).collect();
        let mut other: Vec<_> = points.iter().map(|p| SpeedPoint { factor: p.factor * by, own: p.own.times(by), ..*p }).collect();
        other.reverse();
        match (dependence(&points), dependence(&other)) {
            (Some(found), Some(scaled)) => {
                prop_assert!((found.change_percent - scaled.change_percent).abs() < 1e-6);
                prop_assert!((found.expanded_percent / scaled.expanded_percent - 1.0).abs() < 1e-6);
                prop_assert_eq!(found.speeds, scaled.speeds);
                prop_assert!(found.band_at(found.fastest_rpm()).is_some_and(|(_, u)| u > 0.0));
            }
            (found, scaled) => prop_assert_eq!(found.is_some(), scaled.is_some()),
        }
    }

    #[test]
    fn hostile_points_give_a_dependence_or_none(
        points in vec((any::<f64>(), any::<f64>(), any::<f64>(), any::<f64>()), 0..5),
    ) {
        let points: Vec<_> = points.into_iter().map(|(rpm, factor, u, nu)| point(rpm, factor, u, nu)).collect();
        if let Some(found) = dependence(&points) {
            prop_assert!(found.change_percent.is_finite() && found.expanded_percent.is_finite());
            prop_assert!(!found.says(Words::default()).contains("NaN"));
        }
    }
}

/// Up to a twentieth faster is the same speed, to the last digit.
#[test]
fn a_twentieth_faster_is_the_same_speed() {
    let speeds =
        |rpm| dependence(&[point(30.0, 30.0, 0.3, 10.0), point(rpm, 28.0, 0.3, 10.0)]).map(|found| found.speeds);
    assert_eq!(speeds(30.0 * (1.0 + SAME_SPEED)), None);
    assert_eq!(speeds(30.0 * (1.0 + SAME_SPEED) + 1e-9), Some(2));
}
