//! What is changed of a lot: everything that was copied from its label, and whose it is. What it is of stays, and so does the
//! mass received: a stock is changed by movements.
//!
//! Readiness, usage and reports go by what stands now, for past moments too; calibrations keep what they were judged with.

use super::act::{LotDraft, check, find_lot};
use super::label::LabelRow;
use super::store::{self, LotRow};
use crate::access::Permission;
use crate::db::kind::Kind;
use crate::seed::client::act::named_client;
use crate::web::change::{self, Change, Changeable};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::quantity::as_sent_if;
use serde_json::{Value, json};
use sowmark_core::ids::LotId;
use sowmark_core::quantity::unit::dimension::Mass;

impl Changeable for LotDraft {
    const STAYS: &'static [(&'static str, &'static str)] =
        &[("material", "lot-material-stays"), ("received_mass", "lot-received-mass-stays")];
    const GROUPS: &'static [&'static str] = &["treatment", "analysis", "label"];
}

impl LotRow {
    /// As it would be added.
    pub(super) fn tree(&self) -> Result<Value, Error> {
        Ok(json!({
            "lot_number": self.lot_number,
            "material": self.material,
            "crop": self.crop,
            "variety": self.variety,
            "supplier": self.supplier,
            "received_on": self.received_on,
            "received_mass": as_sent_if::<Mass>(self.received_mass.as_deref())?,
            "treatment": { "product": self.treatment_product, "caution": self.treatment_caution },
            "analysis": {
                "purity_percent": self.purity_percent,
                "germination_percent": self.germination_percent,
                "tested_on": self.tested_on,
            },
            "label": self.label.tree()?,
            "client_id": self.client_id,
        }))
    }
}

impl LabelRow {
    fn tree(&self) -> Result<Value, Error> {
        Ok(json!({
            "origin": self.origin,
            "category": self.category,
            "certifying_authority": self.certifying_authority,
            "serial_number": self.serial_number,
            "sealed_in": self.sealed_in,
            "declared_weight": as_sent_if::<Mass>(self.declared_weight.as_deref())?,
            "containers": self.containers,
            "hermetic": self.hermetic,
            "hard_seed_percent": self.hard_seed_percent,
            "other_crop_percent": self.other_crop_percent,
            "weed_seed_percent": self.weed_seed_percent,
            "inert_matter_percent": self.inert_matter_percent,
            "noxious_weeds": self.noxious_weeds,
            "components": self.components,
            "additives": self.additives,
            "inoculant_expires": self.inoculant_expires,
            "test_report": self.test_report,
        }))
    }
}

/// Changes a lot.
///
/// # Errors
/// 403 by role; 404 when there is none, or for a client that is not there; 422 for faults.
pub async fn change_lot(signed: &Signed, id: LotId, change: &Change<LotDraft>) -> Result<(), Error> {
    let grant = signed.grant(Permission::KeepLots)?;
    let mut work = signed.app.work(&grant).await?;
    let scope = &signed.actor.scope;
    let before = find_lot(&mut work.cx(), scope, id).await?.tree()?;
    let draft = change.onto(&before)?;
    check(signed, &grant, &draft)?;
    named_client(&mut work.cx(), scope, draft.client_id).await?;
    store::change(&mut work, id, &draft).await?;
    let after = find_lot(&mut work.cx(), scope, id).await?.tree()?;
    change::commit::<LotDraft>(work, Kind::Lot, id.0, (&before, &after)).await
}
