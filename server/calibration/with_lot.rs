//! The calibrations that were made with a lot, a line each: evidence of what was done with it, on whichever machine. Their
//! factors are no numbers to key in: what is in force on a machine is readiness's to say.

use super::past;
use crate::db::Cx;
use crate::fleet::seeder::key_in::per_100;
use crate::web::door::Signed;
use crate::web::error::Error;
use sowmark_core::ids::LotId;
use uuid::Uuid;

/// How many are read at a time: each comes with its sheet, of which a line is left.
const AT_A_TIME: usize = 50;

/// A calibration, as its row shows it.
#[derive(Clone, Debug)]
pub struct WithLot {
    pub id: Uuid,
    pub when: String,
    pub machine: String,
    pub factor: String,
    pub uncertainty: String,
    pub verdict: String,
    pub status: &'static str,
    pub by: String,
    /// It was voided or replaced.
    pub has_fallen: bool,
}

/// All calibrations with a lot that somebody sees, newest first.
///
/// # Errors
/// The database.
pub async fn with_lot(cx: &mut Cx<'_>, signed: &Signed, lot: LotId) -> Result<Vec<WithLot>, Error> {
    let (actor, words) = (&signed.actor, signed.actor.words());
    let shown = per_100(actor.units);
    let line = |past: past::Past| {
        let (calibration, judgement) = (&past.calibration, &past.calibration.judgement);
        let head = &calibration.row.head;
        let within = judgement.expanded_uncertainty_percent;
        WithLot {
            id: head.id,
            when: head.when(&actor.time_zone, words),
            machine: format!("{}, {}", past.seeder, past.unit),
            factor: format!("{} {}", words.print_within(judgement.factor, shown, within), words.unit(shown.name())),
            uncertainty: format!("\u{b1} {} %", words.number(within, 2)),
            verdict: calibration.row.verdict.clone(),
            status: calibration.status().word(),
            by: head.by(words),
            has_fallen: !head.stands(),
        }
    };
    let (mut lines, mut after) = (Vec::new(), Some(past::NEWEST));
    while let Some(place) = after {
        let (found, more) = past::of_lot(cx, &actor.scope, lot, place, AT_A_TIME).await?;
        lines.extend(found.into_iter().map(line));
        after = more;
    }
    Ok(lines)
}
