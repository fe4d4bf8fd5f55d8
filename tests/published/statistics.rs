//! Means, scatter and its intervals, against published data sets and tables.

use sowmark_core::{
    policy::Policy,
    statistics::{
        chi_squared_quantile, coefficient_of_variation, coefficient_of_variation_interval, mean, relative_range,
        scatter_is_rounding, standard_deviation,
    },
    verdict::judge,
};

use crate::sheets::{close, grams, plain_circumstances, sheet_of};

/// NIST StRD Mavro.
const MAVRO: &str = "
    180 170 180 190 180 170 150 140 150 150 170 180 180 190 190 210 200 160 140 130 130 150 150 160 150 140 130 140
    150 140 150 160 150 160 190 200 200 210 220 230 240 250 270 260 260 260 270 260 250 240";

/// NIST StRD Michelso.
const MICHELSO: &str = "
    85 74 90 107 93 85 95 98 98 88 100 98 93 65 76 81 100 100 96 96 96 94 96 94 88 80 85 88 90 84 83 79 81 88 88 83
    80 79 76 80 88 88 88 86 72 72 62 86 97 95 88 91 85 87 84 84 85 84 84 84 89 81 81 82 80 77 76 74 75 76 91 92 89
    86 88 72 84 85 85 78 89 84 78 81 76 81 79 81 82 85 87 87 81 74 81 94 95 80 81 87";

/// NIST StRD Lew.
const LEW: &str = "
    -213 -564 -35 -15 141 115 -420 -360 203 -338 -431 194 -220 -513 154 -125 -559 92 -21 -579 -52 99 -543 -175 162
    -457 -346 204 -300 -474 164 -107 -572 -8 83 -541 -224 180 -420 -374 201 -236 -531 83 27 -564 -112 131 -507 -254
    199 -311 -495 143 -46 -579 -90 136 -472 -338 202 -287 -477 169 -124 -568 17 48 -568 -135 162 -430 -422 172 -74
    -577 -13 92 -534 -243 194 -355 -465 156 -81 -578 -64 139 -449 -384 193 -198 -538 110 -44 -577 -6 66 -552 -164
    161 -460 -344 205 -281 -504 134 -28 -576 -118 156 -437 -381 200 -220 -540 83 11 -568 -160 172 -414 -408 188 -125
    -572 -32 139 -492 -321 205 -262 -504 142 -83 -574 0 48 -571 -106 137 -501 -266 190 -391 -406 194 -186 -553 83
    -13 -577 -49 103 -515 -280 201 300 -506 131 -45 -578 -80 138 -462 -361 201 -211 -554 32 74 -533 -235 187 -372
    -442 182 -147 -566 25 68 -535 -244 194 -351 -463 174 -125 -570 15 72 -550 -190 172 -424 -385 198 -218 -536 96";

/// NIST StRD Lottery.
const LOTTERY: &str = "
    162 671 933 414 788 730 817 33 536 875 670 236 473 167 877 980 316 950 456 92 517 557 956 954 104 178 794 278
    147 773 437 435 502 610 582 780 689 562 964 791 28 97 848 281 858 538 660 972 671 613 867 448 738 966 139 636
    847 659 754 243 122 455 195 968 793 59 730 361 574 522 97 762 431 158 429 414 22 629 788 999 187 215 810 782 47
    34 108 986 25 644 829 630 315 567 919 331 207 412 242 607 668 944 749 168 864 442 533 805 372 63 458 777 416 340
    436 140 919 350 510 572 905 900 85 389 473 758 444 169 625 692 140 897 672 288 312 860 724 226 884 508 976 741
    476 417 831 15 318 432 241 114 799 955 833 358 935 146 630 830 440 642 356 373 271 715 367 393 190 669 8 861 108
    795 269 590 326 866 64 523 862 840 219 382 998 4 628 305 747 247 34 747 729 645 856 974 24 568 24 694 608 480
    410 729 947 293 53 930 223 203 677 227 62 455 387 318 562 242 428 968";

fn numbers(data: &str) -> Vec<f64> {
    data.split_whitespace().map(|number| number.parse().expect("a number")).collect()
}

/// Source: NIST/ITL Statistical Reference Datasets, univariate (US government data), certified values. The limit of
/// Mavro and Michelso is the rounding of the data to binary.
#[test]
fn nist_strd_means_and_deviations() {
    let certified = [
        (numbers(LEW), 200, -177.435, 277.332_168_044_316, 1e-13),
        (numbers(LOTTERY), 218, 518.958_715_596_330, 291.699_727_470_969, 1e-13),
        (numbers(MAVRO).iter().map(|x| 2.0 + x * 1e-5).collect(), 50, 2.001_856, 0.000_429_123_454_003_053, 2e-12),
        (numbers(MICHELSO).iter().map(|x| 299.0 + x / 100.0).collect(), 100, 299.8524, 0.079_010_547_819_051_8, 2e-12),
    ];
    for (data, count, certified_mean, certified_deviation, tolerance) in certified {
        assert_eq!(data.len(), count);
        close(mean(&data).unwrap(), certified_mean, 1e-14);
        close(standard_deviation(&data).unwrap(), certified_deviation, tolerance);
    }
}

/// Source: the same, the generated sets that ruin the one-pass formula.
#[test]
fn nist_strd_accuracy_sets() {
    let swinging = |middle: f64, low: f64, high: f64| {
        let pairs = std::iter::repeat_n([low, high], 500).flatten();
        std::iter::once(middle).chain(pairs).collect::<Vec<_>>()
    };
    for (data, certified_mean, certified_deviation, tolerance) in [
        (vec![10_000_001.0, 10_000_003.0, 10_000_002.0], 10_000_002.0, 1.0, 0.0),
        (swinging(1.2, 1.1, 1.3), 1.2, 0.1, 1e-13),
        (swinging(1_000_000.2, 1_000_000.1, 1_000_000.3), 1_000_000.2, 0.1, 1e-9),
        (swinging(10_000_000.2, 10_000_000.1, 10_000_000.3), 10_000_000.2, 0.1, 1e-8),
    ] {
        close(mean(&data).unwrap(), certified_mean, 1e-14);
        close(standard_deviation(&data).unwrap(), certified_deviation, tolerance);
    }
}

/// Source: AOSA Rules appendix 4 tutorial, g per 100 seeds in eight replicates; results derived from its data.
#[test]
fn aosa_seed_weight_uses_n_minus_one() {
    let replicates = [0.2224, 0.2134, 0.2130, 0.2116, 0.2145, 0.2071, 0.2116, 0.2125];
    close(mean(&replicates).unwrap(), 0.213_262_5, 1e-14);
    assert!((standard_deviation(&replicates).unwrap() - 0.004_296_16).abs() < 1e-8);
    assert!((100.0 * coefficient_of_variation(&replicates).unwrap() - 2.014_49).abs() < 1e-5);
}

/// Source: Vangel's modified McKay interval as coded in a public forum of biostatisticians; computed with scipy.
#[test]
fn interval_of_a_cv_from_few_runs() {
    let strengths = [326.0, 302.0, 307.0, 299.0, 329.0];
    let seen = coefficient_of_variation(&strengths).unwrap();
    close(seen, 0.044_591_022_038_906_77, 1e-13);
    let (low, high) = coefficient_of_variation_interval(seen, 5, 0.95).unwrap();
    close(low, 0.026_700_444_66, 1e-9);
    close(high, 0.128_667_308_01, 1e-9);

    let (low, high) = coefficient_of_variation_interval(0.008_670_012_835_223_246, 4, 0.95).unwrap();
    close(low, 0.004_911_362_816, 1e-9);
    close(high, 0.032_334_089_499, 1e-9);
}

/// Three runs that differ by two fifths say so little that the interval has no upper end: nothing is shown, not an infinity.
#[test]
fn an_interval_without_an_upper_end_is_none() {
    assert_eq!(coefficient_of_variation_interval(0.4, 3, 0.95), None);
    assert_eq!(coefficient_of_variation_interval(0.0, 3, 0.95), None);
    assert_eq!(coefficient_of_variation_interval(f64::NAN, 3, 0.95), None);
    assert_eq!(coefficient_of_variation_interval(0.1, 1, 0.95), None);
}

/// Source: chi-squared quantiles as any table prints them (0.95: 5.991, 7.815; computed with scipy).
#[test]
fn chi_squared_quantiles() {
    close(chi_squared_quantile(0.95, 2.0).unwrap(), 5.991_464_547_107_98, 1e-11);
    close(chi_squared_quantile(0.95, 3.0).unwrap(), 7.814_727_903_251_18, 1e-11);
    assert_eq!(chi_squared_quantile(0.95, f64::NAN), None);
    assert_eq!(chi_squared_quantile(1.0, 3.0), None);
}

/// Source: section 6.8 of the project's check values: 120, 125 and 120 g on a scale that steps by 5 g (X = 4.0 below
/// 5.99) is rounding; example A (X = 88.5 above 7.81) is not.
#[test]
fn scatter_within_the_scales_rounding() {
    let small = [120.0, 125.0, 120.0];
    assert_eq!(scatter_is_rounding(&small, 25.0 / 6.0), Some(true));
    assert!((100.0 * relative_range(&small).unwrap() - 4.11).abs() < 0.005);
    assert!((100.0 * coefficient_of_variation(&small).unwrap() - 2.37).abs() < 0.005);
    let example_a = [1_275.0, 1_290.0, 1_265.0, 1_285.0];
    close(standard_deviation(&example_a).unwrap(), 11.086_778_913_041_726, 1e-14);
    assert_eq!(scatter_is_rounding(&example_a, 25.0 / 6.0), Some(false));

    let mut circumstances = plain_circumstances();
    circumstances.scale = Some(sowmark_core::circumstances::ScaleFacts {
        readability: grams("5"),
        capacity: grams("6000"),
        last_check: sowmark_core::circumstances::ScaleStanding::PassedWithin,
    });
    let sheet = sheet_of(&[("20", "0", "120"), ("20", "0", "125"), ("20", "0", "120")]);
    let judgement = judge(&sheet, &circumstances).expect("a possible sheet");
    assert!(judgement.scatter_is_rounding);
    let agreement = judgement.check(sowmark_core::verdict::CheckName::RepeatAgreement).expect("three repeats");
    assert_eq!(agreement.outcome, sowmark_core::verdict::Outcome::Remark);
    assert!(agreement.says.contains("catch more seed"), "{}", agreement.says);
}

/// Source: section 6.9 of the check values: a step of 5 g is 0.25 % of 816.497 g, net of two readings.
#[test]
fn the_catch_that_a_scale_needs() {
    let mut circumstances = plain_circumstances();
    circumstances.policy = Policy { catch_resolution_limit_percent: 0.25, ..Policy::default() };
    let sheet = sheet_of(&[("20", "455", "1730")]);
    let minimum = |step: &str, circumstances: &mut sowmark_core::circumstances::Circumstances| {
        circumstances.scale = Some(sowmark_core::circumstances::ScaleFacts {
            readability: grams(step),
            capacity: grams("15000"),
            last_check: sowmark_core::circumstances::ScaleStanding::PassedWithin,
        });
        judge(&sheet, circumstances).expect("a possible sheet").minimum_catch_kg
    };
    close(minimum("5", &mut circumstances), 0.816_496_580_927_726, 1e-13);
    close(minimum("50", &mut circumstances), 8.164_965_809_277_26, 1e-13);
}
