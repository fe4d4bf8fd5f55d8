//! Finds who is behind a session or a token, with everything that decides what they see: in at most three queries.

use super::{Actor, Reach, Role, Scope, Units, Via};
use crate::db::Cx;
use crate::web::error::Error;
use crate::{args, queries, texts};
use jiff::tz::TimeZone;
use sowmark_core::ids::{AccountId, ClientId, LotId, OrganizationId, SeederId};
use sowmark_core::words::DecimalSign;
use std::collections::HashSet;
use std::sync::Arc;
use uuid::Uuid;

queries! {
    MEMBER = "select a.email, a.name, o.name as organization_name, o.time_zone, o.units as organization_units,
        a.units as own_units, a.decimal_sign, a.language, m.role
        from membership m join account a on a.id = m.account_id join organization o on o.id = m.organization_id
        where m.organization_id = $1 and m.account_id = $2 and m.active = true";
    CREW_SEEDERS = "select distinct s.seeder_id from crew_seeder s
        join crew_member m on m.organization_id = s.organization_id and m.crew_id = s.crew_id
        where m.organization_id = $1 and m.account_id = $2";
    LIMITED_TO = "select client_id from membership_client where organization_id = $1 and account_id = $2";
    CLIENT_LOTS = "with theirs as (select client_id from membership_client where organization_id = $1 and account_id = $2
            union all select id from client where organization_id = $1 and id = $2)
        select l.id from lot l where l.organization_id = $1 and l.client_id in (select client_id from theirs)";
    CLIENT_SEEDERS = "with theirs as (select client_id from membership_client where organization_id = $1 and account_id = $2
            union all select id from client where organization_id = $1 and id = $2),
        lots as (select l.id from lot l where l.organization_id = $1 and l.client_id in (select client_id from theirs))
        select distinct u.seeder_id from metering_unit u where u.organization_id = $1 and (
            exists (select 1 from calibration c where c.organization_id = $1 and c.metering_unit_id = u.id
                and c.lot_id in (select id from lots))
            or exists (select 1 from fill f where f.organization_id = $1 and f.metering_unit_id = u.id
                and f.lot_id in (select id from lots))
            or exists (select 1 from job j where j.organization_id = $1 and j.metering_unit_id = u.id
                and j.lot_id in (select id from lots))
            or exists (select 1 from job j join field f on f.organization_id = j.organization_id and f.id = j.field_id
                where j.organization_id = $1 and j.metering_unit_id = u.id
                    and f.client_id in (select client_id from theirs)))";
    ANY_ACCOUNT = "select count(*) from (select id from account limit 1) a";
}

#[derive(sqlx::FromRow)]
struct Member {
    email: String,
    name: String,
    organization_name: String,
    time_zone: String,
    organization_units: String,
    own_units: Option<String>,
    decimal_sign: String,
    language: Option<String>,
    role: String,
}

/// The actor behind an account in an organization; none when the membership is gone or ended.
///
/// # Errors
/// The database, or a row that this program could not have written.
pub async fn find_actor(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    account: AccountId,
    via: Via,
) -> Result<Option<Actor>, Error> {
    let member: Option<Member> = cx.fetch_optional(MEMBER, args![organization, account]).await?;
    let Some(member) = member else { return Ok(None) };
    let role = Role::from_word(&member.role).ok_or_else(|| Error::inconsistent("membership.role", &member.role))?;
    let units_of = |word: &str| Units::from_word(word).ok_or_else(|| Error::inconsistent("units", word));
    let organization_units = units_of(&member.organization_units)?;
    let own_units = member.own_units.as_deref().map(units_of).transpose()?;
    let decimal_sign = decimal_sign(&member.decimal_sign)?;
    // One that this program no longer speaks is none.
    let own_language = member.language.as_deref().and_then(texts::language);
    let time_zone = TimeZone::get(&member.time_zone)
        .map_err(|_| Error::inconsistent("organization.time_zone", &member.time_zone))?;
    let scope = scope(cx, organization, account, role).await?;
    Ok(Some(Actor {
        account,
        email: member.email,
        name: member.name,
        organization_name: member.organization_name,
        time_zone,
        time_zone_name: member.time_zone,
        organization_units,
        own_units,
        units: own_units.unwrap_or(organization_units),
        decimal_sign,
        own_language,
        language: own_language.unwrap_or(texts::english()),
        role,
        scope,
        via,
        origin: Arc::default(),
    }))
}

fn decimal_sign(word: &str) -> Result<DecimalSign, Error> {
    match word {
        "point" => Ok(DecimalSign::Point),
        "comma" => Ok(DecimalSign::Comma),
        other => Err(Error::inconsistent("account.decimal_sign", other)),
    }
}

async fn scope(cx: &mut Cx<'_>, organization: OrganizationId, account: AccountId, role: Role) -> Result<Scope, Error> {
    let mut scope = Scope { organization, seeders: Reach::All, lots: Reach::All, clients: Reach::All };
    match role {
        Role::Office => {}
        Role::Crew => {
            scope.seeders = Reach::Only(ids(cx, CREW_SEEDERS, organization, account.0).await?.map(SeederId).collect());
        }
        Role::Agronomist => {
            let clients: HashSet<ClientId> =
                ids(cx, LIMITED_TO, organization, account.0).await?.map(ClientId).collect();
            if !clients.is_empty() {
                scope.clients = Reach::Only(clients);
                (scope.lots, scope.seeders) = concerning(cx, organization, account.0).await?;
            }
        }
    }
    Ok(scope)
}

/// The lots and the seeders that concern a client, or the clients that a member is limited to: one id says which, as no
/// client has an account's.
async fn concerning(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    whose: Uuid,
) -> Result<(Reach<LotId>, Reach<SeederId>), Error> {
    let lots = ids(cx, CLIENT_LOTS, organization, whose).await?.map(LotId).collect();
    let seeders = ids(cx, CLIENT_SEEDERS, organization, whose).await?.map(SeederId).collect();
    Ok((Reach::Only(lots), Reach::Only(seeders)))
}

/// What is left of somebody's sight where one client alone is asked about: what an agronomist limited to that client would
/// see of it, for files and reports that go to the client.
///
/// # Errors
/// The database.
pub async fn limited_to(cx: &mut Cx<'_>, actor: &Actor, client: ClientId) -> Result<Actor, Error> {
    let (lots, seeders) = concerning(cx, actor.organization(), client.0).await?;
    let whole = &actor.scope;
    let scope = Scope {
        organization: whole.organization,
        seeders: whole.seeders.clone().both(seeders),
        lots: whole.lots.clone().both(lots),
        clients: whole.clients.clone().both(Reach::Only(HashSet::from([client]))),
    };
    let role = if actor.role == Role::Office { Role::Agronomist } else { actor.role };
    Ok(Actor { role, scope, ..actor.clone() })
}

async fn ids(
    cx: &mut Cx<'_>,
    sql: &'static str,
    organization: OrganizationId,
    whose: Uuid,
) -> Result<impl Iterator<Item = Uuid>, Error> {
    let rows: Vec<(Uuid,)> = cx.fetch_all(sql, args![organization, whose]).await?;
    Ok(rows.into_iter().map(|(id,)| id))
}

/// Whether anybody has an account yet.
///
/// # Errors
/// The database.
pub async fn has_accounts(cx: &mut Cx<'_>) -> Result<bool, Error> {
    let (count,): (i64,) = cx.fetch_one(ANY_ACCOUNT, &[]).await?;
    Ok(count > 0)
}
