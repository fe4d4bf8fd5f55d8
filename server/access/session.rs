//! Browser sessions: 32 random bytes in a cookie, their hash in the database, so that a person can see and end theirs
//! and a copy of the database opens nothing.

use crate::access::Role;
use crate::clock::Clock;
use crate::db::{Cx, Db};
use crate::hex;
use crate::web::error::Error;
use crate::{args, queries};
use jiff::{SignedDuration, Timestamp};
use sha2::{Digest, Sha256};
use sowmark_core::ids::{AccountId, OrganizationId};
use uuid::Uuid;

queries! {
    ADD = "insert into session (token_hash, id, account_id, organization_id, device, created_at, last_seen_at, expires_at)
        values ($1, $2, $3, $4, $5, $6, $6, $7)";
    FIND = "select id, account_id, organization_id, created_at, last_seen_at from session where token_hash = $1 and expires_at > $2";
    TOUCH = "update session set last_seen_at = $2, expires_at = $3 where id = $1";
    SWITCH = "update session set organization_id = $2 where id = $1";
    LIST = "select id, device, created_at, last_seen_at from session where account_id = $1 and expires_at > $2
        order by last_seen_at desc, id";
    LIST_IN = "select id, device, created_at, last_seen_at from session
        where account_id = $1 and organization_id = $2 and expires_at > $3 order by last_seen_at desc, id";
    END_ONE_IN = "delete from session where id = $1 and account_id = $2 and organization_id = $3";
    END_OTHERS = "delete from session where account_id = $1 and id <> $2";
    END = "delete from session where id = $1 and account_id = $2";
    END_ALL = "delete from session where account_id = $1";
    END_IN = "delete from session where account_id = $1 and organization_id = $2";
    SWEEP = "delete from session where expires_at <= $1";
}

/// How long a session lasts without use, and in all. An office machine is left standing in an office; a crew's phone
/// must not ask for a password at a field edge in the middle of the season, and can be ended from the office.
#[must_use]
pub fn life(role: Role) -> (SignedDuration, SignedDuration) {
    match role {
        Role::Office => (SignedDuration::from_hours(12), SignedDuration::from_hours(24 * 14)),
        Role::Crew | Role::Agronomist => (SignedDuration::from_hours(24 * 30), SignedDuration::from_hours(24 * 365)),
    }
}

/// What stands behind a session's secret.
#[derive(Clone, Copy, Debug, sqlx::FromRow)]
pub struct Found {
    pub id: Uuid,
    account_id: Uuid,
    organization_id: Uuid,
    created_at: i64,
    last_seen_at: i64,
}

impl Found {
    #[must_use]
    pub fn account(&self) -> AccountId {
        AccountId(self.account_id)
    }

    #[must_use]
    pub fn organization(&self) -> OrganizationId {
        OrganizationId(self.organization_id)
    }
}

/// A session as its owner sees it.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct SessionRow {
    pub id: Uuid,
    pub device: String,
    pub created_at: i64,
    pub last_seen_at: i64,
}

/// Opens a session; the answer goes into the cookie.
///
/// # Errors
/// The database, or no randomness.
pub async fn open(
    db: &Db,
    clock: &Clock,
    account: AccountId,
    organization: OrganizationId,
    role: Role,
    device: &str,
) -> Result<String, Error> {
    let secret = clock.secret()?;
    let now = clock.now();
    let device: String = device.chars().take(200).collect();
    let mut tx = db.begin().await?;
    let mut cx = tx.cx();
    cx.execute(SWEEP, args![now]).await?;
    cx.execute(ADD, args![hash_of(&secret), clock.new_id()?, account, organization, device, now, now + life(role).0])
        .await?;
    tx.commit().await?;
    Ok(hex::written(&secret))
}

/// Whose session it is, if it is one and still good.
///
/// # Errors
/// The database.
pub async fn find(cx: &mut Cx<'_>, secret: &str, now: Timestamp) -> Result<Option<Found>, Error> {
    let Some(secret) = hex::read(secret) else { return Ok(None) };
    Ok(cx.fetch_optional(FIND, args![hash_of(&secret), now]).await?)
}

/// Notes that a session is in use and lets it last on, at most once in five minutes.
///
/// # Errors
/// The database.
pub async fn touch(db: &Db, found: &Found, role: Role, now: Timestamp) -> Result<(), Error> {
    let five_minutes = 300_000_000;
    if now.as_microsecond() - found.last_seen_at < five_minutes {
        return Ok(());
    }
    let (idle, all) = life(role);
    let created = Timestamp::from_microsecond(found.created_at).unwrap_or(now);
    let expires = (now + idle).min(created + all);
    let mut tx = db.begin().await?;
    tx.cx().execute(TOUCH, args![found.id, now, expires]).await?;
    tx.commit().await?;
    Ok(())
}

/// Turns a session to another organization of the same person.
///
/// # Errors
/// The database.
pub async fn switch(db: &Db, id: Uuid, organization: OrganizationId) -> Result<(), Error> {
    let mut tx = db.begin().await?;
    tx.cx().execute(SWITCH, args![id, organization]).await?;
    tx.commit().await?;
    Ok(())
}

/// A person's sessions, last used first.
///
/// # Errors
/// The database.
pub async fn list(cx: &mut Cx<'_>, account: AccountId, now: Timestamp) -> Result<Vec<SessionRow>, Error> {
    Ok(cx.fetch_all(LIST, args![account, now]).await?)
}

/// A person's sessions in one organization, last used first.
///
/// # Errors
/// The database.
pub async fn list_in(
    cx: &mut Cx<'_>,
    account: AccountId,
    organization: OrganizationId,
    now: Timestamp,
) -> Result<Vec<SessionRow>, Error> {
    Ok(cx.fetch_all(LIST_IN, args![account, organization, now]).await?)
}

/// Ends one session of a person in one organization; whether there was one.
///
/// # Errors
/// The database.
pub async fn end_one_in(
    cx: &mut Cx<'_>,
    account: AccountId,
    organization: OrganizationId,
    id: Uuid,
) -> Result<bool, Error> {
    Ok(cx.execute(END_ONE_IN, args![id, account, organization]).await? > 0)
}

/// Ends all sessions of a person but one.
///
/// # Errors
/// The database.
pub async fn end_others(cx: &mut Cx<'_>, account: AccountId, but: Uuid) -> Result<(), Error> {
    cx.execute(END_OTHERS, args![account, but]).await?;
    Ok(())
}

/// Ends one session of a person; whether there was one.
///
/// # Errors
/// The database.
pub async fn end(db: &Db, account: AccountId, id: Uuid) -> Result<bool, Error> {
    let mut tx = db.begin().await?;
    let ended = tx.cx().execute(END, args![id, account]).await?;
    tx.commit().await?;
    Ok(ended > 0)
}

/// Ends all sessions of a person, as when the password changes.
///
/// # Errors
/// The database.
pub async fn end_all(cx: &mut Cx<'_>, account: AccountId) -> Result<(), Error> {
    cx.execute(END_ALL, args![account]).await?;
    Ok(())
}

/// Ends all sessions of a person in one organization, as when the membership ends.
///
/// # Errors
/// The database.
pub async fn end_in(cx: &mut Cx<'_>, account: AccountId, organization: OrganizationId) -> Result<(), Error> {
    cx.execute(END_IN, args![account, organization]).await?;
    Ok(())
}

/// The hash under which a secret is kept. Plain SHA-256 is enough for 256 random bits.
#[must_use]
pub fn hash_of(secret: &[u8; 32]) -> [u8; 32] {
    Sha256::digest(secret).into()
}
