//! What must hold for any numbers, published or not.

use proptest::{collection::vec, prelude::*, sample::Index};
use sowmark_core::{
    catch::{Catch, Repeat, Revolutions, Sheet},
    circumstances::{Circumstances, Clues, Expected, Planned, ScaleFacts, ScaleStanding},
    drift::{Outcome, SumChart, WeightedChart},
    policy::Policy,
    quantity::{
        Decimal, DriveRatio, Length, Mass, Quantity, Rate, Speed, from_si, print, print_number, significant_digits_for,
        unit,
    },
    rate::DriveRange,
    statistics::{
        coefficient_of_variation_interval, correlation, mean, standard_deviation, student_quantile, two_level,
    },
    uncertainty::{Component, combine, ratio_of_means},
    verdict::{Judgement, judge},
};

use crate::sheets::plain_circumstances;

fn near(left: f64, right: f64) -> bool {
    (left - right).abs() <= 1e-9 * left.abs().max(right.abs()).max(1e-9)
}

fn decimal(digits: i64, places: usize) -> Decimal {
    let sign = if digits < 0 { "-" } else { "" };
    let all = format!("{:0>width$}", digits.unsigned_abs(), width = places + 1);
    let (whole, decimals) = all.split_at(all.len() - places);
    Decimal::parse(&format!("{sign}{whole}.{decimals}")).expect("a decimal")
}

fn grams(value: i64) -> Mass {
    Mass::of(decimal(value, 0), unit::G)
}

/// Net masses in g of one to six repeats of one to five catches that resemble each other: (revolutions, nets).
fn masses() -> impl Strategy<Value = Vec<(u32, Vec<i64>)>> {
    (1_usize..6).prop_flat_map(|runs| vec((10_u32..200, vec(500_i64..3_000, runs)), 1..7))
}

fn sheet(masses: &[(u32, Vec<i64>)], scale: i64, tare: i64) -> Sheet {
    let catch = |(i, net): (usize, &i64)| Catch {
        label: Some(format!("run {i}")),
        runs: 1,
        tare: grams(tare),
        gross: grams(net * scale + tare),
    };
    let repeat = |(revolutions, nets): &(u32, Vec<i64>)| Repeat {
        revolutions: Revolutions::Counted(Decimal::from(*revolutions)),
        catches: nets.iter().enumerate().map(catch).collect(),
        set_aside: None,
    };
    Sheet { repeats: masses.iter().map(repeat).collect() }
}

fn weighed_on(step: i64) -> Circumstances {
    let scale =
        ScaleFacts { readability: grams(step), capacity: grams(90_000_000), last_check: ScaleStanding::PassedWithin };
    Circumstances { runs_in_use: 8, scale: Some(scale), ..plain_circumstances() }
}

fn judged(sheet: &Sheet, circumstances: &Circumstances) -> Judgement {
    judge(sheet, circumstances).expect("a possible sheet")
}

/// Everything that does not depend on how much a kilogram is.
fn relative(judgement: &Judgement) -> Vec<Option<f64>> {
    let mut figures = vec![
        Some(judgement.combined_uncertainty_percent),
        Some(judgement.expanded_uncertainty_percent),
        Some(judgement.coverage_factor),
        judgement.effective_degrees_of_freedom,
        judgement.repeat_spread_percent,
        judgement.run_cv_percent,
        judgement.run_cv_interval_percent.map(|(low, _)| low),
        judgement.run_cv_interval_percent.map(|(_, high)| high),
    ];
    figures.extend(judgement.budget.iter().map(|line| Some(line.relative_standard_uncertainty_percent)));
    let mut runs: Vec<_> = judgement.run_differences.iter().collect();
    runs.sort_by(|a, b| a.label.cmp(&b.label));
    figures.extend(runs.iter().map(|run| Some(run.percent)));
    figures
}

fn same(left: &[Option<f64>], right: &[Option<f64>]) -> bool {
    left.len() == right.len()
        && left.iter().zip(right).all(|pair| match pair {
            (Some(left), Some(right)) => near(*left, *right),
            (left, right) => left == right,
        })
}

/// Every number of a judgement is one; JSON writes a NaN or an infinity as null where a number must stand.
fn all_numbers(judgement: &Judgement) -> bool {
    let stored = serde_json::to_string(judgement).expect("JSON");
    serde_json::from_str::<Judgement>(&stored).is_ok()
        && !judgement.checks.iter().any(|check| check.says.contains("NaN") || check.says.contains("inf "))
}

proptest! {
    #[test]
    fn heavier_seed_on_a_coarser_scale_scales_the_factor_alone(masses in masses(), by in 2_i64..20) {
        let light = judged(&sheet(&masses, 1, 0), &weighed_on(1));
        let heavy = judged(&sheet(&masses, by, 0), &weighed_on(by));
        prop_assert!(near(heavy.factor, light.factor * by as f64));
        prop_assert!(near(heavy.minimum_catch_kg, light.minimum_catch_kg * by as f64));
        prop_assert!(same(&relative(&light), &relative(&heavy)));
    }

    #[test]
    fn the_order_of_repeats_and_catches_changes_nothing(masses in masses(), a in any::<Index>(), b in any::<Index>()) {
        let straight = sheet(&masses, 1, 320);
        let mut turned = straight.clone();
        let count = turned.repeats.len();
        turned.repeats.rotate_left(a.index(count));
        for repeat in &mut turned.repeats {
            let catches = repeat.catches.len();
            repeat.catches.rotate_left(b.index(catches));
            repeat.catches.reverse();
        }
        let (left, right) = (judged(&straight, &weighed_on(1)), judged(&turned, &weighed_on(1)));
        prop_assert!(near(left.factor, right.factor));
        prop_assert!(same(&relative(&left), &relative(&right)));
        prop_assert_eq!(left.verdict, right.verdict);
        prop_assert_eq!(left.scatter_is_rounding, right.scatter_is_rounding);
    }

    #[test]
    fn the_same_offset_on_gross_and_tare_changes_nothing(masses in masses(), tare in 0_i64..50_000) {
        prop_assert_eq!(judged(&sheet(&masses, 1, 0), &weighed_on(1)), judged(&sheet(&masses, 1, tare), &weighed_on(1)));
    }

    #[test]
    fn with_equal_revolutions_the_factor_is_the_mean_of_the_repeats(nets in vec(500_i64..3_000, 1..8)) {
        let masses: Vec<_> = nets.iter().map(|net| (60, vec![*net])).collect();
        let judgement = judged(&sheet(&masses, 1, 0), &weighed_on(1));
        let mean = judgement.repeats.iter().map(|repeat| repeat.factor).sum::<f64>() / nets.len() as f64;
        prop_assert!(near(judgement.factor, mean));
    }

    #[test]
    fn pounds_or_kilograms_judge_alike(masses in masses()) {
        let metric = sheet(&masses, 1, 0);
        let mut pounds = metric.clone();
        for catch in pounds.repeats.iter_mut().flat_map(|repeat| &mut repeat.catches) {
            let text = print(catch.gross.si(), unit::LB, 12);
            catch.gross = Mass::parse_text_or(&text, "lb").expect("pounds");
        }
        let (left, right) = (judged(&metric, &weighed_on(1)), judged(&pounds, &weighed_on(1)));
        prop_assert!(near(left.factor, right.factor));
    }

    #[test]
    fn a_decimal_comes_back_as_it_was(digits in -999_999_999_999_i64..=999_999_999_999, places in 0_usize..=12) {
        let entered = decimal(digits, places);
        prop_assert_eq!(&Decimal::parse(entered.as_str()).expect("reads back"), &entered);
        prop_assert_eq!(&Decimal::parse(&entered.as_str().replace('.', ",")).expect("a comma"), &entered);
        prop_assert_eq!(&Decimal::parse_json_number(entered.as_str()).expect("JSON's own"), &entered);
        // The standard library's parser is the outside check of the rounding.
        prop_assert_eq!(entered.to_f64().to_bits(), (entered.as_str().parse::<f64>().expect("a float") + 0.0).to_bits());
        prop_assert_eq!(entered.places() as usize, places);
    }

    #[test]
    fn a_quantity_comes_back_as_it_was(digits in 0_i64..=999_999_999, places in 0_usize..=8, at in any::<Index>()) {
        fn returns<D: sowmark_core::quantity::Dimension>(value: &Decimal, at: Index) -> Result<(), TestCaseError> {
            let unit = at.get(Quantity::<D>::units());
            let entered = Quantity::of(value.clone(), *unit);
            prop_assert_eq!(&Quantity::<D>::from_entered(&entered.entered()).expect("reads back"), &entered);
            prop_assert!((from_si(entered.si(), *unit) - value.to_f64()).abs() <= 4.0 * f64::EPSILON * value.to_f64());
            Ok(())
        }
        let value = decimal(digits, places);
        returns::<unit::dimension::Mass>(&value, at)?;
        returns::<unit::dimension::Length>(&value, at)?;
        returns::<unit::dimension::Area>(&value, at)?;
        returns::<unit::dimension::Speed>(&value, at)?;
        returns::<unit::dimension::BulkDensity>(&value, at)?;
        returns::<unit::dimension::Rate>(&value, at)?;
        returns::<unit::dimension::MeterFactor>(&value, at)?;
    }

    #[test]
    fn pounds_and_ounces_come_back(pounds in 0_u32..100_000, tenths in 0_i64..160) {
        let entered = Mass::pounds_ounces(Decimal::from(pounds), decimal(tenths, 1)).expect("a mass");
        prop_assert_eq!(&Mass::from_entered(&entered.entered()).expect("reads back"), &entered);
        let total = f64::from(pounds) + tenths as f64 / 160.0;
        prop_assert!(near(entered.si(), total * 0.453_592_37));
    }

    #[test]
    fn no_text_makes_the_readers_panic(text in "\\PC{0,40}|[-+0-9.,eE lbozkgtNaInf/:]{0,24}") {
        for decimal in [Decimal::parse(&text), Decimal::parse_json_number(&text)].into_iter().flatten() {
            prop_assert!(decimal.to_f64().is_finite());
            prop_assert_eq!(&Decimal::parse(decimal.as_str()).expect("reads back"), &decimal);
        }
        if let Ok(mass) = Mass::parse_text(&text) {
            prop_assert!(mass.si().is_finite() && mass.resolution_si() > 0.0);
        }
        if let Ok(ratio) = DriveRatio::parse(&text) {
            prop_assert!(ratio.value() > 0.0 && DriveRatio::parse(ratio.as_str()) == Ok(ratio));
        }
    }

    #[test]
    fn printed_numbers_are_plain_and_near(value in any::<f64>(), digits in 0_usize..30, percent in any::<f64>()) {
        let text = print_number(value, digits);
        prop_assert!(!text.contains(['e', 'E', ',']) && !text.contains("NaN") && !text.contains("inf"));
        if value.is_normal() && value.abs() > 1e-300 {
            let printed = text.parse::<f64>().expect("a number");
            let shown = i32::try_from(digits.clamp(1, 17)).expect("small");
            prop_assert!((printed - value).abs() <= value.abs() * 5.1 * 10_f64.powi(-shown));
        }
        prop_assert!((2..=8).contains(&significant_digits_for(value, percent)));
    }

    #[test]
    fn quantiles_and_intervals_are_total(p in any::<f64>(), nu in any::<f64>(), count in 0_usize..100) {
        prop_assert!(student_quantile(p, Some(nu)).is_none_or(f64::is_finite));
        prop_assert!(student_quantile(p.fract().abs(), Some(nu.abs())).is_none_or(f64::is_finite));
        if let Some((low, high)) = coefficient_of_variation_interval(p.fract().abs(), count, 0.95) {
            prop_assert!(0.0 < low && low < high && high.is_finite());
        }
    }

    #[test]
    fn combined_components_are_never_better_known_than_the_worst(parts in vec((1e-6_f64..10.0, 1.0_f64..1e4), 1..8)) {
        let components: Vec<_> = parts.iter().map(|&(u, nu)| Component::estimated(u, nu)).collect();
        let total = combine(&components);
        let degrees = total.degrees_of_freedom.expect("all are estimated");
        let least = parts.iter().map(|(_, nu)| *nu).fold(f64::INFINITY, f64::min);
        let all = parts.iter().map(|(_, nu)| nu).sum::<f64>();
        prop_assert!(degrees >= least * (1.0 - 1e-9) && degrees <= all * (1.0 + 1e-9));
        prop_assert!(total.expanded(0.95).expect("a level") > total.standard_uncertainty * 1.9);
    }

    /// The squares about the whole mean are those within groups and those of the groups' means, and nothing else; moving all
    /// readings moves the mean alone, stretching them stretches everything.
    #[test]
    fn scatter_on_two_levels_adds_up(
        groups in (2_usize..6, 2_usize..6).prop_flat_map(|(j, k)| vec(vec(-10.0_f64..10.0, k), j)), by in 0.1_f64..10.0,
    ) {
        fn levels(groups: &[Vec<f64>]) -> sowmark_core::statistics::TwoLevel {
            two_level(&groups.iter().map(Vec::as_slice).collect::<Vec<_>>()).expect("groups that vary")
        }
        let found = levels(&groups);
        let all: Vec<f64> = groups.iter().flatten().copied().collect();
        let (j, k) = (groups.len() as f64, groups[0].len() as f64);
        let whole = standard_deviation(&all).expect("several").powi(2) * (j * k - 1.0);
        let within = j * (k - 1.0) * found.within.standard_uncertainty.powi(2);
        let between = k * (j - 1.0) * found.of_means.standard_uncertainty.powi(2);
        prop_assert!(near(whole, within + between));
        prop_assert!(near(found.mean, mean(&all).expect("several")));
        prop_assert!(near(found.f_ratio, between / (j - 1.0) / (within / (j * (k - 1.0)))));
        let mut stretched: Vec<Vec<f64>> = groups.iter().map(|group| group.iter().map(|x| 1_000.0 + by * x).collect()).collect();
        stretched.reverse();
        for group in &mut stretched {
            group.reverse();
        }
        let other = levels(&stretched);
        prop_assert!((other.mean - 1_000.0 - by * found.mean).abs() < 1e-9);
        for (other, found) in [
            (other.within.standard_uncertainty, found.within.standard_uncertainty),
            (other.of_means.standard_uncertainty, found.of_means.standard_uncertainty),
            (other.of_mean.standard_uncertainty, found.of_mean.standard_uncertainty),
        ] {
            prop_assert!((other - by * found).abs() < 1e-9 * (1.0 + by * found));
        }
    }

    /// GUM 5.2.2: `(u_R / R)² = (u_a / a)² + (u_b / b)² - 2 r u_a u_b / (a b)`.
    #[test]
    fn a_ratio_has_the_uncertainty_of_the_law_of_propagation(pairs in vec((5.0_f64..15.0, 5.0_f64..15.0), 3..10)) {
        let (above, below): (Vec<f64>, Vec<f64>) = pairs.into_iter().unzip();
        let (ratio, u) = ratio_of_means(&above, &below).expect("pairs");
        let relative = |readings: &[f64]| {
            Component::mean_of(readings).expect("several").standard_uncertainty / mean(readings).expect("several")
        };
        let (a, b, r) = (relative(&above), relative(&below), correlation(&above, &below).expect("pairs that vary"));
        prop_assert!((-1.0..=1.0).contains(&r) && near(r, correlation(&below, &above).expect("pairs")));
        let squared = a * a + b * b - 2.0 * r * a * b;
        prop_assert!(((u.standard_uncertainty / ratio).powi(2) - squared).abs() < 1e-12 * (a * a + b * b));
        prop_assert_eq!(u.degrees_of_freedom, Some(above.len() as f64 - 1.0));
    }

    /// A lasting shift beyond the slack is always found, one within it never; nothing gathers below zero.
    #[test]
    fn sums_find_what_lasts(shift in 0.011_f64..0.05, limit in 0.01_f64..0.1, high in any::<bool>()) {
        let chart = SumChart { target: 0.0, slack: 0.01, limit };
        let side = if high { 1.0 } else { -1.0 };
        // At least 0.001 gathers at each step.
        let found = chart.points(&[side * shift; 102]);
        prop_assert!(found.last().is_some_and(|sum| sum.out));
        let idle = |sum: &sowmark_core::drift::Sums| if high { sum.below } else { sum.above };
        prop_assert!(found.iter().all(|sum| idle(sum) == 0.0), "{:?}", found);
        let calm = chart.points(&vec![side * 0.009; 1_000]);
        prop_assert!(calm.iter().all(|sum| !sum.out && sum.above == 0.0 && sum.below == 0.0));
    }

    /// z of the weighted chart lies among its jobs, is the same whatever the unit of uncertainty, and does not move for a job of
    /// which nothing is known.
    #[test]
    fn the_weighted_mean_lies_among_its_jobs(
        jobs in vec((-0.2_f64..0.2, 0.001_f64..0.1), 1..12), lambda in 0.05_f64..1.0, by in 0.1_f64..10.0,
    ) {
        let chart = WeightedChart { lambda, limit_width: 3.0, common: 0.0 };
        let of = |by: f64| jobs.iter().map(|&(x, u)| Outcome { x, u: by * u }).collect::<Vec<_>>();
        let (found, other) = (chart.points(&of(1.0)), chart.points(&of(by)));
        let (low, high) = jobs.iter().fold((f64::MAX, f64::MIN), |(low, high), (x, _)| (low.min(*x), high.max(*x)));
        for (found, other) in found.iter().zip(&other) {
            prop_assert!((low - 1e-12..=high + 1e-12).contains(&found.z));
            prop_assert!((found.z - other.z).abs() < 1e-12 && near(by * found.u_z, other.u_z));
        }
        if lambda < 1.0 {
            let mut unknown = of(1.0);
            unknown.push(Outcome { x: 5.0, u: f64::INFINITY });
            let after = chart.points(&unknown);
            prop_assert!((after[jobs.len()].z - found[jobs.len() - 1].z).abs() < 1e-12);
        }
    }

    /// Sheets of any decimals, circumstances of any floats: findings or a judgement in numbers, nothing else.
    #[test]
    fn hostile_numbers_are_found_or_judged(
        readings in vec((any::<i64>(), 0_usize..=12, any::<i64>(), 0_usize..=12, any::<u32>()), 1..5),
        revolutions in vec((any::<i64>(), 0_usize..=12, 0_u8..4), 1..5),
        floats in proptest::array::uniform6(any::<f64>()),
        tame in any::<bool>(),
    ) {
        let limit = |digits: i64| if tame { digits.rem_euclid(1_000_000) + 1 } else { digits % 1_000_000_000_000_000_000 };
        let positive = |value: f64| if tame { value.abs().clamp(1e-12, 1e12) } else { value };
        let catches = || readings.iter().map(|&(tare, tare_places, gross, gross_places, runs)| Catch {
            label: None,
            runs: if tame { runs % 3 + 1 } else { runs },
            tare: Mass::of(decimal(if tame { 0 } else { limit(tare) }, tare_places), unit::LB),
            gross: Mass::of(decimal(limit(gross), gross_places), unit::KG),
        }).collect::<Vec<_>>();
        let repeats = revolutions.iter().map(|&(digits, places, kind)| {
            let number = decimal(limit(digits), places);
            let revolutions = match kind {
                0 => Revolutions::Counted(number),
                1 => Revolutions::Pulses { pulses: number, pulses_per_rev: decimal(limit(digits.rotate_left(13)), places) },
                2 => Revolutions::Turns { turns: number },
                _ => Revolutions::Distance {
                    distance: Length::of(number, unit::FT),
                    circumference: Length::of(decimal(limit(digits.rotate_left(29)), places), unit::M),
                },
            };
            Repeat { revolutions, catches: catches(), set_aside: None }
        }).collect();
        let circumstances = Circumstances {
            runs_in_use: u32::MAX,
            drive_ratio: DriveRatio::parse("1:3").expect("a ratio"),
            drive_range: Some(DriveRange { min_rpm: 0.0, max_rpm: positive(floats[0]) }),
            roller_speed_rpm: Some(positive(floats[1])),
            planned: Some(Planned {
                rate: Rate::parse_text("0.000000000001 lb/ac").expect("a rate"),
                speed: Speed::parse_text("1 mph").expect("a speed"),
            }),
            working_width_m: positive(floats[2]),
            scale: None,
            thousand_seed_weight_g: Some(positive(floats[3])),
            expected: Some(Expected::from_displacement(positive(floats[4]), positive(floats[5]))),
            policy: Policy::default(),
            clues: Clues::default(),
        };
        match judge(&Sheet { repeats }, &circumstances) {
            Ok(judgement) => prop_assert!(all_numbers(&judgement), "{judgement:?}"),
            Err(findings) => prop_assert!(!findings.is_empty() && findings.iter().all(|finding| !finding.says.is_empty())),
        }
    }

    #[test]
    fn a_policy_is_set_from_any_text_or_refuses_it(text in "\\PC{0,20}|[-0-9.e]{0,12}", at in any::<Index>()) {
        let mut policy = Policy::default();
        let field = at.get(Policy::fields());
        if policy.set(field.name, Some(&text)).is_ok() {
            prop_assert_eq!(policy.check().iter().filter(|(name, _)| *name == field.name && *name != "run_cv_remark_percent").count(), 0);
        }
    }

    /// What is stored is judged again years later: a float must come back to the bit.
    #[test]
    fn a_stored_float_comes_back_to_the_bit(value in any::<f64>().prop_filter("JSON has no other", |value| value.is_finite())) {
        let stored = serde_json::to_string(&value).expect("JSON");
        prop_assert_eq!(serde_json::from_str::<f64>(&stored).expect("reads back").to_bits(), value.to_bits());
    }
}
