//! Calibrations: what was caught at a metering unit, what that amounts to, and what the office decided about it.
//!
//! `core` measures and judges; here the sheet is read (`draft.rs`), the circumstances are gathered (`weigh.rs`) and both
//! are kept with the judgement (`store.rs`), so that it can be computed again (`stored.rs`).

pub mod act;
pub mod advice;
mod api;
mod around;
pub mod charts;
mod clues;
pub mod draft;
mod explained;
mod form;
mod list;
pub mod past;
pub mod preview;
mod record;
mod retyped;
pub mod runs;
mod sheet_page;
mod show;
pub mod store;
pub mod stored;
pub mod told;
mod typed;
pub mod view;
mod weigh;
pub mod with_lot;

use crate::web::routes::Route;

/// The routes of calibrations.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), sheet_page::routes(), record::routes(), list::routes(), explained::routes()]
        .into_iter()
        .flatten()
        .collect()
}

/// The queries of calibrations.
pub const QUERIES: &[&[(&str, &str)]] = &[store::ALL, past::ALL];
