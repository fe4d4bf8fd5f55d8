//! What is asked of usage: a period, and what of.

use crate::web::error::{Error, Fault};
use crate::web::input::{Line, parse_stamp};
use crate::{input, saying};
use jiff::Timestamp;
use jiff::ToSpan;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use sowmark_core::ids::{ClientId, FieldId, LotId, SeederId};
use sowmark_core::moment::midnight;
use sowmark_core::usage::Period;

input! {
    /// A period, and what of.
    pub struct UsageAsked {
        /// From when: a day, or a moment in RFC 3339. From the beginning unless told.
        pub from: Option<Line<40>>,
        /// Until when: a day, that day included, or a moment in RFC 3339. Until now unless told.
        pub to: Option<Line<40>>,
        /// One lot alone.
        pub lot_id: Option<LotId>,
        /// One seeder alone.
        pub seeder_id: Option<SeederId>,
        /// The jobs on one field alone.
        pub field_id: Option<FieldId>,
        /// One client's alone: their fields and their seed.
        pub client_id: Option<ClientId>,
        /// What one crew's seeders did.
        pub crew_id: Option<uuid::Uuid>,
    }
}

impl UsageAsked {
    /// The period that is asked for, in the organization's time zone.
    ///
    /// # Errors
    /// 422 for what is no day and no moment, and for an end before the beginning.
    pub(crate) fn period(&self, zone: &TimeZone) -> Result<Period, Error> {
        let mut faults = Vec::new();
        let mut read = |name: &str, text: Option<&Line<40>>, is_end: bool| {
            let text = text?.0.clone();
            let found = instant(&text, zone, is_end);
            if found.is_none() {
                faults.push(Fault::new(format!("/{name}"), saying!("usage-no-day", given = &text)));
            }
            found
        };
        let period = Period { from: read("from", self.from.as_ref(), false), to: read("to", self.to.as_ref(), true) };
        if period.from.zip(period.to).is_some_and(|(from, to)| to <= from) {
            faults.push(Fault::new("/to", saying!("usage-ends-before")));
        }
        if faults.is_empty() { Ok(period) } else { Err(Error::Faults(faults)) }
    }
}

/// A day's beginning, or where it is an end the next day's; or the moment itself.
fn instant(text: &str, zone: &TimeZone, is_end: bool) -> Option<Timestamp> {
    let text = text.trim();
    match text.parse::<Date>() {
        Ok(day) if text.len() == 10 && (1950..2100).contains(&day.year()) => {
            let day = if is_end { day.saturating_add(1.day()) } else { day };
            Some(midnight(day, zone))
        }
        _ => parse_stamp(text).map(|stamp| stamp.at),
    }
}

#[cfg(test)]
mod tests {
    use super::instant;
    use jiff::tz::TimeZone;

    #[test]
    fn a_day_is_whole_in_the_organizations_zone() {
        let zone = TimeZone::get("Europe/Berlin").unwrap();
        let is = |text: &str, is_end: bool| instant(text, &zone, is_end).map(|at| at.to_string());
        assert_eq!(is("2027-03-28", false).as_deref(), Some("2027-03-27T23:00:00Z"));
        // The clocks went forward on that day.
        assert_eq!(is("2027-03-28", true).as_deref(), Some("2027-03-28T22:00:00Z"));
        assert_eq!(is("2027-04-06T09:40:00+02:00", true).as_deref(), Some("2027-04-06T07:40:00Z"));
        assert_eq!((is("spring", false), is("2027-02-30", false), is("0001-01-01", true)), (None, None, None));
    }
}
