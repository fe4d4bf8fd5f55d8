//! Signing: an agronomist puts their name under what usage said of a question at a moment. Later records may change the
//! answer; what was signed stays as it was, and its page says what is different now.

pub(crate) mod act;
mod api;
mod contents;
mod page;
pub mod store;

use crate::web::routes::Route;

pub(super) fn routes() -> Vec<Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}
