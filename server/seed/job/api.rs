//! Jobs as JSON.

use super::act::{self, JobDraft};
use super::store::JobRow;
use crate::access::{Permission, Scope};
use crate::clock::Stamp;
use crate::records::head::{HeadView, moment};
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::{MeteringUnitId, RecordId};
use sowmark_core::quantity::unit::dimension;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/metering-units/{id}/jobs", Need::May(Permission::Log), record_job, "Record a field job.")
            .takes::<JobDraft>()
            .creates::<JobView>(),
        crate::route!(api GET "/metering-units/{id}/jobs", Need::May(Permission::ReadFleet), list_jobs, "List the jobs of a metering unit.")
            .asks::<PageAsked>()
            .answers::<List<JobView>>(),
    ]
}

/// A field job.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct JobView {
    #[serde(flatten)]
    head: HeadView,
    /// In the offset of its beginning.
    ended_at: Option<String>,
    metering_unit_id: Uuid,
    field_id: Option<Uuid>,
    /// The field's name, kept or as it was given.
    field: String,
    lot_id: Uuid,
    area: Q,
    seed_used: Q,
    seed_used_basis: String,
    target_rate: Q,
    speed: Option<Q>,
    note: String,
}

impl JobView {
    fn of(row: JobRow, scope: &Scope) -> Result<Self, Error> {
        let offset_seconds = row.head.stamp().offset_seconds;
        let ended_at = row.ended_at.map(|ended| Stamp { at: moment(ended), offset_seconds }.rfc3339());
        Ok(Self {
            ended_at,
            metering_unit_id: row.metering_unit_id,
            field_id: row.field_id,
            field: row.field().to_owned(),
            lot_id: row.lot_id,
            area: Q::stored::<dimension::Area>(&row.area)?,
            seed_used: Q::stored::<dimension::Mass>(&row.seed_used)?,
            seed_used_basis: row.seed_used_basis,
            target_rate: Q::stored::<dimension::Rate>(&row.target_rate)?,
            speed: Q::stored_if::<dimension::Speed>(row.speed.as_deref())?,
            note: row.note,
            head: HeadView::of(row.head, scope),
        })
    }
}

async fn record_job(signed: Signed, PathId(unit): PathId, sent: Sent<JobDraft>) -> Result<Created<JobView>, Error> {
    let outcome = act::record_job(&signed, MeteringUnitId(unit), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_job(&mut conn.cx(), &signed.actor.scope, RecordId(outcome.id())).await?;
    Ok(Created(outcome, JobView::of(row, &signed.actor.scope)?))
}

async fn list_jobs(
    signed: Signed,
    PathId(unit): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<JobView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = act::page_of_jobs(&mut conn.cx(), &signed.actor.scope, MeteringUnitId(unit), &asked).await?;
    Ok(Json(list.try_map(|row| JobView::of(row, &signed.actor.scope))?))
}
