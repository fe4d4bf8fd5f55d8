//! Lot tests in the database.

use super::act::LotTestDraft;
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::records::head::Head;
use crate::web::input::Percent;
use crate::{args, queries};
use sowmark_core::ids::{LotId, RecordId};
use uuid::Uuid;

queries! {
    ADD = "insert into lot_test (organization_id, id, lot_id, thousand_seed_weight, bulk_density, germination_percent,
            purity_percent, moisture_percent) values ($1, $2, $3, $4, $5, $6, $7, $8)";
    FIND = "select r.*, t.lot_id, t.thousand_seed_weight, t.bulk_density, t.germination_percent, t.purity_percent,
            t.moisture_percent
        from lot_test t join recorded r on r.organization_id = t.organization_id and r.id = t.id
        where t.organization_id = $1 and t.id = $2";
    PAGE = "select r.*, t.lot_id, t.thousand_seed_weight, t.bulk_density, t.germination_percent, t.purity_percent,
            t.moisture_percent
        from lot_test t join recorded r on r.organization_id = t.organization_id and r.id = t.id
        where t.organization_id = $1 and t.lot_id = $2 and t.id > $3 order by t.id limit $4";
    LIST = "select r.*, t.lot_id, t.thousand_seed_weight, t.bulk_density, t.germination_percent, t.purity_percent,
            t.moisture_percent
        from lot_test t join recorded r on r.organization_id = t.organization_id and r.id = t.id
        where t.organization_id = $1 and t.lot_id = $2
        order by r.occurred_at desc, r.recorded_at desc, r.id desc";
}

/// A lot test; measured values as entered.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct LotTestRow {
    #[sqlx(flatten)]
    pub head: Head,
    pub lot_id: Uuid,
    pub thousand_seed_weight: Option<String>,
    pub bulk_density: Option<String>,
    pub germination_percent: Option<String>,
    pub purity_percent: Option<String>,
    pub moisture_percent: Option<String>,
}

pub(super) async fn add(work: &mut Work, id: RecordId, lot: LotId, draft: &LotTestDraft) -> Result<()> {
    let organization = work.organization();
    let percent = |of: &Option<Percent>| of.as_ref().map(|percent| percent.0.as_str().to_owned());
    let values = args![
        organization,
        id,
        lot,
        draft.thousand_seed_weight.as_ref().map(sowmark_core::quantity::SeedWeight::entered),
        draft.bulk_density.as_ref().map(sowmark_core::quantity::BulkDensity::entered),
        percent(&draft.germination_percent),
        percent(&draft.purity_percent),
        percent(&draft.moisture_percent)
    ];
    work.cx().execute(ADD, values).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: RecordId) -> Result<Option<LotTestRow>> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await
}

pub(super) async fn page(
    cx: &mut Cx<'_>,
    scope: &Scope,
    lot: LotId,
    after: Uuid,
    limit: i64,
) -> Result<Vec<LotTestRow>> {
    cx.fetch_all(PAGE, args![scope.organization, lot, after, limit]).await
}

pub(super) async fn list(cx: &mut Cx<'_>, scope: &Scope, lot: LotId) -> Result<Vec<LotTestRow>> {
    cx.fetch_all(LIST, args![scope.organization, lot]).await
}
