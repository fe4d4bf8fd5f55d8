//! The measuring and judging behind Sowmark: pure functions, SI inside, no clock, no I/O.
#![deny(missing_docs)]
#![forbid(unsafe_code)]

pub mod ids;
pub mod policy;
pub mod quantity;
