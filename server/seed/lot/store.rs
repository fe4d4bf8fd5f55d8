//! Lots in the database.

use super::act::{LotDraft, Material};
use super::label::LabelRow;
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::{args, queries};
use sowmark_core::ids::{ClientId, LotId};
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

queries! {
    ADD = "insert into lot (organization_id, id, lot_number, material, crop, variety, supplier, received_on,
            received_mass, received_mass_kg, treatment_product, treatment_caution, purity_percent, germination_percent,
            tested_on, client_id, origin, category, certifying_authority, serial_number, sealed_in, declared_weight,
            containers, hermetic, hard_seed_percent, other_crop_percent, weed_seed_percent, inert_matter_percent,
            noxious_weeds, components, additives, inoculant_expires, test_report)
        values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20, $21, $22, $23,
            $24, $25, $26, $27, $28, $29, $30, $31, $32, $33)";
    CHANGE = "update lot set lot_number = $3, material = $4, crop = $5, variety = $6, supplier = $7, received_on = $8,
            received_mass = $9, received_mass_kg = $10, treatment_product = $11, treatment_caution = $12,
            purity_percent = $13, germination_percent = $14, tested_on = $15, client_id = $16, origin = $17, category = $18,
            certifying_authority = $19, serial_number = $20, sealed_in = $21, declared_weight = $22, containers = $23,
            hermetic = $24, hard_seed_percent = $25, other_crop_percent = $26, weed_seed_percent = $27,
            inert_matter_percent = $28, noxious_weeds = $29, components = $30, additives = $31, inoculant_expires = $32,
            test_report = $33
        where organization_id = $1 and id = $2";
    FIND = "select l.*, c.name as client_name from lot l
        left join client c on c.organization_id = l.organization_id and c.id = l.client_id
        where l.organization_id = $1 and l.id = $2";
    PAGE = "select l.*, c.name as client_name from lot l
        left join client c on c.organization_id = l.organization_id and c.id = l.client_id
        where l.organization_id = $1 and l.id > $2 order by l.id limit $3";
    LIST = "select l.*, c.name as client_name from lot l
        left join client c on c.organization_id = l.organization_id and c.id = l.client_id
        where l.organization_id = $1 order by l.crop, l.variety, l.lot_number, l.id";
}

/// A lot as it stands; measured values as entered.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct LotRow {
    pub id: Uuid,
    pub lot_number: String,
    pub material: String,
    pub crop: String,
    pub variety: Option<String>,
    pub supplier: Option<String>,
    pub received_on: Option<String>,
    pub received_mass: Option<String>,
    pub received_mass_kg: Option<f64>,
    pub treatment_product: Option<String>,
    pub treatment_caution: Option<String>,
    pub purity_percent: Option<String>,
    pub germination_percent: Option<String>,
    pub tested_on: Option<String>,
    pub client_id: Option<Uuid>,
    pub client_name: Option<String>,
    #[sqlx(flatten)]
    pub label: LabelRow,
}

impl LotRow {
    #[must_use]
    pub fn client(&self) -> Option<ClientId> {
        self.client_id.map(ClientId)
    }

    /// Whether plants come from it.
    #[must_use]
    pub fn is_seed(&self) -> bool {
        self.material == Material::Seed.word()
    }

    /// Crop, variety and number, as people tell lots apart.
    #[must_use]
    pub fn in_words(&self, words: Words) -> String {
        let (named, variety) = self.variety.as_deref().map_or(("crop", ""), |variety| ("variety", variety));
        let (crop, number) = (&self.crop, &self.lot_number);
        say!(words, "lot-called", named = named, crop = crop, variety = variety, number = number)
    }
}

pub(super) async fn add(work: &mut Work, id: LotId, draft: &LotDraft) -> Result<()> {
    put(work, ADD, id, draft).await
}

pub(super) async fn change(work: &mut Work, id: LotId, draft: &LotDraft) -> Result<()> {
    put(work, CHANGE, id, draft).await
}

/// Adding and changing take the same values in the same order.
async fn put(work: &mut Work, sql: &'static str, id: LotId, draft: &LotDraft) -> Result<()> {
    let organization = work.organization();
    let (treatment, analysis) = (draft.treatment.as_ref(), draft.analysis.as_ref());
    let label = LabelRow::of(draft.label.as_ref());
    let percent = |of: Option<&crate::web::input::Percent>| of.map(|percent| percent.0.as_str().to_owned());
    let values = args![
        organization,
        id,
        &draft.lot_number.0,
        draft.material.unwrap_or(Material::Seed).word(),
        &draft.crop.0,
        draft.variety.as_ref().map(|name| &name.0),
        draft.supplier.as_ref().map(|name| &name.0),
        draft.received_on,
        draft.received_mass.as_ref().map(sowmark_core::quantity::Mass::entered),
        draft.received_mass.as_ref().map(sowmark_core::quantity::Mass::si),
        treatment.map(|treatment| &treatment.product.0),
        treatment.and_then(|treatment| treatment.caution.as_ref()).map(|text| &text.0),
        percent(analysis.and_then(|analysis| analysis.purity_percent.as_ref())),
        percent(analysis.and_then(|analysis| analysis.germination_percent.as_ref())),
        analysis.and_then(|analysis| analysis.tested_on),
        draft.client_id,
        label.origin,
        label.category,
        label.certifying_authority,
        label.serial_number,
        label.sealed_in,
        label.declared_weight,
        label.containers,
        label.hermetic,
        label.hard_seed_percent,
        label.other_crop_percent,
        label.weed_seed_percent,
        label.inert_matter_percent,
        label.noxious_weeds,
        label.components,
        label.additives,
        label.inoculant_expires,
        label.test_report
    ];
    work.cx().execute(sql, values).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: LotId) -> Result<Option<LotRow>> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await
}

pub(super) async fn page(cx: &mut Cx<'_>, scope: &Scope, after: Uuid, limit: i64) -> Result<Vec<LotRow>> {
    cx.fetch_all(PAGE, args![scope.organization, after, limit]).await
}

pub(super) async fn list(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<LotRow>> {
    cx.fetch_all(LIST, args![scope.organization]).await
}
