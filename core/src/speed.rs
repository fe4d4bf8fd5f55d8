//! Whether the factor depends on the roller speed: calibrations of one unit, roller and lot at different speeds.
//!
//! One method for two speeds and for many: a straight line of the factor over the roller speed, each calibration
//! weighted by its own uncertainty ([`Line::weighted`]). Of two calibrations that is their difference with the uncertainties
//! of both. Rejected: a line with the points' scatter alone for its uncertainty, which three calibrations at three
//! speeds know with a single degree of freedom. Where the points scatter more than their uncertainties let expect, the
//! excess is a component of its own, with n - 2 degrees of freedom.
//!
//! The error of the scale is common to catches weighed on one scale: it makes all factors too large or too small by the
//! same share and says nothing about speed, so it is left out. Only where different scales were used, or none was
//! named, does it come in.
//!
//! The line stays within the speeds that were caught. Who needs a number for another speed catches there.

use crate::{
    ids::ScaleId,
    line::Line,
    say,
    uncertainty::{
        Component,
        budget::{BudgetLine, BudgetTerm, LEVEL},
        combine,
    },
    words::Words,
};

/// Speeds that differ by no more than this share count as one: a drive does not hold its speed much nearer than that
/// (a judgement).
pub const SAME_SPEED: f64 = 0.05;

/// A calibration at a roller speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpeedPoint {
    /// Roller speed, 1/min.
    pub rpm: f64,
    /// Meter factor, kg per revolution per run.
    pub factor: f64,
    /// Its standard uncertainty without the scale's error, kg per revolution per run.
    pub own: Component,
    /// The standard uncertainty from the scale's error, kg per revolution per run.
    pub from_scale: Component,
    /// The scale it was weighed on, where named.
    pub scale: Option<ScaleId>,
}

impl SpeedPoint {
    /// From a calibration's factor and its budget, whose line for the scale's error is kept apart.
    pub fn of_budget(rpm: f64, factor: f64, budget: &[BudgetLine], scale: Option<ScaleId>) -> Self {
        let part = |line: &BudgetLine| Component {
            standard_uncertainty: factor * line.relative_standard_uncertainty_percent / 100.0,
            degrees_of_freedom: line.degrees_of_freedom,
        };
        let of = |scales: bool| {
            let lines = budget.iter().filter(|line| (line.term == BudgetTerm::Scale) == scales);
            combine(&lines.map(part).collect::<Vec<_>>())
        };
        Self { rpm, factor, own: of(false), from_scale: of(true), scale }
    }
}

/// How the factor depends on the roller speed, as far as the calibrations tell.
#[derive(Clone, Debug, PartialEq)]
pub struct SpeedDependence {
    /// The calibrations, slowest first.
    pub points: Vec<SpeedPoint>,
    /// Distinct speeds among them: two or more.
    pub speeds: usize,
    /// The line through them.
    pub line: Line,
    /// All were weighed on one scale, whose error was therefore left out.
    pub one_scale: bool,
    /// Factor at the fastest less at the slowest speed, on the line, kg per revolution per run.
    pub change: f64,
    /// The same as a share of the factor at the slowest speed.
    pub change_percent: f64,
    /// The standard uncertainty of the change, kg per revolution per run.
    pub change_uncertainty: Component,
    /// U of the change at 95 %, as a share of the factor at the slowest speed.
    pub expanded_percent: f64,
    /// The change exceeds its expanded uncertainty.
    pub differs: bool,
}

/// The dependence of the factor on the roller speed. `None` with fewer than two distinct speeds ([`SAME_SPEED`]), or with
/// numbers that no line can be computed of (an uncertainty of zero among them).
///
/// ```
/// use sowmark_core::{speed::{SpeedPoint, dependence}, uncertainty::Component, words::Words};
///
/// let caught_at = |rpm, factor| SpeedPoint {
///     rpm,
///     factor,
///     own: Component::estimated(0.01 * factor, 11.0),
///     from_scale: Component::known(0.0029 * factor),
///     scale: Some(uuid::Uuid::nil().into()),
/// };
/// let found = dependence(&[caught_at(30.0, 0.0300), caught_at(90.0, 0.0280)]).unwrap();
/// assert!(found.differs);
/// assert_eq!(
///     found.says(Words::default()),
///     "From 30.0 to 90.0 rpm the factor falls by 6.7 % (± 2.8 %, 95 %): catch at the roller speed that you will sow at."
/// );
/// assert_eq!(dependence(&[caught_at(30.0, 0.0300), caught_at(31.0, 0.0280)]), None);
/// ```
pub fn dependence(points: &[SpeedPoint]) -> Option<SpeedDependence> {
    let mut points = points.to_vec();
    points.sort_by(|a, b| a.rpm.total_cmp(&b.rpm));
    let (slowest, fastest) = (points.first()?.rpm, points.last()?.rpm);
    let speeds = distinct(&points);
    if speeds < 2 || slowest <= 0.0 {
        return None;
    }
    let one_scale = points.iter().all(|point| point.scale.is_some() && point.scale == points[0].scale);
    let known = |point: &SpeedPoint| {
        let whole = if one_scale { point.own } else { combine(&[point.own, point.from_scale]) };
        (point.rpm, point.factor, whole)
    };
    let line = Line::weighted(&points.iter().map(known).collect::<Vec<_>>())?;
    let at_slowest = line.value_at(slowest);
    let change = line.slope() * (fastest - slowest);
    let change_uncertainty = with_excess(line.slope_uncertainty()?.times(fastest - slowest), &line);
    let expanded = change_uncertainty.expanded(LEVEL)?;
    let percent = |value: f64| {
        Some(100.0 * value / at_slowest).filter(|share| at_slowest.is_sign_positive() && share.is_finite())
    };
    Some(SpeedDependence {
        change_percent: percent(change)?,
        expanded_percent: percent(expanded)?,
        points,
        speeds,
        line,
        one_scale,
        change,
        change_uncertainty,
        differs: change.abs() > expanded,
    })
}

/// How many speeds there are among points in order, those within [`SAME_SPEED`] of the slowest of them taken together.
fn distinct(points: &[SpeedPoint]) -> usize {
    let mut speeds = 0;
    let mut from = f64::NEG_INFINITY;
    for point in points.iter().filter(|point| point.rpm.is_finite()) {
        if speeds == 0 || point.rpm > from * (1.0 + SAME_SPEED) {
            speeds += 1;
            from = point.rpm;
        }
    }
    speeds
}

/// With what the points scatter beyond their uncertainties: `u² + (B² - 1) u²`, B the Birge ratio, the second with n - 2
/// degrees of freedom. Nothing is taken off where they scatter less.
fn with_excess(expected: Component, line: &Line) -> Component {
    let excess = line.birge_ratio().map_or(0.0, |ratio| (ratio * ratio - 1.0).max(0.0).sqrt());
    if excess > 0.0 {
        let beyond = Component::estimated(expected.standard_uncertainty * excess, line.degrees_of_freedom());
        combine(&[expected, beyond])
    } else {
        expected
    }
}

impl SpeedDependence {
    /// The slowest speed caught, 1/min.
    pub fn slowest_rpm(&self) -> f64 {
        self.points.first().map_or(f64::NAN, |point| point.rpm)
    }

    /// The fastest speed caught, 1/min.
    pub fn fastest_rpm(&self) -> f64 {
        self.points.last().map_or(f64::NAN, |point| point.rpm)
    }

    /// The line's factor at a roller speed and its U at 95 %, both kg per revolution per run; `None` outside the speeds
    /// caught. For looking at: the number to key in is a calibration's.
    pub fn band_at(&self, rpm: f64) -> Option<(f64, f64)> {
        if !(self.slowest_rpm()..=self.fastest_rpm()).contains(&rpm) {
            return None;
        }
        let uncertainty = with_excess(self.line.uncertainty_at(rpm)?, &self.line);
        Some((self.line.value_at(rpm), uncertainty.expanded(LEVEL)?))
    }

    /// What was found, as a sentence, with the advice that follows.
    pub fn says(&self, words: Words) -> String {
        let (from, to) = (words.number(self.slowest_rpm(), 3), words.rpm(self.fastest_rpm()));
        let (size, within) = (words.percent(self.change_percent.abs()), words.percent(self.expanded_percent));
        if self.differs {
            let direction = if self.change.is_sign_negative() { "falls" } else { "rises" };
            say!(words, "speed-differs", from = from, to = to, size = size, within = within, direction = direction)
        } else {
            say!(words, "speed-not-shown", from = from, to = to, size = size, within = within)
        }
    }
}
