//! Seasons in the database.

use super::act::SeasonDraft;
use crate::access::Scope;
use crate::db::{Cx, Work};
use crate::web::error::Error;
use crate::{args, queries};
use sowmark_core::ids::SeasonId;
use uuid::Uuid;

queries! {
    ADD = "insert into season (organization_id, id, name, starts_on, crops) values ($1, $2, $3, $4, $5)";
    CHANGE = "update season set name = $3, starts_on = $4, crops = $5 where organization_id = $1 and id = $2";
    FIND = "select id, name, starts_on, crops from season where organization_id = $1 and id = $2";
    PAGE = "select id, name, starts_on, crops from season where organization_id = $1 and id > $2 order by id limit $3";
    LIST = "select id, name, starts_on, crops from season where organization_id = $1 order by starts_on desc, id desc";
}

/// A season as it stands.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct SeasonRow {
    pub id: Uuid,
    pub name: String,
    pub starts_on: String,
    /// A JSON list, or none for all crops.
    pub crops: Option<String>,
}

impl SeasonRow {
    /// The crops it is for; none for all.
    ///
    /// # Errors
    /// When the database holds no list.
    pub fn crop_list(&self) -> Result<Option<Vec<String>>, Error> {
        Ok(self.crops.as_deref().map(serde_json::from_str).transpose()?)
    }
}

pub(super) async fn add(work: &mut Work, id: SeasonId, draft: &SeasonDraft) -> Result<(), Error> {
    let (organization, crops) = (work.organization(), kept(draft)?);
    work.cx().execute(ADD, args![organization, id, &draft.name.0, draft.starts_on, crops]).await?;
    Ok(())
}

pub(super) async fn change(work: &mut Work, id: SeasonId, draft: &SeasonDraft) -> Result<(), Error> {
    let (organization, crops) = (work.organization(), kept(draft)?);
    work.cx().execute(CHANGE, args![organization, id, &draft.name.0, draft.starts_on, crops]).await?;
    Ok(())
}

/// Its crops as they are kept.
fn kept(draft: &SeasonDraft) -> Result<Option<String>, Error> {
    let crops: Vec<&str> = draft.crops.iter().flatten().map(|crop| crop.0.as_str()).collect();
    Ok(if crops.is_empty() { None } else { Some(serde_json::to_string(&crops)?) })
}

pub(super) async fn find(cx: &mut Cx<'_>, scope: &Scope, id: SeasonId) -> Result<Option<SeasonRow>, Error> {
    Ok(cx.fetch_optional(FIND, args![scope.organization, id]).await?)
}

pub(super) async fn page(cx: &mut Cx<'_>, scope: &Scope, after: Uuid, limit: i64) -> Result<Vec<SeasonRow>, Error> {
    Ok(cx.fetch_all(PAGE, args![scope.organization, after, limit]).await?)
}

pub(super) async fn list(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<SeasonRow>, Error> {
    Ok(cx.fetch_all(LIST, args![scope.organization]).await?)
}
