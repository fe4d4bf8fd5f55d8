//! What is done with rollers.

use super::store::{self, RollerRow};
use crate::access::{Permission, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::Name;
use crate::web::paging::{List, PageAsked};
use crate::{input, words};
use serde_json::Value;
use sowmark_core::ids::RollerId;
use sowmark_core::quantity::Volume;
use sowmark_core::say;
use sowmark_core::words::Words;

words! {
    /// How a roller takes seed along.
    pub enum RollerKind {
        Fluted = "fluted",
        Studded = "studded",
        Cell = "cell",
        Belt = "belt",
        Other = "other",
    }
}

impl RollerKind {
    /// As a person reads it.
    #[must_use]
    pub fn says(self, words: Words) -> String {
        let key = match self {
            Self::Fluted => "roller-kind-fluted",
            Self::Studded => "roller-kind-studded",
            Self::Cell => "roller-kind-cell",
            Self::Belt => "roller-kind-belt",
            Self::Other => "roller-kind-other",
        };
        say!(words, key)
    }
}

input! {
    /// A meter roller, or a type of it.
    pub entry struct RollerDraft {
        pub label: Name,
        pub kind: RollerKind,
        /// Volume delivered per revolution and run, where known.
        pub displacement_per_rev: Option<Volume>,
    }
}

/// Adds a roller.
///
/// # Errors
/// 403 by role; 409 for a taken id.
pub async fn add_roller(signed: &Signed, draft: RollerDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let new =
        NewEntry { id: draft.id, kind: Kind::Roller, parent: None, happened: None, corrects: None, sent: sent.clone() };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, RollerId(id), &draft).await?;
    work.commit(Audit::created(Kind::Roller, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// A roller.
///
/// # Errors
/// 404 when there is none.
pub async fn find_roller(cx: &mut Cx<'_>, scope: &Scope, id: RollerId) -> Result<RollerRow, Error> {
    store::find(cx, scope, id).await?.ok_or_else(|| Error::not_there("roller"))
}

/// A page of the rollers.
///
/// # Errors
/// The database.
pub async fn page_of_rollers(cx: &mut Cx<'_>, scope: &Scope, asked: &PageAsked) -> Result<List<RollerRow>, Error> {
    let rows = store::page(cx, scope, asked.after(), asked.fetch()).await?;
    Ok(asked.page(rows, |row| row.id))
}

/// All rollers by label, for a choice in a form.
///
/// # Errors
/// The database.
pub async fn rollers(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<RollerRow>, Error> {
    Ok(store::list(cx, scope).await?)
}
