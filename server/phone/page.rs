//! The Outbox: what waits on this phone. The server knows none of it; the page's script reads it from the phone.

use crate::access::Permission;
use crate::web::assets;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::Response;
use sowmark_core::say;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/outbox", Need::May(Permission::Log), outbox_page),
        crate::route!(page GET "/offline", Need::Anyone, offline_page),
    ]
}

#[derive(Template)]
#[template(path = "phone/outbox.html")]
struct OutboxPage {
    page: Page,
    script_href: String,
    /// It stands in for a page that this phone has not kept.
    in_place_of_another: bool,
}

async fn outbox_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let page = Page::new(&signed, &cookies, say!(signed.actor.words(), "nav-outbox"), "/outbox");
    show(&OutboxPage { page, script_href: assets::href("waiting.js"), in_place_of_another: false })
}

/// What the worker shows when there is no signal and the page that is wanted is not kept. Made for nobody in particular.
async fn offline_page(cookies: Cookies) -> Result<Response, Error> {
    let page = Page::open(&cookies, say!(cookies.words(), "outbox-nothing-kept-title"));
    show(&OutboxPage { page, script_href: assets::href("waiting.js"), in_place_of_another: true })
}
