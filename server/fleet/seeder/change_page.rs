//! The form that changes a seeder's name or serial number.

use super::act::{self, SeederChange, SeederRow, find_seeder};
use crate::access::Permission;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted};
use crate::web::input;
use crate::web::page::{Cookies, FormPage, Page};
use crate::web::routes::{Need, Route};
use axum::response::{IntoResponse, Redirect, Response};
use serde_json::{Value, json};
use sowmark_core::ids::SeederId;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/seeders/{id}/change", Need::May(Permission::KeepFleet), change_seeder_page),
        crate::route!(page POST "/seeders/{id}/change", Need::May(Permission::KeepFleet), post_seeder_change),
    ]
}

async fn found(signed: &Signed, id: Uuid) -> Result<SeederRow, Error> {
    find_seeder(&mut signed.app.read().await?.cx(), &signed.actor.scope, SeederId(id)).await
}

async fn change_seeder_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let seeder = found(&signed, id).await?;
    page_of(&signed, &cookies, &seeder, change_form(&seeder)).show()
}

async fn post_seeder_change(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let seeder = found(&signed, id).await?;
    let changed = match input::read::<SeederChange>(&wished(&posted)) {
        Ok(change) => act::change_seeder(&signed, SeederId(id), change).await,
        Err(error) => Err(error),
    };
    match changed {
        Ok(()) => Ok(Redirect::to(&format!("/seeders/{id}")).into_response()),
        Err(error) => page_of(&signed, &cookies, &seeder, change_form(&seeder).again(&posted, &error)).show(),
    }
}

/// What the form wishes. Its fields show what there is, so one that was emptied is to be taken away, not to be left.
fn wished(posted: &Posted) -> Value {
    json!({ "name": posted.text("name"), "serial_number": posted.text("serial_number") })
}

fn page_of(signed: &Signed, cookies: &Cookies, seeder: &SeederRow, form: Form) -> FormPage {
    FormPage::new(Page::new(signed, cookies, format!("Name of {}", seeder.name), "/seeders"), form)
        .intro("What was recorded of the machine stays with it. The change is in the audit trail.")
}

fn change_form(seeder: &SeederRow) -> Form {
    let serial = seeder.serial_number.clone().unwrap_or_default();
    let fields = vec![
        FormField::new("name", "Name").value(seeder.name.clone()).hint("What your people call the machine."),
        FormField::new("serial_number", "Serial number").value(serial).optional(),
    ];
    Form::new(format!("/seeders/{}/change", seeder.id), "Save the change", fields)
}
