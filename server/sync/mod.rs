//! Entries logged off line: taken in one by one (`act.rs`), each through the act of its own kind; what is refused is kept
//! (`refused.rs`) until somebody mends or drops it.
//!
//! Nothing here decides whether a record is right: that is its kind's act's business, as for every other way in.

pub mod act;
mod api;
pub mod entry;
pub mod kind;
pub mod mend;
mod page;
pub mod refused;
pub mod store;
mod told;

use crate::access::Actor;
use crate::db::Cx;
use crate::web::error::Error;
use crate::web::routes::Route;

/// The sentence of the Readiness page on what waits; none when nothing does.
///
/// # Errors
/// The database.
pub async fn waiting_says(cx: &mut Cx<'_>, actor: &Actor) -> Result<Option<String>, Error> {
    Ok(match refused::waiting(cx, actor).await? {
        0 => None,
        1 => Some("One entry that was logged without signal was not taken in.".to_owned()),
        count => Some(format!("{count} entries that were logged without signal were not taken in.")),
    })
}

/// The routes of entries logged off line.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}

/// The queries of entries logged off line.
pub const QUERIES: &[&[(&str, &str)]] = &[store::ALL];
