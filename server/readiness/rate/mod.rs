//! From the number in force to the field: the roller speed for a rate at a driving speed, whether the drive can hold it,
//! how far rate and speed can go, what a ground drive gives, and where to begin when a gate must be set anew.
//!
//! The arithmetic is `core`'s; here the number in force is fetched, what was asked is read, and the answer is shown.

mod api;
mod asked;
mod at_work;
mod gate;
mod ground;
mod page;
mod table;

pub use at_work::{AtWork, no_number};
pub use table::{Middle, Near, Row, Table, roller_speeds_around};

use crate::web::routes::Route;

pub(super) fn routes() -> Vec<Route> {
    [api::routes(), page::routes(), gate::routes()].into_iter().flatten().collect()
}
