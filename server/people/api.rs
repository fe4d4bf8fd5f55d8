//! Who am I and who else is here, as JSON.

use super::act;
use crate::access::Permission;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::List;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api GET "/me", Need::SignedIn, show_me, "Who is asking, in which organization, as what.")
            .answers::<MeView>(),
        crate::route!(api GET "/members", Need::May(Permission::KeepPeople), list_members, "List the members, those who left last.")
            .answers::<List<MemberView>>(),
    ]
}

/// Who is asking.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct MeView {
    user: UserView,
    organization: OrganizationView,
    role: &'static str,
}

#[derive(Debug, Serialize, utoipa::ToSchema)]
struct UserView {
    email: String,
    name: String,
}

#[derive(Debug, Serialize, utoipa::ToSchema)]
struct OrganizationView {
    id: Uuid,
    name: String,
    time_zone: String,
    units: &'static str,
}

async fn show_me(signed: Signed) -> Json<MeView> {
    let actor = signed.actor;
    Json(MeView {
        organization: OrganizationView {
            id: actor.organization().0,
            name: actor.organization_name,
            time_zone: actor.time_zone_name,
            units: actor.organization_units.word(),
        },
        user: UserView { email: actor.email, name: actor.name },
        role: actor.role.word(),
    })
}

/// A member of the organization.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct MemberView {
    /// The account's id.
    id: Uuid,
    name: String,
    email: String,
    role: String,
    /// Whether the membership still stands.
    active: bool,
    since: String,
    /// The clients that an agronomist is limited to; none, no limit.
    clients: Vec<Uuid>,
}

async fn list_members(signed: Signed) -> Result<Json<List<MemberView>>, Error> {
    let mut conn = signed.app.read().await?;
    let organization = signed.actor.organization();
    let members = act::members(&mut conn.cx(), organization).await?;
    let limits = act::limits(&mut conn.cx(), organization).await?;
    let view = |member: super::store::MemberRow| MemberView {
        clients: limits.iter().filter(|(of, _)| *of == member.account_id).map(|(_, client)| *client).collect(),
        since: jiff::Timestamp::from_microsecond(member.created_at).unwrap_or(jiff::Timestamp::UNIX_EPOCH).to_string(),
        id: member.account_id,
        name: member.name,
        email: member.email,
        role: member.role,
        active: member.active,
    };
    Ok(Json(List::whole(members.into_iter().map(view).collect())))
}
