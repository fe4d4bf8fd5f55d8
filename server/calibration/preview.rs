//! A preview in circumstances that are known: from the bytes of a request to what is answered, without a database.
//!
//! The handler gathers the circumstances from the records (`weigh.rs`); everything else of it is called here in the same
//! order, so that a test or a fuzzer can send it whatever it likes.

use super::draft::{CalibrationDraft, PreviewDraft, salvage};
use super::view::PreviewView;
use super::weigh::{self, RestsOn, Weighed};
use crate::web::api::parse;
use crate::web::error::{Error, Problem};
use crate::web::input;
use serde_json::Value;
use sowmark_core::circumstances::Circumstances;

/// What a preview of these bytes is answered with. The circumstances' roller speed and plan are those of the request.
///
/// # Errors
/// The problem document: 400 for what is no JSON, 422 with every fault.
pub fn preview_of(bytes: &[u8], circumstances: &Circumstances) -> Result<Value, Problem> {
    let answer = || {
        let value = parse(bytes)?;
        let unit = input::read::<PreviewDraft>(&value)?.metering_unit_id;
        let (draft, weighed) = computed(&PreviewDraft::calibration(&value), circumstances)?;
        serde_json::to_value(PreviewView::of(unit.0, draft.lot_id.0, weighed)?).map_err(Error::broken)
    };
    answer().map_err(|error| error.problem())
}

/// A sheet as it was sent, judged in these circumstances.
///
/// # Errors
/// 422 with every fault.
pub fn computed(sent: &Value, circumstances: &Circumstances) -> Result<(CalibrationDraft, Weighed), Error> {
    let draft = match input::read::<CalibrationDraft>(sent) {
        Ok(draft) => draft,
        Err(Error::Faults(read)) => {
            let Some(rest) = salvage(sent) else { return Err(Error::Faults(read)) };
            let circumstances = Circumstances {
                roller_speed_rpm: rest.roller_speed_rpm,
                planned: rest.planned,
                ..circumstances.clone()
            };
            return Err(Error::Faults(weigh::with_the_rest(read, Vec::new(), rest.sheet, circumstances)));
        }
        Err(error) => return Err(error),
    };
    let circumstances = Circumstances {
        roller_speed_rpm: draft.roller_speed_rpm.as_ref().map(|rpm| rpm.0.to_f64()),
        planned: draft.planned(),
        ..circumstances.clone()
    };
    let weighed = weigh::judged(draft.sheet(), circumstances, RestsOn::default(), Vec::new())?;
    Ok((draft, weighed))
}
