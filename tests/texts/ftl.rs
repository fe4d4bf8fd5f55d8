//! A file of texts as its parser sees it: the keys, and the variables of each.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement, VariantKey};

/// Key to variables.
pub(crate) type Texts = BTreeMap<String, BTreeSet<String>>;

/// Before the name of a text that stands within another.
const WITHIN: char = '@';

/// The project's root.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("core lies in the project").to_owned()
}

pub(crate) fn read(path: &str) -> String {
    fs::read_to_string(root().join(path)).expect(path)
}

/// English of core, or of the pages where they have texts.
pub(crate) fn english_files() -> Vec<String> {
    ["core/texts/en.ftl", "texts/en.ftl"]
        .into_iter()
        .filter(|path| root().join(path).exists())
        .map(str::to_owned)
        .collect()
}

/// The other languages, by their tags.
pub(crate) fn languages() -> Vec<String> {
    let files = fs::read_dir(root().join("texts")).expect("a folder of languages");
    let mut tags: Vec<_> = files
        .filter_map(|file| Some(file.ok()?.path().file_name()?.to_str()?.strip_suffix(".ftl")?.to_owned()))
        .filter(|tag| tag != "en")
        .collect();
    tags.sort();
    tags
}

pub(crate) fn texts_of(content: &str) -> Texts {
    let resource = fluent_syntax::parser::parse(content).unwrap_or_else(|(_, faults)| panic!("{faults:?}"));
    let messages = resource.body.iter().map(|entry| match entry {
        Entry::Message(message) => {
            assert!(message.attributes.is_empty(), "{}: attributes are not said by anything", message.id.name);
            let pattern = message.value.as_ref().expect(message.id.name);
            let mut variables = BTreeSet::new();
            in_pattern(pattern, &mut variables);
            Some((message.id.name.to_owned(), variables))
        }
        Entry::Comment(_) | Entry::GroupComment(_) | Entry::ResourceComment(_) => None,
        Entry::Term(term) => panic!("{}: terms are not used, see the glossary", term.id.name),
        Entry::Junk { content } => panic!("junk: {content}"),
    });
    messages.flatten().collect()
}

/// The texts with what their inner texts name in their place.
pub(crate) fn resolved(texts: &Texts) -> Texts {
    let all = |key: &String| variables_of(key, texts);
    texts.keys().map(|key| (key.clone(), all(key))).collect()
}

fn variables_of(key: &str, texts: &Texts) -> BTreeSet<String> {
    let own = texts.get(key).unwrap_or_else(|| panic!("no text for {key}"));
    let named = own.iter().flat_map(|name| match name.strip_prefix(WITHIN) {
        Some(inner) => variables_of(inner, texts),
        None => BTreeSet::from([name.clone()]),
    });
    named.collect()
}

/// The texts that stand within others.
pub(crate) fn inner(texts: &Texts) -> BTreeSet<String> {
    texts.values().flatten().filter_map(|name| name.strip_prefix(WITHIN).map(str::to_owned)).collect()
}

fn in_pattern(pattern: &Pattern<&str>, variables: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        let PatternElement::Placeable { expression } = element else { continue };
        match expression {
            Expression::Inline(inline) => in_inline(inline, variables),
            Expression::Select { selector, variants } => {
                in_inline(selector, variables);
                for variant in variants {
                    in_pattern(&variant.value, variables);
                }
            }
        }
    }
}

fn in_inline(inline: &InlineExpression<&str>, variables: &mut BTreeSet<String>) {
    match inline {
        InlineExpression::VariableReference { id } => {
            variables.insert(id.name.to_owned());
        }
        // A text within a text: its variables are this one's too.
        InlineExpression::MessageReference { id, attribute: None } => {
            variables.insert(format!("{WITHIN}{}", id.name));
        }
        InlineExpression::StringLiteral { .. } => {}
        other => panic!("{other:?}: only variables, texts and literals stand in braces"),
    }
}

/// The words that choose between the variants of a text: of "[below] … *[above]" both. Forms for one and many are a
/// language's own, so they are left out.
pub(crate) fn choices(content: &str) -> BTreeMap<String, BTreeSet<String>> {
    let resource = fluent_syntax::parser::parse(content).unwrap_or_else(|(_, faults)| panic!("{faults:?}"));
    let messages = resource.body.iter().filter_map(|entry| match entry {
        Entry::Message(message) => {
            let mut found = BTreeSet::new();
            choices_in(message.value.as_ref()?, &mut found);
            Some((message.id.name.to_owned(), found))
        }
        _ => None,
    });
    messages.collect()
}

fn choices_in(pattern: &Pattern<&str>, found: &mut BTreeSet<String>) {
    const FORMS: [&str; 6] = ["zero", "one", "two", "few", "many", "other"];
    for element in &pattern.elements {
        let PatternElement::Placeable { expression: Expression::Select { selector, variants } } = element else {
            continue;
        };
        let mut of = BTreeSet::new();
        in_inline(selector, &mut of);
        let of = of.into_iter().next().unwrap_or_default();
        for variant in variants {
            match variant.key {
                VariantKey::Identifier { name } if !FORMS.contains(&name) => {
                    found.insert(format!("{of}={name}"));
                }
                VariantKey::NumberLiteral { value } => {
                    found.insert(format!("{of}={value}"));
                }
                VariantKey::Identifier { .. } => {}
            }
            choices_in(&variant.value, found);
        }
    }
}

/// What a text says beside its variables, every variant of it.
pub(crate) fn spoken_part(content: &str) -> BTreeMap<String, String> {
    let resource = fluent_syntax::parser::parse(content).unwrap_or_else(|(_, faults)| panic!("{faults:?}"));
    let messages = resource.body.iter().filter_map(|entry| match entry {
        Entry::Message(message) => {
            let mut said = String::new();
            spoken_in(message.value.as_ref()?, &mut said);
            Some((message.id.name.to_owned(), said))
        }
        _ => None,
    });
    messages.collect()
}

fn spoken_in(pattern: &Pattern<&str>, said: &mut String) {
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => said.push_str(value),
            PatternElement::Placeable { expression: Expression::Select { variants, .. } } => {
                said.push(' ');
                variants.iter().map(|variant| &variant.value).for_each(|variant| spoken_in(variant, said));
                said.push(' ');
            }
            PatternElement::Placeable { .. } => said.push(' '),
        }
    }
}
