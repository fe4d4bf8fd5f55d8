//! What is done with people: make organizations and members, sign in and out, set passwords.

use super::store::{self, AccountRow, MemberRow, MembershipRow, NewOrganization};
use crate::access::password::{self, Hasher};
use crate::access::{Grant, Role, link, session, token};
use crate::clock::Clock;
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Db, Work};
use crate::web::error::{Error, Fault};
use crate::web::input::{At, Faults, Input, Line, Name, shown, text_of};
use crate::{input, words};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use serde_json::{Value, json};
use sowmark_core::ids::{AccountId, ClientId, OrganizationId};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use uuid::Uuid;

words! {
    /// What a member may be.
    pub enum RoleWord {
        Office = "office",
        Crew = "crew",
        Agronomist = "agronomist",
    }
}

words! {
    /// Which units an organization reads in.
    pub enum UnitsWord {
        Metric = "metric",
        Us = "us",
    }
}

/// A time zone by its IANA name.
#[derive(Clone, Debug)]
pub struct Zone(pub String);

impl Input for Zone {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let text = text_of(value, at, faults)?.trim();
        match TimeZone::get(text) {
            Ok(_) => Some(Self(text.to_owned())),
            Err(_) => faults.add(at, format!("{} is no time zone. Use an IANA name, like Europe/Paris or America/Chicago.", shown(text))),
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).description(Some("An IANA time zone.")).into()
    }
}

/// An e-mail address, folded to lower case.
#[derive(Clone, Debug)]
pub struct Email(pub String);

impl Input for Email {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let text = Line::<254>::read(value, at, faults)?.0.to_lowercase();
        let is_address = text.split_once('@').is_some_and(|(local, host)| !local.is_empty() && !host.is_empty() && !host.contains('@'));
        if is_address && !text.contains(char::is_whitespace) {
            Some(Self(text))
        } else {
            faults.add(at, format!("{} is no e-mail address. Write it like ana@example.org.", shown(&text)))
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).max_length(Some(254)).into()
    }
}

input! {
    /// An organization to be made.
    pub struct OrganizationDraft {
        pub name: Name,
        /// The time zone of its days and seasons.
        pub time_zone: Zone,
        pub units: UnitsWord,
    }
}

input! {
    /// A member to be added.
    pub struct MemberDraft {
        pub email: Email,
        pub name: Name,
        pub role: RoleWord,
        /// The clients that an agronomist is limited to; none, no limit.
        pub clients: Option<Vec<ClientId>>,
    }
}

input! {
    /// The first office account, with its organization.
    pub struct SetUpDraft {
        pub organization: Name,
        pub time_zone: Zone,
        pub units: UnitsWord,
        pub name: Name,
        pub email: Email,
        pub password: Line<1000>,
    }
}

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

async fn found(work: &mut Work, draft: &OrganizationDraft) -> Result<(), Error> {
    let (id, now) = (work.organization(), work.now());
    let new =
        NewOrganization { id, name: &draft.name.0, time_zone: &draft.time_zone.0, units: draft.units.word() };
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
    check_password("/password", &draft.password.0, &draft.email.0)?;
    let hash = hasher.hash(draft.password.0.clone()).await?;
    let (organization, account) = (OrganizationId(clock.new_id()?), AccountId(clock.new_id()?));
    let mut work = Work::founding(db, clock, organization, Some(account)).await?;
    let now = work.now();
    if !link::take(&mut work.cx(), code, now).await? || crate::access::has_accounts(&mut work.cx()).await? {
        return Err(Error::not_there("link: it is used or too old"));
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
    let clients = draft.clients.unwrap_or_default();
    if !clients.is_empty() && draft.role != RoleWord::Agronomist {
        return Err(Error::fault("/clients", "Only an agronomist can be limited to clients. Leave them out, or make the role agronomist."));
    }
    let hash = match password {
        Some(password) => {
            check_password("/password", &password, &draft.email.0)?;
            Some(hasher.hash(password).await?)
        }
        None => None,
    };
    let mut work = Work::begin(db, clock, grant).await?;
    let (organization, now) = (work.organization(), work.now());
    let account = account_for(&mut work, clock, &draft.email.0, &draft.name.0, hash).await?;
    for client in &clients {
        if !store::has_client(&mut work.cx(), organization, *client).await? {
            return Err(Error::not_there_at("/clients", "client"));
        }
    }
    keep_an_office(&mut work, account.id, draft.role).await?;
    store::set_membership(&mut work.cx(), organization, account.id, draft.role.word(), now).await?;
    store::limit_to_clients(&mut work.cx(), organization, account.id, &clients).await?;
    let link = if account.has_password {
        None
    } else {
        Some(link::add(&mut work.cx(), clock, link::Purpose::SetPassword(account.id)).await?)
    };
    let change = json!({ "role": draft.role.word(), "clients": clients });
    work.commit(Audit::did("member_set", Kind::Membership, account.id.0, change)).await?;
    Ok(AddedMember { account: account.id, link })
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

/// An organization keeps at least one office member, or nobody could ever add another.
async fn keep_an_office(work: &mut Work, account: AccountId, becomes: RoleWord) -> Result<(), Error> {
    let organization = work.organization();
    let members = store::members(&mut work.cx(), organization).await?;
    let is_office = members.iter().any(|m| m.account_id == account.0 && m.active && m.role == Role::Office.word());
    if is_office && becomes != RoleWord::Office && store::office_count(&mut work.cx(), organization).await? == 1 {
        return Err(Error::fault("/role", "This is the only office member. Make somebody else office first."));
    }
    Ok(())
}

/// Ends a membership, with its sessions and tokens.
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
    session::end_in(&mut work.cx(), account, organization).await?;
    token::end_all(&mut work.cx(), organization, account).await?;
    work.commit(Audit::did("member_ended", Kind::Membership, account.0, json!({}))).await?;
    Ok(())
}

/// A new one-time link for a member who has lost the password. The password itself stays until the link is used.
///
/// # Errors
/// 404 when the account is no member.
pub async fn add_password_link(db: &Db, clock: &Clock, grant: &Grant, account: AccountId) -> Result<String, Error> {
    let mut work = Work::begin(db, clock, grant).await?;
    let organization = work.organization();
    let members = store::members(&mut work.cx(), organization).await?;
    if !members.iter().any(|member| member.account_id == account.0 && member.active) {
        return Err(Error::not_there("member"));
    }
    let code = link::add(&mut work.cx(), clock, link::Purpose::SetPassword(account)).await?;
    work.commit(Audit::did("password_link_made", Kind::Account, account.0, json!({}))).await?;
    Ok(code)
}

/// Sets a password by a one-time link. All sessions of the account end.
///
/// # Errors
/// 404 when the link is used or too old; faults of the password.
pub async fn set_password(db: &Db, clock: &Clock, hasher: &Hasher, code: &str, password: String) -> Result<(), Error> {
    let now = clock.now();
    let account = {
        let mut conn = db.read().await?;
        match link::find(&mut conn.cx(), code, now).await? {
            Some(link::Purpose::SetPassword(account)) => store::account(&mut conn.cx(), account).await?,
            _ => None,
        }
    };
    let account = account.ok_or_else(|| Error::not_there("link: it is used or too old"))?;
    check_password("/password", &password, &account.email)?;
    let hash = hasher.hash(password).await?;
    let mut tx = db.begin().await?;
    if !link::take(&mut tx.cx(), code, now).await? {
        return Err(Error::not_there("link: it is used or too old"));
    }
    store::set_password(&mut tx.cx(), AccountId(account.id), &hash).await?;
    session::end_all(&mut tx.cx(), AccountId(account.id)).await?;
    tx.commit().await?;
    tracing::info!(account = %account.id, "password set by link");
    Ok(())
}

fn check_password(pointer: &str, password: &str, email: &str) -> Result<(), Error> {
    match password::refusal(password, email) {
        Some(why) => Err(Error::Faults(vec![Fault::new(pointer, why)])),
        None => Ok(()),
    }
}

/// How signing in ended well.
#[derive(Debug)]
pub struct SignedIn {
    pub secret: String,
}

/// After this many failures in a row, each further try waits twice as long as the one before.
const FREE_TRIES: i64 = 4;
const LONGEST_WAIT_SECONDS: i64 = 900;

/// Signs in. An unknown address, a wrong password and a person without a membership are answered alike.
///
/// # Errors
/// 422 when they do not fit; 429 when this account has failed too often just now.
pub async fn sign_in(
    db: &Db,
    clock: &Clock,
    hasher: &Hasher,
    email: &str,
    password: String,
    device: &str,
) -> Result<SignedIn, Error> {
    let now = clock.now();
    let (account, memberships) = {
        let mut conn = db.read().await?;
        let account = store::account_by_email(&mut conn.cx(), &email.trim().to_lowercase()).await?;
        let memberships = match &account {
            Some(account) => store::memberships(&mut conn.cx(), AccountId(account.id)).await?,
            None => Vec::new(),
        };
        (account, memberships)
    };
    if let Some(account) = &account {
        wait_over(account, now)?;
    }
    let hash = account.as_ref().and_then(|account| account.password_hash.clone());
    let fits = hasher.fits(password, hash).await?;
    match (account, memberships.first()) {
        (Some(account), Some(membership)) if fits => {
            note(db, &account, 0, now).await?;
            let role = Role::from_word(&membership.role).unwrap_or(Role::Crew);
            let organization = OrganizationId(membership.organization_id);
            let secret = session::open(db, clock, AccountId(account.id), organization, role, device).await?;
            tracing::info!(account = %account.id, "signed in");
            Ok(SignedIn { secret })
        }
        (account, _) => {
            if let Some(account) = account {
                note(db, &account, account.failed_sign_ins + 1, now).await?;
                tracing::info!(account = %account.id, "sign-in refused");
            }
            Err(Error::fault("", "This address and password do not fit. Look for a typing slip, or ask the office for a new link."))
        }
    }
}

fn wait_over(account: &AccountRow, now: Timestamp) -> Result<(), Error> {
    let left = account.sign_in_after - now.as_microsecond();
    if left <= 0 {
        return Ok(());
    }
    let seconds = u32::try_from(left / 1_000_000 + 1).unwrap_or(u32::MAX);
    Err(Error::TooMany { retry_after_seconds: seconds })
}

async fn note(db: &Db, account: &AccountRow, failed: i64, now: Timestamp) -> Result<(), Error> {
    if failed == 0 && account.failed_sign_ins == 0 {
        return Ok(());
    }
    let doublings = u32::try_from((failed - FREE_TRIES).clamp(0, 10)).unwrap_or(0);
    let wait = if failed > FREE_TRIES { (1_i64 << doublings).min(LONGEST_WAIT_SECONDS) } else { 0 };
    let mut tx = db.begin().await?;
    store::note_sign_in(&mut tx.cx(), AccountId(account.id), failed, now + SignedDuration::from_secs(wait)).await?;
    tx.commit().await?;
    Ok(())
}

/// The account of an address.
///
/// # Errors
/// 404 when there is none.
pub async fn account_of(db: &Db, email: &str) -> Result<AccountId, Error> {
    let mut conn = db.read().await?;
    let account = store::account_by_email(&mut conn.cx(), &email.trim().to_lowercase()).await?;
    account.map(|account| AccountId(account.id)).ok_or_else(|| Error::not_there(format!("account as {}", shown(email))))
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
