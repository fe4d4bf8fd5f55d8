//! Accounts and memberships in the database.

use crate::db::{Cx, Result};
use crate::{args, queries};
use jiff::Timestamp;
use sowmark_core::ids::{AccountId, ClientId, OrganizationId};
use uuid::Uuid;

queries! {
    ADD_ORGANIZATION = "insert into organization (id, name, time_zone, units, seq, created_at) values ($1, $2, $3, $4, 1, $5)";
    ANY_ORGANIZATION = "select count(*) from (select id from organization limit 1) o";
    ADD_ACCOUNT = "insert into account (id, email, name, password_hash, created_at) values ($1, $2, $3, $4, $5)
        on conflict (email) do nothing";
    ACCOUNT = "select id, email, name, password_hash, failed_sign_ins, sign_in_after from account where id = $1";
    ACCOUNT_BY_EMAIL = "select id, email, name, password_hash, failed_sign_ins, sign_in_after from account where email = $1";
    SET_PASSWORD = "update account set password_hash = $2, failed_sign_ins = 0, sign_in_after = 0 where id = $1";
    SET_READING = "update account set units = $2, decimal_sign = $3, language = $4 where id = $1";
    COUNT_FAILURE = "update account set failed_sign_ins = failed_sign_ins + 1 where id = $1 returning failed_sign_ins";
    NOTE_SIGN_IN = "update account set failed_sign_ins = $2, sign_in_after = $3 where id = $1";
    SET_MEMBERSHIP = "insert into membership (organization_id, account_id, role, active, created_at) values ($1, $2, $3, true, $4)
        on conflict (organization_id, account_id) do update set role = excluded.role, active = true";
    END_MEMBERSHIP = "update membership set active = false where organization_id = $1 and account_id = $2 and active = true";
    DROP_CLIENTS = "delete from membership_client where organization_id = $1 and account_id = $2";
    ADD_CLIENT = "insert into membership_client (organization_id, account_id, client_id) values ($1, $2, $3)";
    HAS_CLIENT = "select id from client where organization_id = $1 and id = $2";
    MEMBERSHIPS = "select m.organization_id, o.name, m.role from membership m join organization o on o.id = m.organization_id
        where m.account_id = $1 and m.active = true order by m.created_at, m.organization_id";
    MEMBERS = "select m.account_id, a.name, a.email, m.role, m.active, m.created_at from membership m
        join account a on a.id = m.account_id where m.organization_id = $1 order by m.active desc, a.name, m.account_id";
    CLIENTS = "select id, name from client where organization_id = $1 order by name, id";
    LIMITS = "select account_id, client_id from membership_client where organization_id = $1";
    SEEDERS = "select id, name from seeder where organization_id = $1 order by name, id";
    LEAVE_CREWS = "delete from crew_member where organization_id = $1 and account_id = $2";
    OFFICE_COUNT = "select count(*) from membership where organization_id = $1 and role = 'office' and active = true";
}

/// An account.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct AccountRow {
    pub id: Uuid,
    pub email: String,
    pub name: String,
    pub password_hash: Option<String>,
    pub failed_sign_ins: i64,
    pub sign_in_after: i64,
}

/// A membership of an account.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct MembershipRow {
    pub organization_id: Uuid,
    pub name: String,
    pub role: String,
}

/// A member of an organization.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct MemberRow {
    pub account_id: Uuid,
    pub name: String,
    pub email: String,
    pub role: String,
    pub active: bool,
    pub created_at: i64,
}

/// An organization to be made.
#[derive(Clone, Debug)]
pub struct NewOrganization<'a> {
    pub id: OrganizationId,
    pub name: &'a str,
    pub time_zone: &'a str,
    pub units: &'a str,
}

pub(super) async fn has_organizations(cx: &mut Cx<'_>) -> Result<bool> {
    let (count,): (i64,) = cx.fetch_one(ANY_ORGANIZATION, &[]).await?;
    Ok(count > 0)
}

pub(super) async fn add_organization(cx: &mut Cx<'_>, new: &NewOrganization<'_>, now: Timestamp) -> Result<()> {
    cx.execute(ADD_ORGANIZATION, args![new.id, new.name, new.time_zone, new.units, now]).await?;
    Ok(())
}

/// Adds an account unless the address has one; whether it did.
pub(super) async fn add_account(
    cx: &mut Cx<'_>,
    id: AccountId,
    email: &str,
    name: &str,
    hash: Option<String>,
    now: Timestamp,
) -> Result<bool> {
    Ok(cx.execute(ADD_ACCOUNT, args![id, email, name, hash, now]).await? == 1)
}

pub(super) async fn account(cx: &mut Cx<'_>, id: AccountId) -> Result<Option<AccountRow>> {
    cx.fetch_optional(ACCOUNT, args![id]).await
}

pub(super) async fn account_by_email(cx: &mut Cx<'_>, email: &str) -> Result<Option<AccountRow>> {
    cx.fetch_optional(ACCOUNT_BY_EMAIL, args![email]).await
}

pub(super) async fn set_reading(
    cx: &mut Cx<'_>,
    account: AccountId,
    units: Option<&str>,
    decimal_sign: &str,
    language: Option<&str>,
) -> Result<()> {
    cx.execute(SET_READING, args![account, units, decimal_sign, language]).await?;
    Ok(())
}

pub(super) async fn set_password(cx: &mut Cx<'_>, id: AccountId, hash: &str) -> Result<()> {
    cx.execute(SET_PASSWORD, args![id, hash]).await?;
    Ok(())
}

pub(super) async fn note_sign_in(cx: &mut Cx<'_>, id: AccountId, failed: i64, after: Timestamp) -> Result<()> {
    cx.execute(NOTE_SIGN_IN, args![id, failed, after]).await?;
    Ok(())
}

/// Counts a failure to sign in; how many there are now.
pub(super) async fn count_failure(cx: &mut Cx<'_>, id: AccountId) -> Result<i64> {
    let (failed,): (i64,) = cx.fetch_one(COUNT_FAILURE, args![id]).await?;
    Ok(failed)
}

pub(super) async fn set_membership(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    account: AccountId,
    role: &str,
    now: Timestamp,
) -> Result<()> {
    cx.execute(SET_MEMBERSHIP, args![organization, account, role, now]).await?;
    Ok(())
}

pub(super) async fn end_membership(cx: &mut Cx<'_>, organization: OrganizationId, account: AccountId) -> Result<bool> {
    Ok(cx.execute(END_MEMBERSHIP, args![organization, account]).await? == 1)
}

pub(super) async fn limit_to_clients(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    account: AccountId,
    clients: &[ClientId],
) -> Result<()> {
    cx.execute(DROP_CLIENTS, args![organization, account]).await?;
    for client in clients {
        cx.execute(ADD_CLIENT, args![organization, account, *client]).await?;
    }
    Ok(())
}

pub(super) async fn has_client(cx: &mut Cx<'_>, organization: OrganizationId, client: ClientId) -> Result<bool> {
    let found: Option<(Uuid,)> = cx.fetch_optional(HAS_CLIENT, args![organization, client]).await?;
    Ok(found.is_some())
}

pub(super) async fn memberships(cx: &mut Cx<'_>, account: AccountId) -> Result<Vec<MembershipRow>> {
    cx.fetch_all(MEMBERSHIPS, args![account]).await
}

pub(super) async fn members(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<MemberRow>> {
    cx.fetch_all(MEMBERS, args![organization]).await
}

pub(super) async fn office_count(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<i64> {
    let (count,): (i64,) = cx.fetch_one(OFFICE_COUNT, args![organization]).await?;
    Ok(count)
}

pub(super) async fn clients(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<(Uuid, String)>> {
    cx.fetch_all(CLIENTS, args![organization]).await
}

/// Pairs of an account and a client that it is limited to.
pub(super) async fn limits(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<(Uuid, Uuid)>> {
    cx.fetch_all(LIMITS, args![organization]).await
}

pub(super) async fn seeders(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<(Uuid, String)>> {
    cx.fetch_all(SEEDERS, args![organization]).await
}

pub(super) async fn leave_crews(cx: &mut Cx<'_>, organization: OrganizationId, account: AccountId) -> Result<()> {
    cx.execute(LEAVE_CREWS, args![organization, account]).await?;
    Ok(())
}
