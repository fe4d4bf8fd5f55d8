//! The rules once more, read as plainly as possible: the state is looked up anew at every event, forward from the calibration.
//!
//! Slow and without structure on purpose. It shares the record types with the crate and nothing else.

use jiff::{SignedDuration, Timestamp};
use sowmark_core::{
    basis::Configuration,
    ids::LotId,
    moment::{Dated, Moment},
    policy::Policy,
    readiness::{CalibrationFacts, CauseKind, JobFacts, Season, SeedUsedBasis, Standing, State, Trigger},
};
use uuid::Uuid;

use crate::fleet::{Fleet, SEEDER};

/// Trigger, since, kind and id of the cause, and whether it is waived.
pub(crate) type Row = (Trigger, Timestamp, CauseKind, Uuid, bool);

/// What the rules give.
#[derive(Debug, PartialEq)]
pub(crate) struct Answer {
    pub(crate) state: State,
    pub(crate) lot: Option<LotId>,
    /// The calibration in force, and whether it is recalled.
    pub(crate) in_force: Option<(Uuid, bool)>,
    pub(crate) compared_with: Option<Uuid>,
    pub(crate) due: Vec<Row>,
}

type Calibration = Dated<CalibrationFacts>;

/// What is there right after a moment.
struct View {
    width: Option<Configuration>,
    setup: Option<sowmark_core::basis::Setup>,
    lot: Option<LotId>,
    density: Option<f64>,
    thousand: Option<f64>,
}

/// The fleet without anything that happened after `at`.
pub(crate) fn until(fleet: &Fleet, at: Timestamp) -> Fleet {
    fn keep<T>(records: &mut Vec<Dated<T>>, at: Timestamp) {
        records.retain(|record| record.moment.occurred_at <= at);
    }
    let mut fleet = fleet.clone();
    let history = &mut fleet.history;
    keep(&mut history.laid_up, at);
    keep(&mut history.configurations, at);
    keep(&mut history.setups, at);
    keep(&mut history.services, at);
    keep(&mut history.fills, at);
    keep(&mut history.emptyings, at);
    keep(&mut history.calibrations, at);
    keep(&mut history.jobs, at);
    keep(&mut history.waivers, at);
    keep(&mut fleet.around.policies, at);
    fleet.around.lots.values_mut().for_each(|lot| keep(&mut lot.tests, at));
    fleet.around.scales.values_mut().for_each(|scale| keep(&mut scale.checks, at));
    fleet
}

fn last<T>(records: &[Dated<T>], upto: Moment) -> Option<&Dated<T>> {
    records.iter().filter(|record| record.moment <= upto).max_by_key(|record| record.moment)
}

struct Oracle {
    fleet: Fleet,
    at: Timestamp,
    policy: Policy,
}

pub(crate) fn answer(fleet: &Fleet, at: Timestamp) -> Answer {
    let fleet = until(fleet, at);
    let policy = fleet.around.policies.iter().max_by_key(|policy| policy.moment);
    let policy = policy.map_or_else(Policy::default, |policy| policy.what.clone());
    Oracle { fleet, at, policy }.answer()
}

impl Oracle {
    fn answer(&self) -> Answer {
        let now = self.view(self.end());
        let mut accepted: Vec<&Calibration> = self.calibrations().filter(|c| accepted(c)).collect();
        accepted.sort_by_key(|calibration| std::cmp::Reverse(calibration.moment));
        let looked_at = if self.policy.recall_allowed { accepted.len() } else { accepted.len().min(1) };
        let fits = |calibration: &&&Calibration| !self.due(calibration).iter().any(|row| stop(row.0));
        let chosen = accepted[..looked_at].iter().find(fits).or(accepted.first()).copied();
        let due = chosen.map_or_else(|| vec![self.never()], |calibration| self.due(calibration));
        let standing = |stops: bool| due.iter().any(|row| stop(row.0) == stops && !row.4);
        let laid_up = self.fleet.history.laid_up.iter().max_by_key(|record| record.moment).is_some_and(|up| up.what);
        let in_force = chosen.filter(|_| now.lot.is_some() && now.setup.is_some() && !standing(true));
        Answer {
            state: match () {
                () if laid_up => State::LaidUp,
                () if now.lot.is_none() => State::Empty,
                () if standing(true) => State::Calibrate,
                () if standing(false) => State::Check,
                () => State::Ready,
            },
            lot: now.lot,
            in_force: in_force.map(|c| (c.moment.id, c.moment != accepted[0].moment)),
            compared_with: chosen.map(|calibration| calibration.moment.id),
            due,
        }
    }

    fn end(&self) -> Moment {
        Moment { occurred_at: self.at, recorded_at: Timestamp::MAX, id: Uuid::max() }
    }

    fn calibrations(&self) -> impl Iterator<Item = &Calibration> {
        self.fleet.history.calibrations.iter()
    }

    fn view(&self, upto: Moment) -> View {
        let history = &self.fleet.history;
        let mut tank: Vec<(Moment, Option<LotId>)> = vec![];
        tank.extend(history.fills.iter().map(|fill| (fill.moment, Some(fill.what.lot))));
        tank.extend(history.calibrations.iter().map(|caught| (caught.moment, Some(caught.what.lot))));
        tank.extend(history.jobs.iter().map(|job| (job.moment, Some(job.what.lot))));
        tank.extend(history.emptyings.iter().filter(|out| out.what.to_empty).map(|out| (out.moment, None)));
        let lot = tank.into_iter().filter(|act| act.0 <= upto).max_by_key(|act| act.0).and_then(|act| act.1);
        let tests = lot.and_then(|lot| self.fleet.around.lots.get(&lot)).map_or(&[][..], |lot| &lot.tests);
        let tests = || tests.iter().filter(|test| test.moment <= upto);
        let density = tests().filter(|test| test.what.bulk_density.is_some()).max_by_key(|test| test.moment);
        let thousand = tests().filter(|test| test.what.thousand_seed_weight.is_some()).max_by_key(|test| test.moment);
        let first = || history.configurations.iter().min_by_key(|first| first.moment);
        View {
            width: last(&history.configurations, upto).or_else(first).map(|record| record.what),
            setup: last(&history.setups, upto).map(|record| record.what.clone()),
            lot,
            density: density.and_then(|test| test.what.bulk_density),
            thousand: thousand.and_then(|test| test.what.thousand_seed_weight),
        }
    }

    fn crop(&self, lot: Option<LotId>) -> Option<String> {
        Some(self.fleet.around.lots.get(&lot?)?.crop.trim().to_lowercase())
    }

    /// The season in force on the local date of an instant.
    fn season(&self, at: Timestamp, crop: Option<&str>) -> Option<&Season> {
        let today = at.to_zoned_datetime(self.fleet.around.time_zone.clone()).date();
        let own = |season: &&Season| {
            season
                .crops
                .as_ref()
                .is_none_or(|crops| crops.iter().any(|own| Some(own.trim().to_lowercase().as_str()) == crop))
        };
        let begun = self.fleet.around.seasons.iter().filter(|season| season.starts_on <= today);
        begun.filter(own).max_by_key(|season| (season.starts_on, season.id))
    }

    fn new_season(&self, calibration: &Calibration, at: Timestamp, lot: Option<LotId>) -> Option<&Season> {
        let zone = self.fleet.around.time_zone.clone();
        let caught_on = calibration.moment.occurred_at.to_zoned_datetime(zone).date();
        self.season(at, self.crop(lot).as_deref()).filter(|season| season.starts_on > caught_on)
    }

    fn differs(&self, trigger: Trigger, then: &View, now: &View) -> bool {
        let other_lot = then.lot.is_some() && now.lot.is_some() && then.lot != now.lot;
        let other_crop = other_lot && self.crop(then.lot) != self.crop(now.lot);
        let moved = |then: Option<f64>, now: Option<f64>| match (then, now) {
            (Some(then), Some(now)) => (now - then).abs() > then * self.policy.seed_weight_tolerance_percent / 100.0,
            _ => false,
        };
        let setups = then.setup.as_ref().zip(now.setup.as_ref());
        match trigger {
            Trigger::CropChanged => other_crop,
            Trigger::LotChanged => other_lot && !other_crop,
            Trigger::SeedWeightChanged => {
                now.lot.is_some()
                    && now.lot == then.lot
                    && (moved(then.density, now.density) || moved(then.thousand, now.thousand))
            }
            Trigger::RollerChanged => setups.is_none_or(|(then, now)| then.roller != now.roller),
            Trigger::DriveRatioChanged => setups.is_some_and(|(then, now)| then.drive_ratio != now.drive_ratio),
            Trigger::GateChanged => setups.is_some_and(|(then, now)| gate(then) != gate(now)),
            Trigger::ConfigurationChanged => {
                then.width != now.width || setups.is_some_and(|(then, now)| then.runs != now.runs)
            }
            other => panic!("{other} is not a plain difference"),
        }
    }

    fn events(&self) -> Vec<(Moment, CauseKind)> {
        fn add<T>(all: &mut Vec<(Moment, CauseKind)>, records: &[Dated<T>], kind: CauseKind) {
            all.extend(records.iter().map(|record| (record.moment, kind)));
        }
        let mut all = vec![];
        let history = &self.fleet.history;
        add(&mut all, &history.configurations, CauseKind::Configuration);
        add(&mut all, &history.setups, CauseKind::Setup);
        add(&mut all, &history.services, CauseKind::Service);
        add(&mut all, &history.fills, CauseKind::Fill);
        add(&mut all, &history.emptyings, CauseKind::Emptying);
        add(&mut all, &history.calibrations, CauseKind::Calibration);
        add(&mut all, &history.jobs, CauseKind::Job);
        self.fleet.around.lots.values().for_each(|lot| add(&mut all, &lot.tests, CauseKind::LotTest));
        all.sort();
        all
    }

    const PLAIN: [Trigger; 7] = [
        Trigger::CropChanged,
        Trigger::LotChanged,
        Trigger::SeedWeightChanged,
        Trigger::RollerChanged,
        Trigger::DriveRatioChanged,
        Trigger::GateChanged,
        Trigger::ConfigurationChanged,
    ];

    fn same_basis(&self, calibration: &Calibration, later: &Calibration) -> bool {
        let (then, now) = (self.view(calibration.moment), self.view(later.moment));
        let season = self.new_season(calibration, later.moment.occurred_at, now.lot);
        season.is_none() && !Self::PLAIN.iter().any(|trigger| self.differs(*trigger, &then, &now))
    }

    fn never(&self) -> Row {
        let zone = self.fleet.around.time_zone.clone();
        let day = self.fleet.history.commissioned_on.to_zoned_datetime(zone).expect("a day");
        (Trigger::NeverCalibrated, day.timestamp(), CauseKind::Seeder, SEEDER, false)
    }

    fn due(&self, calibration: &Calibration) -> Vec<Row> {
        let mut found: Vec<(Trigger, Timestamp, CauseKind, Uuid)> = vec![];
        let zone = || self.fleet.around.time_zone.clone();
        if let Some(season) = self.new_season(calibration, self.at, self.view(self.end()).lot) {
            let midnight = season.starts_on.to_zoned_datetime(zone()).expect("a day").timestamp();
            found.push((Trigger::NewSeason, midnight, CauseKind::Season, season.id.0));
        }
        let then = self.view(calibration.moment);
        for trigger in Self::PLAIN {
            let mut held: Option<(Moment, CauseKind)> = None;
            for event in self.events().into_iter().filter(|event| event.0 >= calibration.moment) {
                held = if self.differs(trigger, &then, &self.view(event.0)) { held.or(Some(event)) } else { None };
            }
            found.extend(held.map(|(moment, kind)| (trigger, moment.occurred_at, kind, moment.id)));
        }
        let mut row = |trigger, kind, moment: Option<Moment>| {
            found.extend(moment.map(|moment| (trigger, moment.occurred_at, kind, moment.id)));
        };
        let services = self.fleet.history.services.iter().filter(|service| service.what.affects_metering);
        let service = services.map(|service| service.moment).filter(|moment| *moment > calibration.moment).min();
        row(Trigger::ComponentReplaced, CauseKind::Service, service);
        row(Trigger::CalibrationInDoubt, CauseKind::Calibration, self.doubt(calibration));
        row(Trigger::RollerSpeedOff, CauseKind::Job, self.roller_speed(calibration));
        row(Trigger::Drift, CauseKind::Job, self.drift(calibration));
        found.extend(self.interval(calibration));
        found.extend(self.scale(calibration));
        let waived = |trigger| {
            self.fleet
                .history
                .waivers
                .iter()
                .any(|waiver| waiver.what.trigger == trigger && self.at < waiver.what.until)
        };
        found.into_iter().map(|(trigger, since, kind, id)| (trigger, since, kind, id, waived(trigger))).collect()
    }

    fn doubt(&self, calibration: &Calibration) -> Option<Moment> {
        let later = || {
            self.calibrations()
                .filter(|later| later.moment > calibration.moment)
                .filter(|later| self.same_basis(calibration, later))
        };
        let cleared = |doubt: &Calibration| later().any(|later| accepted(later) && later.moment > doubt.moment);
        later().filter(|doubt| !accepted(doubt) && !cleared(doubt)).map(|doubt| doubt.moment).min()
    }

    fn jobs_on_basis(&self, calibration: &Calibration) -> Vec<&Dated<JobFacts>> {
        let then = self.view(calibration.moment);
        let machine = &Self::PLAIN[3..];
        let mut jobs: Vec<_> = self
            .fleet
            .history
            .jobs
            .iter()
            .filter(|job| job.moment > calibration.moment && job.what.lot == calibration.what.lot)
            .filter(|job| !machine.iter().any(|trigger| self.differs(*trigger, &then, &self.view(job.moment))))
            .collect();
        jobs.sort_by_key(|job| job.moment);
        jobs
    }

    fn roller_speed(&self, calibration: &Calibration) -> Option<Moment> {
        let view = self.view(calibration.moment);
        let (width, runs) = (view.width?.working_width_m, f64::from(view.setup?.runs));
        let calibrated = calibration.what.roller_speed_rpm?;
        let mut held = None;
        for job in self.jobs_on_basis(calibration) {
            let Some(speed) = job.what.speed else { continue };
            // In the trade's units, computation.md 7: kg/ha x m x km/h / 600 = kg/min.
            let flow = job.what.target_rate * 10_000.0 * width * speed * 3.6 / 600.0;
            let needed = flow / (calibration.what.factor * runs);
            let off = (needed / calibrated - 1.0).abs() > self.policy.roller_speed_tolerance_percent / 100.0;
            held = if off { held.or(Some(job.moment)) } else { None };
        }
        held
    }

    fn drift(&self, calibration: &Calibration) -> Option<Moment> {
        let Policy { drift_lambda: lambda, drift_limit_width: width, drift_sigma_percent: sigma, .. } = self.policy;
        let (mut z, mut count, mut held) = (0.0, 0, None);
        for job in self.jobs_on_basis(calibration) {
            if job.what.seed_used_basis == SeedUsedBasis::MachineTotal {
                continue;
            }
            count += 1;
            let x = (job.what.seed_used_kg / job.what.area_m2 / job.what.target_rate).ln();
            z = lambda * x + (1.0 - lambda) * z;
            let variance = lambda / (2.0 - lambda) * (1.0 - (1.0 - lambda).powi(2 * count));
            let out = f64::abs(z) > width * sigma / 100.0 * variance.sqrt();
            held = if out { held.or(Some(job.moment)) } else { None };
        }
        held
    }

    fn interval(&self, calibration: &Calibration) -> Option<(Trigger, Timestamp, CauseKind, Uuid)> {
        let mut jobs: Vec<_> = self.fleet.history.jobs.iter().filter(|job| job.moment > calibration.moment).collect();
        jobs.sort_by_key(|job| job.moment);
        let mut sown = 0.0;
        let by_area = self.policy.interval_area_ha.and_then(|limit| {
            jobs.into_iter().find(|job| {
                sown += job.what.area_m2;
                sown / 10_000.0 > limit
            })
        });
        let by_area = by_area.map(|job| (Trigger::Interval, job.moment.occurred_at, CauseKind::Job, job.moment.id));
        let by_days = self.policy.interval_days.and_then(|days| {
            let due = calibration.moment.occurred_at + SignedDuration::from_secs_f64(days * 86_400.0);
            (due < self.at).then_some((Trigger::Interval, due, CauseKind::Calibration, calibration.moment.id))
        });
        match (by_area, by_days) {
            (Some(area), Some(days)) if days.1 < area.1 => Some(days),
            (area, days) => area.or(days),
        }
    }

    fn scale(&self, calibration: &Calibration) -> Option<(Trigger, Timestamp, CauseKind, Uuid)> {
        let made = calibration.moment;
        let unchecked = Some((Trigger::ScaleUnchecked, made.occurred_at, CauseKind::Calibration, made.id));
        let Some(scale) = calibration.what.scale.and_then(|scale| self.fleet.around.scales.get(&scale)) else {
            return unchecked;
        };
        let allowed = |reference: f64| scale.readability_kg + reference * self.policy.scale_error_limit_percent / 100.0;
        let passes = |check: &sowmark_core::readiness::ScaleCheck| {
            (check.reading_kg - check.reference_kg).abs() <= allowed(check.reference_kg)
        };
        let interval = SignedDuration::from_secs_f64(self.policy.scale_check_interval_days * 86_400.0);
        let window = made.occurred_at - interval..=made.occurred_at;
        let checks = || scale.checks.iter();
        if !checks().any(|check| window.contains(&check.moment.occurred_at) && passes(&check.what)) {
            return unchecked;
        }
        let next = checks().filter(|check| check.moment > made).min_by_key(|check| check.moment)?;
        let failed = (Trigger::ScaleUnchecked, next.moment.occurred_at, CauseKind::ScaleCheck, next.moment.id);
        (!passes(&next.what)).then_some(failed)
    }
}

fn accepted(calibration: &Calibration) -> bool {
    calibration.what.standing == Standing::Accepted
}

fn stop(trigger: Trigger) -> bool {
    trigger <= Trigger::CalibrationInDoubt
}

fn gate(setup: &sowmark_core::basis::Setup) -> Option<String> {
    setup.gate.as_ref().map(|gate| gate.trim().to_owned())
}
