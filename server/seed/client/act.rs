//! What is done with clients.

use super::store::{self, ClientRow};
use crate::access::{self, Permission, Scope};
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::input;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::Name;
use crate::web::paging::{Gathered, List, PageAsked};
use serde_json::Value;
use sowmark_core::ids::ClientId;

input! {
    /// Somebody for whom the organization sows.
    pub entry struct ClientDraft {
        pub name: Name,
    }
}

/// Adds a client.
///
/// # Errors
/// 403 by role; 409 for a taken id.
pub async fn add_client(signed: &Signed, draft: ClientDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let new =
        NewEntry { id: draft.id, kind: Kind::Client, parent: None, happened: None, corrects: None, sent: sent.clone() };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    store::add(&mut work, ClientId(id), &draft).await?;
    work.commit(Audit::created(Kind::Client, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// A client.
///
/// # Errors
/// 404 when there is none within the scope.
pub async fn find_client(cx: &mut Cx<'_>, scope: &Scope, id: ClientId) -> Result<ClientRow, Error> {
    let found = if scope.clients.includes(&id) { store::find(cx, scope, id).await? } else { None };
    found.ok_or_else(|| Error::not_there("client"))
}

/// The client that a request names must be there.
///
/// # Errors
/// 404 at `/client_id`.
pub async fn named_client(cx: &mut Cx<'_>, scope: &Scope, id: Option<ClientId>) -> Result<(), Error> {
    match id {
        None => Ok(()),
        Some(id) => match find_client(cx, scope, id).await {
            Ok(_) => Ok(()),
            Err(Error::NotThere { .. }) => Err(Error::not_there_at("/client_id", "client")),
            Err(error) => Err(error),
        },
    }
}

/// Somebody as the one client alone lets them see, where a client is asked about: what an agronomist limited to it would
/// see.
///
/// # Errors
/// 404 at `/client_id`.
pub async fn for_client(cx: &mut Cx<'_>, signed: &Signed, client: Option<ClientId>) -> Result<Signed, Error> {
    named_client(cx, &signed.actor.scope, client).await?;
    let Some(client) = client else { return Ok(signed.clone()) };
    Ok(Signed { app: signed.app.clone(), actor: access::limited_to(cx, &signed.actor, client).await? })
}

/// A page of the clients.
///
/// # Errors
/// The database.
pub async fn page_of_clients(cx: &mut Cx<'_>, scope: &Scope, asked: &PageAsked) -> Result<List<ClientRow>, Error> {
    let mut gathered = Gathered::new(asked);
    while let Some((after, limit)) = gathered.wants() {
        let rows = store::page(cx, scope, after, limit).await?;
        gathered.add(rows, |row| row.id, |row| scope.clients.includes(&ClientId(row.id)));
    }
    Ok(gathered.page(|row| row.id))
}

/// All clients by name, for a choice in a form.
///
/// # Errors
/// The database.
pub async fn clients(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<ClientRow>, Error> {
    let mut rows = store::list(cx, scope).await?;
    rows.retain(|row| scope.clients.includes(&ClientId(row.id)));
    Ok(rows)
}

/// Clients as a choice: id and name.
#[must_use]
pub fn clients_in_choice(clients: &[ClientRow]) -> Vec<(String, String)> {
    clients.iter().map(|client| (client.id.to_string(), client.name.clone())).collect()
}
