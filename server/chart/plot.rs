//! A drawing with an x and a y scale: grid, lines, marks, bars, bands and labels, in the order in which they are put on.

use super::axis::Tick;
use super::figure::{Path, Text};
use super::label;
use super::scale::Scale;
use std::fmt::Write;

/// How a line or band is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stroke {
    /// Of a series, by its number.
    Series(usize),
    /// A limit: dashed.
    Limit,
    /// A zero or mean line.
    Axis,
}

impl Stroke {
    fn class(self) -> &'static str {
        match self {
            Self::Series(number) => ["series", "series-2", "series-3"][number % 3],
            Self::Limit => "limit",
            Self::Axis => "axis",
        }
    }
}

/// How a point is drawn: the shape tells series apart without colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mark {
    /// The number of its series.
    pub series: usize,
    /// Drawn hollow: it does not count (yet).
    pub hollow: bool,
}

impl Mark {
    /// A point of a series.
    #[must_use]
    pub fn of(series: usize) -> Self {
        Self { series, hollow: false }
    }

    fn class(self) -> &'static str {
        let solid = ["point", "point-2", "point-3"];
        let hollow = ["point hollow", "point-2 hollow", "point-3 hollow"];
        if self.hollow { hollow[self.series % 3] } else { solid[self.series % 3] }
    }

    /// Circle, square, diamond, triangle.
    fn shape(self, x: f64, y: f64) -> String {
        match self.series % 4 {
            0 => {
                format!("M{} {}a5 5 0 1 0 10 0a5 5 0 1 0 -10 0z", place(x - 5.0), place(y))
            }
            1 => format!("M{} {}h9v9h-9z", place(x - 4.5), place(y - 4.5)),
            2 => format!("M{} {}l6 6l-6 6l-6 -6z", place(x), place(y - 6.0)),
            _ => format!("M{} {}l6 10.4h-12z", place(x), place(y - 6.5)),
        }
    }
}

/// A drawing in the making.
#[derive(Clone, Debug)]
pub struct Plot {
    x: Scale,
    y: Scale,
    frame: Frame,
    paths: Vec<Path>,
    texts: Vec<Text>,
    /// Where points are.
    marks: Vec<(f64, f64)>,
}

/// The room of a drawing: the paper, and the part of it that the scales cover.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Width of the paper.
    pub width: f64,
    /// Height of the paper.
    pub height: f64,
    /// Where the scales begin and end.
    pub left: f64,
    /// The right end.
    pub right: f64,
    /// The upper end.
    pub top: f64,
    /// The lower end.
    pub bottom: f64,
}

impl Frame {
    /// A wide, low drawing with room for labels of series at its right.
    pub const WIDE: Self = Self { width: 720.0, height: 264.0, left: 56.0, right: 560.0, top: 44.0, bottom: 232.0 };
    /// One without.
    pub const PLAIN: Self = Self { width: 720.0, height: 232.0, left: 56.0, right: 704.0, top: 16.0, bottom: 196.0 };
}

impl Plot {
    /// An empty drawing. The scales are to cover the frame.
    #[must_use]
    pub fn new(frame: Frame, x: Scale, y: Scale) -> Self {
        Self { x, y, frame, paths: Vec::new(), texts: Vec::new(), marks: Vec::new() }
    }

    /// Lines across at these values, each with what it says at its left.
    pub fn across(&mut self, ticks: &[Tick]) {
        let mut d = String::new();
        for tick in ticks {
            let Some(y) = self.y.at(tick.value) else { continue };
            add(&mut d, format_args!("M{} {}H{}", place(self.frame.left), crisp(y), place(self.frame.right)));
            self.text("chart-tick", (self.frame.left - 8.0, y + 4.5), "end", tick.says.clone());
        }
        self.path("grid", d);
    }

    /// The line along the bottom, with ticks at these values and what each says.
    pub fn along(&mut self, ticks: &[Tick]) {
        let Frame { left, right, bottom, .. } = self.frame;
        let mut d = format!("M{} {}H{}", place(left), crisp(bottom), place(right));
        let mut free_from = f64::NEG_INFINITY;
        for tick in ticks {
            let Some(x) = self.x.at(tick.value) else { continue };
            add(&mut d, format_args!("M{} {}v5", crisp(x), place(bottom)));
            let half = tick.says.chars().count() as f64 * label::CHARACTER / 2.0;
            if x - half > free_from {
                self.text("chart-tick", (x, bottom + 20.0), "middle", tick.says.clone());
                free_from = x + half;
            }
        }
        self.path("axis", d);
    }

    /// What the x axis counts, below its right end.
    pub fn x_says(&mut self, says: &str) {
        self.text("chart-tick", (self.frame.right, self.frame.bottom + 34.0), "end", says.to_owned());
    }

    /// A line through points, in their order.
    pub fn line(&mut self, stroke: Stroke, points: &[(f64, f64)]) {
        let placed: Vec<(f64, f64)> = points.iter().filter_map(|&(x, y)| self.placed(x, y)).collect();
        if placed.len() < 2 {
            return;
        }
        let mut d = String::new();
        for (i, (x, y)) in placed.iter().enumerate() {
            add(&mut d, format_args!("{}{} {}", if i == 0 { "M" } else { "L" }, place(*x), place(*y)));
        }
        self.path(stroke.class(), d);
    }

    /// A line across the whole drawing at a value.
    pub fn level(&mut self, stroke: Stroke, value: f64) {
        if let Some(y) = self.y.at(value) {
            let d = format!("M{} {}H{}", place(self.frame.left), crisp(y), place(self.frame.right));
            self.path(stroke.class(), d);
        }
    }

    /// A point.
    pub fn mark(&mut self, mark: Mark, x: f64, y: f64) {
        if let Some((x, y)) = self.placed(x, y) {
            self.path(mark.class(), mark.shape(x, y));
            self.marks.push((x, y));
        }
    }

    /// From `low` to `high` at x, with short ends.
    pub fn bar(&mut self, x: f64, low: f64, high: f64) {
        if let (Some((x, below)), Some(above)) = (self.placed(x, low), self.y.at(high)) {
            let d = format!(
                "M{x} {above}V{below}M{left} {above}h10M{left} {below}h10",
                x = place(x),
                above = place(above),
                below = place(below),
                left = place(x - 5.0)
            );
            self.path("error-bar", d);
        }
    }

    /// Between a lower and an upper line: (x, low, high).
    pub fn band(&mut self, edges: &[(f64, f64, f64)]) {
        let upper = edges.iter().filter_map(|&(x, _, high)| self.placed(x, high));
        let lower = edges.iter().rev().filter_map(|&(x, low, _)| self.placed(x, low));
        let around: Vec<(f64, f64)> = upper.chain(lower).collect();
        if around.len() < 3 {
            return;
        }
        let mut d = String::new();
        for (i, (x, y)) in around.iter().enumerate() {
            add(&mut d, format_args!("{}{} {}", if i == 0 { "M" } else { "L" }, place(*x), place(*y)));
        }
        d.push('Z');
        self.path("band", d);
    }

    /// Names at the right end, each beside its line's last point (x, y) and led to it, as near as the others leave room.
    pub fn names(&mut self, names: &[(f64, f64, String)]) {
        let known: Vec<((f64, f64), &String)> =
            names.iter().filter_map(|(x, y, says)| Some((self.placed(*x, *y)?, says))).collect();
        let wanted: Vec<f64> = known.iter().map(|((_, y), _)| *y).collect();
        let places = label::apart(&wanted, self.frame.top, self.frame.bottom);
        let from = self.frame.right + 14.0;
        let room = (self.frame.width - from) * label::CHARACTER / label::wide("m");
        let mut d = String::new();
        for (y, ((point, height), says)) in places.into_iter().zip(known) {
            add(&mut d, format_args!("M{} {}", place(point + 7.0), place(height)));
            add(&mut d, format_args!("L{} {}", place(from - 4.0), place(y)));
            self.text("chart-label", (from, y + 4.5), "start", label::within(says, room));
        }
        self.path("leader", d);
    }

    /// Names beside points, each as near to its own as marks and other names leave room, all of them on the paper: near the
    /// right end a name stands before its point.
    pub fn names_at(&mut self, names: &[(f64, f64, String)]) {
        let mut named = Vec::new();
        for (x, y, says) in names {
            let Some((x, y)) = self.placed(*x, *y) else { continue };
            let (before, behind) = (x - 10.0 - self.frame.left, self.frame.width - x - 10.0);
            let is_before = label::wide(says) > behind && before > behind;
            let room = if is_before { before } else { behind };
            let says = label::within(says, room * label::CHARACTER / label::wide("m"));
            let wide = label::wide(&says);
            let from = if is_before { x - 10.0 - wide } else { x + 10.0 };
            named.push(((x, y), label::Room { from, to: from + wide, at: y }, is_before, says));
        }
        let rooms: Vec<label::Room> = named.iter().map(|(_, room, ..)| *room).collect();
        let places = label::beside(&rooms, &self.marks, (self.frame.top, self.frame.bottom));
        let mut d = String::new();
        for ((point, room, is_before, says), y) in named.into_iter().zip(places) {
            let (x, anchor) = if is_before { (room.to, "end") } else { (room.from, "start") };
            // One that had to give way is led back to its point.
            if (y - room.at).abs() > label::LINE {
                add(&mut d, format_args!("M{} {}L{} {}", place(point.0), place(point.1), place(x), place(y)));
            }
            self.text("chart-label", (x, y + 4.5), anchor, says);
        }
        self.path("leader", d);
    }

    /// Ticks from the top at these values, each with what it says where there is room for it, in two rows.
    pub fn events(&mut self, events: &[(f64, String)]) {
        let Frame { width, left, bottom, top, .. } = self.frame;
        let inside = |value: f64| (self.x.low()..=self.x.high()).contains(&value);
        let placed = events.iter().filter(|(value, _)| inside(*value));
        let known: Vec<(f64, bool, String)> = placed
            .filter_map(|(value, says)| {
                let x = self.x.at(*value)?;
                // Near the right end it stands before its tick.
                let (before, behind) = (x - left - 5.0, width - x - 5.0);
                let is_before = label::wide(says) > behind && before > behind;
                Some((x, is_before, label::within(says, if is_before { before } else { behind })))
            })
            .collect();
        let room = |(x, is_before, says): &(f64, bool, String)| {
            let wide = label::wide(says);
            if *is_before { (x - 5.0 - wide, x - 5.0) } else { (x + 5.0, x + 5.0 + wide) }
        };
        let rows = label::in_rows(&known.iter().map(room).collect::<Vec<_>>(), 2);
        let mut d = String::new();
        let mut texts = Vec::new();
        for ((x, is_before, says), row) in known.into_iter().zip(rows) {
            let from = row.map_or(top, |row| top - 26.0 + 16.0 * row as f64);
            let to = if row.is_some() { bottom } else { top + 8.0 };
            add(&mut d, format_args!("M{} {}V{}", crisp(x), place(from), place(to)));
            if row.is_some() {
                texts.push((x, from, is_before, says));
            }
        }
        self.path("event", d);
        for (x, y, is_before, says) in texts {
            let (x, anchor) = if is_before { (x - 5.0, "end") } else { (x + 5.0, "start") };
            self.text("chart-note", (x, y + 4.5), anchor, says);
        }
    }

    /// A text at a value.
    pub fn note(&mut self, x: f64, y: f64, says: &str) {
        if let Some((x, y)) = self.placed(x, y) {
            self.text("chart-note", (x + 8.0, y - 6.0), "start", says.to_owned());
        }
    }

    /// What was drawn: the size of the paper, paths, texts.
    #[must_use]
    pub fn drawn(self) -> ((f64, f64), Vec<Path>, Vec<Text>) {
        ((self.frame.width, self.frame.height), self.paths, self.texts)
    }

    fn placed(&self, x: f64, y: f64) -> Option<(f64, f64)> {
        self.x.at(x).zip(self.y.at(y))
    }

    fn path(&mut self, class: &'static str, d: String) {
        if !d.is_empty() {
            self.paths.push(Path { class, d });
        }
    }

    fn text(&mut self, class: &'static str, (x, y): (f64, f64), anchor: &'static str, says: String) {
        self.texts.push(Text { class, x: place(x), y: place(y), anchor, says });
    }
}

/// A tenth of a unit is finer than any printer.
fn place(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map(str::to_owned).unwrap_or(text)
}

/// On the middle of a pixel, so that a line of one unit is drawn as one.
fn crisp(value: f64) -> String {
    format!("{:.1}", value.floor() + 0.5)
}

fn add(path: &mut String, part: std::fmt::Arguments<'_>) {
    // Writing to a String cannot fail.
    let _ = path.write_fmt(part);
}
