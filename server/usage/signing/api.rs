//! Signatures as JSON.

use super::act::{self, AskedOf, Signature, SignatureDraft, Standing};
use super::contents::{Change, Fact, What};
use crate::access::{Permission, Scope};
use crate::hex;
use crate::records::head::{HeadView, Who};
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::paging::{List, PageAsked};
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use serde_json::Value;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/usage/signatures", Need::May(Permission::SignAudit), sign_usage,
            "Sign what usage says of a question.")
        .takes::<SignatureDraft>()
        .creates::<SignatureView>(),
        crate::route!(api GET "/usage/signatures", Need::May(Permission::ReadStock), list_signatures,
            "List the signed audits, oldest first: an agronomist of some clients sees the own.")
        .asks::<PageAsked>()
        .answers::<List<SignatureView>>(),
        crate::route!(api GET "/usage/signatures/{id}", Need::May(Permission::ReadStock), show_signature,
            "Show a signed audit, and what is different now.")
        .answers::<StandingView>(),
    ]
}

/// A signed audit.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct SignatureView {
    id: Uuid,
    signed_at: String,
    /// Null: the command line of the host.
    signed_by: Option<Who>,
    /// The question: the fields of `GET /usage`. Its end is never open.
    #[schema(value_type = Object)]
    of: Value,
    /// What it was asked of, by the names that it had.
    #[schema(value_type = Object)]
    of_names: AskedOf,
    remark: String,
    /// The audit trail's last line before it.
    chain_seq: i64,
    /// That line's hash.
    chain_head: String,
    /// What was signed: each job and each lot with its facts; masses in kg, areas in m², rates in kg/m².
    #[schema(value_type = Object)]
    contents: Value,
}

/// A signed audit and what is different now.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct StandingView {
    #[serde(flatten)]
    signature: SignatureView,
    /// `as_signed`, `changed`, or `unknown` where the signer sees it no more.
    standing: &'static str,
    changes: Vec<ChangeView>,
}

/// Something that is different from what was signed.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct ChangeView {
    /// `job` or `lot`.
    kind: &'static str,
    id: Uuid,
    /// `added`, `gone` or `changed`.
    change: &'static str,
    /// Of one that changed: which facts.
    facts: Vec<FactView>,
}

/// A fact as it was signed and as it is.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct FactView {
    fact: String,
    #[schema(value_type = Option<String>)]
    signed: Option<Fact>,
    #[schema(value_type = Option<String>)]
    now: Option<Fact>,
}

impl SignatureView {
    fn of(signature: Signature, scope: &Scope) -> Result<Self, Error> {
        let contents = serde_json::to_value(&signature.contents)?;
        let head = HeadView::of(signature.row.head, scope);
        Ok(Self {
            id: head.id,
            signed_at: head.recorded_at,
            signed_by: head.recorded_by,
            of: signature.asked,
            of_names: signature.asked_of,
            remark: signature.row.remark,
            chain_seq: signature.row.chain_seq,
            chain_head: hex::written(&signature.row.chain_head),
            contents,
        })
    }
}

impl From<Change> for ChangeView {
    fn from(change: Change) -> Self {
        let (word, facts) = match change.what {
            What::Added => ("added", Vec::new()),
            What::Gone => ("gone", Vec::new()),
            What::Facts(facts) => ("changed", facts),
        };
        let facts = facts.into_iter().map(|(fact, signed, now)| FactView { fact, signed, now }).collect();
        Self { kind: if change.is_job { "job" } else { "lot" }, id: change.thing.id, change: word, facts }
    }
}

async fn sign_usage(signed: Signed, sent: Sent<SignatureDraft>) -> Result<Created<SignatureView>, Error> {
    let outcome = act::sign(&signed, sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let found = act::find_signature(&mut conn.cx(), &signed.actor, outcome.id()).await?;
    Ok(Created(outcome, SignatureView::of(found, &signed.actor.scope)?))
}

async fn list_signatures(signed: Signed, Asked(asked): Asked<PageAsked>) -> Result<Json<List<SignatureView>>, Error> {
    let mut conn = signed.app.read().await?;
    let page = act::page_of_signatures(&mut conn.cx(), &signed.actor, &asked).await?;
    Ok(Json(page.try_map(|found| SignatureView::of(found, &signed.actor.scope))?))
}

async fn show_signature(signed: Signed, PathId(id): PathId) -> Result<Json<StandingView>, Error> {
    let mut conn = signed.app.read().await?;
    let found = act::find_signature(&mut conn.cx(), &signed.actor, id).await?;
    drop(conn);
    let (standing, changes) = match act::standing(&signed, &found).await? {
        Standing::AsSigned => ("as_signed", Vec::new()),
        Standing::Changed(changes, _) => ("changed", changes),
        Standing::Unknown => ("unknown", Vec::new()),
    };
    let changes = changes.into_iter().map(ChangeView::from).collect();
    Ok(Json(StandingView { signature: SignatureView::of(found, &signed.actor.scope)?, standing, changes }))
}
