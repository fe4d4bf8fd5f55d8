//! Task data of machines (ISO 11783-10): a file is read, its tasks are shown with what they would become, and those that
//! somebody says yes to become jobs by the same act as any other job. Core reads the file; nothing here knows its format.

pub mod act;
mod api;
mod draft;
mod lines;
mod matches;
mod page;
pub mod store;

use crate::web::routes::Route;

/// The routes of task data.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}
