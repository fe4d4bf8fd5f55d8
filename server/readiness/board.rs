//! The Readiness page: one line per metering unit, grouped by seeder, the lines that need someone first; or, while there
//! is no unit, what to enter first. Filters and the moment are in the address, so that a view can be sent to somebody.

use super::act::{self, Board, UnitNow};
use super::names::Names;
use super::rate::no_number;
use super::sentence::Teller;
use crate::access::{Actor, Permission, Role, Scope};
use crate::db::Cx;
use crate::fleet::seeder::key_in::KeyIn;
use crate::records::head::{said, said_end, typed};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{FormOption, Posted, pairs};
use crate::web::input::parse_stamp;
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use crate::{args, queries, sync};
use askama::Template;
use axum::extract::RawQuery;
use axum::response::Response;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use percent_encoding::{NON_ALPHANUMERIC, utf8_percent_encode};
use sowmark_core::ids::SeederId;
use sowmark_core::readiness::{CauseKind, Detail, Due, Readiness, State, Trigger, same_crop};
use sowmark_core::say;
use sowmark_core::words::Words;
use std::collections::HashSet;
use uuid::Uuid;

queries! {
    CREWS = "select c.id, c.name, s.seeder_id from crew c
        left join crew_seeder s on s.organization_id = c.organization_id and s.crew_id = c.id
        where c.organization_id = $1 order by c.name, c.id";
    COUNTS = "select (select count(*) from metering_unit where organization_id = $1) as units,
        (select count(*) from seeder where organization_id = $1) as seeders,
        (select count(*) from roller where organization_id = $1) as rollers,
        (select count(*) from lot where organization_id = $1) as lots,
        (select count(*) from season where organization_id = $1) as seasons,
        (select count(*) from membership where organization_id = $1 and active = true) as people";
}

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/", Need::May(Permission::ReadFleet), readiness_page)]
}

#[derive(sqlx::FromRow)]
struct CrewRow {
    id: Uuid,
    name: String,
    seeder_id: Option<Uuid>,
}

#[derive(sqlx::FromRow)]
struct Counts {
    units: i64,
    seeders: i64,
    rollers: i64,
    lots: i64,
    seasons: i64,
    people: i64,
}

/// What the address asks for.
struct Filter {
    state: String,
    crew: String,
    crop: String,
    /// As typed.
    at: String,
}

impl Filter {
    fn read(query: Option<String>) -> Result<Self, Error> {
        let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?);
        let text = |name: &str| posted.text(name).trim().to_owned();
        Ok(Self { state: text("state"), crew: text("crew"), crop: text("crop"), at: text("at") })
    }

    /// The moment that is asked for, now unless told.
    fn moment(&self, now: Timestamp, zone: &TimeZone) -> Option<Timestamp> {
        if self.at.is_empty() {
            return Some(now);
        }
        let local = || self.at.parse::<jiff::civil::DateTime>().ok()?.to_zoned_datetime(zone.clone()).ok();
        parse_stamp(&self.at).map(|stamp| stamp.at).or_else(|| local().map(|zoned| zoned.timestamp()))
    }

    /// The address with another state.
    fn with_state(&self, state: &str) -> String {
        let pairs = [("state", state), ("crew", &self.crew), ("crop", &self.crop), ("at", &self.at)];
        let query: Vec<String> = pairs
            .into_iter()
            .filter(|(_, value)| !value.is_empty())
            .map(|(name, value)| format!("{name}={}", utf8_percent_encode(value, NON_ALPHANUMERIC)))
            .collect();
        if query.is_empty() { "/".to_owned() } else { format!("/?{}", query.join("&")) }
    }
}

/// How many units are in a state, with the link that shows only those.
struct Tally {
    href: String,
    code: &'static str,
    count: usize,
    current: bool,
}

/// A reason in a line: its sentence, the link to what began it, and the way to let it pass.
pub(crate) struct Reason {
    pub(crate) says: String,
    /// Where its cause can be read, and what that is called; none for who may not read there.
    pub(crate) link: Option<(String, String)>,
    pub(crate) waived: Option<String>,
    pub(crate) waive: Option<String>,
}

/// The next act of a line.
pub(crate) struct Act {
    pub(crate) href: String,
    pub(crate) label: String,
    pub(crate) plain: bool,
}

/// A line of the board.
pub(crate) struct Line {
    pub(crate) label: String,
    pub(crate) state: &'static str,
    pub(crate) tank: String,
    pub(crate) number: Option<KeyIn>,
    pub(crate) standing: String,
    pub(crate) reasons: Vec<Reason>,
    pub(crate) act: Option<Act>,
}

/// A seeder and its lines.
struct Group {
    seeder: String,
    href: String,
    urgency: u8,
    lines: Vec<Line>,
}

/// A step of getting started.
struct Step {
    done: bool,
    label: String,
    why: String,
    href: &'static str,
}

#[derive(Template)]
#[template(path = "readiness/board.html")]
struct BoardPage {
    page: Page,
    groups: Vec<Group>,
    tallies: Vec<Tally>,
    total: usize,
    all_href: String,
    all_current: bool,
    state: String,
    crews: Vec<FormOption>,
    crops: Vec<FormOption>,
    at: String,
    at_fault: Option<String>,
    as_of: Option<String>,
    /// What was sent from phones and not taken in.
    refused: Option<String>,
}

#[derive(Template)]
#[template(path = "readiness/start.html")]
struct StartPage {
    page: Page,
    office: bool,
    steps: Vec<Step>,
}

async fn readiness_page(signed: Signed, cookies: Cookies, RawQuery(query): RawQuery) -> Result<Response, Error> {
    let filter = Filter::read(query)?;
    let now = signed.app.clock.now();
    let (actor, zone, words) = (&signed.actor, &signed.actor.time_zone, signed.actor.words());
    let at = filter.moment(now, zone);
    let mut conn = signed.app.read().await?;
    let board = act::board(&mut conn.cx(), actor, at.unwrap_or(now), None).await?;
    let page = Page::new(&signed, &cookies, say!(words, "nav-readiness"), "/");
    if board.units.is_empty() {
        let counts: Counts = conn.cx().fetch_one(COUNTS, args![actor.organization()]).await?;
        if actor.role != Role::Office || counts.units == 0 {
            return show(&StartPage { page, office: actor.role == Role::Office, steps: steps(&counts, words) });
        }
    }
    let crews = crews(&mut conn.cx(), &actor.scope).await?;
    // Asked about the past: a machine that came later was not there.
    let day = zone.to_datetime(board.at).date().to_string();
    let was_there = |unit: &&UnitNow| board.at >= now || unit.unit.commissioned_on <= day;
    let shown = board.units.iter().filter(|now| in_filter(now, &filter, &crews, &board.names)).filter(was_there);
    let shown: Vec<&UnitNow> = shown.collect();
    let tallies = tallies(&shown, &filter);
    let total = shown.len();
    let of_state =
        shown.into_iter().filter(|now| filter.state.is_empty() || now.readiness.state.as_str() == filter.state);
    let groups = groups(of_state, &board, &signed);
    show(&BoardPage {
        page,
        groups,
        tallies,
        total,
        all_href: filter.with_state(""),
        all_current: filter.state.is_empty(),
        crews: crew_options(&crews, &filter, actor.role, words),
        crops: crop_options(&board, &filter, words),
        at: if filter.at.is_empty() { String::new() } else { typed(board.at, zone) },
        at_fault: at.is_none().then(|| say!(words, "board-at-no-moment")),
        as_of: at.filter(|_| !filter.at.is_empty()).map(|at| said(at, zone, words)),
        refused: sync::waiting_says(&mut conn.cx(), actor).await?,
        state: filter.state,
    })
}

async fn crews(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<CrewRow>, Error> {
    Ok(cx.fetch_all(CREWS, args![scope.organization]).await?)
}

fn in_filter(now: &UnitNow, filter: &Filter, crews: &[CrewRow], names: &Names) -> bool {
    let of_crew = |crew: &CrewRow| crew.id.to_string() == filter.crew && crew.seeder_id == Some(now.unit.seeder_id);
    let crop = || now.readiness.lot.and_then(|lot| names.lot(lot.0)).map(|lot| lot.crop.as_str());
    (filter.crew.is_empty() || crews.iter().any(of_crew))
        && (filter.crop.is_empty() || crop().is_some_and(|crop| same_crop(crop, &filter.crop)))
}

const STATES: [State; 5] = [State::Calibrate, State::Check, State::Ready, State::Empty, State::LaidUp];

/// The states in the order in which they need someone.
fn urgency(state: State) -> u8 {
    match state {
        State::Calibrate => 0,
        State::Check => 1,
        State::Ready => 2,
        State::Empty => 3,
        State::LaidUp => 4,
    }
}

fn tallies(shown: &[&UnitNow], filter: &Filter) -> Vec<Tally> {
    STATES
        .into_iter()
        .map(|state| Tally {
            href: filter.with_state(state.as_str()),
            code: state.as_str(),
            count: shown.iter().filter(|now| now.readiness.state == state).count(),
            current: filter.state == state.as_str(),
        })
        .filter(|tally| tally.count > 0 || tally.current)
        .collect()
}

/// The units by seeder. Seeders stand by their most urgent unit, then by name; so do the units of one.
fn groups<'b>(shown: impl Iterator<Item = &'b UnitNow>, board: &Board, signed: &Signed) -> Vec<Group> {
    let actor = &signed.actor;
    let teller = Teller { names: &board.names, zone: &actor.time_zone, reader: actor.reader(), at: board.at };
    let mut groups: Vec<(Uuid, Group)> = Vec::new();
    for now in shown {
        let found = groups.iter().position(|(seeder, _)| *seeder == now.unit.seeder_id);
        let position = found.unwrap_or_else(|| {
            let href = format!("/seeders/{}", now.unit.seeder_id);
            groups.push((
                now.unit.seeder_id,
                Group { seeder: now.unit.seeder.clone(), href, urgency: u8::MAX, lines: vec![] },
            ));
            groups.len() - 1
        });
        if let Some((_, group)) = groups.get_mut(position) {
            group.urgency = group.urgency.min(urgency(now.readiness.state));
            group.lines.push(line(now, &teller, signed));
        }
    }
    let mut groups: Vec<Group> = groups.into_iter().map(|(_, group)| group).collect();
    // Stable: the read model's order by name and position stays among equals.
    groups.sort_by_key(|group| group.urgency);
    for group in &mut groups {
        group.lines.sort_by_key(|line| STATES.iter().position(|state| state.as_str() == line.state));
    }
    groups
}

/// The lines of one seeder's units, as they are now, for its own page.
///
/// # Errors
/// The database.
pub(crate) async fn lines_of(cx: &mut Cx<'_>, signed: &Signed, seeder: SeederId) -> Result<Vec<Line>, Error> {
    let board = act::board(cx, &signed.actor, signed.app.clock.now(), None).await?;
    let teller =
        Teller { names: &board.names, zone: &signed.actor.time_zone, reader: signed.actor.reader(), at: board.at };
    let own = board.units.iter().filter(|now| now.unit.seeder_id == seeder.0);
    Ok(own.map(|now| line(now, &teller, signed)).collect())
}

fn line(now: &UnitNow, teller: &Teller<'_>, signed: &Signed) -> Line {
    let readiness = &now.readiness;
    Line {
        label: now.unit.label.clone(),
        state: readiness.state.as_str(),
        tank: tank(readiness, teller),
        number: now.key_in(teller.names, teller.reader),
        standing: standing(now, teller),
        reasons: reasons(now, teller, signed),
        act: next_act(now, signed),
    }
}

/// What is in the tank.
pub(crate) fn tank(readiness: &Readiness, teller: &Teller<'_>) -> String {
    let words = teller.reader.words;
    let Some(lot) = readiness.lot else { return say!(words, "board-tank-empty") };
    let name = teller.names.lot(lot.0);
    let (crop, variety) =
        name.map_or(("", ""), |name| (name.crop.as_str(), name.variety.as_deref().unwrap_or_default()));
    let named = match (crop, variety) {
        ("", _) => "lot",
        (_, "") => "crop",
        _ => "variety",
    };
    let tank = say!(words, "board-tank", named = named, crop = crop, variety = variety, lot = teller.lot(lot));
    let others: Vec<String> = readiness.mixed_with.iter().map(|lot| teller.lot(*lot)).collect();
    if others.is_empty() { tank } else { say!(words, "board-tank-mixed", tank = tank, others = others.join(", ")) }
}

fn standing(now: &UnitNow, teller: &Teller<'_>) -> String {
    let words = teller.reader.words;
    match (&now.readiness.in_force, now.readiness.state) {
        (Some(number), _) if number.recalled => say!(words, "board-recalled", day = teller.day(number.since)),
        (Some(number), _) => say!(words, "board-caught", day = teller.day(number.since)),
        (None, State::Empty | State::LaidUp) => String::new(),
        (None, _) if now.says.is_empty() => no_number(now, words),
        (None, _) => String::new(),
    }
}

fn reasons(now: &UnitNow, teller: &Teller<'_>, signed: &Signed) -> Vec<Reason> {
    let unit = &now.unit;
    now.readiness
        .due
        .iter()
        .zip(&now.says)
        .map(|(due, says)| {
            let link = teller.names.told(due.cause.id).and_then(|_| cause_link(due, unit.seeder_id, &signed.actor));
            let waived = passed(due, teller);
            let may_waive = signed.actor.may(Permission::Waive) && due.trigger.can_be_waived() && waived.is_none();
            let waive = may_waive.then(|| format!("/metering-units/{}/waivers/new?trigger={}", unit.id, due.trigger));
            Reason { says: says.clone(), link, waived, waive }
        })
        .collect()
}

/// What is due and was let pass: what it is, until when, by whom and why.
pub(crate) fn let_pass(now: &UnitNow, teller: &Teller<'_>) -> Vec<String> {
    let due = now.readiness.due.iter().zip(&now.says);
    due.filter_map(|(due, says)| Some(format!("{says} {}", passed(due, teller)?))).collect()
}

/// That a trigger was let pass: until when, by whom and why.
fn passed(due: &Due, teller: &Teller<'_>) -> Option<String> {
    let words = teller.reader.words;
    let waived = due.waived.as_ref()?;
    let (by, who) = teller.names.recorder(waived.waiver).map_or(("unknown", ""), |who| ("known", who));
    let until = said_end(waived.until, teller.zone, words);
    Some(match &waived.reason {
        Some(reason) => say!(words, "board-passed", by = by, who = who, until = until, reason = reason),
        None => say!(words, "board-passed-withheld", by = by, who = who, until = until),
    })
}

/// Where a cause can be read, for who may.
fn cause_link(due: &Due, seeder: Uuid, actor: &Actor) -> Option<(String, String)> {
    let cause = due.cause;
    let (words, at_seeder) = (actor.words(), format!("/seeders/{seeder}#{}", cause.id));
    Some(match cause.kind {
        CauseKind::Season if !actor.may(Permission::KeepFleet) => return None,
        CauseKind::ScaleCheck if !actor.may(Permission::Log) => return None,
        CauseKind::Seeder => (format!("/seeders/{seeder}"), say!(words, "board-cause-seeder")),
        CauseKind::Season => (format!("/seasons#{}", cause.id), say!(words, "board-cause-season")),
        CauseKind::Calibration => (format!("/calibrations/{}", cause.id), say!(words, "board-cause-calibration")),
        CauseKind::ScaleCheck => (format!("/scales#{}", cause.id), say!(words, "board-cause-check")),
        CauseKind::LotTest => {
            let Detail::SeedWeightChanged { lot, .. } = due.detail else { return None };
            (format!("/lots/{lot}#{}", cause.id), say!(words, "board-cause-test"))
        }
        CauseKind::Configuration => (at_seeder, say!(words, "board-cause-configuration")),
        CauseKind::Setup => (at_seeder, say!(words, "board-cause-setup")),
        CauseKind::Service => (at_seeder, say!(words, "board-cause-service")),
        CauseKind::Fill => (at_seeder, say!(words, "board-cause-fill")),
        CauseKind::Emptying => (at_seeder, say!(words, "board-cause-emptying")),
        CauseKind::Job => (at_seeder, say!(words, "board-cause-job")),
    })
}

/// What to do next, as far as the reader may do it.
fn next_act(now: &UnitNow, signed: &Signed) -> Option<Act> {
    let (readiness, words) = (&now.readiness, signed.actor.words());
    let at_unit = |what: &str| format!("/metering-units/{}/{what}", now.unit.id);
    let act = |href: String, label: String| Some(Act { href, label, plain: false });
    let rate = Act { href: at_unit("rate"), label: say!(words, "board-roller-speed"), plain: true };
    if !signed.actor.may(Permission::Log) {
        return readiness.in_force.is_some().then_some(rate);
    }
    let held = readiness.due.iter().find(|due| due.trigger == Trigger::CalibrationInDoubt && due.waived.is_none());
    match (readiness.state, held) {
        (State::LaidUp, _) => None,
        (State::Empty, _) => act(at_unit("fills/new"), say!(words, "board-log-fill")),
        (State::Ready, _) => Some(rate),
        _ if readiness.setup.is_none() => {
            act(format!("/seeders/{}", now.unit.seeder_id), say!(words, "board-log-setup"))
        }
        (_, Some(due)) if signed.actor.may(Permission::Decide) => {
            act(format!("/calibrations/{}", due.cause.id), say!(words, "board-look-at-catch"))
        }
        _ => act(at_unit("catch"), say!(words, "board-log-catch")),
    }
}

fn option(value: String, label: String, chosen: &str) -> FormOption {
    FormOption { selected: value == chosen, value, label }
}

/// The crews to choose from; a crew's members see only their own seeders anyway.
fn crew_options(crews: &[CrewRow], filter: &Filter, role: Role, words: Words) -> Vec<FormOption> {
    let mut seen = HashSet::new();
    let own: Vec<&CrewRow> = crews.iter().filter(|crew| role != Role::Crew && seen.insert(crew.id)).collect();
    if own.is_empty() {
        return Vec::new();
    }
    let all = option(String::new(), say!(words, "board-crews-all"), &filter.crew);
    std::iter::once(all)
        .chain(own.into_iter().map(|crew| option(crew.id.to_string(), crew.name.clone(), &filter.crew)))
        .collect()
}

fn crop_options(board: &Board, filter: &Filter, words: Words) -> Vec<FormOption> {
    let mut crops: Vec<String> = Vec::new();
    for lot in board.units.iter().filter_map(|now| now.readiness.lot).filter_map(|lot| board.names.lot(lot.0)) {
        if !crops.iter().any(|crop| same_crop(crop, &lot.crop)) {
            crops.push(lot.crop.trim().to_owned());
        }
    }
    crops.sort();
    let all = option(String::new(), say!(words, "board-crops-all"), &filter.crop);
    let known = crops.into_iter().map(|crop| {
        let selected = same_crop(&crop, &filter.crop);
        FormOption { value: crop.clone(), label: crop, selected }
    });
    std::iter::once(all).chain(known).collect()
}

fn steps(counts: &Counts, words: Words) -> Vec<Step> {
    vec![
        Step {
            done: counts.seeders > 0,
            label: say!(words, "start-seeder"),
            why: say!(words, "start-seeder-why"),
            href: "/seeders/new",
        },
        Step {
            done: counts.rollers > 0,
            label: say!(words, "start-roller"),
            why: say!(words, "start-roller-why"),
            href: "/rollers/new",
        },
        Step {
            done: counts.lots > 0,
            label: say!(words, "start-lot"),
            why: say!(words, "start-lot-why"),
            href: "/lots/new",
        },
        Step {
            done: counts.seasons > 0,
            label: say!(words, "start-season"),
            why: say!(words, "start-season-why"),
            href: "/seasons/new",
        },
        Step {
            done: counts.people > 1,
            label: say!(words, "start-people"),
            why: say!(words, "start-people-why"),
            href: "/people/new",
        },
    ]
}
