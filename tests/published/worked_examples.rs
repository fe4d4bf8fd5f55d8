//! Whole calibrations and seasons, worked out by other programs.
//!
//! The numbers are invented; the results were computed with GTC 1.5.1, metrolopy 1.1.1, uncertainties 3.2.3 and numpy (budgets), SciPy,
//! statsmodels and pandas (charts), which agree to all digits given. Nobody published them: they are here because they run the
//! whole judgement, which no published example does.

use sowmark_core::{
    circumstances::{ScaleFacts, ScaleStanding},
    drift::{Chart, Outcome, SumChart, WeightedChart, implied_factor, log_ratio, relative_uncertainty},
    line::Line,
    policy::Policy,
    rate::next_setting,
    statistics::{mean, standard_deviation},
    uncertainty::{Component, combine, pool, ratio_of_means},
    verdict::{CheckName, Judgement, judge},
};

use crate::{
    check::{Check, Seen, Source, check},
    sheets::{grams, plain_circumstances, sheet_of},
};

const BY: &str = "GTC, metrolopy, uncertainties and numpy";

pub(crate) fn source() -> Source {
    Source {
        title: "worked examples, computed by other programs",
        address: "beside each check",
        seen: Seen::Computed,
        checks: [
            four_catches(),
            no_scatter(),
            unequal_revolutions(),
            pooled(),
            rounding_alone(),
            minimum_catches(),
            few_repeats(),
            season(),
            season_summed(),
            vec![check("next setting by proportion", "40 gave 5.0, wanted 5.5", next_setting(40.0, 5.0, 5.5).expect("a guess").setting).exactly(44.0)],
        ]
        .concat(),
    }
}

/// A scale of class III with e = 5 g: it reads in steps of 5 g and may be off by 5 g at these loads; the catch counts
/// revolutions to a tenth. The mean net mass turns the 5 g into the policy's percentage.
fn judged(catches: &[(&str, &str, &str)], mean_net_g: f64) -> Judgement {
    let mut circumstances = plain_circumstances();
    circumstances.scale =
        Some(ScaleFacts { readability: grams("5"), capacity: grams("15000"), last_check: ScaleStanding::PassedWithin });
    circumstances.policy.scale_error_limit_percent = 100.0 * 5.0 / mean_net_g;
    circumstances.policy.pooled_repeatability_degrees_of_freedom = 0;
    judge(&sheet_of(catches), &circumstances).expect("a possible sheet")
}

const FOUR: [(&str, &str, &str); 4] =
    [("20.0", "455", "1730"), ("20.0", "455", "1745"), ("20.0", "460", "1725"), ("20.0", "455", "1740")];

fn four_catches() -> Vec<Check> {
    let judgement = judged(&FOUR, 5_115.0 / 4.0);
    let factor = judgement.factor * 1_000.0;
    let inputs = "20 revolutions; gross 1730 1745 1725 1740, tare 455 455 460 455 g; d 5 g";
    let parts = [
        0.277_169_472_826_046_14,
        0.051_031_036_307_982_88,
        0.144_337_567_297_406_46,
        0.065_255_937_678_833_11,
    ];
    let mut checks: Vec<_> = judgement
        .budget
        .iter()
        .zip(parts)
        .map(|(line, exact)| {
            let found = line.relative_standard_uncertainty_percent / 100.0 * factor;
            check(format!("u of {:?}, g/rev", line.term), inputs, found).computed(exact, 1e-12, BY)
        })
        .collect();
    assert_eq!(checks.len(), 4);
    let nets = judgement.repeats.iter().map(|repeat| 1_000.0 * repeat.caught_kg).collect::<Vec<_>>();
    checks.extend([
        check("factor, g/rev", inputs, factor).exactly(63.9375),
        check("u, percent", inputs, judgement.combined_uncertainty_percent).computed(0.505_640_044_586_863, 1e-12, BY),
        check("effective degrees of freedom", inputs, judgement.effective_degrees_of_freedom.expect("finite"))
            .computed(5.553_005_703_404_203, 1e-11, BY),
        check("coverage factor", inputs, judgement.coverage_factor).computed(2.495_459_538_929_564_4, 1e-11, BY),
        check("U, percent", inputs, judgement.expanded_uncertainty_percent).computed(1.261_804_272_529_057_7, 1e-11, BY),
        check("spread of the repeats, percent", inputs, judgement.repeat_spread_percent.expect("four"))
            .computed(1.955_034_213_098_729_3, 1e-12, BY),
        check("s of the nets, g", inputs, standard_deviation(&nets).expect("four")).computed(11.086_778_913_041_726, 1e-12, BY),
        check("catch for 1 % of rounding, kg", inputs, judgement.minimum_catch_kg).exactly(0.204_124_145_231_931_5),
    ]);
    checks
}

fn no_scatter() -> Vec<Check> {
    let judgement = judged(&[("20.0", "455", "1730"); 3], 1_275.0);
    let inputs = "three catches alike: 20 revolutions, gross 1730, tare 455 g";
    vec![
        check("factor, g/rev", inputs, judgement.factor * 1_000.0).exactly(63.75),
        check("u of repeatability", inputs, judgement.budget[0].relative_standard_uncertainty_percent).exactly(0.0),
        check("u, g/rev", inputs, judgement.combined_uncertainty_percent / 100.0 * 63.75)
            .computed(0.173_060_933_793_723_53, 1e-12, BY),
        check("U, percent", inputs, judgement.expanded_uncertainty_percent).computed(0.532_067_760_575_009_9, 1e-12, BY),
    ]
}

/// Where the revolutions differ, the ways of estimating do too: the factor is the ratio of sums.
fn unequal_revolutions() -> Vec<Check> {
    let catches = [("20.0", "455", "1730"), ("40.0", "455", "3010"), ("20.0", "460", "1725"), ("30.0", "455", "2385")];
    let judgement = judged(&catches, 7_025.0 / 4.0);
    let nets = [1_275.0, 2_555.0, 1_265.0, 1_930.0];
    let revolutions = [20.0, 40.0, 20.0, 30.0];
    let (_, of_sums) = ratio_of_means(&nets, &revolutions).expect("four");
    let points: Vec<_> = revolutions.into_iter().zip(nets).collect();
    let line = Line::through_origin(&points).expect("four");
    let own: Vec<_> = judgement.repeats.iter().map(|repeat| repeat.factor * 1_000.0).collect();
    let scatter = Component::mean_of(&own).expect("four");
    let total = combine(&[
        scatter,
        Component::resolution(5.0).times(8_f64.sqrt() / 110.0),
        Component::rectangular(5.0).times(1.0 / 27.5),
        Component::triangular(0.1).times(2.0 * 63.863_636_363_636_37 / 110.0),
    ]);
    let inputs = "nets 1275 2555 1265 1930 g of 20 40 20 30 revolutions";
    vec![
        check("ratio of sums", inputs, judgement.factor * 1_000.0).exactly(63.863_636_363_636_37),
        check("u of the ratio of sums", inputs, of_sums.standard_uncertainty).computed(0.197_657_202_365_311_56, 1e-12, BY),
        check("mean of ratios", inputs, mean(&own).expect("four")).exactly(63.802_083_333_333_33),
        check("u of the mean of ratios", inputs, scatter.standard_uncertainty).computed(0.222_682_899_233_665_2, 1e-12, BY),
        check("line through the origin", inputs, line.slope()).exactly(63.909_090_909_090_91),
        check("u of the line", inputs, line.slope_uncertainty().expect("three").standard_uncertainty)
            .computed(0.187_413_89, 5e-8, "ordinary least squares, eight digits"),
        check("u with all terms", inputs, total.standard_uncertainty).computed(0.253_439_362_674_845_3, 1e-12, BY),
        check("effective degrees of freedom", inputs, total.degrees_of_freedom.expect("finite"))
            .computed(5.033_499_825_505_133_5, 1e-11, BY),
        check("coverage factor", inputs, total.coverage_factor(0.95).expect("t")).computed(2.565_444_596_009_333_7, 1e-11, BY),
        check("U", inputs, total.expanded(0.95).expect("U")).computed(0.650_184_643_390_231_5, 1e-11, BY),
    ]
}

fn pooled() -> Vec<Check> {
    let scatter = pool(&[(0.554_338_945_652_086_3, 3.0), (0.48, 2.0), (0.61, 3.0)]).expect("eight");
    let total = combine(&[
        scatter.times(0.5),
        Component::known(0.051_031_036_307_982_88),
        Component::known(0.065_255_937_678_833_11),
        Component::known(0.144_337_567_297_406_46),
    ]);
    let inputs = "s 0.554 of 4, 0.48 of 3, 0.61 of 4";
    vec![
        check("pooled s", inputs, scatter.standard_uncertainty).computed(0.558_902_384_142_347_3, 1e-13, BY),
        check("degrees of freedom", inputs, scatter.degrees_of_freedom.expect("finite")).exactly(8.0),
        check("u", inputs, total.standard_uncertainty).computed(0.325_251_911_835_032_5, 1e-12, BY),
        check("effective degrees of freedom", inputs, total.degrees_of_freedom.expect("finite"))
            .computed(14.680_659_062_448_559, 1e-11, BY),
        check("coverage factor", inputs, total.coverage_factor(0.95).expect("t")).computed(2.135_494_855_615_036, 1e-11, BY),
        check("U", inputs, total.expanded(0.95).expect("U")).computed(0.694_573_784_502_667_2, 1e-11, BY),
    ]
}

/// 120, 125 and 120 g on a scale that steps by 5 g: X = 4.0 is below chi-squared 5.99; of the four catches above it is 88.5.
fn rounding_alone() -> Vec<Check> {
    let judgement = judged(&[("20.0", "0", "120"), ("20.0", "0", "125"), ("20.0", "0", "120")], 365.0 / 3.0);
    let inputs = "nets 120 125 120 g, d 5 g";
    vec![
        check("spread, percent", inputs, judgement.repeat_spread_percent.expect("three")).exactly(4.109_589_041_095_89),
        check("scatter is rounding", inputs, f64::from(judgement.scatter_is_rounding)).exactly(1.0),
        check("scatter is rounding", "the four catches", f64::from(judged(&FOUR, 1_278.75).scatter_is_rounding)).exactly(0.0),
    ]
}

/// The net mass of which a scale's rounding, d / sqrt(6), is a share.
fn minimum_catches() -> Vec<Check> {
    let minimum = |step: &str, share: f64| {
        let mut circumstances = plain_circumstances();
        circumstances.policy = Policy { catch_resolution_limit_percent: share, ..Policy::default() };
        circumstances.scale =
            Some(ScaleFacts { readability: grams(step), capacity: grams("15000"), last_check: ScaleStanding::PassedWithin });
        1_000.0 * judge(&sheet_of(&[("20", "455", "1730")]), &circumstances).expect("a possible sheet").minimum_catch_kg
    };
    vec![
        check("least catch, g", "d 5 g, 0.25 %", minimum("5", 0.25)).exactly(816.496_580_927_726),
        check("least catch, g", "d 50 g, 0.25 %", minimum("50", 0.25)).exactly(8_164.965_809_277_26),
    ]
}

/// `U = t s / sqrt(r)`: what two to ten repeats make of their scatter.
fn few_repeats() -> Vec<Check> {
    [
        (2, 8.984_643_532_094),
        (3, 2.484_137_711_750),
        (4, 1.591_223_152_642),
        (5, 1.241_663_998_204),
        (6, 1.049_435_639_896),
        (8, 0.836_020_921_630),
        (10, 0.715_356_905_971),
    ]
    .map(|(repeats, exact)| {
        let count = f64::from(repeats);
        let of_mean = Component::estimated(count.sqrt().recip(), count - 1.0);
        check("U over s", format!("{repeats} repeats"), of_mean.expanded(0.95).expect("U"))
            .computed(exact, 1e-12, "SciPy, twelve decimals")
    })
    .into()
}

/// Area in ha, seed in kg, x, u, and the plain and the weighted chart: z, z, u of z, limit.
const JOBS: [[f64; 8]; 10] = [
    [12.4, 2240.0, 0.003_577_8, 0.006_703_0, 0.001_073_3, 0.003_577_8, 0.006_703_0, 0.025_188_8],
    [8.1, 1452.0, -0.004_123_7, 0.008_510_7, -0.000_485_8, -0.000_040_5, 0.005_349_5, 0.022_083_0],
    [20.6, 3745.0, 0.009_929_0, 0.005_668_3, 0.002_638_6, 0.005_961_9, 0.004_022_2, 0.019_383_2],
    [3.2, 583.0, 0.012_079_5, 0.017_866_6, 0.005_470_9, 0.006_449_3, 0.003_966_0, 0.019_278_7],
    [15.0, 2722.0, 0.008_115_1, 0.006_204_6, 0.006_264_2, 0.007_258_1, 0.003_638_5, 0.018_688_3],
    [18.3, 3370.0, 0.022_810_1, 0.005_814_2, 0.011_228_0, 0.014_121_4, 0.003_273_5, 0.018_070_7],
    [9.7, 1791.0, 0.025_446_7, 0.007_495_0, 0.015_493_6, 0.017_236_3, 0.003_143_5, 0.017_861_6],
    [14.2, 2612.0, 0.021_672_7, 0.006_297_4, 0.017_347_3, 0.018_822_6, 0.003_024_7, 0.017_676_0],
    [22.5, 4164.0, 0.027_759_3, 0.005_546_8, 0.020_470_9, 0.022_370_5, 0.002_859_3, 0.017_426_6],
    [11.8, 2186.0, 0.028_772_3, 0.006_776_9, 0.022_961_3, 0.024_133_1, 0.002_788_4, 0.017_322_8],
];

/// Of the calibration, relative; shared by all jobs.
const COMMON: f64 = 0.005_056_4;

fn outcomes() -> Vec<Outcome> {
    JOBS.iter()
        .map(|[ha, kg, ..]| Outcome {
            x: log_ratio(*kg, ha * 10_000.0, 0.018).expect("a job"),
            u: relative_uncertainty(*kg, 10.0, 0.5),
        })
        .collect()
}

fn weighted() -> WeightedChart {
    WeightedChart { lambda: 0.3, limit_width: 3.0, common: COMMON }
}

/// Ten jobs at 180 kg/ha; lambda 0.3, L 3, 10 kg of mass, 0.5 % of area, 0.50564 % of calibration.
fn season() -> Vec<Check> {
    let values: Vec<f64> = outcomes().iter().map(|outcome| outcome.x).collect();
    let plain = Chart::of_policy(&Policy::default()).points(&values);
    let points = weighted().points(&outcomes());
    let mut checks = Vec::new();
    for (job, ((found, smoothed), exact)) in (1..).zip(points.iter().zip(&plain).zip(JOBS)) {
        let outcome = found.outcome;
        let columns = [
            ("ln(actual / target)", outcome.x, exact[2]),
            ("its u", outcome.u, exact[3]),
            ("z, plain", smoothed.z, exact[4]),
            ("z, weighted", found.z, exact[5]),
            ("u of z, weighted", found.u_z, exact[6]),
            ("limit, weighted", found.limit, exact[7]),
        ];
        checks.extend(columns.map(|(name, value, exact)| {
            check(name, format!("job {job}"), value).computed(exact, 1e-7 / exact.abs(), "numpy, statsmodels and pandas, seven decimals")
        }));
    }
    checks.extend([
        check("z, weighted", "job 10", points[9].z).computed(0.024_133_147_688_584_114, 1e-12, "numpy and statsmodels"),
        check("u of z, weighted", "job 10", points[9].u_z).computed(0.002_788_390_931_694_7, 1e-12, "numpy and statsmodels"),
        check("z in percent, plain", "job 10", 100.0 * plain[9].z.exp_m1())
            .computed(2.322_695_062_694_0, 1e-11, "statsmodels"),
        check("implied factor, plain", "63.9375", implied_factor(63.9375, plain[9].z))
            .computed(65.422_573_155_710_0, 1e-13, "statsmodels"),
        check("implied factor, weighted", "63.9375", implied_factor(63.9375, points[9].z))
            .computed(65.499_282_697_656_8, 1e-13, "numpy and statsmodels"),
    ]);
    checks
}

/// The same jobs, each over its uncertainty, as sums with a slack of half and a limit of five.
fn season_summed() -> Vec<Check> {
    let scaled: Vec<_> = outcomes().iter().map(|outcome| outcome.x / outcome.u.hypot(COMMON)).collect();
    let sums = SumChart { target: 0.0, slack: 0.5, limit: 5.0 }.points(&scaled);
    let exact = [
        0.0, 0.0, 0.807_153, 0.957_699, 1.471_586, 3.931_882, 6.246_421, 8.429_956, 11.628_413, 14.531_242,
    ];
    assert_eq!(sums.iter().position(|sum| sum.out), Some(6), "the seventh job");
    let held = |(job, (sum, exact)): (usize, (&sowmark_core::drift::Sums, f64))| {
        check("sum above", format!("job {job}"), sum.above)
            .computed(exact, if exact > 0.0 { 1e-6 / exact } else { 0.0 }, "numpy, six decimals")
    };
    (1..).zip(sums.iter().zip(exact)).map(held).collect()
}

#[test]
fn the_first_signal_of_the_season() {
    let first = |points: Vec<bool>| points.iter().position(|out| *out).map(|at| at + 1);
    let signals = |chart: WeightedChart| first(chart.points(&outcomes()).iter().map(|point| point.out).collect());
    assert_eq!(signals(weighted()), Some(8));
    assert_eq!(signals(WeightedChart { common: 0.0, ..weighted() }), Some(6), "without the calibration's own uncertainty");
    assert_eq!(signals(WeightedChart { limit_width: 2.7, ..weighted() }), Some(7));
    let values: Vec<f64> = outcomes().iter().map(|outcome| outcome.x).collect();
    let plain = Chart::of_policy(&Policy::default()).points(&values);
    assert_eq!(first(plain.iter().map(|point| point.out).collect()), None, "single jobs may scatter by 3 %");
}

/// Scatter that is nothing but rounding asks for more seed, not for a mended meter.
#[test]
fn rounding_asks_for_a_larger_catch() {
    let judgement = judged(&[("20.0", "0", "120"), ("20.0", "0", "125"), ("20.0", "0", "120")], 365.0 / 3.0);
    let agreement = judgement.check(CheckName::RepeatAgreement).expect("three repeats");
    assert_eq!(agreement.outcome, sowmark_core::verdict::Outcome::Remark);
    assert!(agreement.says.contains("catch more seed"), "{}", agreement.says);
}
