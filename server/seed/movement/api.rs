//! Movements as JSON.

use super::act::{self, MovementDraft};
use super::store::MovementRow;
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
use sowmark_core::ids::{LotId, RecordId};
use sowmark_core::quantity::unit::dimension;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/lots/{id}/movements", Need::May(Permission::KeepLots), record_movement, "Record a movement of a lot's stock, or a count.")
            .takes::<MovementDraft>()
            .creates::<MovementView>(),
        crate::route!(api GET "/lots/{id}/movements", Need::May(Permission::ReadStock), list_movements, "List the movements of a lot.")
            .asks::<PageAsked>()
            .answers::<List<MovementView>>(),
    ]
}

/// A movement of a lot's stock.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct MovementView {
    #[serde(flatten)]
    head: HeadView,
    lot_id: Uuid,
    kind: String,
    mass: Q,
    note: String,
}

impl MovementView {
    fn of(row: MovementRow, scope: &Scope) -> Result<Self, Error> {
        let mass = Q::stored::<dimension::Mass>(&row.mass)?;
        Ok(Self { head: HeadView::of(row.head, scope), lot_id: row.lot_id, kind: row.moved, mass, note: row.note })
    }
}

async fn record_movement(
    signed: Signed,
    PathId(lot): PathId,
    sent: Sent<MovementDraft>,
) -> Result<Created<MovementView>, Error> {
    let outcome = act::record_movement(&signed, LotId(lot), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_movement(&mut conn.cx(), &signed.actor.scope, RecordId(outcome.id())).await?;
    Ok(Created(outcome, MovementView::of(row, &signed.actor.scope)?))
}

async fn list_movements(
    signed: Signed,
    PathId(lot): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<MovementView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_movements(&mut conn.cx(), &signed.actor.scope, LotId(lot), &asked).await?;
    Ok(Json(list.try_map(|row| MovementView::of(row, &signed.actor.scope))?))
}
