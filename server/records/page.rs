//! What to do about a record that was wrong: enter it again as it should have been, or void it.

use super::act::{self, VoidDraft};
use super::correct;
use super::head::Head;
use crate::access::Permission;
use crate::db::kind::Kind;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind as FieldKind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::{IntoResponse, Redirect, Response};
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
    Ok(Known { kind, head, back, correcting: correct::correcting(kind, id, &subject) })
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
    correcting: Option<String>,
}

fn page_of(signed: &Signed, cookies: &Cookies, known: &Known, form: Form) -> Result<Response, Error> {
    let (words, kind) = (signed.actor.words(), known.kind.word());
    let (when, by) = (known.head.when(&signed.actor.time_zone, words), known.head.by(words));
    let title = if known.correcting.is_some() { "wrong-title" } else { "void-title" };
    let page = Page::new(signed, cookies, say!(words, title, kind = kind), "/seeders");
    let intro = say!(words, "wrong-intro", kind = kind, when = when, by = by);
    let status = form.status();
    show_with(status, &WrongPage { page, form, intro, correcting: known.correcting.clone() })
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
