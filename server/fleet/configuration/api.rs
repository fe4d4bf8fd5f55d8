//! Configurations as JSON.

use super::act::{self, ConfigurationDraft};
use super::store::ConfigurationRow;
use crate::access::{Permission, Scope};
use crate::records::head::HeadView;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::SeederId;
use sowmark_core::quantity::unit::dimension;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/seeders/{id}/configurations", Need::May(Permission::KeepFleet), add_configuration, "Record a working width and row spacing.")
            .takes::<ConfigurationDraft>()
            .creates::<ConfigurationView>(),
        crate::route!(api GET "/seeders/{id}/configurations", Need::May(Permission::ReadFleet), list_configurations, "List the configurations of a seeder.")
            .asks::<PageAsked>()
            .answers::<List<ConfigurationView>>(),
    ]
}

/// A configuration of a seeder.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub(in crate::fleet) struct ConfigurationView {
    #[serde(flatten)]
    head: HeadView,
    seeder_id: Uuid,
    pub(crate) working_width: Q,
    pub(crate) row_spacing: Q,
}

impl ConfigurationView {
    pub(in crate::fleet) fn of(row: ConfigurationRow, scope: &Scope) -> Result<Self, Error> {
        Ok(Self {
            head: HeadView::of(row.head, scope),
            seeder_id: row.seeder_id,
            working_width: Q::stored::<dimension::Length>(&row.working_width)?,
            row_spacing: Q::stored::<dimension::Length>(&row.row_spacing)?,
        })
    }
}

async fn add_configuration(
    signed: Signed,
    PathId(parent): PathId,
    sent: Sent<ConfigurationDraft>,
) -> Result<Created<ConfigurationView>, Error> {
    let outcome = act::add_configuration(&signed, SeederId(parent), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_configuration(&mut conn.cx(), &signed.actor.scope, outcome.id()).await?;
    Ok(Created(outcome, ConfigurationView::of(row, &signed.actor.scope)?))
}

async fn list_configurations(
    signed: Signed,
    PathId(parent): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<ConfigurationView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_configurations(&mut conn.cx(), &signed.actor.scope, SeederId(parent), &asked).await?;
    Ok(Json(list.try_map(|row| ConfigurationView::of(row, &signed.actor.scope))?))
}
