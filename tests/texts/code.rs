//! The keys in the code against the keys in English, by reading the sources.
//!
//! Every `say!(words, "key", name = …)`, every `saying!("key", name = …)`, and every `say("key").with("name", …)` of a
//! template is found with the names it fills. A key chosen by the code stands there as a text
//! of its own, and the names of variants do not look like keys: families of keys begin with one of English's first words.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use sowmark_core::policy::Policy;
use sowmark_core::quantity::{Dimension, Temperature, unit::dimension};
use sowmark_core::readiness::Trigger;
use sowmark_core::verdict::CheckName;

use crate::bare::templates;
use crate::ftl::{Texts, choices, english_files, inner, read, resolved, root, texts_of};

/// Rust sources of a folder, without the modules of tests inside them.
fn sources(folder: &Path, found: &mut Vec<(String, String)>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            let text = fs::read_to_string(&path).expect("a source");
            let code: Vec<_> = text
                .split("#[cfg(test)]\nmod tests")
                .next()
                .unwrap_or_default()
                .lines()
                .filter(|line| !line.trim_start().starts_with("//"))
                .collect();
            found.push((path.display().to_string(), code.join("\n")));
        }
    }
}

fn all_sources() -> Vec<(String, String)> {
    let mut found = Vec::new();
    sources(&root().join("core/src"), &mut found);
    sources(&root().join("server"), &mut found);
    found
}

fn english() -> Texts {
    resolved(&unresolved())
}

fn unresolved() -> Texts {
    english_files().iter().flat_map(|file| texts_of(&read(file))).collect()
}

/// What stands between quotation marks; and what stands between two of them, which is no harm.
fn literals(code: &str) -> impl Iterator<Item = &str> {
    code.split('"')
}

/// A call of `say!`: what it says and the names it fills.
struct Call {
    source: String,
    key: String,
    names: BTreeSet<String>,
}

fn calls() -> Vec<Call> {
    let mut calls = Vec::new();
    for (source, code) in all_sources() {
        // What stands before the key: the words, of `say!` alone.
        for (opening, before) in [("say!(", 1), ("saying!(", 0)] {
            for (at, _) in code.match_indices(opening) {
                let parts = arguments(&code[at + opening.len()..]);
                let Some(key) = parts.get(before).and_then(|part| quoted(part)) else { continue };
                let names = parts.iter().skip(before + 1);
                let names = names.filter_map(|part| Some(part.split_once('=')?.0.trim().to_owned()));
                calls.push(Call { source: source.clone(), key: key.to_owned(), names: names.collect() });
            }
        }
    }
    calls
}

fn quoted(part: &str) -> Option<&str> {
    part.strip_prefix('"')?.strip_suffix('"')
}

const SAID: &str = "say(\"";
const FILLED: &str = ".with(";

/// The same of templates: `say("key").with("name", value)`.
fn template_calls() -> Vec<Call> {
    let mut calls = Vec::new();
    for (source, template) in templates() {
        for (at, _) in template.match_indices(SAID) {
            let (key, mut rest) = template[at + SAID.len()..].split_once('"').expect(&source);
            rest = rest.strip_prefix(')').unwrap_or_else(|| panic!("{source}: {key} alone stands in the brackets"));
            let mut names = BTreeSet::new();
            while let Some(filled) = rest.strip_prefix(FILLED) {
                let parts = arguments(filled);
                names.insert(parts.first().and_then(|part| quoted(part)).expect(key).to_owned());
                rest = &filled[closing(filled)..];
            }
            calls.push(Call { source: source.clone(), key: key.to_owned(), names });
        }
    }
    calls
}

/// Behind the bracket that closes the one before the text.
fn closing(text: &str) -> usize {
    let (mut depth, mut quoted) = (1_i32, false);
    for (at, letter) in text.char_indices() {
        match letter {
            '"' => quoted = !quoted,
            '(' if !quoted => depth += 1,
            ')' if !quoted => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return at + 1;
        }
    }
    text.len()
}

#[test]
fn a_template_is_read_with_its_names() {
    let text = "\"unit\", name(\"a)\", b)).with(\"runs\", 8) }}";
    assert_eq!(&text[closing(text)..], ".with(\"runs\", 8) }}");
    assert!(template_calls().iter().any(|call| call.key == "page-skip" && call.names.is_empty()));
}

/// The arguments of a call whose opening bracket stands before the text.
fn arguments(text: &str) -> Vec<String> {
    let (mut depth, mut quoted, mut escaped) = (0_i32, false, false);
    let mut parts = vec![String::new()];
    for letter in text.chars() {
        match letter {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            '"' => quoted = !quoted,
            _ if quoted => {}
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' if depth == 0 => break,
            ')' | ']' | '}' => depth -= 1,
            ',' if depth == 0 => {
                parts.push(String::new());
                continue;
            }
            _ => {}
        }
        if let Some(last) = parts.last_mut() {
            last.push(letter);
        }
    }
    parts.into_iter().map(|part| part.trim().to_owned()).filter(|part| !part.is_empty()).collect()
}

#[test]
fn a_call_is_read_with_its_names() {
    let parts = arguments("words, \"key\", a = f(x, \"),\"), b = if y { \"(\" } else { \"z\" },\n) + 1");
    assert_eq!(parts, ["words", "\"key\"", "a = f(x, \"),\")", "b = if y { \"(\" } else { \"z\" }"]);
}

#[test]
fn every_key_that_is_said_exists_with_its_variables() {
    let english = english();
    let calls = calls();
    assert!(calls.len() > 20, "the calls are found");
    for Call { source, key, names } in calls.into_iter().chain(template_calls()) {
        let variables = english.get(&key).unwrap_or_else(|| panic!("{source}: no text for {key}"));
        assert_eq!(&names, variables, "{source}: {key}");
    }
}

/// Keys that are put together from a family and the name of one of its members.
fn made_up() -> BTreeSet<String> {
    let mut keys = BTreeSet::new();
    for field in Policy::fields() {
        keys.extend(["label", "because"].map(|what| format!("policy-{what}-{}", field.name)));
    }
    for check in CheckName::ALL {
        keys.extend(["", "-source"].map(|ending| format!("explained-{}{ending}", check.name())));
    }
    keys.extend(Trigger::ALL.map(|trigger| format!("trigger-name-{trigger}")));
    for dimension in DIMENSIONS {
        keys.insert(format!("dimension-{}", dimension.split(" (").next().unwrap_or(dimension).replace(' ', "-")));
    }
    for figure in FIGURES {
        keys.extend(["", "-remedy"].map(|ending| format!("figure-{figure}{ending}")));
    }
    keys
}

const DIMENSIONS: [&str; 10] = [
    dimension::Mass::NAME,
    dimension::Length::NAME,
    dimension::Area::NAME,
    dimension::Speed::NAME,
    dimension::SeedWeight::NAME,
    dimension::BulkDensity::NAME,
    dimension::Rate::NAME,
    dimension::MeterFactor::NAME,
    dimension::Volume::NAME,
    Temperature::NAME,
];

const FIGURES: [&str; 22] = [
    "plants",
    "seeds",
    "seeds-counted",
    "sample-mass",
    "seed-weight",
    "seeds-per-kg",
    "establishment",
    "germination",
    "emergence",
    "loss",
    "purity",
    "hard-seed",
    "rate",
    "row-spacing",
    "bulk-density",
    "seed-weight-doubt",
    "share-doubt",
    "slip",
    "metres-per-turn",
    "setting",
    "measured",
    "wanted",
];

#[test]
fn every_key_is_used() {
    let sources: Vec<_> = all_sources().into_iter().chain(templates()).collect();
    let said: BTreeSet<&str> = sources.iter().flat_map(|(_, code)| literals(code)).collect();
    let mut made_up = made_up();
    made_up.extend(inner(&unresolved()));
    let unused: Vec<_> =
        english().into_keys().filter(|key| !said.contains(key.as_str()) && !made_up.contains(key)).collect();
    assert!(unused.is_empty(), "nothing says {unused:?}");
    let missing: Vec<_> = made_up.iter().filter(|key| !english().contains_key(*key)).collect();
    assert!(missing.is_empty(), "no text for {missing:?}");
}

/// What `not_there("seed lot")` and `not_there_at(place, "lot")` name is a variant of their text.
#[test]
fn everything_that_is_not_there_has_its_words() {
    let choices: BTreeSet<String> = english_files()
        .iter()
        .flat_map(|file| choices(&read(file)).remove("fault-not-there").unwrap_or_default())
        .collect();
    let mut named = BTreeSet::new();
    for (_, code) in all_sources() {
        for (at, _) in code.match_indices("not_there") {
            let Some((_, call)) = code[at..].split_once('(') else { continue };
            named.extend(arguments(call).last().and_then(|part| quoted(part)).map(|what| what.replace(' ', "-")));
        }
    }
    assert!(named.len() > 20, "the calls are found: {named:?}");
    let missing: Vec<_> = named.iter().filter(|what| !choices.contains(&format!("what={what}"))).collect();
    assert!(missing.is_empty(), "no words for {missing:?}");
}
