//! Exact fractions for unit factors and drive ratios, and the one rounding from a fraction to `f64`.

/// A positive fraction in lowest terms.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) struct Fraction {
    pub(super) numerator: u128,
    pub(super) denominator: u128,
}

impl Fraction {
    /// The fraction in lowest terms; `denominator` is never zero here (a unit's or a power of ten).
    pub(super) const fn new(numerator: u128, denominator: u128) -> Self {
        let divisor = greatest_common_divisor(numerator, denominator);
        Self { numerator: numerator / divisor, denominator: denominator / divisor }
    }

    /// The product. It always fits: a decimal has at most eighteen digits above and below (60 bits), and is multiplied by
    /// another or by a unit's factor (48 bits).
    pub(super) const fn times(self, other: Self) -> Self {
        // Crosswise first, so that what cancels does not grow on the way.
        let left = Self::new(self.numerator, other.denominator);
        let right = Self::new(other.numerator, self.denominator);
        Self::new(left.numerator * right.numerator, left.denominator * right.denominator)
    }

    /// `|self - other|` and whether `self` is the smaller, or `None` where it would not fit.
    pub(super) fn distance(self, other: Self) -> Option<(Self, bool)> {
        let shared = greatest_common_divisor(self.denominator, other.denominator);
        let left = self.numerator.checked_mul(other.denominator / shared)?;
        let right = other.numerator.checked_mul(self.denominator / shared)?;
        let denominator = self.denominator.checked_mul(other.denominator / shared)?;
        Some((Self::new(left.abs_diff(right), denominator), left < right))
    }

    pub(super) const fn inverse(self) -> Self {
        Self { numerator: self.denominator, denominator: self.numerator }
    }

    /// The nearest `f64`, ties to even.
    ///
    /// Binary long division down to 64 significant bits, with whatever remains folded into the last of them: then the
    /// conversion of the integer is the only rounding. Dividing two rounded `f64`s would round three times.
    pub(super) fn to_f64(self) -> f64 {
        if self.numerator == 0 {
            return 0.0;
        }
        let mut quotient = self.numerator / self.denominator;
        let mut remainder = self.numerator % self.denominator;
        let mut shift = 0_i32;
        // Ends, since there is a bit of the quotient somewhere; what has no remainder is only written with more bits.
        while quotient >> 63 == 0 {
            remainder *= 2;
            quotient *= 2;
            shift += 1;
            if remainder >= self.denominator {
                remainder -= self.denominator;
                quotient += 1;
            }
        }
        if remainder != 0 {
            quotient |= 1;
        }
        quotient as f64 * 2_f64.powi(-shift)
    }
}

/// Euclid's; at least 1, so that it can be divided by.
const fn greatest_common_divisor(mut a: u128, mut b: u128) -> u128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    if a == 0 { 1 } else { a }
}

#[cfg(test)]
mod tests {
    use super::Fraction;

    #[test]
    fn a_fraction_becomes_the_nearest_float() {
        // The compiler's own decimal parser rounds correctly: it is the outside check.
        for (numerator, denominator, expected) in
            [(1, 10, 0.1), (1, 3, 1.0 / 3.0), (45_359_237, 100_000_000, 0.453_592_37), (0, 7, 0.0), (7, 1, 7.0)]
        {
            assert_eq!(Fraction::new(numerator, denominator).to_f64().to_bits(), f64::to_bits(expected));
        }
        let tiny = Fraction::new(1, 1_000_000_000_000).to_f64();
        assert_eq!(tiny.to_bits(), 1e-12_f64.to_bits());
    }
}
