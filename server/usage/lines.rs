//! Lines of the usage page for other pages that show the same of one lot: its jobs, its tanks, its balance.

pub use super::page::{JobLine, TankLine};

use super::act::{LotUse, Usage};
use super::page::{Told, with_doubt};
use crate::web::door::Signed;
use crate::web::reader::Reader;
use sowmark_core::say;
use sowmark_core::usage::Total;

/// The jobs, newest first.
#[must_use]
pub fn jobs(usage: &Usage, signed: &Signed) -> Vec<JobLine> {
    let told = Told { usage, reader: signed.actor.reader(), zone: &signed.actor.time_zone };
    usage.jobs.iter().rev().map(|job| told.job(job)).collect()
}

/// The tanks, newest first.
#[must_use]
pub fn tanks(usage: &Usage, signed: &Signed) -> Vec<TankLine> {
    let told = Told { usage, reader: signed.actor.reader(), zone: &signed.actor.time_zone };
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
