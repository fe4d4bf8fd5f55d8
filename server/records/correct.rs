//! A standing record that is entered again as it should have been: the form of its kind opens with what was sent for it
//! (`…/fills/new?corrects=ID`), and what is saved replaces it. What was sent stands in the audit trail, as it was sent.

use super::act::{find_head, find_subject};
use super::head::{Head, typed};
use super::store::SubjectRow;
use crate::access::Permission;
use crate::audit;
use crate::db::Cx;
use crate::db::kind::Kind;
use crate::saying;
use crate::web::door::Signed;
use crate::web::error::Error;
use serde_json::{Value, json};
use sowmark_core::ids::OrganizationId;
use uuid::Uuid;

/// A record that was wrong.
#[derive(Debug)]
pub struct Wrong {
    pub kind: Kind,
    pub head: Head,
    /// What was sent for it.
    pub sent: Value,
}

/// Where a record of a kind is entered on a page; none for what has no form of its own to be entered again in.
#[must_use]
pub fn form_of(kind: Kind, parent: Uuid) -> Option<String> {
    Some(match kind {
        Kind::Setup => format!("/metering-units/{parent}/setups/new"),
        Kind::Fill => format!("/metering-units/{parent}/fills/new"),
        Kind::Emptying => format!("/metering-units/{parent}/emptyings/new"),
        Kind::Calibration => format!("/metering-units/{parent}/catch"),
        Kind::Job => format!("/metering-units/{parent}/jobs/new"),
        Kind::Service => format!("/seeders/{parent}/services/new"),
        Kind::Configuration => format!("/seeders/{parent}/configurations/new"),
        Kind::LayUp => format!("/seeders/{parent}/lay-ups/new"),
        Kind::ScaleCheck => format!("/scales/{parent}/checks/new"),
        Kind::LotTest => format!("/lots/{parent}/tests/new"),
        Kind::Movement => format!("/lots/{parent}/movements/new"),
        _ => return None,
    })
}

/// Where a record that somebody may correct is entered again.
#[must_use]
pub fn correcting(kind: Kind, id: Uuid, subject: &SubjectRow) -> Option<String> {
    let parent = match kind {
        Kind::Service | Kind::Configuration | Kind::LayUp => subject.seeder_id,
        Kind::ScaleCheck => subject.scale_id,
        Kind::LotTest | Kind::Movement => subject.lot_id,
        _ => subject.metering_unit_id,
    };
    Some(format!("{}?corrects={id}", form_of(kind, parent?)?))
}

/// A record that is to be entered again, by who may.
///
/// # Errors
/// 404 when it is not there or not theirs to see; 403 by role, and for crew when it is not their own of the same day; 409
/// when it does not stand any more.
pub async fn find_wrong(signed: &Signed, id: Uuid) -> Result<Wrong, Error> {
    signed.grant(Permission::Void)?;
    let mut conn = signed.app.read().await?;
    let (kind, subject) = find_subject(&mut conn.cx(), &signed.actor, id).await?;
    let head = find_head(&mut conn.cx(), &signed.actor, id).await?;
    if !signed.actor.may_amend(head.recorded(), head.recorded_by, signed.app.clock.now()) {
        return Err(Error::Forbidden);
    }
    if !head.stands() {
        return Err(Error::conflict(saying!("fault-nothing-to-correct")));
    }
    let organization = signed.actor.organization();
    let sent = match audit::created(&mut conn.cx(), organization, kind, id).await? {
        Some(sent) => sent,
        None => part_of_seeder(&mut conn.cx(), organization, subject.seeder_id).await?,
    };
    let moment = typed(head.stamp().at, &signed.actor.time_zone);
    Ok(Wrong { kind, sent: told_when(sent, &moment), head })
}

/// A seeder's first configuration, which came with the seeder.
async fn part_of_seeder(cx: &mut Cx<'_>, organization: OrganizationId, seeder: Option<Uuid>) -> Result<Value, Error> {
    let whole = match seeder {
        Some(id) => audit::created(cx, organization, Kind::Seeder, id).await?,
        None => None,
    };
    let whole = whole.ok_or_else(|| Error::not_there("record"))?;
    Ok(json!({ "working_width": whole["working_width"], "row_spacing": whole["row_spacing"] }))
}

/// With the moment, where none was sent with it.
fn told_when(mut sent: Value, moment: &str) -> Value {
    if let Value::Object(fields) = &mut sent {
        fields.entry("occurred_at").or_insert_with(|| moment.into());
    }
    sent
}
