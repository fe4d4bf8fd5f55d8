//! Signatures in the database.

use crate::access::{Actor, Reach};
use crate::db::{Cx, Result, Work};
use crate::records::head::Head;
use crate::{args, queries};
use uuid::Uuid;

queries! {
    ADD = "insert into signature (organization_id, id, asked, asked_of, contents, chain_seq, chain_head, remark)
        values ($1, $2, $3, $4, $5, $6, $7, $8)";
    FIND = "select r.*, s.asked, s.asked_of, s.contents, s.chain_seq, s.chain_head, s.remark
        from signature s join recorded r on r.organization_id = s.organization_id and r.id = s.id
        where s.organization_id = $1 and s.id = $2 and ($3 = true or r.recorded_by = $4)";
    PAGE = "select r.*, s.asked, s.asked_of, s.contents, s.chain_seq, s.chain_head, s.remark
        from signature s join recorded r on r.organization_id = s.organization_id and r.id = s.id
        where s.organization_id = $1 and ($2 = true or r.recorded_by = $3) and s.id > $4 order by s.id limit $5";
    NEWEST = "select r.*, s.asked, s.asked_of, s.contents, s.chain_seq, s.chain_head, s.remark
        from signature s join recorded r on r.organization_id = s.organization_id and r.id = s.id
        where s.organization_id = $1 and ($2 = true or r.recorded_by = $3) order by r.recorded_at desc, s.id desc limit $4";
}

/// A signature.
#[derive(Clone, Debug, sqlx::FromRow)]
pub(crate) struct SignatureRow {
    #[sqlx(flatten)]
    pub(crate) head: Head,
    /// JSON.
    pub(crate) asked: String,
    /// JSON.
    pub(crate) asked_of: String,
    /// JSON.
    pub(crate) contents: String,
    pub(crate) chain_seq: i64,
    pub(crate) chain_head: Vec<u8>,
    pub(crate) remark: String,
}

/// What is stored of a signature beside its head.
pub(super) struct New<'a> {
    pub(super) asked: String,
    pub(super) asked_of: String,
    pub(super) contents: String,
    pub(super) chain_seq: i64,
    pub(super) chain_head: Vec<u8>,
    pub(super) remark: &'a str,
}

pub(super) async fn add(work: &mut Work, id: Uuid, new: New<'_>) -> Result<()> {
    let organization = work.organization();
    let New { asked, asked_of, contents, chain_seq, chain_head, remark } = new;
    let values = args![organization, id, asked, asked_of, contents, chain_seq, chain_head, remark];
    work.cx().execute(ADD, values).await?;
    Ok(())
}

/// Whose signatures somebody sees: everybody's, or only the own where they see some clients alone.
fn sees_all(actor: &Actor) -> bool {
    actor.scope.clients == Reach::All
}

pub(super) async fn find(cx: &mut Cx<'_>, actor: &Actor, id: Uuid) -> Result<Option<SignatureRow>> {
    cx.fetch_optional(FIND, args![actor.organization(), id, sees_all(actor), actor.account]).await
}

pub(super) async fn page(cx: &mut Cx<'_>, actor: &Actor, after: Uuid, limit: i64) -> Result<Vec<SignatureRow>> {
    cx.fetch_all(PAGE, args![actor.organization(), sees_all(actor), actor.account, after, limit]).await
}

/// Newest first.
pub(super) async fn newest(cx: &mut Cx<'_>, actor: &Actor, most: i64) -> Result<Vec<SignatureRow>> {
    cx.fetch_all(NEWEST, args![actor.organization(), sees_all(actor), actor.account, most]).await
}
