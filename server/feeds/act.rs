//! Making, renewing and ending a secret address, and what is read at it.

use super::store::{self, AddressRow};
use crate::access::session::hash_of;
use crate::access::{Actor, Grant, Via, find_actor, limited_to};
use crate::clock::Clock;
use crate::db::{Audit, Cx, Db, Work, kind::Kind};
use crate::readiness::ahead::{self, Matter, Subject};
use crate::seed::client::act::find_client;
use crate::web::error::Error;
use crate::{hex, texts};
use jiff::civil::Date;
use jiff::{SignedDuration, Timestamp};
use serde_json::json;
use sha2::{Digest, Sha256};
use sowmark_core::ids::{AccountId, ClientId, OrganizationId};
use sowmark_core::texts::Language;
use uuid::Uuid;

/// Reading is noted at most this often, so that reading stays reading.
const NOTED_EVERY: SignedDuration = SignedDuration::from_mins(10);

/// Makes a person's address, in the place of an earlier one; the answer is the only time that the secret is seen.
///
/// # Errors
/// 404 when the account is no member; the database.
pub async fn make(
    db: &Db,
    clock: &Clock,
    grant: &Grant,
    account: AccountId,
    language: Language,
) -> Result<String, Error> {
    let (secret, id) = (clock.secret()?, clock.new_id()?);
    let mut work = Work::begin(db, clock, grant).await?;
    let (whose, now) = ((work.organization(), account), work.now());
    if !store::set(&mut work.cx(), whose, id, hash_of(&secret), language.tag(), now).await? {
        return Err(Error::not_there("member"));
    }
    work.commit(Audit::did("feed_address_made", Kind::FeedAddress, id, json!({ "account": account }))).await?;
    Ok(hex::written(&secret))
}

/// Ends a person's address: whatever reads it is told that nothing is there.
///
/// # Errors
/// 404 when there is none; the database.
pub async fn end(db: &Db, clock: &Clock, grant: &Grant, account: AccountId) -> Result<(), Error> {
    let mut work = Work::begin(db, clock, grant).await?;
    let organization = work.organization();
    let ended = store::end(&mut work.cx(), organization, account).await?;
    let Some(id) = ended else { return Err(Error::not_there("feed address")) };
    work.commit(Audit::did("feed_address_ended", Kind::FeedAddress, id, json!({ "account": account }))).await?;
    Ok(())
}

/// Ends a person's address inside an act, as when the membership ends.
///
/// # Errors
/// The database.
pub async fn end_inside(cx: &mut Cx<'_>, organization: OrganizationId, account: AccountId) -> Result<(), Error> {
    store::end(cx, organization, account).await?;
    Ok(())
}

/// A person's address in an organization, if they have one.
///
/// # Errors
/// The database.
pub async fn of(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    account: AccountId,
) -> Result<Option<AddressRow>, Error> {
    Ok(store::of(cx, organization, account).await?)
}

/// What is read at an address.
#[derive(Debug)]
pub struct Told {
    pub actor: Actor,
    pub matters: Vec<Matter>,
    /// The day of reading, in the organization's time zone: what is due lasts until it.
    pub today: Date,
    pub now: Timestamp,
    /// Changes whenever anything told changes.
    pub hash: [u8; 32],
    /// Since when the same has been told.
    pub since: Timestamp,
}

/// What the owner of an address would see, if they were signed in now.
///
/// # Errors
/// 404, the same as for any page that is not there, when nobody has this address or its owner is no member any more; the
/// database.
pub async fn read(db: &Db, clock: &Clock, secret: &str, client: Option<ClientId>) -> Result<Told, Error> {
    let nothing = || Error::not_there("page");
    let secret = hex::read(secret).ok_or_else(nothing)?;
    let now = clock.now();
    let mut conn = db.read().await?;
    let address = store::find(&mut conn.cx(), hash_of(&secret)).await?.ok_or_else(nothing)?;
    // As a token's: it opens no session, and so none of the acts that want one.
    let found = find_actor(&mut conn.cx(), address.organization(), address.account(), Via::Token).await?;
    let mut actor = found.ok_or_else(nothing)?;
    actor.language = actor.own_language.or_else(|| texts::language(&address.language)).unwrap_or(actor.language);
    if let Some(client) = client {
        find_client(&mut conn.cx(), &actor.scope, client).await.map_err(|error| match error {
            Error::NotThere { .. } => nothing(),
            error => error,
        })?;
        actor = limited_to(&mut conn.cx(), &actor, client).await?;
    }
    let matters = ahead::matters(&mut conn.cx(), &actor, now).await?;
    drop(conn);
    let today = actor.time_zone.to_datetime(now).date();
    let hash = fingerprint(&actor, &matters, today);
    // Since when is noted for the address as a whole; of one client's part nobody knows.
    let whole = note(db, &address, client.is_none().then_some(hash), now).await?;
    let since = if client.is_none() { whole } else { now };
    Ok(Told { actor, matters, today, now, hash, since })
}

/// Notes that the address was read, and since when it has been telling the same: RFC 9110 wants the time of the last
/// change, and what vanished leaves no record of its own.
async fn note(db: &Db, address: &AddressRow, hash: Option<[u8; 32]>, now: Timestamp) -> Result<Timestamp, Error> {
    let new = hash.filter(|hash| address.told_hash.as_deref() != Some(hash.as_slice()));
    let is_new = new.is_some();
    let is_stale = address
        .last_read_at
        .is_none_or(|read| now.as_microsecond() - read >= i64::try_from(NOTED_EVERY.as_micros()).unwrap_or(i64::MAX));
    if is_new || is_stale {
        let mut tx = db.begin().await?;
        if let Some(hash) = new {
            store::note_told(&mut tx.cx(), address.id, hash, now).await?;
        }
        store::note_read(&mut tx.cx(), address.id, now).await?;
        tx.commit().await?;
    }
    let since = address.told_at.filter(|_| !is_new).and_then(|at| Timestamp::from_microsecond(at).ok());
    Ok(since.unwrap_or(now))
}

fn fingerprint(actor: &Actor, matters: &[Matter], today: Date) -> [u8; 32] {
    let mut hash = Sha256::new();
    let mut part = |text: &str| {
        hash.update(u64::try_from(text.len()).unwrap_or(u64::MAX).to_be_bytes());
        hash.update(text.as_bytes());
    };
    part(&actor.organization_name);
    part(actor.language.tag());
    part(&actor.time_zone_name);
    part(&today.to_string());
    for matter in matters {
        part(&matter_id(actor.organization(), &matter.subject).to_string());
        part(&matter.title);
        part(&matter.says);
        part(&matter.from.to_string());
        part(if matter.is_coming { "coming" } else { "due" });
    }
    hash.finalize().into()
}

/// The id of a matter, the same for every reader, on every day and server, for as long as the same record makes the same
/// thing due: a program that has it already changes its entry and makes no second one. A `UUIDv8`, as RFC 7986 wants ids
/// that tell nothing.
#[must_use]
pub fn matter_id(organization: OrganizationId, subject: &Subject) -> Uuid {
    let named = match subject {
        Subject::Unit { unit, trigger, cause } => format!("unit {unit} {trigger} {cause}"),
        Subject::Scale(scale) => format!("scale {scale}"),
    };
    id_of(&format!("{organization} {named}"))
}

/// The id of a person's news as a whole.
#[must_use]
pub fn feed_id(actor: &Actor) -> Uuid {
    id_of(&format!("{} news of {}", actor.organization(), actor.account))
}

fn id_of(named: &str) -> Uuid {
    let digest: [u8; 32] = Sha256::digest(named.as_bytes()).into();
    let mut bytes = [0; 16];
    bytes.copy_from_slice(&digest[..16]);
    uuid::Builder::from_custom_bytes(bytes).into_uuid()
}
