//! One-time links: to make the first office account, or to set a password. 256 random bits, kept as a hash, used once.

use super::session::hash_of;
use crate::clock::Clock;
use crate::db::{Cx, Db};
use crate::hex;
use crate::web::error::Error;
use crate::{args, queries};
use jiff::{SignedDuration, Timestamp};
use sowmark_core::ids::AccountId;
use uuid::Uuid;

queries! {
    ADD = "insert into one_time_link (code_hash, purpose, account_id, created_at, expires_at) values ($1, $2, $3, $4, $5)";
    DROP_SET_UP = "delete from one_time_link where purpose = 'set_up'";
    FIND = "select purpose, account_id from one_time_link where code_hash = $1 and expires_at > $2";
    USE = "delete from one_time_link where code_hash = $1 and expires_at > $2";
    DROP_FOR = "delete from one_time_link where account_id = $1";
    SWEEP = "delete from one_time_link where expires_at <= $1";
}

/// What a link is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// Make the organization and its first office account, on an empty database.
    SetUp,
    /// Set the password of an account.
    SetPassword(AccountId),
}

/// Makes the set-up link's code. A newer one replaces an older one, so that a restart prints a link that works.
///
/// # Errors
/// The database, or no randomness.
pub async fn add_set_up(db: &Db, clock: &Clock) -> Result<String, Error> {
    let mut tx = db.begin().await?;
    tx.cx().execute(DROP_SET_UP, &[]).await?;
    let code = add(&mut tx.cx(), clock, Purpose::SetUp).await?;
    tx.commit().await?;
    Ok(code)
}

/// Makes a link's code inside an act.
///
/// # Errors
/// The database, or no randomness.
pub async fn add(cx: &mut Cx<'_>, clock: &Clock, purpose: Purpose) -> Result<String, Error> {
    let secret = clock.secret()?;
    let now = clock.now();
    let (word, account, life) = match purpose {
        Purpose::SetUp => ("set_up", None, SignedDuration::from_hours(24)),
        Purpose::SetPassword(account) => ("set_password", Some(account), SignedDuration::from_hours(24 * 7)),
    };
    cx.execute(SWEEP, args![now]).await?;
    cx.execute(ADD, args![hash_of(&secret), word, account, now, now + life]).await?;
    Ok(hex::written(&secret))
}

/// What a code is for, if it is good.
///
/// # Errors
/// The database.
pub async fn find(cx: &mut Cx<'_>, code: &str, now: Timestamp) -> Result<Option<Purpose>, Error> {
    let Some(secret) = hex::read(code) else { return Ok(None) };
    let found: Option<(String, Option<Uuid>)> = cx.fetch_optional(FIND, args![hash_of(&secret), now]).await?;
    Ok(match found {
        Some((_, Some(account))) => Some(Purpose::SetPassword(AccountId(account))),
        Some((_, None)) => Some(Purpose::SetUp),
        None => None,
    })
}

/// Ends every link of an account, as when its password is set.
///
/// # Errors
/// The database.
pub async fn drop_for(cx: &mut Cx<'_>, account: AccountId) -> Result<(), Error> {
    cx.execute(DROP_FOR, args![account]).await?;
    Ok(())
}

/// Uses a code up inside an act: of two who try at once, one succeeds.
///
/// # Errors
/// The database.
pub async fn take(cx: &mut Cx<'_>, code: &str, now: Timestamp) -> Result<bool, Error> {
    let Some(secret) = hex::read(code) else { return Ok(false) };
    Ok(cx.execute(USE, args![hash_of(&secret), now]).await? == 1)
}
