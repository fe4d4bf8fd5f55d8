//! Services in the database.

use super::act::ServiceDraft;
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::records::free_text::FreeText;
use crate::records::head::Head;
use crate::{args, queries};
use sowmark_core::ids::SeederId;
use uuid::Uuid;

queries! {
    ADD = "insert into service (organization_id, id, seeder_id, metering_unit_id, component, affects_metering, note)
        values ($1, $2, $3, $4, $5, $6, $7)";
    FIND = "select r.*, s.seeder_id, s.metering_unit_id, s.component, s.affects_metering, s.note
        from service s join recorded r on r.organization_id = s.organization_id and r.id = s.id
        where s.organization_id = $1 and s.id = $2";
    PAGE = "select r.*, s.seeder_id, s.metering_unit_id, s.component, s.affects_metering, s.note
        from service s join recorded r on r.organization_id = s.organization_id and r.id = s.id
        where s.organization_id = $1 and s.seeder_id = $2 and s.id > $3 order by s.id limit $4";
}

/// A service record.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct ServiceRow {
    #[sqlx(flatten)]
    pub head: Head,
    pub seeder_id: Uuid,
    /// None: the whole seeder.
    pub metering_unit_id: Option<Uuid>,
    pub component: String,
    pub affects_metering: bool,
    pub note: FreeText,
}

pub(super) async fn add(work: &mut Work, id: Uuid, seeder: SeederId, draft: &ServiceDraft) -> Result<()> {
    let organization = work.organization();
    let note = draft.note.as_ref().map_or("", |note| note.0.as_str());
    let component = draft.component.word();
    let values = args![organization, id, seeder, draft.metering_unit_id, component, draft.affects_metering, note];
    work.cx().execute(ADD, values).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<Option<ServiceRow>> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await
}

pub(super) async fn page(
    cx: &mut Cx<'_>,
    scope: &Scope,
    seeder: SeederId,
    after: Uuid,
    limit: i64,
) -> Result<Vec<ServiceRow>> {
    cx.fetch_all(PAGE, args![scope.organization, seeder, after, limit]).await
}
