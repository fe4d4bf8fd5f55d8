//! How a list is to be written, and of which period.

use super::Listed;
use super::out::Way;
use crate::usage::asked::UsageAsked;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::Line;
use crate::{input, saying, words};
use sowmark_core::ids::{ClientId, FieldId, LotId, SeederId};
use sowmark_core::say;
use sowmark_core::usage::Period;
use sowmark_core::words::Words;
use uuid::Uuid;

words! {
    /// What parts the cells, and which sign a number has.
    pub enum Form {
        /// Comma between cells, decimal point.
        Comma = "comma",
        /// Semicolon between cells, decimal comma: what spreadsheets of many languages expect.
        Semicolon = "semicolon",
    }
}

impl Form {
    /// As a person reads it.
    #[must_use]
    pub fn says(self, words: Words) -> String {
        match self {
            Self::Comma => say!(words, "exchange-form-comma"),
            Self::Semicolon => say!(words, "exchange-form-semicolon"),
        }
    }
}

words! {
    /// Whether the file begins with the mark by which spreadsheets know UTF-8.
    pub enum Mark {
        With = "with",
        Without = "without",
    }
}

impl Mark {
    /// As a person reads it.
    #[must_use]
    pub fn says(self, words: Words) -> String {
        match self {
            Self::With => say!(words, "exchange-mark-with"),
            Self::Without => say!(words, "exchange-mark-without"),
        }
    }
}

input! {
    /// How a list is to be written.
    pub struct ExportAsked {
        /// From when: a day, or a moment in RFC 3339. From the beginning unless told.
        pub from: Option<Line<40>>,
        /// Until when: a day, that day included, or a moment in RFC 3339. Until now unless told.
        pub to: Option<Line<40>>,
        /// What concerns one client alone: what an agronomist limited to it would take away.
        pub client_id: Option<ClientId>,
        /// Of the list of usage: one seeder's jobs alone.
        pub seeder_id: Option<SeederId>,
        /// Of the list of usage: the jobs with one lot.
        pub lot_id: Option<LotId>,
        /// Of the list of usage: the jobs on one field.
        pub field_id: Option<FieldId>,
        /// Of the list of usage: the jobs of one crew's seeders.
        pub crew_id: Option<Uuid>,
        /// Comma and decimal point unless told.
        pub form: Option<Form>,
        /// Without the mark of UTF-8 unless told.
        pub mark: Option<Mark>,
    }
}

impl ExportAsked {
    /// The period that is asked for, in the organization's time zone.
    ///
    /// # Errors
    /// 422 for what is no day and no moment, and for an end before the beginning.
    pub fn period(&self, signed: &Signed) -> Result<Period, Error> {
        self.of_usage().period(&signed.actor.time_zone)
    }

    fn of_usage(&self) -> UsageAsked {
        let (from, to) = (self.from.clone(), self.to.clone());
        let Self { lot_id, seeder_id, field_id, crew_id, .. } = *self;
        UsageAsked { from, to, lot_id, seeder_id, field_id, client_id: None, crew_id }
    }

    /// How a list is written by it.
    ///
    /// # Errors
    /// As [`ExportAsked::period`]; 422 for a part that this list cannot be cut to.
    pub fn way(&self, list: Listed, signed: &Signed) -> Result<Way, Error> {
        let parts = [
            ("/seeder_id", self.seeder_id.is_some()),
            ("/lot_id", self.lot_id.is_some()),
            ("/field_id", self.field_id.is_some()),
            ("/crew_id", self.crew_id.is_some()),
        ];
        if list != Listed::Usage
            && let Some((part, _)) = parts.into_iter().find(|(_, is_asked)| *is_asked)
        {
            return Err(Error::fault(part, saying!("export-no-such-part")));
        }
        let asked = self.period(signed)?;
        Ok(Way {
            period: if list.is_dated() { asked } else { Period::default() },
            asked: self.of_usage(),
            form: self.form.unwrap_or(Form::Comma),
            with_mark: self.mark == Some(Mark::With),
            units: signed.actor.units,
        })
    }
}
