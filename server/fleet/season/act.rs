//! What is done with seasons.

use super::store;
pub use super::store::SeasonRow;
use crate::access::{Permission, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::input;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::Name;
use crate::web::paging::{List, PageAsked};
use jiff::civil::Date;
use serde_json::Value;
use sowmark_core::ids::SeasonId;

input! {
    /// A season: every unit is caught again after its first day.
    pub entry struct SeasonDraft {
        pub name: Name,
        pub starts_on: Date,
        /// The crops it is for; none, or an empty list, for all.
        pub crops: Option<Vec<Name>>,
    }
}

/// Adds a season.
///
/// # Errors
/// 403 by role; 409 for a taken id.
pub async fn add_season(signed: &Signed, draft: SeasonDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let new =
        NewEntry { id: draft.id, kind: Kind::Season, parent: None, happened: None, corrects: None, sent: sent.clone() };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, SeasonId(id), &draft).await?;
    work.commit(Audit::created(Kind::Season, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// A season.
///
/// # Errors
/// 404 when there is none.
pub async fn find_season(cx: &mut Cx<'_>, scope: &Scope, id: SeasonId) -> Result<SeasonRow, Error> {
    store::find(cx, scope, id).await?.ok_or_else(|| Error::not_there("season"))
}

/// A page of the seasons.
///
/// # Errors
/// The database.
pub async fn page_of_seasons(cx: &mut Cx<'_>, scope: &Scope, asked: &PageAsked) -> Result<List<SeasonRow>, Error> {
    let rows = store::page(cx, scope, asked.after(), asked.fetch()).await?;
    Ok(asked.page(rows, |row| row.id))
}

/// All seasons, the latest start first.
///
/// # Errors
/// The database.
pub async fn seasons(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<SeasonRow>, Error> {
    store::list(cx, scope).await
}
