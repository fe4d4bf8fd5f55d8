//! Secret addresses in the database.

use crate::db::{Cx, Result};
use crate::{args, queries};
use jiff::Timestamp;
use sowmark_core::ids::{AccountId, OrganizationId};
use uuid::Uuid;

queries! {
    SET = "insert into feed_address (organization_id, account_id, id, secret_hash, language, created_at)
        values ($1, $2, $3, $4, $5, $6)
        on conflict (organization_id, account_id) do update set id = excluded.id, secret_hash = excluded.secret_hash,
            language = excluded.language, created_at = excluded.created_at, last_read_at = null, told_hash = null,
            told_at = null";
    IS_MEMBER = "select role from membership where organization_id = $1 and account_id = $2 and active = true";
    FIND = "select organization_id, account_id, id, language, created_at, last_read_at, told_hash, told_at
        from feed_address where secret_hash = $1";
    OF = "select organization_id, account_id, id, language, created_at, last_read_at, told_hash, told_at
        from feed_address where organization_id = $1 and account_id = $2";
    END = "delete from feed_address where organization_id = $1 and account_id = $2 returning id";
    READ = "update feed_address set last_read_at = $2 where id = $1";
    TOLD = "update feed_address set told_hash = $2, told_at = $3 where id = $1";
}

/// A person's address: never the secret.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct AddressRow {
    organization_id: Uuid,
    account_id: Uuid,
    pub id: Uuid,
    pub language: String,
    pub created_at: i64,
    pub last_read_at: Option<i64>,
    pub told_hash: Option<Vec<u8>>,
    pub told_at: Option<i64>,
}

impl AddressRow {
    #[must_use]
    pub fn organization(&self) -> OrganizationId {
        OrganizationId(self.organization_id)
    }

    #[must_use]
    pub fn account(&self) -> AccountId {
        AccountId(self.account_id)
    }
}

/// Puts a new address in the place of the one before; whether the account is a member.
pub(super) async fn set(
    cx: &mut Cx<'_>,
    (organization, account): (OrganizationId, AccountId),
    id: Uuid,
    secret_hash: [u8; 32],
    language: &str,
    now: Timestamp,
) -> Result<bool> {
    let member: Option<(String,)> = cx.fetch_optional(IS_MEMBER, args![organization, account]).await?;
    if member.is_some() {
        cx.execute(SET, args![organization, account, id, secret_hash, language, now]).await?;
    }
    Ok(member.is_some())
}

pub(super) async fn find(cx: &mut Cx<'_>, secret_hash: [u8; 32]) -> Result<Option<AddressRow>> {
    cx.fetch_optional(FIND, args![secret_hash]).await
}

pub(super) async fn of(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    account: AccountId,
) -> Result<Option<AddressRow>> {
    cx.fetch_optional(OF, args![organization, account]).await
}

/// Ends an address; its id, if there was one.
pub(super) async fn end(cx: &mut Cx<'_>, organization: OrganizationId, account: AccountId) -> Result<Option<Uuid>> {
    let ended: Option<(Uuid,)> = cx.fetch_optional(END, args![organization, account]).await?;
    Ok(ended.map(|(id,)| id))
}

pub(super) async fn note_read(cx: &mut Cx<'_>, id: Uuid, now: Timestamp) -> Result<()> {
    cx.execute(READ, args![id, now]).await?;
    Ok(())
}

pub(super) async fn note_told(cx: &mut Cx<'_>, id: Uuid, hash: [u8; 32], now: Timestamp) -> Result<()> {
    cx.execute(TOLD, args![id, hash, now]).await?;
    Ok(())
}
