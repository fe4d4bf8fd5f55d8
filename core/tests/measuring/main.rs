//! Measuring and judging: what must hold for any numbers, every limit from both sides, and what is refused. Numbers that others
//! published are held in `tests/published`.
#![allow(clippy::expect_used, clippy::unwrap_used)] // A test that cannot build its sheet has failed.
#![allow(clippy::excessive_precision)] // Published digits stay as they were published.

mod advice;
mod budgets;
mod drift;
mod impossible_sheets;
mod limits;
mod properties;
mod quantiles;
mod quantities;
mod roller_speed;
mod runs;
mod sentences;
mod sheets;
mod speed;
mod statistics;
mod verdicts;
mod ways;
mod words;
