//! Uncertainty budgets published elsewhere, through the same functions that judge a calibration.

use crate::sheets::{close, grams, plain_circumstances, sheet_of};
use sowmark_core::{
    circumstances::{ScaleFacts, ScaleStanding},
    quantity::{Decimal, Mass},
    statistics::{ratio_of_sums, student_quantile},
    uncertainty::{Component, combine, pool},
    verdict::{CheckName, Judgement, Outcome, judge},
};

/// Source: JCGM 100:2008 (GUM) clause 4.4.3, twenty temperature readings (from memory; the results agree with the
/// printed 100.145, 1.489 and 0.333, and were computed with GTC and exact fractions).
#[test]
fn gum_4_4_3_mean_of_twenty_readings() {
    let readings = [
        96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11,
        101.20, 101.57, 101.84, 102.36, 102.72,
    ];
    close(sowmark_core::statistics::mean(&readings).unwrap(), 100.145, 1e-14);
    close(sowmark_core::statistics::standard_deviation(&readings).unwrap(), 1.488_844_483_059_544_4, 1e-13);
    let mean = Component::mean_of(&readings).unwrap();
    close(mean.standard_uncertainty, 0.332_915_747_204_667_54, 1e-13);
    assert_eq!(mean.degrees_of_freedom, Some(19.0));
    close(mean.coverage_factor(0.95).unwrap(), 2.093_024_054_408_308_7, 1e-12);
    close(mean.expanded(0.95).unwrap(), 0.696_800_666_990_684_9, 1e-12);
}

/// Source: GUM clauses 4.3.7 to 4.3.9, 4.4.5, 4.4.6 and F.2.2.1 (inputs from memory).
#[test]
fn gum_type_b_by_distribution() {
    close(Component::rectangular(4.0).standard_uncertainty, 2.309_401_076_758_503_4, 1e-15);
    close(Component::rectangular((16.92e-6 - 16.40e-6) / 2.0).standard_uncertainty, 1.501_110_699_893_0e-7, 1e-9);
    close(Component::triangular(4.0).standard_uncertainty, 1.632_993_161_855_452_3, 1e-15);
    close(Component::arcsine(0.5).standard_uncertainty, 0.353_553_390_593_27, 1e-13);
    close(Component::resolution(1.0).standard_uncertainty, 0.288_675_134_594_812_9, 1e-15);
}

/// Source: GUM H.1, end gauge. Inputs and results as in the GTC project's test suite; printed u = 32 nm, U99 = 93 nm.
#[test]
fn gum_h_1_end_gauge() {
    let (length, expansion) = (50_000_623.0, 11.5e-6);
    let difference =
        combine(&[Component::estimated(5.8, 24.0), Component::estimated(3.9, 5.0), Component::estimated(6.7, 8.0)]);
    close(difference.standard_uncertainty, 9.681_941_953_967_705, 1e-14);
    close(difference.degrees_of_freedom.unwrap(), 25.447_250_777_362_726, 1e-13);
    let with = |component: Component, degrees| Component { degrees_of_freedom: Some(degrees), ..component };
    let total = combine(&[
        Component::estimated(25.0, 18.0),
        difference,
        // Difference of expansion coefficients, seen through length and temperature; difference of temperatures.
        with(Component::rectangular(1e-6), 50.0).times(length * -0.1),
        with(Component::rectangular(0.05), 2.0).times(length * expansion),
    ]);
    close(total.standard_uncertainty, 31.663_879_111_008_633, 1e-12);
    close(total.degrees_of_freedom.unwrap(), 16.751_855_737_627_242, 1e-11);
    let truncated = Component::estimated(total.standard_uncertainty, 16.0);
    close(truncated.coverage_factor(0.99).unwrap(), 2.920_781_622_425_1, 1e-12);
    close(truncated.expanded(0.99).unwrap(), 92.483_276_202_124_03, 1e-11);
}

/// Source: GUM G.4.1, a product of three means (from memory; computed with GTC, metrolopy and uncertainties).
#[test]
fn gum_g_4_1_product_of_three_means() {
    let product =
        combine(&[Component::estimated(0.25, 9.0), Component::estimated(0.57, 4.0), Component::estimated(0.82, 14.0)]);
    close(product.standard_uncertainty, 1.029_465_880_930_494_8, 1e-14);
    close(product.degrees_of_freedom.unwrap(), 18.998_742_314_267_954, 1e-13);
    let rounded = Component::estimated(product.standard_uncertainty, 19.0);
    close(rounded.expanded(0.95).unwrap(), 2.154_696_851_980_165_5, 1e-12);
}

/// Source: a teaching file of the University of Tartu, weighing with repeatability, drift and readability.
#[test]
fn tartu_weighing_budget() {
    let mass = combine(&[
        Component::estimated(0.000_17, 15.0),
        Component::rectangular(0.000_2),
        Component::rectangular(0.000_05),
    ]);
    close(mass.standard_uncertainty, 0.000_207_525_098_883_645_1, 1e-13);
    close(mass.degrees_of_freedom.unwrap(), 33.310_265_282_583_62, 1e-12);
}

/// Source: EURACHEM/CITAC QUAM (2012) example A1, mass times purity over volume, relative.
#[test]
fn quam_a1_calibration_standard() {
    let volume = combine(&[Component::triangular(0.1), Component::known(0.02), Component::rectangular(0.084)]);
    close(volume.standard_uncertainty, 0.066_473_052_184_074_32, 1e-13);
    let relative = combine(&[
        Component::known(0.05 / 100.28),
        Component::rectangular(0.000_1 / 0.999_9),
        volume.times(1.0 / 100.0),
    ]);
    close(relative.standard_uncertainty * 1_002.699_72, 0.835_199_226_768_439_4, 1e-12);
}

/// Source: NIST Technical Note 1297, table B.1 (printed to two decimals), and scipy 1.17.1 (six decimals).
#[test]
fn nist_table_of_student_t() {
    let two_sided = |level: f64, nu: Option<f64>| student_quantile(f64::midpoint(1.0, level), nu).unwrap();
    let printed: [(f64, [f64; 6]); 12] = [
        (1.0, [1.84, 6.31, 12.71, 13.97, 63.66, 235.80]),
        (2.0, [1.32, 2.92, 4.30, 4.53, 9.92, 19.21]),
        (3.0, [1.20, 2.35, 3.18, 3.31, 5.84, 9.22]),
        (4.0, [1.14, 2.13, 2.78, 2.87, 4.60, 6.62]),
        (5.0, [1.11, 2.02, 2.57, 2.65, 4.03, 5.51]),
        (6.0, [1.09, 1.94, 2.45, 2.52, 3.71, 4.90]),
        (8.0, [1.07, 1.86, 2.31, 2.37, 3.36, 4.28]),
        (9.0, [1.06, 1.83, 2.26, 2.32, 3.25, 4.09]),
        (10.0, [1.05, 1.81, 2.23, 2.28, 3.17, 3.96]),
        (15.0, [1.03, 1.75, 2.13, 2.18, 2.95, 3.59]),
        (20.0, [1.03, 1.72, 2.09, 2.13, 2.85, 3.42]),
        (50.0, [1.01, 1.68, 2.01, 2.05, 2.68, 3.16]),
    ];
    // The columns of one, two and three standard deviations use the exact normal fractions.
    let levels = [0.682_689_492_137_086, 0.90, 0.95, 0.954_499_736_103_642, 0.99, 0.997_300_203_936_740];
    for (nu, row) in printed {
        for (level, value) in levels.into_iter().zip(row) {
            let t = two_sided(level, Some(nu));
            assert!((t - value).abs() <= 0.005_001, "nu {nu}, level {level}: {t} is not {value}");
        }
    }
    for (level, value) in levels.into_iter().zip([1.0, 1.645, 1.960, 2.0, 2.576, 3.0]) {
        assert!((two_sided(level, None) - value).abs() <= 0.000_5);
        assert!((two_sided(level, Some(1e9)) - value).abs() <= 0.000_5);
    }
    for (nu, value) in [
        (1.0, 12.706_205),
        (2.0, 4.302_653),
        (3.0, 3.182_446),
        (4.0, 2.776_445),
        (7.0, 2.364_624),
        (9.0, 2.262_157),
        (16.0, 2.119_905),
        (30.0, 2.042_272),
        (100.0, 1.983_972),
    ] {
        assert!((two_sided(0.95, Some(nu)) - value).abs() < 5.1e-7, "nu {nu}");
    }
    close(two_sided(0.95, Some(5.553_005_703_404_203)), 2.495_459_538_929_564_4, 1e-12);
    close(two_sided(0.95, None), 1.959_963_984_540_054, 1e-15);
}

/// A scale of class III with e = 5 g: it reads in steps of 5 g and may be off by 5 g at these loads; the catch counts
/// revolutions to a tenth. The mean net mass turns the 5 g into the policy's percentage.
fn judge_by_itself(catches: &[(&str, &str, &str)], mean_net_g: f64) -> Judgement {
    let mut circumstances = plain_circumstances();
    circumstances.scale =
        Some(ScaleFacts { readability: grams("5"), capacity: grams("15000"), last_check: ScaleStanding::PassedWithin });
    circumstances.policy.scale_error_limit_percent = 100.0 * 5.0 / mean_net_g;
    circumstances.policy.pooled_repeatability_degrees_of_freedom = 0;
    judge(&sheet_of(catches), &circumstances).expect("a possible sheet")
}

const EXAMPLE_A: [(&str, &str, &str); 4] =
    [("20.0", "455", "1730"), ("20.0", "455", "1745"), ("20.0", "460", "1725"), ("20.0", "455", "1740")];

/// Source: example A of the project's check values (invented), computed with GTC 1.5.1, metrolopy 1.1.1,
/// uncertainties 3.2.3 and numpy, all digits alike. The whole judgement goes through, with pooling turned off.
#[test]
fn example_a_four_catches_of_one_run() {
    let judgement = judge_by_itself(&EXAMPLE_A, 5_115.0 / 4.0);
    let factor = judgement.factor;
    close(factor, 0.063_937_5, 1e-14);
    let expected =
        [0.277_169_472_826_046_14, 0.051_031_036_307_982_88, 0.144_337_567_297_406_46, 0.065_255_937_678_833_11];
    for (line, grams_per_rev) in judgement.budget.iter().zip(expected) {
        close(line.relative_standard_uncertainty_percent / 100.0 * factor * 1_000.0, grams_per_rev, 1e-12);
    }
    close(judgement.combined_uncertainty_percent, 0.505_640_044_586_863, 1e-12);
    close(judgement.effective_degrees_of_freedom.unwrap(), 5.553_005_703_404_203, 1e-11);
    close(judgement.coverage_factor, 2.495_459_538_929_564_4, 1e-11);
    close(judgement.expanded_uncertainty_percent, 1.261_804_272_529_057_7, 1e-11);
    close(judgement.repeat_spread_percent.unwrap(), 1.955_034_213_098_729_3, 1e-12);
    assert!(!judgement.scatter_is_rounding, "X = 88.5 is far above 7.8147");
    close(judgement.minimum_catch_kg, 0.204_124_145_231_931_5, 1e-12);
}

/// Source: example B of the check values: no scatter leaves resolution, counter and scale.
#[test]
fn example_b_no_scatter_is_not_no_uncertainty() {
    let judgement = judge_by_itself(&[("20.0", "455", "1730"); 3], 1_275.0);
    close(judgement.factor, 0.063_75, 1e-14);
    assert_eq!(judgement.budget[0].relative_standard_uncertainty_percent.to_bits(), 0);
    assert_eq!(judgement.effective_degrees_of_freedom, None);
    close(judgement.combined_uncertainty_percent / 100.0 * 63.75, 0.173_060_933_793_723_53, 1e-12);
    close(judgement.expanded_uncertainty_percent, 0.532_067_760_575_009_9, 1e-12);
}

/// Source: example C of the check values: unequal revolutions; the factor is the ratio of sums.
#[test]
fn example_c_unequal_revolutions() {
    let catches = [("20.0", "455", "1730"), ("40.0", "455", "3010"), ("20.0", "460", "1725"), ("30.0", "455", "2385")];
    let judgement = judge_by_itself(&catches, 7_025.0 / 4.0);
    close(judgement.factor, 0.063_863_636_363_636_37, 1e-14);
    let own: Vec<_> = judgement.repeats.iter().map(|repeat| repeat.factor * 1_000.0).collect();
    close(sowmark_core::statistics::mean(&own).unwrap(), 63.802_083_333_333_33, 1e-14);
    let nets = [1_275.0, 2_555.0, 1_265.0, 1_930.0];
    let revolutions = [20.0, 40.0, 20.0, 30.0];
    let through_origin =
        ratio_of_sums(nets.iter().zip(revolutions).map(|(net, n)| net * n), revolutions.map(|n| n * n));
    close(through_origin.unwrap(), 63.909_090_909_090_91, 1e-14);
    // The full budget, with the scatter of the four ratios as the check values have it.
    let scatter = Component::mean_of(&own).unwrap();
    close(scatter.standard_uncertainty, 0.222_682_899_233_665_2, 1e-12);
    let total = combine(&[
        scatter,
        Component::resolution(5.0).times(8_f64.sqrt() / 110.0),
        Component::rectangular(5.0).times(1.0 / 27.5),
        Component::triangular(0.1).times(2.0 * 63.863_636_363_636_37 / 110.0),
    ]);
    close(total.standard_uncertainty, 0.253_439_362_674_845_3, 1e-12);
    close(total.degrees_of_freedom.unwrap(), 5.033_499_825_505_133_5, 1e-11);
    close(total.coverage_factor(0.95).unwrap(), 2.565_444_596_009_333_7, 1e-11);
    close(total.expanded(0.95).unwrap(), 0.650_184_643_390_231_5, 1e-11);
}

/// Source: section 6.6 of the check values: example A with a standard deviation pooled over earlier events.
#[test]
fn example_a_with_earlier_events_pooled() {
    let pooled = pool(&[(0.554_338_945_652_086_3, 3.0), (0.48, 2.0), (0.61, 3.0)]).unwrap();
    close(pooled.standard_uncertainty, 0.558_902_384_142_347_3, 1e-13);
    assert_eq!(pooled.degrees_of_freedom, Some(8.0));
    let total = combine(&[
        pooled.times(0.5),
        Component::known(0.051_031_036_307_982_88),
        Component::known(0.065_255_937_678_833_11),
        Component::known(0.144_337_567_297_406_46),
    ]);
    close(total.standard_uncertainty, 0.325_251_911_835_032_5, 1e-12);
    close(total.degrees_of_freedom.unwrap(), 14.680_659_062_448_559, 1e-11);
    close(total.expanded(0.95).unwrap(), 0.694_573_784_502_667_2, 1e-11);
}

/// The pooled formula of the budget, worked by hand: s0 = 1.5 % with 10, two repeats 1 % apart with 1.
#[test]
fn two_repeats_lean_on_the_policy() {
    let sheet = sheet_of(&[("100", "0", "1000"), ("100", "0", "1010")]);
    let judgement = judge(&sheet, &plain_circumstances()).expect("a possible sheet");
    let own = (10.0 / 1_005.0) / 2_f64.sqrt();
    let squared = (10.0 * 0.015 * 0.015 + own * own) / 11.0;
    close(judgement.budget[0].relative_standard_uncertainty_percent, 100.0 * (squared / 2.0).sqrt(), 1e-12);
    assert_eq!(judgement.budget[0].degrees_of_freedom, Some(11.0));
    // No scale: both readings step by 1 g (the zero too), and the scale may be off by twice the limit.
    close(judgement.budget[1].relative_standard_uncertainty_percent, 100.0 * (2.0_f64 / 6.0).sqrt() / 2_010.0, 1e-12);
    close(judgement.budget[2].relative_standard_uncertainty_percent, 1.0 / 3_f64.sqrt(), 1e-12);
    close(judgement.budget[3].relative_standard_uncertainty_percent, 100.0 * (2.0_f64 / 6.0).sqrt() / 200.0, 1e-12);
}

/// One repeat under a policy that turns pooling off: wide, not refused (see the budget's repeatability).
#[test]
fn one_repeat_without_pooling_is_hardly_known() {
    let mut circumstances = plain_circumstances();
    circumstances.policy.pooled_repeatability_degrees_of_freedom = 0;
    let judgement = judge(&sheet_of(&[("100", "0", "1000")]), &circumstances).expect("a possible sheet");
    assert_eq!(judgement.budget[0].degrees_of_freedom, Some(1.0));
    assert_eq!(judgement.check(CheckName::Uncertainty).map(|check| check.outcome), Some(Outcome::Fail));
}

/// Source: scale examples as in the GUM's F.2.2.1 for a net mass; pounds and ounces keep the last place of the ounces.
#[test]
fn without_a_scale_the_last_place_entered_is_the_step() {
    let ounces = Mass::pounds_ounces(Decimal::from(5), Decimal::parse("8.0").unwrap()).unwrap();
    close(ounces.resolution_si(), 0.1 * 0.028_349_523_125, 1e-15);
    close(grams("1730").resolution_si(), 0.001, 1e-15);
    close(Mass::parse_text("2.110 kg").unwrap().resolution_si(), 0.001, 1e-15);
}
