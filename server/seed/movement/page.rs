//! The form that records a movement.

use super::act::{self, MovementDraft, MovementKind};
use crate::access::Permission;
use crate::db::kind::Kind;
use crate::seed::log::{LogPage, mass_field, moment_field, note_field};
use crate::seed::lot;
use crate::sync::mend::Mend;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page};
use crate::web::routes::{Need, Route};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::LotId;
use sowmark_core::say;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/lots/{id}/movements/new", Need::May(Permission::KeepLots), new_movement_page),
        crate::route!(page POST "/lots/{id}/movements", Need::May(Permission::KeepLots), post_movement),
    ]
}

async fn new_movement_page(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    mend: Mend,
) -> Result<Response, Error> {
    let form = mend.form(&signed, Kind::Movement, movement_form(&signed, LotId(id))?)?;
    movement_page(&signed, &cookies, LotId(id), form).await?.show()
}

async fn post_movement(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let sent = posted.tree(&signed.actor.time_zone);
    let recorded = match input::read::<MovementDraft>(&sent) {
        Ok(draft) => act::record_movement(&signed, LotId(id), draft, sent).await,
        Err(error) => Err(error),
    };
    match recorded {
        Ok(_) => Ok(Redirect::to(&format!("/lots/{id}")).into_response()),
        Err(error) => {
            let form = movement_form(&signed, LotId(id))?.again(&posted, &error);
            movement_page(&signed, &cookies, LotId(id), form).await?.show()
        }
    }
}

async fn movement_page(signed: &Signed, cookies: &Cookies, id: LotId, form: Form) -> Result<LogPage, Error> {
    let mut conn = signed.app.read().await?;
    let lot = lot::act::find_lot(&mut conn.cx(), &signed.actor.scope, id).await?;
    let words = signed.actor.words();
    let page = Page::new(signed, cookies, say!(words, "movement-title", lot = lot.in_words(words)), "/lots");
    Ok(LogPage::new(page, form).intro(say!(words, "movement-intro")))
}

fn movement_form(signed: &Signed, lot: LotId) -> Result<Form, Error> {
    let words = signed.actor.words();
    let fields = vec![
        moment_field(signed, "occurred_at", &say!(words, "log-when")),
        FormField::new("kind", say!(words, "movement-kind"))
            .choice(MovementKind::ALL.iter().map(|kind| (kind.word(), kind.says(words)))),
        mass_field(signed, "mass", say!(words, "log-mass")),
        note_field(words),
    ];
    let form = Form::new(format!("/lots/{lot}/movements"), say!(words, "movement-submit"), fields);
    Ok(form.creating(signed.app.clock.new_id()?))
}
