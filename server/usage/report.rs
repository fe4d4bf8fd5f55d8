//! The answer of the usage page, part by part: what all jobs come to, with the hectares that were sown under a number that was not
//! true; the lots' balances; then each metering unit with its jobs, its tank and its drift.
//!
//! The sums stand first, where a reader looks for them, so the units are gone through twice: once to add up, once to tell. Of the
//! first time the sums are kept and a line for each job under a number that was not true.

use super::act::JobUse;
use super::chart;
use super::lines::{JobLine, LotLine, SumLine, TankLine, Told, UntrueLine, lot_line, sum_line};
use super::question::{Question, SownOfLots, UnitUse};
use super::sums::{By, Sum, Sums};
use crate::chart::Figure;
use crate::db::Tx;
use crate::readiness::Names;
use crate::readiness::act::OneByOne;
use crate::readiness::store::UnitRow;
use crate::reports::parts::{Broken, Parts};
use crate::web::page::Page;
use crate::web::reader::Reader;
use askama::Template;
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::say;
use uuid::Uuid;

/// How the answer is wanted.
#[derive(Debug)]
pub(super) struct Wanted {
    pub(super) by: By,
    /// What was chosen, for paper, on which there is no form: label and choice.
    pub(super) chosen: Vec<(String, String)>,
    /// Lots, tanks, drift and signatures are no part of what a crew member sees.
    pub(super) sees_stock: bool,
    /// Where this answer is signed; none for who may not.
    pub(super) sign: Option<String>,
}

/// What all jobs come to.
#[derive(Template)]
#[template(path = "usage/sums.html")]
struct SumsPart<'p> {
    page: &'p Page,
    wanted: &'p Wanted,
    /// Label and value.
    facts: Vec<(String, String)>,
    untrue: Vec<UntrueLine>,
    /// The ground sown while a reason was let pass; empty for none.
    let_pass: String,
    by: String,
    /// Empty without jobs.
    sums: Vec<SumLine>,
}

/// The lots' balances.
#[derive(Template)]
#[template(path = "usage/lots.html")]
struct LotsPart<'p> {
    page: &'p Page,
    lots: Vec<LotLine>,
    /// Whether something may have been there before the period.
    has_opening: bool,
    /// Whether what was sown is by some of the jobs alone.
    is_of_some_jobs: bool,
}

/// What one unit did.
#[derive(Template)]
#[template(path = "usage/unit.html")]
struct UnitPart<'p> {
    page: &'p Page,
    title: String,
    seeder_id: Uuid,
    jobs: Vec<JobLine>,
    tanks: Vec<TankLine>,
    drift: Option<Figure>,
    /// What a table of tanks and a chart of drift mean is said with the first of each.
    is_first_tank: bool,
    is_first_drift: bool,
}

/// In the place of all charts, where there is none.
#[derive(Template)]
#[template(path = "usage/no_drift.html")]
struct NoDrift<'p> {
    page: &'p Page,
    /// Whether tanks and drift could be told at all.
    sees_machines: bool,
}

/// Sends the sums, the lots, then unit by unit. The page and everything it is made from are its own: it is made after the answer
/// began.
///
/// # Errors
/// The database, or when the reader has gone.
pub(super) async fn make(
    parts: Parts,
    page: Page,
    mut snapshot: Tx,
    question: Question,
    wanted: Wanted,
) -> Result<(), Broken> {
    let actor = &question.signed.actor;
    let (scope, reader) = (&actor.scope, actor.reader());
    let mut reading = OneByOne::new(&mut snapshot.cx(), scope, &actor.time_zone, question.seeder).await?;
    let units: Vec<UnitRow> = reading.units().iter().filter(|unit| question.is_about(unit)).cloned().collect();
    let mut first = First::new(wanted.by);
    for row in &units {
        let rows = question.rows(&mut snapshot.cx(), Some(MeteringUnitId(row.id))).await?;
        if !rows.is_empty() {
            let records = reading.read(&mut snapshot.cx(), scope, row).await?;
            first.add(&question.judged(records, rows)?, &question, &records.names);
        }
    }
    let First { sums, sown, untrue, let_pass_m2 } = first;
    parts.send(&sums_part(&page, &wanted, sums, untrue, let_pass_m2, reader)).await?;
    let lots = question.lots(&mut snapshot.cx(), &sown).await?;
    if !lots.is_empty() {
        let has_opening = question.period.from.is_some();
        let lots = lots.iter().map(|lot| lot_line(lot, has_opening, reader)).collect();
        let is_of_some_jobs = question.is_of_some_jobs();
        parts.send(&LotsPart { page: &page, lots, has_opening, is_of_some_jobs }).await?;
    }
    let (mut tanks, mut drifts) = (0, 0);
    for row in &units {
        let records = reading.read(&mut snapshot.cx(), scope, row).await?;
        let unit = question.unit(&mut snapshot.cx(), records).await?;
        if !unit.is_empty() {
            let (is_first_tank, is_first_drift) = (tanks == 0, drifts == 0);
            tanks += unit.tanks.len();
            drifts += usize::from(unit.drift.is_some());
            let part = unit_part(&page, row, &unit, &question, &records.names);
            parts.send(&UnitPart { is_first_tank, is_first_drift, ..part }).await?;
        }
    }
    if drifts == 0 && wanted.sees_stock {
        parts.send(&NoDrift { page: &page, sees_machines: question.sees_machines() }).await?;
    }
    // Nothing is read any more: the connection goes back before the slowest reader has all of it.
    drop(snapshot);
    Ok(())
}

/// What is kept of the first time.
struct First {
    sums: Sums,
    sown: SownOfLots,
    /// With their places: oldest first, whichever the unit.
    untrue: Vec<((i64, i64, Uuid), UntrueLine)>,
    /// The ground under a number that was true while a reason was let pass, m².
    let_pass_m2: f64,
}

impl First {
    fn new(by: By) -> Self {
        Self { sums: Sums::new(by), sown: SownOfLots::default(), untrue: Vec::new(), let_pass_m2: 0.0 }
    }

    fn add(&mut self, jobs: &[JobUse], question: &Question, names: &Names) {
        let told = told(question, names);
        for job in jobs {
            self.sums.add(job, &told);
            question.sow(&mut self.sown, job);
            if !job.was_true() {
                let head = &job.row.head;
                self.untrue.push(((head.occurred_at, head.recorded_at, head.id), told.untrue(job)));
            } else if job.readiness.due.iter().any(|due| due.waived.is_some()) {
                self.let_pass_m2 += job.facts.area_m2;
            }
        }
    }
}

fn told<'a>(question: &'a Question, names: &'a Names) -> Told<'a> {
    let actor = &question.signed.actor;
    Told { names, reader: actor.reader(), zone: &actor.time_zone }
}

fn sums_part<'p>(
    page: &'p Page,
    wanted: &'p Wanted,
    sums: Sums,
    mut untrue: Vec<((i64, i64, Uuid), UntrueLine)>,
    let_pass_m2: f64,
    reader: Reader,
) -> SumsPart<'p> {
    let words = reader.words;
    untrue.sort_by_key(|(place, _)| *place);
    let Sum { area_m2, untrue_m2, sown, .. } = sums.all;
    let facts = vec![
        (say!(words, "usage-sown"), reader.area(area_m2)),
        (say!(words, "usage-untrue"), reader.area(untrue_m2)),
        (say!(words, "usage-seed-weighed"), reader.mass(sown.weighed.kg)),
        (say!(words, "usage-seed-bags"), reader.mass(sown.bags.kg)),
        (say!(words, "usage-seed-machine"), reader.mass(sown.machine_total.kg)),
    ];
    SumsPart {
        page,
        wanted,
        facts,
        untrue: untrue.into_iter().map(|(_, line)| line).collect(),
        let_pass: if let_pass_m2 > 0.0 { reader.area(let_pass_m2) } else { String::new() },
        by: wanted.by.says(words),
        sums: sums.groups.into_iter().map(|((_, name), sum)| sum_line(name, &sum, reader)).collect(),
    }
}

fn unit_part<'p>(page: &'p Page, row: &UnitRow, unit: &UnitUse, question: &Question, names: &Names) -> UnitPart<'p> {
    let told = told(question, names);
    UnitPart {
        page,
        title: format!("{}, {}", row.seeder, row.label),
        seeder_id: row.seeder_id,
        jobs: unit.jobs.iter().rev().map(|job| told.job(job)).collect(),
        tanks: unit.tanks.iter().rev().map(|tank| told.tank(tank)).collect(),
        drift: unit.drift.as_ref().map(|drift| chart::figure(drift, told.zone, told.reader)),
        is_first_tank: false,
        is_first_drift: false,
    }
}
