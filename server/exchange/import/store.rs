//! Files that are being taken in, in the database: what was sent, how far it is, and what became of each entry.

use crate::access::Scope;
use crate::db::{Cx, Result};
use crate::{args, queries};
use jiff::Timestamp;
use sowmark_core::ids::{AccountId, OrganizationId};
use uuid::Uuid;

queries! {
    ADD = "insert into import (organization_id, id, kind, file_name, content, sent_at, sent_by, stage, entries, done, worked_at)
        values ($1, $2, $3, $4, $5, $6, $7, 'checking', $8, 0, $6)";
    FIND = "select id, kind, file_name, content, sent_at, sent_by, stage, entries, done, worked_at from import
        where organization_id = $1 and id = $2";
    RECENT = "select id, kind, file_name, '' as content, sent_at, sent_by, stage, entries, done, worked_at from import
        where organization_id = $1 order by sent_at desc, id desc limit 20";
    CLAIM = "update import set worked_at = $4 where organization_id = $1 and id = $2 and worked_at = $3
        and stage in ('checking', 'storing')";
    GO_ON = "update import set stage = $3, done = $4, worked_at = $5 where organization_id = $1 and id = $2";
    TURN = "update import set stage = $4, done = 0, worked_at = $5 where organization_id = $1 and id = $2 and stage = $3";
    FORGET = "update import set content = '' where organization_id = $1 and id = $2 and stage in ('stored', 'dropped')";
    PUT = "insert into import_entry (organization_id, import_id, row_number, outcome, called, faults) values ($1, $2, $3, $4, $5, $6)
        on conflict (organization_id, import_id, row_number) do update set outcome = excluded.outcome, faults = excluded.faults";
    COUNTS = "select outcome, count(*) from import_entry where organization_id = $1 and import_id = $2 group by outcome";
    ENTRIES = "select row_number, outcome, called, faults from import_entry
        where organization_id = $1 and import_id = $2 and row_number > $3 order by row_number limit $4";
    FAULTY = "select row_number, outcome, called, faults from import_entry
        where organization_id = $1 and import_id = $2 and outcome = 'faulty' order by row_number limit $3";
}

/// A file under way.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct ImportRow {
    pub id: Uuid,
    pub kind: String,
    pub file_name: String,
    pub content: String,
    pub sent_at: i64,
    pub sent_by: Uuid,
    /// `checking`, `checked`, `storing`, `stored` or `dropped`.
    pub stage: String,
    pub entries: i64,
    /// How many of them this stage has done.
    pub done: i64,
    pub worked_at: i64,
}

/// What became of an entry.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct EntryRow {
    pub row_number: i64,
    /// `good`, `already`, `left_out`, `faulty` or `stored`.
    pub outcome: String,
    pub called: String,
    /// Sentences, as JSON.
    pub faults: String,
}

/// A file, as it begins.
pub(super) struct NewImport<'a> {
    pub id: Uuid,
    pub kind: &'a str,
    pub file_name: &'a str,
    pub content: &'a str,
    pub sent_by: AccountId,
    pub entries: i64,
}

pub(super) async fn add(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    new: &NewImport<'_>,
    now: Timestamp,
) -> Result<()> {
    let NewImport { id, kind, file_name, content, sent_by, entries } = *new;
    cx.execute(ADD, args![organization, id, kind, file_name, content, now, sent_by, entries]).await?;
    Ok(())
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<Option<ImportRow>> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await
}

pub(super) async fn recent(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<ImportRow>> {
    cx.fetch_all(RECENT, args![scope.organization]).await
}

/// Whether the work on a file is ours now.
pub(super) async fn claim(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    row: &ImportRow,
    now: Timestamp,
) -> Result<bool> {
    Ok(cx.execute(CLAIM, args![organization, row.id, row.worked_at, now]).await? == 1)
}

pub(super) async fn go_on(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    id: Uuid,
    (stage, done): (&str, i64),
    now: Timestamp,
) -> Result<()> {
    cx.execute(GO_ON, args![organization, id, stage, done, now]).await?;
    cx.execute(FORGET, args![organization, id]).await?;
    Ok(())
}

/// Turns a file from one stage to the next; false when it is not in that stage.
pub(super) async fn turn(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    id: Uuid,
    (from, to): (&str, &str),
    now: Timestamp,
) -> Result<bool> {
    let turned = cx.execute(TURN, args![organization, id, from, to, now]).await? == 1;
    cx.execute(FORGET, args![organization, id]).await?;
    Ok(turned)
}

pub(super) async fn put(cx: &mut Cx<'_>, organization: OrganizationId, id: Uuid, entry: &EntryRow) -> Result<()> {
    let EntryRow { row_number, outcome, called, faults } = entry;
    cx.execute(PUT, args![organization, id, *row_number, outcome, called, faults]).await?;
    Ok(())
}

pub(super) async fn counts(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<Vec<(String, i64)>> {
    cx.fetch_all(COUNTS, args![scope.organization, id]).await
}

pub(super) async fn entries(cx: &mut Cx<'_>, scope: &Scope, id: Uuid, after: i64, limit: i64) -> Result<Vec<EntryRow>> {
    cx.fetch_all(ENTRIES, args![scope.organization, id, after, limit]).await
}

pub(super) async fn faulty(cx: &mut Cx<'_>, scope: &Scope, id: Uuid, limit: i64) -> Result<Vec<EntryRow>> {
    cx.fetch_all(FAULTY, args![scope.organization, id, limit]).await
}
