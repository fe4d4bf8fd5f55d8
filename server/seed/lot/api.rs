//! Lots as JSON.

use super::act::{self, LotDraft};
use super::change;
use super::label::LabelView;
use super::store::LotRow;
use crate::access::{Actor, Permission};
use crate::seed::lot_test;
use crate::seed::lot_test::api::KnownView;
use crate::seed::percent;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::change::Change;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use serde_json::Number;
use sowmark_core::ids::LotId;
use sowmark_core::quantity::unit::dimension;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/lots", Need::May(Permission::KeepLots), add_lot, "Add a seed lot.")
            .takes::<LotDraft>()
            .creates::<LotView>(),
        crate::route!(api GET "/lots", Need::May(Permission::ReadLots), list_lots, "List the seed lots.")
            .asks::<PageAsked>()
            .answers::<List<LotView>>(),
        crate::route!(api GET "/lots/{id}", Need::May(Permission::ReadLots), show_lot, "Show a seed lot, with what its tests say last.")
            .answers::<LotWithTestsView>(),
        crate::route!(api PATCH "/lots/{id}", Need::May(Permission::KeepLots), change_lot,
            "Change what was copied from a seed lot's label, or whose it is.")
        .takes::<Change<LotDraft>>()
        .answers::<LotView>(),
    ]
}

/// A seed lot.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct LotView {
    id: Uuid,
    lot_number: String,
    material: String,
    crop: String,
    variety: Option<String>,
    /// Left out where the reader's role does not see stock.
    #[serde(flatten)]
    stock: Option<StockView>,
    received_on: Option<String>,
    treatment: Option<TreatmentView>,
    analysis: Option<AnalysisView>,
    /// Null where nothing of it is known.
    label: Option<LabelView>,
    client_id: Option<Uuid>,
}

/// Where it came from and how much it was.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct StockView {
    supplier: Option<String>,
    received_mass: Option<Q>,
}

/// What it was treated with.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct TreatmentView {
    product: String,
    caution: Option<String>,
}

/// The analysis on the label.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct AnalysisView {
    #[schema(value_type = Option<f64>)]
    purity_percent: Option<Number>,
    #[schema(value_type = Option<f64>)]
    germination_percent: Option<Number>,
    tested_on: Option<String>,
}

/// A seed lot with what is known of it now.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct LotWithTestsView {
    #[serde(flatten)]
    lot: LotView,
    /// The latest standing test of each measure, each on its own.
    latest_tests: KnownView,
}

impl LotView {
    fn new(row: LotRow, actor: &Actor) -> Result<Self, Error> {
        let stock = if actor.may(Permission::ReadStock) {
            let received_mass = Q::stored_if::<dimension::Mass>(row.received_mass.as_deref())?;
            Some(StockView { supplier: row.supplier, received_mass })
        } else {
            None
        };
        let has_analysis = row.purity_percent.is_some() || row.germination_percent.is_some() || row.tested_on.is_some();
        let analysis = AnalysisView {
            purity_percent: percent::stored_if(row.purity_percent.as_deref())?,
            germination_percent: percent::stored_if(row.germination_percent.as_deref())?,
            tested_on: row.tested_on,
        };
        let caution = row.treatment_caution;
        Ok(Self {
            id: row.id,
            lot_number: row.lot_number,
            material: row.material,
            crop: row.crop,
            variety: row.variety,
            stock,
            received_on: row.received_on,
            treatment: row.treatment_product.map(|product| TreatmentView { product, caution }),
            analysis: has_analysis.then_some(analysis),
            label: LabelView::of(row.label, actor.may(Permission::ReadStock))?,
            client_id: row.client_id,
        })
    }
}

async fn add_lot(signed: Signed, sent: Sent<LotDraft>) -> Result<Created<LotView>, Error> {
    let outcome = act::add_lot(&signed, sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_lot(&mut conn.cx(), &signed.actor.scope, LotId(outcome.id())).await?;
    Ok(Created(outcome, LotView::new(row, &signed.actor)?))
}

async fn list_lots(signed: Signed, Asked(asked): Asked<PageAsked>) -> Result<Json<List<LotView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_lots(&mut conn.cx(), &signed.actor.scope, &asked).await?;
    Ok(Json(list.try_map(|row| LotView::new(row, &signed.actor))?))
}

async fn show_lot(signed: Signed, PathId(id): PathId) -> Result<Json<LotWithTestsView>, Error> {
    let mut conn = signed.app.read().await?;
    let row = act::find_lot(&mut conn.cx(), &signed.actor.scope, LotId(id)).await?;
    let known = lot_test::act::known(&mut conn.cx(), &signed.actor.scope, LotId(id)).await?;
    Ok(Json(LotWithTestsView { lot: LotView::new(row, &signed.actor)?, latest_tests: KnownView::try_from(known)? }))
}

async fn change_lot(signed: Signed, PathId(id): PathId, sent: Sent<Change<LotDraft>>) -> Result<Json<LotView>, Error> {
    change::change_lot(&signed, LotId(id), &sent.draft).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_lot(&mut conn.cx(), &signed.actor.scope, LotId(id)).await?;
    Ok(Json(LotView::new(row, &signed.actor)?))
}
