//! How somebody signs in, and how a password is set or changed.

use super::store::{self, AccountRow};
use crate::access::password::{self, Hasher};
use crate::access::throttle::{self, Key};
use crate::access::{Role, link, session};
use crate::clock::Clock;
use crate::db::Db;
use crate::saying;
use crate::web::error::{Error, Fault};
use jiff::{SignedDuration, Timestamp};
use sowmark_core::ids::{AccountId, OrganizationId};
use uuid::Uuid;

/// Refuses a password that must not be set.
pub(super) fn check_password(pointer: &str, password: &str, email: &str) -> Result<(), Error> {
    match password::refusal(password, email) {
        Some(why) => Err(Error::Faults(vec![Fault::new(pointer, why)])),
        None => Ok(()),
    }
}

/// What is answered to a code that is good for nothing, whatever the reason.
#[must_use]
pub fn not_a_link() -> Error {
    Error::not_there("link")
}

/// Whether a code sets a password. Looking does not use it up.
///
/// # Errors
/// 404 when it does not.
pub async fn find_password_link(db: &Db, clock: &Clock, code: &str) -> Result<AccountId, Error> {
    let mut conn = db.read().await?;
    match link::find(&mut conn.cx(), code, clock.now()).await? {
        Some(link::Purpose::SetPassword(account)) => Ok(account),
        _ => Err(not_a_link()),
    }
}

/// Whether a code sets up the first organization. Looking does not use it up.
///
/// # Errors
/// 404 when it does not.
pub async fn find_set_up_link(db: &Db, clock: &Clock, code: &str) -> Result<(), Error> {
    let mut conn = db.read().await?;
    match link::find(&mut conn.cx(), code, clock.now()).await? {
        Some(link::Purpose::SetUp) => Ok(()),
        _ => Err(not_a_link()),
    }
}

/// Sets a password by a one-time link. All sessions of the account end, and its other links.
///
/// # Errors
/// 404 when the link is used or too old; faults of the password.
pub async fn set_password(db: &Db, clock: &Clock, hasher: &Hasher, code: &str, password: String) -> Result<(), Error> {
    let id = find_password_link(db, clock, code).await?;
    let account = account(db, id).await?;
    check_password("/password", &password, &account.email)?;
    let hash = hasher.hash(password).await?;
    let mut tx = db.begin().await?;
    if !link::take(&mut tx.cx(), code, clock.now()).await? {
        return Err(not_a_link());
    }
    link::drop_for(&mut tx.cx(), id).await?;
    store::set_password(&mut tx.cx(), id, &hash).await?;
    session::end_all(&mut tx.cx(), id).await?;
    tx.commit().await?;
    tracing::info!(account = %id, "password set by link");
    Ok(())
}

/// Changes the password of somebody who knows the old one. Every session but theirs ends.
///
/// # Errors
/// 422 when the old one does not fit, or the new one is refused; 429 after too many wrong ones.
pub async fn change_password(
    db: &Db,
    clock: &Clock,
    hasher: &Hasher,
    id: AccountId,
    (old, new): (String, String),
    session: Uuid,
) -> Result<(), Error> {
    let account = account(db, id).await?;
    let now = clock.now();
    wait_over(account.sign_in_after, now)?;
    check_password("/password", &new, &account.email)?;
    if !hasher.fits(old, account.password_hash.clone()).await? {
        note_failure(db, id, now).await?;
        return Err(Error::fault("/old_password", saying!("password-does-not-fit")));
    }
    let hash = hasher.hash(new).await?;
    let mut tx = db.begin().await?;
    store::set_password(&mut tx.cx(), id, &hash).await?;
    link::drop_for(&mut tx.cx(), id).await?;
    session::end_others(&mut tx.cx(), id, session).await?;
    tx.commit().await?;
    tracing::info!(account = %id, "password changed");
    Ok(())
}

async fn account(db: &Db, id: AccountId) -> Result<AccountRow, Error> {
    let mut conn = db.read().await?;
    store::account(&mut conn.cx(), id).await?.ok_or_else(|| Error::not_there("account"))
}

/// Who signed in, and the secret of the session.
#[derive(Debug)]
pub struct SignedIn {
    pub secret: String,
}

/// Signs in. An unknown address, a wrong password and a person without a membership are answered alike, and made to wait
/// alike.
///
/// # Errors
/// 422 when they do not fit; 429 when this address has failed too often just now.
pub async fn sign_in(
    db: &Db,
    clock: &Clock,
    hasher: &Hasher,
    email: &str,
    password: String,
    device: &str,
) -> Result<SignedIn, Error> {
    let now = clock.now();
    let email = email.trim().to_lowercase();
    let (account, memberships) = {
        let mut conn = db.read().await?;
        let account = store::account_by_email(&mut conn.cx(), &email).await?;
        let memberships = match &account {
            Some(account) => store::memberships(&mut conn.cx(), AccountId(account.id)).await?,
            None => Vec::new(),
        };
        (account, memberships)
    };
    let stranger = Key::of(&email);
    let after = account.as_ref().map_or_else(|| hasher.strangers().after(stranger), |account| account.sign_in_after);
    wait_over(after, now)?;
    let hash = account.as_ref().and_then(|account| account.password_hash.clone());
    let fits = hasher.fits(password, hash).await?;
    if let (Some(account), Some(membership), true) = (&account, memberships.first(), fits) {
        let id = AccountId(account.id);
        if account.failed_sign_ins > 0 {
            note_success(db, id).await?;
        }
        let role = Role::from_word(&membership.role).unwrap_or(Role::Crew);
        let organization = OrganizationId(membership.organization_id);
        let secret = session::open(db, clock, id, organization, role, device).await?;
        tracing::info!(account = %id, "signed in");
        return Ok(SignedIn { secret });
    }
    match &account {
        Some(account) => note_failure(db, AccountId(account.id), now).await?,
        None => hasher.strangers().note_failure(stranger, now),
    }
    tracing::info!(account = account.as_ref().map(|account| account.id.to_string()), "sign-in refused");
    Err(Error::fault("", saying!("sign-in-does-not-fit")))
}

fn wait_over(after: i64, now: Timestamp) -> Result<(), Error> {
    let left = after - now.as_microsecond();
    if left <= 0 {
        return Ok(());
    }
    // Rounded up: who waits as long as told gets through.
    let seconds = u32::try_from((left + 999_999) / 1_000_000).unwrap_or(u32::MAX);
    Err(Error::TooMany { retry_after_seconds: seconds })
}

/// Counts a failure in the database, so that tries sent at once count each.
async fn note_failure(db: &Db, id: AccountId, now: Timestamp) -> Result<(), Error> {
    let mut tx = db.begin().await?;
    let failed = store::count_failure(&mut tx.cx(), id).await?;
    let after = now + SignedDuration::from_secs(throttle::wait_seconds(failed));
    store::note_sign_in(&mut tx.cx(), id, failed, after).await?;
    tx.commit().await?;
    Ok(())
}

async fn note_success(db: &Db, id: AccountId) -> Result<(), Error> {
    let mut tx = db.begin().await?;
    store::note_sign_in(&mut tx.cx(), id, 0, Timestamp::UNIX_EPOCH).await?;
    tx.commit().await?;
    Ok(())
}
