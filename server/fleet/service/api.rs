//! Services as JSON.

use super::act::{self, ServiceDraft};
use super::store::ServiceRow;
use crate::access::{Permission, Scope};
use crate::records::head::HeadView;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::SeederId;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/seeders/{id}/services", Need::May(Permission::Log), add_service, "Record that a part was replaced or repaired.")
            .takes::<ServiceDraft>()
            .creates::<ServiceView>(),
        crate::route!(api GET "/seeders/{id}/services", Need::May(Permission::ReadFleet), list_services, "List the services of a seeder.")
            .asks::<PageAsked>()
            .answers::<List<ServiceView>>(),
    ]
}

/// A part replaced or repaired.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub(in crate::fleet) struct ServiceView {
    #[serde(flatten)]
    head: HeadView,
    seeder_id: Uuid,
    /// Null: the whole seeder.
    metering_unit_id: Option<Uuid>,
    component: String,
    affects_metering: bool,
    /// What was typed beside it; null where that is withheld: of a record that belongs to no client, from who is limited to
    /// some.
    note: Option<String>,
}

impl ServiceView {
    fn of(row: ServiceRow, scope: &Scope) -> Self {
        Self {
            note: row.head.told_owned(&row.note, scope),
            head: HeadView::of(row.head, scope),
            seeder_id: row.seeder_id,
            metering_unit_id: row.metering_unit_id,
            component: row.component,
            affects_metering: row.affects_metering,
        }
    }
}

async fn add_service(
    signed: Signed,
    PathId(parent): PathId,
    sent: Sent<ServiceDraft>,
) -> Result<Created<ServiceView>, Error> {
    let outcome = act::add_service(&signed, SeederId(parent), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_service(&mut conn.cx(), &signed.actor.scope, outcome.id()).await?;
    Ok(Created(outcome, ServiceView::of(row, &signed.actor.scope)))
}

async fn list_services(
    signed: Signed,
    PathId(parent): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<ServiceView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_services(&mut conn.cx(), &signed.actor.scope, SeederId(parent), &asked).await?;
    Ok(Json(list.map(|row| ServiceView::of(row, &signed.actor.scope))))
}
