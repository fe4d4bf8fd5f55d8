//! Times as task data has them: with an offset, or the terminal's local time without one.

use jiff::{Timestamp, civil::DateTime, fmt::temporal::Pieces, tz::TimeZone};
use serde::{Deserialize, Serialize};

/// A moment in a file.
///
/// ```
/// use sowmark_core::task_data::When;
///
/// let exact = When::read("2025-10-02T08:05:00+02:00").unwrap();
/// let zone = jiff::tz::TimeZone::get("Europe/Madrid").unwrap();
/// assert_eq!(exact.at(&zone).unwrap().to_string(), "2025-10-02T06:05:00Z");
/// let local = When::read("2025-10-02T08:05:00").unwrap();
/// assert_eq!(local.at(&zone), exact.at(&zone));
/// assert_eq!(When::read("yesterday"), None);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum When {
    /// An instant.
    Exact(Timestamp),
    /// What the terminal's clock showed, wherever it stood.
    Local(DateTime),
}

/// The format began with the nineties; what is said of a later century is a broken clock.
const YEARS: std::ops::RangeInclusive<i16> = 1990..=2099;

impl When {
    /// Reads a date with a time.
    pub fn read(text: &str) -> Option<Self> {
        let pieces = Pieces::parse(text.trim()).ok()?;
        let local = pieces.date().to_datetime(pieces.time()?);
        if !YEARS.contains(&local.year()) || pieces.time_zone_annotation().is_some() {
            return None;
        }
        match pieces.to_numeric_offset() {
            Some(offset) => offset.to_timestamp(local).ok().map(Self::Exact),
            None => Some(Self::Local(local)),
        }
    }

    /// The instant, for a terminal that stood in a time zone.
    pub fn at(self, zone: &TimeZone) -> Option<Timestamp> {
        match self {
            Self::Exact(instant) => Some(instant),
            Self::Local(local) => zone.to_timestamp(local).ok(),
        }
    }

    /// A number that grows with time, for moments of one kind.
    pub(super) fn order(self) -> i128 {
        match self {
            Self::Exact(instant) => instant.as_nanosecond(),
            Self::Local(local) => TimeZone::UTC.to_timestamp(local).map_or(0, Timestamp::as_nanosecond),
        }
    }

    /// Whether it is an instant.
    pub const fn is_exact(self) -> bool {
        matches!(self, Self::Exact(_))
    }

    /// As many seconds later.
    pub(super) fn later(self, seconds: i64) -> Option<Self> {
        let span = jiff::SignedDuration::from_secs(seconds);
        match self {
            Self::Exact(instant) => instant.checked_add(span).ok().map(Self::Exact),
            Self::Local(local) => local.checked_add(span).ok().map(Self::Local),
        }
    }
}
