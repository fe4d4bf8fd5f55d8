//! Fields: where seed is sown.

pub mod act;
mod api;
pub mod change;
mod change_page;
pub(crate) mod page;
pub mod store;

use crate::web::routes::Route;

/// The routes of fields.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes(), change_page::routes()].into_iter().flatten().collect()
}
