//! What the shares on a label can be together.

use crate::quantity::Decimal;

/// The sum of parts of one mass, in percent, where it is more than the whole: pure seed, seed of other crops, weed seed and
/// inert matter are what a purity analysis parts a sample into, and a label states each (7 CFR 201.14 to 201.19 by their
/// titles). None where they fit.
///
/// Each part is rounded by up to half a unit of its last digit, so the sum may be beyond 100 % by as much.
///
/// ```
/// use sowmark_core::{quantity::Decimal, seed::beyond_whole};
///
/// let label = |shares: &[&str]| shares.iter().map(|share| Decimal::parse(share)).collect::<Result<Vec<_>, _>>();
/// assert_eq!(beyond_whole(&label(&["98.50", "0.25", "0.15", "1.10"])?), None);
/// // 98.6 + 0.5 + 1 is 100.1: as much as rounding can make of 100 (0.05 + 0.05 + 0.5).
/// assert_eq!(beyond_whole(&label(&["98.6", "0.5", "1"])?), None);
/// assert_eq!(beyond_whole(&label(&["98.60", "0.50", "1.00"])?), Some(100.1));
/// # Ok::<(), sowmark_core::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn beyond_whole(shares: &[Decimal]) -> Option<f64> {
    let sum: f64 = shares.iter().map(Decimal::to_f64).sum();
    let rounding: f64 = shares.iter().map(|share| share.resolution() / 2.0).sum();
    // Hundredths do not add up exactly in binary.
    (sum > 100.0 + rounding + 1e-9).then_some((sum * 1e9).round() / 1e9)
}

#[cfg(test)]
mod tests {
    use super::beyond_whole;
    use crate::quantity::Decimal;

    /// Sums by hand, and what rounding each part to its last digit can add to a whole.
    #[test]
    fn parts_are_more_than_the_whole_beyond_their_rounding() {
        for (shares, beyond) in [
            (&[][..], None),
            (&["98.50", "0.25", "0.15", "1.10"], None),
            // Less than the whole is not asked here: a label may leave a part out.
            (&["85.0"], None),
            (&["100"], None),
            // 100.1 of two tenths: 0.05 and 0.05 are rounding.
            (&["99.6", "0.5"], None),
            (&["99.7", "0.5"], Some(100.2)),
            (&["99.99", "0.02"], None),
            // Half a unit of each is 0.01 together; a whole one would let 0.02 pass.
            (&["99.99", "0.03"], Some(100.02)),
            // Whole percents are rounded by a half each.
            (&["99", "1", "1"], None),
            (&["99", "1", "1", "1"], None),
            (&["99", "2", "2"], Some(103.0)),
            (&["98.60", "0.50", "1.00"], Some(100.1)),
        ] {
            let parts: Vec<Decimal> = shares.iter().map(|share| Decimal::parse(share).unwrap()).collect();
            assert_eq!(beyond_whole(&parts), beyond, "{shares:?}");
        }
    }
}
