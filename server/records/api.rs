//! Records of any kind as JSON: the void, and a seeder's timeline.

use super::act::{self, VoidDraft, VoidRow};
use super::head::{HeadView, Who, moment};
use super::timeline::{self, TimelineRow};
use crate::access::{Permission, Scope};
use crate::texts;
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::reader::Reader;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::ids::SeederId;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/records/{id}/void", Need::May(Permission::Void), void_record, "Void a record, with the reason.")
            .takes::<VoidDraft>()
            .creates::<VoidedView>(),
        crate::route!(api GET "/seeders/{id}/timeline", Need::May(Permission::ReadFleet), show_timeline, "Everything that happened to a seeder, newest first.")
            .asks::<PageAsked>()
            .answers::<List<TimelineView>>(),
    ]
}

/// That a record was voided.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct VoidedView {
    id: Uuid,
    record_id: Uuid,
    reason: String,
    recorded_at: String,
    /// Null: the command line of the host.
    recorded_by: Option<Who>,
}

impl From<VoidRow> for VoidedView {
    fn from(row: VoidRow) -> Self {
        Self {
            id: row.id,
            record_id: row.record_id,
            reason: row.reason,
            recorded_at: moment(row.recorded_at).to_string(),
            recorded_by: row.recorded_by.map(|id| Who { id, name: row.recorded_by_name.unwrap_or_default() }),
        }
    }
}

/// A record in a seeder's timeline.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct TimelineView {
    #[serde(flatten)]
    head: HeadView,
    kind: String,
    /// Null: it concerns the whole seeder.
    metering_unit_id: Option<Uuid>,
    metering_unit: Option<String>,
    /// What happened, in a sentence.
    says: String,
}

impl TimelineView {
    fn of(row: TimelineRow, reader: Reader, scope: &Scope) -> Self {
        let says = row.says(reader, scope);
        let kind = row.head.kind.clone();
        Self {
            head: HeadView::of(row.head, scope),
            kind,
            metering_unit_id: row.metering_unit_id,
            metering_unit: row.unit,
            says,
        }
    }
}

async fn void_record(
    signed: Signed,
    PathId(record): PathId,
    sent: Sent<VoidDraft>,
) -> Result<Created<VoidedView>, Error> {
    let outcome = act::void_record(&signed, record, sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = act::find_void(&mut conn.cx(), &signed.actor, outcome.id()).await?;
    Ok(Created(outcome, row.into()))
}

async fn show_timeline(
    signed: Signed,
    PathId(seeder): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<TimelineView>>, Error> {
    let mut conn = signed.app.read().await?;
    let list = timeline::page_of_timeline(&mut conn.cx(), &signed.actor, SeederId(seeder), &asked).await?;
    // Programs read English.
    let reader = Reader { words: texts::plain(), ..signed.actor.reader() };
    Ok(Json(list.map(|row| TimelineView::of(row, reader, &signed.actor.scope))))
}
