//! The budget of a calibration where no published example goes: pooling, a single repeat, no scale. Published budgets are held in
//! `tests/published`.

use sowmark_core::{
    quantity::{Decimal, Mass},
    verdict::{CheckName, Outcome, judge},
};

use crate::sheets::{close, grams, plain_circumstances, sheet_of};

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
