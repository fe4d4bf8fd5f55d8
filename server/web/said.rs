//! Texts in templates: `{{ page.say("lots-title") }}`, and with what fills them
//! `{{ page.say("stock-unweighed").with("fills", unweighed) }}`.

use sowmark_core::texts::Argument;
use sowmark_core::words::Words;
use std::fmt;

/// A text in its reader's language.
#[derive(Clone, Debug)]
pub struct Said {
    words: Words,
    key: String,
    arguments: Vec<(&'static str, Argument<'static>)>,
}

impl Said {
    #[must_use]
    pub fn new(words: Words, key: impl Into<String>) -> Self {
        Self { words, key: key.into(), arguments: Vec::new() }
    }

    /// With a variable filled in.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: impl Fills) -> Self {
        self.arguments.push((name, value.argument()));
        self
    }
}

impl Said {
    /// What stands before a mark that fills it: an element of the page takes the mark's place.
    #[must_use]
    pub fn before(&self, mark: &str) -> String {
        let said = self.to_string();
        said.split_once(mark).map_or(said.clone(), |(before, _)| before.to_owned())
    }

    /// What stands behind it; nothing where there is no mark.
    #[must_use]
    pub fn after(&self, mark: &str) -> String {
        self.to_string().split_once(mark).map_or_else(String::new, |(_, after)| after.to_owned())
    }
}

impl fmt::Display for Said {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.words.say(&self.key, &self.arguments))
    }
}

/// What can fill a variable from a template, which hands everything over by reference.
pub trait Fills {
    fn argument(&self) -> Argument<'static>;
}

impl<T: Fills + ?Sized> Fills for &T {
    fn argument(&self) -> Argument<'static> {
        (**self).argument()
    }
}

impl Fills for str {
    fn argument(&self) -> Argument<'static> {
        Argument::from(self.to_owned())
    }
}

impl Fills for String {
    fn argument(&self) -> Argument<'static> {
        Argument::from(self.clone())
    }
}

impl Fills for Said {
    fn argument(&self) -> Argument<'static> {
        Argument::from(self.to_string())
    }
}

impl Fills for u32 {
    fn argument(&self) -> Argument<'static> {
        Argument::from(*self)
    }
}

impl Fills for u64 {
    fn argument(&self) -> Argument<'static> {
        Argument::from(*self)
    }
}

impl Fills for usize {
    fn argument(&self) -> Argument<'static> {
        Argument::from(*self)
    }
}

#[cfg(test)]
mod tests {
    use super::Said;
    use crate::texts;

    #[test]
    fn a_template_fills_a_text_by_reference() {
        // As a template hands them over.
        let (kept, least) = (&3_usize, &&2_u32);
        let said = Said::new(texts::plain(), "check-repeats-enough").with("kept", kept).with("least", least);
        assert_eq!(said.to_string(), "3 repeats kept, at least 2 are asked for.");
        let marked = Said::new(texts::plain(), "check-repeats-enough").with("kept", kept).with("least", "{}");
        assert_eq!([marked.before("{}"), marked.after("{}")], ["3 repeats kept, at least ", " are asked for."]);
        assert_eq!([said.before("{}"), said.after("{}")], ["3 repeats kept, at least 2 are asked for.", ""]);
    }
}
