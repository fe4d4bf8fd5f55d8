//! Fields as JSON.

use super::act::{self, FieldDraft};
use super::change;
use super::store::FieldRow;
use crate::access::Permission;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::change::Change;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::FieldId;
use sowmark_core::quantity::unit::dimension;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/fields", Need::May(Permission::KeepFleet), add_field, "Add a field.")
            .takes::<FieldDraft>()
            .creates::<FieldView>(),
        crate::route!(api GET "/fields", Need::May(Permission::ReadFleet), list_fields, "List the fields.")
            .asks::<PageAsked>()
            .answers::<List<FieldView>>(),
        crate::route!(api GET "/fields/{id}", Need::May(Permission::ReadFleet), show_field, "Show a field.")
            .answers::<FieldView>(),
        crate::route!(api PATCH "/fields/{id}", Need::May(Permission::KeepFleet), change_field, "Change a field.")
            .takes::<Change<FieldDraft>>()
            .answers::<FieldView>(),
    ]
}

/// A field.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct FieldView {
    id: Uuid,
    name: String,
    area: Q,
    client_id: Option<Uuid>,
}

impl TryFrom<FieldRow> for FieldView {
    type Error = Error;

    fn try_from(row: FieldRow) -> Result<Self, Error> {
        let area = Q::stored::<dimension::Area>(&row.area)?;
        Ok(Self { id: row.id, name: row.name, area, client_id: row.client_id })
    }
}

async fn add_field(signed: Signed, sent: Sent<FieldDraft>) -> Result<Created<FieldView>, Error> {
    let outcome = act::add_field(&signed, sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_field(&mut conn.cx(), &signed.actor.scope, FieldId(outcome.id())).await?;
    Ok(Created(outcome, row.try_into()?))
}

async fn list_fields(signed: Signed, Asked(asked): Asked<PageAsked>) -> Result<Json<List<FieldView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_fields(&mut conn.cx(), &signed.actor.scope, &asked).await?;
    Ok(Json(list.try_map(FieldView::try_from)?))
}

async fn show_field(signed: Signed, PathId(id): PathId) -> Result<Json<FieldView>, Error> {
    let mut conn = signed.app.read().await?;
    let row = act::find_field(&mut conn.cx(), &signed.actor.scope, FieldId(id)).await?;
    Ok(Json(row.try_into()?))
}

async fn change_field(
    signed: Signed,
    PathId(id): PathId,
    sent: Sent<Change<FieldDraft>>,
) -> Result<Json<FieldView>, Error> {
    change::change_field(&signed, FieldId(id), &sent.draft).await?;
    show_field(signed, PathId(id)).await
}
