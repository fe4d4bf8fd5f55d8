//! The look holds what it promises: contrast of every pair of colours in use, and nothing inline in a template.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// WCAG 2.2, definition of relative luminance and contrast ratio.
fn contrast(one: &str, other: &str) -> f64 {
    let luminance = |colour: &str| {
        let channel = |at: usize| {
            let value = f64::from(u8::from_str_radix(&colour[at..at + 2], 16).expect("two hexadecimal digits")) / 255.0;
            if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
    };
    let (a, b) = (luminance(one), luminance(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// The blocks of tokens in the style sheet, by the name after `tokens:`.
fn tokens() -> BTreeMap<String, BTreeMap<String, String>> {
    let sheet = fs::read_to_string("static/style.css").unwrap();
    let mut blocks = BTreeMap::new();
    for part in sheet.split("/* tokens: ").skip(1) {
        let (name, rest) = part.split_once(" */").unwrap();
        // Up to the block's end; a token's value holds no brace.
        let body = rest.split_once('}').unwrap().0;
        let declared = body
            .lines()
            .filter_map(|line| line.trim().strip_prefix("--")?.split_once(':'))
            .map(|(token, value)| (token.to_owned(), value.trim().trim_end_matches(';').to_owned()))
            .filter(|(_, value)| value.len() == 7 && value.starts_with('#'))
            .collect();
        blocks.insert(name.to_owned(), declared);
    }
    blocks
}

#[test]
fn text_has_seven_to_one_on_every_ground_and_lines_three_to_one() {
    let blocks = tokens();
    assert!(blocks.len() >= 3, "light, dark, and dark by the device: {:?}", blocks.keys());
    for (name, token) in &blocks {
        for ground in ["paper", "sheet", "wash"] {
            for text in ["ink", "quiet", "accent", "ready", "check", "calibrate"] {
                let ratio = contrast(&token[text], &token[ground]);
                assert!(ratio >= 7.0, "{name}: {text} on {ground} is {ratio:.2}");
            }
            let ratio = contrast(&token["edge"], &token[ground]);
            assert!(ratio >= 3.0, "{name}: edge on {ground} is {ratio:.2}");
        }
        for ground in ["accent", "accent-press"] {
            let ratio = contrast(&token["on-accent"], &token[ground]);
            assert!(ratio >= 7.0, "{name}: on-accent on {ground} is {ratio:.2}");
        }
    }
}

#[test]
fn contrast_is_that_of_the_standard() {
    // Source: WCAG 2.2, the ratio of black on white is 21, of equal colours 1; #767676 on white is the usual example of
    // the darkest grey that passes 4.5 (4.54, from memory).
    assert!((contrast("#000000", "#ffffff") - 21.0).abs() < 1e-9);
    assert!((contrast("#5b3a6b", "#5b3a6b") - 1.0).abs() < 1e-9);
    assert!((contrast("#767676", "#ffffff") - 4.54).abs() < 0.005);
}

#[test]
fn no_template_carries_style_script_or_an_unescaped_value() {
    let mut seen = 0;
    each_file(Path::new("templates"), &mut |path, text| {
        seen += 1;
        for banned in
            [" style=\"", "<style", "javascript:", " onclick=", " onchange=", " onsubmit=", "|safe", "type=\"number\""]
        {
            assert!(!text.contains(banned), "{} holds {banned:?}", path.display());
        }
        for script in text.split("<script").skip(1) {
            assert!(script.trim_start().contains("src=\""), "{} holds an inline script", path.display());
        }
    });
    assert!(seen > 5, "the templates were found");
}

fn each_file(folder: &Path, see: &mut impl FnMut(&Path, &str)) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            each_file(&path, see);
        } else {
            see(&path, &fs::read_to_string(&path).unwrap());
        }
    }
}
