//! What is done with scales: add one, and note what it read of a known mass.

use super::store;
pub use super::store::{CheckRow, ScaleRow};
use crate::access::{Permission, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::web::door::Signed;
use crate::web::error::{Error, Fault};
use crate::web::input::Name;
use crate::web::paging::{List, PageAsked};
use crate::web::saying::Saying;
use crate::{input, saying};
use serde_json::Value;
use sowmark_core::ids::ScaleId;
use sowmark_core::quantity::Mass;
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

input! {
    /// A balance.
    pub entry struct ScaleDraft {
        pub name: Name,
        /// Its smallest step.
        pub readability: Mass,
        /// The most that it weighs.
        pub capacity: Mass,
    }
}

input! {
    /// What a scale read of a known mass.
    pub record struct CheckDraft {
        /// The known mass.
        pub reference: Mass,
        /// What the scale showed.
        pub reading: Mass,
        /// What is marked on the known mass.
        pub reference_identity: Option<Name>,
        /// The certificate that says what it weighs: its number, and who issued it.
        pub certificate: Option<Name>,
    }
}

/// Adds a scale.
///
/// # Errors
/// 403 by role; 409 for a taken id; 422 for faults.
pub async fn add_scale(signed: &Signed, draft: ScaleDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    check(&draft)?;
    let new =
        NewEntry { id: draft.id, kind: Kind::Scale, parent: None, happened: None, corrects: None, sent: sent.clone() };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, ScaleId(id), &draft).await?;
    work.commit(Audit::created(Kind::Scale, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// What no single field can know.
///
/// # Errors
/// 422 with every such fault.
pub(super) fn check(draft: &ScaleDraft) -> Result<(), Error> {
    let mut faults = Vec::new();
    if draft.readability.is_zero() {
        faults.push(Fault::new("/readability", saying!("scale-step-zero")));
    }
    if draft.capacity.si() <= draft.readability.si() {
        let (capacity, step) = (draft.capacity.to_string(), draft.readability.to_string());
        let says = Saying::from(move |words: Words| {
            let (capacity, step) = (words.decimal(&capacity), words.decimal(&step));
            say!(words, "scale-capacity-too-small", capacity = capacity, step = step)
        });
        faults.push(Fault::new("/capacity", says));
    }
    if faults.is_empty() { Ok(()) } else { Err(Error::Faults(faults)) }
}

/// Records a scale check.
///
/// # Errors
/// 403 by role; 404 without the scale; 409 for a taken id; 422 for faults.
pub async fn add_check(signed: &Signed, scale: ScaleId, draft: CheckDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::Log)?;
    let row = find_scale(&mut signed.app.read().await?.cx(), &signed.actor.scope, scale).await?;
    let mut faults = Vec::new();
    if draft.reference.is_zero() {
        faults.push(Fault::new("/reference", saying!("scale-check-reference-zero")));
    }
    faults.extend(beyond("/reference", &draft.reference, &row)?);
    faults.extend(beyond("/reading", &draft.reading, &row)?);
    if !faults.is_empty() {
        return Err(Error::Faults(faults));
    }
    let new = NewEntry {
        id: draft.id,
        kind: Kind::ScaleCheck,
        parent: Some(scale.0),
        happened: Some(draft.occurred_at),
        corrects: draft.corrects,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add_check(&mut work, id, scale, &draft).await?;
    work.commit(Audit::created(Kind::ScaleCheck, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// A scale shows its capacity and a few steps more, and then nothing.
fn beyond(pointer: &'static str, mass: &Mass, scale: &ScaleRow) -> Result<Option<Fault>, Error> {
    const A_LITTLE_MORE: f64 = 1.01;
    let inconsistent = |_| Error::inconsistent("scale.capacity", &scale.capacity);
    let capacity = Mass::from_entered(&scale.capacity).map_err(inconsistent)?;
    if mass.si() <= A_LITTLE_MORE * capacity.si() {
        return Ok(None);
    }
    let mass = mass.clone();
    let says = Saying::from(move |words: Words| {
        say!(words, "scale-check-beyond", mass = words.entered(&mass), capacity = words.entered(&capacity))
    });
    Ok(Some(Fault::new(pointer, says)))
}

/// A scale.
///
/// # Errors
/// 404 when there is none.
pub async fn find_scale(cx: &mut Cx<'_>, scope: &Scope, id: ScaleId) -> Result<ScaleRow, Error> {
    store::find(cx, scope, id).await?.ok_or_else(|| Error::not_there("scale"))
}

/// A page of the scales.
///
/// # Errors
/// The database.
pub async fn page_of_scales(cx: &mut Cx<'_>, scope: &Scope, asked: &PageAsked) -> Result<List<ScaleRow>, Error> {
    let rows = store::page(cx, scope, asked.after(), asked.fetch()).await?;
    Ok(asked.page(rows, |row| row.id))
}

/// All scales by name, for a choice in a form.
///
/// # Errors
/// The database.
pub async fn scales(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<ScaleRow>, Error> {
    Ok(store::list(cx, scope).await?)
}

/// A scale check record.
///
/// # Errors
/// 404 when there is none.
pub async fn find_check(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<CheckRow, Error> {
    store::find_check(cx, scope, id).await?.ok_or_else(|| Error::not_there("scale check"))
}

/// A page of the checks of a scale.
///
/// # Errors
/// 404 without the scale.
pub async fn page_of_checks(
    cx: &mut Cx<'_>,
    scope: &Scope,
    scale: ScaleId,
    asked: &PageAsked,
) -> Result<List<CheckRow>, Error> {
    find_scale(cx, scope, scale).await?;
    let rows = store::page_of_checks(cx, scope, scale, asked.after(), asked.fetch()).await?;
    Ok(asked.page(rows, |row| row.head.id))
}

/// The last check of a scale up to a moment, of those that stand.
///
/// # Errors
/// The database.
pub async fn last_check(cx: &mut Cx<'_>, scope: &Scope, scale: ScaleId, at: i64) -> Result<Option<CheckRow>, Error> {
    Ok(store::last_check(cx, scope, scale, at).await?)
}

/// The latest checks of a scale, newest first, for its page.
///
/// # Errors
/// The database.
pub async fn latest_checks(cx: &mut Cx<'_>, scope: &Scope, scale: ScaleId) -> Result<Vec<CheckRow>, Error> {
    Ok(store::latest_checks(cx, scope, scale, 50).await?)
}
