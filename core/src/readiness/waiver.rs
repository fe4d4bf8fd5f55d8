//! Which waiver lets a trigger pass.

use jiff::Timestamp;

use crate::{
    moment::{Dated, in_order},
    readiness::{Trigger, Waived, Waiver},
};

/// The waiver in force at `at` for `trigger`: from when it was given until it expires. Of several the latest given is named; one
/// that was meant to end another is a void of that other, not a shorter waiver.
pub(super) fn in_force(waivers: &[Dated<Waiver>], trigger: Trigger, at: Timestamp) -> Option<Waived> {
    let waiver = waivers
        .iter()
        .filter(|waiver| waiver.what.trigger == trigger && trigger.can_be_waived())
        .filter(|waiver| waiver.happened_by(at) && at < waiver.what.until)
        .max_by(in_order)?;
    Some(Waived { waiver: waiver.moment.id, until: waiver.what.until, reason: waiver.what.reason.clone() })
}
