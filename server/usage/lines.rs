//! The lines of an audit: a job, a tank, a lot, a sum, as their rows show them, here and on other pages that show the same.

use super::act::{JobUse, LotUse, TankUse, Usage};
use super::chart::signed_percent;
use super::sums::Sum;
use crate::readiness::Names;
use crate::records::head::said;
use crate::web::door::Signed;
use crate::web::reader::Reader;
use jiff::tz::TimeZone;
use sowmark_core::readiness::SeedUsedBasis;
use sowmark_core::say;
use sowmark_core::usage::{Sown, Total};
use sowmark_core::words::Words;
use uuid::Uuid;

/// A job under a number that was not true.
pub(super) struct UntrueLine {
    pub(super) when: String,
    /// It stands among the jobs of its unit.
    pub(super) job: Uuid,
    pub(super) what: String,
    pub(super) says: Vec<String>,
}

/// Jobs together.
pub(super) struct SumLine {
    pub(super) name: String,
    pub(super) cells: Vec<String>,
}

/// A job, as its row shows it.
#[derive(Clone, Debug)]
pub struct JobLine {
    pub id: Uuid,
    pub when: String,
    pub seeder_id: Uuid,
    pub machine: String,
    pub field: String,
    /// None where it is not the reader's to see.
    pub lot_id: Option<Uuid>,
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
    /// What is asked of its figures.
    pub asks: Vec<String>,
}

/// A lot's balance, as its row shows it.
pub(super) struct LotLine {
    pub(super) id: Uuid,
    pub(super) name: String,
    pub(super) cells: Vec<String>,
    /// What of it wants looking into; empty where nothing does.
    pub(super) remark: String,
}

/// A tank's span, as its row shows it.
#[derive(Clone, Debug)]
pub struct TankLine {
    pub seeder_id: Uuid,
    pub machine: String,
    pub when: String,
    pub lots: String,
    pub cells: Vec<String>,
}

/// The jobs, newest first.
#[must_use]
pub fn jobs(usage: &Usage, signed: &Signed) -> Vec<JobLine> {
    let told = Told { names: &usage.names, reader: signed.actor.reader(), zone: &signed.actor.time_zone };
    usage.jobs.iter().rev().map(|job| told.job(job)).collect()
}

/// The tanks, newest first.
#[must_use]
pub fn tanks(usage: &Usage, signed: &Signed) -> Vec<TankLine> {
    let told = Told { names: &usage.names, reader: signed.actor.reader(), zone: &signed.actor.time_zone };
    usage.tanks.iter().rev().map(|tank| told.tank(tank)).collect()
}

/// The balance of a lot, part by part: in, out, what that leaves, what was counted, and what is not accounted for. Parts in
/// which nothing was moved are left out.
#[must_use]
pub fn balance(of: &LotUse, reader: Reader) -> Vec<(String, String)> {
    let (balance, words) = (&of.balance, reader.words);
    let kg = |total: Total| reader.mass(total.kg);
    let parts = [
        ("usage-received", balance.received),
        ("usage-filled", balance.filled),
        ("usage-returned", balance.returned),
        ("usage-sown", of.sown.all()),
        ("usage-sold", balance.sold),
        ("usage-discarded", balance.discarded),
    ];
    let moved = parts.into_iter().filter(|(_, total)| total.kg != 0.0);
    let mut lines: Vec<_> = moved.map(|(key, total)| (say!(words, key), kg(total))).collect();
    lines.push((say!(words, "usage-expected"), with_doubt(balance.expected_on_hand(), reader)));
    if let Some(count) = balance.counted {
        lines.push((say!(words, "usage-counted"), kg(count.found)));
        lines.push((say!(words, "usage-unaccounted"), with_doubt(count.unaccounted(), reader)));
    }
    lines
}

/// What a line needs beside its subject.
pub(super) struct Told<'a> {
    pub(super) names: &'a Names,
    pub(super) reader: Reader,
    pub(super) zone: &'a TimeZone,
}

impl Told<'_> {
    pub(super) fn untrue(&self, job: &JobUse) -> UntrueLine {
        let words = self.reader.words;
        let row = &job.row;
        let standing = job.readiness.due.iter().zip(&job.says).filter(|(due, _)| due.waived.is_none());
        let mut says: Vec<String> = standing.map(|(_, says)| says.clone()).collect();
        if says.is_empty() {
            says.push(say!(words, "usage-no-number"));
        }
        UntrueLine {
            when: row.head.when(self.zone, words),
            job: row.head.id,
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
        let lot = self.names.lot(row.lot_id);
        let unseen = || say!(words, "cab-card-lot-unknown");
        let count = |count: f64| words.number(count, 3);
        JobLine {
            id: row.head.id,
            when: row.head.when(self.zone, words),
            seeder_id: row.seeder_id,
            machine: format!("{}, {}", row.seeder, row.unit),
            field: row.field().to_owned(),
            lot_id: lot.map(|_| row.lot_id),
            lot: lot.map_or_else(unseen, |lot| lot.number.clone()),
            area: self.reader.measured(&row.area),
            seed: self.reader.measured(&row.seed_used),
            basis: basis(job.facts.seed_used_basis, words),
            actual: job.came_to.map(|came_to| self.reader.rate_sown(came_to.rate)).unwrap_or_default(),
            target: self.reader.rate(job.facts.target_rate),
            deviation: job.came_to.map(|came_to| signed_percent(100.0 * came_to.deviation, words)).unwrap_or_default(),
            seeds: job.came_to.and_then(|came_to| came_to.seeds_per_m2).map(count).unwrap_or_default(),
            plants: job.plants_per_m2.map(count).unwrap_or_default(),
            stands: number_stands(job, words),
            was_true: job.was_true(),
            asks: job.asks.clone(),
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
        let lots = span.lots.iter().filter_map(|lot| Some(self.names.lot(lot.0)?.number.clone()));
        let kg = |total: Total| self.reader.mass(total.kg);
        let left = match span.unaccounted() {
            Some(unaccounted) => with_doubt(unaccounted, self.reader),
            None if span.unweighed > 0 => say!(words, "usage-not-all-weighed"),
            None if span.left().kg < 0.0 => {
                say!(words, "usage-tank-short", mass = self.reader.mass(-span.left().kg))
            }
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
    let any = |let_pass: bool| job.readiness.due.iter().any(|due| due.waived.is_some() == let_pass);
    match (job.was_true(), any(false), any(true)) {
        (false, ..) => say!(words, "usage-number-untrue"),
        (true, false, false) => say!(words, "usage-number-true"),
        (true, true, false) => say!(words, "usage-number-check"),
        (true, false, true) => say!(words, "usage-number-let-pass"),
        (true, true, true) => say!(words, "usage-number-check-let-pass"),
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

pub(super) fn sum_line(name: String, sum: &Sum, reader: Reader) -> SumLine {
    let off = sum.deviation().map(|share| signed_percent(100.0 * share, reader.words)).unwrap_or_default();
    let cells = vec![
        reader.area(sum.area_m2),
        if sum.untrue_m2 > 0.0 { reader.area(sum.untrue_m2) } else { String::new() },
        reader.mass(sum.sown.all().kg),
        machine_share(&sum.sown, reader),
        sum.rate().map(|rate| reader.rate_sown(rate)).unwrap_or_default(),
        sum.target().map(|rate| reader.rate(rate)).unwrap_or_default(),
        off,
    ];
    SumLine { name, cells }
}

pub(super) fn lot_line(of: &LotUse, has_opening: bool, reader: Reader) -> LotLine {
    let balance = &of.balance;
    let kg = |total: Total| reader.mass(total.kg);
    let unaccounted = match balance.counted {
        Some(count) => with_doubt(count.unaccounted(), reader),
        None => String::new(),
    };
    let moved = |total: Total| if total.kg == 0.0 { String::new() } else { kg(total) };
    let mut cells = vec![
        moved(balance.received),
        moved(balance.filled),
        moved(balance.returned),
        moved(of.sown.all()),
        moved(balance.sold),
        moved(balance.discarded),
        kg(balance.expected_on_hand()),
        balance.counted.map(|count| kg(count.found)).unwrap_or_default(),
        unaccounted,
    ];
    if has_opening {
        cells.insert(0, kg(balance.opening));
    }
    LotLine { id: of.lot.id, name: of.lot.in_words(reader.words), cells, remark: remark(of, reader) }
}

/// More than the weighings leave open is missing, or too much; or less than nothing should be there.
fn remark(of: &LotUse, reader: Reader) -> String {
    let (words, expected) = (reader.words, of.balance.expected_on_hand());
    let mass = |kg: f64| reader.mass(kg.abs());
    match of.balance.counted.map(|count| count.unaccounted()) {
        Some(off) if off.kg.abs() > 2.0 * off.uncertainty_kg() => {
            let word = if off.kg < 0.0 { "missing" } else { "over" };
            say!(words, "usage-lot-off", off = word, mass = mass(off.kg))
        }
        None if expected.kg < -2.0 * expected.uncertainty_kg() => {
            say!(words, "usage-lot-off", off = "short", mass = mass(expected.kg))
        }
        _ => String::new(),
    }
}

/// A difference with what its weighings leave open, at two standard uncertainties: about 95 %.
fn with_doubt(total: Total, reader: Reader) -> String {
    format!("{} \u{b1} {}", reader.mass(total.kg), reader.mass_doubt(2.0 * total.uncertainty_kg()))
}

/// What of it is known from the machine alone.
fn machine_share(sown: &Sown, reader: Reader) -> String {
    if sown.machine_total.kg > 0.0 { reader.mass(sown.machine_total.kg) } else { String::new() }
}
