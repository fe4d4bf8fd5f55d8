//! Reports: pages made to be printed and read on paper. Each carries a stamp (`stamp.rs`) that says what it is true for, so
//! that a print-out can be held against the audit trail later (`check.rs`).
//!
//! Nothing is computed here: a report asks the features' acts and shows their answers. It reads one state of the database,
//! the one whose head it names.

mod book;
mod cab_card;
mod check;
mod frame;
mod list;
mod lot_card;
mod machine;
pub(crate) mod parts;
mod period;
mod season;
pub mod stamp;
mod sums;
mod told;
mod unit;

pub(crate) use frame::Frame;
pub use stamp::Stamp;

use crate::web::routes::Route;

/// The routes of reports.
#[must_use]
pub fn routes() -> Vec<Route> {
    [list::routes(), cab_card::routes(), lot_card::routes(), season::routes(), check::routes(), book::routes()]
        .into_iter()
        .flatten()
        .collect()
}
