//! What to do about a record that was wrong: enter it again as it should have been, or void it.

use super::act::{self, VoidDraft};
use super::correct;
use super::head::Head;
use crate::access::Permission;
use crate::audit;
use crate::db::kind::Kind;
use crate::sync::told::{self, Names};
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind as FieldKind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::{IntoResponse, Redirect, Response};
use serde_json::Value;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/records/{id}/void", Need::May(Permission::Void), void_page),
        crate::route!(page POST "/records/{id}/void", Need::May(Permission::Void), post_void),
    ]
}

/// A record to be voided, and the page to go back to.
struct Known {
    kind: Kind,
    head: Head,
    back: String,
    /// Where it is entered again, if it can be.
    correcting: Option<String>,
    /// What it belongs to, and what was sent for it, line by line.
    of: String,
    lines: Vec<(String, String)>,
}

async fn known(signed: &Signed, id: Uuid) -> Result<Known, Error> {
    let mut conn = signed.app.read().await?;
    let (kind, subject) = act::find_subject(&mut conn.cx(), &signed.actor, id).await?;
    let head = act::find_head(&mut conn.cx(), &signed.actor, id).await?;
    let back = match (subject.seeder_id, subject.lot_id) {
        (Some(seeder), _) => format!("/seeders/{seeder}"),
        (None, Some(lot)) => format!("/lots/{lot}"),
        (None, None) => "/scales".to_owned(),
    };
    let actor = &signed.actor;
    let names = Names::gather(&mut conn.cx(), &actor.scope, actor.words()).await?;
    let belongs = subject.metering_unit_id.or(subject.seeder_id).or(subject.scale_id).or(subject.lot_id);
    let of = belongs.and_then(|id| names.named(id)).unwrap_or_default().to_owned();
    let correcting = correct::correcting(kind, id, &subject);
    let sent = match correcting {
        Some(_) => audit::created(&mut conn.cx(), actor.organization(), kind, id).await?,
        None => None,
    };
    let lines = sent.map(|sent| told::lines(&brief(kind, sent), &names, actor)).unwrap_or_default();
    let correcting = correcting.filter(|_| head.stands());
    Ok(Known { kind, head, back, correcting, of, lines })
}

/// What tells it from another of the same minute: of a catch, whose record one comes from, its seed and scale; of a movement not
/// its kind, which the lot's page says; never the moment, which is told before.
fn brief(kind: Kind, mut sent: Value) -> Value {
    if let Value::Object(fields) = &mut sent {
        fields.retain(|name, _| match name.as_str() {
            "occurred_at" | "corrects" | "kind" => false,
            name => kind != Kind::Calibration || ["lot_id", "scale_id", "note"].contains(&name),
        });
    }
    sent
}

async fn void_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let known = known(&signed, id).await?;
    if !signed.actor.may_amend(known.head.recorded(), known.head.recorded_by, signed.app.clock.now()) {
        return Err(Error::Forbidden);
    }
    page_of(&signed, &cookies, &known, void_form(&signed, id)?)
}

async fn post_void(signed: Signed, cookies: Cookies, PathId(id): PathId, posted: Posted) -> Result<Response, Error> {
    let known = known(&signed, id).await?;
    let sent = posted.tree(&signed.actor.time_zone);
    let voided = match input::read::<VoidDraft>(&sent) {
        Ok(draft) => act::void_record(&signed, id, draft, sent).await,
        Err(error) => Err(error),
    };
    match voided {
        Ok(_) => Ok(Redirect::to(&known.back).into_response()),
        Err(error @ (Error::Faults(_) | Error::Conflict { .. })) => {
            page_of(&signed, &cookies, &known, void_form(&signed, id)?.again(&posted, &error))
        }
        Err(other) => Err(other),
    }
}

/// The page of a record that was wrong.
#[derive(Template)]
#[template(path = "records/wrong.html")]
struct WrongPage {
    page: Page,
    form: Form,
    intro: String,
    of: String,
    lines: Vec<(String, String)>,
    correcting: Option<String>,
    /// Void, it lets what it replaced stand again.
    replaces: &'static str,
}

fn page_of(signed: &Signed, cookies: &Cookies, known: &Known, form: Form) -> Result<Response, Error> {
    let (words, kind) = (signed.actor.words(), known.kind.word());
    let (when, by) = (known.head.when(&signed.actor.time_zone, words), known.head.by(words));
    let title = if known.correcting.is_some() { "wrong-title" } else { "void-title" };
    let page = Page::new(signed, cookies, say!(words, title, kind = kind), "/seeders");
    let intro = say!(words, "wrong-intro", kind = kind, when = when, by = by);
    let status = form.status();
    let replaces = if known.head.corrects.is_some() { "yes" } else { "no" };
    let (of, lines, correcting) = (known.of.clone(), known.lines.clone(), known.correcting.clone());
    show_with(status, &WrongPage { page, form, intro, of, lines, correcting, replaces })
}

fn void_form(signed: &Signed, id: Uuid) -> Result<Form, Error> {
    let words = signed.actor.words();
    let fields = vec![
        FormField::new("reason", say!(words, "void-reason"))
            .kind(FieldKind::Text)
            .hint(say!(words, "void-reason-hint")),
    ];
    let form = Form::new(format!("/records/{id}/void"), say!(words, "void-submit"), fields);
    Ok(form.creating(signed.app.clock.new_id()?))
}
