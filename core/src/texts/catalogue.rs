//! The texts of one language.

use std::{borrow::Cow, fmt};

use fluent_bundle::{FluentArgs, FluentResource, FluentValue, concurrent::FluentBundle};

use super::{Argument, CatalogueError};

/// The texts of one language, and the catalogue that answers for what it lacks.
///
/// ```
/// use sowmark_core::texts::{Argument, Catalogue};
///
/// let greeting = "seeders = { $count ->\n    [one] one seeder\n   *[other] { $count } seeders\n}\n";
/// let catalogue = Catalogue::new("en", &[("greeting.ftl", greeting)], None)?;
/// assert_eq!(catalogue.text("seeders", &[("count", Argument::from(1_u32))]), "one seeder");
/// assert_eq!(catalogue.text("seeders", &[("count", Argument::from(4_u32))]), "4 seeders");
/// assert_eq!(catalogue.text("tractors", &[]), "tractors");
///
/// let refused = Catalogue::new("en", &[("broken.ftl", "fine = yes\nbroken { $\n")], None).unwrap_err();
/// assert!(refused.to_string().starts_with("broken.ftl, line 2: "));
/// # Ok::<(), sowmark_core::texts::CatalogueError>(())
/// ```
#[derive(Default)]
pub struct Catalogue {
    /// `None` only in the empty catalogue.
    texts: Option<FluentBundle<FluentResource>>,
    tag: String,
    fallback: Option<&'static Catalogue>,
}

impl Catalogue {
    /// The texts of a language from files, each with its name, all together. Keys that they lack are answered by `fallback`.
    ///
    /// # Errors
    /// What is no language tag, a file that is not Fluent's syntax, and a key that stands twice.
    pub fn new(
        tag: &str,
        files: &[(&str, &str)],
        fallback: Option<&'static Catalogue>,
    ) -> Result<Self, CatalogueError> {
        let language = tag.parse().map_err(|_| CatalogueError::tag(tag))?;
        let mut texts = FluentBundle::new_concurrent(vec![language]);
        // The marks around variables are for mixed directions of writing; they would show up in a page's attributes and in
        // what is copied.
        texts.set_use_isolating(false);
        texts.set_transform(Some(on_one_line));
        for (file, content) in files {
            let resource = FluentResource::try_new((*content).to_owned())
                .map_err(|(_, faults)| CatalogueError::syntax(file, content, &faults))?;
            texts.add_resource(resource).map_err(|faults| CatalogueError::twice(file, &faults))?;
        }
        Ok(Self { texts: Some(texts), tag: tag.to_owned(), fallback })
    }

    /// Its language: "es".
    pub fn tag(&self) -> &str {
        &self.tag
    }

    /// Whether it has a text of its own for a key.
    pub fn has(&self, key: &str) -> bool {
        self.texts.as_ref().is_some_and(|texts| texts.has_message(key))
    }

    /// The text of a key. Where this language lacks the key, or a variable that its text names was not given, the fallback
    /// answers; where nobody can, what there is of the text, or the key.
    pub fn text(&self, key: &str, arguments: &[(&str, Argument<'_>)]) -> String {
        match (self.said(key, arguments), self.fallback) {
            (Some((text, true)), _) | (Some((text, false)), None) => text,
            (_, Some(fallback)) => fallback.text(key, arguments),
            (None, None) => key.to_owned(),
        }
    }

    /// The own text of a key, and whether it is whole.
    fn said(&self, key: &str, arguments: &[(&str, Argument<'_>)]) -> Option<(String, bool)> {
        let texts = self.texts.as_ref()?;
        let pattern = texts.get_message(key)?.value()?;
        let mut filled = FluentArgs::with_capacity(arguments.len());
        for (name, argument) in arguments {
            let value = match argument {
                Argument::Text(text) => FluentValue::String(Cow::Borrowed(text)),
                Argument::Count(count) => FluentValue::from(*count),
            };
            filled.set(*name, value);
        }
        let mut faults = Vec::new();
        let text = texts.format_pattern(pattern, Some(&filled), &mut faults).into_owned();
        Some((text, faults.is_empty()))
    }
}

impl fmt::Debug for Catalogue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Catalogue")
            .field("tag", &self.tag)
            .field("fallback", &self.fallback.map(Catalogue::tag))
            .finish_non_exhaustive()
    }
}

/// A long sentence may be broken over lines in its file; what is said has none.
fn on_one_line(text: &str) -> Cow<'_, str> {
    if text.contains('\n') { Cow::Owned(text.replace('\n', " ")) } else { Cow::Borrowed(text) }
}
