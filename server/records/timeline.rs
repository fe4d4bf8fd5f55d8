//! Everything that happened to a seeder, newest first, each record told in a sentence.

pub use super::store::TimelineRow;
use super::store::{self, Stretch};
use crate::access::{Actor, Reach};
use crate::db::Cx;
use crate::db::kind::Kind;
use crate::fleet::seeder::act::find_seeder;
use crate::fleet::service::act::Component;
use crate::readiness::trigger_in_words;
use crate::saying;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::reader::Reader;
use sowmark_core::ids::SeederId;
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

/// A page of the records of a seeder and its units, newest first. Whoever is limited to some clients sees no fill, job
/// or calibration of other lots.
///
/// # Errors
/// 404 without the seeder; 422 for a cursor that no page gave.
pub async fn page_of_timeline(
    cx: &mut Cx<'_>,
    actor: &Actor,
    seeder: SeederId,
    asked: &PageAsked,
) -> Result<List<TimelineRow>, Error> {
    find_seeder(cx, &actor.scope, seeder).await?;
    let before = match asked.after {
        None => (i64::MAX, i64::MAX, Uuid::max()),
        Some(last) => match store::moments(cx, actor.organization(), last).await? {
            Some((occurred, recorded)) => (occurred, recorded, last),
            None => {
                return Err(Error::fault("/after", saying!("timeline-no-such-page")));
            }
        },
    };
    let limited_to = if actor.scope.lots == Reach::All { None } else { Some(actor.account) };
    let stretch = Stretch { before, limited_to, limit: asked.fetch() };
    let rows = store::timeline(cx, actor.organization(), seeder, stretch).await?;
    Ok(asked.page(rows, |row| row.head.id))
}

impl TimelineRow {
    /// What happened, in a sentence.
    #[must_use]
    pub fn says(&self, reader: Reader) -> String {
        let words = reader.words;
        let told = match Kind::from_word(&self.head.kind) {
            Some(Kind::Configuration) => {
                let (width, spacing) = (reader.measured(text(&self.second)), reader.measured(text(&self.third)));
                say!(words, "timeline-configuration", width = width, spacing = spacing)
            }
            Some(Kind::Setup) => self.says_setup(words),
            Some(Kind::Service) => {
                let part = text(&self.subject);
                let part = Component::from_word(part).map_or_else(|| part.to_owned(), |part| part.says(words));
                say!(words, "timeline-service", part = part, affects = yes_or_no(self.flag))
            }
            Some(Kind::LayUp) if self.flag => say!(words, "timeline-laid-up"),
            Some(Kind::LayUp) => say!(words, "timeline-in-use-again"),
            Some(Kind::Fill) => self.says_seed("timeline-filled", reader),
            Some(Kind::Emptying) if self.flag => self.says_seed("timeline-emptied", reader),
            Some(Kind::Emptying) => self.says_seed("timeline-taken-out", reader),
            Some(Kind::Job) => self.says_job(reader),
            Some(Kind::Calibration) => {
                let (lot, verdict, crop) = (text(&self.subject), text(&self.second), text(&self.third));
                say!(words, "timeline-caught", lot = lot, crop = crop, verdict = verdict)
            }
            Some(Kind::Decision) => say!(words, "timeline-decided", decision = text(&self.subject)),
            Some(Kind::Waiver) => {
                let word = text(&self.subject);
                let trigger = word.parse().map_or_else(|_| word.to_owned(), |trigger| trigger_in_words(trigger, words));
                say!(words, "timeline-waived", trigger = trigger)
            }
            // The query tells of no other.
            _ => self.head.kind.clone(),
        };
        if self.note.is_empty() { told } else { format!("{told} {}", self.note) }
    }

    fn says_setup(&self, words: Words) -> String {
        say!(
            words,
            "timeline-setup",
            roller = text(&self.subject),
            ratio = words.decimal(text(&self.second)),
            gated = yes_or_no(self.third.is_some()),
            gate = text(&self.third),
            runs = u64::try_from(self.runs).unwrap_or(0),
        )
    }

    /// Seed that went into the tank or came out of it.
    fn says_seed(&self, key: &str, reader: Reader) -> String {
        say!(
            reader.words,
            key,
            lot = text(&self.subject),
            crop = text(&self.third),
            weighed = yes_or_no(self.second.is_some()),
            mass = reader.measured(text(&self.second)),
        )
    }

    fn says_job(&self, reader: Reader) -> String {
        let field = text(&self.subject);
        say!(
            reader.words,
            "timeline-job",
            named = yes_or_no(!field.is_empty()),
            field = field,
            area = reader.measured(text(&self.second)),
            seed = reader.measured(text(&self.third)),
        )
    }
}

fn text(column: &Option<String>) -> &str {
    column.as_deref().unwrap_or_default()
}

/// As a text chooses by it.
fn yes_or_no(yes: bool) -> &'static str {
    if yes { "yes" } else { "no" }
}
