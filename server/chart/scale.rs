//! From values to places on the paper, for values of any size.

/// A straight scale: a stretch of values on a stretch of paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    low: f64,
    high: f64,
    from: f64,
    to: f64,
}

/// How much room is left beyond the outermost values, as a share of half their stretch: a mark there does not touch the axis.
const AIR: f64 = 0.125;

impl Scale {
    /// A scale that holds all `values` with some air, on paper from `from` to `to` (upside down where `to` is the smaller).
    /// Values that are no numbers are passed over; of one value, or equal ones, it is in the middle.
    #[must_use]
    pub fn holding(values: impl IntoIterator<Item = f64>, from: f64, to: f64) -> Self {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for value in values.into_iter().filter(|value| value.is_finite()) {
            (low, high) = (low.min(value), high.max(value));
        }
        if low > high {
            (low, high) = (0.0, 1.0);
        }
        // Halves first: the stretch between the largest floats is no float.
        let least = (low.abs().max(high.abs()) * 1e-9).max(f64::MIN_POSITIVE * 1e20);
        let half = high / 2.0 - low / 2.0;
        let half = if half > least { half * (1.0 + AIR) } else { beside(low) };
        let middle = low / 2.0 + high / 2.0;
        let clamp = |value: f64| value.clamp(f64::MIN / 2.0, f64::MAX / 2.0);
        Self { low: clamp(middle - half), high: clamp(middle + half), from, to }
    }

    /// A scale from `low` to `high` as they are.
    #[must_use]
    pub fn between(low: f64, high: f64, from: f64, to: f64) -> Self {
        if low.is_finite() && high.is_finite() && low < high {
            let clamp = |value: f64| value.clamp(f64::MIN / 2.0, f64::MAX / 2.0);
            Self { low: clamp(low), high: clamp(high), from, to }
        } else {
            Self::holding([low, high], from, to)
        }
    }

    /// The least value on it.
    #[must_use]
    pub fn low(&self) -> f64 {
        self.low
    }

    /// The greatest value on it.
    #[must_use]
    pub fn high(&self) -> f64 {
        self.high
    }

    /// Where a value lies on the paper; one beyond the scale lies at its end. `None` for what is no number.
    #[must_use]
    pub fn at(&self, value: f64) -> Option<f64> {
        if value.is_nan() {
            return None;
        }
        let inside = value.clamp(self.low, self.high);
        let share = (inside / 2.0 - self.low / 2.0) / (self.high / 2.0 - self.low / 2.0);
        Some(self.from + share.clamp(0.0, 1.0) * (self.to - self.from)).filter(|place| place.is_finite())
    }
}

/// The room to either side of a single value.
fn beside(value: f64) -> f64 {
    let room = value.abs() * 0.05;
    if room > f64::MIN_POSITIVE * 1e20 { room } else { 1.0 }
}
