//! The form that changes a client.

use super::act::find_client;
use super::change::change_client;
use super::page::client_fields;
use super::store::ClientRow;
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
use sowmark_core::ids::ClientId;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/clients/{id}/change", Need::May(Permission::KeepFleet), change_client_page),
        crate::route!(page POST "/clients/{id}/change", Need::May(Permission::KeepFleet), post_client_change),
    ]
}

async fn known(signed: &Signed, id: Uuid) -> Result<(ClientRow, Form), Error> {
    let client = find_client(&mut signed.app.read().await?.cx(), &signed.actor.scope, ClientId(id)).await?;
    let fields = client_fields(signed.actor.words());
    let form = Form::changing(format!("/clients/{id}/change"), fields, &client.tree(), signed);
    Ok((client, form))
}

async fn change_client_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let (client, form) = known(&signed, id).await?;
    page_of(&signed, &cookies, &client, form).show()
}

async fn post_client_change(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let signed = signed.as_of_now(&posted).await?;
    let (client, form) = known(&signed, id).await?;
    let mine = form.mine(&signed, (Kind::Client, Some(id)), &posted).await?;
    let stored = match mine.may_be_stored() {
        Ok(()) => {
            change_client(&signed, ClientId(id), &Change::wished(&form, &mine.posted, &signed.actor.time_zone)).await
        }
        Err(clash) => Err(clash),
    };
    match stored {
        Ok(()) => Ok(Redirect::to("/clients").into_response()),
        Err(error) => page_of(&signed, &cookies, &client, form.again(&mine.posted, &error)).show(),
    }
}

fn page_of(signed: &Signed, cookies: &Cookies, client: &ClientRow, form: Form) -> FormPage {
    change_page(signed, cookies, (&client.name, "/keeping"), form)
}
