//! What is wrong, said when it is known who reads it: a draft is read by one code for pages and programs, so a fault keeps
//! how it is said and not only what. Programs are told in English.

use crate::texts;
use sowmark_core::words::Words;
use std::borrow::Cow;
use std::fmt;
use std::sync::Arc;

/// A text of a fault: fixed, or said in a reader's words.
#[derive(Clone)]
pub struct Saying(Kind);

#[derive(Clone)]
enum Kind {
    /// In English, decimals with points.
    Fixed(String),
    Said(Arc<dyn Fn(Words) -> String + Send + Sync>),
}

impl Saying {
    /// As a person reads. Of a fixed text the decimals alone become theirs.
    #[must_use]
    pub fn says(&self, words: Words) -> String {
        match &self.0 {
            Kind::Fixed(text) => words.sentence(text),
            Kind::Said(say) => say(words),
        }
    }

    /// As programs read.
    #[must_use]
    pub fn plain(&self) -> String {
        self.says(texts::plain())
    }

    /// What core says of an entry is a clause; beside a field it is a sentence.
    #[must_use]
    pub fn ended(self) -> Self {
        match self.0 {
            Kind::Fixed(text) => Self(Kind::Fixed(ended(text))),
            Kind::Said(say) => Self::from(move |words: Words| ended(say(words))),
        }
    }
}

fn ended(mut text: String) -> String {
    if !text.ends_with(['.', '!', '?']) {
        text.push('.');
    }
    text
}

impl From<String> for Saying {
    fn from(text: String) -> Self {
        Self(Kind::Fixed(text))
    }
}

impl From<&str> for Saying {
    fn from(text: &str) -> Self {
        Self(Kind::Fixed(text.to_owned()))
    }
}

impl From<&String> for Saying {
    fn from(text: &String) -> Self {
        Self(Kind::Fixed(text.clone()))
    }
}

impl From<Cow<'_, str>> for Saying {
    fn from(text: Cow<'_, str>) -> Self {
        Self(Kind::Fixed(text.into_owned()))
    }
}

impl<F: Fn(Words) -> String + Send + Sync + 'static> From<F> for Saying {
    fn from(say: F) -> Self {
        Self(Kind::Said(Arc::new(say)))
    }
}

/// What is wrong, from a text: `saying!("fault-too-many", most = 5_u32)`. What fills it is kept until it is said, so a name
/// of one's own is lent: `name = &name`.
#[macro_export]
macro_rules! saying {
    ($key:expr $(, $name:ident = $value:expr)* $(,)?) => {
        $crate::web::saying::Saying::from(move |words: sowmark_core::words::Words| {
            sowmark_core::say!(words, $key $(, $name = $value)*)
        })
    };
}

impl fmt::Debug for Saying {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Saying({:?})", self.plain())
    }
}

#[cfg(test)]
mod tests {
    use super::Saying;
    use crate::texts;
    use sowmark_core::quantity::Decimal;
    use sowmark_core::words::{DecimalSign, Words};

    #[test]
    fn the_same_fault_for_a_program_and_for_a_person() {
        let spanish = Words { decimal: DecimalSign::Comma, language: texts::language("es").unwrap() };
        let error = Decimal::parse("x").unwrap_err();
        let said = Saying::from(move |words: Words| error.says(words)).ended();
        assert_eq!(said.plain(), "“x” is not a number; write digits with one decimal sign, like 12.40.");
        assert_eq!(said.says(spanish), "«x» no es un número; escriba cifras con un solo signo decimal, como 12,40.");
        let kept = 3_u32;
        let counted = crate::saying!("check-repeats-enough", kept = kept, least = 2_u32);
        assert_eq!(counted.plain(), "3 repeats kept, at least 2 are asked for.");
        assert_eq!(counted.says(spanish), "Quedan 3 repeticiones; se piden 2 como mínimo.");
        let fixed = Saying::from("At most 2.5 m").ended();
        assert_eq!([fixed.plain(), fixed.says(spanish)], ["At most 2.5 m.", "At most 2,5 m."]);
    }
}
