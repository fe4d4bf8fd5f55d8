//! The organization's tolerances: the ones in force, their history, and the form drawn from the table of fields.
//!
//! A change is a record with a date and all tolerances, so that what was judged stays explained by what it was judged by.

use super::gather;
use super::names::Names;
use super::store::{self, PolicyRow};
use crate::access::{Permission, Scope};
use crate::clock::Stamp;
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry};
use crate::records::head::said;
use crate::web::api::Sent;
use crate::web::door::Signed;
use crate::web::error::{Error, Fault};
use crate::web::form::{Form, FormField, Kind as FieldKind, Posted};
use crate::web::input::{self, At, Faults, Input};
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::routes::{Need, Route};
use crate::{args, queries, saying, texts};
use askama::Template;
use axum::Json;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use jiff::{Timestamp, ToSpan};
use serde::Serialize;
use serde_json::{Map, Value, json};
use sowmark_core::moment::Moment;
use sowmark_core::policy::{FieldKind as Holds, Policy, PolicyField};
use sowmark_core::say;
use sowmark_core::words::Words;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, SchemaType, Type};
use uuid::Uuid;

queries! {
    ADD = "insert into policy (organization_id, id, tolerances) values ($1, $2, $3)";
}

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api GET "/policy", Need::May(Permission::ReadFleet), show_policy,
            "The tolerances in force, and what each is for.")
        .answers::<PolicyView>(),
        crate::route!(api PUT "/policy", Need::May(Permission::KeepFleet), put_policy,
            "Change tolerances; what is not named keeps its value.")
        .takes::<PolicyChange>()
        .answers::<PolicyView>(),
        crate::route!(page GET "/tolerances", Need::May(Permission::KeepFleet), tolerances_page),
        crate::route!(page POST "/tolerances", Need::May(Permission::KeepFleet), post_tolerances),
    ]
}

/// The tolerances that a request names, each with its value as text; none turns a field off.
#[derive(Clone, Debug, Default)]
pub struct PolicyChange(Vec<(&'static PolicyField, Option<String>)>);

/// What `GET` answers beside the tolerances, so that its answer can be sent back.
const BESIDE: [&str; 3] = ["id", "in_force_since", "fields"];

impl Input for PolicyChange {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let Some(Value::Object(fields)) = value else {
            return faults.object(value, at, &[]).map(|_| Self::default());
        };
        if !fields.contains_key("tolerances") {
            return read_fields(fields, at, faults);
        }
        let known: Vec<&str> = BESIDE.into_iter().chain(["tolerances"]).collect();
        faults.object(value, at, &known)?;
        match fields.get("tolerances") {
            Some(Value::Object(below)) => read_fields(below, &at.key("tolerances"), faults),
            other => faults.object(other, &at.key("tolerances"), &[]).map(|_| Self::default()),
        }
    }

    fn schema() -> RefOr<Schema> {
        Policy::fields()
            .iter()
            .fold(ObjectBuilder::new(), |object, field| object.property(field.name, field_schema(field)))
            .description(Some("Tolerances to change; what is absent keeps its value. The answer of GET is taken too."))
            .into()
    }
}

fn field_schema(field: &PolicyField) -> RefOr<Schema> {
    let kind = match field.kind {
        Holds::Number => Type::Number,
        Holds::Whole => Type::Integer,
        Holds::Bool => Type::Boolean,
    };
    let kinds = if field.nullable { SchemaType::from_iter([kind, Type::Null]) } else { SchemaType::Type(kind) };
    ObjectBuilder::new().schema_type(kinds).description(Some(field.because(texts::plain()))).into()
}

/// A value of a wrong kind is a fault here; one out of range is one too, found by setting it on the default policy.
fn read_fields(fields: &Map<String, Value>, at: &At, faults: &mut Faults) -> Option<PolicyChange> {
    let mut read = PolicyChange::default();
    let mut whole = true;
    for (name, value) in fields {
        let at = at.key(name);
        let Some(field) = Policy::fields().iter().find(|field| field.name == name) else {
            faults.add::<()>(&at, saying!("tolerances-unknown", address = "GET /policy"));
            whole = false;
            continue;
        };
        let text = match value {
            Value::Null => None,
            Value::Bool(flag) => Some(flag.to_string()),
            Value::Number(number) => Some(number.to_string()),
            Value::String(text) => Some(text.clone()),
            other => {
                faults.wrong_kind::<()>(Some(other), &at, "number-or-flag");
                whole = false;
                continue;
            }
        };
        if let Err(error) = Policy::default().set(field.name, text.as_deref()) {
            faults.add::<()>(&at, move |words: Words| ended(&error.says(words)));
            whole = false;
        }
        read.0.push((field, text));
    }
    whole.then_some(read)
}

fn ended(sentence: &str) -> String {
    if sentence.ends_with('.') { sentence.to_owned() } else { format!("{sentence}.") }
}

/// A policy and since when it is in force; the default one has no record.
#[derive(Clone, Debug)]
pub struct InForce {
    pub record: Option<Moment>,
    pub policy: Policy,
}

/// The policies of an organization, the latest last.
///
/// # Errors
/// The database.
pub async fn history(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<InForce>, Error> {
    let rows = store::policies(cx, scope.organization).await?;
    let read =
        |row: &PolicyRow| Ok(InForce { record: Some(row.head.moment()?), policy: gather::policy(&row.tolerances)? });
    let mut policies = rows.iter().map(read).collect::<Result<Vec<_>, Error>>()?;
    policies.sort_by_key(|policy| policy.record);
    Ok(policies)
}

/// The policy in force now.
///
/// # Errors
/// The database.
pub async fn in_force(cx: &mut Cx<'_>, scope: &Scope) -> Result<InForce, Error> {
    let latest = history(cx, scope).await?.pop();
    Ok(latest.unwrap_or(InForce { record: None, policy: Policy::default() }))
}

/// Changes tolerances. Where nothing changes, nothing is recorded.
///
/// # Errors
/// 403 by role; 422 for values that do not go together.
pub async fn change(signed: &Signed, change: PolicyChange) -> Result<(), Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let mut work = signed.app.work(&grant).await?;
    let InForce { record, policy: before } = in_force(&mut work.cx(), &signed.actor.scope).await?;
    let mut after = before.clone();
    let mut faults = Vec::new();
    for (field, text) in &change.0 {
        if let Err(error) = after.set(field.name, text.as_deref()) {
            faults.push(Fault::new(format!("/{}", field.name), move |words: Words| ended(&error.says(words))));
        }
    }
    let of_all = after.faults().into_iter();
    faults.extend(
        of_all.map(|(name, error)| Fault::new(format!("/{name}"), move |words: Words| ended(&error.says(words)))),
    );
    if !faults.is_empty() {
        return Err(Error::Faults(faults));
    }
    if before == after {
        return Ok(());
    }
    let (from, to) = (tree(&before)?, tree(&after)?);
    let new = NewEntry {
        id: None,
        kind: Kind::Policy,
        parent: None,
        happened: Some(Stamp::utc(following(record, work.now()))),
        corrects: None,
        sent: to.clone(),
    };
    let Entered::New(mut work, id) = work.enter(new).await? else { return Ok(()) };
    let organization = work.organization();
    work.cx().execute(ADD, args![organization, id, to.to_string()]).await?;
    work.commit(Audit::changed(Kind::Policy, id, &from, &to)).await?;
    Ok(())
}

/// Now, but after the policy that is replaced, whatever the clock did in between: the latest is the one in force.
fn following(record: Option<Moment>, now: Timestamp) -> Timestamp {
    let earliest = record.and_then(|moment| moment.occurred_at.checked_add(1.microsecond()).ok());
    earliest.map_or(now, |earliest| earliest.max(now))
}

fn tree(policy: &Policy) -> Result<Value, Error> {
    serde_json::to_value(policy).map_err(Error::broken)
}

/// The tolerances in force.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct PolicyView {
    /// Null while the defaults are in force.
    id: Option<Uuid>,
    in_force_since: Option<String>,
    /// Each tolerance with its value; null where its rule is off.
    #[schema(value_type = Object)]
    tolerances: Value,
    fields: Vec<FieldView>,
}

/// What a tolerance is.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct FieldView {
    name: &'static str,
    #[schema(value_type = Option<f64>)]
    default: Value,
    unit: &'static str,
    /// What it is for and where its default comes from.
    because: String,
    min: f64,
    max: f64,
    /// Whether null turns its rule off.
    nullable: bool,
}

async fn policy_view(signed: &Signed) -> Result<PolicyView, Error> {
    let mut conn = signed.app.read().await?;
    let in_force = in_force(&mut conn.cx(), &signed.actor.scope).await?;
    let defaults = tree(&Policy::default())?;
    let fields = Policy::fields().iter().map(|field| FieldView {
        name: field.name,
        default: defaults.get(field.name).cloned().unwrap_or(Value::Null),
        unit: field.unit,
        because: field.because(texts::plain()),
        min: field.min,
        max: field.max,
        nullable: field.nullable,
    });
    Ok(PolicyView {
        id: in_force.record.map(|moment| moment.id),
        in_force_since: in_force.record.map(|moment| super::api::stamped(moment.occurred_at, &signed.actor.time_zone)),
        tolerances: tree(&in_force.policy)?,
        fields: fields.collect(),
    })
}

async fn show_policy(signed: Signed) -> Result<Json<PolicyView>, Error> {
    Ok(Json(policy_view(&signed).await?))
}

async fn put_policy(signed: Signed, sent: Sent<PolicyChange>) -> Result<Json<PolicyView>, Error> {
    let below = sent.value.get("tolerances").is_some();
    change(&signed, sent.draft).await.map_err(|error| if below { under_tolerances(error) } else { error })?;
    Ok(Json(policy_view(&signed).await?))
}

/// The same faults where the tolerances stood below their own field.
fn under_tolerances(error: Error) -> Error {
    match error {
        Error::Faults(faults) => Error::Faults(
            faults.into_iter().map(|fault| Fault::new(format!("/tolerances{}", fault.pointer), fault.detail)).collect(),
        ),
        other => other,
    }
}

/// One change as the page tells it.
struct ChangeLine {
    when: String,
    who: String,
    says: Vec<String>,
}

#[derive(Template)]
#[template(path = "readiness/tolerances.html")]
struct TolerancesPage {
    page: Page,
    form: Form,
    changes: Vec<ChangeLine>,
}

async fn tolerances_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let (form, changes) = form_and_changes(&signed).await?;
    let page = Page::new(&signed, &cookies, say!(signed.actor.words(), "tolerances-title"), "/keeping");
    show(&TolerancesPage { page, form, changes })
}

async fn post_tolerances(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    let signed = signed.as_of_now(&posted).await?;
    let (form, changes) = form_and_changes(&signed).await?;
    let mine = form.mine(&signed, (Kind::Policy, None), &posted).await?;
    let wished = mine.may_be_stored().and_then(|()| input::read::<PolicyChange>(&typed(&mine.posted)));
    let changed = match wished {
        Ok(draft) => change(&signed, draft).await,
        Err(error) => Err(error),
    };
    let Err(error) = changed else { return Ok(Redirect::to("/tolerances").into_response()) };
    let page = Page::new(&signed, &cookies, say!(signed.actor.words(), "tolerances-title"), "/keeping");
    let page = TolerancesPage { page, form: form.again(&mine.posted, &error), changes };
    show_with(StatusCode::UNPROCESSABLE_ENTITY, &page)
}

/// What the form sent: an empty field turns its rule off, a box that is not ticked says no.
fn typed(posted: &Posted) -> Value {
    let fields = Policy::fields().iter().map(|field| {
        let text = posted.text(field.name).trim();
        let value = match field.kind {
            Holds::Bool => json!(text == "true"),
            _ if text.is_empty() => Value::Null,
            _ => json!(text),
        };
        (field.name.to_owned(), value)
    });
    Value::Object(fields.collect())
}

async fn form_and_changes(signed: &Signed) -> Result<(Form, Vec<ChangeLine>), Error> {
    let mut conn = signed.app.read().await?;
    let (scope, words) = (&signed.actor.scope, signed.actor.words());
    let rows = store::policies(&mut conn.cx(), scope.organization).await?;
    let people = Names::people(store::people(&mut conn.cx(), scope.organization).await?);
    let policies = history(&mut conn.cx(), scope).await?;
    let mut changes = Vec::new();
    let mut before = Policy::default();
    for InForce { record, policy } in policies {
        let Some(moment) = record else { continue };
        let by = rows.iter().find(|row| row.head.id == moment.id).and_then(|row| row.head.recorded_by);
        changes.push(ChangeLine {
            when: said(moment.occurred_at, &signed.actor.time_zone, words),
            who: by.and_then(|by| people.get(&by).cloned()).unwrap_or_else(|| say!(words, "record-by-host")),
            says: differences(&before, &policy, words),
        });
        before = policy;
    }
    changes.reverse();
    Ok((tolerances_form(&before, words), changes))
}

fn differences(before: &Policy, after: &Policy, words: Words) -> Vec<String> {
    let shown = |policy: &Policy, field: &PolicyField| match policy.get(field.name).flatten() {
        Some(value) => with_unit(&value, field, words),
        None => say!(words, "tolerances-off"),
    };
    let changed = Policy::fields().iter().filter(|field| before.get(field.name) != after.get(field.name));
    changed
        .map(|field| {
            let (now, before) = (shown(after, field), shown(before, field));
            say!(words, "tolerances-changed", tolerance = field.label(words), now = now, before = before)
        })
        .collect()
}

pub(crate) fn with_unit(value: &str, field: &PolicyField, words: Words) -> String {
    match (field.kind, value) {
        (Holds::Bool, "true") => say!(words, "tolerances-yes"),
        (Holds::Bool, _) => say!(words, "tolerances-no"),
        _ => format!("{} {}", words.decimal(value), field.unit_in(words)).trim_end().to_owned(),
    }
}

fn tolerances_form(policy: &Policy, words: Words) -> Form {
    let fields = Policy::fields().iter().map(|field| {
        let value = policy.get(field.name).flatten().unwrap_or_default();
        let form_field = FormField::new(field.name, label_with_unit(field, words)).value(words.decimal(&value));
        match field.kind {
            Holds::Bool => form_field.kind(FieldKind::Check).hint(field.because(words)).optional(),
            Holds::Whole => limits(form_field.kind(FieldKind::Whole), field, words),
            Holds::Number => limits(form_field.kind(FieldKind::Number), field, words),
        }
    });
    Form::new("/tolerances", say!(words, "tolerances-submit"), fields.collect()).showing(&[])
}

fn limits(form_field: FormField, field: &PolicyField, words: Words) -> FormField {
    let (least, most) = (words.exactly(field.min), words.exactly(field.max));
    let range = say!(words, "tolerances-range", least = least, most = most);
    let form_field = form_field.hint(format!("{} {range}", field.because(words)));
    if field.nullable { form_field.optional() } else { form_field }
}

fn label_with_unit(field: &PolicyField, words: Words) -> String {
    let (label, unit) = (field.label(words), field.unit_in(words));
    if unit.is_empty() || label.ends_with(&unit) { label } else { format!("{label}, {unit}") }
}
