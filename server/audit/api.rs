//! The trail as JSON.

use super::StoredLine;
use crate::access::Permission;
use crate::hex;
use crate::input;
use crate::web::api::Asked;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::Whole;
use crate::web::paging::List;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use serde_json::Value;
use uuid::Uuid;

/// The routes of the trail.
#[must_use]
pub fn routes() -> Vec<Route> {
    vec![
        crate::route!(api GET "/audit", Need::May(Permission::ReadAudit), list_audit, "The audit trail, oldest first.")
            .asks::<AuditAsked>()
            .answers::<List<AuditView>>(),
    ]
}

input! {
    /// Which part of the trail.
    pub struct AuditAsked {
        /// Only lines after this number.
        pub after: Option<Whole<0, 9_007_199_254_740_991>>,
        /// At most this many, 50 unless told.
        pub limit: Option<Whole<1, 500>>,
    }
}

/// A line of the audit trail. Of a line about what somebody limited to some clients may not see, `action` and the subject's
/// `kind` are `withheld`, its id is nil, `change` is null and nobody is named; its hash stands for it.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct AuditView {
    pub seq: i64,
    pub at: String,
    pub who: WhoView,
    pub action: String,
    pub subject: SubjectView,
    /// What changed, as JSON. To who is limited to some clients a `note` or `reason` of a record that belongs to no client is
    /// null: it is withheld.
    #[schema(value_type = Object)]
    pub change: Value,
    /// 64 hexadecimal digits.
    pub hash: String,
    pub previous_hash: String,
}

/// Who did something. Without an id: the command line of the host.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct WhoView {
    pub id: Option<Uuid>,
    pub name: String,
    pub email: Option<String>,
}

/// What was done something to.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct SubjectView {
    pub kind: String,
    pub id: Uuid,
}

impl From<StoredLine> for AuditView {
    fn from(line: StoredLine) -> Self {
        let at = jiff::Timestamp::from_microsecond(line.at).unwrap_or(jiff::Timestamp::UNIX_EPOCH);
        let nobody = if line.is_withheld() { "" } else { "command line" };
        Self {
            seq: line.seq,
            at: at.to_string(),
            who: WhoView {
                id: line.account_id,
                name: line.name.unwrap_or_else(|| nobody.to_owned()),
                email: line.email,
            },
            action: line.action,
            subject: SubjectView { kind: line.subject_kind, id: line.subject_id },
            change: serde_json::from_str(&line.change).unwrap_or(Value::String(line.change)),
            hash: hex::written(&line.hash),
            previous_hash: hex::written(&line.previous_hash),
        }
    }
}

async fn list_audit(signed: Signed, Asked(asked): Asked<AuditAsked>) -> Result<Json<List<AuditView>>, Error> {
    let limit = asked.limit.map_or(50, |limit| limit.0);
    let after = asked.after.map_or(0, |after| after.0);
    let mut conn = signed.app.read().await?;
    let mut lines = super::after(&mut conn.cx(), signed.actor.organization(), after, limit + 1).await?;
    let more = lines.len() > usize::try_from(limit).unwrap_or(50);
    if more {
        lines.pop();
    }
    let lines = super::told(&mut conn.cx(), &signed.actor, lines).await?;
    let next = if more { lines.last().map(|line| line.seq.to_string()) } else { None };
    Ok(Json(List { items: lines.into_iter().map(AuditView::from).collect(), next }))
}
