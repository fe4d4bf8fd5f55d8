//! The form that changes a lot.

use super::act::{LotDraft, find_lot};
use super::change::change_lot;
use super::page::lot_fields;
use super::store::LotRow;
use crate::access::Permission;
use crate::db::kind::Kind;
use crate::web::api::PathId;
use crate::web::change::{Change, Changeable, change_page};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted};
use crate::web::page::{Cookies, FormPage};
use crate::web::routes::{Need, Route};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::LotId;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/lots/{id}/change", Need::May(Permission::KeepLots), change_lot_page),
        crate::route!(page POST "/lots/{id}/change", Need::May(Permission::KeepLots), post_lot_change),
    ]
}

async fn known(signed: &Signed, id: Uuid) -> Result<(LotRow, Form), Error> {
    let lot = find_lot(&mut signed.app.read().await?.cx(), &signed.actor.scope, LotId(id)).await?;
    let words = signed.actor.words();
    let stays = |field: &FormField| LotDraft::STAYS.iter().any(|(name, _)| field.is_of(name));
    let mut fields = lot_fields(signed).await?;
    fields.retain(|field| !stays(field));
    let form = Form::changing(format!("/lots/{id}/change"), fields, &lot.tree()?, signed)
        .fold(say!(words, "label-more"))
        .telling("crop", say!(words, "lot-change-crop"))
        .telling("client_id", say!(words, "change-client"));
    Ok((lot, form))
}

async fn change_lot_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let (lot, form) = known(&signed, id).await?;
    page_of(&signed, &cookies, &lot, form).show()
}

async fn post_lot_change(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let signed = signed.as_of_now(&posted).await?;
    let (lot, form) = known(&signed, id).await?;
    let mine = form.mine(&signed, (Kind::Lot, Some(id)), &posted).await?;
    let stored = match mine.may_be_stored() {
        Ok(()) => change_lot(&signed, LotId(id), &Change::wished(&form, &mine.posted, &signed.actor.time_zone)).await,
        Err(clash) => Err(clash),
    };
    match stored {
        Ok(()) => Ok(Redirect::to(&format!("/lots/{id}")).into_response()),
        Err(error) => page_of(&signed, &cookies, &lot, form.again(&mine.posted, &error)).show(),
    }
}

fn page_of(signed: &Signed, cookies: &Cookies, lot: &LotRow, form: Form) -> FormPage {
    let words = signed.actor.words();
    let what = say!(words, "lot-title", number = &lot.lot_number);
    change_page(signed, cookies, (&what, "/lots"), form).intro(say!(words, "lot-change-intro"))
}
