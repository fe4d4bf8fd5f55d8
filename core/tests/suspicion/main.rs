//! Whether the slips that people make are found: made on purpose by the thousand, by hand, and for any numbers.
#![allow(clippy::expect_used, clippy::unwrap_used)] // A test that cannot build its sheet has failed.

mod chance;
mod day;
mod examples;
mod grid;
mod mistakes;
mod properties;
