//! What happens, as a list that is made before anything is done: who does what, when, and when the server hears of it.
//!
//! Everything has an id that follows from its name and moment, so that one thing can name another before either is there.

use super::calendar::Calendar;
use super::fleet::{Seeder, Unit};
use super::people::{Crew, Person};
use super::seed::Lot;
use crate::clock::Chance;
use crate::db::kind::Kind;
use crate::sync::kind::Logged;
use jiff::{SignedDuration, Timestamp};
use serde_json::{Value, json};
use uuid::Uuid;

/// The day on which the made-up organization begins, in days ago.
pub(super) const BEGINS: i64 = 240;

/// Something that somebody does.
#[derive(Debug)]
pub(super) enum Act {
    /// A member comes in, from the command line; an agronomist may be limited to a client.
    Join(&'static Person, Option<Uuid>),
    /// How a member reads.
    Reading(Value),
    /// Something is added that is kept: a client, a field, a roller, a lot…
    Keep(Kind, Value),
    /// A crew, whose members the server knows by ids of its own.
    Crew(&'static Crew, Value),
    /// A record of the kinds that phones send.
    Log(Logged, Uuid, Value),
    /// A record that only the office makes, of its kind, on what it belongs to.
    Office(Kind, Uuid, Value),
    /// Tolerances.
    Policy(Value),
    /// A record is void.
    Void(Uuid, Value),
    /// A phone sends what it had logged off line.
    Send(Value),
    /// A refused entry is dropped.
    Drop(Uuid, Value),
}

/// When the server hears of it, who does it, and what.
#[derive(Debug)]
pub(super) struct Event {
    pub(super) at: Timestamp,
    pub(super) who: &'static Person,
    pub(super) act: Act,
}

/// Everything that happens, while it is being written.
#[derive(Debug)]
pub(super) struct Script {
    pub(super) calendar: Calendar,
    events: Vec<Event>,
    /// What a phone without signal has kept so far.
    offline: Option<Vec<Value>>,
    /// What each lot lost to tanks or got back from them, and when.
    moved: Vec<(Timestamp, &'static Lot, f64)>,
}

/// A quantity as it is sent.
pub(super) fn quantity(value: impl Into<String>, unit: &str) -> Value {
    json!({ "value": value.into(), "unit": unit })
}

/// Kilograms with so many decimals.
pub(super) fn kg(value: f64, decimals: usize) -> Value {
    quantity(format!("{value:.decimals$}"), "kg")
}

impl Script {
    pub(super) fn new(calendar: Calendar) -> Self {
        Self { calendar, events: Vec::new(), offline: None, moved: Vec::new() }
    }

    pub(super) fn at(&self, days_ago: i64, time: (i64, i64)) -> Timestamp {
        self.calendar.at(days_ago, time)
    }

    /// The moment of an act in the office.
    pub(super) fn text(&self, at: Timestamp) -> String {
        self.calendar.text(at)
    }

    /// The id of what is kept under this name.
    pub(super) fn id(&self, key: &str) -> Uuid {
        Chance::of(key).id(self.at(BEGINS, (8, 0)))
    }

    pub(super) fn unit(&self, unit: &Unit) -> Uuid {
        self.id(unit.key)
    }

    pub(super) fn seeder(&self, seeder: &Seeder) -> Uuid {
        self.id(seeder.key)
    }

    pub(super) fn lot(&self, lot: &Lot) -> Uuid {
        self.id(lot.key)
    }

    pub(super) fn push(&mut self, at: Timestamp, who: &'static Person, act: Act) {
        self.events.push(Event { at, who, act });
    }

    /// A record of a kind that phones send, a few minutes after it happened; kept on the phone while that is off line.
    pub(super) fn log(&mut self, at: Timestamp, who: &'static Person, kind: Logged, parent: Uuid, record: Value) {
        match &mut self.offline {
            Some(kept) => kept.push(json!({ "kind": kind.word(), "parent_id": parent, "record": record })),
            None => self.push(at + SignedDuration::from_mins(3), who, Act::Log(kind, parent, record)),
        }
    }

    /// From here on a phone has no signal.
    pub(super) fn go_offline(&mut self) {
        self.offline = Some(Vec::new());
    }

    /// The phone has signal again and sends what it kept, the last first. Its clock is so many minutes ahead.
    pub(super) fn go_online(&mut self, at: Timestamp, who: &'static Person, device: &str, ahead: i64) {
        let mut entries = self.offline.take().unwrap_or_default();
        entries.reverse();
        self.send(at, who, device, ahead, &entries);
    }

    pub(super) fn send(&mut self, at: Timestamp, who: &'static Person, device: &str, ahead: i64, entries: &[Value]) {
        let sent_at = self.text(at + SignedDuration::from_mins(ahead));
        self.push(at, who, Act::Send(json!({ "entries": entries, "sent_at": sent_at, "device": device })));
    }

    /// Seed of a lot goes into a tank, or comes back out of it.
    pub(super) fn moves(&mut self, at: Timestamp, lot: &'static Lot, into_tank_kg: f64) {
        self.moved.push((at, lot, into_tank_kg));
    }

    /// What of a lot has gone into tanks and not come back, up to a moment, kg.
    pub(super) fn drawn(&self, lot: &Lot, until: Timestamp) -> f64 {
        let of_lot = self.moved.iter().filter(|(at, moved, _)| moved.key == lot.key && *at <= until);
        of_lot.map(|(.., kg)| kg).sum()
    }

    /// Everything, in the order in which the server hears of it.
    pub(super) fn events(mut self) -> Vec<Event> {
        self.events.sort_by_key(|event| event.at);
        self.events
    }
}
