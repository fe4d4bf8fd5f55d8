//! The form that changes a scale.

use super::act::{ScaleRow, find_scale};
use super::change::change_scale;
use super::page::scale_fields;
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
use sowmark_core::ids::ScaleId;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/scales/{id}/change", Need::May(Permission::KeepFleet), change_scale_page),
        crate::route!(page POST "/scales/{id}/change", Need::May(Permission::KeepFleet), post_scale_change),
    ]
}

async fn known(signed: &Signed, id: Uuid) -> Result<(ScaleRow, Form), Error> {
    let scale = find_scale(&mut signed.app.read().await?.cx(), &signed.actor.scope, ScaleId(id)).await?;
    let words = signed.actor.words();
    let form = Form::changing(format!("/scales/{id}/change"), scale_fields(signed), &scale.tree()?, signed)
        .telling("readability", say!(words, "scale-change-step"))
        .telling("capacity", say!(words, "scale-change-capacity"));
    Ok((scale, form))
}

async fn change_scale_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let (scale, form) = known(&signed, id).await?;
    page_of(&signed, &cookies, &scale, form).show()
}

async fn post_scale_change(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let signed = signed.as_of_now(&posted).await?;
    let (scale, form) = known(&signed, id).await?;
    let mine = form.mine(&signed, (Kind::Scale, Some(id)), &posted).await?;
    let stored = match mine.may_be_stored() {
        Ok(()) => {
            change_scale(&signed, ScaleId(id), &Change::wished(&form, &mine.posted, &signed.actor.time_zone)).await
        }
        Err(clash) => Err(clash),
    };
    match stored {
        Ok(()) => Ok(Redirect::to("/scales").into_response()),
        Err(error) => page_of(&signed, &cookies, &scale, form.again(&mine.posted, &error)).show(),
    }
}

fn page_of(signed: &Signed, cookies: &Cookies, scale: &ScaleRow, form: Form) -> FormPage {
    change_page(signed, cookies, (&scale.name, "/keeping"), form)
}
