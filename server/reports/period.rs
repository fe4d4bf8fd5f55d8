//! Which season or which days a long report is about: this season unless told; where there is none, the last twelve months. A
//! season for all crops comes before one for some: who wants that of the peas alone chooses it.

use crate::fleet::season::act::SeasonRow;
use crate::saying;
use crate::web::error::Error;
use crate::web::form::{FormField, Kind};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ToSpan};
use sowmark_core::ids::SeasonId;
use sowmark_core::moment::midnight;
use sowmark_core::say;
use sowmark_core::usage::Period;
use sowmark_core::words::Words;

/// What is asked.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Asked {
    pub season_id: Option<SeasonId>,
    pub from: Option<Date>,
    pub to: Option<Date>,
}

/// What is answered for.
#[derive(Clone, Debug)]
pub(super) struct Found {
    pub period: Period,
    /// The last moment of the period, or now: what is true then stands as what is fitted and what is open.
    pub until: Timestamp,
    /// The name of its season; empty without one.
    pub season: String,
}

impl Found {
    /// Whether something that happened at a moment belongs to it.
    pub(super) fn holds(&self, at: Timestamp) -> bool {
        self.period.from.is_none_or(|from| from <= at) && self.period.to.is_none_or(|to| at < to)
    }
}

/// The fields in which it is asked.
pub(super) fn fields(seasons: &[SeasonRow], words: Words) -> [FormField; 3] {
    let usual = std::iter::once((String::new(), say!(words, "report-season-usual")));
    let choices = usual.chain(seasons.iter().map(|row| (row.id.to_string(), row.name.clone())));
    [
        FormField::new("season_id", say!(words, "report-season")).choice(choices.collect::<Vec<_>>()).optional(),
        FormField::new("from", say!(words, "usage-from")).kind(Kind::Date).optional(),
        FormField::new("to", say!(words, "usage-to")).kind(Kind::Date).optional(),
    ]
}

/// The period. `seasons` have the latest start first.
///
/// # Errors
/// 422 for a season that is not there and for an end before the beginning.
pub(super) fn find(asked: Asked, seasons: &[SeasonRow], zone: &TimeZone, now: Timestamp) -> Result<Found, Error> {
    let starts = seasons.iter().map(|season| Ok(midnight(start(season)?, zone))).collect::<Result<Vec<_>, Error>>()?;
    let place = match asked.season_id {
        Some(id) => {
            let place = seasons.iter().position(|season| season.id == id.0);
            Some(place.ok_or_else(|| Error::not_there_at("/season_id", "season"))?)
        }
        None if asked.from.is_some() || asked.to.is_some() => None,
        None => {
            // Next year's may be there already.
            let begun = |only_all: bool| {
                let mut both = seasons.iter().zip(&starts);
                both.position(|(season, start)| *start <= now && (season.crops.is_none() || !only_all))
            };
            begun(true).or_else(|| begun(false))
        }
    };
    let (mut period, mut name) = (Period { from: None, to: None }, String::new());
    if let Some((season, begins)) = place.and_then(|place| seasons.get(place).zip(starts.get(place))) {
        name.clone_from(&season.name);
        period.from = Some(*begins);
        // The next one of the same crops; one for other crops ends nothing.
        let follows = |(later, start): &(&SeasonRow, &Timestamp)| {
            *start > begins && (later.crops.is_none() || later.crops == season.crops)
        };
        period.to = seasons.iter().zip(&starts).filter(follows).map(|(_, start)| *start).min();
    } else if asked.from.is_none() && asked.to.is_none() {
        let today = zone.to_datetime(now).date();
        period.from = Some(midnight(today.saturating_sub(12.months()), zone));
    }
    if let Some(day) = asked.from {
        period.from = Some(midnight(day, zone));
    }
    if let Some(day) = asked.to {
        period.to = Some(midnight(day.saturating_add(1.day()), zone));
    }
    if period.from.zip(period.to).is_some_and(|(from, to)| to <= from) {
        return Err(Error::fault("/to", saying!("usage-ends-before")));
    }
    let last = period.to.and_then(|to| to.checked_sub(SignedDuration::from_micros(1)).ok());
    Ok(Found { period, until: last.map_or(now, |last| last.min(now)), season: name })
}

fn start(season: &SeasonRow) -> Result<Date, Error> {
    season.starts_on.parse().map_err(|_| Error::inconsistent("season.starts_on", &season.starts_on))
}

#[cfg(test)]
mod tests {
    use super::{Asked, find};
    use crate::fleet::season::act::SeasonRow;
    use jiff::tz::TimeZone;
    use uuid::Uuid;

    fn season(id: u128, name: &str, starts_on: &str, crops: Option<&str>) -> SeasonRow {
        let crops = crops.map(|crop| format!("[\"{crop}\"]"));
        SeasonRow { id: Uuid::from_u128(id), name: name.to_owned(), starts_on: starts_on.to_owned(), crops }
    }

    fn told(asked: Asked, seasons: &[SeasonRow]) -> (String, [String; 3]) {
        let zone = TimeZone::get("Europe/Vienna").unwrap();
        let found = find(asked, seasons, &zone, "2027-04-10T06:00:00Z".parse().unwrap()).unwrap();
        let said = |at: Option<jiff::Timestamp>| at.map(|at| at.to_string()).unwrap_or_default();
        (found.season, [said(found.period.from), said(found.period.to), said(Some(found.until))])
    }

    #[test]
    fn this_season_is_meant_and_ends_where_the_next_of_its_crops_begins() {
        let seasons = [
            season(4, "Autumn 2027", "2027-09-01", None),
            season(3, "Maize", "2027-04-05", Some("maize")),
            season(2, "Spring 2027", "2027-03-01", None),
            season(1, "Autumn 2026", "2026-09-01", None),
        ];
        let (name, [from, to, until]) = told(Asked::default(), &seasons);
        assert_eq!((name.as_str(), from.as_str()), ("Spring 2027", "2027-02-28T23:00:00Z"));
        assert_eq!((to.as_str(), until.as_str()), ("2027-08-31T22:00:00Z", "2027-04-10T06:00:00Z"));
        let of = |id: u128| Asked { season_id: Some(Uuid::from_u128(id).into()), ..Asked::default() };
        let (name, [from, to, until]) = told(of(1), &seasons);
        assert_eq!((name.as_str(), from.as_str()), ("Autumn 2026", "2026-08-31T22:00:00Z"));
        assert_eq!((to.as_str(), until.as_str()), ("2027-02-28T23:00:00Z", "2027-02-28T22:59:59.999999Z"));
        // The maize season is chosen, and ended no other's.
        assert_eq!(told(of(3), &seasons).1[..2], ["2027-04-04T22:00:00Z", "2027-08-31T22:00:00Z"]);
        assert_eq!(told(Asked::default(), &seasons[1..2]).0, "Maize");
    }

    #[test]
    fn without_a_season_it_is_the_last_twelve_months() {
        let later = [season(4, "Autumn 2027", "2027-09-01", None)];
        let (name, [from, to, _]) = told(Asked::default(), &later);
        assert_eq!((name.as_str(), from.as_str(), to.as_str()), ("", "2026-04-09T22:00:00Z", ""));
        let days = Asked { to: Some("2027-03-28".parse().unwrap()), ..Asked::default() };
        // The clocks went forward on that day.
        assert_eq!(told(days, &later).1[..2], [String::new(), "2027-03-28T22:00:00Z".to_owned()]);
    }
}
