//! What an organization that was taken in must pass before it lasts: the chain, the judgements, each entry's record, and
//! that every page can read it.

use super::import::Refused;
use super::sql::STATEMENTS;
use super::sql::{ENTRIES, JUDGED, OTHER_KIND, SEQ_AND_ZONE};
use crate::access::{Reach, Scope};
use crate::calibration::stored::{recheck, word};
use crate::db::Cx;
use crate::db::kind::Kind;
use crate::{args, audit, readiness};
use jiff::tz::TimeZone;
use sowmark_core::ids::OrganizationId;
use sowmark_core::verdict::Judgement;
use uuid::Uuid;

/// Checks an organization as it stands in an open transaction.
///
/// # Errors
/// The first thing that is wrong; the database.
pub(super) async fn whole(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<(), Refused> {
    let found: Option<(i64, String)> = cx.fetch_optional(SEQ_AND_ZONE, args![organization]).await?;
    let (seq, zone) = found.ok_or_else(|| wrong("the organization's own row is not in the file"))?;
    let zone = TimeZone::get(&zone).map_err(|_| wrong(format!("the time zone {zone:?} is not known here")))?;
    chain(cx, organization, seq).await?;
    entries(cx, organization).await?;
    judgements(cx, organization).await?;
    let scope = Scope { organization, seeders: Reach::All, lots: Reach::All, clients: Reach::All };
    readiness::act::histories(cx, &scope, &zone, None).await.map_err(|error| {
        error.log();
        wrong(format!("the records cannot be read: {error:?}"))
    })?;
    Ok(())
}

fn wrong(detail: impl Into<String>) -> Refused {
    Refused::Whole(detail.into())
}

async fn chain(cx: &mut Cx<'_>, organization: OrganizationId, seq: i64) -> Result<(), Refused> {
    match audit::verify(cx, organization).await? {
        Err(line) => Err(wrong(format!("the audit trail does not fit from its line {line} on: something was changed"))),
        Ok(head) if head.seq != seq => {
            Err(wrong(format!("the audit trail has {} lines, but {seq} were written: its end is missing", head.seq)))
        }
        Ok(_) => Ok(()),
    }
}

/// Every entry is of a kind that there is, a record has its moment, and each has its row in the table of its kind.
async fn entries(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<(), Refused> {
    let mut after = Uuid::nil();
    loop {
        let rows: Vec<(Uuid, String, Option<i64>, Option<i64>)> =
            cx.fetch_all(ENTRIES, args![organization, after]).await?;
        let Some((last, ..)) = rows.last() else { break };
        after = *last;
        for (id, word, at, offset) in &rows {
            let kind = Kind::from_word(word).ok_or_else(|| wrong(format!("the entry {id} is of no known kind")))?;
            if at.is_some() != offset.is_some() || (kind.is_record() && at.is_none()) {
                return Err(wrong(format!("the {kind} {id} does not say when it happened")));
            }
        }
    }
    let other: Option<(Uuid,)> = cx.fetch_optional(OTHER_KIND, args![organization]).await?;
    if let Some((id,)) = other {
        return Err(wrong(format!("the entry {id} corrects one of another kind")));
    }
    for statements in STATEMENTS.iter() {
        let Some(astray) = statements.astray else { continue };
        let name = statements.table.name;
        let found: Option<(Uuid,)> = cx.fetch_optional(astray, args![organization, name]).await?;
        if let Some((id,)) = found {
            return Err(wrong(format!("the entry {id} and the table {name} do not agree on what it is")));
        }
    }
    Ok(())
}

#[derive(sqlx::FromRow)]
struct Judged {
    id: Uuid,
    sheet: String,
    circumstances: String,
    judgement: String,
    verdict: String,
    factor: f64,
    expanded_uncertainty_percent: f64,
}

/// Every judgement follows from its sheet, computed anew, and the columns beside it say the same.
async fn judgements(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<(), Refused> {
    let mut after = Uuid::nil();
    loop {
        let rows: Vec<Judged> = cx.fetch_all(JUDGED, args![organization, after]).await?;
        let Some(last) = rows.last() else { return Ok(()) };
        after = last.id;
        for row in &rows {
            recheck(&row.sheet, &row.circumstances, &row.judgement)
                .map_err(|says| wrong(format!("calibration {}: {says}", row.id)))?;
            let judgement: Judgement = serde_json::from_str(&row.judgement).map_err(crate::web::error::Error::from)?;
            let agrees = word(&judgement.verdict)? == row.verdict
                && judgement.factor.to_bits() == row.factor.to_bits()
                && judgement.expanded_uncertainty_percent.to_bits() == row.expanded_uncertainty_percent.to_bits();
            if !agrees {
                return Err(wrong(format!(
                    "calibration {}: its factor or verdict is not that of its judgement",
                    row.id
                )));
            }
        }
    }
}
