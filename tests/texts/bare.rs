//! No template says anything in a language of its own: its words come from the catalogues.

use std::fs;
use std::path::Path;

use crate::ftl::root;

/// Every template with its path below `templates/`.
pub(crate) fn templates() -> Vec<(String, String)> {
    let mut found = Vec::new();
    below(&root().join("templates"), &root().join("templates"), &mut found);
    found.sort();
    found
}

fn below(folder: &Path, top: &Path, found: &mut Vec<(String, String)>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            below(&path, top, found);
        } else {
            let name = path.strip_prefix(top).expect("below it").display().to_string();
            found.push((name, fs::read_to_string(&path).expect("a template")));
        }
    }
}

/// Templates whose words are still to come into the catalogues.
const NOT_YET: &[&str] = &[
    "parts/state.html",
    "readiness/board.html",
    "readiness/gate.html",
    "readiness/lines.html",
    "readiness/rate.html",
    "readiness/start.html",
    "readiness/tolerances.html",
    "seed/clients.html",
    "seed/fields.html",
    "seed/log.html",
    "seed/lot.html",
    "seed/lots.html",
];

/// What is said the same in every language: the program's own name, and symbols of units and numbers.
const SAME: [&str; 7] = ["Sowmark", "kg", "rpm", "g", "r²", "t", "CV"];

/// Attributes that are read out or shown.
const SPOKEN: [&str; 5] = ["aria-label", "title", "alt", "placeholder", "data-unit-said"];

/// The template without its own tags: `{# … #}`, `{% … %}` and `{{ … }}`.
fn without_tags(template: &str) -> String {
    let mut rest = template;
    let mut bare = String::new();
    while let Some(at) = rest.find(['{']) {
        let (before, tag) = rest.split_at(at);
        bare.push_str(before);
        let ending = match tag.as_bytes().get(1) {
            Some(b'#') => "#}",
            Some(b'%') => "%}",
            Some(b'{') => "}}",
            _ => {
                bare.push('{');
                rest = &tag[1..];
                continue;
            }
        };
        // What stood there is no word, and parts none.
        bare.push('\u{1}');
        rest = tag.split_once(ending).map_or("", |(_, rest)| rest);
    }
    bare + rest
}

/// The texts of a page's source: what stands between its elements, and the attributes that are read out.
fn texts_in(html: &str) -> Vec<String> {
    let mut texts = Vec::new();
    let mut rest = html;
    while let Some((text, element)) = rest.split_once('<') {
        texts.push(without_attributes(text));
        let (element, after) = element.split_once('>').unwrap_or((element, ""));
        for name in SPOKEN {
            let value = element.split_once(&format!(" {name}=\"")).and_then(|(_, value)| value.split_once('"'));
            texts.extend(value.map(|(value, _)| value.to_owned()));
        }
        rest = after;
    }
    texts.push(without_attributes(rest));
    texts
}

/// A text without `name="value"`: a macro writes attributes for elements that stand elsewhere.
fn without_attributes(text: &str) -> String {
    let (mut rest, mut bare) = (text, String::new());
    while let Some((before, value)) = rest.split_once("=\"") {
        bare.push_str(before.trim_end_matches(|letter: char| letter.is_ascii_lowercase() || letter == '-'));
        rest = value.split_once('"').map_or("", |(_, after)| after);
    }
    bare + rest
}

/// The words that a template says itself.
fn said_by_itself(template: &str) -> Vec<String> {
    let texts = texts_in(&without_tags(template)).into_iter();
    let words = texts.flat_map(|text| {
        let without_entities = text.replace("&nbsp;", " ").replace("&shy;", "");
        without_entities
            .split(|letter: char| !letter.is_alphanumeric() && letter != '²')
            .filter(|word| word.contains(char::is_alphabetic) && !SAME.contains(word))
            .map(str::to_owned)
            .collect::<Vec<_>>()
    });
    words.collect()
}

#[test]
fn bare_words_are_found() {
    let found = |template| said_by_itself(template).join(" ");
    assert_eq!(found("<p class=\"x\">{{ page.say(\"key\") }} Sowmark, 3 kg · {#- told -#}</p>"), "");
    assert_eq!(found("{% if x > y %}<p>Sown{% endif %}</p>"), "Sown");
    assert_eq!(found("{% macro of(x) %} aria-label=\"{{ x }}\" required=\"\"{% endmacro %} or so"), "or so");
    assert_eq!(found("<a href=\"/to\" aria-label=\"Main {{ x }}\">{{ y }}</a>"), "Main");
}

#[test]
fn no_template_carries_bare_text() {
    let bare: Vec<_> = templates()
        .into_iter()
        .filter(|(name, _)| !NOT_YET.contains(&name.as_str()))
        .map(|(name, template)| (name, said_by_itself(&template)))
        .filter(|(_, words)| !words.is_empty())
        .collect();
    assert!(bare.is_empty(), "put these into the catalogues: {bare:#?}");
}
