//! Quantiles where they are hard to compute: near the middle, far out, with fewest and with broken degrees of freedom.
//!
//! The expected values were computed with mpmath 1.3 at 60 digits: the root of the regularized incomplete beta (Student) or
//! gamma (chi-squared) function. The first of each list were found by `scripts/second-opinion`, which disagreed there.

use sowmark_core::statistics::{chi_squared_quantile, normal_quantile, student_quantile};

use crate::sheets::close;

#[test]
fn student_agrees_with_sixty_digits() {
    let known = [
        (63.0, 0.499_598_926_629_939_9, -0.001_009_339_233_397_588_3),
        (5.0, 0.49, -0.026_346_712_342_273_262),
        (3.0, 0.3, -0.584_389_727_439_818_71),
        (2.0, 0.2, -1.060_660_171_779_821_2),
        (4.0, 0.25, -0.740_697_084_112_682_63),
        (4.0, 0.250_000_1, -0.740_696_716_389_732_69),
        (1.5, 0.01, -11.197_316_179_568_398),
        (10.0, 1e-6, -9.751_995_490_940_580_2),
        (999.5, 0.025, -1.962_340_270_383_845_8),
        (100.0, 1e-4, -3.861_599_790_950_058),
    ];
    for (nu, p, expected) in known {
        close(student_quantile(p, Some(nu)).unwrap(), expected, 2e-12);
    }
}

#[test]
fn student_is_even_about_the_middle() {
    for nu in [0.5, 1.0, 7.3, 100.0, 999.0, 1e5] {
        assert!(student_quantile(0.5, Some(nu)).unwrap().abs() < 1e-15);
        for p in [0.125, 0.25, 0.375, 0.046_875] {
            let (below, above) = (student_quantile(p, Some(nu)).unwrap(), student_quantile(1.0 - p, Some(nu)).unwrap());
            assert_eq!(below.to_bits(), (-above).to_bits(), "{nu} {p}");
        }
    }
}

#[test]
fn chi_squared_agrees_with_sixty_digits() {
    let known = [
        (1.141_534_018_371_252, 1.078_065_755_810_022_6e-5, 3.235_120_600_946_993_1e-9),
        (0.5, 1e-6, 1.349_939_578_622_345_8e-24),
        (1.0, 0.5, 0.454_936_423_119_572_75),
        (3.0, 0.999_999, 30.664_849_706_154_268),
        (150.5, 0.3, 140.941_711_952_842_81),
        (9.0, 0.025, 2.700_389_499_980_358),
        (1e4, 0.975, 10_279.070_179_887_59),
    ];
    for (nu, p, expected) in known {
        close(chi_squared_quantile(p, nu).unwrap(), expected, 1e-11);
    }
}

#[test]
fn what_is_no_probability_or_too_few_degrees_of_freedom_has_no_quantile() {
    for p in [0.0, 1.0, -0.1, 1.1, f64::NAN] {
        assert_eq!(normal_quantile(p), None);
        assert_eq!(student_quantile(p, None), None);
        assert_eq!(student_quantile(p, Some(5.0)), None);
        assert_eq!(chi_squared_quantile(p, 5.0), None);
    }
    for nu in [0.499, 0.0, -1.0, f64::NAN] {
        assert_eq!(student_quantile(0.975, Some(nu)), None);
        assert_eq!(chi_squared_quantile(0.975, nu), None);
    }
    assert!(student_quantile(0.975, Some(0.5)).is_some());
    assert!(student_quantile(0.975, Some(f64::INFINITY)).is_some());
    assert!(chi_squared_quantile(0.975, 1e6).is_some());
    assert_eq!(chi_squared_quantile(0.975, 1.000_001e6), None);
}

/// From a thousand degrees of freedom on a series is used; it ends after the fourth term, which far out is felt first.
#[test]
fn student_with_many_degrees_of_freedom_agrees_with_fifty_digits() {
    let known = [
        (1000.0, 0.6, 0.253_414_515_839_498_7, 1e-14),
        (1000.0, 0.975, 1.962_339_080_826_408, 1e-14),
        (1000.0, 0.995, 2.580_754_698_065_951, 1e-14),
        (1000.0, 0.999_999, 4.781_608_620_452_439, 1e-11),
        (1000.0, 0.999_999_999, 6.053_690_276_800_523, 1e-10),
        (1500.0, 0.975, 1.961_546_753_895_018, 1e-14),
        (1500.0, 0.999_999_999, 6.034_963_697_032_529, 1e-10),
        (4000.0, 0.995, 2.577_058_992_810_986_5, 1e-14),
        (4000.0, 0.999_999_999, 6.011_694_651_130_406, 1e-12),
        (100_000.0, 0.6, 0.253_347_777_157_179_9, 1e-14),
        (100_000.0, 0.999_999, 4.753_704_716_385_476, 1e-14),
    ];
    for (nu, p, expected, within) in known {
        close(student_quantile(p, Some(nu)).unwrap(), expected, within);
        close(student_quantile(1.0 - p, Some(nu)).unwrap(), -expected, within.max(1e-8));
    }
}

#[test]
fn normal_agrees_with_fifty_digits() {
    assert!(normal_quantile(0.5).unwrap().abs() < 1e-15);
    for (p, expected) in [
        (0.6, 0.253_347_103_135_799_74),
        (0.975, 1.959_963_984_540_053_9),
        (0.999_999, 4.753_424_308_817_087_8),
        (1e-9, -5.997_807_015_007_687),
    ] {
        close(normal_quantile(p).unwrap(), expected, 1e-14);
    }
}
