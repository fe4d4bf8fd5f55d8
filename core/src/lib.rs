//! The measuring and judging behind Sowmark: pure functions, SI inside, no clock, no I/O.
#![deny(missing_docs)]
#![forbid(unsafe_code)]

pub mod basis;
pub mod catch;
pub mod circumstances;
pub mod drift;
pub mod factor;
pub mod ids;
pub mod moment;
pub mod policy;
pub mod quantity;
pub mod rate;
pub mod readiness;
pub mod statistics;
pub mod uncertainty;
pub mod verdict;
