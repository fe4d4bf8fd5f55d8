//! The page of fields: the list, and the form that adds one.

use super::act::{self, FieldDraft};
use super::store::FieldRow;
use crate::access::{Permission, Units};
use crate::seed::client;
use crate::seed::client::store::ClientRow;
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
        crate::route!(page GET "/fields", Need::May(Permission::ReadFleet), fields_page),
        crate::route!(page GET "/fields/new", Need::May(Permission::KeepFleet), new_field_page),
        crate::route!(page POST "/fields", Need::May(Permission::KeepFleet), post_field),
    ]
}

#[derive(Template)]
#[template(path = "seed/fields.html")]
struct FieldsPage {
    page: Page,
    fields: Vec<FieldRow>,
    may_keep: bool,
}

async fn fields_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let fields = act::fields(&mut conn.cx(), &signed.actor.scope).await?;
    let may_keep = signed.actor.may(Permission::KeepFleet);
    show(&FieldsPage {
        page: Page::new(&signed, &cookies, say!(signed.actor.words(), "fields-title"), "/keeping"),
        fields,
        may_keep,
    })
}

async fn new_field_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let form = field_form(&signed).await?.creating(signed.app.clock.new_id()?);
    show(&FormPage::new(new_field(&signed, &cookies), form))
}

async fn post_field(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match input::read::<FieldDraft>(&sent) {
        Ok(draft) => act::add_field(&signed, draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(_) => Ok(Redirect::to("/fields").into_response()),
        Err(error) => {
            let form = field_form(&signed).await?.creating(signed.app.clock.new_id()?).again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &FormPage::new(new_field(&signed, &cookies), form))
        }
    }
}

fn new_field(signed: &Signed, cookies: &Cookies) -> Page {
    Page::new(signed, cookies, say!(signed.actor.words(), "fields-add"), "/keeping")
}

async fn field_form(signed: &Signed) -> Result<Form, Error> {
    Ok(Form::new("/fields", say!(signed.actor.words(), "fields-submit"), field_fields(signed).await?))
}

pub(super) async fn field_fields(signed: &Signed) -> Result<Vec<FormField>, Error> {
    let mut conn = signed.app.read().await?;
    let clients: Vec<ClientRow> = client::act::clients(&mut conn.cx(), &signed.actor.scope).await?;
    let words = signed.actor.words();
    let area = match signed.actor.units {
        Units::Metric => "ha",
        Units::Us => "ac",
    };
    let mut fields = vec![
        FormField::new("name", say!(words, "fields-name")),
        FormField::new("area", say!(words, "fields-area-sown")).measured(&["ha", "ac", "m2"], area),
    ];
    if !clients.is_empty() {
        fields.push(client_field(&clients, words));
    }
    Ok(fields)
}

/// Whose it is: one of the clients, or the organization's own.
pub(crate) fn client_field(clients: &[ClientRow], words: Words) -> FormField {
    let own = (String::new(), say!(words, "client-own"));
    let choices = std::iter::once(own).chain(client::act::clients_in_choice(clients));
    FormField::new("client_id", say!(words, "client-whose")).choice(choices).optional()
}
