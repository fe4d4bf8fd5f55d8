//! The languages that the program speaks: a file each in `texts/`, inside the binary. A further language is one more file.
//!
//! English has two: core's own and `texts/en.ftl` with what the server says. Other languages answer for both in one file
//! and fall back to English, key by key. What programs read stays English ([`plain`]).

use axum::http::{HeaderMap, header};
use rust_embed::RustEmbed;
use sowmark_core::texts::{Catalogue, CatalogueError, ENGLISH, Language};
use sowmark_core::words::Words;
use std::cmp::Reverse;
use std::sync::LazyLock;

#[derive(RustEmbed)]
#[folder = "texts/"]
struct Files;

const OWN_ENGLISH: &str = "en.ftl";

static ENGLISH_TEXTS: LazyLock<Catalogue> = LazyLock::new(|| english_texts().unwrap_or_default());
static OTHERS: LazyLock<Vec<Catalogue>> = LazyLock::new(|| others().filter_map(Result::ok).collect());

/// Whether every file can be read. The program does not start otherwise.
///
/// # Errors
/// The first file that cannot, with its line.
pub fn check() -> Result<(), CatalogueError> {
    english_texts()?;
    others().try_for_each(|made| made.map(|_| ()))
}

fn english_texts() -> Result<Catalogue, CatalogueError> {
    let own = content(OWN_ENGLISH);
    Catalogue::new("en", &[ENGLISH, ("texts/en.ftl", &own)], None)
}

fn others() -> impl Iterator<Item = Result<Catalogue, CatalogueError>> {
    Files::iter().filter(|file| file != OWN_ENGLISH).filter_map(|file| {
        let tag = file.strip_suffix(".ftl")?;
        Some(Catalogue::new(tag, &[(&format!("texts/{file}"), &content(&file))], Some(&ENGLISH_TEXTS)))
    })
}

/// Bytes that are no UTF-8 become marks that no syntax knows, so the file is refused with its line.
fn content(file: &str) -> String {
    Files::get(file).map(|file| String::from_utf8_lossy(&file.data).into_owned()).unwrap_or_default()
}

/// English, with what the server says.
#[must_use]
pub fn english() -> Language {
    Language::of(&ENGLISH_TEXTS)
}

/// English with a point: what programs read.
#[must_use]
pub fn plain() -> Words {
    Words { language: english(), ..Words::default() }
}

/// Every language, English first, the others in the order of their tags.
pub fn languages() -> impl Iterator<Item = Language> {
    std::iter::once(english()).chain(OTHERS.iter().map(Language::of))
}

/// The language of a tag: "es".
#[must_use]
pub fn language(tag: &str) -> Option<Language> {
    languages().find(|language| language.tag().eq_ignore_ascii_case(tag))
}

/// The language that a browser asks for, of those that there are; English where it asks for none of them. "es-AR" is
/// served with "es".
#[must_use]
pub fn asked_for(headers: &HeaderMap) -> Language {
    let asked = headers.get(header::ACCEPT_LANGUAGE).and_then(|value| value.to_str().ok()).unwrap_or_default();
    let mut ranges: Vec<(&str, u16)> = asked.split(',').take(50).map(range).collect();
    // Of equals the first, as the sort is stable.
    ranges.sort_by_key(|(_, quality)| Reverse(*quality));
    let wanted = ranges.into_iter().filter(|(_, quality)| *quality > 0);
    wanted
        .map(|(tag, _)| tag)
        .find_map(|tag| language(tag).or_else(|| language(tag.split('-').next()?)))
        .unwrap_or(english())
}

/// "es-AR;q=0.8": the tag, and its quality in thousandths.
fn range(text: &str) -> (&str, u16) {
    let (tag, parameters) = text.split_once(';').unwrap_or((text, ""));
    let quality = parameters.trim().strip_prefix("q=").and_then(|quality| quality.trim().parse::<f64>().ok());
    // Clamped, so it fits.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let thousandths = (quality.unwrap_or(1.0).clamp(0.0, 1.0) * 1000.0) as u16;
    (tag.trim(), thousandths)
}

#[cfg(test)]
mod tests {
    use super::{asked_for, check, english, language, languages, plain};
    use axum::http::{HeaderMap, HeaderValue, header};
    use sowmark_core::say;

    #[test]
    fn every_file_is_a_language_with_a_name_of_its_own() {
        assert_eq!(check(), Ok(()));
        let names: Vec<_> = languages().map(|language| (language.tag(), language.name())).collect();
        assert_eq!(names[0], ("en", "English".to_owned()));
        assert!(names.contains(&("es", "Español".to_owned())));
        assert!(names.iter().all(|(_, name)| name != "language-name"));
        assert_eq!(language("ES").map(|language| language.tag()), Some("es"));
        assert_eq!(language("tlh"), None);
    }

    #[test]
    fn english_speaks_for_core_and_server() {
        assert_eq!(say!(plain(), "check-catches-apart"), "The runs were weighed apart.");
        assert_eq!(say!(plain(), "trigger-again"), "Catch again before sowing.");
    }

    #[test]
    fn a_browser_is_served_with_the_best_that_there_is() {
        let asked = |value: &'static str| {
            let mut headers = HeaderMap::new();
            headers.insert(header::ACCEPT_LANGUAGE, HeaderValue::from_static(value));
            asked_for(&headers).tag()
        };
        assert_eq!(asked_for(&HeaderMap::new()), english());
        for (value, tag) in [
            ("es", "es"),
            ("es-AR,es;q=0.8,en;q=0.5", "es"),
            ("en-GB, es", "en"),
            ("en;q=0.4, es;q=0.9", "es"),
            ("de, tlh;q=0.9", "en"),
            ("de, es;q=0.1", "es"),
            ("es;q=0, en;q=0.1", "en"),
            ("*", "en"),
            ("; ;;q=,,es;q=abc", "es"),
        ] {
            assert_eq!(asked(value), tag, "{value}");
        }
    }
}
