//! Lines on their way out: the writing itself, what makes text harmless to a spreadsheet, and the pieces in which it is sent.

use super::asked::Form;
use super::sheet::{Cell, Sheet};
use crate::access::Units;
use crate::usage::asked::UsageAsked;
use crate::web::error::Error;
use axum::body::Bytes;
use jiff::Timestamp;
use sowmark_core::usage::Period;
use tokio::sync::mpsc;

/// A piece of a list, or what made it break off.
pub type Sent = Result<Bytes, Error>;

/// How large a piece grows before it is sent.
const PIECE: usize = 32 * 1024;

/// By it spreadsheets know that a file is UTF-8.
const MARK: &[u8] = b"\xef\xbb\xbf";

/// How a list is written, and of which period.
#[derive(Clone, Debug)]
pub struct Way {
    pub period: Period,
    /// The same period, as usage is asked.
    pub asked: UsageAsked,
    pub form: Form,
    pub with_mark: bool,
    /// What measured values are converted to.
    pub units: Units,
}

/// A list under way.
#[derive(Debug)]
pub struct Out {
    way: Way,
    sender: mpsc::Sender<Sent>,
    lines: csv::Writer<Vec<u8>>,
    held: usize,
}

impl Out {
    /// A list that goes to a receiver.
    #[must_use]
    pub fn new(way: Way, sender: mpsc::Sender<Sent>) -> Self {
        let first = if way.with_mark { MARK.to_vec() } else { Vec::new() };
        Self { lines: writer(way.form, first), way, sender, held: 0 }
    }

    /// How it is written.
    #[must_use]
    pub fn way(&self) -> &Way {
        &self.way
    }

    /// Whether a moment is within the period that was asked for; microseconds.
    #[must_use]
    pub fn is_asked(&self, at: i64) -> bool {
        let Period { from, to } = self.way.period;
        from.is_none_or(|from| at >= from.as_microsecond()) && to.is_none_or(|to| at < Timestamp::as_microsecond(to))
    }

    /// Writes the headings of a sheet.
    ///
    /// # Errors
    /// When nobody reads on.
    pub async fn head<R>(&mut self, sheet: &Sheet<'_, R>) -> Result<(), Error> {
        let headings: Vec<String> = sheet.headings().map(|heading| harmless(heading.to_owned())).collect();
        self.record(&headings).await
    }

    /// Writes a row of a sheet.
    ///
    /// # Errors
    /// A row that this program never writes; when nobody reads on.
    pub async fn row<R>(&mut self, sheet: &Sheet<'_, R>, row: &R) -> Result<(), Error> {
        let form = self.way.form;
        let cells: Vec<String> = sheet.cells(row)?.into_iter().map(|cell| written(cell, form)).collect();
        self.record(&cells).await
    }

    async fn record(&mut self, cells: &[String]) -> Result<(), Error> {
        self.held += cells.iter().map(|cell| cell.len() + 1).sum::<usize>();
        self.lines.write_record(cells).map_err(Error::broken)?;
        if self.held >= PIECE { self.send().await } else { Ok(()) }
    }

    async fn send(&mut self) -> Result<(), Error> {
        let lines = std::mem::replace(&mut self.lines, writer(self.way.form, Vec::new()));
        let bytes = lines.into_inner().map_err(|_| Error::broken("a list could not be written to memory"))?;
        self.held = 0;
        self.sender.send(Ok(Bytes::from(bytes))).await.map_err(|_| Error::broken("nobody reads the list on"))
    }

    /// Ends the list, or breaks it off. That nobody reads on is no failure of anything.
    pub async fn end(mut self, written: Result<(), Error>) {
        let ended = match written {
            Ok(()) => self.send().await,
            Err(error) => Err(error),
        };
        if let Err(error) = ended {
            let _ = self.sender.send(Err(error)).await;
        }
    }
}

fn writer(form: Form, begun: Vec<u8>) -> csv::Writer<Vec<u8>> {
    let delimiter = if form == Form::Semicolon { b';' } else { b',' };
    csv::WriterBuilder::new().delimiter(delimiter).terminator(csv::Terminator::CRLF).from_writer(begun)
}

/// A cell as it stands in the file.
fn written(cell: Cell, form: Form) -> String {
    match cell {
        Cell::Nothing => String::new(),
        Cell::Text(text) => harmless(text),
        Cell::Number(digits) if form == Form::Semicolon => digits.replace('.', ","),
        Cell::Number(digits) => digits,
    }
}

/// What a spreadsheet takes for the beginning of a formula: the four signs, also as wide ones, and what it may skip first.
/// (The list is that of the OWASP page on CSV injection.)
const FORMULA: [char; 11] = ['=', '+', '-', '@', '\t', '\r', '\n', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}'];

/// Whether a text would be a formula, or looks like one that was made harmless.
fn is_formula(text: &str) -> bool {
    text.trim_start_matches('\'').starts_with(FORMULA)
}

/// The text with an apostrophe before what a spreadsheet would compute. One that begins with an apostrophe already gets
/// another, so that [`as_meant`] finds the text again.
fn harmless(text: String) -> String {
    if is_formula(&text) { format!("'{text}") } else { text }
}

/// The text that was made harmless.
#[must_use]
pub fn as_meant(text: &str) -> &str {
    if is_formula(text) { text.strip_prefix('\'').unwrap_or(text) } else { text }
}

#[cfg(test)]
mod tests {
    use super::{as_meant, harmless};

    #[test]
    fn formulas_are_made_harmless_and_found_again() {
        for text in ["=1+1", "+49 1", "-2", "@SUM(A1)", "\tx", "\rx", "'=x", "''-x", "\u{ff1d}1", "\n=1"] {
            let safe = harmless(text.to_owned());
            assert_eq!((safe.as_str(), as_meant(&safe)), (format!("'{text}").as_str(), text));
        }
        for text in ["", "wheat", "'t Hoff", "5:2", "a=b", " =1"] {
            assert_eq!((harmless(text.to_owned()).as_str(), as_meant(text)), (text, text));
        }
    }
}
