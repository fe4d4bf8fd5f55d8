//! The runs of a calibration against each other: for the answer, and as a chart on the record.

use super::stored::word;
use crate::chart::axis::{self, Tick};
use crate::chart::figure::Row;
use crate::chart::plot::Frame;
use crate::chart::{Column, Figure, Mark, Plot, Scale, Stroke, Table};
use crate::texts;
use crate::web::error::Error;
use serde::Serialize;
use sowmark_core::catch::Sheet;
use sowmark_core::circumstances::Circumstances;
use sowmark_core::factor::measure;
use sowmark_core::runs::{self, REMARKABLE_PERCENT, RunComparison, Side};
use sowmark_core::say;
use sowmark_core::verdict::Judgement;
use sowmark_core::words::Words;

/// The runs against each other.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct RunsView {
    /// The places on the sheet, counted from 0, of the repeats that had runs to compare.
    pub repeats: Vec<usize>,
    pub runs: Vec<RunView>,
    /// They differ by no more than the scale's rounding explains.
    pub scatter_is_rounding: bool,
    /// What runs and repeats tell, in sentences.
    pub says: Vec<String>,
}

/// A run over the repeats.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct RunView {
    pub label: String,
    /// Its difference from the mean of the runs in each of those repeats; null where it was not caught.
    pub percent: Vec<Option<f64>>,
    pub mean_percent: f64,
    /// `low` or `high`, where it was so in every repeat and by more than 5 %.
    pub always: Option<String>,
}

/// The comparison for a program; null where no repeat had two catches.
///
/// # Errors
/// None that a comparison could cause.
pub(super) fn view(
    sheet: &Sheet,
    circumstances: &Circumstances,
    judgement: &Judgement,
) -> Result<Option<RunsView>, Error> {
    let measured = measure(sheet, circumstances);
    let Some(found) = runs::compare(&measured) else { return Ok(None) };
    let run = |run: runs::ComparedRun| {
        Ok(RunView {
            label: run.label,
            percent: run.percent,
            mean_percent: run.mean_percent,
            always: run.always.map(|side| word(&side)).transpose()?,
        })
    };
    Ok(Some(RunsView {
        repeats: found.repeats,
        runs: found.runs.into_iter().map(run).collect::<Result<_, Error>>()?,
        scatter_is_rounding: found.scatter_is_rounding,
        says: runs::says(&measured, judgement, texts::plain()),
    }))
}

/// The runs side by side: a mark for each catch of each repeat, against the mean of the runs.
pub(super) fn figure(sheet: &Sheet, circumstances: &Circumstances, words: Words) -> Option<Figure> {
    let found = runs::compare(&measure(sheet, circumstances))?;
    let frame = Frame { width: 720.0, height: 190.0, left: 56.0, right: 608.0, top: 12.0, bottom: 156.0 };
    let values = found.runs.iter().flat_map(|run| &run.percent).flatten().copied();
    let limits = [-REMARKABLE_PERCENT, REMARKABLE_PERCENT];
    let y = Scale::holding(values.chain(limits), frame.bottom, frame.top);
    let x = Scale::between(-0.5, found.runs.len() as f64 - 0.5, frame.left, frame.right);
    let mut plot = Plot::new(frame, x, y);
    plot.across(&percents(&y, words));
    let places = found.runs.iter().enumerate().map(|(i, run)| Tick { value: i as f64, says: words.run(&run.label) });
    plot.along(&places.collect::<Vec<_>>());
    plot.level(Stroke::Axis, 0.0);
    for limit in limits {
        plot.level(Stroke::Limit, limit);
    }
    let mut names = Vec::new();
    for (number, repeat) in found.repeats.iter().enumerate() {
        let aside = (number as f64 - (found.repeats.len() as f64 - 1.0) / 2.0) * 0.06;
        let points: Vec<(f64, f64)> = found
            .runs
            .iter()
            .enumerate()
            .filter_map(|(i, run)| Some((i as f64 + aside, run.percent.get(number).copied().flatten()?)))
            .collect();
        plot.line(Stroke::Series(number), &points);
        for (x, y) in &points {
            plot.mark(Mark::of(number), *x, *y);
        }
        names.extend(points.last().map(|(x, y)| (*x, *y, repeat_named(*repeat, words))));
    }
    plot.names(&names);
    let (size, paths, texts) = plot.drawn();
    Some(Figure {
        id: "runs".to_owned(),
        title: say!(words, "chart-runs"),
        says: said(&found, words),
        advice: Vec::new(),
        is_over_time: false,
        size,
        paths,
        texts,
        table: table(&found, words),
    })
}

fn percents(y: &Scale, words: Words) -> Vec<Tick> {
    let ticks = axis::numbers(y, 5, words).into_iter();
    ticks.map(|tick| Tick { says: signed(tick.value, &tick.says), ..tick }).collect()
}

fn signed(value: f64, says: &str) -> String {
    if value > 0.0 { format!("+{says}") } else { says.to_owned() }
}

fn percent(value: f64, words: Words) -> String {
    signed(value, &words.percent(value))
}

/// Lowest and highest, by their averages.
fn said(found: &RunComparison, words: Words) -> String {
    let by_mean = |a: &&runs::ComparedRun, b: &&runs::ComparedRun| a.mean_percent.total_cmp(&b.mean_percent);
    let extremes = found.runs.iter().min_by(by_mean).zip(found.runs.iter().max_by(by_mean));
    let compared = say!(words, "chart-runs-of", repeats = found.repeats.len(), runs = found.runs.len().to_string());
    let extremes = extremes.map(|(low, high)| {
        let of = |run: &runs::ComparedRun| (words.run(&run.label), percent(run.mean_percent, words));
        let ((low, low_off), (high, high_off)) = (of(low), of(high));
        say!(words, "chart-runs-extremes", low = low, low_off = low_off, high = high, high_off = high_off)
    });
    let sentences = [Some(compared), extremes, Some(say!(words, "chart-runs-limits"))];
    sentences.into_iter().flatten().collect::<Vec<_>>().join(" ")
}

fn repeat_named(repeat: usize, words: Words) -> String {
    say!(words, "chart-repeat", number = (repeat + 1).to_string())
}

fn table(found: &RunComparison, words: Words) -> Table {
    let repeats = found.repeats.iter().map(|repeat| Column::numbers(repeat_named(*repeat, words)));
    let columns = std::iter::once(Column::words(say!(words, "chart-column-run"))).chain(repeats).chain([
        Column::numbers(say!(words, "chart-column-average")),
        Column::words(say!(words, "chart-column-always")),
    ]);
    let row = |run: &runs::ComparedRun| {
        let each = run.percent.iter().map(|value| value.map_or_else(dash, |value| percent(value, words)));
        let always = match run.always {
            Some(Side::Low) => say!(words, "chart-always-low"),
            Some(Side::High) => say!(words, "chart-always-high"),
            None => String::new(),
        };
        let cells =
            std::iter::once(words.run(&run.label)).chain(each).chain([percent(run.mean_percent, words), always]);
        Row { href: None, cells: cells.collect() }
    };
    Table { columns: columns.collect(), rows: found.runs.iter().map(row).collect() }
}

fn dash() -> String {
    "\u{2013}".to_owned()
}
