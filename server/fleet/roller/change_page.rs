//! The form that changes a roller.

use super::act::find_roller;
use super::change::change_roller;
use super::page::roller_fields;
use super::store::RollerRow;
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
use sowmark_core::ids::RollerId;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/rollers/{id}/change", Need::May(Permission::KeepFleet), change_roller_page),
        crate::route!(page POST "/rollers/{id}/change", Need::May(Permission::KeepFleet), post_roller_change),
    ]
}

async fn known(signed: &Signed, id: Uuid) -> Result<(RollerRow, Form), Error> {
    let roller = find_roller(&mut signed.app.read().await?.cx(), &signed.actor.scope, RollerId(id)).await?;
    let words = signed.actor.words();
    let form = Form::changing(format!("/rollers/{id}/change"), roller_fields(words), &roller.tree()?, signed)
        .telling("displacement_per_rev", say!(words, "roller-change-displacement"));
    Ok((roller, form))
}

async fn change_roller_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let (roller, form) = known(&signed, id).await?;
    page_of(&signed, &cookies, &roller, form).show()
}

async fn post_roller_change(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let signed = signed.as_of_now(&posted).await?;
    let (roller, form) = known(&signed, id).await?;
    let mine = form.mine(&signed, (Kind::Roller, Some(id)), &posted).await?;
    let stored = match mine.may_be_stored() {
        Ok(()) => {
            change_roller(&signed, RollerId(id), &Change::wished(&form, &mine.posted, &signed.actor.time_zone)).await
        }
        Err(clash) => Err(clash),
    };
    match stored {
        Ok(()) => Ok(Redirect::to("/rollers").into_response()),
        Err(error) => page_of(&signed, &cookies, &roller, form.again(&mine.posted, &error)).show(),
    }
}

fn page_of(signed: &Signed, cookies: &Cookies, roller: &RollerRow, form: Form) -> FormPage {
    change_page(signed, cookies, (&roller.label, "/keeping"), form)
}
