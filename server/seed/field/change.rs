//! What is changed of a field: its name, its area, whose it is. Jobs keep the area that was logged with them.

use super::act::{FieldDraft, find_field};
use super::store::{self, FieldRow};
use crate::access::Permission;
use crate::db::kind::Kind;
use crate::seed::client::act::named_client;
use crate::web::change::{self, Change, Changeable};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::quantity::as_sent;
use serde_json::{Value, json};
use sowmark_core::ids::FieldId;
use sowmark_core::quantity::unit::dimension::Area;

impl Changeable for FieldDraft {}

impl FieldRow {
    /// As it would be added.
    pub(super) fn tree(&self) -> Result<Value, Error> {
        Ok(json!({ "name": self.name, "area": as_sent::<Area>(&self.area)?, "client_id": self.client_id }))
    }
}

/// Changes a field.
///
/// # Errors
/// 403 by role; 404 when there is none, or for a client that is not there; 422 for faults.
pub async fn change_field(signed: &Signed, id: FieldId, change: &Change<FieldDraft>) -> Result<(), Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let mut work = signed.app.work(&grant).await?;
    let scope = &signed.actor.scope;
    let before = find_field(&mut work.cx(), scope, id).await?.tree()?;
    let draft = change.onto(&before)?;
    named_client(&mut work.cx(), scope, draft.client_id).await?;
    store::change(&mut work, id, &draft).await?;
    let after = find_field(&mut work.cx(), scope, id).await?.tree()?;
    change::commit::<FieldDraft>(work, Kind::Field, id.0, (&before, &after)).await
}
