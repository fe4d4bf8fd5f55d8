//! From plants wanted, or pure live seed wanted, to a rate and on to a roller speed: for a lot and a unit, or for figures
//! alone. Nothing is stored; the arithmetic is `core`'s ([`sowmark_core::seed`]).

mod answer;
mod api;
mod asked;
mod filled;
mod form;
mod page;

use crate::web::routes::Route;

/// The routes of the rate plan.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}
