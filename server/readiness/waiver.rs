//! Waivers: the office lets one trigger pass on one unit until a moment, with a reason. The trigger stays listed, as
//! waived; never-calibrated cannot be waived, because there is no number to let pass.

use super::act;
use super::let_pass::consequence;
use crate::access::{Actor, Permission, Scope};
use crate::clock::Stamp;
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry, Outcome};
use crate::records::free_text::FreeText;
use crate::records::head::{Head, HeadView, moment, typed};
use crate::web::api::{Asked, Created, PathId, Sent};
use crate::web::door::Signed;
use crate::web::error::{Error, Fault};
use crate::web::form::{Form, FormField, Kind as FieldKind, Posted, pairs};
use crate::web::input::{self, At, Faults, Input, Line, part, read_word, text_of, word_schema};
use crate::web::page::{Cookies, FormPage, Page, show, show_with};
use crate::web::paging::{List, PageAsked};
use crate::web::routes::{Need, Route};
use crate::web::saying::Saying;
use crate::{args, input, queries, saying};
use axum::Json;
use axum::extract::RawQuery;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use serde::Serialize;
use serde_json::{Map, Value};
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::moment::midnight;
use sowmark_core::readiness::Trigger;
use sowmark_core::say;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use uuid::Uuid;

queries! {
    ADD = "insert into waiver (organization_id, id, metering_unit_id, trigger_name, until_at, reason) values ($1, $2, $3, $4, $5, $6)";
    FIND = "select r.*, w.metering_unit_id, w.trigger_name, w.until_at, w.reason
        from waiver w join recorded r on r.organization_id = w.organization_id and r.id = w.id
        where w.organization_id = $1 and w.id = $2";
    PAGE = "select r.*, w.metering_unit_id, w.trigger_name, w.until_at, w.reason
        from waiver w join recorded r on r.organization_id = w.organization_id and r.id = w.id
        where w.organization_id = $1 and w.metering_unit_id = $2 and w.id > $3 order by w.id limit $4";
}

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api POST "/metering-units/{id}/waivers", Need::May(Permission::Waive), waive,
            "Let a trigger pass on a unit for a time.")
        .takes::<WaiverDraft>()
        .creates::<WaiverView>(),
        crate::route!(api GET "/metering-units/{id}/waivers", Need::May(Permission::ReadFleet), list_waivers,
            "List the waivers of a unit.")
        .asks::<PageAsked>()
        .answers::<List<WaiverView>>(),
        crate::route!(page GET "/metering-units/{id}/waivers/new", Need::May(Permission::Waive), waiver_page),
        crate::route!(page POST "/metering-units/{id}/waivers", Need::May(Permission::Waive), post_waiver),
    ]
}

/// Until when: a moment, or the end of a day in the organization's time zone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Until {
    Moment(Timestamp),
    EndOf(Date),
}

impl Until {
    /// The instant at which the waiver has expired.
    #[must_use]
    pub fn instant(self, zone: &TimeZone) -> Timestamp {
        match self {
            Self::Moment(at) => at,
            Self::EndOf(day) => midnight(day.saturating_add(1.day()), zone),
        }
    }
}

impl Input for Until {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let text = text_of(value, at, faults)?;
        if text.trim().len() == 10 {
            Date::read(value, at, faults).map(Self::EndOf)
        } else {
            Stamp::read(value, at, faults).map(|stamp| Self::Moment(stamp.at))
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .description(Some("A moment (RFC 3339 with offset), or a date: until the end of that day in the organization's time zone."))
            .into()
    }
}

impl Input for Trigger {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        read_word(value, at, faults, &Trigger::ALL.map(Trigger::as_str), |word| word.parse().ok())
    }

    fn schema() -> RefOr<Schema> {
        word_schema(&Trigger::ALL.map(Trigger::as_str))
    }
}

input! {
    /// A waiver.
    pub struct WaiverDraft {
        /// Made by the sender; sent again with the same content it changes nothing.
        pub id: Option<Uuid>,
        /// From when it holds, RFC 3339 with offset; now unless told.
        pub occurred_at: Option<Stamp>,
        /// The waiver that this one replaces.
        pub corrects: Option<Uuid>,
        pub trigger: Trigger,
        pub until: Until,
        /// Why the trigger may pass.
        pub reason: Line<1000>,
    } with check_end
}

/// An end that is not after the beginning wherever on earth its day is meant.
fn check_end(fields: &Map<String, Value>, at: &At, faults: &mut Faults) {
    if let Some(says) = ends_too_early(fields, &TimeZone::fixed(jiff::tz::offset(-12))) {
        faults.add::<()>(&at.key("until"), says);
    }
}

/// Compared with the stated beginning only: a repeat without one must not fail because time went on.
fn ends_too_early(fields: &Map<String, Value>, zone: &TimeZone) -> Option<Saying> {
    let (begins, until) = (part::<Stamp>(fields, "occurred_at")?, part::<Until>(fields, "until")?);
    (until.instant(zone) <= begins.at).then(|| saying!("waiver-ends-too-early"))
}

#[derive(Clone, Debug, sqlx::FromRow)]
pub(crate) struct WaiverRow {
    #[sqlx(flatten)]
    pub(crate) head: Head,
    pub(crate) metering_unit_id: Uuid,
    pub(crate) trigger_name: String,
    pub(crate) until_at: i64,
    pub(crate) reason: FreeText,
}

/// A waiver as it is answered.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct WaiverView {
    #[serde(flatten)]
    head: HeadView,
    metering_unit_id: Uuid,
    trigger: String,
    /// At this instant it has expired.
    until: String,
    /// Null where it is withheld: from who is limited to some clients.
    reason: Option<String>,
}

impl WaiverView {
    fn of(row: WaiverRow, actor: &Actor) -> Self {
        Self {
            reason: row.head.told_owned(&row.reason, &actor.scope),
            head: HeadView::of(row.head, &actor.scope),
            metering_unit_id: row.metering_unit_id,
            trigger: row.trigger_name,
            until: super::api::stamped(moment(row.until_at), &actor.time_zone),
        }
    }
}

/// Lets a trigger pass.
///
/// # Errors
/// 403 by role; 404 for a unit out of scope; 409 for a taken id; 422 for a trigger that cannot be waived or an end
/// that is not after the beginning.
pub async fn add_waiver(
    signed: &Signed,
    unit: MeteringUnitId,
    draft: WaiverDraft,
    sent: Value,
) -> Result<Outcome, Error> {
    let grant = signed.grant(Permission::Waive)?;
    check_unit(signed, unit).await?;
    let work = signed.app.work(&grant).await?;
    let begins = draft.occurred_at.unwrap_or(Stamp::utc(work.now()));
    let until = draft.until.instant(&signed.actor.time_zone);
    let mut faults = Vec::new();
    if !draft.trigger.can_be_waived() {
        faults.push(Fault::new("/trigger", saying!("waiver-never-calibrated")));
    }
    if let Some(says) = sent.as_object().and_then(|fields| ends_too_early(fields, &signed.actor.time_zone)) {
        faults.push(Fault::new("/until", says));
    }
    if !faults.is_empty() {
        return Err(Error::Faults(faults));
    }
    let new = NewEntry {
        id: draft.id,
        kind: Kind::Waiver,
        parent: Some(unit.0),
        happened: Some(begins),
        corrects: draft.corrects,
        sent: sent.clone(),
    };
    let (mut work, id) = match work.enter(new).await? {
        Entered::New(work, id) => (work, id),
        Entered::Already(id) => return Ok(Outcome::AlreadyStored(id)),
    };
    if until <= begins.at {
        return Err(Error::fault("/until", saying!("waiver-over")));
    }
    let organization = work.organization();
    work.cx().execute(ADD, args![organization, id, unit, draft.trigger.as_str(), until, &draft.reason.0]).await?;
    work.commit(Audit::created(Kind::Waiver, id, sent)).await?;
    Ok(Outcome::Stored(id))
}

async fn check_unit(signed: &Signed, unit: MeteringUnitId) -> Result<(), Error> {
    let mut conn = signed.app.read().await?;
    act::find_unit(&mut conn.cx(), &signed.actor.scope, unit).await.map(drop)
}

async fn find(cx: &mut Cx<'_>, scope: &Scope, id: Uuid) -> Result<WaiverRow, Error> {
    cx.fetch_optional(FIND, args![scope.organization, id]).await?.ok_or_else(|| Error::not_there("waiver"))
}

/// A page of the waivers of a unit.
///
/// # Errors
/// 404 when the unit is out of scope; the database.
pub(crate) async fn page_of_waivers(
    cx: &mut Cx<'_>,
    scope: &Scope,
    unit: MeteringUnitId,
    asked: &PageAsked,
) -> Result<List<WaiverRow>, Error> {
    let unit = act::find_unit(cx, scope, unit).await?;
    let rows = cx.fetch_all(PAGE, args![scope.organization, unit.id, asked.after(), asked.fetch()]).await?;
    Ok(asked.page(rows, |row: &WaiverRow| row.head.id))
}

async fn waive(signed: Signed, PathId(unit): PathId, sent: Sent<WaiverDraft>) -> Result<Created<WaiverView>, Error> {
    let outcome = add_waiver(&signed, MeteringUnitId(unit), sent.draft, sent.value).await?;
    let mut conn = signed.app.read().await?;
    let row = find(&mut conn.cx(), &signed.actor.scope, outcome.id()).await?;
    Ok(Created(outcome, WaiverView::of(row, &signed.actor)))
}

async fn list_waivers(
    signed: Signed,
    PathId(unit): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Json<List<WaiverView>>, Error> {
    let mut conn = signed.app.read().await?;
    let unit = MeteringUnitId(unit);
    let List { items, next } = page_of_waivers(&mut conn.cx(), &signed.actor.scope, unit, &asked).await?;
    let items = items.into_iter().map(|row| WaiverView::of(row, &signed.actor)).collect();
    Ok(Json(List { items, next }))
}

async fn waiver_page(
    signed: Signed,
    cookies: Cookies,
    PathId(unit): PathId,
    RawQuery(query): RawQuery,
) -> Result<Response, Error> {
    let asked = Posted(pairs(query.unwrap_or_default().as_bytes())?);
    let trigger = asked.text("trigger").parse::<Trigger>().ok();
    let form = blank_form(&signed, MeteringUnitId(unit), trigger).await?;
    show(&form_page(&signed, &cookies, form))
}

async fn post_waiver(
    signed: Signed,
    cookies: Cookies,
    PathId(unit): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let unit = MeteringUnitId(unit);
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match input::read::<WaiverDraft>(&sent) {
        Ok(draft) => add_waiver(&signed, unit, draft, sent).await,
        Err(error) => Err(with_end(&error, &sent, &signed.actor.time_zone)),
    };
    match added {
        Ok(_) => Ok(Redirect::to("/").into_response()),
        Err(error @ Error::NotThere { pointer: None, .. }) => Err(error),
        Err(error) => {
            let trigger = posted.text("trigger").parse::<Trigger>().ok();
            let form = blank_form(&signed, unit, trigger).await?.again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &form_page(&signed, &cookies, form))
        }
    }
}

/// The faults, with that of the end, whose day is the organization's.
fn with_end(error: &Error, sent: &Value, zone: &TimeZone) -> Error {
    let mut faults = error.faults();
    let says = sent.as_object().and_then(|fields| ends_too_early(fields, zone));
    if let Some(says) = says.filter(|_| !faults.iter().any(|fault| fault.pointer == "/until")) {
        faults.push(Fault::new("/until", says));
    }
    Error::Faults(faults)
}

fn form_page(signed: &Signed, cookies: &Cookies, form: Form) -> FormPage {
    let words = signed.actor.words();
    FormPage::new(Page::new(signed, cookies, say!(words, "waiver-title"), "/"), form).intro(say!(words, "waiver-intro"))
}

async fn blank_form(signed: &Signed, unit: MeteringUnitId, trigger: Option<Trigger>) -> Result<Form, Error> {
    let mut conn = signed.app.read().await?;
    let row = act::find_unit(&mut conn.cx(), &signed.actor.scope, unit).await?;
    let words = signed.actor.words();
    let triggers = Trigger::ALL
        .into_iter()
        .filter(|trigger| trigger.can_be_waived())
        .map(|trigger| (trigger.as_str(), super::sentence::in_words(trigger, words)));
    let fields = vec![
        FormField::new("trigger", say!(words, "waiver-trigger", seeder = &row.seeder, unit = &row.label))
            .choice(triggers)
            .value(trigger.map(Trigger::as_str).unwrap_or_default()),
        FormField::new("occurred_at", say!(words, "waiver-from"))
            .kind(FieldKind::Moment)
            .value(typed(signed.app.clock.now(), &signed.actor.time_zone)),
        FormField::new("until", say!(words, "waiver-until")).kind(FieldKind::Date),
        FormField::new("reason", say!(words, "waiver-reason")).hint(say!(words, "waiver-reason-hint")),
    ];
    let action = format!("/metering-units/{unit}/waivers");
    let mut form = Form::new(action, say!(words, "waiver-submit"), fields).creating(signed.app.clock.new_id()?);
    if let Some(trigger) = trigger.filter(|trigger| trigger.can_be_waived()) {
        form.note = consequence(&mut conn.cx(), signed, unit, trigger).await?;
    }
    Ok(form)
}
