//! Entries logged off line: taken in one by one (`act.rs`), each through the act of its own kind; what is refused is kept
//! (`refused.rs`) until somebody mends or drops it, or until something that is stored lets it in (`again.rs`).
//!
//! Nothing here decides whether a record is right: that is its kind's act's business, as for every other way in.

pub mod act;
pub mod again;
mod api;
pub mod entry;
pub mod kind;
pub mod mend;
mod page;
pub mod refused;
pub mod store;
pub(crate) mod told;

use crate::access::Actor;
use crate::db::Cx;
use crate::web::error::Error;
use crate::web::routes::Route;
use sowmark_core::say;

/// The sentence of the Readiness page on what waits; none when nothing does.
///
/// # Errors
/// The database.
pub async fn waiting_says(cx: &mut Cx<'_>, actor: &Actor) -> Result<Option<String>, Error> {
    let waiting = u64::try_from(refused::waiting(cx, actor).await?).unwrap_or(0);
    Ok((waiting > 0).then(|| say!(actor.words(), "refused-waiting", count = waiting)))
}

/// The routes of entries logged off line.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}

/// The queries of entries logged off line.
pub const QUERIES: &[&[(&str, &str)]] = &[store::ALL];
