//! Everything that happened to a seeder, newest first, each record told in a sentence.

pub use super::store::TimelineRow;
use super::store::{self, Stretch};
use crate::access::{Actor, Reach, Scope};
use crate::db::Cx;
use crate::db::kind::Kind;
use crate::fleet::seeder::act::find_seeder;
use crate::fleet::service::act::Component;
use crate::readiness::trigger_in_words;
use crate::saying;
use crate::seed::lot::stock::CameIn;
use crate::seed::unlikely::{self, JobFigures};
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::reader::Reader;
use sowmark_core::ids::{AccountId, LotId, SeederId};
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
    let stretch = Stretch { before, from: i64::MIN, limited_to: limited_to(actor), limit: asked.fetch() };
    let rows = store::timeline(cx, actor.organization(), seeder, stretch).await?;
    Ok(asked.page(rows, |row| row.head.id))
}

/// Whose clients' lots alone are shown.
fn limited_to(actor: &Actor) -> Option<AccountId> {
    (actor.scope.lots != Reach::All).then_some(actor.account)
}

/// When the first record of a seeder and its units happened, in microseconds, void ones among them; none without any.
///
/// # Errors
/// 404 without the seeder; the database.
pub async fn first(cx: &mut Cx<'_>, actor: &Actor, seeder: SeederId) -> Result<Option<i64>, Error> {
    find_seeder(cx, &actor.scope, seeder).await?;
    Ok(store::first(cx, actor.organization(), seeder).await?)
}

/// How many records are read at a time.
const AT_A_TIME: i64 = 500;

/// The records of a seeder and its units from a moment until another, that one not included, oldest first; void ones among them.
///
/// # Errors
/// 404 without the seeder; the database.
pub async fn between(
    cx: &mut Cx<'_>,
    actor: &Actor,
    seeder: SeederId,
    from: i64,
    to: i64,
) -> Result<Vec<TimelineRow>, Error> {
    find_seeder(cx, &actor.scope, seeder).await?;
    let mut all = Vec::new();
    let mut before = (to, i64::MIN, Uuid::nil());
    loop {
        let stretch = Stretch { before, from, limited_to: limited_to(actor), limit: AT_A_TIME };
        let rows = store::timeline(cx, actor.organization(), seeder, stretch).await?;
        let count = rows.len();
        all.extend(rows);
        match all.last() {
            Some(last) if i64::try_from(count).is_ok_and(|count| count == AT_A_TIME) => {
                before = (last.head.occurred_at, last.head.recorded_at, last.head.id);
            }
            _ => break,
        }
    }
    all.reverse();
    Ok(all)
}

impl TimelineRow {
    /// What happened, in a sentence, and what was noted of it as far as that is told to who asks.
    #[must_use]
    pub fn says(&self, reader: Reader, scope: &Scope) -> String {
        let words = reader.words;
        let told = match Kind::from_word(&self.head.kind) {
            Some(Kind::Configuration) => {
                let (width, spacing) = (reader.measured(self.second()), reader.measured(self.third()));
                say!(words, "timeline-configuration", width = width, spacing = spacing)
            }
            Some(Kind::Setup) => self.says_setup(words),
            Some(Kind::Service) => {
                let part = self.subject();
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
                let (lot, verdict, crop) = (self.subject(), self.second(), self.third());
                say!(words, "timeline-caught", lot = lot, crop = crop, verdict = verdict)
            }
            Some(Kind::Decision) => say!(words, "timeline-decided", decision = self.subject()),
            Some(Kind::Waiver) => {
                let word = self.subject();
                let trigger = word.parse().map_or_else(|_| word.to_owned(), |trigger| trigger_in_words(trigger, words));
                say!(words, "timeline-waived", trigger = trigger)
            }
            // The query tells of no other.
            _ => self.head.kind.clone(),
        };
        match self.head.told(&self.note, scope) {
            Some(note) if !note.is_empty() => format!("{told} {note}"),
            _ => told,
        }
    }

    /// What is asked of its figures; of a fill, by what had come in of its lot.
    ///
    /// # Errors
    /// An inconsistent row.
    pub fn asks(&self, came_in: &CameIn, reader: Reader, scope: &Scope) -> Result<Vec<String>, Error> {
        match (Kind::from_word(&self.head.kind), self.lot_id) {
            (Some(Kind::Job), _) => {
                let figures = JobFigures {
                    area: self.second(),
                    seed_used: self.third(),
                    target_rate: self.target_rate.as_deref().unwrap_or_default(),
                    field_area: self.field_area.as_deref(),
                    field_client: self.field_client_id,
                };
                unlikely::of_job(&self.head, figures, scope, reader)
            }
            (Some(Kind::Fill), Some(lot)) => {
                unlikely::of_fill(&self.head, (LotId(lot), self.second.as_deref()), came_in, reader)
            }
            _ => Ok(Vec::new()),
        }
    }

    fn subject(&self) -> &str {
        self.subject.as_deref().unwrap_or_default()
    }

    fn second(&self) -> &str {
        self.second.as_deref().unwrap_or_default()
    }

    fn third(&self) -> &str {
        self.third.as_deref().unwrap_or_default()
    }

    fn says_setup(&self, words: Words) -> String {
        say!(
            words,
            "timeline-setup",
            roller = self.subject(),
            ratio = words.decimal(self.second()),
            gated = yes_or_no(self.third.is_some()),
            gate = self.third(),
            runs = u64::try_from(self.runs).unwrap_or(0),
        )
    }

    /// Seed that went into the tank or came out of it.
    fn says_seed(&self, key: &str, reader: Reader) -> String {
        say!(
            reader.words,
            key,
            lot = self.subject(),
            crop = self.third(),
            weighed = yes_or_no(self.second.is_some()),
            mass = reader.measured(self.second()),
        )
    }

    fn says_job(&self, reader: Reader) -> String {
        let field = self.subject();
        say!(
            reader.words,
            "timeline-job",
            named = yes_or_no(!field.is_empty()),
            field = field,
            area = reader.measured(self.second()),
            seed = reader.measured(self.third()),
        )
    }
}

/// As a text chooses by it.
fn yes_or_no(yes: bool) -> &'static str {
    if yes { "yes" } else { "no" }
}

#[cfg(test)]
mod tests {
    use super::{Kind, TimelineRow};
    use crate::access::{Reach, Scope, Units};
    use crate::records::free_text::FreeText;
    use crate::records::head::Head;
    use crate::texts;
    use crate::web::reader::Reader;
    use sowmark_core::ids::OrganizationId;
    use sowmark_core::words::{DecimalSign, Words};
    use uuid::Uuid;

    fn row(kind: Kind, columns: [Option<&str>; 3], flag: bool) -> TimelineRow {
        let head = Head {
            id: Uuid::nil(),
            kind: kind.word().to_owned(),
            occurred_at: 0,
            occurred_offset: 0,
            recorded_at: 0,
            recorded_by: None,
            recorded_by_name: None,
            corrects: None,
            replaced_by: None,
            void_reason: None,
            void_at: None,
            void_by: None,
            void_by_name: None,
            sent_at: None,
            received_at: None,
        };
        let [subject, second, third] = columns.map(|text| text.map(str::to_owned));
        TimelineRow {
            head,
            metering_unit_id: None,
            unit: None,
            subject,
            second,
            third,
            flag,
            runs: 1,
            note: FreeText::default(),
            lot_id: None,
            target_rate: None,
            field_area: None,
            field_client_id: None,
        }
    }

    fn told(row: &TimelineRow) -> [String; 2] {
        let spanish = Words { decimal: DecimalSign::Comma, language: texts::language("es").unwrap() };
        let organization = OrganizationId(Uuid::nil());
        let all = Scope { organization, seeders: Reach::All, lots: Reach::All, clients: Reach::All };
        [texts::plain(), spanish].map(|words| row.says(Reader { units: Units::Metric, words }, &all))
    }

    #[test]
    fn each_kind_is_told_in_each_language() {
        let (lot, crop, kg) = (Some("W-16"), Some("wheat"), Some("400.5 kg"));
        for (kind, columns, flag, english, spanish) in [
            (
                Kind::Configuration,
                [None, Some("6.00 m"), Some("12.5 cm")],
                false,
                "Working width 6.00 m, rows 12.5 cm apart.",
                "Ancho de labor 6,00 m, surcos a 12,5 cm.",
            ),
            (
                Kind::Setup,
                [Some("coarse"), Some("2.5"), None],
                false,
                "Set up: roller coarse, drive ratio 2.5, 1 run in use.",
                "Montaje: rodillo coarse, relación de transmisión 2,5, 1 bajada en uso.",
            ),
            (
                Kind::Service,
                [Some("fan"), None, None],
                false,
                "Replaced or repaired: fan. It does not affect metering.",
                "Cambio o reparación: ventilador. No afecta a la dosificación.",
            ),
            (Kind::LayUp, [None; 3], true, "Laid up.", "Quedó fuera de servicio."),
            (Kind::LayUp, [None; 3], false, "Taken back into use.", "Volvió al servicio."),
            (
                Kind::Fill,
                [lot, None, crop],
                false,
                "Tank filled with lot W-16 (wheat).",
                "Tolva cargada con el lote W-16 (wheat).",
            ),
            (
                Kind::Emptying,
                [lot, kg, crop],
                true,
                "Tank emptied of lot W-16 (wheat), 400.5 kg.",
                "Tolva vaciada del lote W-16 (wheat), 400,5 kg.",
            ),
            (
                Kind::Emptying,
                [lot, kg, crop],
                false,
                "Taken out of the tank: lot W-16 (wheat), 400.5 kg.",
                "Sacado de la tolva: lote W-16 (wheat), 400,5 kg.",
            ),
            (
                Kind::Job,
                [None, Some("12.40 ha"), kg],
                false,
                "Job finished: a field without a name, 12.40 ha sown with 400.5 kg.",
                "Labor terminada: un campo sin nombre, 12,40 ha sembradas con 400,5 kg.",
            ),
            (
                Kind::Calibration,
                [lot, Some("pass_with_remarks"), crop],
                false,
                "Catch logged with lot W-16 (wheat): pass with remarks.",
                "Ensayo anotado con el lote W-16 (wheat): aprobado con observaciones.",
            ),
            (
                Kind::Decision,
                [Some("accepted"), None, None],
                false,
                "Held calibration accepted.",
                "Calibración en espera: aceptada.",
            ),
            (
                Kind::Waiver,
                [Some("lot_changed"), None, None],
                false,
                "Trigger let pass: Lot changed.",
                "Motivo que se dejó pasar: Cambio de lote.",
            ),
        ] {
            assert_eq!(told(&row(kind, columns, flag)), [english, spanish], "{kind}");
        }
    }

    #[test]
    fn a_note_follows_as_it_was_written() {
        let mut noted = row(Kind::LayUp, [None; 3], true);
        noted.note = FreeText::from("until 1.5.");
        assert_eq!(told(&noted), ["Laid up. until 1.5.", "Quedó fuera de servicio. until 1.5."]);
    }
}
