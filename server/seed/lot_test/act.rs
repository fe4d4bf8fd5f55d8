//! What is done with lot tests.

use super::store::{self, LotTestRow};
use crate::access::{Permission, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::seed::lot;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::Percent;
use crate::web::paging::{List, PageAsked};
use crate::{input, saying};
use serde_json::Value;
use sowmark_core::ids::{LotId, RecordId};
use sowmark_core::quantity::{BulkDensity, SeedWeight};

input! {
    /// A measurement of a lot: at least one value.
    pub record struct LotTestDraft {
        /// Grams per thousand seeds.
        pub thousand_seed_weight: Option<SeedWeight>,
        pub bulk_density: Option<BulkDensity>,
        pub germination_percent: Option<Percent>,
        pub purity_percent: Option<Percent>,
        pub moisture_percent: Option<Percent>,
    }
}

impl LotTestDraft {
    fn is_empty(&self) -> bool {
        self.thousand_seed_weight.is_none()
            && self.bulk_density.is_none()
            && self.germination_percent.is_none()
            && self.purity_percent.is_none()
            && self.moisture_percent.is_none()
    }
}

/// Records a test of a lot.
///
/// # Errors
/// 403 by role; 404 for a lot outside the scope; 422 for a test that measured nothing; 409 for a taken id.
pub async fn record_lot_test(signed: &Signed, lot: LotId, draft: LotTestDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::TestLots)?;
    let mut conn = signed.app.read().await?;
    lot::act::find_lot(&mut conn.cx(), &signed.actor.scope, lot).await?;
    drop(conn);
    if draft.is_empty() {
        return Err(Error::fault("", saying!("test-of-nothing")));
    }
    let new = NewEntry {
        id: draft.id,
        kind: Kind::LotTest,
        parent: Some(lot.0),
        happened: Some(draft.occurred_at),
        corrects: draft.corrects,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, RecordId(id), lot, &draft).await?;
    work.commit(Audit::created(Kind::LotTest, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// A lot test.
///
/// # Errors
/// 404 when there is none within the scope.
pub async fn find_lot_test(cx: &mut Cx<'_>, scope: &Scope, id: RecordId) -> Result<LotTestRow, Error> {
    let found = store::find(cx, scope, id).await?;
    found.filter(|row| scope.lots.includes(&LotId(row.lot_id))).ok_or_else(|| Error::not_there("lot test"))
}

/// A page of the tests of a lot.
///
/// # Errors
/// 404 for a lot outside the scope.
pub async fn page_of_lot_tests(
    cx: &mut Cx<'_>,
    scope: &Scope,
    lot: LotId,
    asked: &PageAsked,
) -> Result<List<LotTestRow>, Error> {
    lot::act::find_lot(cx, scope, lot).await?;
    let rows = store::page(cx, scope, lot, asked.after(), asked.fetch()).await?;
    Ok(asked.page(rows, |row| row.head.id))
}

/// Every test of a lot, newest first.
///
/// # Errors
/// The database.
pub async fn lot_tests(cx: &mut Cx<'_>, scope: &Scope, lot: LotId) -> Result<Vec<LotTestRow>, Error> {
    Ok(store::list(cx, scope, lot).await?)
}

/// What is known of a lot: the latest standing test of each measure, each on its own.
#[derive(Clone, Debug, Default)]
pub struct Known {
    pub thousand_seed_weight: Option<Measured>,
    pub bulk_density: Option<Measured>,
    pub germination_percent: Option<Measured>,
    pub purity_percent: Option<Measured>,
    pub moisture_percent: Option<Measured>,
}

/// A measured value as entered, and the test that it is from.
#[derive(Clone, Debug)]
pub struct Measured {
    pub entered: String,
    pub test: LotTestRow,
}

/// What is known of a lot by its tests.
///
/// # Errors
/// The database.
pub async fn known(cx: &mut Cx<'_>, scope: &Scope, lot: LotId) -> Result<Known, Error> {
    Ok(known_by(&lot_tests(cx, scope, lot).await?))
}

/// What tests, newest first, tell.
#[must_use]
pub fn known_by(tests: &[LotTestRow]) -> Known {
    let latest = |of: fn(&LotTestRow) -> &Option<String>| {
        let mut standing = tests.iter().filter(|test| test.head.stands());
        standing.find_map(|test| of(test).clone().map(|entered| Measured { entered, test: test.clone() }))
    };
    Known {
        thousand_seed_weight: latest(|test| &test.thousand_seed_weight),
        bulk_density: latest(|test| &test.bulk_density),
        germination_percent: latest(|test| &test.germination_percent),
        purity_percent: latest(|test| &test.purity_percent),
        moisture_percent: latest(|test| &test.moisture_percent),
    }
}
