//! Days and hours of the made-up year, counted back from the day on which it is looked at.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ToSpan};
use sowmark_core::moment::midnight;

/// The zone of the made-up contractor.
pub(super) const ZONE: &str = "Europe/London";

/// The day, and where it is.
#[derive(Clone, Debug)]
pub(super) struct Calendar {
    today: Date,
    zone: TimeZone,
}

impl Calendar {
    pub(super) fn of(today: Date, zone: TimeZone) -> Self {
        Self { today, zone }
    }

    /// The date so many days before.
    pub(super) fn date(&self, days_ago: i64) -> Date {
        self.today.saturating_sub(days_ago.days())
    }

    /// So many hours and minutes after the midnight of that date. On the two days a year on which the clocks change it
    /// is an hour beside what they show; nobody minds.
    pub(super) fn at(&self, days_ago: i64, (hours, minutes): (i64, i64)) -> Timestamp {
        let begins = midnight(self.date(days_ago), &self.zone);
        begins + SignedDuration::from_mins(hours * 60 + minutes)
    }

    /// A moment as a phone there writes it.
    pub(super) fn text(&self, at: Timestamp) -> String {
        at.display_with_offset(self.zone.to_offset(at)).to_string()
    }

    /// What a season that begins so many days ago is called.
    pub(super) fn season(&self, days_ago: i64) -> String {
        let begins = self.date(days_ago);
        let part = match begins.month() {
            2..=5 => "Spring",
            6..=8 => "Summer",
            9..=11 => "Autumn",
            _ => "Winter",
        };
        format!("{part} {}", begins.year())
    }
}
