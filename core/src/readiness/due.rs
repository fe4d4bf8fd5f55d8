//! From a calibration to the triggers that are due against it, in the order of the table.

use jiff::Timestamp;

use crate::moment::Dated;
use crate::readiness::{
    Cause, Detail, Due, Waiver, difference, doubt, drift, interval, roller_speed, scale, season, service,
    timeline::{Calibrated, Timeline},
    waiver,
};

/// A trigger found due, before waivers.
pub(super) struct Finding {
    pub(super) since: Timestamp,
    pub(super) cause: Cause,
    pub(super) detail: Detail,
}

impl Finding {
    pub(super) fn into_due(self, waivers: &[Dated<Waiver>], at: Timestamp) -> Due {
        let trigger = self.detail.trigger();
        Due {
            trigger,
            severity: trigger.severity(),
            since: self.since,
            cause: self.cause,
            detail: self.detail,
            waived: waiver::in_force(waivers, trigger, at),
        }
    }
}

/// Whether no `stop` trigger is due against the calibration. Asks the cheapest questions first, and for no causes.
pub(super) fn fits<'a>(line: &Timeline<'a>, calibration: &Calibrated<'a>) -> bool {
    difference::on_basis(line, calibration, &line.now, line.at)
        && service::finding(line, calibration).is_none()
        && !doubt::exists(line, calibration)
}

/// Every trigger that is due against the calibration.
pub(super) fn findings<'a>(line: &Timeline<'a>, calibration: &Calibrated<'a>) -> Vec<Finding> {
    let mut found = Vec::new();
    found.extend(season::finding(line, calibration));
    found.extend(difference::findings(line, calibration));
    found.extend(service::finding(line, calibration));
    found.extend(doubt::finding(line, calibration));
    found.extend(roller_speed::finding(line, calibration));
    found.extend(drift::finding(line, calibration));
    found.extend(interval::finding(line, calibration));
    found.extend(scale::finding(line, calibration));
    found
}
