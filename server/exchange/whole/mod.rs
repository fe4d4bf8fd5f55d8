//! A whole organization in one file, for another server or for whoever wants to compute with it.
//!
//! Lines of JSON: the head, a line for each row, the end with a hash over all rows. `tables.rs` says what is in it,
//! `line.rs` how a row is written and read, `export.rs` and `import.rs` do it, `check.rs` is what an import must pass,
//! and a copy of a database, and what `sowmark verify` goes through.
//! The records stay what they were: an import adds nothing to them, so that an export of it is the same file.

mod api;
mod check;
pub mod export;
pub mod import;
mod line;
mod page;
mod sql;
pub mod tables;

pub use check::Checked;
pub use import::{Imported, Refused, import};
pub use sql::queries;

use crate::db::Cx;
use crate::web::error::Error;
use crate::web::routes::Route;
use sowmark_core::ids::OrganizationId;

/// The name of the format, in its head.
pub const FORMAT: &str = "sowmark organization";
/// The format's version. A column that is added makes a new one: a reader of the old would not know it. One that is added may
/// be empty, so files of earlier versions are taken in, and the columns that they lack are empty.
pub const VERSION: u32 = 3;

/// The routes of the export.
#[must_use]
pub fn routes() -> Vec<Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}

/// An organization that was gone through, by its name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Examined {
    pub organization: OrganizationId,
    pub name: String,
    pub checked: Checked,
}

/// Goes through every organization of a database.
///
/// # Errors
/// The database. What is wrong with an organization is no error but a fault.
pub async fn examine(cx: &mut Cx<'_>) -> Result<Vec<Examined>, Error> {
    let organizations: Vec<(uuid::Uuid, String)> = cx.fetch_all(sql::ORGANIZATIONS, &[]).await?;
    let mut examined = Vec::new();
    for (id, name) in organizations {
        let organization = OrganizationId(id);
        let checked = check::whole(cx, organization).await?;
        examined.push(Examined { organization, name, checked });
    }
    Ok(examined)
}

/// What the file is called.
fn file_name(organization: OrganizationId) -> String {
    format!("sowmark-{}.jsonl", organization.0)
}
