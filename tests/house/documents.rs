//! What the documents for people name is there.

use std::fs;
use std::path::Path;

/// Words in backquotes that look like a path of this project.
fn named_paths(text: &str) -> Vec<&str> {
    let roots =
        ["server/", "core/", "tests/", "templates/", "static/", "migrations/", "scripts/", "benches/", "docs/", ".ci/"];
    text.split('`')
        .skip(1)
        .step_by(2)
        .filter(|word| roots.iter().any(|root| word.starts_with(root)) && !word.contains([' ', '{', '*', '…']))
        .collect()
}

#[test]
fn every_path_that_a_document_names_exists() {
    for document in ["README.md", "DEVELOPERS.md", "SECURITY.md"] {
        let text = fs::read_to_string(document).unwrap();
        for path in named_paths(&text) {
            assert!(Path::new(path).exists(), "{document} names {path}");
        }
    }
    let tour = fs::read_to_string("DEVELOPERS.md").unwrap();
    assert!(named_paths(&tour).len() > 30, "the tour names its files");
}

#[test]
fn the_developers_table_of_routes_is_the_tested_one() {
    let tour = fs::read_to_string("DEVELOPERS.md").unwrap();
    assert!(tour.contains("`tests/house/routes.txt`"), "the table of who may call what is linked");
}
