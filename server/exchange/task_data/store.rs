//! Files of task data, matches and imports in the database.

use super::lines::derived_id;
use crate::access::Scope;
use crate::db::{Cx, Result, Work};
use crate::{args, queries};
use uuid::Uuid;

queries! {
    ADD_FILE = "insert into task_file (organization_id, id, name, content) values ($1, $2, $3, $4)";
    FIND_FILE = "select f.id, f.name, f.content, e.recorded_at, a.name as sent_by from task_file f
        join entry e on e.organization_id = f.organization_id and e.id = f.id
        left join account a on a.id = e.recorded_by
        where f.organization_id = $1 and f.id = $2";
    FILES = "select f.id, f.name, '' as content, e.recorded_at, a.name as sent_by from task_file f
        join entry e on e.organization_id = f.organization_id and e.id = f.id
        left join account a on a.id = e.recorded_by
        where f.organization_id = $1 order by e.recorded_at desc, f.id limit $2";
    MATCHES = "select kind, name, target_id from task_match where organization_id = $1";
    KEEP_MATCH = "insert into task_match (organization_id, id, kind, name, target_id) values ($1, $2, $3, $4, $5)
        on conflict (organization_id, id) do update set target_id = excluded.target_id";
    LAST_IMPORT = "select turn, job_id, content from task_import where organization_id = $1 and task = $2
        order by turn desc limit 1";
    ADD_IMPORT = "insert into task_import (organization_id, task, turn, job_id, file_id, content)
        values ($1, $2, $3, $4, $5, $6) on conflict (organization_id, task, turn) do nothing";
    BECAME = "select replaced_by, void_at from recorded where organization_id = $1 and id = $2";
}

/// A file as it stands.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct FileRow {
    pub id: Uuid,
    pub name: String,
    /// JSON; empty in a list.
    pub content: String,
    pub recorded_at: i64,
    pub sent_by: Option<String>,
}

/// What a name means here.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct MatchRow {
    pub kind: String,
    pub name: String,
    pub target_id: Uuid,
}

/// The last time that a task became a job.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct ImportRow {
    pub turn: i64,
    pub job_id: Uuid,
    pub content: String,
}

/// A line that became a job.
#[derive(Clone, Debug)]
pub(super) struct Import {
    pub(super) task: [u8; 32],
    pub(super) turn: i64,
    pub(super) job: Uuid,
    pub(super) content: String,
}

pub(super) async fn add_file(work: &mut Work, id: Uuid, name: &str, content: &str) -> Result<()> {
    let organization = work.organization();
    work.cx().execute(ADD_FILE, args![organization, id, name, content]).await?;
    Ok(())
}

pub(super) async fn find_file(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<Option<FileRow>> {
    cx.fetch_optional(FIND_FILE, args![scope.organization, id]).await
}

pub(super) async fn files(cx: &mut Cx<'_>, scope: &Scope, limit: i64) -> Result<Vec<FileRow>> {
    cx.fetch_all(FILES, args![scope.organization, limit]).await
}

pub(super) async fn matches(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<MatchRow>> {
    cx.fetch_all(MATCHES, args![scope.organization]).await
}

pub(super) async fn keep_match(work: &mut Work, kind: &str, name: &str, target: Uuid) -> Result<()> {
    let organization = work.organization();
    let id = derived_id(&[organization.0.as_bytes(), kind.as_bytes(), name.as_bytes()]);
    work.cx().execute(KEEP_MATCH, args![organization, id, kind, name, target]).await?;
    Ok(())
}

pub(super) async fn last_import(cx: &mut Cx<'_>, scope: &Scope, task: [u8; 32]) -> Result<Option<ImportRow>> {
    cx.fetch_optional(LAST_IMPORT, args![scope.organization, task]).await
}

pub(super) async fn add_import(work: &mut Work, file: Uuid, import: &Import) -> Result<()> {
    let organization = work.organization();
    let values = args![organization, import.task, import.turn, import.job, file, &import.content];
    work.cx().execute(ADD_IMPORT, values).await?;
    Ok(())
}

/// How many corrections of a job are followed.
const CORRECTIONS: usize = 50;

/// Whether a job, or what it was corrected to, still stands.
pub(super) async fn stands(cx: &mut Cx<'_>, scope: &Scope, job: Uuid) -> Result<bool> {
    let mut id = job;
    for _ in 0..CORRECTIONS {
        let became: Option<(Option<Uuid>, Option<i64>)> =
            cx.fetch_optional(BECAME, args![scope.organization, id]).await?;
        match became {
            None => return Ok(false),
            Some((Some(next), _)) => id = next,
            Some((None, void_at)) => return Ok(void_at.is_none()),
        }
    }
    Ok(true)
}
