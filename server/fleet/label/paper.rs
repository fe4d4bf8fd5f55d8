//! What labels are printed on: sheets of ready-cut labels as offices have them, or plain paper that is cut.

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
    pub fn said(self) -> &'static str {
        match self {
            Self::A4 => "A4, eight labels of 99.1 \u{d7} 67.7 mm",
            Self::Letter => "Letter, ten labels of 4 \u{d7} 2 in",
        }
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
