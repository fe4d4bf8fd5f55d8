//! A unit's readiness at many moments of its past: its records are put in order once, and each moment is answered from the beginning
//! of them that reaches to it.
//!
//! Nothing is carried from one answer to the next: each is [`readiness`]'s own, to the letter.

use jiff::Timestamp;

use crate::readiness::{Readiness, Surroundings, UnitHistory, answer, readiness, timeline::Course};

/// The past of a metering unit, for who asks for its readiness at many moments: every job of a season, every record of a book.
///
/// [`readiness`] puts all records in order for each question, so to ask it at each of a unit's *n* records takes time as *n*² log *n*;
/// here a question costs what has happened since the calibration that it is about.
///
/// ```
/// use std::collections::HashMap;
///
/// use jiff::{Timestamp, civil::date, tz::TimeZone};
/// use sowmark_core::{
///     moment::{Dated, Moment},
///     readiness::{Fill, Past, State, Surroundings, UnitHistory, readiness},
/// };
/// use uuid::Uuid;
///
/// let morning: Timestamp = "2027-04-06T05:30:00Z".parse().unwrap();
/// let filled = Moment { occurred_at: morning, recorded_at: morning, id: Uuid::from_u128(1) };
/// let history = UnitHistory {
///     seeder: Uuid::from_u128(2).into(),
///     unit: Uuid::from_u128(3).into(),
///     commissioned_on: date(2021, 3, 1),
///     laid_up: vec![],
///     configurations: vec![],
///     setups: vec![],
///     services: vec![],
///     fills: vec![Dated::new(filled, Fill { lot: Uuid::from_u128(4).into() })],
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
/// let past = Past::new(&history, &surroundings, "2027-05-01T00:00:00Z".parse().unwrap());
/// let before: Timestamp = "2027-04-06T05:00:00Z".parse().unwrap();
/// assert_eq!(past.at(before).state, State::Empty);
/// assert_eq!(past.at(morning), readiness(&history, &surroundings, morning));
/// ```
#[derive(Debug)]
pub struct Past<'a> {
    history: &'a UnitHistory,
    surroundings: &'a Surroundings,
    until: Timestamp,
    course: Course<'a>,
}

impl<'a> Past<'a> {
    /// The past until `until`, records of that instant included.
    pub fn new(history: &'a UnitHistory, surroundings: &'a Surroundings, until: Timestamp) -> Self {
        Self { history, surroundings, until, course: Course::new(history, surroundings, until) }
    }

    /// The readiness of the unit at `at`. A moment after the past's end is answered too, but no faster than [`readiness`] does.
    pub fn at(&self, at: Timestamp) -> Readiness {
        if at <= self.until && self.course.tells_of(at) {
            answer(self.history, &self.course.until(at))
        } else {
            readiness(self.history, self.surroundings, at)
        }
    }
}
