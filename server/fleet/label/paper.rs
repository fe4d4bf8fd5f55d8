//! What labels are printed on: sheets of ready-cut labels as offices have them, or plain paper that is cut.

use sowmark_core::say;
use sowmark_core::words::Words;

crate::words! {
    /// A sheet of labels.
    pub enum Paper {
        A4 = "a4",
        Letter = "letter",
    }
}

impl Paper {
    /// As a person reads it.
    #[must_use]
    pub fn says(self, words: Words) -> String {
        let key = match self {
            Self::A4 => "labels-paper-a4",
            Self::Letter => "labels-paper-letter",
        };
        say!(words, key)
    }

    /// How many labels a sheet takes, two in a row.
    #[must_use]
    pub fn labels(self) -> usize {
        match self {
            Self::A4 => 8,
            Self::Letter => 10,
        }
    }
}
