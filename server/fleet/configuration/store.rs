//! Configurations in the database.

use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::records::head::Head;
use crate::{args, queries};
use jiff::Timestamp;
use sowmark_core::ids::SeederId;
use sowmark_core::quantity::Length;
use uuid::Uuid;

queries! {
    ADD = "insert into configuration (organization_id, id, seeder_id, working_width, row_spacing) values ($1, $2, $3, $4, $5)";
    FIND = "select r.*, c.seeder_id, c.working_width, c.row_spacing
        from configuration c join recorded r on r.organization_id = c.organization_id and r.id = c.id
        where c.organization_id = $1 and c.id = $2";
    PAGE = "select r.*, c.seeder_id, c.working_width, c.row_spacing
        from configuration c join recorded r on r.organization_id = c.organization_id and r.id = c.id
        where c.organization_id = $1 and c.seeder_id = $2 and c.id > $3 order by c.id limit $4";
    IN_FORCE = "select r.*, c.seeder_id, c.working_width, c.row_spacing
        from configuration c join recorded r on r.organization_id = c.organization_id and r.id = c.id
        where c.organization_id = $1 and c.seeder_id = $2 and r.occurred_at <= $3
          and r.void_reason is null and r.replaced_by is null
        order by r.occurred_at desc, r.recorded_at desc, r.id desc limit 1";
    FIRST = "select r.*, c.seeder_id, c.working_width, c.row_spacing
        from configuration c join recorded r on r.organization_id = c.organization_id and r.id = c.id
        where c.organization_id = $1 and c.seeder_id = $2 and r.void_reason is null and r.replaced_by is null
        order by r.occurred_at, r.recorded_at, r.id limit 1";
}

/// A configuration record.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct ConfigurationRow {
    #[sqlx(flatten)]
    pub head: Head,
    pub seeder_id: Uuid,
    /// As entered.
    pub working_width: String,
    pub row_spacing: String,
}

pub(in crate::fleet) async fn add(
    work: &mut Work,
    id: Uuid,
    seeder: SeederId,
    working_width: &Length,
    row_spacing: &Length,
) -> Result<()> {
    let organization = work.organization();
    let values = args![organization, id, seeder, working_width.entered(), row_spacing.entered()];
    work.cx().execute(ADD, values).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<Option<ConfigurationRow>> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await
}

pub(super) async fn page(
    cx: &mut Cx<'_>,
    scope: &Scope,
    seeder: SeederId,
    after: Uuid,
    limit: i64,
) -> Result<Vec<ConfigurationRow>> {
    cx.fetch_all(PAGE, args![scope.organization, seeder, after, limit]).await
}

pub(super) async fn in_force(
    cx: &mut Cx<'_>,
    scope: &Scope,
    seeder: SeederId,
    at: Timestamp,
) -> Result<Option<ConfigurationRow>> {
    cx.fetch_optional(IN_FORCE, args![scope.organization, seeder, at]).await
}

pub(super) async fn first(cx: &mut Cx<'_>, scope: &Scope, seeder: SeederId) -> Result<Option<ConfigurationRow>> {
    cx.fetch_optional(FIRST, args![scope.organization, seeder]).await
}
