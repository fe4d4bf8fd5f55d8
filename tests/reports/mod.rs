//! Reports: what stands on a cab card and on a stamp, who sees it, and how a print-out is checked.

mod book;
mod card;
mod check;
mod lot;
mod season;
mod sight;
mod usage;

use crate::world::{Person, World};
use sowmark::db::Db;
use std::time::Duration;

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

/// How many connections are in use for reading.
pub fn in_use(world: &World) -> usize {
    match &world.app.db {
        Db::Sqlite { read, .. } => read.size() as usize - read.num_idle(),
        Db::Postgres(pool) => pool.size() as usize - pool.num_idle(),
    }
}

/// Waits until no connection is in use.
pub async fn until_idle(world: &World) {
    for _ in 0..100 {
        if in_use(world) == 0 {
            return;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    panic!("a connection is still in use after 5 s");
}
