//! The factor against the roller speed: one chart for each lot and roller that were caught at two speeds or more.

use super::{Paper, Point, Points, joined};
use crate::chart::axis;
use crate::chart::figure::Row;
use crate::chart::plot::Frame;
use crate::chart::{Column, Figure, Mark, Plot, Scale, Stroke, Table};
use sowmark_core::say;
use sowmark_core::speed::{SpeedDependence, SpeedPoint, dependence};
use sowmark_core::words::Words;

/// So many are shown, of the lots and rollers caught last.
const SHOWN: usize = 2;
/// The band is drawn through so many places.
const PLACES: usize = 16;

pub(super) fn of_unit(points: &Points, paper: &Paper<'_>) -> Vec<Figure> {
    let mut groups: Vec<Vec<&Point>> = Vec::new();
    // Newest first, so that the groups are in the order of their latest catch.
    for point in points.shown.iter().rev().filter(|point| !point.is_held && point.rpm.is_some()) {
        match groups.iter_mut().find(|group| is_alike(group[0], point)) {
            Some(group) => group.push(point),
            None => groups.push(vec![point]),
        }
    }
    let found = groups.into_iter().filter_map(|group| {
        let found = dependence(&group.iter().filter_map(|point| speed_point(point)).collect::<Vec<_>>())?;
        Some((group, found))
    });
    let drawn = found.take(SHOWN).enumerate();
    drawn.map(|(number, (group, found))| figure(&group, &found, number, paper)).collect()
}

/// Caught alike but for the speed: the same lot and roller, the same gate opening.
fn is_alike(a: &Point, b: &Point) -> bool {
    let lot = |point: &Point| point.past.calibration.row.lot_id;
    lot(a) == lot(b) && a.fitted.is_some() && a.fitted == b.fitted
}

fn speed_point(point: &Point) -> Option<SpeedPoint> {
    let calibration = &point.past.calibration;
    let scale = calibration.row.scale_id.map(Into::into);
    Some(SpeedPoint::of_budget(point.rpm?, point.factor, &calibration.judgement.budget, scale))
}

fn figure(group: &[&Point], found: &SpeedDependence, number: usize, paper: &Paper<'_>) -> Figure {
    let words = paper.reader.words;
    let frame = Frame { height: 248.0, ..Frame::PLAIN };
    let value = |factor: f64| paper.value(factor);
    let places = |i: usize| {
        let share = i as f64 / (PLACES - 1) as f64;
        found.slowest_rpm() + share * (found.fastest_rpm() - found.slowest_rpm())
    };
    let band: Vec<(f64, f64, f64)> = (0..PLACES)
        .filter_map(|i| {
            let (factor, width) = found.band_at(places(i).min(found.fastest_rpm()))?;
            Some((places(i), value(factor - width), value(factor + width)))
        })
        .collect();
    let own = |point: &&Point| {
        let known = speed_point(point)?;
        let width = known.own.expanded(0.95)?;
        Some((known.rpm, value(point.factor - width), value(point.factor), value(point.factor + width)))
    };
    let marks: Vec<_> = group.iter().filter_map(own).collect();
    let heights = marks.iter().flat_map(|mark| [mark.1, mark.3]).chain(band.iter().flat_map(|edge| [edge.1, edge.2]));
    let x = Scale::holding(marks.iter().map(|mark| mark.0), frame.left, frame.right);
    let y = Scale::holding(heights, frame.bottom, frame.top);
    let mut plot = Plot::new(frame, x, y);
    plot.band(&band);
    plot.across(&axis::numbers(&y, 5, words));
    plot.along(&axis::numbers(&x, 8, words));
    plot.x_says(&say!(words, "chart-roller-speed"));
    let line = [found.slowest_rpm(), found.fastest_rpm()].map(|rpm| (rpm, value(found.line.value_at(rpm))));
    plot.line(Stroke::Series(0), &line);
    for (rpm, low, factor, high) in marks {
        plot.bar(rpm, low, high);
        plot.mark(Mark::of(0), rpm, factor);
    }
    let (size, paths, texts) = plot.drawn();
    let of = group.first().map(|point| joined(&[&point.lot, &point.roller])).unwrap_or_default();
    Figure {
        id: format!("{}-speed-{number}", paper.id),
        title: say!(words, "chart-over-speed", unit = paper.unit_name(), of = of),
        says: says(found, group.len(), words),
        advice: vec![found.says(words)],
        is_over_time: false,
        size,
        paths,
        texts,
        table: table(group, paper),
    }
}

fn says(found: &SpeedDependence, count: usize, words: Words) -> String {
    let drawn = say!(words, "chart-speeds", speeds = found.speeds, count = count.to_string());
    let scale = if found.one_scale { "chart-one-scale" } else { "chart-several-scales" };
    format!("{drawn} {}", say!(words, scale))
}

fn table(group: &[&Point], paper: &Paper<'_>) -> Table {
    let words = paper.reader.words;
    let columns = vec![
        Column::words(say!(words, "chart-column-caught")),
        Column::numbers(say!(words, "chart-column-roller-speed")),
        Column::numbers(say!(words, "chart-column-factor", unit = paper.unit_name())),
        Column::numbers(say!(words, "chart-column-uncertainty")),
    ];
    let row = |point: &&Point| Row {
        href: Some(format!("/calibrations/{}", point.id)),
        cells: vec![
            paper.day(point.at),
            paper.rpm(point.rpm),
            paper.factor(point.factor, point.expanded_percent),
            paper.uncertainty(point.expanded_percent),
        ],
    };
    Table { columns, rows: group.iter().map(row).collect() }
}
