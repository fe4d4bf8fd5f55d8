//! What every append-only record carries, whatever its kind: when it happened, who recorded it when, and whether it
//! still stands. A store selects `r.*` from the view `recorded` and flattens a [`Head`] into its row.

use super::free_text::FreeText;
use crate::access::{Actor, Scope};
use crate::clock::Stamp;
use crate::db::kind::Kind as RecordKind;
use crate::web::door::Signed;
use crate::web::form::{FormField, Kind as FieldKind};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use serde::Serialize;
use sowmark_core::moment::midnight;
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

/// By how much a phone's clock may be off before its records say so, in seconds: less changes no decision of a day.
/// (Ours, no source.)
const LARGEST_CLOCK_ERROR: i64 = 5 * 60;
const HOUR: i64 = 60 * 60;
/// In microseconds.
const SECOND: i64 = 1_000_000;

/// The head of a record, as the view `recorded` gives it.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Head {
    pub id: Uuid,
    pub kind: String,
    pub occurred_at: i64,
    pub occurred_offset: i64,
    pub recorded_at: i64,
    pub recorded_by: Option<Uuid>,
    pub recorded_by_name: Option<String>,
    pub corrects: Option<Uuid>,
    pub replaced_by: Option<Uuid>,
    pub void_reason: Option<FreeText>,
    pub void_at: Option<i64>,
    pub void_by: Option<Uuid>,
    pub void_by_name: Option<String>,
    /// The phone's clock when it was sent, where it came from a phone that said so.
    pub sent_at: Option<i64>,
    /// The server's clock when it came, where it came from a phone.
    pub received_at: Option<i64>,
}

impl Head {
    /// When it happened, as it was stated.
    #[must_use]
    pub fn stamp(&self) -> Stamp {
        Stamp { at: moment(self.occurred_at), offset_seconds: i32::try_from(self.occurred_offset).unwrap_or(0) }
    }

    /// Whether it is neither void nor replaced.
    #[must_use]
    pub fn stands(&self) -> bool {
        self.void_reason.is_none() && self.replaced_by.is_none()
    }

    /// Whether somebody may say now that it was wrong.
    #[must_use]
    pub fn may_void(&self, signed: &Signed) -> bool {
        self.stands() && signed.actor.may_amend(self.recorded(), self.recorded_by, signed.app.clock.now())
    }

    /// When it happened, in a zone, as a person reads it.
    #[must_use]
    pub fn when(&self, zone: &TimeZone, words: Words) -> String {
        said(moment(self.occurred_at), zone, words)
    }

    /// When the server took it.
    #[must_use]
    pub fn recorded(&self) -> Timestamp {
        moment(self.recorded_at)
    }

    /// Whether the server took it within the last day.
    #[must_use]
    pub fn is_new(&self, now: Timestamp) -> bool {
        now.duration_since(self.recorded()) < SignedDuration::from_hours(24)
    }

    /// Who recorded it, as a person reads it, and whether to replace another: who corrects need not be who did it.
    #[must_use]
    pub fn by(&self, words: Words) -> String {
        let name = person_or_host(self.recorded_by_name.as_deref(), words);
        if self.corrects.is_some() { say!(words, "record-by-correction", name = name) } else { name }
    }

    /// How far the phone's clock was behind the server's when it sent this, in seconds, the way included; below zero it
    /// was ahead. None where no phone told the time.
    #[must_use]
    pub fn clock_error_seconds(&self) -> Option<i64> {
        Some((self.received_at? - self.sent_at?) / SECOND)
    }

    /// Why the times of a record that came from a phone may be off, as a sentence.
    #[must_use]
    pub fn doubt(&self, words: Words) -> Option<String> {
        let ahead = -self.clock_error_seconds().unwrap_or(0);
        let after = (self.occurred_at - self.received_at?) / SECOND;
        if ahead.abs() > LARGEST_CLOCK_ERROR {
            let side = if ahead > 0 { "ahead" } else { "behind" };
            Some(say!(words, "record-doubt-clock", span = span(ahead.abs(), words), side = side))
        } else if after > LARGEST_CLOCK_ERROR {
            Some(say!(words, "record-doubt-dated-later", span = span(after, words)))
        } else {
            None
        }
    }

    /// Who recorded it, and whether its times are in doubt.
    #[must_use]
    pub fn by_line(&self, words: Words) -> String {
        match self.doubt(words) {
            Some(doubt) => format!("{}. {doubt}", self.by(words)),
            None => self.by(words),
        }
    }

    /// What was typed beside it; none where that is withheld from who asks.
    #[must_use]
    pub fn told<'t>(&self, text: &'t FreeText, scope: &Scope) -> Option<&'t str> {
        text.told(RecordKind::from_word(&self.kind), scope)
    }

    /// The same, for an answer.
    #[must_use]
    pub fn told_owned(&self, text: &FreeText, scope: &Scope) -> Option<String> {
        self.told(text, scope).map(str::to_owned)
    }

    /// Why it no longer stands, as a sentence; none while it stands.
    #[must_use]
    pub fn fallen(&self, actor: &Actor) -> Option<String> {
        let words = actor.words();
        match (&self.void_reason, self.replaced_by) {
            (Some(reason), _) => {
                let by = person_or_host(self.void_by_name.as_deref(), words);
                let at = self.void_at.map(|at| said(moment(at), &actor.time_zone, words)).unwrap_or_default();
                Some(match self.told(reason, &actor.scope) {
                    Some(reason) => say!(words, "record-void", at = at, by = by, reason = reason),
                    None => say!(words, "record-void-withheld", at = at, by = by),
                })
            }
            (None, Some(_)) => Some(say!(words, "record-replaced")),
            (None, None) => None,
        }
    }
}

/// Who did something, as a person reads it.
#[must_use]
pub fn person_or_host(name: Option<&str>, words: Words) -> String {
    name.map_or_else(|| say!(words, "record-by-host"), str::to_owned)
}

/// A span of time as people say it, in seconds; from some minutes on.
pub(crate) fn span(seconds: i64, words: Words) -> String {
    let about = |unit: i64| u64::try_from((seconds + unit / 2) / unit).unwrap_or(0);
    if seconds < 2 * HOUR {
        say!(words, "record-span-minutes", minutes = about(60))
    } else if seconds < 2 * 24 * HOUR {
        say!(words, "record-span-hours", hours = about(HOUR))
    } else {
        say!(words, "record-span-days", days = about(24 * HOUR))
    }
}

/// Microseconds of the database as a moment.
#[must_use]
pub fn moment(micros: i64) -> Timestamp {
    Timestamp::from_microsecond(micros).unwrap_or(Timestamp::UNIX_EPOCH)
}

/// A moment as a person reads it: `6 April 2027, 09:40`.
#[must_use]
pub fn said(at: Timestamp, zone: &TimeZone, words: Words) -> String {
    let at = at.to_zoned_datetime(zone.clone());
    let (day, month, year) = (at.day().to_string(), u32::from(at.month().unsigned_abs()), at.year().to_string());
    say!(words, "record-moment", day = day, month = month, year = year, time = at.strftime("%H:%M").to_string())
}

/// The end of a span, after "until": `the end of 5 April 2027` where that is the midnight between two days, else the moment.
#[must_use]
pub fn said_end(at: Timestamp, zone: &TimeZone, words: Words) -> String {
    let date = zone.to_datetime(at).date();
    match date.yesterday() {
        Ok(last) if midnight(date, zone) == at => {
            say!(words, "record-end", end = "day", when = said_day(&last.to_string(), words))
        }
        _ => say!(words, "record-end", end = "moment", when = said(at, zone, words)),
    }
}

/// A day as a person reads it: `6 April 2027`. What is no day stays as it is.
#[must_use]
pub fn said_day(day: &str, words: Words) -> String {
    let Ok(date) = day.parse::<Date>() else { return day.to_owned() };
    let (day, month) = (date.day().to_string(), u32::from(date.month().unsigned_abs()));
    say!(words, "date-day-of-year", day = day, month = month, year = date.year().to_string())
}

/// A month as a person reads it, of a text like `2027-03`: `March 2027`. What is no month stays as it is.
#[must_use]
pub fn said_month(month: &str, words: Words) -> String {
    let Ok(date) = format!("{month}-01").parse::<Date>() else { return month.to_owned() };
    let (month, year) = (u32::from(date.month().unsigned_abs()), date.year().to_string());
    say!(words, "date-month-of-year", month = month, year = year)
}

/// A moment as a form's field of date and time holds it.
#[must_use]
pub fn typed(at: Timestamp, zone: &TimeZone) -> String {
    at.to_zoned_datetime(zone.clone()).strftime("%Y-%m-%dT%H:%M").to_string()
}

/// Who did something.
#[derive(Clone, Debug, Serialize, utoipa::ToSchema)]
pub struct Who {
    pub id: Uuid,
    pub name: String,
}

impl Who {
    fn of(id: Option<Uuid>, name: Option<String>) -> Option<Self> {
        id.map(|id| Self { id, name: name.unwrap_or_default() })
    }
}

/// That and why a record is void.
#[derive(Clone, Debug, Serialize, utoipa::ToSchema)]
pub struct VoidView {
    /// Null where it is withheld: of a record that belongs to no client, from who is limited to some.
    pub reason: Option<String>,
    pub at: String,
    /// Null: the command line of the host.
    pub by: Option<Who>,
}

/// What every record answers beside its own fields. Its kind is not among them: a movement has a `kind` of its own.
#[derive(Clone, Debug, Serialize, utoipa::ToSchema)]
pub struct HeadView {
    pub id: Uuid,
    /// With the offset that it was stated with.
    pub occurred_at: String,
    pub recorded_at: String,
    /// Null: the command line of the host.
    pub recorded_by: Option<Who>,
    /// The record that this one replaces.
    pub corrects: Option<Uuid>,
    /// The record that replaces this one.
    pub replaced_by: Option<Uuid>,
    /// Null while it is not void.
    pub void: Option<VoidView>,
    /// How far the clock of the phone that sent it was behind the server's, below zero ahead; null where none told the
    /// time.
    pub clock_error_seconds: Option<i64>,
}

impl HeadView {
    /// For who asks.
    #[must_use]
    pub fn of(head: Head, scope: &Scope) -> Self {
        let (occurred_at, clock_error_seconds) = (head.stamp().rfc3339(), head.clock_error_seconds());
        let void = head.void_reason.as_ref().map(|reason| VoidView {
            reason: head.told_owned(reason, scope),
            at: head.void_at.map(|at| moment(at).to_string()).unwrap_or_default(),
            by: Who::of(head.void_by, head.void_by_name.clone()),
        });
        Self {
            id: head.id,
            occurred_at,
            recorded_at: moment(head.recorded_at).to_string(),
            recorded_by: Who::of(head.recorded_by, head.recorded_by_name),
            corrects: head.corrects,
            replaced_by: head.replaced_by,
            void,
            clock_error_seconds,
        }
    }
}

/// When it happened: now, unless changed.
pub fn moment_field(signed: &Signed, name: &str, label: &str) -> FormField {
    FormField::new(name, label).kind(FieldKind::Moment).value(typed(signed.app.clock.now(), &signed.actor.time_zone))
}
