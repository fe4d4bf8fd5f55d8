//! A calibration as JSON: all as entered, what it amounts to, and what was decided.

use super::advice::{self, AdviceView};
use super::runs::{self, RunsView};
use super::stored::{Calibration, Decided, Status, word};
use super::weigh::{RestsOn, Weighed};
use crate::access::Scope;
use crate::records::head::HeadView;
use crate::texts;
use crate::web::error::Error;
use crate::web::quantity::Q;
use crate::web::temperature::TemperatureView;
use serde::Serialize;
use serde_json::{Number, Value};
use sowmark_core::catch::{Catch, Repeat, Revolutions, Sheet};
use sowmark_core::circumstances::{Circumstances, Expected, ExpectedSource};
use sowmark_core::policy::Policy;
use sowmark_core::quantity::unit::{self, dimension};
use sowmark_core::suspicion::suspicions;
use sowmark_core::verdict::{Judgement, RepeatResult};
use uuid::Uuid;

/// A calibration.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct CalibrationView {
    #[serde(flatten)]
    pub head: HeadView,
    pub metering_unit_id: Uuid,
    pub seeder_id: Uuid,
    pub lot_id: Uuid,
    pub scale_id: Option<Uuid>,
    /// `stationary`, `driven` or `hand_turned`.
    pub method: String,
    /// Revolutions per minute.
    #[schema(value_type = Option<f64>)]
    pub roller_speed_rpm: Option<Number>,
    pub planned: Option<PlannedView>,
    /// Of the air, as entered.
    pub air_temperature: Option<TemperatureView>,
    #[schema(value_type = Option<f64>)]
    pub relative_humidity_percent: Option<Number>,
    /// About how full the tank was.
    #[schema(value_type = Option<f64>)]
    pub tank_fill_percent: Option<Number>,
    /// Where it was caught.
    pub place: Option<String>,
    /// Who looked over it besides.
    pub checked_by: Option<String>,
    pub note: String,
    /// As entered.
    pub repeats: Vec<RepeatView>,
    /// `accepted`, `held`, `rejected` or `void`.
    pub status: &'static str,
    pub result: ResultView,
    pub circumstances: CircumstancesView,
    pub policy: PolicyView,
    pub decisions: Vec<DecisionView>,
}

/// A calibration that was only computed.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct PreviewView {
    pub metering_unit_id: Uuid,
    pub lot_id: Uuid,
    pub repeats: Vec<RepeatView>,
    /// What it would be: `accepted` or `held`.
    pub status: &'static str,
    pub result: ResultView,
    pub circumstances: CircumstancesView,
    pub policy: PolicyView,
}

/// What will be sown.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct PlannedView {
    pub rate: Q,
    pub speed: Q,
}

/// A repeat as entered.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct RepeatView {
    /// A decimal as text, or an object: `pulses` and `pulses_per_rev`, `turns`, or `distance` and `circumference` with an
    /// optional `slip_percent`.
    #[schema(value_type = Object)]
    pub revolutions: Value,
    pub catches: Vec<CatchView>,
    pub set_aside: Option<String>,
}

/// A catch as entered.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct CatchView {
    pub label: Option<String>,
    pub runs: u32,
    pub tare: Q,
    pub gross: Q,
}

/// What a calibration amounts to.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct ResultView {
    /// Mass per roller revolution per run.
    pub factor: Q,
    /// The same for all runs in use.
    pub factor_unit_total: Q,
    /// At 95 %.
    pub expanded_uncertainty_percent: f64,
    pub coverage_factor: f64,
    /// Null when infinite.
    pub effective_degrees_of_freedom: Option<f64>,
    pub combined_uncertainty_percent: f64,
    /// Where the uncertainty comes from.
    pub budget: Vec<BudgetView>,
    pub repeats: Vec<RepeatResultView>,
    pub repeat_spread_percent: Option<f64>,
    /// The repeats differ by no more than the scale's rounding explains.
    pub scatter_is_rounding: bool,
    pub run_cv_percent: Option<f64>,
    /// Where the true one lies with 95 %, given so few runs.
    pub run_cv_interval_percent: Option<IntervalView>,
    pub run_differences: Vec<RunDifferenceView>,
    /// The net mass at which the scale's rounding is just the policy's share of a catch.
    pub minimum_catch: Q,
    /// `pass`, `pass_with_remarks` or `fail`.
    pub verdict: String,
    pub checks: Vec<CheckView>,
    /// What most likely went wrong, most likely first.
    pub suspicions: Vec<SuspicionView>,
    /// What to catch yet, the most pressing first; empty where nothing is missing.
    pub advice: Vec<AdviceView>,
    /// The runs against each other; null where none could be compared.
    pub runs: Option<RunsView>,
}

/// One line of the uncertainty budget.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct BudgetView {
    /// `repeatability`, `readability`, `scale` or `revolutions`.
    pub term: String,
    pub relative_standard_uncertainty_percent: f64,
    /// Null when infinite.
    pub degrees_of_freedom: Option<f64>,
    pub says: String,
}

/// What one repeat amounts to.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct RepeatResultView {
    pub factor: Q,
    pub caught: Q,
    pub revolutions: f64,
    pub runs: u32,
    pub run_cv_percent: Option<f64>,
    /// It does not count.
    pub set_aside: bool,
}

/// From one value to another.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct IntervalView {
    pub min: f64,
    pub max: f64,
}

/// How far a run is from the mean of the runs.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct RunDifferenceView {
    pub label: String,
    pub percent: f64,
}

/// One check and how it went.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct CheckView {
    pub check: String,
    pub value: Option<f64>,
    pub limit: Option<f64>,
    pub unit: String,
    /// `pass`, `remark` or `fail`.
    pub outcome: String,
    pub says: String,
}

/// A slip that would explain the result.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct SuspicionView {
    pub cause: &'static str,
    pub says: String,
    /// The factor that it would give.
    pub would_give: Q,
}

/// What it was judged with besides the weighed seed.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct CircumstancesView {
    pub setup_id: Option<Uuid>,
    pub configuration_id: Option<Uuid>,
    pub runs_in_use: u32,
    pub drive_ratio: String,
    /// Revolutions per minute that the drive can hold.
    pub drive_range_rpm: Option<IntervalView>,
    pub working_width: Q,
    pub scale: Option<ScaleFactsView>,
    pub thousand_seed_weight: Option<Q>,
    pub expected: Option<ExpectedView>,
}

/// The scale as it was known.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct ScaleFactsView {
    pub readability: Q,
    pub capacity: Q,
    /// `never_checked`, `passed_within`, `passed_long_ago` or `failed`.
    pub last_check: String,
}

/// The factor that was expected, about.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct ExpectedView {
    pub factor: Q,
    /// `last_calibration` or `displacement`.
    pub source: &'static str,
    /// Of a last calibration, if the reader may see it.
    pub calibration_id: Option<Uuid>,
    pub density_ratio: Option<f64>,
}

/// The tolerances that it was judged by.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct PolicyView {
    /// Null: the defaults, before the office had set any.
    pub id: Option<Uuid>,
    #[schema(value_type = Object)]
    pub values: Policy,
}

/// What the office decided.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct DecisionView {
    #[serde(flatten)]
    pub head: HeadView,
    pub calibration_id: Uuid,
    /// `accepted` or `rejected`.
    pub decision: String,
    pub reason: String,
}

impl CalibrationView {
    /// A calibration, for who asks.
    ///
    /// # Errors
    /// A row that this program never writes.
    pub fn of(calibration: Calibration, scope: &Scope) -> Result<Self, Error> {
        let status = calibration.status().word();
        let Calibration { row, sheet, circumstances, rests_on, judgement, decisions } = calibration;
        let planned = match (row.planned_rate.as_deref(), row.planned_speed.as_deref()) {
            (Some(rate), Some(speed)) => Some(PlannedView {
                rate: Q::stored::<dimension::Rate>(rate)?,
                speed: Q::stored::<dimension::Speed>(speed)?,
            }),
            _ => None,
        };
        Ok(Self {
            head: HeadView::of(row.head, scope),
            metering_unit_id: row.metering_unit_id,
            seeder_id: row.seeder_id,
            lot_id: row.lot_id,
            scale_id: row.scale_id,
            method: row.method,
            roller_speed_rpm: row.roller_speed_rpm.as_deref().map(number).transpose()?,
            planned,
            air_temperature: TemperatureView::stored_if(row.air_temperature.as_deref())?,
            relative_humidity_percent: row.relative_humidity_percent.as_deref().map(number).transpose()?,
            tank_fill_percent: row.tank_fill_percent.as_deref().map(number).transpose()?,
            place: row.place,
            checked_by: row.checked_by,
            note: row.note,
            repeats: repeats(&sheet),
            status,
            result: result(&sheet, &circumstances, &judgement)?,
            policy: policy(&circumstances, rests_on),
            circumstances: circumstances_view(circumstances, rests_on)?,
            decisions: decisions.into_iter().map(|decided| DecisionView::of(decided, scope)).collect(),
        })
    }
}

impl PreviewView {
    /// What a computed calibration is answered with.
    ///
    /// # Errors
    /// None that a judgement could cause.
    pub fn of(metering_unit_id: Uuid, lot_id: Uuid, weighed: Weighed) -> Result<Self, Error> {
        Ok(Self {
            metering_unit_id,
            lot_id,
            repeats: repeats(&weighed.sheet),
            status: Status::by_verdict(weighed.judgement.verdict).word(),
            result: result(&weighed.sheet, &weighed.circumstances, &weighed.judgement)?,
            policy: policy(&weighed.circumstances, weighed.rests_on),
            circumstances: circumstances_view(weighed.circumstances, weighed.rests_on)?,
        })
    }
}

impl DecisionView {
    fn of(decided: Decided, scope: &Scope) -> Self {
        Self {
            head: HeadView::of(decided.head, scope),
            calibration_id: decided.calibration_id,
            decision: decided.decision,
            reason: decided.reason,
        }
    }
}

/// A decimal as a JSON number with its own digits.
fn number(text: &str) -> Result<Number, Error> {
    text.parse().map_err(|_| Error::inconsistent("calibration.roller_speed_rpm", text))
}

fn repeats(sheet: &Sheet) -> Vec<RepeatView> {
    let repeat = |repeat: &Repeat| RepeatView {
        revolutions: revolutions(&repeat.revolutions),
        catches: repeat.catches.iter().map(catch).collect(),
        set_aside: repeat.set_aside.clone(),
    };
    sheet.repeats.iter().map(repeat).collect()
}

fn catch(catch: &Catch) -> CatchView {
    CatchView { label: catch.label.clone(), runs: catch.runs, tare: Q::from(&catch.tare), gross: Q::from(&catch.gross) }
}

fn revolutions(revolutions: &Revolutions) -> Value {
    match revolutions {
        Revolutions::Counted(counted) => Value::String(counted.as_str().to_owned()),
        Revolutions::Pulses { pulses, pulses_per_rev } => {
            serde_json::json!({ "pulses": pulses.as_str(), "pulses_per_rev": pulses_per_rev.as_str() })
        }
        Revolutions::Turns { turns } => serde_json::json!({ "turns": turns.as_str() }),
        Revolutions::Distance { distance, circumference, slip_percent } => {
            let mut driven =
                serde_json::json!({ "distance": Q::from(distance), "circumference": Q::from(circumference) });
            if let Some(slip) = slip_percent {
                driven["slip_percent"] = Value::String(slip.as_str().to_owned());
            }
            driven
        }
    }
}

fn result(sheet: &Sheet, circumstances: &Circumstances, judgement: &Judgement) -> Result<ResultView, Error> {
    let budget = judgement.budget.iter().map(|line| {
        Ok(BudgetView {
            term: word(&line.term)?,
            relative_standard_uncertainty_percent: line.relative_standard_uncertainty_percent,
            degrees_of_freedom: line.degrees_of_freedom,
            says: line.says.clone(),
        })
    });
    let checks = judgement.checks.iter().map(|check| {
        Ok(CheckView {
            check: word(&check.check)?,
            value: check.value,
            limit: check.limit,
            unit: check.unit.clone(),
            outcome: word(&check.outcome)?,
            says: check.says.clone(),
        })
    });
    let differences = judgement.run_differences.iter();
    Ok(ResultView {
        factor: Q::computed(judgement.factor, unit::KG_PER_REV),
        factor_unit_total: Q::computed(judgement.factor_unit_total, unit::KG_PER_REV),
        expanded_uncertainty_percent: judgement.expanded_uncertainty_percent,
        coverage_factor: judgement.coverage_factor,
        effective_degrees_of_freedom: judgement.effective_degrees_of_freedom,
        combined_uncertainty_percent: judgement.combined_uncertainty_percent,
        budget: budget.collect::<Result<_, Error>>()?,
        repeats: judgement.repeats.iter().map(repeat_result).collect(),
        repeat_spread_percent: judgement.repeat_spread_percent,
        scatter_is_rounding: judgement.scatter_is_rounding,
        run_cv_percent: judgement.run_cv_percent,
        run_cv_interval_percent: judgement.run_cv_interval_percent.map(|(min, max)| IntervalView { min, max }),
        run_differences: differences
            .map(|run| RunDifferenceView { label: run.label.clone(), percent: run.percent })
            .collect(),
        minimum_catch: Q::computed(judgement.minimum_catch_kg, unit::KG),
        verdict: word(&judgement.verdict)?,
        checks: checks.collect::<Result<_, Error>>()?,
        suspicions: suspicions(sheet, circumstances, judgement, texts::plain())
            .into_iter()
            .map(|suspicion| SuspicionView {
                cause: suspicion.cause.name(),
                says: suspicion.says,
                would_give: Q::computed(suspicion.would_give, unit::KG_PER_REV),
            })
            .collect(),
        advice: advice::views(sheet, circumstances, judgement)?,
        runs: runs::view(sheet, circumstances, judgement)?,
    })
}

fn repeat_result(repeat: &RepeatResult) -> RepeatResultView {
    RepeatResultView {
        factor: Q::computed(repeat.factor, unit::KG_PER_REV),
        caught: Q::computed(repeat.caught_kg, unit::KG),
        revolutions: repeat.revolutions,
        runs: repeat.runs,
        run_cv_percent: repeat.run_cv_percent,
        set_aside: repeat.set_aside,
    }
}

fn policy(circumstances: &Circumstances, rests_on: RestsOn) -> PolicyView {
    PolicyView { id: rests_on.policy_id, values: circumstances.policy.clone() }
}

fn circumstances_view(circumstances: Circumstances, rests_on: RestsOn) -> Result<CircumstancesView, Error> {
    let scale = circumstances.scale.map(|scale| {
        Ok::<_, Error>(ScaleFactsView {
            readability: Q::from(&scale.readability),
            capacity: Q::from(&scale.capacity),
            last_check: word(&scale.last_check)?,
        })
    });
    Ok(CircumstancesView {
        setup_id: rests_on.setup_id,
        configuration_id: rests_on.configuration_id,
        runs_in_use: circumstances.runs_in_use,
        drive_ratio: circumstances.drive_ratio.to_string(),
        drive_range_rpm: circumstances.drive_range.map(|range| IntervalView { min: range.min_rpm, max: range.max_rpm }),
        working_width: Q::computed(circumstances.working_width_m, unit::M),
        scale: scale.transpose()?,
        thousand_seed_weight: circumstances
            .thousand_seed_weight_g
            .map(|grams| Q::computed(grams, unit::G_PER_THOUSAND)),
        expected: circumstances.expected.map(expected),
    })
}

fn expected(expected: Expected) -> ExpectedView {
    let factor = Q::computed(expected.factor, unit::KG_PER_REV);
    match expected.source {
        ExpectedSource::LastCalibration { calibration_id, density_ratio } => {
            ExpectedView { factor, source: "last_calibration", calibration_id: Some(calibration_id.0), density_ratio }
        }
        ExpectedSource::Displacement => {
            ExpectedView { factor, source: "displacement", calibration_id: None, density_ratio: None }
        }
    }
}
