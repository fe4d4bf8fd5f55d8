//! What letting a reason pass would bring, told before it is done: the number that would count as true, and by how much the
//! rollers' displacements say that it is off.

use super::act::{self, Records, UnitNow};
use super::sentence::{Teller, in_words};
use crate::access::Scope;
use crate::db::Cx;
use crate::fleet::roller::act::rollers;
use crate::web::door::Signed;
use crate::web::error::Error;
use jiff::Timestamp;
use sowmark_core::ids::{MeteringUnitId, RollerId};
use sowmark_core::moment::{Dated, Moment};
use sowmark_core::quantity::Quantity;
use sowmark_core::quantity::unit::dimension;
use sowmark_core::readiness::{Detail, Readiness, Severity, Trigger, Waiver, readiness};
use sowmark_core::say;
use uuid::Uuid;

/// What would come of letting a trigger pass on a unit now, in a sentence or two; nothing of one that takes no number away.
///
/// # Errors
/// The database.
pub(super) async fn consequence(
    cx: &mut Cx<'_>,
    signed: &Signed,
    unit: MeteringUnitId,
    trigger: Trigger,
) -> Result<String, Error> {
    if trigger.severity() == Severity::Check {
        return Ok(String::new());
    }
    let (actor, at, words) = (&signed.actor, signed.app.clock.now(), signed.actor.words());
    let Records { units, surroundings, names } = act::histories(cx, &actor.scope, &actor.time_zone, Some(unit)).await?;
    let Some((row, mut history)) = units.into_iter().next() else { return Ok(String::new()) };
    // After every record of the same moment.
    let moment = Moment { occurred_at: at, recorded_at: Timestamp::MAX, id: Uuid::max() };
    history.waivers.push(Dated::new(moment, Waiver { trigger, until: Timestamp::MAX, reason: None }));
    let then = readiness(&history, &surroundings, at);
    let change = roller_change(&then);
    let now = UnitNow { unit: row, readiness: then, says: Vec::new() };
    let (Some(number), Some(in_force)) = (now.key_in(&names, actor.reader()), &now.readiness.in_force) else {
        return Ok(say!(words, "waiver-then-nothing", reason = in_words(trigger, words)));
    };
    let teller = Teller { names: &names, zone: &actor.time_zone, reader: actor.reader(), at };
    // Another reason may be chosen in the form: which one this is about is said.
    let (reason, day) = (in_words(trigger, words), teller.day(in_force.since));
    let mut says = say!(words, "waiver-then", reason = reason, number = number.says(), day = day);
    if let Some((from, to)) = change.filter(|_| trigger == Trigger::RollerChanged)
        && let Some(ratio) = displaced(cx, &actor.scope, from, to).await?
    {
        let share = words.number(100.0 * ratio, 2);
        let (before, roller) = (names.roller(from.0), names.roller(to.0));
        says = format!("{says} {}", say!(words, "waiver-displaced", roller = roller, before = before, share = share));
    }
    Ok(says)
}

/// The roller that the number was caught with, and the one that is in.
fn roller_change(then: &Readiness) -> Option<(RollerId, RollerId)> {
    then.due.iter().find_map(|due| match &due.detail {
        Detail::RollerChanged(change) => change.from.zip(change.to),
        _ => None,
    })
}

/// How much one roller displaces of what another does; none where that is not known of both.
async fn displaced(cx: &mut Cx<'_>, scope: &Scope, from: RollerId, to: RollerId) -> Result<Option<f64>, Error> {
    let rollers = rollers(cx, scope).await?;
    let volume = |id: RollerId| {
        let text = rollers.iter().find(|roller| roller.id == id.0)?.displacement.as_deref()?;
        Quantity::<dimension::Volume>::from_entered(text).ok().map(|volume| volume.si())
    };
    Ok(volume(to).zip(volume(from)).map(|(to, from)| to / from).filter(|ratio| ratio.is_finite()))
}
