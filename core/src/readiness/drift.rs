//! The unit's usage chart since a calibration, and whether it is outside its limits (`drift`).

use jiff::Timestamp;
use uuid::Uuid;

use crate::{
    drift::{Chart, Point, log_ratio, relative_uncertainty},
    ids::CalibrationId,
    readiness::{
        Cause, CauseKind, Detail, Surroundings, UnitHistory,
        due::Finding,
        jobs::on_basis_since,
        timeline::{Calibrated, Course, Timeline},
    },
    usage::mass_uncertainty_kg,
};

/// A job's point on the chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JobPoint {
    /// The job's record.
    pub job: Uuid,
    /// When it was done.
    pub occurred_at: Timestamp,
    /// Its point.
    pub point: Point,
    /// The relative standard uncertainty of its x, from the seed and the area; for the chart that weighs the jobs by it.
    pub uncertainty: f64,
}

/// The usage chart since a calibration of this unit, as known at `at`: a point for each job on its basis whose seed was weighed or
/// counted in bags. Empty for a calibration that is not the unit's or had not happened.
///
/// A machine total never enters: it is revolutions times the factor itself.
pub fn usage_chart(
    history: &UnitHistory,
    surroundings: &Surroundings,
    calibration: CalibrationId,
    at: Timestamp,
) -> Vec<JobPoint> {
    let course = Course::new(history, surroundings, at);
    let line = course.until(at);
    let found = line.calibrations.iter().find(|known| known.moment().id == calibration.0);
    found.map_or_else(Vec::new, |calibration| points(&line, calibration))
}

fn points<'a>(line: &Timeline<'a>, calibration: &Calibrated<'a>) -> Vec<JobPoint> {
    let (moments, values): (Vec<_>, Vec<_>) = on_basis_since(line, calibration)
        .filter_map(|job| {
            let facts = &job.record.what;
            let mass = mass_uncertainty_kg(facts.seed_used_basis, &line.policy)?;
            let uncertainty = relative_uncertainty(facts.seed_used_kg, mass, line.policy.area_uncertainty_percent);
            let x = log_ratio(facts.seed_used_kg, facts.area_m2, facts.target_rate)?;
            Some(((job.record.moment, uncertainty), x))
        })
        .unzip();
    let points = Chart::of_policy(&line.policy).points(&values);
    moments
        .into_iter()
        .zip(points)
        .map(|((moment, uncertainty), point)| JobPoint {
            job: moment.id,
            occurred_at: moment.occurred_at,
            point,
            uncertainty,
        })
        .collect()
}

/// The first of the unbroken run of points that are out, counted back from the latest, began it.
pub(super) fn finding<'a>(line: &Timeline<'a>, calibration: &Calibrated<'a>) -> Option<Finding> {
    let points = points(line, calibration);
    let latest = points.last()?.point;
    let began = points.iter().rev().take_while(|job| job.point.out).last()?;
    Some(Finding {
        since: began.occurred_at,
        cause: Cause { kind: CauseKind::Job, id: began.job },
        detail: Detail::Drift { z: latest.z, limit: latest.limit, jobs: points.len() },
    })
}
