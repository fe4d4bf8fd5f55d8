//! What is due now, and what will come due by the calendar if nothing is done: for feeds and notices, which go to people
//! who are not looking at the board.
//!
//! Nothing is decided here. `core` is asked for now and for each moment to come at which the calendar alone changes its
//! answer: a season begins, an interval runs out, a waiver ends. Units without seed in the tank and laid-up machines are
//! left out, as nobody can catch there; what only more work brings about (an area, a drift) cannot be foreseen.

use super::act::{Records, histories, may_see};
use super::sentence::Teller;
use super::store::UnitRow;
use crate::access::{Actor, Permission};
use crate::db::Cx;
use crate::web::error::Error;
use jiff::{SignedDuration, Timestamp};
use sowmark_core::ids::ScaleId;
use sowmark_core::moment::{latest_by, midnight};
use sowmark_core::policy::Policy;
use sowmark_core::readiness::{self, Detail, Due, ScaleStanding, State, Surroundings, UnitHistory, scale_standing};
use sowmark_core::say;
use std::collections::BTreeMap;
use uuid::Uuid;

/// How far ahead anybody is told: a year and some, so that next year's season is seen.
const HORIZON: SignedDuration = SignedDuration::from_hours(24 * 400);
/// A scale that nothing was caught on for this long is not in use.
const IN_USE: SignedDuration = SignedDuration::from_hours(24 * 366);
const DAY_SECONDS: f64 = 86_400.0;

/// What a matter is about, by which it is known again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Subject {
    /// A metering unit, for one of its triggers, begun by a record.
    Unit {
        unit: Uuid,
        trigger: &'static str,
        cause: Uuid,
    },
    Scale(Uuid),
}

/// Something that is due, or will be.
#[derive(Clone, Debug)]
pub struct Matter {
    pub subject: Subject,
    /// In short, for a list or a calendar.
    pub title: String,
    /// Why, and what to do.
    pub says: String,
    /// From when it has been due, or will be.
    pub from: Timestamp,
    pub is_coming: bool,
    /// Where it is dealt with.
    pub path: String,
}

/// What is due to an actor's knowledge at a moment, and what comes, by the day from which it is due.
///
/// # Errors
/// The database.
pub async fn matters(cx: &mut Cx<'_>, actor: &Actor, now: Timestamp) -> Result<Vec<Matter>, Error> {
    let Records { units, surroundings, names } = histories(cx, &actor.scope, &actor.time_zone, None).await?;
    let (reader, zone) = (actor.reader(), &actor.time_zone);
    let policy = latest_by(&surroundings.policies, now).map_or_else(Policy::default, |policy| policy.what.clone());
    let mut matters = Vec::new();
    for (unit, history) in &units {
        let moments = std::iter::once(now).chain(moments(history, &surroundings, &policy, now));
        let mut told = Vec::new();
        for at in moments {
            let there = readiness::readiness(history, &surroundings, at);
            if !matches!(there.state, State::Calibrate | State::Check) || !may_see(&actor.scope, there.lot) {
                continue;
            }
            let teller = Teller { names: &names, zone, reader, at };
            for due in there.due.iter().filter(|due| due.waived.is_none()) {
                if told.contains(&due.trigger) {
                    continue;
                }
                told.push(due.trigger);
                let says = teller.says(due, there.compared_with);
                matters.push(of_unit(unit, due, says, (now, at), &teller));
            }
        }
    }
    // Scales are checked by those who catch; a client's agronomist does not even know them.
    if actor.may(Permission::Log) {
        matters.extend(scales(&units, &surroundings, &policy, &Teller { names: &names, zone, reader, at: now }));
    }
    matters.sort_by(|a, b| (a.is_coming, a.from, &a.title).cmp(&(b.is_coming, b.from, &b.title)));
    Ok(matters)
}

/// The moments to come at which the calendar alone may make something due on a unit, in their order.
fn moments(
    history: &UnitHistory,
    surroundings: &Surroundings,
    policy: &Policy,
    now: Timestamp,
) -> impl Iterator<Item = Timestamp> {
    let seasons = surroundings.seasons.iter().map(|season| midnight(season.starts_on, &surroundings.time_zone));
    let interval = policy.interval_days.and_then(|days| SignedDuration::try_from_secs_f64(days * DAY_SECONDS).ok());
    // At its end an interval is not over yet; the next instant that the database knows is a microsecond later.
    let over = interval.map(|interval| interval.saturating_add(SignedDuration::from_micros(1)));
    let intervals =
        history.calibrations.iter().filter_map(|calibration| calibration.moment.occurred_at.checked_add(over?).ok());
    let waivers = history.waivers.iter().map(|waiver| waiver.what.until);
    let end = now.saturating_add(HORIZON).unwrap_or(now);
    let mut moments: Vec<Timestamp> =
        seasons.chain(intervals).chain(waivers).filter(|at| *at > now && *at <= end).collect();
    moments.sort_unstable();
    moments.dedup();
    moments.into_iter()
}

fn of_unit(unit: &UnitRow, due: &Due, says: String, (now, at): (Timestamp, Timestamp), teller: &Teller<'_>) -> Matter {
    let words = teller.reader.words;
    let is_coming = at > now;
    let reason = super::trigger_in_words(due.trigger, words);
    let from = if is_coming { at } else { due.since };
    let says = if is_coming { coming(due, says, &Teller { at: now, ..*teller }, at) } else { says };
    Matter {
        subject: Subject::Unit { unit: unit.id, trigger: due.trigger.as_str(), cause: due.cause.id },
        title: say!(words, "matter-unit", seeder = &unit.seeder, unit = &unit.label, reason = reason),
        says,
        from,
        is_coming,
        path: format!("/seeders/{}", unit.seeder_id),
    }
}

/// What comes due on a day, and why on that day.
fn coming(due: &Due, says: String, teller: &Teller<'_>, at: Timestamp) -> String {
    let (words, day) = (teller.reader.words, teller.day(at));
    match &due.detail {
        Detail::Interval { days: Some(days), area_ha: None } => {
            // Days since a catch: a count, never below zero.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let days = days.value as u64;
            say!(words, "matter-coming-interval", day = day, days = days)
        }
        Detail::NewSeason { season, .. } => {
            say!(words, "matter-coming-season", day = day, season = teller.names.season(season.0))
        }
        // What stands for longer comes due because letting it pass ends.
        _ if due.since < at => say!(words, "matter-coming-passed", day = day, says = says),
        _ => say!(words, "matter-coming", day = day, says = says),
    }
}

/// The scales in use by the units in sight, each with the day by which it must be read with a known mass again.
fn scales(
    units: &[(UnitRow, UnitHistory)],
    surroundings: &Surroundings,
    policy: &Policy,
    teller: &Teller<'_>,
) -> Vec<Matter> {
    let mut used: BTreeMap<Uuid, Timestamp> = BTreeMap::new();
    let caught = units.iter().flat_map(|(_, history)| &history.calibrations);
    for calibration in caught.filter(|calibration| calibration.happened_by(teller.at)) {
        let Some(scale) = calibration.what.scale else { continue };
        let last = used.entry(scale.0).or_insert(calibration.moment.occurred_at);
        *last = (*last).max(calibration.moment.occurred_at);
    }
    let in_use = used.into_iter().filter(|(_, last)| teller.at.duration_since(*last) <= IN_USE);
    in_use.filter_map(|(scale, last)| scale_matter(scale, last, surroundings, policy, teller)).collect()
}

fn scale_matter(
    scale: Uuid,
    last_used: Timestamp,
    surroundings: &Surroundings,
    policy: &Policy,
    teller: &Teller<'_>,
) -> Option<Matter> {
    let (words, now) = (teller.reader.words, teller.at);
    let facts = surroundings.scales.get(&ScaleId(scale))?;
    let standing = scale_standing(facts, now, policy);
    let checked = latest_by(&facts.checks, now).map(|check| check.moment.occurred_at);
    let interval = SignedDuration::try_from_secs_f64(policy.scale_check_interval_days * DAY_SECONDS).ok()?;
    let expires = checked.and_then(|checked| checked.checked_add(interval).ok());
    let (how, from) = match standing {
        // In doubt from its last use on: what was weighed then rests on nothing.
        ScaleStanding::NeverChecked => ("never", last_used),
        ScaleStanding::Failed => ("failed", checked?),
        ScaleStanding::PassedLongAgo => ("over", expires?),
        ScaleStanding::PassedWithin => ("coming", expires?),
    };
    let name = teller.names.scale(scale);
    Some(Matter {
        subject: Subject::Scale(scale),
        title: say!(words, "matter-scale", scale = name),
        says: say!(
            words,
            "matter-scale-why",
            how = how,
            scale = name,
            checked = checked.map(|at| teller.day(at)).unwrap_or_default(),
            day = teller.day(from),
            days = words.exactly(policy.scale_check_interval_days)
        ),
        from,
        is_coming: standing == ScaleStanding::PassedWithin,
        path: "/scales".to_owned(),
    })
}
