//! The measuring and judging behind Sowmark: pure functions, SI inside, no clock, no I/O.
#![deny(missing_docs)]
#![forbid(unsafe_code)]

pub mod basis;
pub mod drift;
pub mod ids;
pub mod moment;
pub mod policy;
pub mod quantity;
pub mod readiness;
