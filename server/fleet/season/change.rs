//! What is changed of a season: its name, its first day, the crops it is for. Readiness goes by them as they stand, for past
//! moments too: what is due is as known now.

use super::act::{SeasonDraft, SeasonRow, find_season};
use super::store;
use crate::access::Permission;
use crate::db::kind::Kind;
use crate::web::change::{self, Change, Changeable};
use crate::web::door::Signed;
use crate::web::error::Error;
use serde_json::{Value, json};
use sowmark_core::ids::SeasonId;

impl Changeable for SeasonDraft {}

impl SeasonRow {
    /// As it would be added.
    pub(super) fn tree(&self) -> Result<Value, Error> {
        Ok(json!({ "name": self.name, "starts_on": self.starts_on, "crops": self.crop_list()? }))
    }
}

/// Changes a season.
///
/// # Errors
/// 403 by role; 404 when there is none; 422 for faults.
pub async fn change_season(signed: &Signed, id: SeasonId, change: &Change<SeasonDraft>) -> Result<(), Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let mut work = signed.app.work(&grant).await?;
    let scope = &signed.actor.scope;
    let before = find_season(&mut work.cx(), scope, id).await?.tree()?;
    store::change(&mut work, id, &change.onto(&before)?).await?;
    let after = find_season(&mut work.cx(), scope, id).await?.tree()?;
    change::commit::<SeasonDraft>(work, Kind::Season, id.0, (&before, &after)).await
}
