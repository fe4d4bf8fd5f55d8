//! English that was left standing in another language.

use std::collections::BTreeSet;

use crate::ftl::{english_files, languages, read, spoken_part};

/// Words that are the same in English and in Spanish, and names.
const SAME: &[&str] = &[
    "ac",
    "ae",
    "agricultural",
    "america",
    "ana",
    "balance",
    "bushels",
    "byte",
    "bytes",
    "compare",
    "control",
    "csv",
    "cv",
    "dakota",
    "decimal",
    "deflate",
    "describe",
    "engineering",
    "error",
    "europe",
    "example",
    "factor",
    "false",
    "ft",
    "ha",
    "https",
    "iana",
    "id",
    "iii",
    "introducing",
    "introduction",
    "iso",
    "javascript",
    "jcgm",
    "journal",
    "json",
    "kg",
    "kib",
    "km",
    "laboratory",
    "lb",
    "mb",
    "mckay",
    "measurement",
    "min",
    "mm",
    "motor",
    "mph",
    "m²",
    "national",
    "nist",
    "no",
    "north",
    "nul",
    "of",
    "oops",
    "org",
    "oz",
    "pantnagar",
    "physical",
    "plan",
    "provincial",
    "qr",
    "research",
    "rev",
    "rpm",
    "sensor",
    "si",
    "sowmark",
    "state",
    "student",
    "taskdata",
    "technology",
    "terminal",
    "to",
    "total",
    "true",
    "uk",
    "uncertainty",
    "university",
    "use",
    "utf",
    "uuid",
    "uuidv",
    "web",
    "windows",
    "xml",
    "zip",
];

/// Letters in a row, in small. Names of fields (`interval_days`) are no words.
fn words_of(text: &str) -> BTreeSet<String> {
    text.split(|letter: char| !letter.is_alphabetic() && letter != '_')
        .filter(|word| word.chars().count() > 1 && !word.contains('_'))
        .map(str::to_lowercase)
        .collect()
}

/// The words of a text that stand in its English too.
pub(crate) fn left_over(english: &str, other: &str) -> Vec<String> {
    let english = words_of(english);
    words_of(other).into_iter().filter(|word| english.contains(word) && !SAME.contains(&word.as_str())).collect()
}

#[test]
fn no_text_of_another_language_keeps_words_of_its_english() {
    let mut found = Vec::new();
    for tag in languages() {
        let own = spoken_part(&read(&format!("texts/{tag}.ftl")));
        for (key, english) in english_files().iter().flat_map(|file| spoken_part(&read(file))) {
            let left = left_over(&english, &own[&key]);
            if !left.is_empty() {
                found.push(format!("{key}: {left:?}"));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}
