//! Which factor is true for a metering unit at a moment, and why it must be caught again: a pure function of records and moment.
//!
//! [`readiness`] compares each accepted calibration's basis with what the unit is like at the moment asked for; the differences are
//! triggers. Records arrive days late from phones, so nothing is remembered from one question to the next: whoever asks for a past
//! moment is answered as known now. Whether a record is void is not asked here: void records are not passed in. One file for each
//! trigger or small family below `readiness/`; the order of work is in `due.rs`.

mod detail;
mod difference;
mod doubt;
mod drift;
mod due;
mod expected;
mod interval;
mod jobs;
mod machine;
mod past;
mod records;
mod roller_speed;
mod scale;
mod season;
mod seed;
mod service;
mod stood;
mod tank;
mod timeline;
mod trigger;
mod waiver;

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

pub use self::{
    detail::{Cause, CauseKind, Change, Detail, Due, Exceeded, ScaleDoubt, Waived},
    drift::{JobPoint, usage_chart},
    expected::{Expected, expected_from_history},
    past::Past,
    records::{
        CalibrationFacts, Emptying, Fill, JobFacts, LotFacts, LotTest, ScaleCheck, ScaleFacts, Season, SeedUsedBasis,
        Service, Standing, Surroundings, UnitHistory, Waiver,
    },
    scale::{ScaleStanding, passes, scale_standing},
    season::season_in_force,
    seed::{latest_known_tests, same_crop},
    stood::{Answer, End, Stood, stood},
    tank::{Tank, tank_at},
    trigger::{Severity, Trigger, UnknownTrigger},
};
use self::{
    due::{Finding, findings, fits},
    timeline::{Calibrated, Course, Timeline},
};
use crate::{
    basis::{Configuration, Setup},
    ids::{CalibrationId, LotId},
    moment::{Dated, latest_by, midnight},
};

/// What a metering unit is at a moment, in the order in which the first that holds is named.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum State {
    /// The seeder is laid up.
    LaidUp,
    /// No seed is in the tank, so there is no factor.
    Empty,
    /// A `stop` trigger is due.
    Calibrate,
    /// Only `check` triggers are due.
    Check,
    /// Nothing is due that was not waived.
    Ready,
}

impl State {
    /// Its name in the API.
    pub fn as_str(self) -> &'static str {
        match self {
            State::LaidUp => "laid_up",
            State::Empty => "empty",
            State::Calibrate => "calibrate",
            State::Check => "check",
            State::Ready => "ready",
        }
    }
}

/// The factor to key in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InForce {
    /// The calibration it comes from.
    pub calibration: CalibrationId,
    /// The meter factor, kg per roller revolution per run.
    pub factor: f64,
    /// The same for the runs in use now, kg per roller revolution.
    pub factor_unit_total: f64,
    /// Whether a newer accepted calibration exists, on another basis.
    pub recalled: bool,
    /// When it was calibrated.
    pub since: Timestamp,
}

/// A metering unit at a moment: its state, its factor, and what is due.
#[derive(Clone, Debug, PartialEq)]
pub struct Readiness {
    /// The state.
    pub state: State,
    /// The lot that counts as in the tank.
    pub lot: Option<LotId>,
    /// The other lots it is mixed with, the one that came first at the front.
    pub mixed_with: Vec<LotId>,
    /// The setup in force.
    pub setup: Option<Dated<Setup>>,
    /// The configuration in force.
    pub configuration: Option<Dated<Configuration>>,
    /// The factor to key in; `None` while a `stop` trigger is due that was not waived, or while the tank is empty.
    pub in_force: Option<InForce>,
    /// The calibration that the triggers are against; `None` if the unit has no accepted one.
    pub compared_with: Option<CalibrationId>,
    /// The triggers due, waived ones included, in the order of [`Trigger`].
    pub due: Vec<Due>,
}

/// The calibration that the unit is compared with.
struct Chosen<'t, 'a> {
    calibration: &'t Calibrated<'a>,
    /// Whether a newer accepted one exists.
    recalled: bool,
}

/// The readiness of a metering unit at `at`, records of that instant included.
///
/// 1. *Now* is the latest configuration and setup, the lot in the tank, the season in force for its crop.
/// 2. Of the unit's accepted calibrations the newest without a `stop` trigger is in force. If a newer one exists, on another basis,
///    it is recalled. If the policy forbids recall, only the newest is looked at.
/// 3. If none fits, the triggers against the newest accepted one are reported.
///
/// Who asks of many moments of one unit asks [`Past`].
///
/// A waiver takes its trigger out of the state. If every `stop` trigger against the newest accepted calibration is waived, that one
/// is in force, but one that fits without waivers comes first: it is the truer number. There is no factor while no setup is
/// known, waived or not, since nobody can say how many runs it would be for.
///
/// ```
/// use std::collections::HashMap;
///
/// use jiff::{Timestamp, civil::date, tz::TimeZone};
/// use sowmark_core::{
///     moment::{Dated, Moment},
///     readiness::{Fill, State, Surroundings, Trigger, UnitHistory, readiness},
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
///     time_zone: TimeZone::get("Europe/Berlin").unwrap(),
///     lots: HashMap::new(),
///     seasons: vec![],
///     scales: HashMap::new(),
///     policies: vec![],
/// };
/// let now = readiness(&history, &surroundings, "2027-04-06T06:00:00Z".parse().unwrap());
/// assert_eq!(now.state, State::Calibrate);
/// assert_eq!(now.in_force, None);
/// assert_eq!(now.due[0].trigger, Trigger::NeverCalibrated);
/// assert_eq!(now.due[0].since.to_string(), "2021-02-28T23:00:00Z");
/// ```
pub fn readiness(history: &UnitHistory, surroundings: &Surroundings, at: Timestamp) -> Readiness {
    answer(history, &Course::new(history, surroundings, at).until(at))
}

fn answer(history: &UnitHistory, line: &Timeline<'_>) -> Readiness {
    let (at, surroundings) = (line.at, line.surroundings);
    let chosen = choose(line);
    let found = chosen
        .as_ref()
        .map_or_else(|| vec![never_calibrated(history, surroundings)], |chosen| findings(line, chosen.calibration));
    let due: Vec<Due> = found.into_iter().map(|finding| finding.into_due(&history.waivers, at)).collect();
    let laid_up = latest_by(&history.laid_up, at).is_some_and(|laid_up| laid_up.what);
    Readiness {
        state: state(laid_up, line.now.lot.is_none(), &due),
        lot: line.now.lot,
        setup: line.now.setup.cloned(),
        configuration: line.now.configuration.cloned(),
        in_force: chosen.as_ref().and_then(|chosen| in_force(line, chosen, &due)),
        compared_with: chosen.map(|chosen| chosen.calibration.moment().id.into()),
        due,
        mixed_with: line.tank.mixed_with.clone(),
    }
}

fn choose<'t, 'a>(line: &'t Timeline<'a>) -> Option<Chosen<'t, 'a>> {
    let mut newest_first = line.calibrations.iter().rev().filter(|calibration| calibration.accepted());
    let newest = newest_first.next()?;
    if !line.policy.recall_allowed || fits(line, newest) {
        return Some(Chosen { calibration: newest, recalled: false });
    }
    let recalled = newest_first.find(|older| fits(line, older));
    Some(
        recalled.map_or(Chosen { calibration: newest, recalled: false }, |older| Chosen {
            calibration: older,
            recalled: true,
        }),
    )
}

fn never_calibrated(history: &UnitHistory, surroundings: &Surroundings) -> Finding {
    Finding {
        since: midnight(history.commissioned_on, &surroundings.time_zone),
        cause: Cause { kind: CauseKind::Seeder, id: history.seeder.into() },
        detail: Detail::NeverCalibrated { commissioned_on: history.commissioned_on },
    }
}

/// Whether a trigger of this severity is due that was not waived.
fn stands(due: &[Due], severity: Severity) -> bool {
    due.iter().any(|due| due.severity == severity && due.waived.is_none())
}

fn state(laid_up: bool, empty: bool, due: &[Due]) -> State {
    if laid_up {
        State::LaidUp
    } else if empty {
        State::Empty
    } else if stands(due, Severity::Stop) {
        State::Calibrate
    } else if stands(due, Severity::Check) {
        State::Check
    } else {
        State::Ready
    }
}

fn in_force(line: &Timeline<'_>, chosen: &Chosen<'_, '_>, due: &[Due]) -> Option<InForce> {
    let setup = line.now.setup?;
    line.now.lot?;
    if stands(due, Severity::Stop) {
        return None;
    }
    let calibration = chosen.calibration.record;
    Some(InForce {
        calibration: calibration.moment.id.into(),
        factor: calibration.what.factor,
        factor_unit_total: calibration.what.factor * f64::from(setup.what.runs),
        recalled: chosen.recalled,
        since: calibration.moment.occurred_at,
    })
}
