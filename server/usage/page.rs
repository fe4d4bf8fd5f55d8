//! The Usage page: the hectares that were sown under a number that was not true, the jobs, what was sown of what, the
//! lots' and the tanks' balances, and the drift of the machines. What is asked stands in the address.

use super::act::{self, JobUse, LotUse, TankUse, Usage};
use super::asked::UsageAsked;
use super::chart::{self, signed_percent};
use super::store;
use super::sums::{By, Sum, sums};
use crate::access::Permission;
use crate::chart::Figure;
use crate::fleet::seeder;
use crate::records::head::said;
use crate::reports::Stamp;
use crate::seed::{client, field, lot};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted, pairs};
use crate::web::input;
use crate::web::page::{Cookies, Page, show_with};
use crate::web::reader::Reader;
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::RawQuery;
use axum::http::HeaderMap;
use axum::response::Response;
use jiff::tz::TimeZone;
use sowmark_core::readiness::SeedUsedBasis;
use sowmark_core::say;
use sowmark_core::usage::{Sown, Total};
use sowmark_core::words::Words;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/usage", Need::May(Permission::ReadUsage), usage_page)]
}

#[derive(Template)]
#[template(path = "usage/usage.html")]
struct UsagePage {
    page: Page,
    form: Form,
    /// Nothing where the question cannot be answered.
    answer: Option<Answer>,
    /// What it is true for, printed with the answer.
    stamp: Option<Stamp>,
}

/// What the page answers.
struct Answer {
    /// Label and value.
    facts: Vec<(String, String)>,
    untrue: Vec<UntrueLine>,
    by: String,
    sums: Vec<SumLine>,
    jobs: Vec<JobLine>,
    lots: Vec<LotLine>,
    /// Whether something may have been there before the period.
    has_opening: bool,
    tanks: Vec<TankLine>,
    drifts: Vec<Figure>,
    /// Lots, tanks and drift are no part of what a crew member sees.
    sees_stock: bool,
    /// Where this answer is signed; none for who may not.
    sign: Option<String>,
}

/// A job under a number that was not true.
struct UntrueLine {
    when: String,
    seeder_id: uuid::Uuid,
    what: String,
    says: Vec<String>,
}

/// Jobs together.
struct SumLine {
    name: String,
    cells: Vec<String>,
}

/// A job, as its row shows it.
#[derive(Clone, Debug)]
pub struct JobLine {
    pub when: String,
    pub seeder_id: uuid::Uuid,
    pub machine: String,
    pub field: String,
    pub lot_id: uuid::Uuid,
    pub lot: String,
    pub area: String,
    pub seed: String,
    /// How the seed is known.
    pub basis: String,
    pub actual: String,
    pub target: String,
    pub deviation: String,
    pub seeds: String,
    pub plants: String,
    pub stands: String,
    pub was_true: bool,
}

/// A lot's balance, as its row shows it.
struct LotLine {
    id: uuid::Uuid,
    name: String,
    cells: Vec<String>,
}

/// A tank's span, as its row shows it.
#[derive(Clone, Debug)]
pub struct TankLine {
    pub seeder_id: uuid::Uuid,
    pub machine: String,
    pub when: String,
    pub lots: String,
    pub cells: Vec<String>,
}

async fn usage_page(
    signed: Signed,
    cookies: Cookies,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
) -> Result<Response, Error> {
    let query = query.unwrap_or_default();
    let posted = Posted(pairs(query.as_bytes())?).spoken_in(signed.actor.language);
    let by = By::from_word(posted.text("by")).unwrap_or_default();
    let mut snapshot = signed.app.snapshot().await?;
    let mut asked = posted.query();
    if let Some(asked) = asked.as_object_mut() {
        asked.remove("by");
    }
    let answered = match input::read::<UsageAsked>(&asked) {
        Ok(asked) => act::usage(&mut snapshot.cx(), &signed, &asked).await,
        Err(error) => Err(error),
    };
    let form = form(&signed, &mut snapshot.cx(), by).await?;
    let (form, answer, stamp) = match answered {
        Ok(usage) => {
            let now = signed.app.clock.now();
            let stamp = Stamp::of(&mut snapshot.cx(), &signed, &headers, now, Some(usage.period)).await?;
            (form.filled(&posted), Some(answer(&usage, &signed, by, &query)), Some(stamp))
        }
        Err(error @ (Error::Faults(_) | Error::NotThere { .. })) => (form.again(&posted, &error), None, None),
        Err(error) => return Err(error),
    };
    let page = Page::new(&signed, &cookies, say!(signed.actor.words(), "usage-title"), "/usage");
    show_with(form.status(), &UsagePage { page, form, answer, stamp })
}

async fn form(signed: &Signed, cx: &mut crate::db::Cx<'_>, by: By) -> Result<Form, Error> {
    let (scope, words) = (&signed.actor.scope, signed.actor.words());
    let all = || (String::new(), say!(words, "usage-all"));
    let seeders = seeder::act::seeders(cx, scope).await?.into_iter().map(|seeder| (seeder.id.to_string(), seeder.name));
    let seeders: Vec<_> = std::iter::once(all()).chain(seeders).collect();
    let lots = lot::act::lots_in_choice(&lot::act::lots(cx, scope).await?, words);
    let lots = std::iter::once(all()).chain(lots);
    let fields = field::act::fields(cx, scope).await?.into_iter().map(|field| (field.id.to_string(), field.name));
    let fields: Vec<_> = std::iter::once(all()).chain(fields).collect();
    let clients = client::act::clients(cx, scope).await?;
    let mut asked = vec![
        FormField::new("from", say!(words, "usage-from")).kind(Kind::Date).optional(),
        FormField::new("to", say!(words, "usage-to")).kind(Kind::Date).optional(),
        FormField::new("seeder_id", say!(words, "usage-seeder")).choice(seeders).optional(),
        FormField::new("lot_id", say!(words, "usage-lot")).choice(lots).optional(),
        FormField::new("field_id", say!(words, "usage-field")).choice(fields).optional(),
    ];
    if !clients.is_empty() {
        let clients = clients.into_iter().map(|client| (client.id.to_string(), client.name));
        let clients: Vec<_> = std::iter::once(all()).chain(clients).collect();
        asked.push(FormField::new("client_id", say!(words, "usage-client")).choice(clients).optional());
    }
    if signed.actor.may(Permission::ReadStock) {
        let crews = store::crews(cx, scope).await?.into_iter().map(|(id, name)| (id.to_string(), name));
        let crews: Vec<_> = std::iter::once(all()).chain(crews).collect();
        asked.push(FormField::new("crew_id", say!(words, "usage-crew")).choice(crews).optional());
    }
    let ways = By::ALL.into_iter().map(|by| (by.word(), by.says(words)));
    asked.push(FormField::new("by", say!(words, "usage-together-by")).value(by.word()).choice(ways));
    Ok(Form::new("/usage", say!(words, "usage-show"), asked))
}

fn answer(usage: &Usage, signed: &Signed, by: By, query: &str) -> Answer {
    let (reader, zone) = (signed.actor.reader(), &signed.actor.time_zone);
    let words = reader.words;
    let told = Told { usage, reader, zone };
    let has_opening = usage.period.from.is_some();
    let untrue = usage.jobs.iter().filter(|job| !job.was_true());
    let all = Sum::of(usage.jobs.iter());
    let facts = vec![
        (say!(words, "usage-sown"), reader.area(all.area_m2)),
        (say!(words, "usage-untrue"), reader.area(all.untrue_m2)),
        (say!(words, "usage-seed-weighed"), reader.mass(all.sown.weighed.kg)),
        (say!(words, "usage-seed-bags"), reader.mass(all.sown.bags.kg)),
        (say!(words, "usage-seed-machine"), reader.mass(all.sown.machine_total.kg)),
    ];
    Answer {
        facts,
        untrue: untrue.map(|job| told.untrue(job)).collect(),
        by: by.says(words),
        sums: sums(usage, by).into_iter().map(|(name, sum)| sum_line(name, &sum, reader)).collect(),
        jobs: usage.jobs.iter().rev().map(|job| told.job(job)).collect(),
        lots: usage.lots.iter().map(|lot| lot_line(lot, has_opening, reader)).collect(),
        has_opening,
        tanks: usage.tanks.iter().rev().map(|tank| told.tank(tank)).collect(),
        drifts: usage.drifts.iter().map(|drift| chart::figure(drift, zone, reader)).collect(),
        sees_stock: signed.actor.may(Permission::ReadStock),
        sign: signed.actor.may(Permission::SignAudit).then(|| format!("/usage/signatures/new?{query}")),
    }
}

/// What a line needs beside its subject.
pub(super) struct Told<'a> {
    pub(super) usage: &'a Usage,
    pub(super) reader: Reader,
    pub(super) zone: &'a TimeZone,
}

impl Told<'_> {
    fn untrue(&self, job: &JobUse) -> UntrueLine {
        let words = self.reader.words;
        let row = &job.row;
        let standing = job.readiness.due.iter().zip(&job.says).filter(|(due, _)| due.waived.is_none());
        let mut says: Vec<String> = standing.map(|(_, says)| says.clone()).collect();
        if says.is_empty() {
            says.push(say!(words, "usage-no-number"));
        }
        UntrueLine {
            when: row.head.when(self.zone, words),
            seeder_id: row.seeder_id,
            what: say!(
                words,
                "usage-untrue-job",
                machine = format!("{}, {}", row.seeder, row.unit),
                field = row.field(),
                area = self.reader.measured(&row.area)
            ),
            says,
        }
    }

    pub(super) fn job(&self, job: &JobUse) -> JobLine {
        let words = self.reader.words;
        let row = &job.row;
        let lot = self.usage.names.lot(row.lot_id).map_or_else(String::new, |lot| lot.number.clone());
        let rate = |si: f64| self.reader.rate(si);
        let count = |count: f64| words.number(count, 3);
        JobLine {
            when: row.head.when(self.zone, words),
            seeder_id: row.seeder_id,
            machine: format!("{}, {}", row.seeder, row.unit),
            field: row.field().to_owned(),
            lot_id: row.lot_id,
            lot,
            area: self.reader.measured(&row.area),
            seed: self.reader.measured(&row.seed_used),
            basis: basis(job.facts.seed_used_basis, words),
            actual: job.came_to.map(|came_to| rate(came_to.rate)).unwrap_or_default(),
            target: rate(job.facts.target_rate),
            deviation: job.came_to.map(|came_to| signed_percent(100.0 * came_to.deviation, words)).unwrap_or_default(),
            seeds: job.came_to.and_then(|came_to| came_to.seeds_per_m2).map(count).unwrap_or_default(),
            plants: job.plants_per_m2.map(count).unwrap_or_default(),
            stands: number_stands(job, words),
            was_true: job.was_true(),
        }
    }

    pub(super) fn tank(&self, tank: &TankUse) -> TankLine {
        let words = self.reader.words;
        let span = &tank.span;
        let said = |at| said(at, self.zone, words);
        let began = span.began.map(said).unwrap_or_default();
        let when = match span.ended {
            Some(ended) => say!(words, "usage-tank-span", from = began, to = said(ended)),
            None => say!(words, "usage-tank-since", from = began),
        };
        let lots = span.lots.iter().filter_map(|lot| Some(self.usage.names.lot(lot.0)?.number.clone()));
        let kg = |total: Total| self.reader.mass(total.kg);
        let left = match span.unaccounted() {
            Some(unaccounted) => with_doubt(unaccounted, self.reader),
            None if span.unweighed > 0 => say!(words, "usage-not-all-weighed"),
            None => say!(words, "usage-tank-left", mass = kg(span.left())),
        };
        TankLine {
            seeder_id: tank.seeder_id,
            machine: format!("{}, {}", tank.seeder, tank.unit),
            when,
            lots: lots.collect::<Vec<_>>().join(", "),
            cells: vec![
                kg(span.filled),
                kg(span.emptied),
                kg(span.sown.all()),
                machine_share(&span.sown, self.reader),
                left,
            ],
        }
    }
}

/// How the number stood when a job began.
pub(crate) fn number_stands(job: &JobUse, words: Words) -> String {
    match (job.was_true(), job.readiness.due.is_empty()) {
        (true, true) => say!(words, "usage-number-true"),
        (true, false) => say!(words, "usage-number-check"),
        (false, _) => say!(words, "usage-number-untrue"),
    }
}

/// How seed is known, in short.
pub(crate) fn basis(basis: SeedUsedBasis, words: Words) -> String {
    match basis {
        SeedUsedBasis::Weighed => say!(words, "usage-basis-weighed"),
        SeedUsedBasis::Bags => say!(words, "usage-basis-bags"),
        SeedUsedBasis::MachineTotal => say!(words, "usage-basis-machine"),
    }
}

fn sum_line(name: String, sum: &Sum, reader: Reader) -> SumLine {
    let rate = |si: Option<f64>| si.map(|si| reader.rate(si)).unwrap_or_default();
    let off = sum.deviation().map(|share| signed_percent(100.0 * share, reader.words)).unwrap_or_default();
    let cells = vec![
        reader.area(sum.area_m2),
        reader.area(sum.untrue_m2),
        reader.mass(sum.sown.all().kg),
        machine_share(&sum.sown, reader),
        rate(sum.rate()),
        rate(sum.target()),
        off,
    ];
    SumLine { name, cells }
}

fn lot_line(of: &LotUse, has_opening: bool, reader: Reader) -> LotLine {
    let balance = &of.balance;
    let kg = |total: Total| reader.mass(total.kg);
    let unaccounted = match balance.counted {
        Some(count) => with_doubt(count.unaccounted(), reader),
        None => String::new(),
    };
    let mut cells = vec![
        kg(balance.received),
        kg(balance.filled),
        kg(balance.returned),
        kg(of.sown.all()),
        kg(balance.sold),
        kg(balance.discarded),
        kg(balance.expected_on_hand()),
        balance.counted.map(|count| kg(count.found)).unwrap_or_default(),
        unaccounted,
    ];
    if has_opening {
        cells.insert(0, kg(balance.opening));
    }
    LotLine { id: of.lot.id, name: of.lot.in_words(reader.words), cells }
}

/// A difference with what its weighings leave open, at two standard uncertainties: about 95 %.
pub(super) fn with_doubt(total: Total, reader: Reader) -> String {
    format!("{} \u{b1} {}", reader.mass(total.kg), reader.mass_doubt(2.0 * total.uncertainty_kg()))
}

/// What of it is known from the machine alone.
fn machine_share(sown: &Sown, reader: Reader) -> String {
    if sown.machine_total.kg > 0.0 { reader.mass(sown.machine_total.kg) } else { String::new() }
}
