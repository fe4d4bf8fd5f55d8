//! Services as JSON.

use super::act::{self, ServiceDraft, ServiceRow};
use crate::access::Permission;
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
        crate::route!(api POST "/seeders/{id}/services", Need::May(Permission::Log), add_service, "Record a part replaced or repaired.")
            .takes::<ServiceDraft>()
            .creates::<ServiceView>(),
        crate::route!(api GET "/seeders/{id}/services", Need::May(Permission::ReadFleet), list_services, "List a seeder's services.")
            .asks::<PageAsked>()
            .answers::<List<ServiceView>>(),
    ]
}

/// A service record.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct ServiceView {
    #[serde(flatten)]
    head: HeadView,
    seeder_id: Uuid,
    /// Null: the whole seeder.
    metering_unit_id: Option<Uuid>,
    component: String,
    affects_metering: bool,
    note: String,
}

impl From<ServiceRow> for ServiceView {
    fn from(row: ServiceRow) -> Self {
        Self {
            head: row.head.into(),
            seeder_id: row.seeder_id,
            metering_unit_id: row.metering_unit_id,
            component: row.component,
            affects_metering: row.affects_metering,
            note: row.note,
        }
    }
}

async fn add_service(
    signed: Signed,
    PathId(seeder): PathId,
    sent: Sent<ServiceDraft>,
) -> Result<Created<ServiceView>, Error> {
    let outcome = act::add_service(&signed, SeederId(seeder), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_service(&mut conn.cx(), &signed.actor.scope, outcome.id()).await?;
    Ok(Created(outcome, row.into()))
}

async fn list_services(
    signed: Signed,
    PathId(seeder): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<ServiceView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_services(&mut conn.cx(), &signed.actor.scope, SeederId(seeder), &asked).await?;
    Ok(Json(list.map(ServiceView::from)))
}
