//! Factors over time, a series for each roller and lot, or for each unit; what happened to the machine as ticks.

use super::{Paper, Point, Points};
use crate::access::Scope;
use crate::chart::axis::{self, seconds};
use crate::chart::figure::Row;
use crate::chart::plot::Frame;
use crate::chart::{Column, Figure, Mark, Plot, Scale, Stroke, Table};
use crate::readiness::Names;
use jiff::Timestamp;
use sowmark_core::moment::Dated;
use sowmark_core::readiness::UnitHistory;
use sowmark_core::say;

/// So many series are named on the drawing, the newest ones; the table names all.
const NAMED: usize = 8;

pub(super) fn of_unit(
    points: &Points,
    history: &UnitHistory,
    names: &Names,
    scope: &Scope,
    paper: &Paper<'_>,
) -> Option<Figure> {
    let events = events(history, names, scope, paper);
    let latest = points.shown.last()?;
    let words = paper.reader.words;
    let newest = say!(
        words,
        "chart-latest",
        factor = format!("{} {}", paper.factor(latest.factor, latest.expanded_percent), paper.unit_name()),
        within = paper.uncertainty(latest.expanded_percent),
        series = &latest.series,
        day = paper.day(latest.at)
    );
    let columns = ["chart-column-caught", "chart-column-lot", "chart-column-roller"];
    let columns = columns.map(|key| Column::words(say!(words, key))).into_iter().chain(numbers(paper));
    let row = |point: &Point| vec![paper.day(point.at), point.lot.clone(), point.roller.clone()];
    Some(Figure {
        id: paper.id.clone(),
        title: say!(words, "chart-over-time", unit = paper.unit_name()),
        says: told(newest, points, paper),
        advice: Vec::new(),
        table: table(points, columns.collect(), row, paper),
        ..drawn(points, &events, paper)
    })
}

pub(super) fn of_lot(points: &Points, paper: &Paper<'_>) -> Option<Figure> {
    points.shown.first()?;
    let words = paper.reader.words;
    let columns = ["chart-column-caught", "chart-column-unit"];
    let columns = columns.map(|key| Column::words(say!(words, key))).into_iter().chain(numbers(paper));
    let row = |point: &Point| vec![paper.day(point.at), point.machine.clone()];
    Some(Figure {
        id: paper.id.clone(),
        title: say!(words, "chart-of-lot", unit = paper.unit_name()),
        says: told(say!(words, "chart-never-elsewhere"), points, paper),
        advice: Vec::new(),
        table: table(points, columns.collect(), row, paper),
        ..drawn(points, &[], paper)
    })
}

/// What is drawn, a sentence on it, and what is not drawn.
fn told(besides: String, points: &Points, paper: &Paper<'_>) -> String {
    let drawn = [span(points, paper), besides].into_iter();
    drawn.chain(points.left_out(paper.reader.words)).collect::<Vec<_>>().join(" ")
}

/// How many, since when, between which factors.
fn span(points: &Points, paper: &Paper<'_>) -> String {
    let (all, words) = (&points.shown, paper.reader.words);
    let factors = || all.iter().map(|point| (point.factor, point.expanded_percent));
    let least = factors().min_by(|a, b| a.0.total_cmp(&b.0));
    let most = factors().max_by(|a, b| a.0.total_cmp(&b.0));
    match (all.first().zip(all.last()), least.zip(most)) {
        (Some((first, last)), Some((least, most))) if all.len() > 1 => say!(
            words,
            "chart-catches",
            count = all.len(),
            first = paper.day(first.at),
            last = paper.day(last.at),
            least = paper.factor(least.0, least.1),
            most = format!("{} {}", paper.factor(most.0, most.1), paper.unit_name())
        ),
        (Some((first, _)), _) => say!(words, "chart-one-catch", day = paper.day(first.at)),
        _ => String::new(),
    }
}

fn numbers(paper: &Paper<'_>) -> Vec<Column> {
    let words = paper.reader.words;
    vec![
        Column::numbers(say!(words, "chart-column-factor", unit = paper.unit_name())),
        Column::numbers(say!(words, "chart-column-uncertainty")),
        Column::numbers(say!(words, "chart-column-roller-speed")),
        Column::words(say!(words, "chart-column-standing")),
    ]
}

/// Newest first, each row leading to its record.
fn table(points: &Points, columns: Vec<Column>, names: impl Fn(&Point) -> Vec<String>, paper: &Paper<'_>) -> Table {
    let row = |point: &Point| {
        let mut cells = names(point);
        cells.push(paper.factor(point.factor, point.expanded_percent));
        cells.push(paper.uncertainty(point.expanded_percent));
        cells.push(paper.rpm(point.rpm));
        cells.push(say!(paper.reader.words, if point.is_held { "chart-is-held" } else { "chart-is-accepted" }));
        Row { href: Some(format!("/calibrations/{}", point.id)), cells }
    };
    Table { columns, rows: points.shown.iter().rev().map(row).collect() }
}

/// The drawing alone.
fn drawn(points: &Points, events: &[(Timestamp, String)], paper: &Paper<'_>) -> Figure {
    let all = &points.shown;
    let frame = if events.is_empty() { Frame { top: 16.0, ..Frame::WIDE } } else { Frame::WIDE };
    let edges = |point: &Point| {
        let value = paper.value(point.factor);
        let half = value * point.expanded_percent / 100.0;
        (value - half, value, value + half)
    };
    let x = axis::whole_days(all.iter().map(|point| point.at), frame.left, frame.right);
    let y = Scale::holding(all.iter().flat_map(|point| [edges(point).0, edges(point).2]), frame.bottom, frame.top);
    let mut plot = Plot::new(frame, x, y);
    plot.across(&axis::numbers(&y, 5, paper.reader.words));
    plot.along(&axis::dates(&x, 6, paper.zone, paper.reader.words));
    let ticks: Vec<(f64, String)> = events.iter().map(|(at, says)| (seconds(*at), says.clone())).collect();
    plot.events(&ticks);
    let mut names = Vec::new();
    for (number, series) in series(all).into_iter().enumerate() {
        let counts = series.iter().filter(|point| !point.is_held);
        let line: Vec<(f64, f64)> = counts.map(|point| (seconds(point.at), paper.value(point.factor))).collect();
        plot.line(Stroke::Series(number), &line);
        for point in &series {
            let (low, value, high) = edges(point);
            plot.bar(seconds(point.at), low, high);
            plot.mark(Mark { series: number, hollow: point.is_held }, seconds(point.at), value);
        }
        names.extend(series.last().map(|last| (seconds(last.at), paper.value(last.factor), last.series.clone())));
    }
    names.sort_by(|a, b| b.0.total_cmp(&a.0));
    names.truncate(NAMED);
    plot.names_at(&names);
    let (size, paths, texts) = plot.drawn();
    Figure {
        id: String::new(),
        title: String::new(),
        says: String::new(),
        advice: Vec::new(),
        is_over_time: true,
        size,
        paths,
        texts,
        table: Table::default(),
    }
}

/// The points by series, in the order in which the series begin.
fn series(points: &[Point]) -> Vec<Vec<&Point>> {
    let mut all: Vec<Vec<&Point>> = Vec::new();
    for point in points {
        match all.iter_mut().find(|series| series.first().is_some_and(|first| first.series == point.series)) {
            Some(series) => series.push(point),
            None => all.push(vec![point]),
        }
    }
    all
}

/// What can have changed the factor: another roller, another ratio or gate, a part, another lot. What was so from the
/// beginning is no event.
fn events(history: &UnitHistory, names: &Names, scope: &Scope, paper: &Paper<'_>) -> Vec<(Timestamp, String)> {
    let words = paper.reader.words;
    let mut events = Vec::new();
    let setups = in_order(&history.setups);
    for pair in setups.windows(2) {
        let (before, after) = (&pair[0].what, &pair[1].what);
        let says = if before.roller != after.roller {
            say!(words, "chart-event-roller", roller = names.roller(after.roller.0))
        } else if before.drive_ratio != after.drive_ratio {
            say!(words, "chart-event-ratio", ratio = words.decimal(&after.drive_ratio.to_string()))
        } else if before.gate != after.gate {
            match &after.gate {
                Some(gate) => say!(words, "chart-event-gate", gate = gate),
                None => say!(words, "chart-event-no-gate"),
            }
        } else if before.runs != after.runs {
            say!(words, "chart-event-runs", runs = after.runs)
        } else {
            continue;
        };
        events.push((pair[1].moment.occurred_at, says));
    }
    for service in history.services.iter().filter(|service| service.what.affects_metering) {
        let part = names.component(service.moment.id).unwrap_or_default();
        events.push((service.moment.occurred_at, say!(words, "chart-event-replaced", part = part)));
    }
    for pair in in_order(&history.fills).windows(2) {
        let (before, after) = (pair[0].what.lot, pair[1].what.lot);
        if before != after && scope.lots.includes(&after) {
            let lot = names.lot(after.0).map_or("", |lot| lot.number.as_str());
            events.push((pair[1].moment.occurred_at, say!(words, "chart-event-lot", number = lot)));
        }
    }
    events.sort_by_key(|(at, _)| *at);
    events
}

fn in_order<T>(records: &[Dated<T>]) -> Vec<&Dated<T>> {
    let mut records: Vec<&Dated<T>> = records.iter().collect();
    records.sort_by_key(|record| record.moment);
    records
}
