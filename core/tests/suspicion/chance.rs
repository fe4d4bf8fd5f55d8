//! Repeatable chance: the same sheets on every machine, so that a rate in a table can be reproduced.

/// Splitmix64 (Steele, Lea and Flood 2014).
pub(crate) struct Chance(u64);

impl Chance {
    pub(crate) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// Evenly between the two.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * ((self.next() >> 11) as f64 / (1_u64 << 53) as f64)
    }

    /// Evenly between the two in logarithms.
    pub(crate) fn log_between(&mut self, low: f64, high: f64) -> f64 {
        self.between(low.ln(), high.ln()).exp()
    }

    /// True that often.
    pub(crate) fn happens(&mut self, probability: f64) -> bool {
        self.between(0.0, 1.0) < probability
    }

    /// A whole number from `low` to `high`, both possible.
    pub(crate) fn whole(&mut self, low: u32, high: u32) -> u32 {
        let span = u64::from(high - low) + 1;
        low + u32::try_from(self.next() % span).expect("within the span")
    }

    /// One of them.
    pub(crate) fn one_of<T: Copy>(&mut self, these: &[T]) -> T {
        let last = u32::try_from(these.len() - 1).expect("few");
        these[self.whole(0, last) as usize]
    }

    /// Normal with mean 0 (Box and Muller 1958).
    pub(crate) fn normal(&mut self, deviation: f64) -> f64 {
        let (radius, turn) = (self.between(f64::MIN_POSITIVE, 1.0), self.between(0.0, std::f64::consts::TAU));
        deviation * (-2.0 * radius.ln()).sqrt() * turn.cos()
    }
}
