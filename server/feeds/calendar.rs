//! What is due as a calendar: RFC 5545, with name and refreshing from RFC 7986.
//!
//! Events, not to-dos: the calendars that people have on their phones leave to-dos of a subscribed calendar out or show
//! none at all. All-day ones, because a day is what matters and a day needs no time zone to be right: it is the
//! organization's. What is due lasts from the day it came due through today, so it stands on the page that people look
//! at; what comes stands on its day. None of them makes anybody busy.

use super::act::{Told, matter_id};
use crate::web::error::Error;
use icalendar::{Calendar, Component, Event, Property};
use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};
use sowmark_core::say;

/// The calendar as text.
///
/// # Errors
/// A day that no calendar has.
pub(super) fn written(told: &Told, base: &str) -> Result<String, Error> {
    let actor = &told.actor;
    let words = actor.words();
    let name = say!(words, "feed-name", organization = plain(&actor.organization_name));
    let mut calendar = Calendar::empty();
    for (key, value) in [
        ("VERSION", "2.0"),
        ("PRODID", "-//Sowmark//What is due//EN"),
        ("CALSCALE", "GREGORIAN"),
        ("METHOD", "PUBLISH"),
        ("X-WR-CALNAME", &name),
        ("X-WR-TIMEZONE", &actor.time_zone_name),
    ] {
        calendar.append_property(Property::new(key, value));
    }
    // Newer than what the crate knows to be a text, and escapes by itself.
    calendar.append_property(Property::new("NAME", &name).add_parameter("VALUE", "TEXT").done());
    let hourly = Property::new("REFRESH-INTERVAL", "PT1H").add_parameter("VALUE", "DURATION").done();
    calendar.append_property(hourly).append_property(Property::new("X-PUBLISHED-TTL", "PT1H"));
    for matter in &told.matters {
        let from = actor.time_zone.to_datetime(matter.from).date();
        let last = if matter.is_coming { from } else { told.today.max(from) };
        let end = last.checked_add(1.day()).map_err(Error::broken)?;
        let mut event = Event::new();
        event
            .uid(&matter_id(actor.organization(), &matter.subject).to_string())
            .add_property("DTSTAMP", instant(told.since))
            .append_property(day("DTSTART", from))
            .append_property(day("DTEND", end))
            .summary(&plain(&matter.title))
            .description(&plain(&matter.says))
            .add_property("URL", format!("{base}{}", matter.path))
            .add_property("TRANSP", "TRANSPARENT")
            .add_property("CLASS", "PRIVATE");
        calendar.push(event.done());
    }
    Ok(calendar.to_string())
}

fn day(key: &str, date: Date) -> Property {
    Property::new(key, date.strftime("%Y%m%d").to_string()).add_parameter("VALUE", "DATE").done()
}

fn instant(at: Timestamp) -> String {
    at.strftime("%Y%m%dT%H%M%SZ").to_string()
}

/// On one line and without what RFC 5545 allows in no text.
fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").chars().filter(|sign| !sign.is_control()).collect()
}
