//! The drift chart of a unit: each job against its target, smoothed, and the limits that it should keep within.

use super::act::Drift;
use crate::chart::axis::{self, seconds};
use crate::chart::figure::Row;
use crate::chart::plot::Frame;
use crate::chart::{Column, Figure, Mark, Plot, Scale, Stroke, Table};
use crate::records::head;
use crate::web::reader::Reader;
use jiff::tz::TimeZone;
use sowmark_core::quantity::{Unit, unit};
use sowmark_core::say;
use sowmark_core::words::Words;

/// A logarithm of a ratio as percent above or below.
fn percent(ln: f64) -> f64 {
    100.0 * ln.exp_m1()
}

/// With its sign: "+1.2 %".
pub(crate) fn signed_percent(percent: f64, words: Words) -> String {
    let text = words.decimal(&format!("{:.1}", percent.abs()));
    let sign = match () {
        () if text.chars().all(|c| !c.is_ascii_digit() || c == '0') => "",
        () if percent < 0.0 => "\u{2212}",
        () => "+",
    };
    format!("{sign}{text} %")
}

/// The chart and the table behind it; a unit with one job has no line yet, but its point.
#[must_use]
pub fn figure(drift: &Drift, zone: &TimeZone, reader: Reader) -> Figure {
    let words = reader.words;
    let machine = format!("{}, {}", drift.seeder, drift.unit);
    let frame = Frame { height: 248.0, right: 612.0, ..Frame::PLAIN };
    let times: Vec<f64> = drift.points.iter().map(|job| seconds(job.occurred_at)).collect();
    let limits = |sign: f64| drift.points.iter().map(move |job| percent(sign * job.point.limit));
    let values = drift.points.iter().flat_map(|job| [percent(job.point.x), percent(job.point.z)]);
    let x = axis::whole_days(drift.points.iter().map(|job| job.occurred_at), frame.left, frame.right);
    let y = Scale::holding(values.chain(limits(1.0)).chain(limits(-1.0)), frame.bottom, frame.top);
    let mut plot = Plot::new(frame, x, y);
    plot.across(&axis::numbers(&y, 5, words));
    plot.along(&axis::dates(&x, 6, zone, words));
    plot.level(Stroke::Axis, 0.0);
    let mut names = Vec::new();
    for sign in [1.0, -1.0] {
        // From end to end, so that one job alone has its limits too.
        let ends = limits(sign).next().zip(limits(sign).next_back());
        let Some((first, last)) = ends else { continue };
        let between = times.iter().copied().zip(limits(sign));
        let line = std::iter::once((x.low(), first)).chain(between).chain([(x.high(), last)]);
        plot.line(Stroke::Limit, &line.collect::<Vec<_>>());
        names.push((x.high(), last, say!(words, "usage-drift-limit")));
    }
    let smoothed: Vec<_> = times.iter().copied().zip(drift.points.iter().map(|job| percent(job.point.z))).collect();
    plot.line(Stroke::Series(0), &smoothed);
    for (at, job) in times.iter().zip(&drift.points) {
        plot.mark(Mark { series: 1, hollow: true }, *at, percent(job.point.x));
        plot.mark(Mark::of(0), *at, percent(job.point.z));
    }
    if let Some((at, job)) = times.last().zip(drift.points.last()) {
        names.push((*at, percent(job.point.x), say!(words, "usage-drift-job-off")));
        names.push((*at, percent(job.point.z), say!(words, "usage-drift-smoothed")));
    }
    plot.names(&names);
    let (size, paths, texts) = plot.drawn();
    Figure {
        id: format!("drift-{}", drift.metering_unit_id),
        title: say!(words, "usage-drift-title", machine = &machine),
        says: says(drift, words),
        // What is within its limits asks for nothing.
        advice: is_out(drift).then(|| hint(drift, reader)).into_iter().collect(),
        is_over_time: true,
        size,
        paths,
        texts,
        table: table(drift, zone, words),
    }
}

fn is_out(drift: &Drift) -> bool {
    drift.points.last().is_some_and(|job| job.point.out)
}

fn says(drift: &Drift, words: Words) -> String {
    let Some(latest) = drift.points.last().map(|job| job.point) else { return String::new() };
    say!(
        words,
        "usage-drift-says",
        jobs = drift.points.len(),
        off = signed_percent(percent(latest.z), words),
        limit = words.decimal(&format!("{:.1}", percent(latest.limit))),
        state = if latest.out { "out" } else { "within" }
    )
}

/// What the jobs would imply, by the chart that weighs them.
fn hint(drift: &Drift, reader: Reader) -> String {
    let unit = match reader.units {
        crate::access::Units::Metric => unit::KG_PER_100REV,
        crate::access::Units::Us => unit::LB_PER_100REV,
    };
    let z = drift.weighted.last().map_or(0.0, |point| point.z);
    say!(
        reader.words,
        "usage-drift-hint",
        off = signed_percent(percent(z), reader.words),
        factor = factor(drift.implied_factor, unit, reader.words)
    )
}

fn factor(si: f64, unit: Unit<unit::dimension::MeterFactor>, words: Words) -> String {
    format!("{} {}", words.print(si, unit, 3), words.unit(unit.name()))
}

fn table(drift: &Drift, zone: &TimeZone, words: Words) -> Table {
    let columns = vec![
        Column::words(say!(words, "usage-job")),
        Column::numbers(say!(words, "usage-drift-job-off")),
        Column::numbers(say!(words, "usage-drift-smoothed")),
        Column::numbers(say!(words, "usage-drift-limit")),
        Column::numbers(say!(words, "usage-drift-weighted")),
        Column::numbers(say!(words, "usage-drift-weighted-limit")),
    ];
    let off = |ln: f64| signed_percent(percent(ln), words);
    let within = |ln: f64| format!("\u{b1} {} %", words.decimal(&format!("{:.1}", percent(ln))));
    let rows = drift.points.iter().zip(&drift.weighted).rev().map(|(job, weighted)| Row {
        href: None,
        cells: vec![
            head::said(job.occurred_at, zone, words),
            off(job.point.x),
            off(job.point.z),
            within(job.point.limit),
            off(weighted.z),
            within(weighted.limit),
        ],
    });
    Table { columns, rows: rows.collect() }
}

#[cfg(test)]
mod tests {
    use super::signed_percent;
    use sowmark_core::words::{DecimalSign, Words};

    #[test]
    fn a_share_has_its_sign_unless_it_is_nothing() {
        let comma = Words { decimal: DecimalSign::Comma, ..Words::default() };
        assert_eq!(signed_percent(1.23, comma), "+1,2 %");
        assert_eq!(signed_percent(-1.25, Words::default()), "\u{2212}1.2 %");
        assert_eq!(signed_percent(-0.02, Words::default()), "0.0 %");
    }
}
