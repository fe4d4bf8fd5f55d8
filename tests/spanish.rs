//! Somebody who reads Spanish, and whether a page keeps English from them.

use crate::people::browser::Browser;
use crate::world::{Person, World};
use sowmark::access::Role;

const ENGLISH: &str = include_str!("../texts/en.ftl");

/// A browser of somebody who has chosen Spanish and a decimal comma.
pub async fn reader(world: &World, person: &Person, role: Role) -> Browser {
    let mut browser = Browser::of(world, person, role).await;
    let chosen = [("units", "organization"), ("decimal_sign", "comma"), ("language", "es")];
    assert_eq!(browser.submit(world, "/account/reading", &chosen).await.status, 303);
    browser
}

/// Sentences of the server's English texts that stand in the main part of a page, beside the values of its fields: each on
/// one line, without variables, and of several words, so that none is there by chance.
pub fn english_in(page: &str) -> Vec<&'static str> {
    let (_, main) = page.split_once("<main").unwrap_or(("", page));
    let pieces = main.split(" value=\"").enumerate();
    let main: String = pieces
        .map(|(at, piece)| if at == 0 { piece } else { piece.split_once('"').map_or("", |(_, rest)| rest) })
        .collect();
    let texts =
        ENGLISH.lines().filter(|line| !line.starts_with([' ', '#', '}'])).filter_map(|line| line.split_once(" = "));
    texts
        .map(|(_, text)| text)
        .filter(|text| text.contains(' ') && !text.contains('{') && main.contains(text))
        .collect()
}

/// Asserts that a page says each of these, and nothing in English.
#[track_caller]
pub fn says(page: &str, all: &[&str]) {
    for words in all {
        assert!(page.contains(words), "{words} is missing: {page}");
    }
    assert_eq!(english_in(page), Vec::<&str>::new(), "{page}");
}
