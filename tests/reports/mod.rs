//! Reports: what stands on a cab card and on a stamp, who sees it, and how a print-out is checked.

mod book;
mod card;
mod check;
mod lot;
mod season;
mod sight;
mod usage;

use crate::world::Person;

/// A page that must be there.
pub async fn page(person: &Person, path: &str) -> String {
    let page = person.get(&format!("/page{path}")).await;
    assert_eq!(page.status, 200, "{path}: {}", page.text);
    page.text
}

/// What stands between two texts, for the first time.
#[track_caller]
pub fn between<'p>(page: &'p str, before: &str, after: &str) -> &'p str {
    let (_, rest) = page.split_once(before).unwrap_or_else(|| panic!("no {before} in {page}"));
    rest.split_once(after).unwrap_or_else(|| panic!("no {after} after {before}")).0
}
