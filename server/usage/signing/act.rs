//! What is done with signatures: sign, find, and compare with what is so now.

use super::contents::{Change, Contents};
use super::store::{self, New, SignatureRow};
use crate::access::{Actor, Permission, Reach, Via, find_actor};
use crate::audit;
use crate::clock::Stamp;
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::fleet::seeder;
use crate::input;
use crate::seed::{client, field, lot};
use crate::usage::act::usage;
use crate::usage::asked::UsageAsked;
use crate::usage::store::crews;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::{Line, Text, read};
use crate::web::paging::{List, PageAsked};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use sowmark_core::ids::AccountId;
use uuid::Uuid;

input! {
    /// What is signed, and what is remarked on it.
    pub struct SignatureDraft {
        /// Made by the sender; sent again with the same content it changes nothing.
        pub id: Option<Uuid>,
        /// The question whose answer is signed. Without an end it ends at the moment of signing.
        pub of: Option<UsageAsked>,
        /// In the signer's own words; may be empty.
        pub remark: Option<Text<2000>>,
    }
}

/// What a question was asked of, by the names that it had.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
pub(crate) struct AskedOf {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) seeder: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) lot: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) field: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) client: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) crew: Option<String>,
    /// The clients that its signer was limited to; none for who sees all.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(crate) limited_to: Vec<String>,
}

/// How a signed audit stands to what is so now.
#[derive(Debug)]
pub(super) enum Standing {
    AsSigned,
    /// What is different, and what the question is answered now.
    Changed(Vec<Change>, Contents),
    /// The signer sees it no more: nobody can ask as they did.
    Unknown,
}

/// A signature, read.
pub(crate) struct Signature {
    pub(crate) row: SignatureRow,
    pub(crate) asked_of: AskedOf,
    pub(super) contents: Contents,
    /// The question as JSON: its fields, as they are asked in an address.
    pub(crate) asked: Value,
}

impl Signature {
    fn of(row: SignatureRow) -> Result<Self, Error> {
        Ok(Self {
            asked_of: serde_json::from_str(&row.asked_of)?,
            contents: serde_json::from_str(&row.contents)?,
            asked: serde_json::from_str(&row.asked)?,
            row,
        })
    }
}

/// Signs what usage says now of a question.
///
/// # Errors
/// 403 by role; those of the question; 409 for a taken id.
pub(super) async fn sign(signed: &Signed, draft: SignatureDraft, sent: Value) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::SignAudit)?;
    let new = NewEntry {
        id: draft.id,
        kind: Kind::Signature,
        parent: None,
        happened: Some(Stamp::utc(signed.app.clock.now())),
        corrects: None,
        sent: sent.clone(),
    };
    let (mut work, id) = match signed.app.work(&grant).await?.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    let asked = closed(draft.of.map_or_else(|| read(&json!({})), Ok)?, &work.now().to_string());
    // Within the act, so that it is the answer after exactly the records before it.
    let answer = usage(&mut work.cx(), signed, &asked).await.map_err(of_the_question)?;
    let asked_of = asked_of(&mut work.cx(), &signed.actor, &asked).await?;
    let chain_seq = work.seq() - 1;
    let chain_head = audit::hash_of(&mut work.cx(), signed.actor.organization(), chain_seq).await?;
    let remark = draft.remark.map(|remark| remark.0).unwrap_or_default();
    let new = New {
        asked: asked_json(&asked).to_string(),
        asked_of: serde_json::to_string(&asked_of)?,
        contents: serde_json::to_string(&Contents::of(&answer))?,
        chain_seq,
        chain_head,
        remark: &remark,
    };
    store::add(&mut work, id, new).await?;
    work.commit(Audit::created(Kind::Signature, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

/// The question is a part of what is sent.
fn of_the_question(error: Error) -> Error {
    match error {
        Error::Faults(faults) => Error::Faults(faults.into_iter().map(|fault| fault.within("/of")).collect()),
        Error::NotThere { what, pointer } => {
            Error::NotThere { what, pointer: pointer.map(|pointer| format!("/of{pointer}")) }
        }
        other => other,
    }
}

/// A question that ends: what happens after it changes no answer to it.
fn closed(asked: UsageAsked, now: &str) -> UsageAsked {
    UsageAsked { to: asked.to.or_else(|| Some(Line(now.to_owned()))), ..asked }
}

/// The question as it is asked in an address.
fn asked_json(asked: &UsageAsked) -> Value {
    let fields = [
        ("from", asked.from.as_ref().map(|from| from.0.clone())),
        ("to", asked.to.as_ref().map(|to| to.0.clone())),
        ("lot_id", asked.lot_id.map(|lot| lot.0.to_string())),
        ("seeder_id", asked.seeder_id.map(|seeder| seeder.0.to_string())),
        ("field_id", asked.field_id.map(|field| field.0.to_string())),
        ("client_id", asked.client_id.map(|client| client.0.to_string())),
        ("crew_id", asked.crew_id.map(|crew| crew.to_string())),
    ];
    let told = fields.into_iter().filter_map(|(name, value)| Some((name.to_owned(), Value::String(value?))));
    Value::Object(told.collect())
}

/// What a question is asked of. It was answered: what it names is there.
pub(super) async fn asked_of(cx: &mut Cx<'_>, actor: &Actor, asked: &UsageAsked) -> Result<AskedOf, Error> {
    let scope = &actor.scope;
    let mut of = AskedOf::default();
    if scope.lots != Reach::All {
        of.limited_to = client::act::clients(cx, scope).await?.into_iter().map(|client| client.name).collect();
    }
    if let Some(seeder) = asked.seeder_id {
        of.seeder = Some(seeder::act::find_seeder(cx, scope, seeder).await?.name);
    }
    if let Some(lot) = asked.lot_id {
        of.lot = Some(lot::act::named_lot(cx, scope, lot).await?.lot_number);
    }
    if let Some(field) = asked.field_id {
        of.field = Some(field::act::named_field(cx, scope, field).await?.name);
    }
    if let Some(client) = asked.client_id {
        of.client = Some(client::act::find_client(cx, scope, client).await?.name);
    }
    if let Some(crew) = asked.crew_id {
        of.crew = crews(cx, scope).await?.into_iter().find(|(id, _)| *id == crew).map(|(_, name)| name);
    }
    Ok(of)
}

/// A signature that somebody sees.
///
/// # Errors
/// 404 when there is none.
pub(super) async fn find_signature(cx: &mut Cx<'_>, actor: &Actor, id: Uuid) -> Result<Signature, Error> {
    let row = store::find(cx, actor, id).await?.ok_or_else(|| Error::not_there("signature"))?;
    Signature::of(row)
}

/// A page of the signatures that somebody sees.
///
/// # Errors
/// The database.
pub(crate) async fn page_of_signatures(
    cx: &mut Cx<'_>,
    actor: &Actor,
    asked: &PageAsked,
) -> Result<List<Signature>, Error> {
    let rows = store::page(cx, actor, asked.after(), asked.fetch()).await?;
    asked.page(rows, |row| row.head.id).try_map(Signature::of)
}

/// The newest signatures that somebody sees, newest first.
///
/// # Errors
/// The database.
pub(super) async fn newest_signatures(cx: &mut Cx<'_>, actor: &Actor, most: i64) -> Result<Vec<Signature>, Error> {
    store::newest(cx, actor, most).await?.into_iter().map(Signature::of).collect()
}

/// Asks again, as the signer did, and compares.
///
/// # Errors
/// The database.
pub(super) async fn standing(signed: &Signed, signature: &Signature) -> Result<Standing, Error> {
    let Some(signer) = signature.row.head.recorded_by else { return Ok(Standing::Unknown) };
    let asked = read::<UsageAsked>(&signature.asked)?;
    let mut conn = signed.app.read().await?;
    let signer = find_actor(&mut conn.cx(), signed.actor.organization(), AccountId(signer), Via::Token).await?;
    let Some(signer) = signer.filter(|signer| signer.may(Permission::SignAudit)) else {
        return Ok(Standing::Unknown);
    };
    let signer = Signed { app: signed.app.clone(), actor: signer };
    match usage(&mut conn.cx(), &signer, &asked).await {
        Ok(now) => {
            let now = Contents::of(&now);
            let changes = signature.contents.changes(&now);
            Ok(if changes.is_empty() { Standing::AsSigned } else { Standing::Changed(changes, now) })
        }
        Err(Error::NotThere { .. }) => Ok(Standing::Unknown),
        Err(error) => Err(error),
    }
}
