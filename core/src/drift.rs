//! The usage chart: does what the fields took agree with what the factor promised?
//!
//! Each job gives x = ln(actual rate / target rate). The chart smooths them (EWMA) and holds the result against limits. It never
//! takes what the machine itself reports as sown: that is revolutions times the factor and cannot reveal a wrong one; whoever
//! gathers the jobs leaves those out. An implied factor is a hint, never a calibration.

use crate::policy::Policy;

/// x = ln(actual / target) of a job: `seed_used_kg` (kg) over `area_m2` (m²) against `target_rate` (kg/m²).
///
/// `None` if any of them is not positive and finite, or the ratio is not: such a job has no place on a logarithmic chart.
///
/// ```
/// // 2240 kg on 12.4 ha, where 180 kg/ha were wanted.
/// let x = sowmark_core::drift::log_ratio(2240.0, 124_000.0, 0.018).unwrap();
/// assert!((x - 0.003_577_8).abs() < 5e-8);
/// ```
pub fn log_ratio(seed_used_kg: f64, area_m2: f64, target_rate: f64) -> Option<f64> {
    let given = [seed_used_kg, area_m2, target_rate];
    // Of two that are below zero the ratio would look well; zeros and infinities have no finite logarithm.
    let usable = given.iter().all(|value| value.is_sign_positive());
    usable.then(|| (seed_used_kg / area_m2 / target_rate).ln()).filter(|x| x.is_finite())
}

/// The relative standard uncertainty of a job's x: `u² = (u_mass / mass)² + u_area²`.
///
/// `mass_uncertainty_kg` is what the seed used may be off by (kg): the policy's for a weighed balance, one bag for bags;
/// `area_uncertainty_percent` the policy's for the area.
pub fn relative_uncertainty(seed_used_kg: f64, mass_uncertainty_kg: f64, area_uncertainty_percent: f64) -> f64 {
    (mass_uncertainty_kg / seed_used_kg).hypot(area_uncertainty_percent / 100.0)
}

/// The exponentially weighted moving averages `z_t = lambda x_t + (1 - lambda) z_(t-1)`, `z_0 = start`, one for each x.
///
/// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4.
pub fn ewma(values: &[f64], lambda: f64, start: f64) -> Vec<f64> {
    let mut z = start;
    let smoothed = values.iter().map(|x| {
        z = lambda * x + (1.0 - lambda) * z;
        z
    });
    smoothed.collect()
}

/// The plain chart: every job counts the same.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chart {
    /// Weight of the newest job, above 0 up to 1.
    pub lambda: f64,
    /// Width of the limits in standard deviations.
    pub limit_width: f64,
    /// Standard deviation of a single x, as a share (0.03 for 3 %).
    pub sigma: f64,
}

/// A job on the plain chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// ln(actual / target).
    pub x: f64,
    /// The smoothed x.
    pub z: f64,
    /// The limit of z, above and below zero.
    pub limit: f64,
    /// Whether z is beyond its limit.
    pub out: bool,
}

impl Chart {
    /// The chart that the policy asks for.
    pub fn of_policy(policy: &Policy) -> Self {
        Self {
            lambda: policy.drift_lambda,
            limit_width: policy.drift_limit_width,
            sigma: policy.drift_sigma_percent / 100.0,
        }
    }

    /// Half the distance between the limits after each of `count` jobs:
    /// `L sigma sqrt(lambda / (2 - lambda) (1 - (1 - lambda)^(2t)))`, t = 1 for the first.
    ///
    /// The exact form, since a season has few jobs and the limits for endless charts would be too wide for the first ones.
    pub fn half_widths(&self, count: usize) -> Vec<f64> {
        let settled = self.lambda / (2.0 - self.lambda);
        let forgotten = (1.0 - self.lambda).powi(2);
        let mut remaining = 1.0;
        let widths = (0..count).map(|_| {
            remaining *= forgotten;
            self.limit_width * self.sigma * (settled * (1.0 - remaining)).sqrt()
        });
        widths.collect()
    }

    /// The chart of these x, oldest first, around zero.
    ///
    /// ```
    /// use sowmark_core::{drift::Chart, policy::Policy};
    ///
    /// // Every job 6 % over: with lambda 0.3, L 3 and sigma 3 % the chart is out of its limits at the third.
    /// let points = Chart::of_policy(&Policy::default()).points(&[0.06, 0.06, 0.06]);
    /// let out: Vec<bool> = points.iter().map(|point| point.out).collect();
    /// assert_eq!(out, [false, false, true]);
    /// ```
    pub fn points(&self, values: &[f64]) -> Vec<Point> {
        let limits = self.half_widths(values.len());
        let smoothed = ewma(values, self.lambda, 0.0);
        let points = values.iter().zip(smoothed).zip(limits);
        points.map(|((x, z), limit)| Point { x: *x, z, limit, out: z.abs() > limit }).collect()
    }
}

/// The weighted chart: a job whose seed or area is poorly known counts less.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeightedChart {
    /// Weight of the newest job among jobs known equally well, above 0 up to 1.
    pub lambda: f64,
    /// Width of the limits in standard uncertainties.
    pub limit_width: f64,
    /// Relative standard uncertainty that all the jobs share: the calibration's own. It does not average out.
    pub common: f64,
}

/// A job as the weighted chart takes it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outcome {
    /// ln(actual / target).
    pub x: f64,
    /// Its relative standard uncertainty, above zero.
    pub u: f64,
}

/// A job on the weighted chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeightedPoint {
    /// ln(actual / target) and its uncertainty.
    pub outcome: Outcome,
    /// The smoothed x.
    pub z: f64,
    /// The standard uncertainty of z from the jobs alone.
    pub u_z: f64,
    /// The limit of z, above and below zero, the common uncertainty included.
    pub limit: f64,
    /// Whether z is beyond its limit.
    pub out: bool,
}

impl WeightedChart {
    /// The chart of these jobs, oldest first.
    ///
    /// With `w = 1/u²`: `S = (1 - lambda) S + w x`, `W = (1 - lambda) W + w`, `V = (1 - lambda)² V + w`; `z = S / W`,
    /// `u_z = sqrt(V) / W`; limit `L sqrt(u_z² + common²)`. So z is the mean of all x with the weights
    /// `(1 - lambda)^(n-j) / u_j²`.
    pub fn points(&self, outcomes: &[Outcome]) -> Vec<WeightedPoint> {
        let keep = 1.0 - self.lambda;
        let (mut sum, mut weights, mut variance) = (0.0, 0.0, 0.0);
        let points = outcomes.iter().map(|outcome| {
            let weight = outcome.u.powi(-2);
            sum = keep * sum + weight * outcome.x;
            weights = keep * weights + weight;
            variance = keep * keep * variance + weight;
            let (z, u_z) = (sum / weights, variance.sqrt() / weights);
            let limit = self.limit_width * u_z.hypot(self.common);
            WeightedPoint { outcome: *outcome, z, u_z, limit, out: z.abs() > limit }
        });
        points.collect()
    }
}

/// A chart of cumulative sums (CUSUM): it finds a small, lasting shift sooner than single jobs show it, and tells its side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SumChart {
    /// What is wanted.
    pub target: f64,
    /// How far a value may lie off before it adds to a sum: half the shift that should be found, in the values' unit.
    pub slack: f64,
    /// How far a sum may go.
    pub limit: f64,
}

/// The sums after one value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sums {
    /// What has gathered above the target and its slack.
    pub above: f64,
    /// What has gathered below it.
    pub below: f64,
    /// Whether one of them is beyond its limit.
    pub out: bool,
}

impl SumChart {
    /// The sums after each value, oldest first: `above_t = max(0, above_(t-1) + x_t - target - k)` and
    /// `below_t = max(0, below_(t-1) + target - k - x_t)`, both zero at the start, k the slack.
    ///
    /// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3.
    ///
    /// ```
    /// use sowmark_core::drift::SumChart;
    ///
    /// // Every job takes 2 % more than it should; nothing below 1 % counts, and 4.5 % may gather.
    /// let sums = SumChart { target: 0.0, slack: 0.01, limit: 0.045 }.points(&[0.02; 5]);
    /// assert_eq!(sums.iter().position(|sum| sum.out), Some(4));
    /// assert!(sums.iter().all(|sum| sum.below == 0.0));
    /// ```
    pub fn points(&self, values: &[f64]) -> Vec<Sums> {
        let (mut above, mut below) = (0.0_f64, 0.0_f64);
        let sums = values.iter().map(|x| {
            above = (above + (x - self.target) - self.slack).max(0.0);
            below = (below + (self.target - x) - self.slack).max(0.0);
            Sums { above, below, out: above > self.limit || below > self.limit }
        });
        sums.collect()
    }
}

/// The factor that the jobs would imply: the machine delivers revolutions = target mass / factor, so it is factor x exp(z).
///
/// A hint of how far off the factor may be; the unit is caught again, this number is never keyed in.
pub fn implied_factor(factor: f64, z: f64) -> f64 {
    factor * z.exp()
}
