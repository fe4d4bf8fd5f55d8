//! Figures that can be so and hardly are: a digit too many, a decimal sign in the wrong place.
//!
//! What cannot be so is refused when it is entered. What is told here was stored as it was sent and is judged like all else;
//! it puts a question to whoever reads the record and can look. Every figure stands beside one that it should be near, both
//! in the same unit; where either is nothing, or no number, there is nothing to compare.
//!
//! ```
//! use sowmark_core::{unlikely, words::Words};
//!
//! // 124 ha on a field of 12.4
//! let doubt = unlikely::job_area(1_240_000.0, 124_000.0).unwrap();
//! assert_eq!(doubt.says(Words::default(), "124 ha", "12.4 ha"), "124 ha is 10 times the field’s 12.4 ha. A slip?");
//! // headlands sown twice, or a field measured along its hedge
//! assert_eq!(unlikely::job_area(130_000.0, 124_000.0), None);
//! ```

use crate::{quantity::print_number, say, words::Words};

/// So many times its field's area a job may have: overlaps and a field that is known only roughly. (Ours, no source.)
pub const AREA: f64 = 1.1;
/// So many times its target, or that part of it, makes the rate of a job unlikely: a wrong factor alone is hardly that far
/// off. (Ours, no source.)
pub const RATE: f64 = 2.0;
/// So many times an earlier test, or that part of it, makes a lot's thousand-seed weight or bulk density unlikely: samples of
/// one lot differ by some percent. (Ours, no source.)
pub const TEST: f64 = 1.5;
/// So many times all that came in of its lot a fill may have: a delivery note and a weighing differ by less. (Ours, no source.)
pub const FILL: f64 = 1.1;

/// Which figure it is, and what it should be near.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum What {
    /// The area of a job: its field's.
    JobArea,
    /// The rate that a job came to: its target.
    JobRate,
    /// The thousand-seed weight of a lot: that of the test before.
    SeedWeight,
    /// The bulk density of a lot: that of the test before.
    BulkDensity,
    /// The mass of a fill: all that had come in of its lot.
    Fill,
}

/// A figure that is far from what it should be near.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unlikely {
    /// Which one.
    pub what: What,
    /// The figure / what it should be near.
    pub ratio: f64,
}

impl Unlikely {
    /// The question, with the figure and what it should be near as the reader reads them.
    pub fn says(self, words: Words, figure: &str, near: &str) -> String {
        let times = words.trimmed(&print_number(self.ratio.max(1.0 / self.ratio), 2));
        let side = if self.ratio < 1.0 { "below" } else { "above" };
        match self.what {
            What::JobArea => say!(words, "unlikely-job-area", area = figure, times = times, field = near),
            What::JobRate => say!(words, "unlikely-job-rate", side = side, rate = figure, times = times, target = near),
            What::SeedWeight => {
                say!(words, "unlikely-seed-weight", side = side, found = figure, times = times, before = near)
            }
            What::BulkDensity => {
                say!(words, "unlikely-bulk-density", side = side, found = figure, times = times, before = near)
            }
            What::Fill => say!(words, "unlikely-fill", mass = figure, came = near),
        }
    }
}

/// The area of one job against that of its field.
///
/// ```
/// use sowmark_core::unlikely::job_area;
///
/// assert_eq!(job_area(110_000.0, 100_000.0), None);
/// assert_eq!(job_area(111_000.0, 100_000.0).unwrap().ratio, 1.11);
/// // a part of the field
/// assert_eq!(job_area(10_000.0, 100_000.0), None);
/// ```
pub fn job_area(area_m2: f64, field_m2: f64) -> Option<Unlikely> {
    unlikely(What::JobArea, area_m2, field_m2, |ratio| ratio > AREA)
}

/// The rate (kg/m²) that a job came to against its target, however its seed is known.
///
/// ```
/// use sowmark_core::unlikely::job_rate;
///
/// // 22 400 kg on 12.4 ha where 180 kg/ha were wanted
/// assert!(job_rate(22_400.0 / 124_000.0, 0.018).is_some());
/// assert_eq!(job_rate(2_240.0 / 124_000.0, 0.018), None);
/// ```
pub fn job_rate(rate: f64, target: f64) -> Option<Unlikely> {
    unlikely(What::JobRate, rate, target, |ratio| is_far(ratio, RATE))
}

/// A thousand-seed weight (g) against that of the test before.
///
/// ```
/// use sowmark_core::unlikely::seed_weight;
///
/// assert!(seed_weight(4.5, 45.0).is_some() && seed_weight(450.0, 45.0).is_some());
/// assert_eq!(seed_weight(47.0, 45.0), None);
/// ```
pub fn seed_weight(g: f64, before_g: f64) -> Option<Unlikely> {
    unlikely(What::SeedWeight, g, before_g, |ratio| is_far(ratio, TEST))
}

/// A bulk density (kg/m³) against that of the test before.
///
/// ```
/// use sowmark_core::unlikely::bulk_density;
///
/// assert!(bulk_density(78.0, 780.0).is_some());
/// assert_eq!(bulk_density(760.0, 780.0), None);
/// ```
pub fn bulk_density(density: f64, before: f64) -> Option<Unlikely> {
    unlikely(What::BulkDensity, density, before, |ratio| is_far(ratio, TEST))
}

/// A fill against all that had come in of its lot, both in kg.
///
/// ```
/// use sowmark_core::unlikely::fill;
///
/// assert!(fill(24_000.0, 4_000.0).is_some());
/// assert_eq!(fill(2_400.0, 4_000.0), None);
/// // nothing came in yet: the delivery is not recorded
/// assert_eq!(fill(2_400.0, 0.0), None);
/// ```
pub fn fill(kg: f64, came_in_kg: f64) -> Option<Unlikely> {
    unlikely(What::Fill, kg, came_in_kg, |ratio| ratio > FILL)
}

fn unlikely(what: What, figure: f64, near: f64, is_unlikely: impl Fn(f64) -> bool) -> Option<Unlikely> {
    let ratio = figure / near;
    let is_known = figure > 0.0 && near > 0.0 && ratio.is_finite() && ratio > 0.0;
    (is_known && is_unlikely(ratio)).then_some(Unlikely { what, ratio })
}

/// Whether one is at least so many times the other.
fn is_far(ratio: f64, times: f64) -> bool {
    ratio >= times || ratio <= 1.0 / times
}

#[cfg(test)]
mod tests {
    use super::{What, bulk_density, fill, job_area, job_rate, seed_weight};
    use crate::words::{DecimalSign, Words};

    #[test]
    fn each_begins_at_its_limit() {
        // more than 1.1 times the field
        assert_eq!([110_000.0, 110_001.0].map(|m2| job_area(m2, 100_000.0).is_some()), [false, true]);
        // twice the target, half of it
        let rates = [0.008_999, 0.009, 0.009_001, 0.018, 0.035_999, 0.036];
        assert_eq!(rates.map(|rate| job_rate(rate, 0.018).is_some()), [true, true, false, false, false, true]);
        // half as much again, two thirds
        for test in [seed_weight, bulk_density] {
            let found = [29.99, 30.0, 30.01, 45.0, 67.49, 67.5];
            assert_eq!(found.map(|found| test(found, 45.0).is_some()), [true, true, false, false, false, true]);
        }
        assert_eq!([4_400.0, 4_401.0].map(|kg| fill(kg, 4_000.0).is_some()), [false, true]);
    }

    #[test]
    fn nothing_is_compared_with_nothing() {
        for compared in [job_area, job_rate, seed_weight, bulk_density, fill] {
            for none in [0.0, -1.0, f64::NAN, f64::INFINITY, f64::MIN_POSITIVE] {
                assert!(compared(none, none).is_none());
            }
            for (figure, near) in [(1.0, 0.0), (0.0, 1.0), (1.0, f64::INFINITY), (f64::MAX, f64::MIN_POSITIVE)] {
                assert!(compared(figure, near).is_none());
            }
        }
    }

    #[test]
    fn the_larger_is_so_many_times_the_smaller() {
        let words = Words { decimal: DecimalSign::Comma, ..Words::default() };
        let low = job_rate(0.001_8, 0.018).unwrap();
        assert_eq!(low.what, What::JobRate);
        assert_eq!(
            low.says(words, "18,0 kg/ha", "180 kg/ha"),
            "The target of 180 kg/ha is 10 times the 18,0 kg/ha sown. A slip?"
        );
        let high = job_rate(0.045, 0.018).unwrap();
        assert_eq!(
            high.says(words, "450 kg/ha", "180 kg/ha"),
            "450 kg/ha sown is 2,5 times the target of 180 kg/ha. A slip?"
        );
        assert_eq!(
            job_rate(0.036, 0.018).unwrap().says(words, "360 kg/ha", "180 kg/ha"),
            "360 kg/ha sown is 2 times the target of 180 kg/ha. A slip?"
        );
        assert_eq!(
            seed_weight(4.5, 45.0).unwrap().says(words, "4,5 g", "45 g"),
            "4,5 g per thousand seeds: the test before found 45 g, 10 times as much. A slip?"
        );
        assert_eq!(
            bulk_density(1_209.0, 780.0).unwrap().says(words, "120,9 kg/hL", "78 kg/hL"),
            "120,9 kg/hL is 1,6 times the 78 kg/hL of the test before. A slip?"
        );
        assert_eq!(
            fill(24_000.0, 4_000.0).unwrap().says(words, "24 000 kg", "4000 kg"),
            "24 000 kg is more than the 4000 kg that had come in of this lot. A slip?"
        );
    }
}
