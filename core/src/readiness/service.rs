//! A service that affects metering came after the calibration (`component_replaced`).

use crate::readiness::{
    Cause, CauseKind, Detail,
    due::Finding,
    timeline::{Calibrated, Timeline},
};

/// The first such service is the one that began it.
pub(super) fn finding(line: &Timeline<'_>, calibration: &Calibrated<'_>) -> Option<Finding> {
    let first = line.services.partition_point(|service| service.moment < calibration.moment());
    let since = &line.services[first..];
    let began = since.first()?;
    Some(Finding {
        since: began.moment.occurred_at,
        cause: Cause { kind: CauseKind::Service, id: began.moment.id },
        detail: Detail::ComponentReplaced { services: since.len() },
    })
}
