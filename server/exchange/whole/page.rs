//! The page from which the office takes everything away.

use crate::access::Permission;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::Response;
use sowmark_core::say;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/exchange/whole", Need::May(Permission::KeepPeople), whole_page)]
}

#[derive(Template)]
#[template(path = "exchange/whole.html")]
struct WholePage {
    page: Page,
    /// For the host's command line.
    command: String,
}

async fn whole_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let page = Page::new(&signed, &cookies, say!(signed.actor.words(), "whole-title"), "/audit");
    let command = format!("sowmark organization import {}", super::file_name(signed.actor.organization()));
    show(&WholePage { page, command })
}
