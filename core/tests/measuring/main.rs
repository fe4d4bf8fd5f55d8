//! Measuring and judging, checked against numbers published elsewhere and against what must hold for any numbers.

#![allow(clippy::expect_used, clippy::unwrap_used)] // A test that cannot build its sheet has failed.

mod published_budgets;
mod sheets;
