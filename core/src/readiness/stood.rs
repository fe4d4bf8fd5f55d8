//! Which triggers stood over a time, and what ended each: a unit's past told once, for reports on paper.
//!
//! Nothing is remembered between moments here either: readiness is asked before and at each record that can change its answer,
//! as all records are known now, and what one answer has and the next has not has ended in between.

use std::collections::HashSet;

use jiff::{SignedDuration, Timestamp};

use crate::{
    ids::{CalibrationId, LotId},
    moment::{Dated, midnight},
    readiness::{Due, Past, Readiness, Surroundings, UnitHistory, Waived},
};

/// The least step between two moments: records are kept by the microsecond.
const STEP: SignedDuration = SignedDuration::from_micros(1);

/// A trigger that stood for a while.
#[derive(Clone, Debug, PartialEq)]
pub struct Stood {
    /// As it was due when it was last asked for.
    pub due: Due,
    /// The calibration that it was against.
    pub compared_with: Option<CalibrationId>,
    /// From when it stood: from when it was due; from when a waiver ended; or, where it was not due before although what it is told from is
    /// older, from what brought it about: a tolerance that was changed, a tank that was filled.
    pub since: Timestamp,
    /// The last moment at which it was asked for and stood, for who tells of it.
    pub seen: Timestamp,
    /// The lot that counted as in the tank then.
    pub lot: Option<LotId>,
    /// `None` while it stands.
    pub end: Option<End>,
}

/// When a trigger no longer stood, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct End {
    /// From when.
    pub at: Timestamp,
    /// By what.
    pub answer: Answer,
}

/// What ended a trigger.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// The unit was caught again: this accepted calibration is what it is compared with since.
    Caught(CalibrationId),
    /// An earlier calibration fits again: what had been changed was changed back.
    Recalled(CalibrationId),
    /// The office let it pass.
    Waived(Waived),
    /// It no longer held: the tank was emptied, a scale passed its check, a tolerance was changed.
    Gone,
}

/// The triggers that stood at some moment from `from` (or the unit's first record) until `until`, both included, in the order
/// in which they began. One against another calibration is another; so is one that stands again after a waiver.
///
/// ```
/// use std::collections::HashMap;
///
/// use jiff::{Timestamp, civil::date, tz::TimeZone};
/// use sowmark_core::{
///     moment::{Dated, Moment},
///     readiness::{Fill, Surroundings, Trigger, UnitHistory, stood},
/// };
/// use uuid::Uuid;
///
/// let filled: Timestamp = "2027-04-06T05:30:00Z".parse().unwrap();
/// let moment = Moment { occurred_at: filled, recorded_at: filled, id: Uuid::from_u128(1) };
/// let history = UnitHistory {
///     seeder: Uuid::from_u128(2).into(),
///     unit: Uuid::from_u128(3).into(),
///     commissioned_on: date(2021, 3, 1),
///     laid_up: vec![],
///     configurations: vec![],
///     setups: vec![],
///     services: vec![],
///     fills: vec![Dated::new(moment, Fill { lot: Uuid::from_u128(4).into() })],
///     emptyings: vec![],
///     calibrations: vec![],
///     jobs: vec![],
///     waivers: vec![],
/// };
/// let surroundings = Surroundings {
///     time_zone: TimeZone::UTC,
///     lots: HashMap::new(),
///     seasons: vec![],
///     scales: HashMap::new(),
///     policies: vec![],
/// };
/// let all = stood(&history, &surroundings, None, "2027-04-07T00:00:00Z".parse().unwrap());
/// assert_eq!(all.len(), 1);
/// assert_eq!(all[0].due.trigger, Trigger::NeverCalibrated);
/// assert_eq!(all[0].end, None);
/// ```
pub fn stood(
    history: &UnitHistory,
    surroundings: &Surroundings,
    from: Option<Timestamp>,
    until: Timestamp,
) -> Vec<Stood> {
    let mut ledger = Ledger::default();
    let moments = moments(history, surroundings);
    let first = from.or_else(|| moments.first().copied()).unwrap_or(until).min(until);
    let between = moments.into_iter().filter(|at| first < *at && *at <= until);
    let past = Past::new(history, surroundings, until);
    let mut ask = |at| ledger.note(&past.at(at), history, at);
    ask(first);
    for at in between {
        // What only time brings about is found before the record that ends it.
        ask(at.checked_sub(STEP).unwrap_or(at).max(first));
        ask(at);
    }
    ask(until);
    ledger.in_order()
}

/// Every moment at which something can have changed what is due, in order.
fn moments(history: &UnitHistory, surroundings: &Surroundings) -> Vec<Timestamp> {
    fn of<T>(records: &[Dated<T>]) -> impl Iterator<Item = Timestamp> + '_ {
        records.iter().map(|record| record.moment.occurred_at)
    }
    let UnitHistory { configurations, setups, services, fills, emptyings, calibrations, jobs, waivers, .. } = history;
    let lots: HashSet<LotId> = fills
        .iter()
        .map(|fill| fill.what.lot)
        .chain(calibrations.iter().map(|calibration| calibration.what.lot))
        .chain(jobs.iter().map(|job| job.what.lot))
        .collect();
    let scales: HashSet<_> = calibrations.iter().filter_map(|made| made.what.scale).collect();
    let of_lots = surroundings.lots.iter().filter(|(lot, _)| lots.contains(lot));
    let of_scales = surroundings.scales.iter().filter(|(scale, _)| scales.contains(scale));
    let zone = &surroundings.time_zone;
    let mut all: Vec<Timestamp> = of(configurations)
        .chain(of(setups))
        .chain(of(services))
        .chain(of(fills))
        .chain(of(emptyings))
        .chain(of(calibrations))
        .chain(of(jobs))
        .chain(of(waivers))
        .chain(waivers.iter().map(|waiver| waiver.what.until))
        .chain(of_lots.flat_map(|(_, lot)| of(&lot.tests)))
        .chain(of_scales.flat_map(|(_, scale)| of(&scale.checks)))
        .chain(of(&surroundings.policies))
        .chain(surroundings.seasons.iter().map(|season| midnight(season.starts_on, zone)))
        .collect();
    all.sort_unstable();
    all.dedup();
    all
}

/// What stands, by trigger and calibration, and what has ended.
#[derive(Default)]
struct Ledger {
    standing: Vec<Stood>,
    ended: Vec<Stood>,
    /// When it was last asked for.
    asked: Option<Timestamp>,
}

impl Ledger {
    /// What is due at a moment, and with it what has ended since the one before.
    fn note(&mut self, now: &Readiness, history: &UnitHistory, at: Timestamp) {
        let is_due = |stood: &Stood| {
            now.compared_with == stood.compared_with
                && now.due.iter().any(|due| due.trigger == stood.due.trigger && due.waived.is_none())
        };
        let (standing, ended): (Vec<Stood>, Vec<Stood>) =
            std::mem::take(&mut self.standing).into_iter().partition(is_due);
        self.standing = standing;
        self.ended.extend(ended.into_iter().map(|stood| {
            let answer = answer(&stood, now, history, at);
            Stood { end: Some(End { at, answer }), ..stood }
        }));
        for due in now.due.iter().filter(|due| due.waived.is_none()) {
            self.note_due(due, now, at);
        }
        self.asked = Some(at);
    }

    fn note_due(&mut self, due: &Due, now: &Readiness, at: Timestamp) {
        let known = self
            .standing
            .iter_mut()
            .find(|stood| stood.due.trigger == due.trigger && stood.compared_with == now.compared_with);
        if let Some(stood) = known {
            (stood.due, stood.seen, stood.lot) = (due.clone(), at, now.lot);
            return;
        }
        self.standing.push(Stood {
            due: due.clone(),
            compared_with: now.compared_with,
            // What was asked for later than that and did not stand then, stands from now at the earliest. Asked for at that very
            // moment it may not have stood either: an interval is over after its end, not at it.
            since: if self.asked.is_some_and(|asked| due.since < asked) { at } else { due.since },
            seen: at,
            lot: now.lot,
            end: None,
        });
    }

    fn in_order(mut self) -> Vec<Stood> {
        self.ended.append(&mut self.standing);
        self.ended.sort_by_key(|stood| (stood.since, stood.due.trigger, stood.seen));
        self.ended
    }
}

/// Why a trigger that stood before no longer does.
fn answer(stood: &Stood, now: &Readiness, history: &UnitHistory, at: Timestamp) -> Answer {
    let is_new = |other: CalibrationId| {
        let made = history.calibrations.iter().find(|made| made.moment.id == other.0);
        made.is_some_and(|made| made.moment.occurred_at == at)
    };
    match now.compared_with.filter(|other| Some(*other) != stood.compared_with) {
        Some(other) if is_new(other) => Answer::Caught(other),
        // Compared with, but true only if nothing else stands against it.
        Some(other) if now.in_force.is_some() => Answer::Recalled(other),
        _ => {
            let waived = now.due.iter().find(|due| due.trigger == stood.due.trigger).and_then(|due| due.waived.clone());
            waived.map_or(Answer::Gone, Answer::Waived)
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::HashMap;

    use jiff::{Timestamp, civil::date, tz::TimeZone};
    use uuid::Uuid;

    use super::{Answer, Stood, stood};
    use crate::{
        basis::Setup,
        moment::{Dated, Moment},
        policy::Policy,
        readiness::{
            CalibrationFacts, Emptying, Fill, Severity, Standing, Surroundings, Trigger, UnitHistory, Waiver, readiness,
        },
    };

    fn at(text: &str) -> Timestamp {
        format!("2027-04-{text}Z").parse().unwrap()
    }

    fn dated<T>(id: u128, moment: &str, what: T) -> Dated<T> {
        let at = at(moment);
        Dated::new(Moment { occurred_at: at, recorded_at: at, id: Uuid::from_u128(id) }, what)
    }

    fn setup(roller: u128) -> Setup {
        Setup { roller: Uuid::from_u128(roller).into(), drive_ratio: "2.5".parse().unwrap(), gate: None, runs: 8 }
    }

    fn made(lot: u128, standing: Standing) -> CalibrationFacts {
        CalibrationFacts {
            lot: Uuid::from_u128(lot).into(),
            standing,
            factor: 0.03,
            roller_speed_rpm: None,
            scale: None,
        }
    }

    /// A unit set up and filled on the 1st, and caught on the 2nd at 08:00.
    fn history() -> UnitHistory {
        UnitHistory {
            seeder: Uuid::from_u128(1).into(),
            unit: Uuid::from_u128(2).into(),
            commissioned_on: date(2021, 3, 1),
            laid_up: vec![],
            configurations: vec![],
            setups: vec![dated(10, "01T08:00:00", setup(7))],
            services: vec![],
            fills: vec![dated(11, "01T09:00:00", Fill { lot: Uuid::from_u128(5).into() })],
            emptyings: vec![],
            calibrations: vec![dated(12, "02T08:00:00", made(5, Standing::Accepted))],
            jobs: vec![],
            waivers: vec![],
        }
    }

    fn surroundings() -> Surroundings {
        Surroundings {
            time_zone: TimeZone::UTC,
            lots: HashMap::new(),
            seasons: vec![],
            scales: HashMap::new(),
            policies: vec![],
        }
    }

    fn asked(history: &UnitHistory, from: Option<&str>) -> Vec<Stood> {
        let all = stood(history, &surroundings(), from.map(at), at("20T00:00:00"));
        // Nothing here names a scale; that doubt is another test's.
        all.into_iter().filter(|stood| stood.due.trigger != Trigger::ScaleUnchecked).collect()
    }

    fn told(stood: &Stood) -> (Trigger, String, Option<(String, Answer)>) {
        let end = stood.end.as_ref().map(|end| (end.at.to_string(), end.answer.clone()));
        (stood.due.trigger, stood.since.to_string(), end)
    }

    #[test]
    fn a_catch_answers_what_stood_before_it() {
        let mut history = history();
        history.setups.push(dated(13, "03T08:00:00", setup(8)));
        history.calibrations.push(dated(14, "03T10:00:00", made(5, Standing::Held)));
        history.calibrations.push(dated(15, "03T12:00:00", made(5, Standing::Accepted)));
        let all = asked(&history, None);
        let caught =
            |id: u128, moment: &str| Some((at(moment).to_string(), Answer::Caught(Uuid::from_u128(id).into())));
        assert_eq!(
            all.iter().map(told).collect::<Vec<_>>(),
            [
                (Trigger::NeverCalibrated, "2021-03-01T00:00:00Z".to_owned(), caught(12, "02T08:00:00")),
                (Trigger::RollerChanged, "2027-04-03T08:00:00Z".to_owned(), caught(15, "03T12:00:00")),
            ]
        );
        // What had ended before a time is no part of it.
        assert_eq!(asked(&history, Some("02T09:00:00")).len(), 1);
        assert_eq!(asked(&history, Some("03T12:00:00")), []);
    }

    #[test]
    fn what_is_changed_back_brings_the_earlier_number_back() {
        let mut history = history();
        history.setups.push(dated(13, "03T08:00:00", setup(8)));
        history.calibrations.push(dated(14, "03T12:00:00", made(5, Standing::Accepted)));
        history.setups.push(dated(15, "04T08:00:00", setup(7)));
        let all = asked(&history, Some("03T00:00:00"));
        // The second change is no reason to catch: the number of the 2nd is true again at once.
        assert_eq!(all.len(), 1, "{all:?}");
        history.services.push(dated(16, "05T08:00:00", crate::readiness::Service { affects_metering: true }));
        let all = asked(&history, Some("04T12:00:00"));
        // Then neither fits, and the newest is what is told of: its roller is not in.
        let triggers: Vec<_> = all.iter().map(|stood| (stood.due.trigger, stood.end.is_none())).collect();
        assert_eq!(triggers, [(Trigger::RollerChanged, true), (Trigger::ComponentReplaced, true)]);
        // It is out since the 4th, but until the service that was no reason to catch.
        assert_eq!((all[0].due.since, all[0].since), (at("04T08:00:00"), at("05T08:00:00")));
    }

    /// An interval that the office sets later was nobody's to keep before.
    #[test]
    fn a_tolerance_that_changed_makes_nothing_due_before_it() {
        let policy = Policy { interval_days: Some(5.0), ..Policy::default() };
        let surroundings = Surroundings { policies: vec![dated(14, "10T00:00:00", policy)], ..surroundings() };
        let all = stood(&history(), &surroundings, None, at("20T00:00:00"));
        let interval: Vec<_> = all.iter().filter(|stood| stood.due.trigger == Trigger::Interval).collect();
        assert_eq!(interval.len(), 1, "{all:?}");
        assert_eq!((interval[0].due.since, interval[0].since), (at("07T08:00:00"), at("10T00:00:00")));
    }

    /// At its end an interval is kept still; a record of that very moment does not put off what comes after it.
    #[test]
    fn an_interval_that_ends_with_a_record_is_over_from_then() {
        let mut history = history();
        history.fills.push(dated(13, "07T08:00:00", Fill { lot: Uuid::from_u128(5).into() }));
        let policy = Policy { interval_days: Some(5.0), ..Policy::default() };
        let surroundings = Surroundings { policies: vec![dated(14, "01T00:00:00", policy)], ..surroundings() };
        let stood_from = |from| {
            let all = stood(&history, &surroundings, from, at("20T00:00:00"));
            all.iter().filter(|stood| stood.due.trigger == Trigger::Interval).map(|one| one.since).collect::<Vec<_>>()
        };
        assert_eq!(stood_from(None), [at("07T08:00:00")]);
        assert_eq!(stood_from(Some(at("07T08:00:00"))), [at("07T08:00:00")]);
        assert_eq!(stood_from(Some(at("09T08:00:00"))), [at("07T08:00:00")]);
    }

    #[test]
    fn another_lot_and_back_is_no_catch() {
        let mut history = history();
        let empty =
            |id, moment, lot: u128| dated(id, moment, Emptying { lot: Uuid::from_u128(lot).into(), to_empty: true });
        let fill = |id, moment, lot: u128| dated(id, moment, Fill { lot: Uuid::from_u128(lot).into() });
        let surroundings = {
            let lot = || crate::readiness::LotFacts { crop: "wheat".to_owned(), tests: vec![] };
            Surroundings {
                lots: [5, 6].map(|id| (Uuid::from_u128(id).into(), lot())).into_iter().collect(),
                ..surroundings()
            }
        };
        history.emptyings.push(empty(13, "03T08:00:00", 5));
        history.fills.push(fill(14, "03T09:00:00", 6));
        history.emptyings.push(empty(15, "03T10:00:00", 6));
        history.fills.push(fill(16, "03T11:00:00", 5));
        let all = stood(&history, &surroundings, Some(at("03T00:00:00")), at("20T00:00:00"));
        let lot: Vec<_> = all.iter().filter(|stood| stood.due.trigger == Trigger::LotChanged).map(told).collect();
        assert_eq!(
            lot,
            [(Trigger::LotChanged, at("03T09:00:00").to_string(), Some((at("03T10:00:00").to_string(), Answer::Gone)))]
        );
    }

    #[test]
    fn a_waiver_answers_until_it_ends() {
        let mut history = history();
        history.setups.push(dated(13, "03T08:00:00", setup(8)));
        let waiver = Waiver {
            trigger: Trigger::RollerChanged,
            until: at("06T00:00:00"),
            reason: Some("the same roller".to_owned()),
        };
        history.waivers.push(dated(14, "04T08:00:00", waiver));
        let all = asked(&history, Some("03T00:00:00"));
        assert_eq!(all.len(), 2, "{all:?}");
        let end = all[0].end.as_ref().unwrap();
        assert_eq!((all[0].since, end.at), (at("03T08:00:00"), at("04T08:00:00")));
        assert!(
            matches!(&end.answer, Answer::Waived(waived) if waived.reason.as_deref() == Some("the same roller")),
            "{end:?}"
        );
        assert_eq!((all[1].since, &all[1].end), (at("06T00:00:00"), &None));
    }

    #[test]
    fn what_only_time_brings_about_is_found_before_what_ends_it() {
        let mut history = history();
        history.calibrations.push(dated(13, "12T08:00:00", made(5, Standing::Accepted)));
        let policy = Policy { interval_days: Some(5.0), ..Policy::default() };
        let surroundings = Surroundings { policies: vec![dated(14, "01T00:00:00", policy)], ..surroundings() };
        let all = stood(&history, &surroundings, Some(at("03T00:00:00")), at("13T00:00:00"));
        let interval: Vec<_> = all.iter().filter(|stood| stood.due.trigger == Trigger::Interval).collect();
        assert_eq!(interval.len(), 1, "{all:?}");
        assert_eq!((interval[0].since, interval[0].due.severity), (at("07T08:00:00"), Severity::Check));
        assert_eq!(interval[0].end.as_ref().unwrap().at, at("12T08:00:00"));
    }

    /// Against readiness itself: what stands at the end is what is due then, at whatever moment one ends.
    #[test]
    fn what_has_not_ended_is_what_is_due() {
        let mut history = history();
        history.setups.push(dated(13, "03T08:00:00", setup(8)));
        history.calibrations.push(dated(14, "03T12:00:00", made(5, Standing::Rejected)));
        history.fills.push(dated(15, "05T08:00:00", Fill { lot: Uuid::from_u128(6).into() }));
        history.calibrations.push(dated(16, "06T08:00:00", made(6, Standing::Accepted)));
        history.setups.push(dated(17, "07T08:00:00", setup(7)));
        let around = surroundings();
        for hour in 0..24 * 9 {
            let until = at("01T00:00:00") + jiff::SignedDuration::from_hours(hour);
            let mut open: Vec<_> = stood(&history, &around, None, until)
                .into_iter()
                .filter(|stood| stood.end.is_none())
                .map(|stood| (stood.due.trigger, stood.due.since))
                .collect();
            open.sort_unstable();
            let due = readiness(&history, &around, until).due;
            assert_eq!(open, due.iter().map(|due| (due.trigger, due.since)).collect::<Vec<_>>(), "{until}");
        }
    }
}
