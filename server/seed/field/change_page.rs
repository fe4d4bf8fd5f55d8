//! The form that changes a field.

use super::act::find_field;
use super::change::change_field;
use super::page::field_fields;
use super::store::FieldRow;
use crate::access::Permission;
use crate::db::kind::Kind;
use crate::web::api::PathId;
use crate::web::change::{Change, change_page};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, Posted};
use crate::web::page::{Cookies, FormPage};
use crate::web::routes::{Need, Route};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::FieldId;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/fields/{id}/change", Need::May(Permission::KeepFleet), change_field_page),
        crate::route!(page POST "/fields/{id}/change", Need::May(Permission::KeepFleet), post_field_change),
    ]
}

async fn known(signed: &Signed, id: Uuid) -> Result<(FieldRow, Form), Error> {
    let field = find_field(&mut signed.app.read().await?.cx(), &signed.actor.scope, FieldId(id)).await?;
    let words = signed.actor.words();
    let form = Form::changing(format!("/fields/{id}/change"), field_fields(signed).await?, &field.tree()?, signed)
        .telling("area", say!(words, "field-change-area"))
        .telling("client_id", say!(words, "change-client"));
    Ok((field, form))
}

async fn change_field_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let (field, form) = known(&signed, id).await?;
    page_of(&signed, &cookies, &field, form).show()
}

async fn post_field_change(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let signed = signed.as_of_now(&posted).await?;
    let (field, form) = known(&signed, id).await?;
    let mine = form.mine(&signed, (Kind::Field, Some(id)), &posted).await?;
    let stored = match mine.may_be_stored() {
        Ok(()) => {
            change_field(&signed, FieldId(id), &Change::wished(&form, &mine.posted, &signed.actor.time_zone)).await
        }
        Err(clash) => Err(clash),
    };
    match stored {
        Ok(()) => Ok(Redirect::to("/fields").into_response()),
        Err(error) => page_of(&signed, &cookies, &field, form.again(&mine.posted, &error)).show(),
    }
}

fn page_of(signed: &Signed, cookies: &Cookies, field: &FieldRow, form: Form) -> FormPage {
    change_page(signed, cookies, (&field.name, "/keeping"), form)
}
