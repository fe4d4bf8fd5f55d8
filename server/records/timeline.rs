//! Everything that happened to a seeder, newest first, each record told in a sentence.

pub use super::store::TimelineRow;
use super::store::{self, Stretch};
use crate::access::{Actor, Reach};
use crate::db::Cx;
use crate::db::kind::Kind;
use crate::fleet::seeder::act::find_seeder;
use crate::fleet::service::act::Component;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::reader::Reader;
use sowmark_core::ids::SeederId;
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
                return Err(Error::fault("/after", "No page ended here. Use the cursor that the page before gave."));
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
        let word = |text: &Option<String>| text.clone().unwrap_or_default();
        let (subject, second, third) = (word(&self.subject), word(&self.second), word(&self.third));
        let told = match Kind::from_word(&self.head.kind) {
            Some(Kind::Configuration) => {
                format!("Working width {}, rows {} apart.", reader.measured(&second), reader.measured(&third))
            }
            Some(Kind::Setup) => self.says_setup(&subject, &second, reader),
            Some(Kind::Service) => {
                let part = Component::from_word(&subject).map_or(subject.clone(), |part| part.said().to_owned());
                let effect = if self.flag { "It affects metering." } else { "It does not affect metering." };
                format!("Replaced or repaired: {part}. {effect}")
            }
            Some(Kind::LayUp) if self.flag => "Laid up.".to_owned(),
            Some(Kind::LayUp) => "Taken back into use.".to_owned(),
            Some(Kind::Fill) => {
                format!("Tank filled with lot {subject} ({third}){}.", after_comma(self.second.as_ref(), reader))
            }
            Some(Kind::Emptying) if self.flag => {
                format!("Tank emptied of lot {subject} ({third}){}.", after_comma(self.second.as_ref(), reader))
            }
            Some(Kind::Emptying) => {
                format!("Taken out of the tank: lot {subject} ({third}){}.", after_comma(self.second.as_ref(), reader))
            }
            Some(Kind::Job) => {
                let field = if subject.is_empty() { "a field without a name" } else { &subject };
                format!("Job finished: {field}, {} sown with {third}.", reader.measured(&second))
            }
            Some(Kind::Calibration) => {
                format!("Catch logged with lot {subject} ({third}): {}.", second.replace('_', " "))
            }
            Some(Kind::Decision) => format!("Held calibration {subject}."),
            Some(Kind::Waiver) => format!("Trigger let pass: {}.", subject.replace('_', " ")),
            _ => format!("{}.", self.head.kind.replace('_', " ")),
        };
        if self.note.is_empty() { told } else { format!("{told} {}", self.note) }
    }

    fn says_setup(&self, roller: &str, ratio: &str, reader: Reader) -> String {
        let ratio = reader.words.decimal(ratio);
        let gate = self.third.as_ref().map(|gate| format!(", gate {gate}")).unwrap_or_default();
        let runs = if self.runs == 1 { "1 run".to_owned() } else { format!("{} runs", self.runs) };
        format!("Set up: roller {roller}, drive ratio {ratio}{gate}, {runs} in use.")
    }
}

fn after_comma(mass: Option<&String>, reader: Reader) -> String {
    mass.map(|mass| format!(", {}", reader.measured(mass))).unwrap_or_default()
}
