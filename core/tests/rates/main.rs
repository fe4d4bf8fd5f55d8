//! Seed, rate, ground drive and next setting: bounds, and what must hold for any numbers. Published examples are in
//! `tests/published`.
#![allow(clippy::expect_used, clippy::unwrap_used)] // A test that cannot build its plan has failed.
#![allow(clippy::float_cmp)] // Equal means equal where nothing is rounded.

mod age;
mod figures;
mod gate;
mod ground;
mod live;
mod plan;
mod table;

/// Equal but for the last bits.
pub(crate) fn near(left: f64, right: f64) -> bool {
    (left - right).abs() <= 1e-9 * left.abs().max(right.abs())
}

/// Numbers that no form should send and some form will.
pub(crate) const HOSTILE: [f64; 9] =
    [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, -0.0, 0.0, -f64::MIN_POSITIVE, f64::MAX, -f64::MAX];
