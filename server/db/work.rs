//! The unit of work: one act, one transaction, one line in the audit trail.
//!
//! A [`Work`] can only be begun with a [`Grant`], takes the organization's next number as its first statement and is
//! committed with the audit entry that says what was done. Dropped, nothing happened. What is created goes through
//! [`Work::enter`], which makes a repeated id a no-op and another content under the same id a conflict that is kept.

use super::kind::Kind;
use super::{Cx, Db, Tx};
use crate::access::{Corrections, Grant, Origin};
use crate::audit::{self, Line};
use crate::clock::{Clock, Stamp};
use crate::web::error::{Error, Missing};
use crate::{args, queries, saying};
use jiff::{SignedDuration, Timestamp};
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use sowmark_core::ids::{AccountId, OrganizationId};
use std::sync::Arc;
use uuid::Uuid;

queries! {
    NEXT_NUMBER = "update organization set seq = seq + 1 where id = $1 returning seq";
    NUMBER = "select seq from organization where id = $1";
    ENTER = "insert into entry (organization_id, id, kind, occurred_at, occurred_offset, recorded_at, recorded_by, fingerprint, corrects)
        values ($1, $2, $3, $4, $5, $6, $7, $8, $9) on conflict (organization_id, id) do nothing";
    ENTERED = "select kind, fingerprint from entry where organization_id = $1 and id = $2";
    KEEP_CONFLICT = "insert into conflict (organization_id, id, entry_id, kind, sent, sent_at, sent_by) values ($1, $2, $3, $4, $5, $6, $7)";
    SENT = "insert into sending (organization_id, id, sent_at, sent_offset, received_at, device) values ($1, $2, $3, $4, $5, $6)";
    MENDED = "update refused set ended = 'mended', ended_at = $4, ended_by = $5
        where organization_id = $1 and (id = $2 or id = $3) and ended is null";
    CORRECTED = "select kind, recorded_at, recorded_by from standing where organization_id = $1 and id = $2";
}

/// An act under way.
#[derive(Debug)]
pub struct Work {
    tx: Tx,
    clock: Clock,
    organization: OrganizationId,
    account: Option<AccountId>,
    corrections: Corrections,
    origin: Arc<Origin>,
    is_typed: bool,
    seq: i64,
    now: Timestamp,
}

/// Time zones differ by less, and so do the clocks of people who look at them.
const A_DAY: SignedDuration = SignedDuration::from_hours(24);

/// Something to be created.
#[derive(Debug)]
pub struct NewEntry {
    /// The id that the sender made, if it made one.
    pub id: Option<Uuid>,
    pub kind: Kind,
    /// What it belongs to (a unit, a lot…): part of its content.
    pub parent: Option<Uuid>,
    /// When it happened, for a record.
    pub happened: Option<Stamp>,
    /// The record that it replaces.
    pub corrects: Option<Uuid>,
    /// What was sent.
    pub sent: Value,
}

/// What [`Work::enter`] found.
#[derive(Debug)]
pub enum Entered {
    /// It is new; the act goes on.
    New(Work, Uuid),
    /// The same was created before; the act is over and has changed nothing.
    Already(Uuid),
}

/// How a creating act ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    Stored(Uuid),
    AlreadyStored(Uuid),
}

impl Outcome {
    #[must_use]
    pub fn id(self) -> Uuid {
        match self {
            Self::Stored(id) | Self::AlreadyStored(id) => id,
        }
    }
}

/// What an act did, for the audit trail.
#[derive(Debug)]
pub struct Audit {
    pub action: &'static str,
    pub kind: Kind,
    pub id: Uuid,
    pub change: Value,
}

impl Audit {
    /// Something was created: its content as sent is the change.
    #[must_use]
    pub fn created(kind: Kind, id: Uuid, sent: Value) -> Self {
        Self { action: "created", kind, id, change: sent }
    }

    /// Something was changed from one state to another.
    #[must_use]
    pub fn changed(kind: Kind, id: Uuid, from: &Value, to: &Value) -> Self {
        Self { action: "changed", kind, id, change: json!({ "from": from, "to": to }) }
    }

    /// Anything else that a person did.
    #[must_use]
    pub fn did(action: &'static str, kind: Kind, id: Uuid, change: Value) -> Self {
        Self { action, kind, id, change }
    }
}

/// The number that the audit trail gave an act.
#[derive(Clone, Copy, Debug)]
pub struct Audited {
    pub seq: i64,
}

impl Work {
    /// Begins an act: takes the organization's next number, and with it the turn to write.
    ///
    /// # Errors
    /// When the database fails or the organization is gone; 409 for one that rests on what was read before another act.
    pub async fn begin(db: &Db, clock: &Clock, grant: &Grant) -> Result<Self, Error> {
        let organization = grant.organization();
        let mut tx = db.begin().await?;
        let next: Option<(i64,)> = tx.cx().fetch_optional(NEXT_NUMBER, args![organization]).await?;
        let (seq,) = next.ok_or(Error::not_there("organization"))?;
        if grant.origin().rests_on.is_some_and(|number| seq != number + 1) {
            return Err(Error::conflict(saying!("meanwhile-at-once")));
        }
        Ok(Self {
            tx,
            clock: clock.clone(),
            organization,
            account: grant.account(),
            corrections: grant.corrections().clone(),
            origin: grant.origin(),
            is_typed: grant.is_typed(),
            seq,
            now: clock.now(),
        })
    }

    /// Begins the act that makes an organization: the caller inserts it, with 1 as its number.
    ///
    /// # Errors
    /// The database.
    pub async fn founding(
        db: &Db,
        clock: &Clock,
        organization: OrganizationId,
        account: Option<AccountId>,
    ) -> Result<Self, Error> {
        let (tx, corrections, origin) = (db.begin().await?, Corrections::Any, Arc::default());
        let now = clock.now();
        Ok(Self { tx, clock: clock.clone(), organization, account, corrections, origin, is_typed: false, seq: 1, now })
    }

    pub fn cx(&mut self) -> Cx<'_> {
        self.tx.cx()
    }

    #[must_use]
    pub fn organization(&self) -> OrganizationId {
        self.organization
    }

    #[must_use]
    pub fn account(&self) -> Option<AccountId> {
        self.account
    }

    /// The organization's number of this act.
    #[must_use]
    pub fn seq(&self) -> i64 {
        self.seq
    }

    /// When the server took this act.
    #[must_use]
    pub fn now(&self) -> Timestamp {
        self.now
    }

    /// A new id.
    ///
    /// # Errors
    /// When there is no randomness.
    pub fn new_id(&self) -> Result<Uuid, Error> {
        Ok(self.clock.new_id()?)
    }

    /// Enters something new under its id. The same id with the same content again ends the act without a change; with
    /// other content it is refused, and what was sent is kept.
    ///
    /// # Errors
    /// A conflict; a record to correct that is not there; the database.
    pub async fn enter(mut self, new: NewEntry) -> Result<Entered, Error> {
        let id = match new.id {
            Some(id) => id,
            None => self.new_id()?,
        };
        if let Some(corrected) = new.corrects {
            self.may_correct(new.kind, id, corrected).await?;
        }
        let fingerprint = fingerprint(&new);
        if self.insert_entry(id, &new, fingerprint).await? {
            self.has_happened(&new)?;
            return Ok(Entered::New(self, id));
        }
        let organization = self.organization;
        let (kind, stored): (String, Vec<u8>) = self.cx().fetch_one(ENTERED, args![organization, id]).await?;
        if kind == new.kind.word() && stored == fingerprint {
            return Ok(Entered::Already(id));
        }
        if kind == new.kind.word() && new.corrects.is_none() && self.origin.mends == Some(id) {
            return self.enter_correction(id, new).await;
        }
        self.keep_conflict(id, new).await?;
        Err(Error::conflict(saying!("conflict-id-stands", id = id.to_string(), kind = &kind)))
    }

    /// Nobody who fills in a page logs what lies more than a day ahead; by the phone's own clock, where a phone sends it, so that
    /// one whose clock is off is not shut out.
    fn has_happened(&self, new: &NewEntry) -> Result<(), Error> {
        let by_phone = self.origin.sending.as_ref().and_then(|sending| sending.sent_at).map(|stamp| stamp.at);
        let latest = by_phone.unwrap_or(self.now) + A_DAY;
        match new.happened {
            Some(stamp) if self.is_typed && stamp.at > latest => {
                Err(Error::fault("/occurred_at", saying!("fault-ahead")))
            }
            _ => Ok(()),
        }
    }

    /// Enters the mended form of a refused entry that was let in as it was while somebody had it open: it replaces that.
    async fn enter_correction(mut self, stood: Uuid, new: NewEntry) -> Result<Entered, Error> {
        let id = self.new_id()?;
        self.may_correct(new.kind, id, stood).await?;
        let new = NewEntry { corrects: Some(stood), ..new };
        let fingerprint = fingerprint(&new);
        self.insert_entry(id, &new, fingerprint).await?;
        Ok(Entered::New(self, id))
    }

    /// Enters one more thing inside the same act (the units of a seeder, its first configuration): its id must be new.
    ///
    /// # Errors
    /// A conflict when the id is taken; the database.
    pub async fn enter_part(&mut self, new: NewEntry) -> Result<Uuid, Error> {
        let id = match new.id {
            Some(id) => id,
            None => self.new_id()?,
        };
        let fingerprint = fingerprint(&new);
        if self.insert_entry(id, &new, fingerprint).await? {
            Ok(id)
        } else {
            let kind = new.kind.word();
            Err(Error::conflict(saying!("conflict-id-taken", id = id.to_string(), kind = kind)))
        }
    }

    async fn insert_entry(&mut self, id: Uuid, new: &NewEntry, fingerprint: [u8; 32]) -> Result<bool, Error> {
        let (organization, now, account) = (self.organization, self.now, self.account);
        let inserted = self
            .cx()
            .execute(
                ENTER,
                args![
                    organization,
                    id,
                    new.kind.word(),
                    new.happened.map(|stamp| stamp.at),
                    new.happened.map(|stamp| i64::from(stamp.offset_seconds)),
                    now,
                    account,
                    fingerprint,
                    new.corrects
                ],
            )
            .await?;
        if inserted == 1 {
            self.settle_origin(id).await?;
        }
        Ok(inserted == 1)
    }

    /// Keeps how something new was sent, and ends the wait of what was refused under its id or is mended by it.
    async fn settle_origin(&mut self, id: Uuid) -> Result<(), Error> {
        let (organization, now, account) = (self.organization, self.now, self.account);
        let origin = Arc::clone(&self.origin);
        if let Some(sending) = &origin.sending {
            let sent_at = sending.sent_at.map(|stamp| stamp.at);
            let offset = sending.sent_at.map(|stamp| i64::from(stamp.offset_seconds));
            let values = args![organization, id, sent_at, offset, sending.received_at, &sending.device];
            self.cx().execute(SENT, values).await?;
        }
        self.cx().execute(MENDED, args![organization, id, origin.mends.unwrap_or(id), now, account]).await?;
        Ok(())
    }

    /// A correction replaces one standing record of its own kind, and not itself.
    async fn may_correct(&mut self, kind: Kind, id: Uuid, corrected: Uuid) -> Result<(), Error> {
        let organization = self.organization;
        // A repeated correction finds its original already replaced; `enter` will see that it is the same.
        let repeated: Option<(String, Vec<u8>)> = self.cx().fetch_optional(ENTERED, args![organization, id]).await?;
        if repeated.is_some() {
            return Ok(());
        }
        let standing: Option<(String, i64, Option<Uuid>)> =
            self.cx().fetch_optional(CORRECTED, args![organization, corrected]).await?;
        match standing {
            Some((word, recorded_at, recorded_by)) if word == kind.word() => self.may_amend(recorded_at, recorded_by),
            _ => Err(Error::not_there_at("/corrects", Missing::said(saying!("fault-nothing-to-correct")))),
        }
    }

    /// Whether whoever does this act may void or correct a record: the office any, crew their own on the day on which
    /// it was recorded.
    ///
    /// # Errors
    /// 403 when they may not.
    pub fn may_amend(&self, recorded_at: i64, recorded_by: Option<Uuid>) -> Result<(), Error> {
        let recorded_at = Timestamp::from_microsecond(recorded_at).map_err(Error::broken)?;
        let may = self.corrections.allow(self.account, (recorded_at, recorded_by), self.now);
        if may { Ok(()) } else { Err(Error::Forbidden) }
    }

    async fn keep_conflict(mut self, id: Uuid, new: NewEntry) -> Result<(), Error> {
        let (organization, now, account, own) = (self.organization, self.now, self.account, self.new_id()?);
        self.cx()
            .execute(KEEP_CONFLICT, args![organization, own, id, new.kind.word(), new.sent.to_string(), now, account])
            .await?;
        self.commit(Audit::did("refused_conflict", new.kind, id, new.sent)).await?;
        Ok(())
    }

    /// Writes the audit entry and makes everything lasting. A rehearsal ends here and has changed nothing.
    ///
    /// # Errors
    /// The database.
    pub async fn commit(mut self, what: Audit) -> Result<Audited, Error> {
        let line = Line {
            organization: self.organization,
            seq: self.seq,
            at: self.now,
            account: self.account,
            action: what.action.to_owned(),
            subject_kind: what.kind.word().to_owned(),
            subject_id: what.id,
            change: what.change.to_string(),
        };
        audit::append(&mut self.tx.cx(), &line).await?;
        if !self.origin.is_rehearsal {
            self.tx.commit().await?;
        }
        Ok(Audited { seq: self.seq })
    }
}

/// The number of an organization's last act.
///
/// # Errors
/// 404 for no organization; the database.
pub async fn number_of_last_act(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<i64, Error> {
    let number: Option<(i64,)> = cx.fetch_optional(NUMBER, args![organization]).await?;
    number.map(|(seq,)| seq).ok_or(Error::not_there("organization"))
}

/// What two sendings must share to be the same: kind, parent and content, but neither the id nor the way a number was
/// quoted, nor fields that were sent as null.
fn fingerprint(new: &NewEntry) -> [u8; 32] {
    let content = json!({ "kind": new.kind.word(), "parent": new.parent, "sent": canonical(&new.sent, true) });
    Sha256::digest(content.to_string()).into()
}

fn canonical(value: &Value, top: bool) -> Value {
    match value {
        Value::Object(fields) => fields
            .iter()
            .filter(|(name, value)| !(value.is_null() || top && *name == "id"))
            .map(|(name, value)| (name.clone(), canonical(value, false)))
            .collect::<serde_json::Map<_, _>>()
            .into(),
        Value::Array(items) => items.iter().map(|item| canonical(item, false)).collect(),
        Value::Number(number) => Value::String(number.to_string()),
        other => other.clone(),
    }
}
