//! What is said to people, in their language: catalogues of texts, and the one way from a key to a sentence.
//!
//! A [`Catalogue`] is made of files in Fluent's syntax (a key, `=`, a text with variables and variants). English is part of
//! this crate (`core/texts/en.ftl`); whoever runs the program hands in others. A key names a whole sentence: no sentence is
//! glued of pieces, because languages put their pieces in different places. Sentences may follow each other.
//!
//! Numbers come in as texts that [`Words`](crate::words::Words) made, with digits, sign and unit. Only what is
//! counted comes in as a number, so that a text can have a form for one and a form for many; Fluent's own formatting of
//! numbers knows nothing of uncertainty and is not used.
//!
//! Nothing here can fail once a catalogue is made: a key that a language lacks is said in the language it falls back to,
//! and a key that none has is given back as it is. Tests hold that neither happens.

mod catalogue;
mod error;

use std::{borrow::Cow, fmt, sync::LazyLock};

pub use catalogue::Catalogue;
pub use error::CatalogueError;

/// The texts of this crate in English, for catalogues that add their own to them.
pub const ENGLISH: (&str, &str) = ("core/texts/en.ftl", include_str!("../texts/en.ftl"));

static IN_ENGLISH: LazyLock<Catalogue> = LazyLock::new(|| Catalogue::new("en", &[ENGLISH], None).unwrap_or_default());

/// A language to speak in: a catalogue that stays as long as the program runs. English unless another was handed in.
#[derive(Clone, Copy)]
pub struct Language(&'static Catalogue);

impl Language {
    /// The language of a catalogue.
    pub const fn of(catalogue: &'static Catalogue) -> Self {
        Self(catalogue)
    }

    /// Its texts.
    pub const fn catalogue(self) -> &'static Catalogue {
        self.0
    }

    /// Its tag: "es".
    pub fn tag(self) -> &'static str {
        self.0.tag()
    }

    /// Its name, in itself: "Español".
    pub fn name(self) -> String {
        self.0.text("language-name", &[])
    }
}

impl Default for Language {
    fn default() -> Self {
        Self(&IN_ENGLISH)
    }
}

impl PartialEq for Language {
    fn eq(&self, other: &Self) -> bool {
        self.tag() == other.tag()
    }
}

impl Eq for Language {}

impl fmt::Debug for Language {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Language({})", self.tag())
    }
}

/// What fills a variable of a text. There is none for a measured number: [`Words`](crate::words::Words) writes those.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Argument<'a> {
    /// A name, a number with its unit, or a word that chooses between variants.
    Text(Cow<'a, str>),
    /// How many; chooses between the forms for one and for many.
    Count(u64),
}

impl From<String> for Argument<'_> {
    fn from(text: String) -> Self {
        Self::Text(text.into())
    }
}

impl<'a> From<&'a str> for Argument<'a> {
    fn from(text: &'a str) -> Self {
        Self::Text(text.into())
    }
}

impl<'a> From<&'a String> for Argument<'a> {
    fn from(text: &'a String) -> Self {
        Self::Text(text.as_str().into())
    }
}

impl From<u64> for Argument<'_> {
    fn from(count: u64) -> Self {
        Self::Count(count)
    }
}

impl From<u32> for Argument<'_> {
    fn from(count: u32) -> Self {
        Self::Count(count.into())
    }
}

impl From<usize> for Argument<'_> {
    fn from(count: usize) -> Self {
        Self::Count(count.try_into().unwrap_or(u64::MAX))
    }
}

/// A text of the reader's language: `say!(words, "key", variable = value, …)`.
///
/// ```
/// use sowmark_core::{say, words::Words};
///
/// let words = Words::default();
/// assert_eq!(say!(words, "check-repeats-enough", kept = 3_u32, least = 2_u32), "3 repeats kept, at least 2 are asked for.");
/// ```
#[macro_export]
macro_rules! say {
    ($words:expr, $key:expr $(, $name:ident = $value:expr)* $(,)?) => {
        $words.say($key, &[$((stringify!($name), $crate::texts::Argument::from($value))),*])
    };
}
