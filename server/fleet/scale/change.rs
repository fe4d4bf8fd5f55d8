//! What is changed of a scale: its name, its smallest step, its capacity. Calibrations keep those that they were judged with
//! among their circumstances; the scale's checks are judged by the step as it stands.

use super::act::{ScaleDraft, ScaleRow, check, find_scale};
use super::store;
use crate::access::Permission;
use crate::db::kind::Kind;
use crate::web::change::{self, Change, Changeable};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::quantity::as_sent;
use serde_json::{Value, json};
use sowmark_core::ids::ScaleId;
use sowmark_core::quantity::unit::dimension::Mass;

impl Changeable for ScaleDraft {}

impl ScaleRow {
    /// As it would be added.
    pub(super) fn tree(&self) -> Result<Value, Error> {
        let (readability, capacity) = (as_sent::<Mass>(&self.readability)?, as_sent::<Mass>(&self.capacity)?);
        Ok(json!({ "name": self.name, "readability": readability, "capacity": capacity }))
    }
}

/// Changes a scale.
///
/// # Errors
/// 403 by role; 404 when there is none; 422 for faults.
pub async fn change_scale(signed: &Signed, id: ScaleId, change: &Change<ScaleDraft>) -> Result<(), Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let mut work = signed.app.work(&grant).await?;
    let scope = &signed.actor.scope;
    let before = find_scale(&mut work.cx(), scope, id).await?.tree()?;
    let draft = change.onto(&before)?;
    check(&draft)?;
    store::change(&mut work, id, &draft).await?;
    let after = find_scale(&mut work.cx(), scope, id).await?.tree()?;
    change::commit::<ScaleDraft>(work, Kind::Scale, id.0, (&before, &after)).await
}
