//! What is there already: by its id, of files that were taken away here, and by what people tell it from others by. Two fields
//! of one name, or two lots of one number, cannot be told apart in any list afterwards.

use super::entry::Entry;
use super::kind::Imported;
use crate::access::Actor;
use crate::db::Cx;
use crate::fleet::seeder::act as seeder;
use crate::records::act::find_subject;
use crate::seed::{field, lot};
use crate::web::error::Error;
use serde_json::Value;
use std::collections::HashSet;
use uuid::Uuid;

/// The registry's entries of one kind; of records, nothing: two catches may be alike.
#[derive(Debug)]
pub(super) struct There {
    kind: Imported,
    ids: HashSet<Uuid>,
    called: HashSet<Vec<String>>,
}

/// Upper and lower case are not told apart.
fn key<const N: usize>(parts: [Option<&str>; N]) -> Vec<String> {
    parts.map(|part| part.unwrap_or_default().trim().to_lowercase()).to_vec()
}

impl There {
    /// What somebody sees.
    ///
    /// # Errors
    /// The database.
    pub(super) async fn of(cx: &mut Cx<'_>, actor: &Actor, kind: Imported) -> Result<Self, Error> {
        let scope = &actor.scope;
        let all: Vec<(Uuid, Vec<String>)> = match kind {
            Imported::Seeders => {
                let rows = seeder::seeders(cx, scope).await?.into_iter();
                rows.map(|row| (row.id, key([Some(&row.name), row.serial_number.as_deref()]))).collect()
            }
            Imported::Lots => {
                let rows = lot::act::lots(cx, scope).await?.into_iter();
                rows.map(|row| (row.id, key([Some(&row.lot_number), Some(&row.crop), row.variety.as_deref()])))
                    .collect()
            }
            Imported::Fields => {
                let rows = field::act::fields(cx, scope).await?.into_iter();
                let of = |client: Option<Uuid>| client.map(|client| client.to_string());
                rows.map(|row| (row.id, key([Some(&row.name), of(row.client_id).as_deref()]))).collect()
            }
            Imported::Jobs | Imported::Calibrations => Vec::new(),
        };
        let (ids, called) = all.into_iter().unzip();
        Ok(Self { kind, ids, called })
    }

    /// Whether an entry is one that this organization gave away: the file names its id.
    ///
    /// # Errors
    /// The database.
    pub(super) async fn holds(&self, cx: &mut Cx<'_>, actor: &Actor, entry: &Entry) -> Result<bool, Error> {
        let Some(id) = entry.own_id else { return Ok(false) };
        if !matches!(self.kind, Imported::Jobs | Imported::Calibrations) {
            return Ok(self.ids.contains(&id));
        }
        match find_subject(cx, actor, id).await {
            Ok(_) => Ok(true),
            Err(Error::NotThere { .. }) => Ok(false),
            Err(error) => Err(error),
        }
    }

    /// Whether another is called the same, here or further up in the file; answers the column that people tell them apart by.
    pub(super) fn meets(&mut self, entry: &Entry) -> Option<&'static str> {
        let text = |name: &str| entry.tree.get(name).and_then(Value::as_str);
        let (column, called) = match self.kind {
            Imported::Seeders => ("seeder", key([text("name"), text("serial_number")])),
            Imported::Lots => ("lot_number", key([text("lot_number"), text("crop"), text("variety")])),
            Imported::Fields => ("field", key([text("name"), text("client_id")])),
            Imported::Jobs | Imported::Calibrations => return None,
        };
        let is_itself = text("id").and_then(|id| id.parse().ok()).is_some_and(|id| self.ids.contains(&id));
        let is_named = called.first().is_some_and(|name| !name.is_empty());
        (is_named && !self.called.insert(called) && !is_itself).then_some(column)
    }
}
