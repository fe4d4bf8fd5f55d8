//! Seasons: after the first day of one, every unit is caught again.

pub mod act;
pub mod store;
