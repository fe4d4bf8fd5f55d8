//! Setups: what is fitted to a metering unit, from a moment on.

pub mod act;
pub mod store;
