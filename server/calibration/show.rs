//! A judged calibration in the words and numbers of a page.

use super::draft::Method;
use super::stored::word;
use crate::access::Units;
use crate::web::error::Error;
use sowmark_core::catch::{Repeat, Revolutions, Sheet};
use sowmark_core::circumstances::{Circumstances, ExpectedSource, ScaleStanding};
use sowmark_core::quantity::unit::{self, dimension};
use sowmark_core::quantity::{Unit, print, print_number, significant_digits_for};
use sowmark_core::uncertainty::budget::BudgetTerm;
use sowmark_core::verdict::{CheckName, Judgement, RepeatResult};

/// What was computed, ready to be shown.
#[derive(Debug)]
pub(super) struct Shown {
    pub(super) key_in: Number,
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
    pub(super) scatter_is_rounding: bool,
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
        units: Units,
    ) -> Result<Self, Error> {
        let per_100 = per_100(units);
        let digits = significant_digits_for(judgement.factor, judgement.expanded_uncertainty_percent);
        let numbers = [("per run", judgement.factor), ("whole unit", judgement.factor_unit_total)];
        let key_in = number(judgement.factor, per_100, digits);
        let whole = number(judgement.factor_unit_total, per_100, digits);
        let runs = circumstances.runs_in_use;
        let also = format!(
            "\u{b1} {} % (k = {}, {} degrees of freedom); {} {} for the whole unit, {runs} run{}",
            print_number(judgement.expanded_uncertainty_percent, 2),
            print_number(judgement.coverage_factor, 3),
            freedom(judgement.effective_degrees_of_freedom),
            whole.value,
            whole.unit,
            if runs == 1 { "" } else { "s" },
        );
        let repeats = sheet.repeats.iter().zip(&judgement.repeats).enumerate();
        let repeats =
            repeats.map(|(at, (repeat, result))| repeat_row(at, repeat, result, circumstances, units)).collect();
        let checks = judgement.checks.iter().map(|check| {
            Ok::<_, Error>(CheckRow {
                name: check_name(check.check),
                outcome: word(&check.outcome)?,
                value: valued(check.value, &check.unit),
                limit: valued(check.limit, &check.unit),
                says: check.says.clone(),
            })
        });
        let budget = judgement.budget.iter().map(|line| BudgetRow {
            name: term_name(line.term),
            says: line.says.clone(),
            percent: print_number(line.relative_standard_uncertainty_percent, 2),
            freedom: freedom(line.degrees_of_freedom),
        });
        let together = BudgetRow {
            name: "Together",
            says: format!(
                "\u{b1} {} % with k = {}",
                print_number(judgement.expanded_uncertainty_percent, 2),
                print_number(judgement.coverage_factor, 3)
            ),
            percent: print_number(judgement.combined_uncertainty_percent, 2),
            freedom: freedom(judgement.effective_degrees_of_freedom),
        };
        let run = |percent: f64| format!("{}{} %", if percent > 0.0 { "+" } else { "" }, print_number(percent, 2));
        Ok(Self {
            key_in,
            also,
            verdict: word(&judgement.verdict)?,
            numbers: numbers.into_iter().map(|(scope, factor)| in_every_unit(scope, factor, digits, units)).collect(),
            repeats,
            checks: checks.collect::<Result<_, _>>()?,
            budget: budget.collect(),
            together,
            runs: judgement.run_differences.iter().map(|found| (found.label.clone(), run(found.percent))).collect(),
            minimum_catch: both_masses(judgement.minimum_catch_kg, units),
            scatter_is_rounding: judgement.scatter_is_rounding,
        })
    }
}

fn per_100(units: Units) -> Unit<dimension::MeterFactor> {
    match units {
        Units::Metric => unit::KG_PER_100REV,
        Units::Us => unit::LB_PER_100REV,
    }
}

fn number(factor: f64, unit: Unit<dimension::MeterFactor>, digits: usize) -> Number {
    Number { value: print(factor, unit, digits), unit: unit.name().to_owned() }
}

/// Per revolution and per 100, in kilograms and pounds, the organization's own first.
fn in_every_unit(scope: &str, factor: f64, digits: usize, units: Units) -> Numbers {
    let all = match units {
        Units::Metric => [unit::KG_PER_100REV, unit::KG_PER_REV, unit::G_PER_REV, unit::LB_PER_100REV],
        Units::Us => [unit::LB_PER_100REV, unit::KG_PER_100REV, unit::KG_PER_REV, unit::G_PER_REV],
    };
    let mut values: Vec<Number> = all.into_iter().map(|unit| number(factor, unit, digits)).collect();
    // Per single revolution there is no unit of the API in pounds; the screen of a machine may still ask for it.
    values.push(Number { value: print_number(factor / unit::LB.in_si(), digits), unit: "lb/rev".to_owned() });
    Numbers { scope: scope.to_owned(), values }
}

fn repeat_row(
    at: usize,
    repeat: &Repeat,
    result: &RepeatResult,
    circumstances: &Circumstances,
    units: Units,
) -> RepeatRow {
    let mass = mass_unit(units);
    let catches = repeat.catches.iter().enumerate();
    let catches = catches.map(|(i, catch)| CatchRow {
        label: catch.label.clone().unwrap_or_else(|| format!("catch {}", i + 1)),
        runs: catch.runs,
        tare: catch.tare.entered(),
        gross: catch.gross.entered(),
        net: format!("{} {mass}", print(catch.net_kg(), mass, 4)),
    });
    RepeatRow {
        number: at + 1,
        revolutions: revolutions(&repeat.revolutions, circumstances),
        catches: catches.collect(),
        caught: format!("{} {mass}", print(result.caught_kg, mass, 4)),
        factor: print(result.factor, per_100(units), 4),
        cv: result.run_cv_percent.map_or_else(|| "\u{2013}".to_owned(), |cv| format!("{} %", print_number(cv, 2))),
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
fn revolutions(revolutions: &Revolutions, circumstances: &Circumstances) -> String {
    let made = print_number(revolutions.count(circumstances.drive_ratio.value()), 4);
    match revolutions {
        Revolutions::Counted(counted) => counted.as_str().to_owned(),
        Revolutions::Pulses { pulses, pulses_per_rev } => {
            format!("{made} ({pulses} pulses, {pulses_per_rev} a revolution)")
        }
        Revolutions::Turns { turns } => format!("{made} ({turns} turns, ratio {})", circumstances.drive_ratio),
        Revolutions::Distance { distance, circumference } => {
            format!("{made} ({distance}, circumference {circumference}, ratio {})", circumstances.drive_ratio)
        }
    }
}

fn both_masses(kg: f64, units: Units) -> String {
    let (kg, lb) = (format!("{} kg", print(kg, unit::KG, 3)), format!("{} lb", print(kg, unit::LB, 3)));
    match units {
        Units::Metric => format!("{kg} ({lb})"),
        Units::Us => format!("{lb} ({kg})"),
    }
}

fn valued(value: Option<f64>, unit: &str) -> String {
    match value {
        Some(value) => format!("{} {unit}", print_number(value, 3)).trim_end().to_owned(),
        None => "\u{2013}".to_owned(),
    }
}

fn freedom(degrees: Option<f64>) -> String {
    degrees.map_or_else(|| "\u{221e}".to_owned(), |degrees| print_number(degrees, 3))
}

fn check_name(check: CheckName) -> &'static str {
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

fn term_name(term: BudgetTerm) -> &'static str {
    match term {
        BudgetTerm::Repeatability => "Repeats",
        BudgetTerm::Readability => "Reading the scale",
        BudgetTerm::Scale => "Scale",
        BudgetTerm::Revolutions => "Revolutions",
    }
}

/// What was known of the machine, the scale and the seed, as rows of a list.
pub(super) fn circumstance_facts(circumstances: &Circumstances, units: Units) -> Vec<(&'static str, String)> {
    let mut facts = vec![("Drive ratio", circumstances.drive_ratio.to_string())];
    facts.push(("Runs in use", circumstances.runs_in_use.to_string()));
    facts.push(("Working width", format!("{} m", print_number(circumstances.working_width_m, 4))));
    if let Some(speed) = circumstances.roller_speed_rpm {
        facts.push(("Roller speed", format!("{} revolutions per minute", print_number(speed, 3))));
    }
    if let Some(planned) = &circumstances.planned {
        facts.push(("Planned", format!("{} at {}", planned.rate, planned.speed)));
    }
    facts.push(("Scale was", scale_says(circumstances)));
    if let Some(grams) = circumstances.thousand_seed_weight_g {
        facts.push(("Thousand seeds", format!("{} g", print_number(grams, 3))));
    }
    if let Some(expected) = &circumstances.expected {
        let unit = per_100(units);
        let from = match expected.source {
            ExpectedSource::LastCalibration { .. } => "from the unit's last calibration with this roller and crop",
            ExpectedSource::Displacement => "from the roller's displacement and the bulk density",
        };
        facts.push(("Expected", format!("about {} {unit} per run, {from}", print(expected.factor, unit, 3))));
    }
    facts
}

fn scale_says(circumstances: &Circumstances) -> String {
    let Some(scale) = &circumstances.scale else { return "not named".to_owned() };
    let check = match scale.last_check {
        ScaleStanding::NeverChecked => "never checked with a known mass",
        ScaleStanding::PassedWithin => "its last check in force",
        ScaleStanding::PassedLongAgo => "its last check passed, too long ago",
        ScaleStanding::Failed => "its last check failed",
    };
    format!("step {}, {check}", scale.readability)
}

/// How the roller was turned, in words.
pub(super) fn method_says(method: &str) -> &'static str {
    match Method::from_word(method) {
        Some(Method::Driven) => "driven over a distance",
        Some(Method::HandTurned) => "turned by hand",
        Some(Method::Stationary) | None => "standing, by its drive",
    }
}
