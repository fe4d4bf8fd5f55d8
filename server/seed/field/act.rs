//! What is done with fields.

use super::store::{self, FieldRow};
use crate::access::{Permission, Reach, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::input;
use crate::seed::client;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::Name;
use crate::web::paging::{Gathered, List, PageAsked};
use serde_json::Value;
use sowmark_core::ids::{ClientId, FieldId};
use sowmark_core::quantity::Area;
use sowmark_core::words::Words;

input! {
    /// A field.
    pub entry struct FieldDraft {
        pub name: Name,
        pub area: Area,
        /// Whose it is, where the organization sows for others.
        pub client_id: Option<ClientId>,
    }
}

/// Adds a field.
///
/// # Errors
/// 403 by role; 404 for a client that is not there; 409 for a taken id.
pub async fn add_field(signed: &Signed, draft: FieldDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let mut conn = signed.app.read().await?;
    client::act::named_client(&mut conn.cx(), &signed.actor.scope, draft.client_id).await?;
    drop(conn);
    let new =
        NewEntry { id: draft.id, kind: Kind::Field, parent: None, happened: None, corrects: None, sent: sent.clone() };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, FieldId(id), &draft).await?;
    work.commit(Audit::created(Kind::Field, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// Whether a field is within a scope: who is limited to clients sees only theirs.
pub(crate) fn is_in_scope(scope: &Scope, client: Option<ClientId>) -> bool {
    match (&scope.clients, client) {
        (Reach::All, _) => true,
        (Reach::Only(_), None) => false,
        (reach, Some(client)) => reach.includes(&client),
    }
}

/// A field.
///
/// # Errors
/// 404 when there is none within the scope.
pub async fn find_field(cx: &mut Cx<'_>, scope: &Scope, id: FieldId) -> Result<FieldRow, Error> {
    let found = store::find(cx, scope, id).await?;
    found.filter(|row| is_in_scope(scope, row.client())).ok_or_else(|| Error::not_there("field"))
}

/// The field that a record names.
///
/// # Errors
/// 404 at `/field_id` when there is none within the scope.
pub async fn named_field(cx: &mut Cx<'_>, scope: &Scope, id: FieldId) -> Result<FieldRow, Error> {
    match find_field(cx, scope, id).await {
        Err(Error::NotThere { what, .. }) => Err(Error::not_there_at("/field_id", what)),
        found => found,
    }
}

/// A page of the fields.
///
/// # Errors
/// The database.
pub async fn page_of_fields(cx: &mut Cx<'_>, scope: &Scope, asked: &PageAsked) -> Result<List<FieldRow>, Error> {
    let mut gathered = Gathered::new(asked);
    while let Some((after, limit)) = gathered.wants() {
        let rows = store::page(cx, scope, after, limit).await?;
        gathered.add(rows, |row| row.id, |row| is_in_scope(scope, row.client()));
    }
    Ok(gathered.page(|row| row.id))
}

/// All fields by name, for a choice in a form.
///
/// # Errors
/// The database.
pub async fn fields(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<FieldRow>, Error> {
    let mut rows = store::list(cx, scope).await?;
    rows.retain(|row| is_in_scope(scope, row.client()));
    Ok(rows)
}

/// Fields as a choice: id, and name with area.
#[must_use]
pub fn fields_in_choice(fields: &[FieldRow], words: Words) -> Vec<(String, String)> {
    let label = |field: &FieldRow| format!("{}, {}", field.name, words.decimal(&field.area));
    fields.iter().map(|field| (field.id.to_string(), label(field))).collect()
}
