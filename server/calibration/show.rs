//! A judged calibration in the words and numbers of a page.

use super::advice::Told;
use super::draft::Method;
use super::runs;
use super::stored::word;
use crate::access::Units;
use crate::chart::Figure;
use crate::fleet::seeder::key_in::{Factor, KeyIn, per_100};
use crate::fleet::seeder::keyed_in::Said;
use crate::web::error::Error;
use crate::web::reader::Reader;
use sowmark_core::catch::{Repeat, Revolutions, Sheet};
use sowmark_core::circumstances::{Circumstances, ExpectedSource, ScaleStanding};
use sowmark_core::ids::CalibrationId;
use sowmark_core::quantity::unit::{self, dimension};
use sowmark_core::quantity::{Decimal, Unit, significant_digits_for};
use sowmark_core::suspicion::{Cause, suspicions};
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
    pub(super) runs: Vec<(String, String)>,
    pub(super) minimum_catch: String,
    pub(super) told: Told,
    pub(super) run_figure: Option<Figure>,
    pub(super) suspicions: Vec<SuspicionRow>,
}

/// A slip that would explain the result.
#[derive(Debug)]
pub(super) struct SuspicionRow {
    pub(super) name: &'static str,
    pub(super) says: String,
    pub(super) would_give: Number,
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
    pub(super) name: &'static str,
    pub(super) outcome: String,
    pub(super) value: String,
    pub(super) limit: String,
    pub(super) says: String,
}

#[derive(Debug)]
pub(super) struct BudgetRow {
    pub(super) name: &'static str,
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
        let units = reader.units;
        let per_100 = per_100(units);
        let digits = significant_digits_for(judgement.factor, judgement.expanded_uncertainty_percent);
        let numbers = [("per run", judgement.factor), ("whole unit", judgement.factor_unit_total)];
        let key_in = KeyIn::of(
            said.0,
            &Factor {
                per_run: judgement.factor,
                whole_unit: judgement.factor_unit_total,
                expanded_uncertainty_percent: judgement.expanded_uncertainty_percent,
            },
            reader,
        );
        let runs = circumstances.runs_in_use;
        let also = format!(
            "\u{b1} {} % (k = {}, {} degrees of freedom); {}, {runs} run{}",
            reader.words.number(judgement.expanded_uncertainty_percent, 2),
            reader.words.number(judgement.coverage_factor, 3),
            freedom(judgement.effective_degrees_of_freedom, reader),
            key_in.also,
            if runs == 1 { "" } else { "s" },
        );
        let repeats = sheet.repeats.iter().zip(&judgement.repeats).enumerate();
        let repeats = repeats
            .map(|(at, (repeat, result))| repeat_row(at, repeat, (result, digits), circumstances, reader))
            .collect();
        let checks = judgement.checks.iter().map(|check| {
            Ok::<_, Error>(CheckRow {
                href: format!("/checks/{}", check.check.name()),
                name: check_name(check.check),
                outcome: word(&check.outcome)?,
                value: found(check.value, &check.unit, reader.words),
                limit: limit(check.limit, &check.unit, reader.words),
                says: check.says.clone(),
            })
        });
        let budget = judgement.budget.iter().map(|line| BudgetRow {
            name: term_name(line.term),
            says: line.says.clone(),
            percent: reader.words.number(line.relative_standard_uncertainty_percent, 2),
            freedom: freedom(line.degrees_of_freedom, reader),
        });
        let together = BudgetRow {
            name: "Together",
            says: format!(
                "\u{b1} {} % with k = {}",
                reader.words.number(judgement.expanded_uncertainty_percent, 2),
                reader.words.number(judgement.coverage_factor, 3)
            ),
            percent: reader.words.number(judgement.combined_uncertainty_percent, 2),
            freedom: freedom(judgement.effective_degrees_of_freedom, reader),
        };
        let run =
            |percent: f64| format!("{}{} %", if percent > 0.0 { "+" } else { "" }, reader.words.number(percent, 2));
        Ok(Self {
            key_in,
            also,
            verdict: word(&judgement.verdict)?,
            numbers: numbers.into_iter().map(|(scope, factor)| in_every_unit(scope, factor, digits, reader)).collect(),
            repeats,
            checks: checks.collect::<Result<_, _>>()?,
            budget: budget.collect(),
            together,
            runs: judgement.run_differences.iter().map(|found| (found.label.clone(), run(found.percent))).collect(),
            minimum_catch: both_masses(judgement.minimum_catch_kg, reader),
            told: Told::of(sheet, circumstances, judgement, reader.words),
            run_figure: runs::figure(sheet, circumstances, reader.words),
            suspicions: suspicions(sheet, circumstances, judgement, reader.words)
                .into_iter()
                .map(|suspicion| SuspicionRow {
                    name: cause_name(suspicion.cause),
                    says: suspicion.says,
                    would_give: number(suspicion.would_give, per_100, 3, reader),
                })
                .collect(),
        })
    }
}

/// The judgement with its sentences as this person reads numbers. What was stored has them with a point.
fn reworded(sheet: &Sheet, circumstances: &Circumstances, judgement: &Judgement, words: Words) -> Judgement {
    let again = judge_in(sheet, circumstances, words).ok();
    again.filter(|again| again.agrees_with(judgement)).unwrap_or_else(|| judgement.clone())
}

fn number(factor: f64, unit: Unit<dimension::MeterFactor>, digits: usize, reader: Reader) -> Number {
    Number { value: reader.words.print(factor, unit, digits), unit: unit.name().to_owned() }
}

/// Per revolution and per 100, in kilograms and pounds, the organization's own first.
fn in_every_unit(scope: &str, factor: f64, digits: usize, reader: Reader) -> Numbers {
    let all = match reader.units {
        Units::Metric => [unit::KG_PER_100REV, unit::KG_PER_REV, unit::G_PER_REV, unit::LB_PER_100REV],
        Units::Us => [unit::LB_PER_100REV, unit::KG_PER_100REV, unit::KG_PER_REV, unit::G_PER_REV],
    };
    let mut values: Vec<Number> = all.into_iter().map(|unit| number(factor, unit, digits, reader)).collect();
    // Per single revolution there is no unit of the API in pounds; the screen of a machine may still ask for it.
    values.push(Number { value: reader.words.number(factor / unit::LB.in_si(), digits), unit: "lb/rev".to_owned() });
    Numbers { scope: scope.to_owned(), values }
}

fn repeat_row(
    at: usize,
    repeat: &Repeat,
    (result, digits): (&RepeatResult, usize),
    circumstances: &Circumstances,
    reader: Reader,
) -> RepeatRow {
    let mass = mass_unit(reader.units);
    let unit = per_100(reader.units);
    let factor_says = format!("{} {unit}", reader.words.print(result.factor, unit, digits));
    let catches = repeat.catches.iter().enumerate();
    let catches = catches.map(|(i, catch)| CatchRow {
        label: catch.label.clone().unwrap_or_else(|| format!("catch {}", i + 1)),
        runs: catch.runs,
        tare: reader.measured(&catch.tare.entered()),
        gross: reader.measured(&catch.gross.entered()),
        net: format!("{} {mass}", reader.words.print(catch.net_kg(), mass, 4)),
    });
    RepeatRow {
        number: at + 1,
        revolutions: revolutions(&repeat.revolutions, circumstances, reader.words),
        catches: catches.collect(),
        caught: format!("{} {mass}", reader.words.print(result.caught_kg, mass, 4)),
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
            format!("{made} ({} pulses, {} a revolution)", typed(pulses), typed(pulses_per_rev))
        }
        Revolutions::Turns { turns } => format!("{made} ({} turns, ratio {ratio})", typed(turns)),
        Revolutions::Distance { distance, circumference, slip_percent } => {
            let (distance, circumference) = (words.entered(distance), words.entered(circumference));
            let slip = slip_percent.as_ref().map_or_else(String::new, |slip| format!(", slip {} %", typed(slip)));
            format!("{made} ({distance}, circumference {circumference}{slip}, ratio {ratio})")
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
        (Some(value), "repeats" | "catches") => format!("{value} {unit}"),
        (Some(value), _) => format!("{} {unit}", words.number(value, 3)).trim_end().to_owned(),
    }
}

/// What it is held against, as it was set.
fn limit(value: Option<f64>, unit: &str, words: Words) -> String {
    value
        .map_or_else(|| "\u{2013}".to_owned(), |value| format!("{} {unit}", words.exactly(value)).trim_end().to_owned())
}

fn freedom(degrees: Option<f64>, reader: Reader) -> String {
    degrees.map_or_else(|| "\u{221e}".to_owned(), |degrees| reader.words.number(degrees, 3))
}

pub(super) fn check_name(check: CheckName) -> &'static str {
    match check {
        CheckName::Repeats => "Repeats",
        CheckName::RepeatAgreement => "Repeats agree",
        CheckName::RunUniformity => "Runs agree",
        CheckName::CatchesApart => "Runs weighed apart",
        CheckName::CatchMass => "Catch mass",
        CheckName::Uncertainty => "Uncertainty",
        CheckName::RollerSpeed => "Roller speed",
        CheckName::Scale => "Scale",
        CheckName::Plausibility => "Plausible",
    }
}

/// What the factor was expected to be, and where that comes from; with the calibration it comes from, where it is one.
pub(super) fn expectation(circumstances: &Circumstances, reader: Reader) -> Option<(String, Option<CalibrationId>)> {
    let expected = circumstances.expected?;
    let unit = per_100(reader.units);
    let about = format!("about {} {unit} per run", reader.words.print(expected.factor, unit, 3));
    Some(match expected.source {
        ExpectedSource::LastCalibration { calibration_id, density_ratio } => {
            let changed = density_ratio.filter(|ratio| (ratio - 1.0).abs() >= 0.000_5);
            let density = changed.map_or_else(String::new, |ratio| {
                format!(", times {} for the bulk density now and then", reader.words.number(ratio, 3))
            });
            let from = format!("{about}, from the last calibration with this roller and crop{density}");
            (from, Some(calibration_id))
        }
        ExpectedSource::Displacement => (format!("{about}, from the roller's displacement and the bulk density"), None),
    })
}

fn cause_name(cause: Cause) -> &'static str {
    match cause {
        Cause::TareLeftIn => "The bags were weighed in",
        Cause::TareMissing => "One tare is missing",
        Cause::PoundsEnteredAsKilograms => "Pounds entered as kilograms",
        Cause::KilogramsEnteredAsPounds => "Kilograms entered as pounds",
        Cause::OuncesEnteredAsTenths => "Ounces entered as tenths of a pound",
        Cause::DecimalPoint => "Decimal sign one place off",
        Cause::HalfOfEachRun => "Half of each run caught",
        Cause::RunsMiscounted => "Runs miscounted",
        Cause::RevolutionsDoubled => "Revolutions doubled",
        Cause::RevolutionsHalved => "Revolutions halved",
        Cause::OtherDriveRatio => "Another drive ratio",
        Cause::OneRunLow => "One run low",
        Cause::NotPrimed => "Meter not primed",
        Cause::OtherRoller => "Another roller",
    }
}

fn term_name(term: BudgetTerm) -> &'static str {
    match term {
        BudgetTerm::Repeatability => "Repeats",
        BudgetTerm::Readability => "Reading the scale",
        BudgetTerm::Scale => "Scale",
        BudgetTerm::Revolutions => "Revolutions",
    }
}

/// What was known of the machine, the scale and the seed, as rows of a list.
pub(super) fn circumstance_facts(circumstances: &Circumstances, reader: Reader) -> Vec<(&'static str, String)> {
    let words = reader.words;
    let mut facts = vec![("Drive ratio", words.decimal(&circumstances.drive_ratio.to_string()))];
    facts.push(("Runs in use", circumstances.runs_in_use.to_string()));
    facts.push(("Working width", length(circumstances.working_width_m, reader)));
    if let Some(speed) = circumstances.roller_speed_rpm {
        facts.push(("Roller speed", format!("{} revolutions per minute", reader.words.number(speed, 3))));
    }
    if let Some(planned) = &circumstances.planned {
        facts.push((
            "Planned",
            format!("{} at {}", reader.measured(&planned.rate.entered()), reader.measured(&planned.speed.entered())),
        ));
    }
    facts.push(("Scale was", scale_says(circumstances, reader)));
    if let Some(grams) = circumstances.thousand_seed_weight_g {
        facts.push(("Thousand seeds", format!("{} g", reader.words.number(grams, 3))));
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
    let Some(scale) = &circumstances.scale else { return "not named".to_owned() };
    let check = match scale.last_check {
        ScaleStanding::NeverChecked => "never checked with a known mass",
        ScaleStanding::PassedWithin => "its last check in force",
        ScaleStanding::PassedLongAgo => "its last check passed, too long ago",
        ScaleStanding::Failed => "its last check failed",
    };
    format!("step {}, {check}", reader.measured(&scale.readability.entered()))
}

/// How the roller was turned, in words.
pub(super) fn method_says(method: &str) -> &'static str {
    match Method::from_word(method) {
        Some(Method::Driven) => "driven over a distance",
        Some(Method::HandTurned) => "turned by hand",
        Some(Method::Stationary) | None => "standing, by its drive",
    }
}
