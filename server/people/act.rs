//! What is done with organizations and their members. How somebody signs in is in `sign_in.rs`.

use super::draft::{MemberChange, MemberDraft, OrganizationDraft, OwnUnitsWord, ReadingDraft, RoleWord, SetUpDraft};
use super::sign_in::{check_password, not_a_link};
use super::store::{self, MemberRow, MembershipRow, NewOrganization};
use crate::access::password::Hasher;
use crate::access::{Grant, Role, link, session, token};
use crate::clock::Clock;
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Db, Work};
use crate::web::error::{Error, Missing};
use crate::web::input::cut;
use crate::{digest, feeds, saying};
use serde_json::json;
use sowmark_core::ids::{AccountId, ClientId, OrganizationId};
use uuid::Uuid;

/// Makes an organization without members, from the command line.
///
/// # Errors
/// The database.
pub async fn add_organization(db: &Db, clock: &Clock, draft: OrganizationDraft) -> Result<OrganizationId, Error> {
    let id = OrganizationId(clock.new_id()?);
    let mut work = Work::founding(db, clock, id, None).await?;
    found(&mut work, &draft).await?;
    let change = json!({ "name": draft.name.0, "time_zone": draft.time_zone.0, "units": draft.units.word() });
    work.commit(Audit::created(Kind::Organization, id.0, change)).await?;
    Ok(id)
}

/// Whether nobody has put anything into a database yet.
///
/// # Errors
/// The database.
pub async fn is_unused(db: &Db) -> Result<bool, Error> {
    let mut conn = db.read().await?;
    Ok(!store::has_organizations(&mut conn.cx()).await?)
}

async fn found(work: &mut Work, draft: &OrganizationDraft) -> Result<(), Error> {
    let (id, now) = (work.organization(), work.now());
    let new = NewOrganization { id, name: &draft.name.0, time_zone: &draft.time_zone.0, units: draft.units.word() };
    store::add_organization(&mut work.cx(), &new, now).await?;
    Ok(())
}

/// Uses the set-up link: makes the organization, the first office account, and signs it in.
///
/// # Errors
/// 404 when the link is used or too old, or somebody has an account already; faults of the password.
pub async fn set_up(
    db: &Db,
    clock: &Clock,
    hasher: &Hasher,
    code: &str,
    draft: SetUpDraft,
) -> Result<(AccountId, OrganizationId), Error> {
    let hash = hasher.hash(draft.password.0).await?;
    let (organization, account) = (OrganizationId(clock.new_id()?), AccountId(clock.new_id()?));
    let mut work = Work::founding(db, clock, organization, Some(account)).await?;
    let now = work.now();
    if !link::take(&mut work.cx(), code, now).await? || crate::access::has_accounts(&mut work.cx()).await? {
        return Err(not_a_link());
    }
    store::add_account(&mut work.cx(), account, &draft.email.0, &draft.name.0, Some(hash), now).await?;
    let new = OrganizationDraft { name: draft.organization, time_zone: draft.time_zone, units: draft.units };
    found(&mut work, &new).await?;
    store::set_membership(&mut work.cx(), organization, account, Role::Office.word(), now).await?;
    let change = json!({ "name": new.name.0, "time_zone": new.time_zone.0, "units": new.units.word(), "first_office_account": account });
    work.commit(Audit::created(Kind::Organization, organization.0, change)).await?;
    Ok((account, organization))
}

/// How adding a member ended.
#[derive(Debug)]
pub struct AddedMember {
    pub account: AccountId,
    /// The code of the one-time link to set a password, where there is none yet.
    pub link: Option<String>,
}

/// Adds a member, making the account if it is new. A membership that ended begins again; one that stands gets the role.
///
/// # Errors
/// 404 for an unknown organization or client; faults of the password; 422 when clients are given to another role.
pub async fn add_member(
    db: &Db,
    clock: &Clock,
    hasher: &Hasher,
    grant: &Grant,
    draft: MemberDraft,
    password: Option<String>,
) -> Result<AddedMember, Error> {
    let change = MemberChange { role: draft.role, clients: draft.clients };
    check_clients(&change)?;
    let hash = match password {
        Some(password) => {
            check_password("/password", &password, &draft.email.0)?;
            Some(hasher.hash(password).await?)
        }
        None => None,
    };
    let mut work = Work::begin(db, clock, grant).await?;
    let account = account_for(&mut work, clock, &draft.email.0, &draft.name.0, hash).await?;
    set_member(&mut work, account.id, &change).await?;
    let link = if account.has_password || is_of_others(&mut work, account.id).await? {
        None
    } else {
        Some(link::add(&mut work.cx(), clock, link::Purpose::SetPassword(account.id)).await?)
    };
    work.commit(Audit::did("member_set", Kind::Membership, account.id.0, told(&change))).await?;
    Ok(AddedMember { account: account.id, link })
}

/// Gives a member another role or other clients. With another role, what is open of them ends: they sign in again.
///
/// # Errors
/// 404 for no member, or an unknown client; 422 for the last office member, or clients of another role.
pub async fn change_member(
    db: &Db,
    clock: &Clock,
    grant: &Grant,
    account: AccountId,
    change: MemberChange,
) -> Result<(), Error> {
    check_clients(&change)?;
    let mut work = Work::begin(db, clock, grant).await?;
    let organization = work.organization();
    let member = standing_member(&mut work, account).await?;
    set_member(&mut work, account, &change).await?;
    if member.role != change.role.word() {
        session::end_in(&mut work.cx(), account, organization).await?;
    }
    work.commit(Audit::did("member_set", Kind::Membership, account.0, told(&change))).await?;
    Ok(())
}

fn check_clients(change: &MemberChange) -> Result<(), Error> {
    let is_limited = change.clients.as_ref().is_some_and(|clients| !clients.is_empty());
    if is_limited && change.role != RoleWord::Agronomist {
        return Err(Error::fault("/clients", saying!("clients-of-an-agronomist")));
    }
    Ok(())
}

fn told(change: &MemberChange) -> serde_json::Value {
    json!({ "role": change.role.word(), "clients": change.clients.as_deref().unwrap_or_default() })
}

async fn set_member(work: &mut Work, account: AccountId, change: &MemberChange) -> Result<(), Error> {
    let (organization, now) = (work.organization(), work.now());
    let mut clients: Vec<ClientId> = change.clients.clone().unwrap_or_default();
    clients.sort_by_key(|client| client.0);
    clients.dedup();
    for client in &clients {
        if !store::has_client(&mut work.cx(), organization, *client).await? {
            return Err(Error::not_there_at("/clients", "client"));
        }
    }
    keep_an_office(work, account, change.role).await?;
    store::set_membership(&mut work.cx(), organization, account, change.role.word(), now).await?;
    store::limit_to_clients(&mut work.cx(), organization, account, &clients).await?;
    Ok(())
}

struct Account {
    id: AccountId,
    has_password: bool,
}

/// The account of an address, made if there is none. An account that has a password keeps it: who adds a member must
/// not be able to take over somebody's account.
async fn account_for(
    work: &mut Work,
    clock: &Clock,
    email: &str,
    name: &str,
    hash: Option<String>,
) -> Result<Account, Error> {
    let (id, now) = (AccountId(clock.new_id()?), work.now());
    if store::add_account(&mut work.cx(), id, email, name, hash.clone(), now).await? {
        return Ok(Account { id, has_password: hash.is_some() });
    }
    let there = store::account_by_email(&mut work.cx(), email).await?.ok_or_else(|| Error::not_there("account"))?;
    let id = AccountId(there.id);
    match (there.password_hash, hash) {
        (None, Some(hash)) => {
            store::set_password(&mut work.cx(), id, &hash).await?;
            Ok(Account { id, has_password: true })
        }
        (there, _) => Ok(Account { id, has_password: there.is_some() }),
    }
}

/// Whether an account is also a member of another organization. Then this office may not set its password: it would
/// open the other organization to it. The command line of the host may.
async fn is_of_others(work: &mut Work, account: AccountId) -> Result<bool, Error> {
    let organization = work.organization();
    if work.account().is_none() {
        return Ok(false);
    }
    let memberships = store::memberships(&mut work.cx(), account).await?;
    Ok(memberships.iter().any(|membership| membership.organization_id != organization.0))
}

async fn standing_member(work: &mut Work, account: AccountId) -> Result<MemberRow, Error> {
    let organization = work.organization();
    let members = store::members(&mut work.cx(), organization).await?;
    let member = members.into_iter().find(|member| member.account_id == account.0 && member.active);
    member.ok_or_else(|| Error::not_there("member"))
}

/// An organization keeps at least one office member, or nobody could ever add another.
async fn keep_an_office(work: &mut Work, account: AccountId, becomes: RoleWord) -> Result<(), Error> {
    let organization = work.organization();
    let members = store::members(&mut work.cx(), organization).await?;
    let is_office = members.iter().any(|m| m.account_id == account.0 && m.active && m.role == Role::Office.word());
    if is_office && becomes != RoleWord::Office && store::office_count(&mut work.cx(), organization).await? == 1 {
        return Err(Error::fault("/role", saying!("office-needs-one")));
    }
    Ok(())
}

/// Ends a membership, with its sessions and tokens and its places in crews.
///
/// # Errors
/// 404 when there is none; 422 when it is the last office member.
pub async fn end_member(db: &Db, clock: &Clock, grant: &Grant, account: AccountId) -> Result<(), Error> {
    let mut work = Work::begin(db, clock, grant).await?;
    let organization = work.organization();
    keep_an_office(&mut work, account, RoleWord::Crew).await?;
    if !store::end_membership(&mut work.cx(), organization, account).await? {
        return Err(Error::not_there("member"));
    }
    store::leave_crews(&mut work.cx(), organization, account).await?;
    session::end_in(&mut work.cx(), account, organization).await?;
    token::end_all(&mut work.cx(), organization, account).await?;
    feeds::act::end_inside(&mut work.cx(), organization, account).await?;
    digest::act::end_inside(&mut work.cx(), organization, account).await?;
    work.commit(Audit::did("member_ended", Kind::Membership, account.0, json!({}))).await?;
    Ok(())
}

/// Ends one session of a member, in this organization: a phone that was lost.
///
/// # Errors
/// 404 when there is no such session.
pub async fn end_session(db: &Db, clock: &Clock, grant: &Grant, account: AccountId, id: Uuid) -> Result<(), Error> {
    let mut work = Work::begin(db, clock, grant).await?;
    let organization = work.organization();
    if !session::end_one_in(&mut work.cx(), account, organization, id).await? {
        return Err(Error::not_there("session"));
    }
    work.commit(Audit::did("session_ended", Kind::Session, id, json!({ "account": account }))).await?;
    Ok(())
}

/// A new one-time link for a member who has lost the password. The password itself stays until the link is used.
///
/// # Errors
/// 404 when the account is no member; 422 when it is a member elsewhere too.
pub async fn add_password_link(db: &Db, clock: &Clock, grant: &Grant, account: AccountId) -> Result<String, Error> {
    let mut work = Work::begin(db, clock, grant).await?;
    standing_member(&mut work, account).await?;
    if is_of_others(&mut work, account).await? {
        return Err(Error::fault("", saying!("password-of-others-too", command = "sowmark member new-link")));
    }
    let code = link::add(&mut work.cx(), clock, link::Purpose::SetPassword(account)).await?;
    work.commit(Audit::did("password_link_made", Kind::Account, account.0, json!({}))).await?;
    Ok(code)
}

/// The account of an address.
///
/// # Errors
/// 404 when there is none.
pub async fn account_of(db: &Db, email: &str) -> Result<AccountId, Error> {
    let mut conn = db.read().await?;
    let account = store::account_by_email(&mut conn.cx(), &email.trim().to_lowercase()).await?;
    account.map(|account| AccountId(account.id)).ok_or_else(|| {
        let address = cut(email);
        Error::not_there(Missing::said(saying!("fault-no-account", address = &address)))
    })
}

/// The organizations that somebody is a member of.
///
/// # Errors
/// The database.
pub async fn memberships(cx: &mut Cx<'_>, account: AccountId) -> Result<Vec<MembershipRow>, Error> {
    Ok(store::memberships(cx, account).await?)
}

/// The members of an organization, those who left last.
///
/// # Errors
/// The database.
pub async fn members(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<MemberRow>, Error> {
    Ok(store::members(cx, organization).await?)
}

/// The clients of an organization by name, with their ids.
///
/// # Errors
/// The database.
pub async fn clients(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<(Uuid, String)>, Error> {
    Ok(store::clients(cx, organization).await?)
}

/// Which member is limited to which client.
///
/// # Errors
/// The database.
pub async fn limits(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<(Uuid, Uuid)>, Error> {
    Ok(store::limits(cx, organization).await?)
}

/// The seeders of an organization by name, with their ids.
///
/// # Errors
/// The database.
pub async fn seeders(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<(Uuid, String)>, Error> {
    Ok(store::seeders(cx, organization).await?)
}

/// Turns a session to another organization.
///
/// # Errors
/// 404 when the person is no member there.
pub async fn switch_organization(db: &Db, account: AccountId, session: Uuid, to: OrganizationId) -> Result<(), Error> {
    let memberships = {
        let mut conn = db.read().await?;
        store::memberships(&mut conn.cx(), account).await?
    };
    if memberships.iter().any(|membership| membership.organization_id == to.0) {
        session::switch(db, session, to).await
    } else {
        Err(Error::not_there("organization"))
    }
}

/// Sets how a person reads. It changes no record, so the trail does not hear of it.
///
/// # Errors
/// The database.
pub async fn set_reading(db: &Db, account: AccountId, draft: &ReadingDraft) -> Result<(), Error> {
    let own = match draft.units {
        OwnUnitsWord::Organization => None,
        OwnUnitsWord::Metric | OwnUnitsWord::Us => Some(draft.units.word()),
    };
    let mut tx = db.begin().await?;
    let language = draft.language.as_ref().map(|language| language.0.tag());
    store::set_reading(&mut tx.cx(), account, own, draft.decimal_sign.word(), language).await?;
    tx.commit().await?;
    Ok(())
}
