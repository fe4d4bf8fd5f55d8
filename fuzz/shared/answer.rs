//! What must hold of the answer to a preview, whatever was sent.

use serde_json::Value;
use sowmark::{calibration::draft::PreviewDraft, calibration::preview, web::error::Problem};
use sowmark_core::{circumstances::Circumstances, suspicion::suspicions, verdict::Judgement, words::Words};

/// The names of an answer that may be null.
const NULLABLE: &[&str] = &[
    "set_aside",
    "label",
    "effective_degrees_of_freedom",
    "degrees_of_freedom",
    "repeat_spread_percent",
    "run_cv_percent",
    "run_cv_interval_percent",
    "value",
    "limit",
    "setup_id",
    "configuration_id",
    "drive_range_rpm",
    "scale",
    "thousand_seed_weight",
    "expected",
    "calibration_id",
    "density_ratio",
    "id",
    "interval_days",
    "interval_area_ha",
    "runs",
    "further",
    "expected_uncertainty_percent",
    "always",
    "percent",
];

/// Sends the body and panics where the answer is not as it must be.
pub(super) fn hold(body: &[u8], circumstances: &Circumstances) {
    match preview::preview_of(body, circumstances) {
        Ok(answer) => {
            every_number_is_one(&answer, "");
            judged_in_numbers(body, circumstances);
        }
        Err(problem) => says_where(body, &problem),
    }
}

/// A number that is none is written as null.
fn every_number_is_one(answer: &Value, name: &str) {
    match answer {
        Value::Null => assert!(NULLABLE.contains(&name), "{name} is null"),
        Value::Array(items) => items.iter().for_each(|item| every_number_is_one(item, name)),
        Value::Object(fields) => fields.iter().for_each(|(name, value)| every_number_is_one(value, name)),
        Value::String(text) => sentence_holds_numbers(text, name),
        Value::Number(number) => assert!(number.as_f64().is_some_and(f64::is_finite), "{name} is {number}"),
        Value::Bool(_) => {}
    }
}

/// What is computed is printed without these; what was entered never reaches an answer with them.
fn sentence_holds_numbers(text: &str, name: &str) {
    let odd = |part: &str| {
        part.trim_matches(|c: char| !c.is_alphabetic()).eq_ignore_ascii_case("nan") || part.starts_with("inf")
    };
    assert!(!text.split_whitespace().any(odd) && !text.contains("– "), "{name}: {text}");
}

/// The judgement comes back from its JSON as it was: no NaN, no infinity in it, not even where nothing may stand.
fn judged_in_numbers(body: &[u8], circumstances: &Circumstances) {
    let sent: Value = serde_json::from_slice(body).expect("it was answered");
    let (_, weighed) = preview::computed(&PreviewDraft::calibration(&sent), circumstances).expect("it was answered");
    let stored = serde_json::to_string(&weighed.judgement).expect("JSON");
    assert_eq!(serde_json::from_str::<Judgement>(&stored).expect("reads back"), weighed.judgement);
    assert!(weighed.judgement.factor > 0.0 && weighed.judgement.expanded_uncertainty_percent > 0.0);
    for suspicion in suspicions(&weighed.sheet, &weighed.circumstances, &weighed.judgement, Words::default()) {
        assert!(suspicion.would_give.is_finite() && suspicion.would_give > 0.0, "{suspicion:?}");
        sentence_holds_numbers(&suspicion.says, suspicion.cause.name());
    }
}

/// A refusal names every fault at a place of the request: something sent, or a field that is missing there.
fn says_where(body: &[u8], problem: &Problem) {
    match problem.status {
        400 => assert!(serde_json::from_slice::<Value>(body).is_err(), "{problem:?}"),
        422 => {
            let sent: Value = serde_json::from_slice(body).expect("it was read");
            assert!(!problem.errors.is_empty(), "{problem:?}");
            for fault in &problem.errors {
                let place = sent.pointer(&fault.pointer);
                let parent = fault.pointer.rsplit_once('/').and_then(|(parent, _)| sent.pointer(parent));
                assert!(place.is_some() || parent.is_some_and(Value::is_object), "{fault:?} is nowhere in {sent}");
                assert!(!fault.detail.is_empty(), "{fault:?}");
            }
        }
        other => panic!("{other}: {problem:?}"),
    }
}
