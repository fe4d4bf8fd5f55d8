//! What is changed of a client: its name.

use super::act::{ClientDraft, find_client};
use super::store::{self, ClientRow};
use crate::access::Permission;
use crate::db::kind::Kind;
use crate::web::change::{self, Change, Changeable};
use crate::web::door::Signed;
use crate::web::error::Error;
use serde_json::{Value, json};
use sowmark_core::ids::ClientId;

impl Changeable for ClientDraft {}

impl ClientRow {
    /// As it would be added.
    pub(super) fn tree(&self) -> Value {
        json!({ "name": self.name })
    }
}

/// Changes a client.
///
/// # Errors
/// 403 by role; 404 when there is none; 422 for faults.
pub async fn change_client(signed: &Signed, id: ClientId, change: &Change<ClientDraft>) -> Result<(), Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let mut work = signed.app.work(&grant).await?;
    let scope = &signed.actor.scope;
    let before = find_client(&mut work.cx(), scope, id).await?.tree();
    store::change(&mut work, id, &change.onto(&before)?).await?;
    let after = find_client(&mut work.cx(), scope, id).await?.tree();
    change::commit::<ClientDraft>(work, Kind::Client, id.0, (&before, &after)).await
}
