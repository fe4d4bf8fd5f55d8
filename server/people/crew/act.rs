//! What is done with crews.

use super::store::{self, CrewRow};
use crate::access::{Permission, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome, Work};
use crate::people::draft::{CrewChange, CrewDraft};
use crate::saying;
use crate::web::door::Signed;
use crate::web::error::{Error, Fault};
use serde_json::{Value, json};
use sowmark_core::ids::{AccountId, CrewId, SeederId};
use uuid::Uuid;

/// A crew with its members and seeders, each an id and a name.
#[derive(Clone, Debug)]
pub struct Crew {
    pub id: Uuid,
    pub name: String,
    pub members: Vec<(Uuid, String)>,
    pub seeders: Vec<(Uuid, String)>,
}

impl Crew {
    fn told(&self) -> Value {
        let ids = |all: &[(Uuid, String)]| all.iter().map(|(id, _)| *id).collect::<Vec<_>>();
        json!({ "name": self.name, "members": ids(&self.members), "seeders": ids(&self.seeders) })
    }
}

/// Adds a crew.
///
/// # Errors
/// 403 by role; 404 for a member or seeder that is not there; 409 for a taken id.
pub async fn add_crew(signed: &Signed, draft: CrewDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let new =
        NewEntry { id: draft.id, kind: Kind::Crew, parent: None, happened: None, corrects: None, sent: sent.clone() };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    let change = CrewChange {
        name: draft.name,
        members: draft.members.unwrap_or_default(),
        seeders: draft.seeders.unwrap_or_default(),
    };
    store::add(&mut work, CrewId(id), &change.name.0).await?;
    fill(&mut work, CrewId(id), &change).await?;
    work.commit(Audit::created(Kind::Crew, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// Gives a crew another name, other members or other seeders.
///
/// # Errors
/// 403 by role; 404 for a crew, member or seeder that is not there.
pub async fn change_crew(signed: &Signed, id: CrewId, change: CrewChange) -> Result<(), Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let mut work = signed.app.work(&grant).await?;
    let before = find_crew(&mut work.cx(), &signed.actor.scope, id).await?;
    store::rename(&mut work, id, &change.name.0).await?;
    fill(&mut work, id, &change).await?;
    let after = find_crew(&mut work.cx(), &signed.actor.scope, id).await?;
    work.commit(Audit::changed(Kind::Crew, id.0, &before.told(), &after.told())).await?;
    Ok(())
}

async fn fill(work: &mut Work, id: CrewId, change: &CrewChange) -> Result<(), Error> {
    let organization = work.organization();
    let mut faults = Vec::new();
    let mut members: Vec<AccountId> = Vec::new();
    for (position, member) in change.members.iter().enumerate() {
        if !store::is_member(&mut work.cx(), organization, *member).await? {
            return Err(Error::not_there_at(format!("/members/{position}"), "member"));
        }
        if members.contains(member) {
            faults.push(Fault::new(format!("/members/{position}"), saying!("crew-member-twice")));
        }
        members.push(*member);
    }
    let mut seeders: Vec<SeederId> = Vec::new();
    for (position, seeder) in change.seeders.iter().enumerate() {
        if !store::is_seeder(&mut work.cx(), organization, *seeder).await? {
            return Err(Error::not_there_at(format!("/seeders/{position}"), "seeder"));
        }
        if seeders.contains(seeder) {
            faults.push(Fault::new(format!("/seeders/{position}"), saying!("crew-seeder-twice")));
        }
        seeders.push(*seeder);
    }
    if !faults.is_empty() {
        return Err(Error::Faults(faults));
    }
    Ok(store::fill(work, id, &members, &seeders).await?)
}

/// A crew.
///
/// # Errors
/// 404 when there is none.
pub async fn find_crew(cx: &mut Cx<'_>, scope: &Scope, id: CrewId) -> Result<Crew, Error> {
    let row = store::find(cx, scope.organization, id).await?.ok_or_else(|| Error::not_there("crew"))?;
    let crews = gathered(cx, scope, vec![row]).await?;
    crews.into_iter().next().ok_or_else(|| Error::not_there("crew"))
}

/// All crews by name.
///
/// # Errors
/// The database.
pub async fn crews(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<Crew>, Error> {
    let rows = store::list(cx, scope.organization).await?;
    gathered(cx, scope, rows).await
}

async fn gathered(cx: &mut Cx<'_>, scope: &Scope, rows: Vec<CrewRow>) -> Result<Vec<Crew>, Error> {
    let members = store::members(cx, scope.organization).await?;
    let seeders = store::seeders(cx, scope.organization).await?;
    let of = |all: &[(Uuid, Uuid, String)], crew: Uuid| {
        all.iter().filter(|(of, ..)| *of == crew).map(|(_, id, name)| (*id, name.clone())).collect()
    };
    Ok(rows
        .into_iter()
        .map(|row| Crew { members: of(&members, row.id), seeders: of(&seeders, row.id), id: row.id, name: row.name })
        .collect())
}
