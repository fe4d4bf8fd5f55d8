//! What is done with configurations: record that a seeder's working width or row spacing changed.

use super::store;
pub use super::store::ConfigurationRow;
use crate::access::{Permission, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::fleet::seeder::act::find_seeder;
use crate::input;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::{At, Faults, part};
use crate::web::paging::{List, PageAsked};
use jiff::Timestamp;
use serde_json::{Map, Value};
use sowmark_core::ids::SeederId;
use sowmark_core::quantity::Length;
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

input! {
    /// A seeder's working width and row spacing, from a moment on.
    pub record struct ConfigurationDraft {
        pub working_width: Length,
        pub row_spacing: Length,
    } with check_width
}

/// Wider is a slip of the decimal sign, m. (Ours, no source.)
const WIDEST: f64 = 100.0;

/// What a length alone cannot know: that it is a machine's width, and that rows lie within it.
pub fn check_width(fields: &Map<String, Value>, at: &At, faults: &mut Faults) {
    let (width, spacing) = (part::<Length>(fields, "working_width"), part::<Length>(fields, "row_spacing"));
    if let Some(width) = width.clone().filter(|width| width.si() > WIDEST) {
        faults.add::<()>(&at.key("working_width"), move |words: Words| {
            say!(words, "configuration-too-wide", width = words.entered(&width))
        });
    }
    let Some((width, spacing)) = width.zip(spacing).filter(|(width, spacing)| spacing.si() > width.si()) else {
        return;
    };
    faults.add::<()>(&at.key("row_spacing"), move |words: Words| {
        let (spacing, width) = (words.entered(&spacing), words.entered(&width));
        say!(words, "configuration-spacing-too-wide", spacing = spacing, width = width)
    });
}

/// Records a configuration.
///
/// # Errors
/// 403 by role; 404 without the seeder; 409 for a taken id; 422 for faults.
pub async fn add_configuration(
    signed: &Signed,
    seeder: SeederId,
    draft: ConfigurationDraft,
    sent: Value,
) -> Result<Outcome, Error> {
    let grant = signed.actor.grant_on(Permission::KeepFleet, seeder)?;
    find_seeder(&mut signed.app.read().await?.cx(), &signed.actor.scope, seeder).await?;
    let new = NewEntry {
        id: draft.id,
        kind: Kind::Configuration,
        parent: Some(seeder.0),
        happened: Some(draft.occurred_at),
        corrects: draft.corrects,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, id, seeder, &draft.working_width, &draft.row_spacing).await?;
    work.commit(Audit::created(Kind::Configuration, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// A configuration record of a seeder within the scope.
///
/// # Errors
/// 404 when there is none.
pub async fn find_configuration(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<ConfigurationRow, Error> {
    let found = store::find(cx, scope, id).await?;
    found
        .filter(|row| scope.seeders.includes(&SeederId(row.seeder_id)))
        .ok_or_else(|| Error::not_there("configuration"))
}

/// A page of the configurations of a seeder.
///
/// # Errors
/// 404 without the seeder.
pub async fn page_of_configurations(
    cx: &mut Cx<'_>,
    scope: &Scope,
    seeder: SeederId,
    asked: &PageAsked,
) -> Result<List<ConfigurationRow>, Error> {
    find_seeder(cx, scope, seeder).await?;
    let rows = store::page(cx, scope, seeder, asked.after(), asked.fetch()).await?;
    Ok(asked.page(rows, |row| row.head.id))
}

/// The configuration in force at a moment; before the seeder's commissioning, the one that it will have.
///
/// # Errors
/// The database.
pub async fn in_force(
    cx: &mut Cx<'_>,
    scope: &Scope,
    seeder: SeederId,
    at: Timestamp,
) -> Result<Option<ConfigurationRow>, Error> {
    match store::in_force(cx, scope, seeder, at).await? {
        Some(row) => Ok(Some(row)),
        None => Ok(store::first(cx, scope, seeder).await?),
    }
}
