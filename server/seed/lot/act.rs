//! What is done with lots.

use super::label::{self, LabelDraft};
use super::store::{self, LotRow};
use crate::access::{Grant, Permission, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::seed::client;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::{At, Faults, Name, Percent, Text};
use crate::web::paging::{Gathered, List, PageAsked};
use crate::{input, saying, words};
use jiff::ToSpan;
use jiff::civil::Date;
use serde_json::Value;
use sowmark_core::ids::{ClientId, LotId};
use sowmark_core::quantity::Mass;
use sowmark_core::say;
use sowmark_core::words::Words;

words! {
    /// What a lot is of.
    pub enum Material {
        Seed = "seed",
        Fertilizer = "fertilizer",
        Other = "other",
    }
}

impl Material {
    /// For a person.
    #[must_use]
    pub fn says(self, words: Words) -> String {
        match self {
            Self::Seed => say!(words, "lot-material-seed"),
            Self::Fertilizer => say!(words, "lot-material-fertilizer"),
            Self::Other => say!(words, "lot-material-other"),
        }
    }
}

input! {
    /// What seed was treated with.
    pub struct TreatmentDraft {
        pub product: Name,
        /// What the label warns of.
        pub caution: Option<Text<2000>>,
    }
}

input! {
    /// The analysis on the label.
    pub struct AnalysisDraft {
        pub purity_percent: Option<Percent>,
        pub germination_percent: Option<Percent>,
        pub tested_on: Option<Date>,
    }
}

input! {
    /// A lot of seed, or of another dry product.
    pub entry struct LotDraft {
        pub lot_number: Name,
        /// Seed unless told.
        pub material: Option<Material>,
        /// The species; of a lot that is not seed, the product.
        pub crop: Name,
        pub variety: Option<Name>,
        pub supplier: Option<Name>,
        pub received_on: Option<Date>,
        pub received_mass: Option<Mass>,
        /// Null: not treated.
        pub treatment: Option<TreatmentDraft>,
        pub analysis: Option<AnalysisDraft>,
        /// What else the label and the certificates state.
        pub label: Option<LabelDraft>,
        /// Whose it is, where the organization sows for others.
        pub client_id: Option<ClientId>,
    }
}

/// Adds a lot.
///
/// # Errors
/// 403 by role; 404 for a client that is not there; 409 for a taken id; 422 for shares that are more than the whole.
pub async fn add_lot(signed: &Signed, draft: LotDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::KeepLots)?;
    check(signed, &grant, &draft)?;
    let mut conn = signed.app.read().await?;
    client::act::named_client(&mut conn.cx(), &signed.actor.scope, draft.client_id).await?;
    drop(conn);
    let new =
        NewEntry { id: draft.id, kind: Kind::Lot, parent: None, happened: None, corrects: None, sent: sent.clone() };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, LotId(id), &draft).await?;
    work.commit(Audit::created(Kind::Lot, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// What no single field can know.
///
/// # Errors
/// 422 with every such fault.
pub(super) fn check(signed: &Signed, grant: &Grant, draft: &LotDraft) -> Result<(), Error> {
    let mut faults = Faults::default();
    // A program may know better; who fills in a form and gives a day to come has mistaken the year.
    let tomorrow = signed.actor.time_zone.to_datetime(signed.app.clock.now()).date().saturating_add(1.day());
    if grant.is_typed() && draft.received_on.is_some_and(|day| day > tomorrow) {
        faults.add::<()>(&At::default().key("received_on"), saying!("lot-received-ahead"));
    }
    label::check(draft, &mut faults);
    faults.finish(Some(()))
}

/// A lot.
///
/// # Errors
/// 404 when there is none within the scope.
pub async fn find_lot(cx: &mut Cx<'_>, scope: &Scope, id: LotId) -> Result<LotRow, Error> {
    let found = if scope.lots.includes(&id) { store::find(cx, scope, id).await? } else { None };
    found.ok_or_else(|| Error::not_there("seed lot"))
}

/// The lot that a record names.
///
/// # Errors
/// 404 at `/lot_id` when there is none within the scope.
pub async fn named_lot(cx: &mut Cx<'_>, scope: &Scope, id: LotId) -> Result<LotRow, Error> {
    match find_lot(cx, scope, id).await {
        Err(Error::NotThere { what, .. }) => Err(Error::not_there_at("/lot_id", what)),
        found => found,
    }
}

/// A page of the lots.
///
/// # Errors
/// The database.
pub async fn page_of_lots(cx: &mut Cx<'_>, scope: &Scope, asked: &PageAsked) -> Result<List<LotRow>, Error> {
    let mut gathered = Gathered::new(asked);
    while let Some((after, limit)) = gathered.wants() {
        let rows = store::page(cx, scope, after, limit).await?;
        gathered.add(rows, |row| row.id, |row| scope.lots.includes(&LotId(row.id)));
    }
    Ok(gathered.page(|row| row.id))
}

/// All lots by crop, variety and number.
///
/// # Errors
/// The database.
pub async fn lots(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<LotRow>, Error> {
    let mut rows = store::list(cx, scope).await?;
    rows.retain(|row| scope.lots.includes(&LotId(row.id)));
    Ok(rows)
}

/// Lots as a choice in a form: id, and crop, variety and number, with a word where the seed is treated.
#[must_use]
pub fn lots_in_choice(lots: &[LotRow], words: Words) -> Vec<(String, String)> {
    let label = |lot: &LotRow| {
        let called = lot.in_words(words);
        if lot.treatment_product.is_some() { say!(words, "lot-called-treated", lot = called) } else { called }
    };
    lots.iter().map(|lot| (lot.id.to_string(), label(lot))).collect()
}
