//! Every language says what English says, with the same variables and variants.

use sowmark_core::texts::{Catalogue, ENGLISH};

use crate::ftl::{Texts, choices, english_files, languages, read, resolved, texts_of};

fn english() -> Texts {
    let mut all = Texts::new();
    for file in english_files() {
        for (key, variables) in texts_of(&read(&file)) {
            assert_eq!(all.insert(key.clone(), variables), None, "{file}: {key} stands twice");
        }
    }
    resolved(&all)
}

#[test]
fn spanish_is_one_of_them() {
    assert!(languages().contains(&"es".to_owned()));
    assert_eq!(read(ENGLISH.0), ENGLISH.1);
}

#[test]
fn each_has_every_key_of_english_and_no_other() {
    let english = english();
    for tag in languages() {
        let own = texts_of(&read(&format!("texts/{tag}.ftl")));
        let missing: Vec<_> = english.keys().filter(|key| !own.contains_key(*key)).collect();
        let orphans: Vec<_> = own.keys().filter(|key| !english.contains_key(*key)).collect();
        assert!(missing.is_empty(), "texts/{tag}.ftl lacks {missing:?}");
        assert!(orphans.is_empty(), "texts/{tag}.ftl has {orphans:?}, which English has not");
    }
}

/// A variable that a text does not name is lost to its readers; one that English does not know is never filled.
#[test]
fn each_text_has_the_variables_of_english() {
    let english = english();
    for tag in languages() {
        for (key, variables) in resolved(&texts_of(&read(&format!("texts/{tag}.ftl")))) {
            assert_eq!(Some(&variables), english.get(&key), "{key} in texts/{tag}.ftl");
        }
    }
}

#[test]
fn each_text_has_the_variants_of_english() {
    let english: Vec<_> = english_files().iter().flat_map(|file| choices(&read(file))).collect();
    for tag in languages() {
        let own = choices(&read(&format!("texts/{tag}.ftl")));
        for (key, wanted) in &english {
            assert_eq!(own.get(key), Some(wanted), "{key} in texts/{tag}.ftl");
        }
    }
}

#[test]
fn each_makes_a_catalogue() {
    for tag in languages() {
        let path = format!("texts/{tag}.ftl");
        let catalogue = Catalogue::new(&tag, &[(&path, &read(&path))], None).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(catalogue.tag(), tag);
        assert_ne!(catalogue.text("language-name", &[]), "language-name");
    }
}
