//! What became of a catch that a phone sent, in sentences: told on whatever page its sender has open by then.

use super::act;
use super::show::key_in;
use super::stored::{Calibration, Status, word};
use crate::access::{Actor, Via};
use crate::db::Cx;
use crate::readiness;
use crate::texts;
use crate::web::error::Error;
use crate::web::reader::Reader;
use jiff::Timestamp;
use sowmark_core::ids::{CalibrationId, MeteringUnitId};
use sowmark_core::readiness as ready;
use sowmark_core::say;

/// The verdict on a catch, and its number to key in if that is in force; said to a person as they read, to a program in
/// English.
///
/// # Errors
/// 404 when it is not there for this person; the database.
pub async fn told(cx: &mut Cx<'_>, actor: &Actor, now: Timestamp, id: CalibrationId) -> Result<String, Error> {
    let words = match actor.via {
        Via::Session(_) => actor.words(),
        Via::Token => texts::plain(),
    };
    let calibration = act::find_calibration(cx, &actor.scope, id).await?;
    let unit = MeteringUnitId(calibration.row.metering_unit_id);
    let machine = act::find_unit(cx, &actor.scope, unit).await?;
    let verdict = say!(
        words,
        "catch-told",
        verdict = word(&calibration.judgement.verdict)?,
        seeder = &machine.seeder,
        unit = &machine.label
    );
    let became = match calibration.status() {
        Status::Accepted if is_in_force(cx, actor, now, &calibration).await? => {
            let reader = Reader { words, ..actor.reader() };
            let number = key_in(&calibration.judgement, machine.keyed_in, reader).says();
            say!(words, "catch-told-number", number = number)
        }
        Status::Accepted => say!(words, "calibration-not-in-force"),
        Status::Held => say!(words, "catch-told-held"),
        Status::Rejected => say!(words, "calibration-was-rejected"),
        Status::Void => say!(words, "calibration-does-not-stand"),
    };
    Ok(format!("{verdict} {became}"))
}

/// A catch that was sent late may have been overtaken by another: then its number is not to be keyed in.
async fn is_in_force(cx: &mut Cx<'_>, actor: &Actor, now: Timestamp, calibration: &Calibration) -> Result<bool, Error> {
    let unit = MeteringUnitId(calibration.row.metering_unit_id);
    let (history, surroundings) = readiness::act::history(cx, &actor.scope, &actor.time_zone, unit).await?;
    let in_force = ready::readiness(&history, &surroundings, now).in_force;
    Ok(in_force.is_some_and(|found| found.calibration.0 == calibration.row.head.id))
}
