//! The worked examples of the Guide to the expression of uncertainty in measurement (GUM).
//!
//! JCGM 100:2008, https://www.bipm.org/en/committees/jc/jcgm/publications. Inputs of H.1, H.2, H.3 and H.5, and the printed
//! results of H.1, H.2, of the prediction in H.3 and of F in H.5, as read in the test suites of the GTC project
//! (github.com/MSLNZ/GTC), of suncal (github.com/SandiaPSL/UncertaintyCalc) and of R's propagate; the rest of H.3 and H.5,
//! clauses 4.3, 4.4, F.2.2.1 and G.4.1 from memory. Exact results were computed with GTC 1.5.1 and numpy 2.4.6, which agree.
//! The guide often computes on with rounded numbers; then its last digit is not the exact one.

use sowmark_core::{
    line::Line,
    statistics::{correlation, mean, standard_deviation, two_level},
    uncertainty::{Component, combine, ratio_of_means},
};

use crate::check::{Check, Seen, Source, check};

const BY_GTC: &str = "computed with GTC and numpy";

pub(crate) fn source() -> Source {
    Source {
        title: "GUM, JCGM 100:2008",
        address: "https://www.bipm.org/en/committees/jc/jcgm/publications",
        seen: Seen::Quoted,
        checks: [twenty_readings(), bounds(), product(), end_gauge(), impedance(), thermometer(), zener()].concat(),
    }
}

/// 4.4.3: twenty readings of a temperature, °C.
fn twenty_readings() -> Vec<Check> {
    let readings = [
        96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11,
        101.20, 101.57, 101.84, 102.36, 102.72,
    ];
    let of_mean = Component::mean_of(&readings).expect("twenty");
    let inputs = "4.4.3, twenty readings";
    vec![
        check("mean", inputs, mean(&readings).expect("twenty")).prints("100.145 °C").exactly(100.145),
        check("s", inputs, standard_deviation(&readings).expect("twenty"))
            .prints("1.489 °C")
            .exactly(1.488_844_483_059_544_4),
        check("u of the mean", inputs, of_mean.standard_uncertainty).prints("0.333 °C").exactly(0.332_915_747_204_667_54),
        check("degrees of freedom", inputs, of_mean.degrees_of_freedom.expect("n - 1")).prints("19").exactly(19.0),
        check("t at 95 %", inputs, of_mean.coverage_factor(0.95).expect("t"))
            .prints("2.09")
            .computed(2.093_024_054_408_308_7, 1e-12, "computed with SciPy"),
        check("U at 95 %", inputs, of_mean.expanded(0.95).expect("U")).computed(0.696_800_666_990_684_9, 1e-12, BY_GTC),
    ]
}

/// 4.3.7 to 4.3.9, 4.4.5, 4.4.6 and F.2.2.1: bounds in place of readings.
fn bounds() -> Vec<Check> {
    let u = |component: Component| component.standard_uncertainty;
    let copper = u(Component::rectangular(0.40e-6));
    let lopsided = u(Component::rectangular((16.92e-6 - 16.40e-6) / 2.0));
    vec![
        check("rectangular", "4.3.7, ± 4 °C", u(Component::rectangular(4.0))).prints("2.3 °C").exactly(2.309_401_076_758_503),
        check("rectangular", "4.3.7, ± 0.40e-6 1/°C", copper).prints("0.23e-6").exactly(2.309_401_076_758_503e-7),
        check("its square", "4.3.7", copper * copper).prints("53.3e-15").exactly(5.333_333_333_333_333e-14),
        check("bounds not symmetric", "4.3.8, 16.40e-6 to 16.92e-6", lopsided)
            .prints("0.15e-6")
            .computed(1.501_110_699_893_027e-7, 1e-12, "the bounds' difference loses digits"),
        check("triangular", "4.3.9, ± 4 °C", u(Component::triangular(4.0))).prints("1.6 °C").exactly(1.632_993_161_855_452),
        check("swinging", "H.1.3.4, ± 0.5 °C", u(Component::arcsine(0.5))).prints("0.35 °C").exactly(0.353_553_390_593_273_8),
        check("a scale's last digit", "F.2.2.1, 1 g", u(Component::resolution(1.0)))
            .prints("0.29 g")
            .exactly(0.288_675_134_594_812_9),
    ]
}

/// G.4.1: a product of three means, relative.
fn product() -> Vec<Check> {
    let total =
        combine(&[Component::estimated(0.25, 9.0), Component::estimated(0.57, 4.0), Component::estimated(0.82, 14.0)]);
    let rounded = Component::estimated(total.standard_uncertainty, 19.0);
    let inputs = "G.4.1, 0.25 % of 10, 0.57 % of 5, 0.82 % of 15 readings";
    vec![
        check("u", inputs, total.standard_uncertainty).prints("1.03 %").exactly(1.029_465_880_930_494_8),
        check("effective degrees of freedom", inputs, total.degrees_of_freedom.expect("finite"))
            .prints("19.0")
            .exactly(18.998_742_314_267_954),
        check("U at 95 % with 19", inputs, rounded.expanded(0.95).expect("U"))
            .prints("2.2 %")
            .computed(2.154_696_851_980_165_5, 1e-12, BY_GTC),
    ]
}

/// H.1: an end gauge, nm. Never feed rounded values into the effective degrees of freedom: with them the sum below has 17.5.
fn end_gauge() -> Vec<Check> {
    let (length, expansion) = (50_000_623.0, 11.5e-6);
    let difference =
        combine(&[Component::estimated(5.8, 24.0), Component::estimated(3.9, 5.0), Component::estimated(6.7, 8.0)]);
    let with = |component: Component, degrees| Component { degrees_of_freedom: Some(degrees), ..component };
    // Difference of expansion coefficients, seen through length and temperature; difference of temperatures.
    let coefficients = with(Component::rectangular(1e-6), 50.0).times(length * -0.1);
    let temperatures = with(Component::rectangular(0.05), 2.0).times(length * expansion);
    let first_order =
        combine(&[Component::estimated(25.0, 18.0), difference, coefficients, temperatures]);
    let truncated = Component::estimated(first_order.standard_uncertainty, 16.0);
    vec![
        check("u of the difference", "H.1, 5.8 3.9 6.7 nm", difference.standard_uncertainty)
            .prints("9.7 nm")
            .exactly(9.681_941_953_967_705),
        check("degrees of freedom of the difference", "H.1", difference.degrees_of_freedom.expect("finite"))
            .prints("25.6")
            .exactly(25.447_250_777_362_726)
            .differs("the guide takes the fourth power of the rounded 9.7 nm"),
        check("u of the expansion", "H.1", coefficients.standard_uncertainty).prints("2.9 nm").exactly(2.886_787_314_869_899_3),
        check("u of the temperatures", "H.1", temperatures.standard_uncertainty)
            .prints("16.6 nm")
            .exactly(16.599_027_060_501_92),
        check("u of the length", "H.1", first_order.standard_uncertainty)
            .prints("32 nm")
            .computed(31.663_879_111_008_633, 1e-12, BY_GTC),
        check("effective degrees of freedom", "H.1", first_order.degrees_of_freedom.expect("finite"))
            .prints("16.7")
            .computed(16.751_855_737_627_242, 1e-12, BY_GTC)
            .differs("the guide cuts 16.75, since it needs the whole 16 only"),
        check("t at 99 % with 16", "H.1", truncated.coverage_factor(0.99).expect("t"))
            .prints("2.92")
            .computed(2.920_781_622_425_1, 1e-12, "computed with SciPy"),
        check("U at 99 %", "H.1", truncated.expanded(0.99).expect("U"))
            .prints("93 nm")
            .computed(92.483_276_202_124_03, 1e-12, BY_GTC)
            .differs("the guide multiplies 2.92 by the rounded 32 nm; unrounded it is 92.5"),
    ]
}

const VOLTS: [f64; 5] = [5.007, 4.994, 5.005, 4.990, 4.999];
const AMPERES: [f64; 5] = [19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3];
const RADIANS: [f64; 5] = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];

/// H.2: resistance, reactance and impedance of means that were read together. Z is the ratio that a meter factor is.
fn impedance() -> Vec<Check> {
    let inputs = "H.2, five readings of V, I and phi";
    let middle = |readings: &[f64; 5]| mean(readings).expect("five");
    let u = |readings: &[f64]| Component::mean_of(readings).expect("five").standard_uncertainty;
    let r = |left, right| correlation(left, right).expect("five pairs");
    let (volts, amperes, phi) = (middle(&VOLTS), middle(&AMPERES), middle(&RADIANS));
    let (z, of_z) = ratio_of_means(&VOLTS, &AMPERES).expect("a ratio");
    let ratios: Vec<_> = VOLTS.iter().zip(AMPERES).map(|(v, i)| v / i).collect();
    // Readings seen through the sensitivities of a result scatter as the result does, with all correlations (GUM 5.2.2).
    let seen = |of_volts: f64, of_amperes: f64, of_phi: f64| -> Vec<f64> {
        let terms = VOLTS.iter().zip(AMPERES).zip(RADIANS);
        terms.map(|((v, i), p)| of_volts * (v - volts) + of_amperes * (i - amperes) + of_phi * (p - phi)).collect()
    };
    let (resistance, reactance) = (volts / amperes * phi.cos(), volts / amperes * phi.sin());
    let of_resistance = seen(phi.cos() / amperes, -resistance / amperes, -reactance);
    let of_reactance = seen(phi.sin() / amperes, -reactance / amperes, resistance);
    vec![
        check("V", inputs, volts).prints("4.9990 V").exactly(4.999),
        check("u of V", inputs, u(&VOLTS)).prints("0.0032 V").computed(0.003_209_361_307_176_179_4, 1e-12, BY_GTC),
        check("I", inputs, amperes).prints("19.6610e-3 A").exactly(0.019_661),
        check("u of I", inputs, u(&AMPERES)).prints("0.0095e-3 A").computed(9.471_008_394_041_336e-6, 1e-12, BY_GTC),
        check("r of V and I", inputs, r(&VOLTS, &AMPERES)).prints("-0.36").computed(-0.355_311_219_817_51, 1e-11, BY_GTC),
        check("r of V and phi", inputs, r(&VOLTS, &RADIANS)).prints("0.86").computed(0.857_624_210_839_96, 1e-11, BY_GTC),
        check("r of I and phi", inputs, r(&AMPERES, &RADIANS)).prints("-0.65").computed(-0.645_111_217_689_26, 1e-11, BY_GTC),
        check("u of R", inputs, u(&of_resistance)).prints("0.071 ohm").computed(0.071_071_407_396_995_4, 1e-10, BY_GTC),
        check("u of X", inputs, u(&of_reactance))
            .prints("0.295 ohm")
            .computed(0.295_581_677_358_64, 1e-10, BY_GTC)
            .differs("the guide computes on with rounded correlations; unrounded it is 0.2956"),
        check("Z, ratio of means", inputs, z).prints("254.260 ohm").computed(254.259_701_948_018_94, 1e-14, BY_GTC),
        check("u of Z, correlated", inputs, of_z.standard_uncertainty)
            .prints("0.236 ohm")
            .computed(0.236_336_130_082_377_58, 1e-11, BY_GTC),
        check("degrees of freedom of Z", inputs, of_z.degrees_of_freedom.expect("n - 1")).prints("4").exactly(4.0),
        check("Z, mean of the ratios", inputs, mean(&ratios).expect("five"))
            .prints("254.260 ohm")
            .computed(254.260_049_586_741_16, 1e-14, BY_GTC),
        check("u of Z, mean of the ratios", inputs, u(&ratios))
            .prints("0.236 ohm")
            .computed(0.236_247_501_703_978_12, 1e-11, BY_GTC),
        check("u of Z if nothing went together", inputs, {
            let parts = [Component::mean_of(&VOLTS), Component::mean_of(&AMPERES)].map(|part| part.expect("five"));
            combine(&[parts[0].times(1.0 / amperes), parts[1].times(z / amperes)]).standard_uncertainty
        })
        .computed(0.204_076_425_447_348_33, 1e-11, BY_GTC),
    ]
}

/// H.3: corrections of a thermometer on a straight line.
fn thermometer() -> Vec<Check> {
    let t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511];
    let b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160];
    let points: Vec<_> = t.iter().zip(b).map(|(t, b)| (t - 20.0, b)).collect();
    let line = Line::ordinary(&points).expect("a line");
    let at_30 = line.uncertainty_at(10.0).expect("nine");
    let u = |component: Option<Component>| component.expect("nine").standard_uncertainty;
    let inputs = "H.3, eleven points";
    let by = "computed with GTC and statsmodels";
    vec![
        check("intercept", inputs, line.intercept()).prints("-0.1712 °C").computed(-0.171_203_790_131_350_04, 1e-12, by),
        check("u of the intercept", inputs, u(line.intercept_uncertainty()))
            .prints("0.0029 °C")
            .computed(0.002_877_597_835_159_956_3, 1e-11, by),
        check("slope", inputs, line.slope()).prints("0.00218").computed(0.002_182_697_739_887_289_4, 1e-12, by),
        check("u of the slope", inputs, u(line.slope_uncertainty()))
            .prints("0.00067")
            .computed(0.000_667_938_773_227_832_3, 1e-11, by),
        check("correlation of the two", inputs, line.correlation().expect("r"))
            .prints("-0.930")
            .computed(-0.930_429_603_093_445_9, 1e-12, by),
        check("s", inputs, line.scatter().expect("nine")).prints("0.0035 °C").computed(0.003_497_563_963_505_287, 1e-11, by),
        check("sum of squares", inputs, line.sum_of_squares()).computed(0.000_110_096_583_109, 1e-11, by),
        check("correction at 30 °C", inputs, line.value_at(10.0))
            .prints("-0.1494 °C")
            .computed(-0.149_376_812_732_477_13, 1e-12, by),
        check("u of it", inputs, at_30.standard_uncertainty).prints("0.0041 °C").computed(0.004_138_595_752_854_951, 1e-11, by),
        check("degrees of freedom", inputs, at_30.degrees_of_freedom.expect("finite")).prints("9").exactly(9.0),
    ]
}

/// H.5: a voltage standard on ten days, five readings a day. The guide gives each day's mean and standard deviation; five
/// readings that have just these are `mean + s x (-sqrt 2, 0, 0, 0, sqrt 2)`. In µV from 10 V, so that no digits are lost.
fn zener() -> Vec<Check> {
    let means = [172.0, 116.0, 13.0, 144.0, 106.0, 31.0, 60.0, 125.0, 163.0, 41.0];
    let deviations = [60.0, 77.0, 111.0, 101.0, 67.0, 93.0, 80.0, 73.0, 88.0, 86.0];
    let day = |(mean, s): (f64, f64)| [-2_f64.sqrt(), 0.0, 0.0, 0.0, 2_f64.sqrt()].map(|x| mean + s * x);
    let days: Vec<_> = means.into_iter().zip(deviations).map(day).collect();
    let groups: Vec<&[f64]> = days.iter().map(<[f64; 5]>::as_slice).collect();
    let scatter = two_level(&groups).expect("ten days");
    let inputs = "H.5, ten days of five readings, µV above 10 V";
    // Whoever computes with doubles near 10 V keeps eleven digits: numpy's results differ from these in the twelfth.
    let by = "exact fractions";
    vec![
        check("mean", inputs, scatter.mean).prints("97 µV").computed(97.1, 1e-14, by),
        check("s of the days' means", inputs, scatter.of_means.standard_uncertainty)
            .prints("57 µV")
            .computed(57.089_500_883_359_55, 1e-12, by),
        check("degrees of freedom of it", inputs, scatter.of_means.degrees_of_freedom.expect("J - 1")).prints("9").exactly(9.0),
        check("s within a day", inputs, scatter.within.standard_uncertainty)
            .prints("85 µV")
            .computed(84.886_983_690_080_54, 1e-12, by),
        check("degrees of freedom of it", inputs, scatter.within.degrees_of_freedom.expect("J (K - 1)")).prints("40").exactly(40.0),
        check("F", inputs, scatter.f_ratio)
            .prints("2.25")
            .computed(2.261_519_269_970_795, 1e-12, by)
            .differs("the guide takes 5 x 57² / 85² of the rounded deviations"),
        check("s between days", inputs, scatter.between).prints("43 µV").computed(42.638_610_567_314_59, 1e-12, by),
        check("u of the mean", inputs, scatter.of_mean.standard_uncertainty)
            .prints("18 µV")
            .computed(18.053_285_327_361_08, 1e-12, by),
    ]
}
