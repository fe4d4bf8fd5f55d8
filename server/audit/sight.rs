//! What of the trail somebody limited to some clients is told: every line's place, moment and hash, so that a print-out can be
//! compared with the whole chain, and the content of lines about records that they may see elsewhere, without what was typed
//! beside the facts of records that belong to no client.

use super::StoredLine;
use crate::access::{Actor, Reach};
use crate::db::Cx;
use crate::db::kind::Kind;
use crate::records::act::find_subject;
use crate::records::free_text;
use crate::seed::field::act::find_field;
use crate::web::error::Error;
use serde_json::Value;
use sowmark_core::ids::{ClientId, FieldId, LotId, SeederId};
use uuid::Uuid;

/// Stands for the act and the kind of a line whose content is kept back.
pub(super) const WITHHELD: &str = "withheld";

/// The lines as somebody may read them.
///
/// # Errors
/// The database.
pub async fn told(cx: &mut Cx<'_>, actor: &Actor, lines: Vec<StoredLine>) -> Result<Vec<StoredLine>, Error> {
    if actor.scope.clients == Reach::All {
        return Ok(lines);
    }
    let mut told = Vec::with_capacity(lines.len());
    for line in lines {
        told.push(if may_read(cx, actor, &line).await? { without_typed(line, actor) } else { withheld(line) });
    }
    Ok(told)
}

fn withheld(line: StoredLine) -> StoredLine {
    StoredLine {
        account_id: None,
        name: None,
        email: None,
        action: WITHHELD.to_owned(),
        subject_kind: WITHHELD.to_owned(),
        subject_id: Uuid::nil(),
        change: "null".to_owned(),
        ..line
    }
}

/// A line about a record that they see, without free text that is not theirs to read. A change that is no JSON cannot be taken
/// apart, so nothing of it is told.
fn without_typed(line: StoredLine, actor: &Actor) -> StoredLine {
    let kind = Kind::from_word(&line.subject_kind);
    if !kind.is_some_and(Kind::is_record) || free_text::may_read(kind, &actor.scope) {
        return line;
    }
    let mut change = serde_json::from_str(&line.change).unwrap_or(Value::Null);
    free_text::withhold(&mut change);
    StoredLine { change: change.to_string(), ..line }
}

/// What is not known to be theirs is kept back: a new kind too.
async fn may_read(cx: &mut Cx<'_>, actor: &Actor, line: &StoredLine) -> Result<bool, Error> {
    let (scope, id) = (&actor.scope, line.subject_id);
    let is_found = |error: Error| if matches!(error, Error::NotThere { .. }) { Ok(false) } else { Err(error) };
    match Kind::from_word(&line.subject_kind) {
        Some(Kind::Policy | Kind::Roller | Kind::Season | Kind::Scale) => Ok(true),
        Some(Kind::Client) => Ok(scope.clients.includes(&ClientId(id))),
        Some(Kind::Lot) => Ok(scope.lots.includes(&LotId(id))),
        Some(Kind::Seeder) => Ok(scope.seeders.includes(&SeederId(id))),
        Some(Kind::Field) => find_field(cx, scope, FieldId(id)).await.map(|_| true).or_else(is_found),
        Some(kind) if kind.is_record() => find_subject(cx, actor, id).await.map(|_| true).or_else(is_found),
        _ => Ok(false),
    }
}
