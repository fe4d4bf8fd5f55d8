//! What is changed of a roller: its label, its kind, its displacement. Calibrations keep what they were compared with among
//! their circumstances.

use super::act::{RollerDraft, find_roller};
use super::store::{self, RollerRow};
use crate::access::Permission;
use crate::db::kind::Kind;
use crate::web::change::{self, Change, Changeable};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::quantity::as_sent_if;
use serde_json::{Value, json};
use sowmark_core::ids::RollerId;
use sowmark_core::quantity::unit::dimension::Volume;

impl Changeable for RollerDraft {}

impl RollerRow {
    /// As it would be added.
    pub(super) fn tree(&self) -> Result<Value, Error> {
        let displacement = as_sent_if::<Volume>(self.displacement.as_deref())?;
        Ok(json!({ "label": self.label, "kind": self.kind, "displacement_per_rev": displacement }))
    }
}

/// Changes a roller.
///
/// # Errors
/// 403 by role; 404 when there is none; 422 for faults.
pub async fn change_roller(signed: &Signed, id: RollerId, change: &Change<RollerDraft>) -> Result<(), Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let mut work = signed.app.work(&grant).await?;
    let scope = &signed.actor.scope;
    let before = find_roller(&mut work.cx(), scope, id).await?.tree()?;
    store::change(&mut work, id, &change.onto(&before)?).await?;
    let after = find_roller(&mut work.cx(), scope, id).await?.tree()?;
    change::commit::<RollerDraft>(work, Kind::Roller, id.0, (&before, &after)).await
}
