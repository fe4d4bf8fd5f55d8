//! The audit trail: one chain of hashes per organization, written inside the transaction of each act.
//!
//! It proves, against a head known from elsewhere (every report prints it), that no earlier line was changed, removed,
//! inserted or moved. It does not prove that a line was true, nor that the tail was not cut.

pub mod api;
mod chain;
pub mod page;
mod sight;
pub mod subject;

pub use chain::{GENESIS, Line, hash};
pub use sight::told;

use crate::db::kind::Kind;
use crate::db::{Cx, Result};
use crate::{args, queries};
use jiff::Timestamp;
use serde_json::Value;
use sowmark_core::ids::{AccountId, OrganizationId};
use uuid::Uuid;

queries! {
    LAST_HASH = "select hash from audit where organization_id = $1 and seq = $2";
    APPEND = "insert into audit (organization_id, seq, at, account_id, action, subject_kind, subject_id, change, previous_hash, hash)
        values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)";
    PAGE = "select a.seq, a.at, a.account_id, p.name, p.email, a.action, a.subject_kind, a.subject_id, a.change, a.previous_hash, a.hash
        from audit a left join account p on p.id = a.account_id
        where a.organization_id = $1 and a.seq > $2 order by a.seq limit $3";
    CREATED = "select change from audit
        where organization_id = $1 and subject_id = $2 and subject_kind = $3 and action = 'created'";
    HEAD = "select seq, at, hash from audit where organization_id = $1 order by seq desc limit 1";
    CHANGES = "select p.name, a.change from audit a left join account p on p.id = a.account_id
        where a.organization_id = $1 and a.action = 'changed' and a.subject_kind = $2 and ($3 = true or a.subject_id = $4)
        order by a.seq desc limit 100";
    WITH_HASH = "select seq, at, hash from audit where organization_id = $1 and hash >= $2 and hash <= $3 order by seq limit 1";
}

/// The queries of the trail.
pub const QUERIES: &[&[(&str, &str)]] = &[ALL, subject::ALL];

/// The routes of the trail.
#[must_use]
pub fn routes() -> Vec<crate::web::routes::Route> {
    [api::routes(), page::routes()].into_iter().flatten().collect()
}

/// A line as it stands in the database, with the name of who did it.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct StoredLine {
    pub seq: i64,
    pub at: i64,
    pub account_id: Option<Uuid>,
    pub name: Option<String>,
    pub email: Option<String>,
    pub action: String,
    pub subject_kind: String,
    pub subject_id: Uuid,
    pub change: String,
    pub previous_hash: Vec<u8>,
    pub hash: Vec<u8>,
}

impl StoredLine {
    /// Whether its content is kept back from who reads it.
    #[must_use]
    pub fn is_withheld(&self) -> bool {
        self.action == sight::WITHHELD
    }

    /// The line as it was hashed.
    #[must_use]
    pub fn line(&self, organization: OrganizationId) -> Line {
        Line {
            organization,
            seq: self.seq,
            at: Timestamp::from_microsecond(self.at).unwrap_or(Timestamp::UNIX_EPOCH),
            account: self.account_id.map(AccountId),
            action: self.action.clone(),
            subject_kind: self.subject_kind.clone(),
            subject_id: self.subject_id,
            change: self.change.clone(),
        }
    }
}

/// Appends the next line. The caller holds the organization's turn to write, so the line before is the last.
///
/// # Errors
/// The database.
pub async fn append(cx: &mut Cx<'_>, line: &Line) -> Result<()> {
    let previous = hash_of(cx, line.organization, line.seq - 1).await?;
    let hash = hash(&previous, line);
    cx.execute(
        APPEND,
        args![
            line.organization,
            line.seq,
            line.at,
            line.account,
            &line.action,
            &line.subject_kind,
            line.subject_id,
            &line.change,
            previous,
            hash
        ],
    )
    .await?;
    Ok(())
}

/// The hash of a line; of none the one that stands before the first.
///
/// # Errors
/// The database.
pub async fn hash_of(cx: &mut Cx<'_>, organization: OrganizationId, seq: i64) -> Result<Vec<u8>> {
    let found: Option<(Vec<u8>,)> = cx.fetch_optional(LAST_HASH, args![organization, seq]).await?;
    Ok(found.map_or_else(|| GENESIS.to_vec(), |(hash,)| hash))
}

/// A line's place in the chain, with its hash.
#[derive(Clone, Debug, PartialEq, Eq, sqlx::FromRow)]
pub struct Place {
    pub seq: i64,
    pub at: i64,
    pub hash: Vec<u8>,
}

/// The newest line: the head of the chain. None before the first.
///
/// # Errors
/// The database.
pub async fn head(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Option<Place>> {
    cx.fetch_optional(HEAD, args![organization]).await
}

/// What was sent when something was created, as the trail keeps it; none where that came inside another act.
///
/// # Errors
/// The database.
pub async fn created(cx: &mut Cx<'_>, organization: OrganizationId, kind: Kind, id: Uuid) -> Result<Option<Value>> {
    let found: Option<(String,)> = cx.fetch_optional(CREATED, args![organization, id, kind.word()]).await?;
    Ok(found.and_then(|(change,)| serde_json::from_str(&change).ok()))
}

/// The first line whose hash lies between two, both included: how one is found by its first digits.
///
/// # Errors
/// The database.
pub async fn with_hash(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    (from, to): ([u8; 32], [u8; 32]),
) -> Result<Option<Place>> {
    cx.fetch_optional(WITH_HASH, args![organization, from, to]).await
}

/// Lines after a number, oldest first.
///
/// # Errors
/// The database.
pub async fn after(cx: &mut Cx<'_>, organization: OrganizationId, seq: i64, limit: i64) -> Result<Vec<StoredLine>> {
    cx.fetch_all(PAGE, args![organization, seq, limit]).await
}

/// The latest changes of an entry, or of any of its kind, newest first: who made it, and what was before and after.
///
/// # Errors
/// The database.
pub async fn changes(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    kind: Kind,
    id: Option<Uuid>,
) -> Result<Vec<(Option<String>, String)>> {
    cx.fetch_all(CHANGES, args![organization, kind.word(), id.is_none(), id.unwrap_or(Uuid::nil())]).await
}

/// Checks the whole chain of an organization; answers the first number that does not fit, or the head.
///
/// # Errors
/// The database.
pub async fn verify(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<std::result::Result<Head, i64>> {
    let mut head = Head { seq: 0, hash: GENESIS.to_vec() };
    loop {
        let lines = after(cx, organization, head.seq, 500).await?;
        if lines.is_empty() {
            return Ok(Ok(head));
        }
        for stored in lines {
            let fits = stored.seq == head.seq + 1
                && stored.previous_hash == head.hash
                && stored.hash == hash(&head.hash, &stored.line(organization));
            if !fits {
                return Ok(Err(head.seq + 1));
            }
            head = Head { seq: stored.seq, hash: stored.hash };
        }
    }
}

/// The end of a chain.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Head {
    pub seq: i64,
    pub hash: Vec<u8>,
}
