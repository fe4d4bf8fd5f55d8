//! Crews in the database.

use crate::db::{Cx, Result, Work};
use crate::{args, queries};
use sowmark_core::ids::{AccountId, CrewId, OrganizationId, SeederId};
use uuid::Uuid;

queries! {
    ADD = "insert into crew (organization_id, id, name) values ($1, $2, $3)";
    RENAME = "update crew set name = $3 where organization_id = $1 and id = $2";
    FIND = "select id, name from crew where organization_id = $1 and id = $2";
    LIST = "select id, name from crew where organization_id = $1 order by name, id";
    MEMBERS = "select c.crew_id, c.account_id, a.name from crew_member c
        join membership m on m.organization_id = c.organization_id and m.account_id = c.account_id
        join account a on a.id = c.account_id
        where c.organization_id = $1 and m.active = true order by a.name, c.account_id";
    SEEDERS = "select c.crew_id, c.seeder_id, s.name from crew_seeder c
        join seeder s on s.organization_id = c.organization_id and s.id = c.seeder_id
        where c.organization_id = $1 order by s.name, c.seeder_id";
    DROP_MEMBERS = "delete from crew_member where organization_id = $1 and crew_id = $2";
    DROP_SEEDERS = "delete from crew_seeder where organization_id = $1 and crew_id = $2";
    ADD_MEMBER = "insert into crew_member (organization_id, crew_id, account_id) values ($1, $2, $3)";
    ADD_SEEDER = "insert into crew_seeder (organization_id, crew_id, seeder_id) values ($1, $2, $3)";
    IS_MEMBER = "select account_id from membership where organization_id = $1 and account_id = $2 and active = true";
    IS_SEEDER = "select id from seeder where organization_id = $1 and id = $2";
}

/// A crew's own line.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct CrewRow {
    pub id: Uuid,
    pub name: String,
}

pub(super) async fn add(work: &mut Work, id: CrewId, name: &str) -> Result<()> {
    let organization = work.organization();
    work.cx().execute(ADD, args![organization, id, name]).await?;
    Ok(())
}

pub(super) async fn rename(work: &mut Work, id: CrewId, name: &str) -> Result<bool> {
    let organization = work.organization();
    Ok(work.cx().execute(RENAME, args![organization, id, name]).await? == 1)
}

/// Puts these members and seeders in the place of those that were there.
pub(super) async fn fill(work: &mut Work, id: CrewId, members: &[AccountId], seeders: &[SeederId]) -> Result<()> {
    let organization = work.organization();
    let mut cx = work.cx();
    cx.execute(DROP_MEMBERS, args![organization, id]).await?;
    cx.execute(DROP_SEEDERS, args![organization, id]).await?;
    for member in members {
        cx.execute(ADD_MEMBER, args![organization, id, *member]).await?;
    }
    for seeder in seeders {
        cx.execute(ADD_SEEDER, args![organization, id, *seeder]).await?;
    }
    Ok(())
}

pub(super) async fn is_member(cx: &mut Cx<'_>, organization: OrganizationId, account: AccountId) -> Result<bool> {
    let found: Option<(Uuid,)> = cx.fetch_optional(IS_MEMBER, args![organization, account]).await?;
    Ok(found.is_some())
}

pub(super) async fn is_seeder(cx: &mut Cx<'_>, organization: OrganizationId, seeder: SeederId) -> Result<bool> {
    let found: Option<(Uuid,)> = cx.fetch_optional(IS_SEEDER, args![organization, seeder]).await?;
    Ok(found.is_some())
}

pub(super) async fn find(cx: &mut Cx<'_>, organization: OrganizationId, id: CrewId) -> Result<Option<CrewRow>> {
    cx.fetch_optional(FIND, args![organization, id]).await
}

pub(super) async fn list(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<CrewRow>> {
    cx.fetch_all(LIST, args![organization]).await
}

/// Crew, account and name of each member of any crew.
pub(super) async fn members(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<(Uuid, Uuid, String)>> {
    cx.fetch_all(MEMBERS, args![organization]).await
}

/// Crew, seeder and name of each seeder of any crew.
pub(super) async fn seeders(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<(Uuid, Uuid, String)>> {
    cx.fetch_all(SEEDERS, args![organization]).await
}
