//! The season report: the season on paper. The fleet, what each unit was caught with and when, what had to be caught again and
//! how soon it was, the ground and the seed, and what was not as it should be.
//!
//! It is sent while it is made. The sums stand first, where a reader looks for them, so the units are gone through twice: once to
//! add up, once to tell. Of the first time nothing but the sums is kept.

use super::parts::{Broken, Parts};
use super::period::{self, Asked, Found};
use super::sums::Sums;
use super::told::{CatchLine, Told, TriggerLine};
use super::unit::Unit;
use super::{Frame, Stamp};
use crate::access::{Permission, Role};
use crate::db::{Cx, Tx};
use crate::fleet::season::act::{SeasonRow, seasons};
use crate::readiness::act::OneByOne;
use crate::readiness::store::UnitRow;
use crate::seed::client::{act as clients, store::ClientRow};
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
use sowmark_core::ids::{ClientId, SeasonId};
use sowmark_core::say;
use sowmark_core::words::Words;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/reports/season", Need::May(Permission::ReadUsage), season_page)]
}

crate::input! {
    /// Which season, or which days, and whose.
    pub struct SeasonAsked {
        /// A season: from its first day until the next one begins, or until now. This one unless told.
        pub season_id: Option<SeasonId>,
        /// From this day instead.
        pub from: Option<Date>,
        /// Until this day, that day included.
        pub to: Option<Date>,
        /// One client's alone: their seed and their fields.
        pub client_id: Option<ClientId>,
    }
}

/// What all units come to.
#[derive(Template)]
#[template(path = "reports/season_sums.html")]
struct SumsPart<'p> {
    page: &'p Page,
    facts: Vec<(String, String)>,
    fleet: Vec<UnitLine>,
    /// By lot: name, area, seed by how it is known.
    lots: Vec<(String, Vec<String>)>,
}

/// A unit of the fleet.
struct UnitLine {
    unit: String,
    fitted: String,
    /// Empty where a reader does not see what is in the tank.
    state: &'static str,
    cells: Vec<String>,
}

/// A unit's part.
#[derive(Template)]
#[template(path = "reports/season_unit.html")]
struct UnitPart<'p> {
    page: &'p Page,
    title: String,
    facts: Vec<(String, String)>,
    catches: Vec<CatchLine>,
    triggers: Vec<TriggerLine>,
    exceptions: Vec<(String, String)>,
}

async fn season_page(
    signed: Signed,
    cookies: Cookies,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
) -> Result<Response, Error> {
    let (words, zone, now) = (signed.actor.words(), signed.actor.time_zone.clone(), signed.app.clock.now());
    let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?).spoken_in(signed.actor.language);
    let mut snapshot = signed.app.snapshot().await?;
    let choice = Choice::of(&mut snapshot.cx(), &signed).await?;
    let page = Page::new(&signed, &cookies, say!(words, "season-report-title"), "/reports");
    let mut intro = vec![say!(words, "season-report-about")];
    intro.extend((signed.actor.role == Role::Crew).then(|| say!(words, "season-report-own")));
    let mut frame = Frame::new(page, choice.form(words), intro);
    frame.crumbs.push(("/reports".to_owned(), say!(words, "nav-reports")));
    let asked = input::read::<SeasonAsked>(&posted.tree(&zone)).and_then(|asked| {
        let SeasonAsked { season_id, from, to, client_id } = asked;
        Ok((period::find(Asked { season_id, from, to }, &choice.seasons, &zone, now)?, choice.client(client_id)?))
    });
    let (found, client) = match asked {
        Ok(asked) => asked,
        Err(error) => return frame.again(&posted, error),
    };
    frame.about.extend((!found.season.is_empty()).then(|| found.season.clone()));
    frame.about.extend(client.map(|client| say!(words, "report-of-client", client = &client.name)));
    let stamp = Stamp::of(&mut snapshot.cx(), &signed, &headers, now, Some(found.period)).await?;
    let client = client.map(|client| ClientId(client.id));
    // Of one client is told what that client alone lets one see: the paper goes to them.
    let signed = clients::for_client(&mut snapshot.cx(), &signed, client).await?;
    frame.answered(&posted, stamp, move |parts, page| make(parts, page, snapshot, signed, found, client))
}

/// What can be chosen.
pub(super) struct Choice {
    pub(super) seasons: Vec<SeasonRow>,
    clients: Vec<ClientRow>,
}

impl Choice {
    pub(super) async fn of(cx: &mut Cx<'_>, signed: &Signed) -> Result<Self, Error> {
        let scope = &signed.actor.scope;
        Ok(Self { seasons: seasons(cx, scope).await?, clients: clients::clients(cx, scope).await? })
    }

    pub(super) fn form(&self, words: Words) -> Form {
        let mut fields = period::fields(&self.seasons, words).to_vec();
        if !self.clients.is_empty() {
            let all = std::iter::once((String::new(), say!(words, "usage-all")));
            let choices = all.chain(clients::clients_in_choice(&self.clients));
            let field = FormField::new("client_id", say!(words, "usage-client"));
            fields.push(field.choice(choices.collect::<Vec<_>>()).optional());
        }
        Form::new("/reports/season", say!(words, "season-report-submit"), fields)
    }

    fn client(&self, asked: Option<ClientId>) -> Result<Option<&ClientRow>, Error> {
        let Some(asked) = asked else { return Ok(None) };
        let found = self.clients.iter().find(|client| client.id == asked.0);
        found.map(Some).ok_or_else(|| Error::not_there_at("/client_id", "client"))
    }
}

/// Sends the sums, then unit by unit. The page and everything it is made from are its own: it is made after the answer began.
async fn make(
    parts: Parts,
    page: Page,
    mut snapshot: Tx,
    signed: Signed,
    found: Found,
    client: Option<ClientId>,
) -> Result<(), Broken> {
    let (scope, zone) = (&signed.actor.scope, &signed.actor.time_zone);
    let judging = Judging::of(&mut snapshot.cx(), scope, client).await?;
    let told = Told { signed: &signed, found: &found, judging: &judging, is_all: client.is_none() };
    let mut reading = OneByOne::new(&mut snapshot.cx(), scope, zone, None).await?;
    let units: Vec<UnitRow> = reading.units().to_vec();
    let mut all = Sums::default();
    let mut fleet = Vec::new();
    for row in &units {
        let records = reading.read(&mut snapshot.cx(), scope, row).await?;
        if let Some(unit) = Unit::of(&mut snapshot.cx(), told, records).await? {
            fleet.push(line(&unit, told));
            all.add(&unit.sums(told));
        }
    }
    let (facts, lots) = (all.facts(told.reader()), all.by_lot(told.reader()));
    parts.send(&SumsPart { page: &page, facts, fleet, lots }).await?;
    for row in &units {
        let records = reading.read(&mut snapshot.cx(), scope, row).await?;
        // Of a unit that stood still its line among the fleet says enough.
        if let Some(unit) = Unit::of(&mut snapshot.cx(), told, records).await?.filter(|unit| !unit.stood_still(told)) {
            parts.send(&part(&page, &unit, told)).await?;
        }
    }
    // Nothing is read any more: the connection goes back before the slowest reader has all of it.
    drop(snapshot);
    Ok(())
}

fn line(unit: &Unit<'_>, told: Told<'_>) -> UnitLine {
    UnitLine {
        unit: unit.title.clone(),
        fitted: told.fitted(&unit.last, &unit.records.names),
        state: if told.owns(unit.last.lot) { unit.last.state.as_str() } else { "" },
        cells: unit.sums(told).cells(told.reader()),
    }
}

fn part<'p>(page: &'p Page, unit: &Unit<'_>, told: Told<'_>) -> UnitPart<'p> {
    let names = &unit.records.names;
    UnitPart {
        page,
        title: unit.title.clone(),
        facts: unit.sums(told).of_unit(told.reader()),
        catches: told.catches(unit.history).into_iter().map(|made| told.catch(made, names)).collect(),
        triggers: unit.triggers.iter().map(|stood| told.trigger(stood, names, unit.is_laid_up())).collect(),
        exceptions: told.exceptions(unit.records, unit.history, &unit.jobs),
    }
}
