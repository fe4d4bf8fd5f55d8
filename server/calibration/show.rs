//! A judged calibration in the words and numbers of a page.

use super::advice::Told;
use super::runs;
use super::stored::word;
use crate::access::Units;
use crate::chart::Figure;
use crate::fleet::seeder::key_in::{Factor, KeyIn, per_100};
use crate::fleet::seeder::keyed_in::Said;
use crate::web::error::Error;
use crate::web::reader::Reader;
use sowmark_core::catch::{Catch, Repeat, Revolutions, Sheet};
use sowmark_core::circumstances::{Circumstances, ExpectedSource, ScaleStanding};
use sowmark_core::ids::CalibrationId;
use sowmark_core::quantity::unit::{self, dimension};
use sowmark_core::quantity::{Decimal, Unit, from_si, print_number, significant_digits_for};
use sowmark_core::say;
use sowmark_core::suspicion::{Cause, Suspicion, suspicions};
use sowmark_core::uncertainty::budget::BudgetTerm;
use sowmark_core::verdict::{CheckName, Judgement, RepeatResult, judge_in};
use sowmark_core::words::Words;

/// What was computed, ready to be shown.
#[derive(Debug)]
pub(super) struct Shown {
    pub(super) key_in: KeyIn,
    /// The line below the number.
    pub(super) also: String,
    pub(super) verdict: String,
    pub(super) numbers: Vec<Numbers>,
    pub(super) repeats: Vec<RepeatRow>,
    pub(super) checks: Vec<CheckRow>,
    pub(super) budget: Vec<BudgetRow>,
    pub(super) together: BudgetRow,
    /// Each run against the mean.
    pub(super) runs: Vec<String>,
    pub(super) minimum_catch: String,
    pub(super) told: Told,
    pub(super) run_figure: Option<Figure>,
    pub(super) suspicions: Vec<SuspicionRow>,
}

/// A slip that would explain the result.
#[derive(Debug)]
pub(super) struct SuspicionRow {
    pub(super) name: String,
    pub(super) says: String,
    pub(super) would_give: String,
}

/// A number with its unit.
#[derive(Debug)]
pub(super) struct Number {
    pub(super) value: String,
    pub(super) unit: String,
}

/// The factor for one run or for the whole unit, in every unit that a machine may ask for.
#[derive(Debug)]
pub(super) struct Numbers {
    pub(super) scope: String,
    pub(super) values: Vec<Number>,
}

/// One repeat as measured.
#[derive(Debug)]
pub(super) struct RepeatRow {
    pub(super) number: usize,
    pub(super) revolutions: String,
    pub(super) catches: Vec<CatchRow>,
    pub(super) caught: String,
    pub(super) factor: String,
    pub(super) cv: String,
    pub(super) set_aside: Option<String>,
}

#[derive(Debug)]
pub(super) struct CatchRow {
    pub(super) label: String,
    pub(super) runs: u32,
    pub(super) tare: String,
    pub(super) gross: String,
    pub(super) net: String,
}

#[derive(Debug)]
pub(super) struct CheckRow {
    /// The check's page.
    pub(super) href: String,
    pub(super) name: String,
    pub(super) outcome: String,
    pub(super) value: String,
    pub(super) limit: String,
    pub(super) says: String,
}

#[derive(Debug)]
pub(super) struct BudgetRow {
    pub(super) name: String,
    pub(super) says: String,
    pub(super) percent: String,
    pub(super) freedom: String,
}

impl Shown {
    /// # Errors
    /// None that a judgement could cause.
    pub(super) fn of(
        sheet: &Sheet,
        circumstances: &Circumstances,
        judgement: &Judgement,
        said: Said,
        reader: Reader,
    ) -> Result<Self, Error> {
        let judgement = &reworded(sheet, circumstances, judgement, reader.words);
        let words = reader.words;
        let within = judgement.expanded_uncertainty_percent;
        let numbers = [
            (say!(words, "keyed-for-run"), judgement.factor),
            (say!(words, "keyed-for-unit"), judgement.factor_unit_total),
        ];
        let key_in = key_in(judgement, said, reader);
        let also = say!(
            words,
            "calibration-also",
            within = words.number(judgement.expanded_uncertainty_percent, 2),
            factor = words.number(judgement.coverage_factor, 3),
            freedom = freedom(judgement.effective_degrees_of_freedom, reader),
            other = &key_in.also,
            runs = circumstances.runs_in_use,
        );
        let repeats = sheet.repeats.iter().zip(&judgement.repeats).enumerate();
        let repeats = repeats
            .map(|(at, (repeat, result))| repeat_row(at, repeat, (result, within), circumstances, reader))
            .collect();
        let checks = judgement.checks.iter().map(|check| {
            Ok::<_, Error>(CheckRow {
                href: format!("/checks/{}", check.check.name()),
                name: check_name(check.check, words),
                outcome: word(&check.outcome)?,
                value: found(check.value, &check.unit, words),
                limit: limit(check.limit, &check.unit, words),
                says: check.says.clone(),
            })
        });
        let budget = judgement.budget.iter().map(|line| BudgetRow {
            name: term_name(line.term, words),
            says: line.says.clone(),
            percent: words.number(line.relative_standard_uncertainty_percent, 2),
            freedom: freedom(line.degrees_of_freedom, reader),
        });
        let run = |percent: f64| format!("{}{} %", if percent > 0.0 { "+" } else { "" }, words.number(percent, 2));
        let run = |label: &str, percent: f64| format!("{} {}", words.run(label), run(percent));
        Ok(Self {
            key_in,
            also,
            verdict: word(&judgement.verdict)?,
            numbers: numbers.into_iter().map(|(scope, factor)| in_every_unit(scope, factor, within, reader)).collect(),
            repeats,
            checks: checks.collect::<Result<_, _>>()?,
            budget: budget.collect(),
            together: together(judgement, reader),
            runs: judgement.run_differences.iter().map(|found| run(&found.label, found.percent)).collect(),
            minimum_catch: both_masses(judgement.minimum_catch_kg, reader),
            told: Told::of(sheet, circumstances, judgement, words),
            run_figure: runs::figure(sheet, circumstances, words),
            suspicions: suspicion_rows(sheet, circumstances, judgement, reader),
        })
    }
}

fn together(judgement: &Judgement, reader: Reader) -> BudgetRow {
    let words = reader.words;
    BudgetRow {
        name: say!(words, "calibration-budget-together"),
        says: say!(
            words,
            "calibration-budget-expanded",
            within = words.number(judgement.expanded_uncertainty_percent, 2),
            factor = words.number(judgement.coverage_factor, 3)
        ),
        percent: words.number(judgement.combined_uncertainty_percent, 2),
        freedom: freedom(judgement.effective_degrees_of_freedom, reader),
    }
}

fn suspicion_rows(
    sheet: &Sheet,
    circumstances: &Circumstances,
    judgement: &Judgement,
    reader: Reader,
) -> Vec<SuspicionRow> {
    let (words, unit) = (reader.words, per_100(reader.units));
    let found = suspicions(sheet, circumstances, judgement, words).into_iter();
    // As in the sentence beside it: a hint is not to be keyed in, so three are enough.
    let within = judgement.expanded_uncertainty_percent;
    let digits = |factor: f64| significant_digits_for(from_si(factor, unit), within).min(3);
    let row = |suspicion: Suspicion| SuspicionRow {
        name: cause_name(suspicion.cause, words),
        says: suspicion.says,
        would_give: format!(
            "{} {}",
            words.print(suspicion.would_give, unit, digits(suspicion.would_give)),
            words.unit(unit.name())
        ),
    };
    found.map(row).collect()
}

/// The number to key in that a judgement comes to.
pub(super) fn key_in(judgement: &Judgement, said: Said, reader: Reader) -> KeyIn {
    let factor = Factor {
        per_run: judgement.factor,
        whole_unit: judgement.factor_unit_total,
        expanded_uncertainty_percent: judgement.expanded_uncertainty_percent,
    };
    KeyIn::of(said.0, &factor, reader)
}

/// The judgement with its sentences as this person reads numbers. What was stored has them with a point.
fn reworded(sheet: &Sheet, circumstances: &Circumstances, judgement: &Judgement, words: Words) -> Judgement {
    let again = judge_in(sheet, circumstances, words).ok();
    again.filter(|again| again.agrees_with(judgement)).unwrap_or_else(|| judgement.clone())
}

fn number(factor: f64, unit: Unit<dimension::MeterFactor>, within: f64, reader: Reader) -> Number {
    Number { value: reader.words.print_within(factor, unit, within), unit: reader.words.unit(unit.name()) }
}

/// Per revolution and per 100, in kilograms and pounds, the organization's own first.
fn in_every_unit(scope: String, factor: f64, within: f64, reader: Reader) -> Numbers {
    let all = match reader.units {
        Units::Metric => [unit::KG_PER_100REV, unit::KG_PER_REV, unit::G_PER_REV, unit::LB_PER_100REV],
        Units::Us => [unit::LB_PER_100REV, unit::KG_PER_100REV, unit::KG_PER_REV, unit::G_PER_REV],
    };
    let mut values: Vec<Number> = all.into_iter().map(|unit| number(factor, unit, within, reader)).collect();
    // Per single revolution there is no unit of the API in pounds; the screen of a machine may still ask for it.
    let pounds = factor / unit::LB.in_si();
    let value = reader.words.number(pounds, significant_digits_for(pounds, within));
    values.push(Number { value, unit: reader.words.unit("lb/rev") });
    Numbers { scope, values }
}

fn repeat_row(
    at: usize,
    repeat: &Repeat,
    (result, within): (&RepeatResult, f64),
    circumstances: &Circumstances,
    reader: Reader,
) -> RepeatRow {
    let mass = mass_unit(reader.units);
    let unit = per_100(reader.units);
    let factor = reader.words.print_within(result.factor, unit, within);
    let factor_says = format!("{factor} {}", reader.words.unit(unit.name()));
    // A difference of two readings is known to the step of the finer, a sum to that of its finest.
    let step = |catch: &Catch| catch.tare.resolution_si().min(catch.gross.resolution_si());
    let finest = repeat.catches.iter().map(step).fold(f64::INFINITY, f64::min);
    let catches = repeat.catches.iter().enumerate();
    let catches = catches.map(|(i, catch)| CatchRow {
        label: catch.label.clone().unwrap_or_else(|| reader.words.run(&format!("catch {}", i + 1))),
        runs: catch.runs,
        tare: reader.measured(&catch.tare.entered()),
        gross: reader.measured(&catch.gross.entered()),
        net: format!("{} {mass}", reader.words.to_step(catch.net_kg(), mass, step(catch))),
    });
    RepeatRow {
        number: at + 1,
        revolutions: revolutions(&repeat.revolutions, circumstances, reader.words),
        catches: catches.collect(),
        caught: format!("{} {mass}", reader.words.to_step(result.caught_kg, mass, finest)),
        factor: factor_says,
        cv: result
            .run_cv_percent
            .map_or_else(|| "\u{2013}".to_owned(), |cv| format!("{} %", reader.words.number(cv, 2))),
        set_aside: repeat.set_aside.clone(),
    }
}

pub(super) fn mass_unit(units: Units) -> Unit<dimension::Mass> {
    match units {
        Units::Metric => unit::KG,
        Units::Us => unit::LB,
    }
}

/// As entered, and what it makes where something else was counted.
fn revolutions(revolutions: &Revolutions, circumstances: &Circumstances, words: Words) -> String {
    let made = words.number(revolutions.count(circumstances.drive_ratio.value()), 4);
    let typed = |number: &Decimal| words.decimal(number.as_str());
    let ratio = words.decimal(&circumstances.drive_ratio.to_string());
    match revolutions {
        Revolutions::Counted(counted) => typed(counted),
        Revolutions::Pulses { pulses, pulses_per_rev } => {
            let (pulses, per) = (typed(pulses), typed(pulses_per_rev));
            say!(words, "calibration-by-pulses", made = made, pulses = pulses, per = per)
        }
        Revolutions::Turns { turns } => {
            say!(words, "calibration-by-turns", made = made, turns = typed(turns), ratio = ratio)
        }
        Revolutions::Distance { distance, circumference, slip_percent } => {
            let (distance, circumference) = (words.entered(distance), words.entered(circumference));
            let key = "calibration-by-distance";
            let Some(slip) = slip_percent else {
                return say!(
                    words,
                    key,
                    made = made,
                    distance = distance,
                    circumference = circumference,
                    ratio = ratio
                );
            };
            say!(
                words,
                "calibration-by-distance-and-slip",
                made = made,
                distance = distance,
                circumference = circumference,
                slip = typed(slip),
                ratio = ratio
            )
        }
    }
}

fn both_masses(kg: f64, reader: Reader) -> String {
    let (kg, lb) =
        (format!("{} kg", reader.words.print(kg, unit::KG, 3)), format!("{} lb", reader.words.print(kg, unit::LB, 3)));
    match reader.units {
        Units::Metric => format!("{kg} ({lb})"),
        Units::Us => format!("{lb} ({kg})"),
    }
}

/// What a check found: counts are whole, the rest has the digits a person can use.
fn found(value: Option<f64>, unit: &str, words: Words) -> String {
    match (value, unit) {
        (None, _) => "\u{2013}".to_owned(),
        (Some(value), "%") => words.percent(value),
        (Some(value), "repeats" | "catches") => format!("{value} {}", words.unit(unit)),
        (Some(value), _) => format!("{} {}", words.number(value, 3), words.unit(unit)).trim_end().to_owned(),
    }
}

/// What it is held against, as it was set.
fn limit(value: Option<f64>, unit: &str, words: Words) -> String {
    let says = |value: f64| format!("{} {}", words.exactly(value), words.unit(unit)).trim_end().to_owned();
    value.map_or_else(|| "\u{2013}".to_owned(), says)
}

fn freedom(degrees: Option<f64>, reader: Reader) -> String {
    degrees.map_or_else(|| "\u{221e}".to_owned(), |degrees| reader.words.number(degrees, 3))
}

pub(super) fn check_name(check: CheckName, words: Words) -> String {
    let key = match check {
        CheckName::Repeats => "check-name-repeats",
        CheckName::RepeatAgreement => "check-name-repeat-agreement",
        CheckName::RunUniformity => "check-name-run-uniformity",
        CheckName::CatchesApart => "check-name-catches-apart",
        CheckName::CatchMass => "check-name-catch-mass",
        CheckName::Uncertainty => "check-name-uncertainty",
        CheckName::RollerSpeed => "check-name-roller-speed",
        CheckName::Scale => "check-name-scale",
        CheckName::Plausibility => "check-name-plausibility",
    };
    say!(words, key)
}

/// What the factor was expected to be, and where that comes from; with the calibration it comes from, where it is one.
pub(super) fn expectation(circumstances: &Circumstances, reader: Reader) -> Option<(String, Option<CalibrationId>)> {
    let expected = circumstances.expected?;
    let (words, unit) = (reader.words, per_100(reader.units));
    let factor = format!("{} {}", words.print(expected.factor, unit, 3), words.unit(unit.name()));
    Some(match expected.source {
        ExpectedSource::LastCalibration { calibration_id, density_ratio } => {
            let changed = density_ratio.filter(|ratio| (ratio - 1.0).abs() >= 0.000_5);
            let says = match changed.map(|ratio| words.number(ratio, 3)) {
                Some(ratio) => {
                    say!(words, "calibration-expected-by-last-and-density", factor = factor, ratio = ratio)
                }
                None => say!(words, "calibration-expected-by-last", factor = factor),
            };
            (says, Some(calibration_id))
        }
        ExpectedSource::Displacement => (say!(words, "calibration-expected-by-displacement", factor = factor), None),
    })
}

fn cause_name(cause: Cause, words: Words) -> String {
    let key = match cause {
        Cause::TareLeftIn => "suspicion-name-tare-left-in",
        Cause::TareMissing => "suspicion-name-tare-missing",
        Cause::PoundsEnteredAsKilograms => "suspicion-name-pounds-as-kilograms",
        Cause::KilogramsEnteredAsPounds => "suspicion-name-kilograms-as-pounds",
        Cause::OuncesEnteredAsTenths => "suspicion-name-ounces-as-tenths",
        Cause::DecimalPoint => "suspicion-name-decimal-sign",
        Cause::HalfOfEachRun => "suspicion-name-half-of-each-run",
        Cause::RunsMiscounted => "suspicion-name-runs-miscounted",
        Cause::RevolutionsDoubled => "suspicion-name-revolutions-doubled",
        Cause::RevolutionsHalved => "suspicion-name-revolutions-halved",
        Cause::OtherDriveRatio => "suspicion-name-other-drive-ratio",
        Cause::OneRunLow => "suspicion-name-one-run-low",
        Cause::NotPrimed => "suspicion-name-not-primed",
        Cause::OtherRoller => "suspicion-name-other-roller",
    };
    say!(words, key)
}

fn term_name(term: BudgetTerm, words: Words) -> String {
    let key = match term {
        BudgetTerm::Repeatability => "calibration-budget-repeats",
        BudgetTerm::Readability => "calibration-budget-reading",
        BudgetTerm::Scale => "calibration-budget-scale",
        BudgetTerm::Revolutions => "calibration-budget-revolutions",
    };
    say!(words, key)
}

/// What was known of the machine, the scale and the seed, as rows of a list.
pub(super) fn circumstance_facts(circumstances: &Circumstances, reader: Reader) -> Vec<(String, String)> {
    let words = reader.words;
    let ratio = words.decimal(&circumstances.drive_ratio.to_string());
    let mut facts = vec![
        (say!(words, "calibration-drive-ratio"), ratio),
        (say!(words, "calibration-runs-in-use"), circumstances.runs_in_use.to_string()),
        (say!(words, "calibration-working-width"), length(circumstances.working_width_m, reader)),
    ];
    if let Some(speed) = circumstances.roller_speed_rpm {
        let says = say!(words, "calibration-roller-speed-was", speed = words.number(speed, 3));
        facts.push((say!(words, "calibration-roller-speed"), says));
    }
    if let Some(planned) = &circumstances.planned {
        let (rate, speed) = (reader.measured(&planned.rate.entered()), reader.measured(&planned.speed.entered()));
        let says = say!(words, "calibration-planned-was", rate = rate, speed = speed);
        facts.push((say!(words, "calibration-planned"), says));
    }
    facts.push((say!(words, "calibration-scale-then"), scale_says(circumstances, reader)));
    if let Some(grams) = circumstances.thousand_seed_weight_g {
        facts
            .push((say!(words, "calibration-thousand-seeds"), format!("{} g", words.trimmed(&print_number(grams, 4)))));
    }
    facts
}

/// Metres, or feet for those who read them.
pub(super) fn length(metres: f64, reader: Reader) -> String {
    match reader.units {
        Units::Metric => format!("{} m", reader.words.short(metres, unit::M, 4)),
        Units::Us => format!("{} ft", reader.words.short(metres, unit::FT, 4)),
    }
}

/// Centimetres or inches, for what is measured between rows.
pub(super) fn short_length(metres: f64, reader: Reader) -> String {
    match reader.units {
        Units::Metric => format!("{} cm", reader.words.short(metres, unit::CM, 4)),
        Units::Us => format!("{} in", reader.words.short(metres, unit::IN, 4)),
    }
}

fn scale_says(circumstances: &Circumstances, reader: Reader) -> String {
    let words = reader.words;
    let Some(scale) = &circumstances.scale else { return say!(words, "calibration-scale-not-named") };
    let check = match scale.last_check {
        ScaleStanding::NeverChecked => "never",
        ScaleStanding::PassedWithin => "in-force",
        ScaleStanding::PassedLongAgo => "long-ago",
        ScaleStanding::Failed => "failed",
    };
    say!(words, "calibration-scale-was", step = reader.measured(&scale.readability.entered()), check = check)
}
