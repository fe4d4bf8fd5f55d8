//! Held against published results.
#![allow(clippy::expect_used, clippy::unwrap_used)] // A test that cannot build its sheet has failed.
#![allow(clippy::excessive_precision)] // Published digits stay as they were published.

mod budgets;
mod drift;
mod drill;
#[path = "../../core/tests/measuring/sheets.rs"]
mod sheets;
mod statistics;
mod units;
