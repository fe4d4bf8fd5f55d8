//! Seeders: the machines and their metering units.

pub mod act;
mod api;
mod change_page;
mod draft;
pub mod key_in;
pub mod keyed_in;
mod page;
pub mod store;
mod unit_page;

pub use draft::Drive;
pub(crate) use page::about;

use crate::web::routes::Route;

/// The routes of seeders.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes(), change_page::routes(), unit_page::routes()].into_iter().flatten().collect()
}
