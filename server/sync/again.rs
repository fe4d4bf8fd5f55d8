//! Tries refused entries again when something was stored: phones send in any order, and a catch may come before the setup
//! that another phone logged. Whatever the order, the same is stored in the end.
//!
//! An entry is tried as its sender, by the act of its kind, as when it came. Refused again it waits as before.

use super::act::record;
use super::entry::Entry;
use super::refused::Why;
use super::store::{self, Waiting};
use crate::access::{Actor, Origin, Sending, Via, find_actor};
use crate::clock::Stamp;
use crate::records::head::moment;
use crate::web::door::{App, Signed};
use crate::web::error::Error;
use crate::web::guard::ActedFor;
use axum::extract::{Request, State};
use axum::http::Method;
use axum::middleware::Next;
use axum::response::Response;
use serde_json::json;
use sowmark_core::ids::{AccountId, OrganizationId};
use std::sync::Arc;

/// At most so many that stay refused are tried after one request; those that were not come first after the next.
const AT_ONCE: i64 = 20;

/// After every request that changed something.
pub async fn after(State(app): State<App>, request: Request, next: Next) -> Response {
    let changes = !matches!(*request.method(), Method::GET | Method::HEAD);
    let response = next.run(request).await;
    let status = response.status();
    // What was asked for is done: that the rest failed is no matter of who asked.
    if changes
        && (status.is_success() || status.is_redirection())
        && let Some(ActedFor(organization)) = response.extensions().get()
        && let Err(error) = try_waiting(&app, *organization).await
    {
        error.log();
    }
    response
}

/// Tries what waits, until nothing more of it can be stored.
async fn try_waiting(app: &App, organization: OrganizationId) -> Result<(), Error> {
    loop {
        let waiting = store::to_try(&mut app.read().await?.cx(), organization, AT_ONCE).await?;
        let mut stored = false;
        for row in waiting {
            stored |= try_again(app, organization, row).await?;
        }
        if !stored {
            return Ok(());
        }
    }
}

/// Whether it is stored now.
async fn try_again(app: &App, organization: OrganizationId, row: Waiting) -> Result<bool, Error> {
    let entry = Entry::read(&json!({
        "kind": row.kind, "parent_id": row.parent_id, "record": serde_json::from_str::<serde_json::Value>(&row.record)?,
    }));
    let sender = AccountId(row.sent_by);
    let found = find_actor(&mut app.read().await?.cx(), organization, sender, Via::Token).await?;
    let tried = match found {
        Some(actor) => {
            let origin = Arc::new(Origin { sending: sending(&row), ..Origin::default() });
            record(&Signed { app: app.clone(), actor: Actor { origin, ..actor } }, &entry).await
        }
        None => Err(Error::Forbidden),
    };
    match tried {
        Ok(_) => Ok(true),
        Err(error) if error.will_pass() => Err(error),
        Err(error) => {
            let why = serde_json::to_string(&Why::of(&error))?;
            store::tried(&app.db, organization, &row, &why).await?;
            Ok(false)
        }
    }
}

/// How it came, when that was kept.
fn sending(row: &Waiting) -> Option<Sending> {
    let at = row.sent_at.map(moment);
    let offset = row.sent_offset.and_then(|offset| i32::try_from(offset).ok()).unwrap_or_default();
    Some(Sending {
        sent_at: at.map(|at| Stamp { at, offset_seconds: offset }),
        received_at: moment(row.received_at?),
        device: row.device.clone().unwrap_or_default(),
    })
}
