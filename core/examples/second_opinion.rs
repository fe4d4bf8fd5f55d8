//! Answers what core computes, one JSON object a line in, one out, so that `tests/second_opinion/compare.py` can hold
//! it against other people's libraries. It computes nothing of its own: every number is core's.

use std::io::{BufRead, Write};

use serde::Deserialize;
use serde_json::{Value, json};
use sowmark_core::{
    catch::Sheet,
    circumstances::Circumstances,
    line::Line,
    statistics::{
        chi_squared_quantile, coefficient_of_variation, coefficient_of_variation_interval, mean, relative_range,
        standard_deviation, student_quantile,
    },
    uncertainty::{Component, combine},
    verdict::{Judgement, judge},
};

/// What is asked: an object with the kind as its one name.
#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum Asked {
    Budget { components: Vec<Component>, level: f64 },
    Spread { values: Vec<f64> },
    CvInterval { seen: f64, count: usize, level: f64 },
    Student { p: f64, degrees_of_freedom: f64 },
    ChiSquared { p: f64, degrees_of_freedom: f64 },
    Line { points: Vec<(f64, f64)> },
    Sheet { sheet: Sheet, circumstances: Box<Circumstances> },
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut out = std::io::BufWriter::new(std::io::stdout().lock());
    for line in std::io::stdin().lock().lines() {
        writeln!(out, "{}", answer(serde_json::from_str(&line?)?))?;
    }
    Ok(out.flush()?)
}

fn answer(asked: Asked) -> Value {
    match asked {
        Asked::Budget { components, level } => {
            let combined = combine(&components);
            json!({
                "standard_uncertainty": combined.standard_uncertainty,
                "degrees_of_freedom": combined.degrees_of_freedom,
                "expanded": combined.expanded(level),
            })
        }
        Asked::Spread { values } => json!({
            "mean": mean(&values),
            "standard_deviation": standard_deviation(&values),
            "coefficient_of_variation": coefficient_of_variation(&values),
            "relative_range": relative_range(&values),
        }),
        Asked::CvInterval { seen, count, level } => {
            let interval = coefficient_of_variation_interval(seen, count, level);
            json!({ "low": interval.map(|(low, _)| low), "high": interval.map(|(_, high)| high) })
        }
        Asked::Student { p, degrees_of_freedom } => {
            json!({ "quantile": student_quantile(p, Some(degrees_of_freedom)) })
        }
        Asked::ChiSquared { p, degrees_of_freedom } => {
            json!({ "quantile": chi_squared_quantile(p, degrees_of_freedom) })
        }
        Asked::Line { points } => Line::ordinary(&points).map_or(Value::Null, |line| {
            let uncertainty = |component: Option<Component>| component.map(|part| part.standard_uncertainty);
            json!({
                "slope": line.slope(),
                "intercept": line.intercept(),
                "slope_uncertainty": uncertainty(line.slope_uncertainty()),
                "intercept_uncertainty": uncertainty(line.intercept_uncertainty()),
                "unexplained_share": line.determination().map(|share| 1.0 - share),
            })
        }),
        Asked::Sheet { sheet, circumstances } => match judge(&sheet, &circumstances) {
            Ok(judgement) => figures(&judgement),
            Err(findings) => json!({ "refused": findings.iter().map(ToString::to_string).collect::<Vec<_>>() }),
        },
    }
}

fn figures(judgement: &Judgement) -> Value {
    let terms: Vec<_> = judgement.budget.iter().map(|line| line.relative_standard_uncertainty_percent).collect();
    let interval = judgement.run_cv_interval_percent;
    json!({
        "factor": judgement.factor,
        "factor_unit_total": judgement.factor_unit_total,
        "terms": terms,
        "combined_percent": judgement.combined_uncertainty_percent,
        "degrees_of_freedom": judgement.effective_degrees_of_freedom,
        "coverage_factor": judgement.coverage_factor,
        "expanded_percent": judgement.expanded_uncertainty_percent,
        "spread_percent": judgement.repeat_spread_percent,
        "run_cv_percent": judgement.run_cv_percent,
        "run_cv_low_percent": interval.map(|(low, _)| low),
        "run_cv_high_percent": interval.map(|(_, high)| high),
        "minimum_catch_kg": judgement.minimum_catch_kg,
    })
}
