//! Who am I, as JSON.

use crate::web::door::Signed;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api GET "/me", Need::SignedIn, show_me, "Who is asking, in which organization, as what.")
            .answers::<MeView>(),
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
            units: actor.units.word(),
        },
        user: UserView { email: actor.email, name: actor.name },
        role: actor.role.word(),
    })
}
