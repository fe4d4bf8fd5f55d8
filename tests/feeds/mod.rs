//! What is due, read at a secret address as a calendar and as news, and the page on which the address is kept. What is
//! written is read back by other people's readers: the crate `calcard` for RFC 5545, `atom_syndication` for RFC 4287.

mod address;
mod content;
mod quiet;
mod sight;
mod spanish;

use crate::people::browser::{Browser, shown_once};
use crate::world::{Answer, World};
use calcard::icalendar::{ICalendar, ICalendarComponent, ICalendarComponentType, ICalendarValue, Uri};
use std::collections::BTreeMap;

/// An address of somebody's own, without server and file.
pub async fn made(world: &World, browser: &mut Browser) -> String {
    let answer = browser.submit(world, "/notices/feed", &[]).await;
    assert_eq!(answer.status, 200, "{}", answer.text);
    let calendar = shown_once(&answer.text);
    let path = calendar.strip_prefix("http://sowmark.test").expect("on this server");
    assert!(answer.text.contains(&path.replace("due.ics", "due.atom")), "{}", answer.text);
    path.strip_suffix("/due.ics").expect("a calendar").to_owned()
}

/// What a program without anybody's session reads.
pub async fn fetched(world: &World, path: &str) -> Answer {
    world.nobody().get(&format!("/page{path}")).await
}

/// A component as the reader understands it: its properties by name, folds and escapes undone.
pub type Event = BTreeMap<String, String>;

fn component(component: &ICalendarComponent) -> Event {
    let said = |value: &ICalendarValue| match value {
        ICalendarValue::Text(text) | ICalendarValue::Uri(Uri::Location(text)) => text.clone(),
        ICalendarValue::PartialDateTime(day) => {
            assert!(day.hour.is_none() || day.tz_hour == Some(0), "a day, or an instant in UTC: {day:?}");
            format!("{:04}{:02}{:02}", day.year.unwrap(), day.month.unwrap(), day.day.unwrap())
        }
        other => format!("{other:?}"),
    };
    let entries = component.entries.iter();
    entries
        .map(|entry| {
            assert_eq!(entry.values.len(), 1, "one value: {entry:?}");
            (entry.name.as_str().to_owned(), said(&entry.values[0]))
        })
        .collect()
}

/// What a calendar says of itself.
pub fn head(text: &str) -> Event {
    let calendar = ICalendar::parse(text).unwrap_or_else(|entry| panic!("{entry:?}: {text}"));
    component(&calendar.components[0])
}

/// The events of a calendar by their summary.
pub fn events(text: &str) -> BTreeMap<String, Event> {
    let calendar = ICalendar::parse(text).unwrap_or_else(|entry| panic!("{entry:?}: {text}"));
    let events = calendar.components.iter().filter(|part| part.component_type == ICalendarComponentType::VEvent);
    events.map(component).map(|event| (event["SUMMARY"].clone(), event)).collect()
}
