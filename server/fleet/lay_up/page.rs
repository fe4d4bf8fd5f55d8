//! The short form that lays a seeder up, or takes it back into use.

use super::act::{self, LayUpDraft};
use crate::access::Permission;
use crate::db::kind::Kind as Entry;
use crate::fleet::seeder::act::{SeederRow, find_seeder};
use crate::records::head::moment_field;
use crate::sync::mend::Mend;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, FormPage, Page};
use crate::web::routes::{Need, Route};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::SeederId;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/seeders/{id}/lay-ups/new", Need::May(Permission::KeepFleet), new_lay_up_page),
        crate::route!(page POST "/seeders/{id}/lay-ups", Need::May(Permission::KeepFleet), post_lay_up),
    ]
}

async fn known(signed: &Signed, id: Uuid) -> Result<(SeederRow, bool), Error> {
    let (scope, id) = (&signed.actor.scope, SeederId(id));
    let mut conn = signed.app.read().await?;
    let seeder = find_seeder(&mut conn.cx(), scope, id).await?;
    let now = act::in_force(&mut conn.cx(), scope, id, signed.app.clock.now()).await?;
    Ok((seeder, now.is_some_and(|row| row.laid_up)))
}

async fn new_lay_up_page(signed: Signed, cookies: Cookies, PathId(id): PathId, mend: Mend) -> Result<Response, Error> {
    let (seeder, laid_up) = known(&signed, id).await?;
    let form = mend.form(&signed, Entry::LayUp, lay_up_form(&signed, &seeder, laid_up)?)?;
    page_of(&signed, &cookies, &seeder, form).show()
}

async fn post_lay_up(signed: Signed, cookies: Cookies, PathId(id): PathId, posted: Posted) -> Result<Response, Error> {
    let (seeder, laid_up) = known(&signed, id).await?;
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match input::read::<LayUpDraft>(&sent) {
        Ok(draft) => act::add_lay_up(&signed, SeederId(id), draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(_) => Ok(Redirect::to(&format!("/seeders/{id}")).into_response()),
        Err(error) => {
            let form = lay_up_form(&signed, &seeder, laid_up)?.again(&posted, &error);
            page_of(&signed, &cookies, &seeder, form).show()
        }
    }
}

fn page_of(signed: &Signed, cookies: &Cookies, seeder: &SeederRow, form: Form) -> FormPage {
    let words = signed.actor.words();
    let title = say!(words, "lay-up-title", seeder = &seeder.name);
    FormPage::new(Page::new(signed, cookies, title, "/seeders"), form).intro(say!(words, "lay-up-intro"))
}

fn lay_up_form(signed: &Signed, seeder: &SeederRow, laid_up: bool) -> Result<Form, Error> {
    let words = signed.actor.words();
    let fields = vec![
        moment_field(signed, "occurred_at", &say!(words, "record-from-when")),
        FormField::new("laid_up", say!(words, "lay-up-what"))
            .value(if laid_up { "false" } else { "true" })
            .choice([("true", say!(words, "lay-up-laid-up")), ("false", say!(words, "lay-up-in-use"))]),
        FormField::new("note", say!(words, "record-note")).kind(Kind::Area).optional(),
    ];
    let form = Form::new(format!("/seeders/{}/lay-ups", seeder.id), say!(words, "lay-up-submit"), fields);
    Ok(form.creating(signed.app.clock.new_id()?))
}
