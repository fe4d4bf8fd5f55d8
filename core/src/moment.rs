//! When a record happened, when the server took it, and the one order that follows from both.
//!
//! Every rule that says "latest", "before" or "after" means the order of [`Moment`]. Nothing here reads a clock.

use std::cmp::Ordering;

use jiff::{Timestamp, civil::Date, tz::TimeZone};
use uuid::Uuid;

/// The place of a record in the order of all records: by `occurred_at`, then `recorded_at`, then `id`.
///
/// ```
/// use sowmark_core::moment::Moment;
/// use uuid::Uuid;
///
/// let at = |occurred: &str, recorded: &str, id| Moment {
///     occurred_at: occurred.parse().unwrap(),
///     recorded_at: recorded.parse().unwrap(),
///     id: Uuid::from_u128(id),
/// };
/// // The phone that was off line for two days still comes first: it is the field's time that counts.
/// let late = at("2027-04-06T07:40:00Z", "2027-04-08T18:00:00Z", 9);
/// let prompt = at("2027-04-06T09:00:00Z", "2027-04-06T09:00:01Z", 1);
/// assert!(late < prompt);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Moment {
    /// When it happened, in the field's time.
    pub occurred_at: Timestamp,
    /// When the server took it.
    pub recorded_at: Timestamp,
    /// The record's id.
    pub id: Uuid,
}

/// A record: what it says, and its place in the order of records.
#[derive(Clone, Debug, PartialEq)]
pub struct Dated<T> {
    /// Its place in the order of all records.
    pub moment: Moment,
    /// What it says.
    pub what: T,
}

impl<T> Dated<T> {
    /// A record of `what` at `moment`.
    pub fn new(moment: Moment, what: T) -> Self {
        Self { moment, what }
    }

    /// Whether it had happened at `at`, the instant itself included.
    pub fn happened_by(&self, at: Timestamp) -> bool {
        self.moment.occurred_at <= at
    }
}

/// The latest of `records` that had happened at `at`, the instant itself included; `None` before the first.
pub fn latest_by<T>(records: &[Dated<T>], at: Timestamp) -> Option<&Dated<T>> {
    records.iter().filter(|record| record.happened_by(at)).max_by(in_order)
}

/// The latest of `records` that comes before `moment` in the order of records.
pub fn latest_before<T>(records: &[Dated<T>], moment: Moment) -> Option<&Dated<T>> {
    records.iter().filter(|record| record.moment < moment).max_by(in_order)
}

/// Compares two records by their moments, for sorting and for the latest of several.
#[expect(clippy::trivially_copy_pass_by_ref, reason = "the shape that max_by and min_by ask for")]
pub(crate) fn in_order<T>(a: &&Dated<T>, b: &&Dated<T>) -> Ordering {
    a.moment.cmp(&b.moment)
}

/// The instant at which `date` begins in `zone`.
///
/// Where the clocks skip midnight, it is the first instant that the day has. A date at the far ends of the calendar, which has no
/// instant, gives the nearest one that exists: the bounds of what people may enter lie far within.
///
/// ```
/// use jiff::{civil::date, tz::TimeZone};
/// use sowmark_core::moment::midnight;
///
/// let auckland = TimeZone::get("Pacific/Auckland").unwrap();
/// assert_eq!(midnight(date(2027, 4, 1), &auckland).to_string(), "2027-03-31T11:00:00Z");
/// ```
pub fn midnight(date: Date, zone: &TimeZone) -> Timestamp {
    let start = date.to_zoned_datetime(zone.clone()).and_then(|day| day.start_of_day());
    match start {
        Ok(start) => start.timestamp(),
        Err(_) if date.year().is_negative() => Timestamp::MIN,
        Err(_) => Timestamp::MAX,
    }
}

#[cfg(test)]
mod tests {
    use jiff::{Timestamp, civil::date, tz::TimeZone};

    use super::{Dated, Moment, latest_before, latest_by, midnight};

    /// Transitions as the IANA time zone database has them: midnight skipped, midnight twice, a whole day skipped.
    #[test]
    fn a_day_begins_at_its_first_instant() {
        let table = [
            ("America/Sao_Paulo", date(2018, 11, 4), "2018-11-04T03:00:00Z"),
            ("America/Havana", date(2018, 11, 4), "2018-11-04T04:00:00Z"),
            ("Pacific/Apia", date(2011, 12, 30), "2011-12-30T10:00:00Z"),
            ("Pacific/Apia", date(2011, 12, 31), "2011-12-30T10:00:00Z"),
            ("Asia/Kathmandu", date(2027, 4, 6), "2027-04-05T18:15:00Z"),
        ];
        for (zone, day, start) in table {
            let found = midnight(day, &TimeZone::get(zone).unwrap());
            assert_eq!(found.to_string(), start, "{day} in {zone}");
        }
    }

    /// What was recorded at the very moment is not before it, but it had happened by that instant.
    #[test]
    fn a_record_is_not_before_itself() {
        let moment = |second: i64, id: u128| Moment {
            occurred_at: Timestamp::from_second(second).unwrap(),
            recorded_at: Timestamp::from_second(100).unwrap(),
            id: uuid::Uuid::from_u128(id),
        };
        let records = [Dated::new(moment(10, 1), 'a'), Dated::new(moment(20, 2), 'b'), Dated::new(moment(20, 3), 'c')];
        let before = |moment| latest_before(&records, moment).map(|record| record.what);
        assert_eq!((before(moment(10, 1)), before(moment(10, 2))), (None, Some('a')));
        assert_eq!(
            (before(moment(20, 2)), before(moment(20, 3)), before(moment(20, 4))),
            (Some('a'), Some('b'), Some('c'))
        );
        let by = |second| latest_by(&records, Timestamp::from_second(second).unwrap()).map(|record| record.what);
        assert_eq!((by(9), by(10), by(19), by(20)), (None, Some('a'), Some('a'), Some('c')));
    }

    #[test]
    fn a_day_beyond_the_instants_gives_the_nearest_one() {
        let east = TimeZone::get("Pacific/Kiritimati").unwrap();
        assert_eq!(midnight(date(-9999, 1, 1), &east), Timestamp::MIN);
        let west = TimeZone::get("Pacific/Pago_Pago").unwrap();
        assert_eq!(midnight(date(9999, 12, 31), &west), Timestamp::MAX);
    }
}
