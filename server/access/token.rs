//! Bearer tokens for programs: shown once, kept as a hash, tied to one person in one organization.

use super::session::hash_of;
use crate::clock::Clock;
use crate::db::{Audit, Cx, Db, Work, kind::Kind};
use crate::hex;
use crate::web::error::Error;
use crate::{args, queries};
use jiff::{SignedDuration, Timestamp};
use serde_json::json;
use sowmark_core::ids::{AccountId, OrganizationId};
use uuid::Uuid;

queries! {
    ADD = "insert into bearer_token (token_hash, id, account_id, organization_id, label, created_at, expires_at)
        values ($1, $2, $3, $4, $5, $6, $7)";
    FIND = "select id, account_id, organization_id, last_used_at from bearer_token where token_hash = $1 and expires_at > $2";
    TOUCH = "update bearer_token set last_used_at = $2 where id = $1";
    LIST = "select id, label, created_at, last_used_at, expires_at from bearer_token
        where organization_id = $1 and account_id = $2 order by created_at desc, id";
    END = "delete from bearer_token where organization_id = $1 and account_id = $2 and id = $3";
    END_ALL = "delete from bearer_token where organization_id = $1 and account_id = $2";
    IS_MEMBER = "select role from membership where organization_id = $1 and account_id = $2 and active = true";
}

/// How every token begins, so that a scanner for leaked secrets can know one.
const PREFIX: &str = "sowmark_";
const LIFE: SignedDuration = SignedDuration::from_hours(24 * 365);

/// A token as its owner sees it: never the secret.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct TokenRow {
    pub id: Uuid,
    pub label: String,
    pub created_at: i64,
    pub last_used_at: Option<i64>,
    pub expires_at: i64,
}

/// Makes a token; the answer is the only time that it is seen. Good for a year.
///
/// # Errors
/// 404 when the account is no member; the database.
pub async fn add(
    db: &Db,
    clock: &Clock,
    grant: &super::Grant,
    account: AccountId,
    label: &str,
) -> Result<String, Error> {
    let secret = clock.secret()?;
    let id = clock.new_id()?;
    let mut work = Work::begin(db, clock, grant).await?;
    let (organization, now) = (work.organization(), work.now());
    let member: Option<(String,)> = work.cx().fetch_optional(IS_MEMBER, args![organization, account]).await?;
    if member.is_none() {
        return Err(Error::not_there("member"));
    }
    work.cx().execute(ADD, args![hash_of(&secret), id, account, organization, label, now, now + LIFE]).await?;
    work.commit(Audit::did("token_added", Kind::BearerToken, id, json!({ "account": account, "label": label })))
        .await?;
    Ok(format!("{PREFIX}{}", hex::written(&secret)))
}

/// Whom a token speaks for.
///
/// # Errors
/// The database.
pub async fn find(cx: &mut Cx<'_>, token: &str, now: Timestamp) -> Result<Option<Bearer>, Error> {
    let Some(secret) = token.strip_prefix(PREFIX).and_then(hex::read) else { return Ok(None) };
    Ok(cx.fetch_optional(FIND, args![hash_of(&secret), now]).await?)
}

/// Notes that a token was used, at most once a minute, so that reading stays reading.
///
/// # Errors
/// The database.
pub async fn touch(db: &Db, bearer: &Bearer, now: Timestamp) -> Result<(), Error> {
    let minute = 60_000_000;
    if bearer.last_used_at.is_none_or(|used| now.as_microsecond() - used > minute) {
        let mut tx = db.begin().await?;
        tx.cx().execute(TOUCH, args![bearer.id, now]).await?;
        tx.commit().await?;
    }
    Ok(())
}

/// What stands behind a token.
#[derive(Clone, Copy, Debug, sqlx::FromRow)]
pub struct Bearer {
    pub id: Uuid,
    account_id: Uuid,
    organization_id: Uuid,
    last_used_at: Option<i64>,
}

impl Bearer {
    #[must_use]
    pub fn account(&self) -> AccountId {
        AccountId(self.account_id)
    }

    #[must_use]
    pub fn organization(&self) -> OrganizationId {
        OrganizationId(self.organization_id)
    }
}

/// A person's tokens in an organization, newest first.
///
/// # Errors
/// The database.
pub async fn list(cx: &mut Cx<'_>, organization: OrganizationId, account: AccountId) -> Result<Vec<TokenRow>, Error> {
    Ok(cx.fetch_all(LIST, args![organization, account]).await?)
}

/// Ends a token of a person.
///
/// # Errors
/// 404 when there is no such token; the database.
pub async fn end(db: &Db, clock: &Clock, grant: &super::Grant, account: AccountId, id: Uuid) -> Result<(), Error> {
    let mut work = Work::begin(db, clock, grant).await?;
    let organization = work.organization();
    if work.cx().execute(END, args![organization, account, id]).await? == 0 {
        return Err(Error::not_there("token"));
    }
    work.commit(Audit::did("token_ended", Kind::BearerToken, id, json!({ "account": account }))).await?;
    Ok(())
}

/// Ends all tokens of a person inside an act, as when the membership ends.
///
/// # Errors
/// The database.
pub async fn end_all(cx: &mut Cx<'_>, organization: OrganizationId, account: AccountId) -> Result<(), Error> {
    cx.execute(END_ALL, args![organization, account]).await?;
    Ok(())
}
