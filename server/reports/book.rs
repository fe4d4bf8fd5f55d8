//! A seeder's book: everything about one machine on paper. What it is, what each unit was caught with, what stood and how it was
//! answered, its jobs and how well they agree with the number, the scales that its catches were weighed on, and everything that was
//! logged of it.
//!
//! It is sent while it is made: the machine, then unit by unit, then the log month by month.

use super::machine::{self, MachinePart};
use super::parts::{Broken, Parts};
use super::period::{self, Asked, Found};
use super::told::{CatchLine, JobLine, Told, TriggerLine};
use super::unit::Unit;
use super::{Frame, Stamp};
use crate::access::{Permission, Role};
use crate::chart::Figure;
use crate::db::{Cx, Tx};
use crate::fleet::season::act::{SeasonRow, seasons};
use crate::fleet::seeder::act::{SeederRow, seeders};
use crate::readiness::act::OneByOne;
use crate::readiness::store::UnitRow;
use crate::records::head;
use crate::records::timeline::{self, TimelineRow};
use crate::usage::act::drift;
use crate::usage::drift_figure;
use crate::usage::judging::Judging;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted, pairs};
use crate::web::input;
use crate::web::page::{Cookies, Page};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::RawQuery;
use axum::http::HeaderMap;
use axum::response::Response;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use sowmark_core::ids::{ScaleId, SeasonId, SeederId};
use sowmark_core::moment::midnight;
use sowmark_core::readiness::{Surroundings, passes};
use sowmark_core::say;
use sowmark_core::words::Words;
use std::collections::BTreeMap;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/reports/seeder-book", Need::May(Permission::ReadUsage), book_page)]
}

crate::input! {
    /// Whose book, and over which season or days.
    pub struct BookAsked {
        pub seeder_id: SeederId,
        /// A season: from its first day until the next one begins, or until now. This one unless told.
        pub season_id: Option<SeasonId>,
        /// From this day instead.
        pub from: Option<Date>,
        /// Until this day, that day included.
        pub to: Option<Date>,
    }
}

/// A unit's part.
#[derive(Template)]
#[template(path = "reports/book_unit.html")]
struct UnitPart<'p> {
    page: &'p Page,
    title: String,
    facts: Vec<(String, String)>,
    catches: Vec<CatchLine>,
    triggers: Vec<TriggerLine>,
    jobs: Vec<JobLine>,
    exceptions: Vec<(String, String)>,
    drift: Option<Figure>,
}

/// The checks of the scales that the catches were weighed on.
#[derive(Template)]
#[template(path = "reports/book_scales.html")]
struct ScalesPart<'p> {
    page: &'p Page,
    checks: Vec<ScaleLine>,
}

/// A scale's check.
struct ScaleLine {
    scale: String,
    when: String,
    reference: String,
    reading: String,
    /// A word of the API, for its shape.
    outcome: &'static str,
}

/// A month of the log.
#[derive(Template)]
#[template(path = "reports/book_log.html")]
struct LogPart<'p> {
    page: &'p Page,
    is_first: bool,
    entries: Vec<LogLine>,
}

/// A record, whatever its kind.
struct LogLine {
    when: String,
    says: String,
    by: String,
    /// Why it no longer stands.
    fallen: Option<String>,
}

async fn book_page(
    signed: Signed,
    cookies: Cookies,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
) -> Result<Response, Error> {
    let (words, zone, now) = (signed.actor.words(), signed.actor.time_zone.clone(), signed.app.clock.now());
    let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?).spoken_in(signed.actor.language);
    let mut snapshot = signed.app.snapshot().await?;
    let choice = Choice::of(&mut snapshot.cx(), &signed).await?;
    let page = Page::new(&signed, &cookies, say!(words, "book-title"), "/reports");
    let mut intro = vec![say!(words, "book-about")];
    intro.extend((signed.actor.role == Role::Crew).then(|| say!(words, "season-report-own")));
    let mut frame = Frame::new(page, choice.form(words), intro);
    frame.crumbs.push(("/reports".to_owned(), say!(words, "nav-reports")));
    if posted.text("seeder_id").is_empty() {
        return frame.open();
    }
    let asked = input::read::<BookAsked>(&posted.tree(&zone)).and_then(|asked| {
        let BookAsked { seeder_id, season_id, from, to } = asked;
        let found = period::find(Asked { season_id, from, to }, &choice.seasons, &zone, now)?;
        Ok((choice.seeder(seeder_id)?.clone(), found))
    });
    let (seeder, found) = match asked {
        Ok(asked) => asked,
        Err(error) => return frame.again(&posted, error),
    };
    frame.page.title = say!(words, "book-of", seeder = &seeder.name);
    frame.crumbs.push((format!("/seeders/{}", seeder.id), say!(words, "book-seeder")));
    frame.about.extend((!found.season.is_empty()).then(|| found.season.clone()));
    let stamp = Stamp::of(&mut snapshot.cx(), &signed, &headers, now, Some(found.period)).await?;
    frame.answered(&posted, stamp, move |parts, page| make(parts, page, snapshot, signed, (seeder, found)))
}

/// What can be chosen.
pub(super) struct Choice {
    seasons: Vec<SeasonRow>,
    seeders: Vec<SeederRow>,
}

impl Choice {
    pub(super) async fn of(cx: &mut Cx<'_>, signed: &Signed) -> Result<Self, Error> {
        let scope = &signed.actor.scope;
        Ok(Self { seasons: seasons(cx, scope).await?, seeders: seeders(cx, scope).await? })
    }

    pub(super) fn form(&self, words: Words) -> Form {
        let seeders = self.seeders.iter().map(|seeder| (seeder.id.to_string(), seeder.name.clone()));
        let mut fields =
            vec![FormField::new("seeder_id", say!(words, "cab-card-seeder")).choice(seeders.collect::<Vec<_>>())];
        fields.extend(period::fields(&self.seasons, words));
        Form::new("/reports/seeder-book", say!(words, "book-submit"), fields)
    }

    fn seeder(&self, asked: SeederId) -> Result<&SeederRow, Error> {
        let found = self.seeders.iter().find(|seeder| seeder.id == asked.0);
        found.ok_or_else(|| Error::not_there_at("/seeder_id", "seeder"))
    }
}

/// Sends the machine, each unit, the scales and the log. The page and everything it is made from are its own: it is made after the
/// answer began.
async fn make(
    parts: Parts,
    page: Page,
    mut snapshot: Tx,
    signed: Signed,
    (seeder, found): (SeederRow, Found),
) -> Result<(), Broken> {
    let (actor, id) = (&signed.actor, SeederId(seeder.id));
    let judging = Judging::of(&mut snapshot.cx(), &actor.scope, None).await?;
    let told = Told { signed: &signed, found: &found, judging: &judging, is_all: true };
    let mut reading = OneByOne::new(&mut snapshot.cx(), &actor.scope, &actor.time_zone, Some(id)).await?;
    let units: Vec<UnitRow> = reading.units().to_vec();
    let mut machine = MachinePart::of(&mut snapshot.cx(), &page, told, &seeder).await?;
    let mut scales = BTreeMap::new();
    for row in &units {
        let records = reading.read(&mut snapshot.cx(), &actor.scope, row).await?;
        let unit = Unit::of(&mut snapshot.cx(), told, records).await?;
        machine.add(row, unit.as_ref(), told, records);
    }
    parts.send(&machine).await?;
    for row in &units {
        let records = reading.read(&mut snapshot.cx(), &actor.scope, row).await?;
        let Some(unit) = Unit::of(&mut snapshot.cx(), told, records).await? else { continue };
        for made in told.catches(unit.history) {
            if let Some(scale) = made.what.scale {
                scales.insert(records.names.scale(scale.0).to_owned(), scale);
            }
        }
        parts.send(&unit_part(&mut snapshot.cx(), &page, row, &unit, told).await?).await?;
    }
    let checks = scale_lines(&scales, reading.surroundings(), told);
    if !checks.is_empty() {
        parts.send(&ScalesPart { page: &page, checks }).await?;
    }
    send_log(&parts, &mut snapshot.cx(), &page, id, told).await
}

async fn unit_part<'p>(
    cx: &mut Cx<'_>,
    page: &'p Page,
    row: &UnitRow,
    unit: &Unit<'_>,
    told: Told<'_>,
) -> Result<UnitPart<'p>, Error> {
    let (records, names) = (unit.records, &unit.records.names);
    let actor = &told.signed.actor;
    let mut figure = None;
    if told.is_whole() && !told.is_crew() {
        let of = (row, unit.history);
        let found = drift(cx, &actor.scope, of, &records.surroundings, told.found.until, told.judging.policy()).await?;
        figure = found.map(|drift| drift_figure(&drift, &actor.time_zone, actor.reader()));
    }
    Ok(UnitPart {
        page,
        title: row.label.clone(),
        facts: unit.sums(told).of_unit(told.reader()),
        catches: told.catches(unit.history).into_iter().map(|made| told.catch(made, names)).collect(),
        triggers: unit.triggers.iter().map(|stood| told.trigger(stood, names, unit.is_laid_up())).collect(),
        jobs: unit.jobs.iter().map(|job| told.job(job, names)).collect(),
        exceptions: told.exceptions(records, unit.history, &unit.jobs),
        drift: figure,
    })
}

/// The checks of the scales in the period, by scale and moment.
fn scale_lines(scales: &BTreeMap<String, ScaleId>, around: &Surroundings, told: Told<'_>) -> Vec<ScaleLine> {
    let mut lines = Vec::new();
    for (name, id) in scales {
        let Some(scale) = around.scales.get(id) else { continue };
        let mut checks: Vec<_> =
            scale.checks.iter().filter(|check| told.found.holds(check.moment.occurred_at)).collect();
        checks.sort_by_key(|check| check.moment);
        lines.extend(checks.into_iter().map(|check| ScaleLine {
            scale: name.clone(),
            when: told.said(check.moment.occurred_at),
            reference: machine::weighed(check.what.reference_kg, told.reader()),
            reading: machine::weighed(check.what.reading_kg, told.reader()),
            outcome: if passes(&check.what, scale.readability_kg, told.judging.policy()) { "pass" } else { "fail" },
        }));
    }
    lines
}

/// Sends everything that was logged, a month at a time.
async fn send_log(parts: &Parts, cx: &mut Cx<'_>, page: &Page, seeder: SeederId, told: Told<'_>) -> Result<(), Broken> {
    let actor = &told.signed.actor;
    let mut is_first = true;
    let first = timeline::first(cx, actor, seeder).await?.map(head::moment);
    for (from, to) in months(told.found, first, &actor.time_zone) {
        let rows = timeline::between(cx, actor, seeder, from, to).await?;
        if !rows.is_empty() {
            let entries = rows.iter().map(|row| log_line(row, told)).collect();
            parts.send(&LogPart { page, is_first, entries }).await?;
            is_first = false;
        }
    }
    if is_first {
        parts.send(&LogPart { page, is_first, entries: Vec::new() }).await?;
    }
    Ok(())
}

/// The months of a period, each from its first microsecond to the next one's. Those before the first record are one with its own:
/// there is nothing in them.
fn months(found: &Found, first: Option<Timestamp>, zone: &TimeZone) -> Vec<(i64, i64)> {
    let end = found.until.as_microsecond().saturating_add(1);
    let begin = found.period.from.map_or(i64::MIN, Timestamp::as_microsecond);
    let first = found.period.from.max(first).unwrap_or(found.until).min(found.until);
    let mut month = zone.to_datetime(first).date().first_of_month();
    let (mut all, mut from) = (Vec::new(), begin);
    while from < end {
        month = month.saturating_add(1.month());
        let to = midnight(month, zone).as_microsecond().clamp(from.saturating_add(1), end);
        all.push((from, to));
        from = to;
    }
    all
}

fn log_line(row: &TimelineRow, told: Told<'_>) -> LogLine {
    let reader = told.reader();
    let (words, zone) = (reader.words, &told.signed.actor.time_zone);
    let says = row.says(reader, &told.signed.actor.scope);
    LogLine {
        when: row.head.when(zone, words),
        says: match &row.unit {
            Some(unit) => say!(words, "timeline-of-unit", unit = unit, says = says),
            None => says,
        },
        by: row.head.by_line(words),
        fallen: row.head.fallen(&told.signed.actor),
    }
}

#[cfg(test)]
mod tests {
    use super::months;
    use crate::reports::period::Found;
    use jiff::Timestamp;
    use jiff::tz::TimeZone;
    use sowmark_core::usage::Period;

    #[test]
    fn the_months_of_a_period_leave_nothing_out_and_take_nothing_twice() {
        let zone = TimeZone::get("Europe/Vienna").unwrap();
        let at = |text: &str| text.parse::<Timestamp>().unwrap();
        let until = at("2027-04-10T06:00:00Z");
        let from = at("2027-02-14T23:00:00Z");
        let found = |from| Found { period: Period { from, to: None }, until, season: String::new() };
        let some = months(&found(Some(from)), None, &zone);
        let borders = [from, at("2027-02-28T23:00:00Z"), at("2027-03-31T22:00:00Z")].map(Timestamp::as_microsecond);
        assert_eq!(some.iter().map(|(from, _)| *from).collect::<Vec<_>>(), borders);
        assert_eq!(some.last().unwrap().1, until.as_microsecond() + 1);
        // In the first hour of 2019, which in UTC is the year before.
        let first = at("2018-12-31T23:30:00Z");
        let all = months(&found(None), Some(first), &zone);
        assert_eq!((all[0].0, all.last().unwrap().1), (i64::MIN, until.as_microsecond() + 1));
        assert_eq!(all[0].1, at("2019-01-31T23:00:00Z").as_microsecond());
        assert_eq!(all.len(), 8 * 12 + 4);
        assert!(all.windows(2).all(|pair| pair[0].1 == pair[1].0 && pair[0].0 < pair[0].1), "{all:?}");
        // What is asked for from long before its first record begins with that; without any record it is one.
        assert_eq!(months(&found(Some(at("1990-01-01T00:00:00Z"))), Some(first), &zone)[1..], all[1..]);
        assert_eq!(months(&found(None), None, &zone), [(i64::MIN, until.as_microsecond() + 1)]);
    }
}
