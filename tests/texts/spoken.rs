//! What core makes of sheets and records, in English and in every other language: nothing of it may stay English.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use sowmark_core::advice::{Goal, next_catch};
use sowmark_core::catch::Sheet;
use sowmark_core::circumstances::{Circumstances, Expected, Planned, ScaleStanding};
use sowmark_core::factor::measure;
use sowmark_core::figure::Figure;
use sowmark_core::policy::Policy;
use sowmark_core::quantity::{Decimal, DriveRatio, Mass, Rate, Speed};
use sowmark_core::rate::{DriveRange, next_setting};
use sowmark_core::readiness::Trigger;
use sowmark_core::runs;
use sowmark_core::seed::Convention;
use sowmark_core::suspicion::{Cause, suspicions};
use sowmark_core::texts::{Catalogue, Language};
use sowmark_core::verdict::{CheckName, Outcome, judge, judge_in};
use sowmark_core::words::{DecimalSign, Words};

use crate::chance::Chance;
use crate::ftl::{languages, read};
use crate::leftovers::left_over;
use crate::mistakes;

static OTHERS: LazyLock<Vec<Catalogue>> = LazyLock::new(|| {
    let made = languages().into_iter().map(|tag| {
        let path = format!("texts/{tag}.ftl");
        Catalogue::new(&tag, &[(&path, &read(&path))], Some(Language::default().catalogue())).expect(&path)
    });
    made.collect()
});

/// The words of a reader of a language, decimals with a point.
pub(crate) fn words(tag: &str) -> Words {
    let catalogue = OTHERS.iter().find(|catalogue| catalogue.tag() == tag).expect(tag);
    Words { decimal: DecimalSign::Point, language: Language::of(catalogue) }
}

fn others() -> impl Iterator<Item = Words> {
    OTHERS.iter().map(|catalogue| Words { decimal: DecimalSign::Point, language: Language::of(catalogue) })
}

/// Says it in every language, and holds each against English.
#[track_caller]
fn speaks(say: impl Fn(Words) -> String) {
    speak(|words| vec![say(words)]);
}

/// The same of sentences that are made together.
#[track_caller]
fn speak(say: impl Fn(Words) -> Vec<String>) {
    let english = say(Words::default());
    for words in others() {
        let (others, tag) = (say(words), words.language.tag());
        assert_eq!(others.len(), english.len());
        for (english, other) in english.iter().zip(&others) {
            assert_ne!(other, english, "not in {tag}");
            assert_eq!(left_over(&named(english), &named(other)), Vec::<String>::new(), "{tag}: {other}\n{english}");
            assert!(!other.contains('{') && !other.contains("  "), "{other}");
        }
    }
}

/// Without what a person named: "run 3", the roller "the one that is in".
fn named(text: &str) -> String {
    let bare = text.replace("run ", "").replace("Run ", "");
    match (bare.find('\u{201c}'), bare.find('\u{201d}')) {
        (Some(from), Some(to)) if from < to => [&bare[..from], &bare[to..]].concat(),
        _ => bare,
    }
}

/// Days at the machine with each slip made on purpose, in circumstances of all kinds.
fn days() -> Vec<(Sheet, Circumstances)> {
    let mut days = Vec::new();
    for (at, cause) in Cause::ALL.into_iter().enumerate() {
        for seed in 0..12_u64 {
            let mut chance = Chance::new(1000 * at as u64 + seed);
            let Some(made) = mistakes::make(cause, &mut chance) else { continue };
            let (sheet, mut circumstances) = (made.sheet, made.circumstances);
            days.push((sheet.clone(), circumstances.clone()));
            in_other_circumstances(&mut circumstances, seed);
            days.push((sheet, circumstances));
        }
    }
    days
}

fn in_other_circumstances(circumstances: &mut Circumstances, seed: u64) {
    let standings =
        [ScaleStanding::PassedWithin, ScaleStanding::PassedLongAgo, ScaleStanding::NeverChecked, ScaleStanding::Failed];
    if let Some(scale) = &mut circumstances.scale {
        scale.last_check = standings[usize::try_from(seed).expect("small") % standings.len()];
    }
    circumstances.roller_speed_rpm = Some([30.0, 52.0, 200.0][usize::try_from(seed).expect("small") % 3]);
    circumstances.drive_range = Some(DriveRange { min_rpm: 10.0, max_rpm: 120.0 });
    if seed % 2 == 0 {
        let rate = Rate::parse_text("140 kg/ha").expect("a rate");
        circumstances.planned = Some(Planned { rate, speed: Speed::parse_text("9 km/h").expect("a speed") });
        circumstances.policy.roller_speed_tolerance_percent = if seed % 4 == 0 { 500.0 } else { 1.0 };
    }
    if seed % 5 == 0 {
        circumstances.scale = None;
        circumstances.policy.catch_resolution_limit_percent = 0.01;
    }
    if seed % 7 == 0 {
        circumstances.policy.minimum_repeats = 3;
        circumstances.policy.uncertainty_limit_percent = 0.3;
        circumstances.expected = Some(Expected::from_displacement(40e-6, 700.0));
    }
    if seed % 3 == 0 {
        circumstances.policy.repeat_spread_limit_percent = 0.2;
        circumstances.policy.run_cv_remark_percent = 0.5;
        circumstances.policy.run_cv_limit_percent = 5.0;
    }
}

#[test]
fn every_outcome_of_every_check() {
    let mut seen = BTreeSet::new();
    for (sheet, circumstances) in days() {
        let Ok(english) = judge(&sheet, &circumstances) else { continue };
        seen.extend(english.checks.iter().map(|check| (check.check, check.outcome)));
        speak(|words| {
            let judgement = judge_in(&sheet, &circumstances, words).expect("as in English");
            let checks = judgement.checks.into_iter().map(|check| check.says);
            checks.chain(judgement.budget.into_iter().map(|line| line.says)).collect()
        });
    }
    let wanted = |check: CheckName| match check {
        CheckName::CatchesApart => vec![Outcome::Pass, Outcome::Remark],
        _ => vec![Outcome::Pass, Outcome::Remark, Outcome::Fail],
    };
    for check in CheckName::ALL {
        for outcome in wanted(check) {
            assert!(seen.contains(&(check, outcome)), "{check:?} {outcome:?} was never met");
        }
    }
}

#[test]
fn every_suspicion_and_every_advice() {
    let (mut causes, mut goals) = (BTreeSet::new(), BTreeSet::new());
    for (sheet, circumstances) in days() {
        let Ok(judgement) = judge(&sheet, &circumstances) else { continue };
        let measured = measure(&sheet, &circumstances);
        let suspected = |words| suspicions(&sheet, &circumstances, &judgement, words);
        let advised = |words| next_catch(&sheet, &circumstances, &judgement, words);
        causes.extend(suspected(Words::default()).into_iter().map(|suspicion| suspicion.cause));
        goals.extend(
            advised(Words::default()).iter().map(|advice| format!("{:?} {}", advice.goal, advice.further.is_some())),
        );
        speak(|words| suspected(words).into_iter().map(|suspicion| suspicion.says).collect());
        speak(|words| advised(words).into_iter().map(|advice| advice.says).collect());
        speak(|words| runs::says(&measured, &judgement, words));
    }
    let missing: Vec<_> = Cause::ALL.into_iter().filter(|cause| !causes.contains(cause)).collect();
    assert!(missing.is_empty(), "never suspected: {missing:?}");
    for goal in [Goal::CatchMass, Goal::Uncertainty, Goal::HalfUncertainty] {
        assert!(goals.contains(&format!("{goal:?} true")), "{goal:?} was never advised: {goals:?}");
    }
}

#[test]
fn every_check_and_every_tolerance_explained() {
    for check in CheckName::ALL {
        speaks(|words| check.explained(words).says);
        speaks(|words| check.explained(words).source);
    }
    for field in Policy::fields() {
        speaks(|words| field.label(words));
        speaks(|words| field.because(words));
        let unit = field.unit_in(Words::default());
        if unit.chars().filter(|letter| letter.is_alphabetic()).count() > 2 {
            speaks(|words| field.unit_in(words));
        }
    }
    for convention in [Convention::Given, Convention::Multiplied, Convention::Subtracted] {
        speaks(|words| convention.says(words));
    }
}

#[test]
fn every_refusal_of_an_entry() {
    for entered in ["", "1.234,5", "?", "1234567890123456789", "0.0000000000000000001", &"1".repeat(70)] {
        let refused = Decimal::parse(entered).expect_err(entered);
        speaks(|words| refused.says(words));
    }
    for number in ["1,5", "1e99"] {
        let refused = Decimal::parse_json_number(number).expect_err(number);
        speaks(|words| refused.says(words));
    }
    for entered in ["kg", "5", "5 °", "5.5 lb 8 oz", "5 lb 16 oz", "-5 lb 8 oz", "999999999999999 lb 8.001 oz"] {
        let refused = Mass::parse_text(entered).expect_err(entered);
        speaks(|words| refused.says(words));
    }
    for entered in ["?", "0:1", "100000"] {
        let refused = DriveRatio::parse(entered).expect_err(entered);
        speaks(|words| refused.says(words));
    }
    let refused = "lot".parse::<Trigger>().expect_err("no trigger");
    assert!(refused.says(words("es")).starts_with("«lot» no es un motivo; use uno de never_calibrated, "));
    let mut policy = Policy::default();
    for (name, given) in [("colour", "1"), ("interval_days", "0"), ("minimum_repeats", "x"), ("recall_allowed", "2")] {
        let refused = policy.set(name, Some(given)).expect_err(name);
        speaks(|words| refused.says(words).replace(name, ""));
    }
}

#[test]
fn every_figure_that_cannot_be_so() {
    use Figure as F;
    for figure in [
        F::Plants,
        F::Seeds,
        F::SeedsCounted,
        F::SampleMass,
        F::SeedWeight,
        F::SeedsPerKg,
        F::Establishment,
        F::Germination,
        F::Emergence,
        F::Loss,
        F::Purity,
        F::HardSeed,
        F::Rate,
        F::RowSpacing,
        F::BulkDensity,
        F::SeedWeightDoubt,
        F::ShareDoubt,
        F::Slip,
        F::MetresPerTurn,
        F::Setting,
        F::Measured,
        F::Wanted,
    ] {
        for given in [f64::NAN, 1e13, -1e-12, 9e11, -60.0] {
            // A slip may lie a little below nothing.
            let Err(impossible) = figure.check(given) else { continue };
            speaks(|words| impossible.says(words));
        }
        assert!(figure.check(f64::INFINITY).is_err() && figure.check(-60.0).is_err());
    }
    for wanted in [100.0, 50.0, 110.0, 200.0] {
        let next = next_setting(10.0, 100.0, wanted).expect("possible");
        speaks(|words| next.says(words));
    }
}

#[test]
fn findings_of_a_sheet() {
    let Some(made) = mistakes::make(Cause::OtherRoller, &mut Chance::new(1)) else { panic!("a day") };
    let (mut sheet, mut circumstances) = (made.sheet, made.circumstances);
    circumstances.working_width_m = 0.0;
    circumstances.drive_range = Some(DriveRange { min_rpm: 9.0, max_rpm: 3.0 });
    circumstances.policy.interval_days = Some(0.0);
    sheet.repeats[0].set_aside = Some(" ".to_owned());
    sheet.repeats[0].catches.clear();
    let english = sheet.check(&circumstances);
    assert!(english.len() > 4, "{english:?}");
    speak(|words| {
        let findings = sheet.check_in(&circumstances, words).into_iter();
        findings.map(|finding| finding.says.replace("interval_days", "")).collect()
    });
}
