//! Which digest is due, by the organization's calendar.
//!
//! A period is named by its day, not by an instant: on the day on which the clocks skip its hour it goes out at the first
//! instant after the gap, and on the day on which its hour comes twice it goes out at the first; either way the day's
//! row is there once.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

/// How often.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Every {
    Day,
    /// On Mondays.
    Week,
}

impl Every {
    pub(super) fn from_word(word: &str) -> Option<Self> {
        match word {
            "daily" => Some(Self::Day),
            "weekly" => Some(Self::Week),
            _ => None,
        }
    }

    fn days(self) -> i64 {
        match self {
            Self::Day => 1,
            Self::Week => 7,
        }
    }
}

/// A digest that is due: its day, and when it falls due.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Period {
    pub(super) day: Date,
    pub(super) at: Timestamp,
}

/// The last one that fell due by now; none at the ends of the calendar.
pub(super) fn latest(every: Every, hour: i8, zone: &TimeZone, now: Timestamp) -> Option<Period> {
    let newest = first_day(every, zone, now)?;
    let period = on(newest, hour, zone)?;
    if period.at <= now { Some(period) } else { on(newest.checked_sub(every.days().days()).ok()?, hour, zone) }
}

/// The first that falls due after now.
pub(super) fn next(every: Every, hour: i8, zone: &TimeZone, now: Timestamp) -> Option<Period> {
    let newest = first_day(every, zone, now)?;
    let period = on(newest, hour, zone)?;
    if period.at > now { Some(period) } else { on(newest.checked_add(every.days().days()).ok()?, hour, zone) }
}

/// Today, or the Monday of this week.
fn first_day(every: Every, zone: &TimeZone, now: Timestamp) -> Option<Date> {
    let today = zone.to_datetime(now).date();
    match every {
        Every::Day => Some(today),
        Every::Week => today.checked_sub(i64::from(today.weekday().to_monday_zero_offset()).days()).ok(),
    }
}

fn on(day: Date, hour: i8, zone: &TimeZone) -> Option<Period> {
    let at = day.at(hour, 0, 0, 0).to_zoned_datetime(zone.clone()).ok()?.timestamp();
    Some(Period { day, at })
}

#[cfg(test)]
mod tests {
    use super::{Every, latest, next};
    use jiff::tz::TimeZone;
    use jiff::{SignedDuration, Timestamp};

    /// Every quarter of an hour from a moment on, for some days.
    fn quarters(from: &str, days: i64) -> impl Iterator<Item = Timestamp> {
        let from: Timestamp = from.parse().unwrap();
        (0..days * 96).map(move |quarter| from + SignedDuration::from_mins(quarter * 15))
    }

    fn days_told(zone: &str, from: &str, every: Every, hour: i8) -> Vec<(String, String)> {
        let zone = TimeZone::get(zone).unwrap();
        let mut told: Vec<(String, String)> = Vec::new();
        for now in quarters(from, 9) {
            let period = latest(every, hour, &zone, now).unwrap();
            assert!(period.at <= now);
            assert!(next(every, hour, &zone, now).unwrap().at > now);
            let period = (period.day.to_string(), period.at.to_string());
            if told.last() != Some(&period) {
                told.push(period);
            }
        }
        told
    }

    /// Transitions as the IANA time zone database has them: Vienna skips 2 to 3 on 28 March 2027 and has it twice on 31
    /// October; Santiago skips midnight on 5 September 2027.
    #[test]
    fn a_change_of_the_clocks_skips_no_day_and_tells_none_twice() {
        for (zone, from) in [
            ("Europe/Vienna", "2027-03-24T12:00:00Z"),
            ("Europe/Vienna", "2027-10-27T12:00:00Z"),
            ("America/Santiago", "2027-09-01T12:00:00Z"),
            ("Australia/Lord_Howe", "2027-04-01T12:00:00Z"),
        ] {
            for hour in 0..24 {
                let days: Vec<String> =
                    days_told(zone, from, Every::Day, hour).into_iter().map(|(day, _)| day).collect();
                let mut once = days.clone();
                once.dedup();
                assert_eq!(days, once, "{zone}, {hour}: each day once");
                let (first, last): (jiff::civil::Date, jiff::civil::Date) =
                    (days[0].parse().unwrap(), days[days.len() - 1].parse().unwrap());
                let between = first.until(last).unwrap().get_days();
                assert_eq!(usize::try_from(between).unwrap() + 1, days.len(), "{zone}, {hour}: {days:?}");
            }
        }
    }

    #[test]
    fn in_the_gap_it_is_the_first_instant_after_and_of_two_hours_the_first() {
        let at = |zone: &str, now: &str, hour: i8| {
            latest(Every::Day, hour, &TimeZone::get(zone).unwrap(), now.parse().unwrap()).unwrap().at.to_string()
        };
        assert_eq!(at("Europe/Vienna", "2027-03-28T12:00:00Z", 2), "2027-03-28T01:00:00Z");
        assert_eq!(at("Europe/Vienna", "2027-10-31T12:00:00Z", 2), "2027-10-31T00:00:00Z");
    }

    #[test]
    fn a_week_begins_on_monday() {
        let zone = TimeZone::get("Europe/Vienna").unwrap();
        let day = |now: &str| latest(Every::Week, 6, &zone, now.parse().unwrap()).unwrap().day.to_string();
        // 5 April 2027 is a Monday.
        assert_eq!(day("2027-04-05T03:59:00Z"), "2027-03-29");
        assert_eq!(day("2027-04-05T04:00:00Z"), "2027-04-05");
        assert_eq!(day("2027-04-11T20:00:00Z"), "2027-04-05");
    }
}
