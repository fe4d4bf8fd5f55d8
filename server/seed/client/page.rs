//! The page of clients: the list, and the form that adds one.

use super::act::{self, ClientDraft};
use super::store::ClientRow;
use crate::access::Permission;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted};
use crate::web::input;
use crate::web::page::{Cookies, FormPage, Page, show, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::say;
use sowmark_core::words::Words;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/clients", Need::May(Permission::KeepFleet), clients_page),
        crate::route!(page GET "/clients/new", Need::May(Permission::KeepFleet), new_client_page),
        crate::route!(page POST "/clients", Need::May(Permission::KeepFleet), post_client),
    ]
}

#[derive(Template)]
#[template(path = "seed/clients.html")]
struct ClientsPage {
    page: Page,
    clients: Vec<ClientRow>,
}

async fn clients_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let clients = act::clients(&mut conn.cx(), &signed.actor.scope).await?;
    show(&ClientsPage {
        page: Page::new(&signed, &cookies, say!(signed.actor.words(), "clients-title"), "/keeping"),
        clients,
    })
}

async fn new_client_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let form = client_form(signed.actor.words()).creating(signed.app.clock.new_id()?);
    show(&FormPage::new(new_client(&signed, &cookies), form))
}

async fn post_client(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match input::read::<ClientDraft>(&sent) {
        Ok(draft) => act::add_client(&signed, draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(_) => Ok(Redirect::to("/clients").into_response()),
        Err(error) => {
            let form = client_form(signed.actor.words()).creating(signed.app.clock.new_id()?).again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &FormPage::new(new_client(&signed, &cookies), form))
        }
    }
}

fn new_client(signed: &Signed, cookies: &Cookies) -> Page {
    Page::new(signed, cookies, say!(signed.actor.words(), "client-add"), "/keeping")
}

fn client_form(words: Words) -> Form {
    Form::new("/clients", say!(words, "client-submit"), client_fields(words))
}

pub(super) fn client_fields(words: Words) -> Vec<FormField> {
    vec![FormField::new("name", say!(words, "client-name")).hint(say!(words, "client-name-hint"))]
}
