//! Refused entries in the database.

use super::entry::Entry;
use crate::access::Sending;
use crate::db::{Cx, Db, Result, Work};
use crate::{args, queries};
use sowmark_core::ids::{AccountId, OrganizationId};
use uuid::Uuid;

queries! {
    KEEP = "insert into refused (organization_id, id, sent_by, kind, parent_id, record, problem, first_refused_at, last_refused_at,
            tried_seq, sent_at, sent_offset, received_at, device)
        values ($1, $2, $3, $4, $5, $6, $7, $8, $8, $9, $10, $11, $12, $13)
        on conflict (organization_id, id) do update set sent_by = excluded.sent_by, kind = excluded.kind,
            parent_id = excluded.parent_id, record = excluded.record, problem = excluded.problem,
            last_refused_at = excluded.last_refused_at, ended = null, ended_at = null, ended_by = null, ended_reason = null,
            tried_seq = excluded.tried_seq, sent_at = excluded.sent_at, sent_offset = excluded.sent_offset,
            received_at = excluded.received_at, device = excluded.device";
    FIND = "select r.id, r.sent_by, a.name as sent_by_name, r.kind, r.parent_id, r.record, r.problem, r.first_refused_at,
            r.last_refused_at, r.ended, r.ended_at, r.ended_by, b.name as ended_by_name, r.ended_reason
        from refused r join account a on a.id = r.sent_by left join account b on b.id = r.ended_by
        where r.organization_id = $1 and r.id = $2";
    PAGE = "select r.id, r.sent_by, a.name as sent_by_name, r.kind, r.parent_id, r.record, r.problem, r.first_refused_at,
            r.last_refused_at, r.ended, r.ended_at, r.ended_by, b.name as ended_by_name, r.ended_reason
        from refused r join account a on a.id = r.sent_by left join account b on b.id = r.ended_by
        where r.organization_id = $1 and ($2 = true or r.sent_by = $3) and ($4 = true or r.ended is null) and r.id > $5
        order by r.id limit $6";
    WAITING = "select count(*) from refused where organization_id = $1 and ($2 = true or sent_by = $3) and ended is null";
    TO_TRY = "select r.id, r.sent_by, r.kind, r.parent_id, r.record, r.sent_at, r.sent_offset, r.received_at, r.device, o.seq
        from refused r join organization o on o.id = r.organization_id
        where r.organization_id = $1 and r.ended is null and r.tried_seq < o.seq order by r.tried_seq, r.id limit $2";
    TRIED = "update refused set tried_seq = $3, problem = $4 where organization_id = $1 and id = $2 and ended is null";
    DROP = "update refused set ended = 'dropped', ended_at = $3, ended_by = $4, ended_reason = $5
        where organization_id = $1 and id = $2 and ended is null";
}

/// A refused entry.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct RefusedRow {
    pub id: Uuid,
    pub sent_by: Uuid,
    pub sent_by_name: String,
    pub kind: String,
    pub parent_id: Option<Uuid>,
    /// JSON.
    pub record: String,
    /// JSON.
    pub problem: String,
    pub first_refused_at: i64,
    pub last_refused_at: i64,
    /// `mended` or `dropped`; none while it waits.
    pub ended: Option<String>,
    pub ended_at: Option<i64>,
    pub ended_by: Option<Uuid>,
    pub ended_by_name: Option<String>,
    pub ended_reason: Option<String>,
}

/// Whose refused entries: one account's, or all of the organization.
#[derive(Clone, Copy, Debug)]
pub(super) struct Whose {
    pub(super) organization: OrganizationId,
    pub(super) account: AccountId,
    pub(super) all: bool,
}

/// A refused entry that waits, with what it takes to try it again.
#[derive(Clone, Debug, sqlx::FromRow)]
pub(super) struct Waiting {
    pub(super) id: Uuid,
    pub(super) sent_by: Uuid,
    pub(super) kind: String,
    pub(super) parent_id: Option<Uuid>,
    pub(super) record: String,
    pub(super) sent_at: Option<i64>,
    pub(super) sent_offset: Option<i64>,
    pub(super) received_at: Option<i64>,
    pub(super) device: Option<String>,
    /// The organization's number when this was read.
    pub(super) seq: i64,
}

pub(super) async fn keep(work: &mut Work, entry: &Entry, problem: &str, sending: Option<&Sending>) -> Result<()> {
    let (organization, account, now, seq) = (work.organization(), work.account(), work.now(), work.seq());
    let record = entry.record.to_string();
    let sent_at = sending.and_then(|sending| sending.sent_at);
    let values = args![
        organization,
        entry.id,
        account,
        &entry.kind_word,
        entry.parent,
        record,
        problem,
        now,
        seq,
        sent_at.map(|stamp| stamp.at),
        sent_at.map(|stamp| i64::from(stamp.offset_seconds)),
        sending.map(|sending| sending.received_at),
        sending.map(|sending| &sending.device)
    ];
    work.cx().execute(KEEP, values).await?;
    Ok(())
}

/// Those that waited while something was stored, longest untried first.
pub(super) async fn to_try(cx: &mut Cx<'_>, organization: OrganizationId, limit: i64) -> Result<Vec<Waiting>> {
    cx.fetch_all(TO_TRY, args![organization, limit]).await
}

/// Tried in vain: why, and up to which of the organization's numbers.
pub(super) async fn tried(db: &Db, organization: OrganizationId, row: &Waiting, problem: &str) -> Result<()> {
    let mut tx = db.begin().await?;
    tx.cx().execute(TRIED, args![organization, row.id, row.seq, problem]).await?;
    tx.commit().await
}

pub(super) async fn find(cx: &mut Cx<'_>, organization: OrganizationId, id: Uuid) -> Result<Option<RefusedRow>> {
    cx.fetch_optional(FIND, args![organization, id]).await
}

pub(super) async fn page(
    cx: &mut Cx<'_>,
    whose: Whose,
    ended_too: bool,
    after: Uuid,
    limit: i64,
) -> Result<Vec<RefusedRow>> {
    let values = args![whose.organization, whose.all, whose.account, ended_too, after, limit];
    cx.fetch_all(PAGE, values).await
}

pub(super) async fn waiting(cx: &mut Cx<'_>, whose: Whose) -> Result<i64> {
    let (count,): (i64,) = cx.fetch_one(WAITING, args![whose.organization, whose.all, whose.account]).await?;
    Ok(count)
}

/// Whether it was waiting.
pub(super) async fn drop_it(work: &mut Work, id: Uuid, reason: Option<&str>) -> Result<bool> {
    let (organization, account, now) = (work.organization(), work.account(), work.now());
    Ok(work.cx().execute(DROP, args![organization, id, now, account, reason]).await? == 1)
}
