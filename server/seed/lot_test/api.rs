//! Lot tests as JSON.

use super::act::{self, Known, LotTestDraft, Measured};
use super::store::LotTestRow;
use crate::access::{Permission, Scope};
use crate::records::head::HeadView;
use crate::seed::percent;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use serde_json::Number;
use sowmark_core::ids::{LotId, RecordId};
use sowmark_core::quantity::Dimension;
use sowmark_core::quantity::unit::dimension;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/lots/{id}/tests", Need::May(Permission::TestLots), record_lot_test, "Record a test of a seed lot.")
            .takes::<LotTestDraft>()
            .creates::<LotTestView>(),
        crate::route!(api GET "/lots/{id}/tests", Need::May(Permission::ReadLots), list_lot_tests, "List the tests of a seed lot.")
            .asks::<PageAsked>()
            .answers::<List<LotTestView>>(),
    ]
}

/// A test of a lot.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct LotTestView {
    #[serde(flatten)]
    head: HeadView,
    lot_id: Uuid,
    thousand_seed_weight: Option<Q>,
    bulk_density: Option<Q>,
    #[schema(value_type = Option<f64>)]
    germination_percent: Option<Number>,
    #[schema(value_type = Option<f64>)]
    purity_percent: Option<Number>,
    #[schema(value_type = Option<f64>)]
    moisture_percent: Option<Number>,
}

impl LotTestView {
    fn of(row: LotTestRow, scope: &Scope) -> Result<Self, Error> {
        Ok(Self {
            thousand_seed_weight: Q::stored_if::<dimension::SeedWeight>(row.thousand_seed_weight.as_deref())?,
            bulk_density: Q::stored_if::<dimension::BulkDensity>(row.bulk_density.as_deref())?,
            germination_percent: percent::stored_if(row.germination_percent.as_deref())?,
            purity_percent: percent::stored_if(row.purity_percent.as_deref())?,
            moisture_percent: percent::stored_if(row.moisture_percent.as_deref())?,
            lot_id: row.lot_id,
            head: HeadView::of(row.head, scope),
        })
    }
}

/// What is known of a lot: of each measure the latest test that stands.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct KnownView {
    thousand_seed_weight: Option<KnownQuantity>,
    bulk_density: Option<KnownQuantity>,
    germination_percent: Option<KnownPercent>,
    purity_percent: Option<KnownPercent>,
    moisture_percent: Option<KnownPercent>,
}

/// A measured quantity and the test that it is from.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct KnownQuantity {
    value: Q,
    occurred_at: String,
    lot_test_id: Uuid,
}

/// A measured share and the test that it is from.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct KnownPercent {
    #[schema(value_type = f64)]
    value: Number,
    occurred_at: String,
    lot_test_id: Uuid,
}

impl KnownQuantity {
    fn new<D: Dimension>(measured: Option<Measured>) -> Result<Option<Self>, Error> {
        let Some(Measured { entered, test }) = measured else { return Ok(None) };
        let occurred_at = test.head.stamp().rfc3339();
        Ok(Some(Self { value: Q::stored::<D>(&entered)?, occurred_at, lot_test_id: test.head.id }))
    }
}

impl KnownPercent {
    fn new(measured: Option<Measured>) -> Result<Option<Self>, Error> {
        let Some(Measured { entered, test }) = measured else { return Ok(None) };
        let occurred_at = test.head.stamp().rfc3339();
        let value = percent::stored_if(Some(&entered))?;
        Ok(value.map(|value| Self { value, occurred_at, lot_test_id: test.head.id }))
    }
}

impl TryFrom<Known> for KnownView {
    type Error = Error;

    fn try_from(known: Known) -> Result<Self, Error> {
        Ok(Self {
            thousand_seed_weight: KnownQuantity::new::<dimension::SeedWeight>(known.thousand_seed_weight)?,
            bulk_density: KnownQuantity::new::<dimension::BulkDensity>(known.bulk_density)?,
            germination_percent: KnownPercent::new(known.germination_percent)?,
            purity_percent: KnownPercent::new(known.purity_percent)?,
            moisture_percent: KnownPercent::new(known.moisture_percent)?,
        })
    }
}

async fn record_lot_test(
    signed: Signed,
    PathId(lot): PathId,
    sent: Sent<LotTestDraft>,
) -> Result<Created<LotTestView>, Error> {
    let outcome = act::record_lot_test(&signed, LotId(lot), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_lot_test(&mut conn.cx(), &signed.actor.scope, RecordId(outcome.id())).await?;
    Ok(Created(outcome, LotTestView::of(row, &signed.actor.scope)?))
}

async fn list_lot_tests(
    signed: Signed,
    PathId(lot): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<LotTestView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_lot_tests(&mut conn.cx(), &signed.actor.scope, LotId(lot), &asked).await?;
    Ok(Json(list.try_map(|row| LotTestView::of(row, &signed.actor.scope))?))
}
