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
    show(&ClientsPage { page: Page::new(&signed, &cookies, "Clients", "/keeping"), clients })
}

async fn new_client_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let form = client_form().creating(signed.app.clock.new_id()?);
    show(&FormPage::new(Page::new(&signed, &cookies, "Add a client", "/keeping"), form))
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
            let page = Page::new(&signed, &cookies, "Add a client", "/keeping");
            let form = client_form().creating(signed.app.clock.new_id()?).again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &FormPage::new(page, form))
        }
    }
}

fn client_form() -> Form {
    let name = FormField::new("name", "Name").hint("For whom you sow: fields and lots can then belong to them.");
    Form::new("/clients", "Add the client", vec![name])
}
