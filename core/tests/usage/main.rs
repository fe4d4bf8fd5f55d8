//! Where the seed went: balances against a store and tanks that are simulated to the gram, and what a job came to against the
//! published task data.
#![allow(clippy::expect_used, clippy::unwrap_used)] // A test that cannot build its records has failed.
#![allow(clippy::cast_precision_loss)] // Grams of a farm are far from where f64 loses any.

mod balance;
mod jobs;

use jiff::{SignedDuration, Timestamp};
use sowmark_core::moment::{Dated, Moment};
use uuid::Uuid;

/// An instant, hours after a morning in spring.
pub(crate) fn hour(hours: i64) -> Timestamp {
    let morning: Timestamp = "2027-04-01T06:00:00Z".parse().expect("a morning");
    morning + SignedDuration::from_hours(hours)
}

/// A record of an hour; its id is its place among those of the same hour.
pub(crate) fn record<T>(hours: i64, id: usize, what: T) -> Dated<T> {
    let at = hour(hours);
    Dated::new(Moment { occurred_at: at, recorded_at: at, id: Uuid::from_u128(id as u128) }, what)
}
