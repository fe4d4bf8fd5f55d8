//! Measuring and judging, checked against numbers published elsewhere and against what must hold for any numbers.
#![allow(clippy::expect_used, clippy::unwrap_used)] // A test that cannot build its sheet has failed.
#![allow(clippy::excessive_precision)] // Published digits stay as they were published.

mod advice;
mod impossible_sheets;
mod properties;
mod quantiles;
mod runs;
mod sheets;
mod speed;
mod verdicts;
