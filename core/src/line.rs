//! Straight lines through measured points: least squares with the uncertainty of everything that is read off the line.
//!
//! Ordinary (the scatter about the line tells how well the points are known), weighted (each point brings its own
//! uncertainty) and through the origin. Nothing here knows of seed; [`crate::speed`] does. What cannot be computed is
//! `None`, never a NaN.
//!
//! Sums are taken about the middle of the points, in two passes and in units of their own extent. The textbook's
//! `n sum(x²) - (sum x)²` is not used: it loses all digits for points far from zero (NIST StRD has sets made for that).

use crate::uncertainty::{Component, combine};

/// A fitted straight line.
///
/// ```
/// use sowmark_core::line::Line;
///
/// // GUM H.3: corrections of a thermometer against its reading less 20 degrees
/// let t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511];
/// let b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160];
/// let points: Vec<_> = t.iter().zip(b).map(|(t, b)| (t - 20.0, b)).collect();
/// let line = Line::ordinary(&points).unwrap();
/// assert!((line.intercept() - -0.171_203_790_131_350).abs() < 1e-12);
/// assert!((line.slope() - 0.002_182_697_739_887).abs() < 1e-12);
/// let at_30 = line.uncertainty_at(10.0).unwrap();
/// assert!((line.value_at(10.0) - -0.149_376_812_732_477).abs() < 1e-12);
/// assert!((at_30.standard_uncertainty - 0.004_138_595_752_855).abs() < 1e-12);
/// assert_eq!(at_30.degrees_of_freedom, Some(9.0));
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The first point, from which the middle is counted, so that it keeps its digits far from zero; or the origin.
    from: (f64, f64),
    /// What it goes through whatever its slope, from there: the weighted middle, or the origin.
    through: (f64, f64),
    slope: f64,
    /// The largest distance of an x from the first: the unit in which `spread` and the knots count.
    extent: f64,
    /// Sum of the weights; infinite where the middle is given (the origin).
    weight: f64,
    /// Weighted sum of squares of x about the middle, in units of the extent.
    spread: f64,
    /// (Weighted) sum of squares of the residuals.
    squares: f64,
    /// What share of the squares of y the line takes up.
    determination: Option<f64>,
    degrees_of_freedom: f64,
    known: Vec<Knot>,
}

/// A point of a weighted line, for what its own uncertainty does to the line.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Knot {
    /// From the middle, in units of the extent.
    x: f64,
    weight: f64,
    uncertainty: Component,
}

/// A point with its weight.
type Weighed = (f64, f64, f64);

impl Line {
    /// `y = a + b x` through (x, y), every point counting alike. `None` with fewer than two points, all at one x, or
    /// with numbers that no line can be computed of.
    ///
    /// Uncertainties come from the scatter about the line, `s² = sum of squared residuals / (n - 2)` with n - 2 degrees of
    /// freedom; two points have none, so the line through them has no uncertainty to show.
    pub fn ordinary(points: &[(f64, f64)]) -> Option<Self> {
        let weighed: Vec<Weighed> = points.iter().map(|&(x, y)| (x, y, 1.0)).collect();
        Self::about_the_middle(&weighed)
    }

    /// `y = b x` through (x, y), every point counting alike: `b = sum(x y) / sum(x²)`, n - 1 degrees of freedom.
    /// `None` without a point away from x = 0.
    ///
    /// Of mass against revolutions it is right where the scatter of a catch does not grow with its length (a scale's step,
    /// a hasty start and stop); [`ratio_of_sums`](crate::statistics::ratio_of_sums), where it grows with it.
    pub fn through_origin(points: &[(f64, f64)]) -> Option<Self> {
        let weighed: Vec<Weighed> = points.iter().map(|&(x, y)| (x, y, 1.0)).collect();
        Self::fit(&weighed, (0.0, 0.0), (0.0, 0.0), f64::INFINITY)
    }

    /// `y = a + b x` through (x, y, uncertainty of y), each point with the weight `1 / u²`. `None` as for [`Self::ordinary`],
    /// and where an uncertainty is not above zero.
    ///
    /// Uncertainties come from the points' own, each through its share of the result (GUM 5.1.2) and with the effective
    /// degrees of freedom of Welch and Satterthwaite. Whether the points scatter more than that is told by
    /// [`Self::birge_ratio`].
    pub fn weighted(points: &[(f64, f64, Component)]) -> Option<Self> {
        let least = points.iter().map(|(_, _, u)| u.standard_uncertainty).fold(f64::INFINITY, f64::min);
        // A zero or an infinite one makes its weight no number, and then there is no line.
        if least.is_sign_negative() {
            return None;
        }
        // Relative to the best known point, so that no weight is more than one.
        let weight = |u: &Component| (least / u.standard_uncertainty).powi(2);
        let weighed: Vec<Weighed> = points.iter().map(|(x, y, u)| (*x, *y, weight(u))).collect();
        let mut line = Self::about_the_middle(&weighed)?;
        line.squares = finite(line.squares / least / least)?;
        line.known = points
            .iter()
            .zip(weighed)
            .map(|((x, _, uncertainty), (.., weight))| Knot {
                x: line.beyond_the_middle(*x) / line.extent,
                weight,
                uncertainty: *uncertainty,
            })
            .collect();
        Some(line)
    }

    fn about_the_middle(points: &[Weighed]) -> Option<Self> {
        let &(from_x, from_y, _) = points.first()?;
        let near: Vec<Weighed> = points.iter().map(|&(x, y, w)| (x - from_x, y - from_y, w)).collect();
        let weight: f64 = near.iter().map(|(.., w)| w).sum();
        let along = |of: fn(&Weighed) -> f64| near.iter().map(|p| p.2 * of(p)).sum::<f64>() / weight;
        Self::fit(&near, (from_x, from_y), (along(|p| p.0), along(|p| p.1)), weight)
    }

    /// `points` are counted `from` there. Where all lie at one x the extent is zero, and the slope no number.
    fn fit(points: &[Weighed], from: (f64, f64), through: (f64, f64), weight: f64) -> Option<Self> {
        let (centre_x, centre_y) = through;
        let given = if weight.is_finite() { 2.0 } else { 1.0 };
        let extent = largest(points.iter().map(|(x, ..)| *x))?;
        let height = largest(points.iter().map(|(_, y, _)| *y))?;
        let height = if height > 0.0 { height } else { 1.0 };
        let near: Vec<Weighed> =
            points.iter().map(|&(x, y, w)| ((x - centre_x) / extent, (y - centre_y) / height, w)).collect();
        let sum = |term: fn(&Weighed) -> f64| near.iter().map(term).sum::<f64>();
        let spread = sum(|p| p.2 * p.0 * p.0);
        let slope = sum(|p| p.2 * p.0 * p.1) / spread;
        let residuals: f64 = near.iter().map(|(x, y, w)| w * (y - slope * x).powi(2)).sum();
        let all = sum(|p| p.2 * p.1 * p.1);
        Some(Self {
            from,
            through,
            slope: finite(slope * height / extent)?,
            extent,
            weight,
            spread: finite(spread)?,
            squares: finite(residuals * height * height)?,
            determination: (all > 0.0).then(|| (1.0 - residuals / all).clamp(0.0, 1.0)),
            degrees_of_freedom: near.len() as f64 - given,
            known: Vec::new(),
        })
    }

    /// `b`: how much y grows where x grows by one.
    pub fn slope(&self) -> f64 {
        self.slope
    }

    /// `a`: y where x is zero.
    pub fn intercept(&self) -> f64 {
        self.value_at(0.0)
    }

    /// `a + b x`.
    pub fn value_at(&self, x: f64) -> f64 {
        self.from.1 + self.through.1 + self.slope * self.beyond_the_middle(x)
    }

    fn beyond_the_middle(&self, x: f64) -> f64 {
        x - self.from.0 - self.through.0
    }

    /// The standard uncertainty of the slope; `None` where nothing tells it (two points of an ordinary line).
    pub fn slope_uncertainty(&self) -> Option<Component> {
        self.uncertainty(0.0, self.extent.recip())
    }

    /// The standard uncertainty of the intercept.
    pub fn intercept_uncertainty(&self) -> Option<Component> {
        self.uncertainty_at(0.0)
    }

    /// The standard uncertainty of the line at x (where the line is, not where a next point would lie).
    pub fn uncertainty_at(&self, x: f64) -> Option<Component> {
        self.uncertainty(1.0, self.beyond_the_middle(x) / self.extent)
    }

    /// Of `level` times the height of the middle plus `turn` times the slope per extent.
    fn uncertainty(&self, level: f64, turn: f64) -> Option<Component> {
        let found = if self.known.is_empty() {
            let lever = (level * level / self.weight + turn * turn / self.spread).sqrt();
            Component::estimated(self.scatter()? * lever, self.degrees_of_freedom)
        } else {
            let share = |knot: &Knot| {
                let sensitivity = knot.weight * (level / self.weight + turn * knot.x / self.spread);
                knot.uncertainty.times(sensitivity)
            };
            combine(&self.known.iter().map(share).collect::<Vec<_>>())
        };
        found.standard_uncertainty.is_finite().then_some(found)
    }

    /// The correlation of intercept and slope: far from x = 0 a steeper line starts lower. `None` through the origin.
    pub fn correlation(&self) -> Option<f64> {
        let middle = -self.beyond_the_middle(0.0) / self.extent;
        let rest = self.spread / self.weight;
        (self.weight.is_finite()).then(|| -middle / (middle * middle + rest).sqrt()).and_then(finite)
    }

    /// The scatter of the points about the line, `s = sqrt(sum of squares / degrees of freedom)`; of a weighted line in units
    /// of the points' own uncertainty. `None` with as few points as the line has freedoms.
    pub fn scatter(&self) -> Option<f64> {
        (self.degrees_of_freedom > 0.0).then(|| (self.squares / self.degrees_of_freedom).sqrt())
    }

    /// Sum of the squared residuals; of a weighted line each over the point's variance (chi-squared).
    pub fn sum_of_squares(&self) -> f64 {
        self.squares
    }

    /// Points less what the line took from them: n - 2, through the origin n - 1.
    pub fn degrees_of_freedom(&self) -> f64 {
        self.degrees_of_freedom
    }

    /// Which share of the (weighted) squares of y, about the middle or the origin, the line takes up: R², from 0 to 1. `None`
    /// where all y are alike.
    pub fn determination(&self) -> Option<f64> {
        self.determination
    }

    /// How many times more the points of a weighted line scatter than their uncertainties let expect: `sqrt(chi² / (n - 2))`.
    /// `None` of another line, or of two points.
    pub fn birge_ratio(&self) -> Option<f64> {
        self.scatter().filter(|_| !self.known.is_empty())
    }
}

/// The largest size among them; `None` of none, or if one is no number.
fn largest(values: impl Iterator<Item = f64>) -> Option<f64> {
    values.map(|value| finite(value.abs())).try_fold(0.0, |most, size| Some(f64::max(most, size?)))
}

fn finite(value: f64) -> Option<f64> {
    value.is_finite().then_some(value)
}
